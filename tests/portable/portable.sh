#!/bin/sh
# portable.sh BUILD MAKE...: builds the program with other compilers and for other machines, each in its own folder below
# BUILD/portable, and asks each for the same as the native program (same.sh).  What cannot be tried here, since a package cannot be
# had, is named as skipped; all else must pass.
build=$1
shift
make=$*
here=tests/portable
portable=$build/portable
sources=$portable/sources
failed=""
skipped=""

packages() {
    sh tests/support/packages.sh "$@" && return 0
    skipped="$skipped, $part"
    return 1
}

# sources FOLDER COMPILER...
libraries() {
    sh $here/libraries.sh "$sources" "$@" && return 0
    skipped="$skipped, $part"
    return 1
}

# compiled VARIABLES...: builds in the folder of this part; warnings are errors.  The library's tables are the same everywhere: where
# the program is for another machine, the native build's make_library writes them.
native="MAKE_LIBRARY=$build/make_library"
compiled() {
    $make BUILD="$portable/$folder" LTO= NO_LTO= "$@" && return 0
    failed="$failed, $part"
    return 1
}

compared() {
    sh $here/same.sh "$build/potash" "$@" || failed="$failed, $part"
}

# Where Pango cannot be had, the answer is a plain one.
says_no_pdf() {
    said=$("$@" sheet samples/stop-bath.bath --as pdf 2>&1 >/dev/null)
    [ $? = 2 ] && [ "$said" = "potash: this build makes no PDF; --as html gives a page that prints well" ] && return 0
    echo "--as pdf: $said"
    failed="$failed, $part"
}

part="clang"
folder=clang
echo "== $part"
if packages $CLANG_PACKAGES; then
    compiled CC=clang CFLAGS="-O1 -Werror" all && compared "$portable/clang/potash"
fi

# SSE2 does the arithmetic of doubles as other machines do it; the x87 would carry digits more.
part="x86 with 32 bits"
folder=x86-32
echo "== $part"
compiler="gcc -m32 -msse2 -mfpmath=sse -idirafter /usr/include/$(gcc -print-multiarch)"
if [ "$(uname -m)" != x86_64 ]; then
    skipped="$skipped, $part"
elif packages $X86_32_PACKAGES && libraries "$portable/$folder/libraries" $compiler &&
    compiled $native CC="$compiler" CFLAGS="-O1 -Werror" PDF=no PKG_CFLAGS="-isystem $sources/include" \
        LIBS="$portable/$folder/libraries/libraries.a -lm" all; then
    program=$portable/$folder/potash
    "$program" --version >/dev/null 2>&1 || program="qemu-i386 $program" # the kernel may have been built without such programs
    compared $program
    says_no_pdf $program
fi

part="WebAssembly under Node"
folder=wasm
echo "== $part"
if packages $WASM_PACKAGES; then
    if ! AR=emar libraries "$portable/$folder/libraries" clang $(emcc --cflags); then
        :
    elif ! $make BUILD="$build" wasm; then
        failed="$failed, $part"
    else
        compared node "$portable/$folder/potash.js"
        says_no_pdf node "$portable/$folder/potash.js"
    fi
fi

[ -z "$skipped" ] || echo "skipped:${skipped#,}"
[ -z "$failed" ] || { echo "failed:${failed#,}"; exit 1; }
