#!/bin/sh
# npm.sh BUILD VERSION: installs the package for Node as a person does, without the network, and asks it for the same as the native program.
build=$1
package=$(cd "$build" && pwd)/npm/potash-$2.tgz
here=$(mktemp -d) || exit 2
trap 'rm -rf "$here"' EXIT
failed=0

wrong() {
    echo "FAIL  $*"
    failed=1
}

npm install --silent --offline --no-audit --no-fund --prefix "$here" "$package" >"$here/log" 2>&1 || { cat "$here/log"; exit 1; }
potash=$here/node_modules/.bin/potash
sh tests/portable/same.sh "$build/potash" "$potash" || wrong "the program under Node answers otherwise"

# Real files: written where they are asked for, readable as others are, and put in place in one step.
umask 022
cp samples/print-developer.bath "$here/it.bath"
(cd "$here" && "$potash" sheet it.bath --make 600mL --as html -o it.html) || wrong "no sheet"
"$build/potash" sheet samples/print-developer.bath --make 600mL --as html | sed 's,samples/print-developer,it,g' >"$here/wanted.html"
cmp "$here/it.html" "$here/wanted.html" || wrong "the sheet in a file is another one"
[ "$(stat -c %a "$here/it.html")" = 644 ] || wrong "a new file has the permissions $(stat -c %a "$here/it.html")"
"$potash" tidy --in-place "$here/it.bath" && "$build/potash" tidy samples/print-developer.bath | cmp - "$here/it.bath" || wrong "tidied otherwise"
[ "$("$potash" check - <samples/print-developer.bath)" = "$("$build/potash" check - <samples/print-developer.bath)" ] || wrong "standard input"
said=$("$potash" sheet samples/stop-bath.bath --as pdf 2>&1)
[ $? = 2 ] && [ "$said" = "potash: this build makes no PDF; --as html gives a page that prints well" ] || wrong "--as pdf: $said"

# On a terminal: colour, 20 of one id, the terminal's width; in a pipe none of these.
python3 tests/web/on_terminal.py "$build/potash" "$potash" || wrong "on a terminal it is not the same"
[ $failed = 0 ] && echo "[  PASSED  ] npm"
exit $failed
