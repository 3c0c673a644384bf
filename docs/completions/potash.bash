# bash: source this file, or put it into a folder of completions.  Made from the tables of src/command/.
_potash()
{
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} verb= i
    for ((i = 1; i < COMP_CWORD; i++)); do
        case ${COMP_WORDS[i]} in
            sheet|process|label|reckon|check|compare|tidy|show|book|shelf|cost|safety|materials|why|editor) verb=${COMP_WORDS[i]}; break ;;
        esac
    done
    COMPREPLY=()
    case $verb:$before in
        *:--of) COMPREPLY=($(compgen -W 'stock working' -- "$word")); return ;;
        *:--price-by) COMPREPLY=($(compgen -W 'cheapest oldest average' -- "$word")); return ;;
        sheet:--as) COMPREPLY=($(compgen -W 'text json html pdf' -- "$word")); return ;;
        process:--as) COMPREPLY=($(compgen -W 'text json html pdf' -- "$word")); return ;;
        label:--as) COMPREPLY=($(compgen -W 'text json html pdf' -- "$word")); return ;;
        reckon:--as) COMPREPLY=($(compgen -W 'text json' -- "$word")); return ;;
        check:--as) COMPREPLY=($(compgen -W 'text json sarif' -- "$word")); return ;;
        compare:--as) COMPREPLY=($(compgen -W 'text json html pdf' -- "$word")); return ;;
        tidy:--as) COMPREPLY=($(compgen -W 'text' -- "$word")); return ;;
        show:--as) COMPREPLY=($(compgen -W 'text json html pdf' -- "$word")); return ;;
        book:--as) COMPREPLY=($(compgen -W 'text json html pdf' -- "$word")); return ;;
        shelf:--as) COMPREPLY=($(compgen -W 'text json html pdf csv ical' -- "$word")); return ;;
        cost:--as) COMPREPLY=($(compgen -W 'text json html pdf' -- "$word")); return ;;
        safety:--as) COMPREPLY=($(compgen -W 'text json html pdf' -- "$word")); return ;;
        materials:--as) COMPREPLY=($(compgen -W 'text json html pdf' -- "$word")); return ;;
        why:--as) COMPREPLY=($(compgen -W 'text json' -- "$word")); return ;;
        *:--paper) COMPREPLY=($(compgen -W 'A4 Letter' -- "$word")); return ;;
        *:--date) COMPREPLY=($(compgen -W 'none' -- "$word")); return ;;
        *:--record-in) COMPREPLY=($(compgen -f -- "$word")); return ;;
        *:--depends) COMPREPLY=($(compgen -f -- "$word")); return ;;
        *:--known-as) COMPREPLY=($(compgen -f -- "$word")); return ;;
        *:--shelf) COMPREPLY=($(compgen -f -- "$word")); return ;;
        *:--library) COMPREPLY=($(compgen -f -- "$word")); return ;;
        *:-o|*:--output) COMPREPLY=($(compgen -f -- "$word")); return ;;
        *:--title|*:--make|*:--for|*:--working|*:--temperature|*:--speed|*:--contrast|*:--grade|*:--rolls|*:--sheets|*:--by|*:--batch|*:--called|*:--without|*:--within|*:--like|*:--mix|*:--ahead|*:--counted|*:--against|*:--size|*:--grid|*:--margins|*:--pitch|*:--start|*:--copies|*:--silence|*:--balance|*:--graduate) return ;;
    esac
    case $verb:$word in
        :*) COMPREPLY=($(compgen -W 'sheet process label reckon check compare tidy show book shelf cost safety materials why editor --help --version' -- "$word")) ;;
        sheet:-*) COMPREPLY=($(compgen -W '--title --make --for --working --temperature --speed --contrast --grade --record --record-in --by --shelf --using-shelf --strict --all --silence --balance --graduate --library --allow-reads --as -o --paper --date --help --version' -- "$word")) ;;
        process:-*) COMPREPLY=($(compgen -W '--title --working --rolls --sheets --shelf --price-by --strict --all --silence --balance --library --allow-reads --as -o --paper --date --help --version' -- "$word")) ;;
        label:-*) COMPREPLY=($(compgen -W '--title --make --for --working --batch --of --shelf --size --grid --margins --pitch --start --copies --strict --all --silence --balance --library --allow-reads --as -o --paper --date --help --version' -- "$word")) ;;
        reckon:-*) COMPREPLY=($(compgen -W '--library --as -o --help --version' -- "$word")) ;;
        check:-*) COMPREPLY=($(compgen -W '--title --make --without --depends --shelf --strict --all --silence --today --balance --library --allow-reads --as -o --date --help --version' -- "$word")) ;;
        compare:-*) COMPREPLY=($(compgen -W '--title --within --known-as --shelf --price-by --strict --silence --library --allow-reads --as -o --paper --date --help --version' -- "$word")) ;;
        tidy:-*) COMPREPLY=($(compgen -W '--in-place --verify --library --allow-reads --as -o --help --version' -- "$word")) ;;
        show:-*) COMPREPLY=($(compgen -W '--title --make --shelf --strict --all --silence --balance --library --allow-reads --as -o --paper --date --help --version' -- "$word")) ;;
        book:-*) COMPREPLY=($(compgen -W '--title --make --called --with-safety --shelf --strict --all --silence --balance --graduate --library --allow-reads --as -o --paper --date --help --version' -- "$word")) ;;
        shelf:-*) COMPREPLY=($(compgen -W '--title --make --working --rolls --sheets --mix --ahead --counted --shelf --strict --all --silence --balance --library --allow-reads --as -o --paper --date --help --version' -- "$word")) ;;
        cost:-*) COMPREPLY=($(compgen -W '--title --make --for --rolls --sheets --shelf --price-by --against --strict --all --silence --balance --library --allow-reads --as -o --paper --date --help --version' -- "$word")) ;;
        safety:-*) COMPREPLY=($(compgen -W '--title --make --for --shelf --strict --all --silence --balance --library --allow-reads --as -o --paper --date --help --version' -- "$word")) ;;
        materials:-*) COMPREPLY=($(compgen -W '--like --library --as -o --paper --help --version' -- "$word")) ;;
        why:-*) COMPREPLY=($(compgen -W '--library --as -o --help --version' -- "$word")) ;;
        editor:-*) COMPREPLY=($(compgen -W '--silence --balance --library --allow-reads --help --version' -- "$word")) ;;
        sheet:*|process:*|label:*|check:*|compare:*|tidy:*|show:*|book:*|shelf:*|cost:*|safety:*) COMPREPLY=($(compgen -d -S / -- "$word") $(compgen -f -X '!*.bath' -- "$word")) ;;
    esac
}
complete -o filenames -F _potash potash
