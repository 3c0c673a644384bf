#!/bin/sh
# deb.sh BUILD VERSION: Debian packages of what stands in BUILD, which is built already: BUILD/potash_VERSION_ARCH.deb, and beside it the
# library and what a program that uses it is compiled with.  lintian has the last word: an error or a warning fails.
set -eu
build=$1
version=$2
packaging=$(cd "${0%/*}" && pwd)
folder=$build/deb
arch=$(dpkg-architecture -qDEB_HOST_ARCH)
multiarch=$(dpkg-architecture -qDEB_HOST_MULTIARCH)
# All files have the day of the changelog, so that two packages of one source are the same bytes.
umask 022
rm -rf "$folder"
mkdir -p "$folder/debian"
for file in control changelog; do sed "s/@VERSION@/$version/" "$packaging/$file" >"$folder/debian/$file"; done
SOURCE_DATE_EPOCH=$(dpkg-parsechangelog -l "$folder/debian/changelog" -S Timestamp)
export SOURCE_DATE_EPOCH
BUILD=$build PREFIX=/usr LIBDIR=/usr/lib/$multiarch ZSH_COMPLETIONS=share/zsh/vendor-completions
export BUILD PREFIX LIBDIR ZSH_COMPLETIONS

# field NAME: of the paragraph of $package.
field() {
    awk -v package="$package" -v name="$1:" '
        /^Package:/ { ours = $2 == package }
        ours && $1 == name { sub("^[^:]*: *", ""); print }' "$folder/debian/control"
}

# pack PACKAGE PART: the part of the installed files as that package.
pack() {
    package=$1
    root=$folder/$package
    DESTDIR=$root sh "$packaging/install.sh" install "$2"
    doc=$root/usr/share/doc/$package
    mkdir -p "$doc" "$root/DEBIAN"
    rm -f "$root/usr/share/doc/potash/LICENSE"
    { cat "$packaging/copyright"; sed 's/^$/./; s/^/ /' "$packaging/../../LICENSE" | sed 1,4d; } >"$doc/copyright"
    gzip -9nc "$folder/debian/changelog" >"$doc/changelog.gz"
    find "$root/usr/share/man" -type f -exec gzip -9n {} + 2>/dev/null || :

    needs=""
    case $package in
    potash) binary=$root/usr/bin/potash ;;
    libpotash0) binary=$root$LIBDIR/libpotash.so.0 ;;
    *) binary="" ;;
    esac
    if [ -n "$binary" ]; then
        strip --strip-unneeded --remove-section=.comment --remove-section=.note "$binary"
        needs=$(cd "$folder" && dpkg-shlibdeps -O "${binary#"$folder"/}" | sed -n 's/^shlibs:Depends=//p')
    else
        strip --strip-debug --enable-deterministic-archives "$root$LIBDIR/libpotash.a"
    fi
    if [ "$package" = libpotash0 ]; then
        echo "libpotash 0 libpotash0 (>= $version)" >"$root/DEBIAN/shlibs"
        echo "activate-noawait ldconfig" >"$root/DEBIAN/triggers"
        chmod 644 "$binary"
    fi
    needs="$(field Depends)${needs:+$needs}"
    same=$([ "$package" = potash ] || echo same)
    {
        echo "Package: $package"
        [ "$package" = potash ] || echo "Source: potash"
        echo "Version: $version"
        echo "Architecture: $arch"
        sed -n 's/^Maintainer:/&/p' "$folder/debian/control"
        echo "Installed-Size: $(find "$root" -path "$root/DEBIAN" -prune -o -type f -size +0 -printf '%k\n' | awk '{ n += $1 } END { print n }')"
        [ -z "$needs" ] || echo "Depends: $needs"
        [ -z "$(field Recommends)" ] || echo "Recommends: $(field Recommends)"
        echo "Section: $(field Section)"
        echo "Priority: optional"
        [ -z "$same" ] || echo "Multi-Arch: $same"
        awk -v package="$package" '
            /^Package:/ { ours = $2 == package; text = 0 }
            /^$/ { text = 0 }
            /^Description:/ { text = 1 }
            ours && text' "$folder/debian/control"
    } >"$root/DEBIAN/control"
    (cd "$root" && find usr -type f | LC_ALL=C sort | xargs -d '\n' md5sum >DEBIAN/md5sums)
    find "$root" -exec touch -h -d "@$SOURCE_DATE_EPOCH" {} +
    dpkg-deb --root-owner-group --build "$root" "$build/${package}_${version}_$arch.deb" >/dev/null
    echo "  made   $build/${package}_${version}_$arch.deb"
}

pack potash program
pack libpotash0 library
pack libpotash-dev headers
# Whoever calls may be root, which lintian would remark on.
said=$(lintian --allow-root --fail-on error,warning "$build"/potash_"$version"_"$arch".deb "$build"/libpotash*_"$version"_"$arch".deb 2>&1) || {
    echo "$said" >&2
    exit 1
}
