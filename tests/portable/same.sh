#!/bin/sh
# same.sh PROGRAM OTHER...: asks both for the same and compares all that comes of it, byte by byte: standard output, standard error
# and the exit status.  OTHER may be several words ("node potash.js").  Says how many calls were compared; fails at the first ten
# that differ.
program=$1
shift
log=$(mktemp -d) || exit 2
trap 'rm -rf "$log"' EXIT
calls=0
differ=0

# same WORDS...: the program's call; `other` holds the words before it.
same() {
    "$program" "$@" >"$log/out" 2>"$log/err" </dev/null
    echo "status $?" >>"$log/err"
    $other "$@" >"$log/other.out" 2>"$log/other.err" </dev/null
    echo "status $?" >>"$log/other.err"
    calls=$((calls + 1))
    if ! cmp -s "$log/out" "$log/other.out" || ! cmp -s "$log/err" "$log/other.err"; then
        echo "differs: potash $*"
        diff "$log/out" "$log/other.out" | head -5
        diff "$log/err" "$log/other.err" | head -5
        differ=$((differ + 1))
        [ $differ -lt 10 ] || exit 1
    fi
}
other=$*

files=$(ls samples/*.bath tests/published/*.bath)
same check --date 2026-03-10 $files
same check --date 2026-03-10 --as json $files
same check --date 2026-03-10 --as sarif $files
before=samples/print-developer.bath
for file in $files; do
    same tidy "$file"
    same compare --date 2026-03-10 "$before" "$file"
    before=$file
done
sound=$(ls $files | grep -v '/faulty\.bath$')
for verb in sheet label safety; do
    for format in text html json; do
        same $verb --date 2026-03-10 --as $format $sound
    done
done
same show --date 2026-03-10 --as json $sound
for verb in cost shelf process; do
    same $verb --date 2026-03-10 --as json samples
done
while IFS= read -r sum; do
    same reckon "$sum"
    same reckon --as json "$sum"
done <tests/portable/sums
echo "$calls calls, $differ that differ"
[ $differ = 0 ]
