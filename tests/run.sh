#!/bin/sh
# Runs the test programs named as arguments and counts them; the output of those that pass is not shown.
unset COLUMNS # what is printed does not depend on the width of the terminal that the tests are started from
passed=0
failed=0
log=$(mktemp) || exit 2
trap 'rm -f "$log"' EXIT
for program in "$@"; do
    if "$program" >"$log" 2>&1; then
        count=$(sed -n 's/^\[  PASSED  \] \([0-9]*\) test.*/\1/p' "$log" | tail -n 1)
        passed=$((passed + ${count:-1}))
        echo "ok    ${program##*/} (${count:-1})"
        grep '^skipped:' "$log"
    else
        # A program that fell over, or whose set-up failed, counts as one.
        count=$(sed -n 's/^\[  FAILED  \] \([0-9]*\) test.*/\1/p' "$log" | tail -n 1)
        failed=$((failed + ${count:-1}))
        count=$(sed -n 's/^\[  PASSED  \] \([0-9]*\) test.*/\1/p' "$log" | tail -n 1)
        passed=$((passed + ${count:-0}))
        echo "FAIL  ${program##*/}"
        cat "$log"
    fi
done
echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
