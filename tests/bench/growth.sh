# How the work of a check grows with what is wrong in a file, in instructions, which are the same on every machine.
#
#     sh tests/bench/growth.sh POTASH FOLDER
#
# Each file is made in FOLDER, once with 500 formulas and once with four times as many: four times as much text may cost at most 4.4
# times as much.  Then the formats: JSON and SARIF may cost twice what text does; and the start.  The exit status is 1 when a limit is missed.
potash=$1
folder=$2
status=0

# formulas COUNT LINES: LINES is what stands in each of them.
formulas() {
    awk -v count="$1" -v lines="$2" 'BEGIN { for (i = 1; i <= count; i++) printf "formula \"Saltmarsh bath %d\"\n    kind developer\n%s\n", i, lines }'
}

# files COUNT FOLDER: each formula in a file of its own.
files() {
    rm -rf "$2"
    mkdir -p "$2"
    i=0
    while [ $i -lt "$1" ]; do
        i=$((i + 1))
        printf 'formula "Saltmarsh bath %d"\n    kind other\n    sodium chloride 2 g\n    water to make 1 L\n' $i >"$2/$i.bath"
    done
}

# instructions ARGUMENTS…: what a check takes.
instructions() {
    valgrind --tool=callgrind --callgrind-out-file=/dev/null "$potash" check "$@" 2>&1 >/dev/null | sed -n 's/.*Collected : *//p'
}

# limit WHAT FIGURE OVER MOST
limit() {
    awk -v what="$1" -v figure="$2" -v over="$3" -v most="$4" 'BEGIN {
        ratio = over > 0 ? figure / over : most + 1
        printf "%-56s %10.2f   %g or less: %s\n", what, ratio, most, ratio <= most ? "kept" : "MISSED"
        exit ratio > most
    }' || status=1
}

# grow NAME WHAT LINES
grow() {
    formulas 500 "$3" > "$folder/$1.bath"
    formulas 2000 "$3" > "$folder/$1-4.bath"
    limit "instructions for four times as many $2" "$(instructions "$folder/$1-4.bath")" "$(instructions "$folder/$1.bath")" 4.4
}

grow plain "sound formulas" '    water 750 mL
    metol 2 g
    sodium sulfite (anhydrous) 100 g
    hydroquinone 5 g
    borax (decahydrate) 2 g
    water to make 1 L
'
grow warnings "warnings" '    water 750 mL
    metol 2 g
    sodium sulfite 100 g
    hydroquinone 5 g
    borax 2 g
    potassium bromide 60 g
    sodium carbonate 2 g
    water to make 1 L
'
grow syntax "lines that cannot be read" '    water 750 mL
    metol 2 g )
    hydroquinone ;; 5 g
    water to make 1 L
'
grow no-volume "formulas without a final volume" '    water 750 mL
    metol 2 g
    sodium sulfite (anhydrous) 100 g
    hydroquinone 5 g
'
grow no-water "formulas without water" '    metol 2 g
    sodium sulfite (anhydrous) 100 g
    hydroquinone 5 g
'
files 500 "$folder/files"
files 2000 "$folder/files-4"
limit "instructions for four times as many files in a folder" "$(instructions "$folder/files-4")" "$(instructions "$folder/files")" 4.4
for count in 500 2000; do
    seq $count | sed 's,.*,read "files-4/&.bath",' > "$folder/reads-$count.bath"
done
limit "instructions for four times as many read lines" "$(instructions "$folder/reads-2000.bath")" "$(instructions "$folder/reads-500.bath")" 4.4
text=$(instructions "$folder/warnings-4.bath")
limit "instructions for warnings as JSON, over text" "$(instructions --as json "$folder/warnings-4.bath")" "$text" 2
limit "instructions for warnings as SARIF, over text" "$(instructions --as sarif "$folder/warnings-4.bath")" "$text" 2
# The start, over what a program takes that does nothing.
nothing=$(valgrind --tool=callgrind --callgrind-out-file=/dev/null true 2>&1 | sed -n 's/.*Collected : *//p')
limit "millions of instructions for the start" "$(($(instructions /dev/null) - nothing))" 1000000 1.5
exit $status
