#!/bin/sh
# install.sh install|uninstall PART...: puts the parts (program, library, headers) below $DESTDIR$PREFIX, or takes them away again.
# What is installed stands in `files`, once.  Called by the Makefile, from the top of the repository.
set -eu
doc=share/doc/potash

# mode, file of ours, place below the prefix; what starts with a slash is a place of its own.
files() {
    case $1 in
    program)
        echo "755 $BUILD/potash bin/potash"
        for page in docs/man/*.1; do echo "644 $page share/man/man1/${page##*/}"; done
        for page in docs/man/*.5; do echo "644 $page share/man/man5/${page##*/}"; done
        echo "644 docs/completions/potash.bash share/bash-completion/completions/potash"
        echo "644 docs/completions/_potash $ZSH_COMPLETIONS/_potash"
        echo "644 docs/completions/potash.fish share/fish/vendor_completions.d/potash.fish"
        for page in README.md LICENSE docs/*.md; do echo "644 $page $doc/${page##*/}"; done
        for file in $(cd docs/editors && find . -type f ! -path './vscode/*' | sort); do
            echo "644 docs/editors/${file#./} $doc/editors/${file#./}"
        done
        for schema in docs/schema/*.json; do echo "644 $schema $doc/schema/${schema##*/}"; done
        for sample in samples/*.bath; do echo "644 $sample $doc/samples/${sample##*/}"; done
        ;;
    library)
        echo "755 $BUILD/lib/libpotash.so.0 $LIBDIR/libpotash.so.0"
        ;;
    headers)
        echo "644 src/potash.h include/potash.h"
        [ ! -e src/workspace.h ] || echo "644 src/workspace.h include/potash-workspace.h"
        echo "644 $BUILD/lib/libpotash.a $LIBDIR/libpotash.a"
        echo "644 $BUILD/lib/potash.pc $LIBDIR/pkgconfig/potash.pc"
        echo "644 docs/example.c $doc/example.c"
        echo "link libpotash.so.0 $LIBDIR/libpotash.so"
        ;;
    *)
        echo "install.sh: there is no part $1" >&2
        exit 1
        ;;
    esac
}

# Names of ours hold no blanks; where they go may.
each() {
    list=$(files "$1")
    echo "$list" | while read -r mode file place; do
        case $place in /*) ;; *) place=$PREFIX/$place ;; esac
        "$2" "$mode" "$file" "$DESTDIR$place"
    done
}

put() {
    mkdir -p "${3%/*}"
    case $1,$2 in
    link,*) ln -sf "$2" "$3" ;;
    *.pc) sed -e "s,@PREFIX@,$PREFIX," -e "s,@LIBDIR@,$LIBDIR," "$2" >"$3" && chmod "$1" "$3" ;;
    *) install -m "$1" "$2" "$3" ;;
    esac
}

remove() {
    rm -f "$3"
}

action=$1
shift
for part in "$@"; do
    case $action in
    install) each "$part" put ;;
    uninstall) each "$part" remove ;;
    esac
done
if [ "$action" = uninstall ]; then
    find "$DESTDIR$PREFIX/$doc/editors" -depth -type d -exec rmdir {} \; 2>/dev/null || :
    for folder in schema samples; do rmdir "$DESTDIR$PREFIX/$doc/$folder" 2>/dev/null || :; done
    rmdir "$DESTDIR$PREFIX/$doc" 2>/dev/null || :
fi
