#!/bin/sh
# libraries.sh SOURCES FOLDER COMPILER...: builds what the program needs of jansson, utf8proc, libqrencode and nettle (one digest) into
# FOLDER/libraries.a, from Debian's sources, which are fetched into SOURCES once; headers go to SOURCES/include.  What `configure`
# would find out is little enough to be said here, and holds on every machine.  Fails with the reason when the sources cannot be had.
sources=$1
folder=$2
shift 2
mkdir -p "$sources" "$folder" || exit 1
sources=$(cd "$sources" && pwd)
folder=$(cd "$folder" && pwd)

# The system's lists name packages that are built; those of their sources are kept here, and nothing of the system is changed.
if [ ! -e "$sources/include/qrencode.h" ]; then
    log=$sources/log
    mkdir -p "$sources/parts" "$sources/lists/partial"
    for list in /etc/apt/sources.list.d/*.sources; do
        [ -e "$list" ] && sed 's/^Types:.*/Types: deb-src/' "$list" >"$sources/parts/${list##*/}"
    done
    cat /etc/apt/sources.list /etc/apt/sources.list.d/*.list 2>/dev/null | sed -n 's/^deb /deb-src /p' >"$sources/parts/more.list"
    (
        cd "$sources" || exit 1
        apt="apt-get -q -o Dir::Etc::sourcelist=/dev/null -o Dir::Etc::sourceparts=$sources/parts
             -o Dir::State::lists=$sources/lists -o APT::Sandbox::User=root"
        $apt update
        # Where a mirror lacks Debian's changes, the source as its authors published it does as well.
        for package in jansson utf8proc nettle qrencode; do
            $apt source $package || { $apt --tar-only source $package && tar -xf ${package}_*.orig.tar.*[!c]; }
        done
    ) >"$log" 2>&1
    cd "$sources" || exit 1
    if [ ! -e "$(echo jansson-*/src/jansson.h)" ] || [ ! -e "$(echo utf8proc-*/utf8proc.c)" ] || [ ! -e "$(echo nettle-*/sha256.c)" ] ||
        [ ! -e "$(echo qrencode-*/qrencode.c)" ]; then
        echo "the sources of jansson, utf8proc, nettle and libqrencode cannot be fetched: $(tail -n 1 "$log")" >&2
        exit 1
    fi
    mkdir -p include
    cp jansson-*/src/jansson.h jansson-*/android/jansson_config.h utf8proc-*/utf8proc.h /usr/include/uthash.h include/
    ln -sfn ../"$(echo nettle-*)" include/nettle
    : >include/config.h
    : >include/jansson_private_config.h
    cp qrencode-*/qrencode.h include/
    touch include/qrencode.h
fi

[ "$folder/libraries.a" -nt "$sources/include/qrencode.h" ] && exit 0
cd "$sources" || exit 1
for file in jansson-*/src/*.c utf8proc-*/utf8proc.c qrencode-*/[!q]*.c qrencode-*/qr[!e]*.c qrencode-*/qrencode.c nettle-*/sha256.c nettle-*/sha256-compress.c nettle-*/write-be32.c; do
    package=${file%%-*}
    "$@" -O2 -DHAVE_CONFIG_H -DHAVE_STDINT_H -DUTF8PROC_STATIC -DSTATIC_IN_RELEASE=static -DMAJOR_VERSION=4 \
        -DMINOR_VERSION=1 -DMICRO_VERSION=1 -DVERSION=\"4.1.1\" -Iinclude -I"${file%/*}" -c -o "$folder/$package-$(basename "$file" .c).o" "$file" \
        2>"$folder/log" || { cat "$folder/log" >&2; exit 1; }
done
rm -f "$folder/libraries.a"
${AR:-ar} rcs "$folder/libraries.a" "$folder"/*.o
