#!/bin/sh
# packages.sh BUILD VERSION: tries what `make deb` and `make static` have made; then builds everything twice, in two folders, and asks for
# the same bytes.  Called by `make test-packages`.
build=$1
version=$2
arch=$(dpkg-architecture -qDEB_HOST_ARCH)
log=$(mktemp -d) || exit 2
trap 'rm -rf "$log"' EXIT
failed=0

wrong() {
    echo "FAIL  $*"
    failed=1
}

# The package as it would be unpacked runs, and says what the program in the build folder says.
dpkg-deb -x "$build/potash_${version}_$arch.deb" "$log/deb"
"$log/deb/usr/bin/potash" sheet samples --date none >"$log/deb.out" 2>&1
"$build/potash" sheet samples --date none >"$log/ours.out" 2>&1
cmp "$log/deb.out" "$log/ours.out" || wrong "the package's program says something else"
[ -s "$log/ours.out" ] || wrong "the samples give no sheets"
dpkg-deb -f "$build/potash_${version}_$arch.deb" Depends | grep -q 'libjansson4.*libutf8proc2' || wrong "the package does not name its libraries"

# The static program needs nothing of the system, says that it makes no PDF, and answers as the other does.
readelf -d "$build/potash-static" | grep NEEDED && wrong "the static program needs a library"
said=$("$build/potash-static" sheet samples/stop-bath.bath --as pdf 2>&1 >/dev/null)
[ $? = 2 ] && [ "$said" = "potash: this build makes no PDF; --as html gives a page that prints well" ] || wrong "static, --as pdf: $said"
sh tests/portable/same.sh "$build/potash" "$build/potash-static" || wrong "the static program answers otherwise"

# Two copies of the sources, of which one has a longer path: the program and its libraries are the same.
for copy in one another-one; do
    mkdir -p "$log/$copy"
    tar -c --exclude=./build --exclude=node_modules --exclude=./.git . | tar -x -C "$log/$copy"
    nice make -C "$log/$copy" --no-print-directory -j"$(nproc)" all build/lib/libpotash.so.0 build/lib/libpotash.a >"$log/make" 2>&1 || { tail -20 "$log/make"; exit 1; }
done
for file in potash libpotash.a lib/libpotash.so.0 lib/libpotash.a; do
    cmp "$log/one/build/$file" "$log/another-one/build/$file" || wrong "$file is not the same when it is built in another folder"
done
[ $failed = 0 ] && echo "packages: all good"
exit $failed
