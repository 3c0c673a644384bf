# Formulas of the bath notation.
hook global BufCreate .*\.bath %{ set-option buffer filetype bath }

hook global WinSetOption filetype=bath %{
    require-module bath
    add-highlighter window/bath ref bath
    set-option buffer comment_line '#'
    hook -once -always window WinSetOption filetype=.* %{ remove-highlighter window/bath }
}

provide-module bath %{
add-highlighter shared/bath regions
add-highlighter shared/bath/code default-region group
add-highlighter shared/bath/text region '"' '"|$' fill string
add-highlighter shared/bath/comment region '#' '$' fill comment
add-highlighter shared/bath/code/ regex \b\d+(?:[.,/+]\d+)*(?:\h*(?:%|°?\w+))? 0:value
# words of the notation (tests/editor/words.py writes them)
add-highlighter shared/bath/code/ regex %{(?i)\b(replacing\h+the\h+library's|heat\h+capacity|comes\h+before|best\h+before|comes\h+after|is\h+missing|is\h+unclear|as\h+needed|saturated|contrast|enthalpy|is\h+about|measures|optional|strength|counted|density|to\h+make|before|dilute|opened|purity|source|within|after|batch|gives|grade|holds|meets|speed|stock|under|usual|also|from|left|note|over|says|time|with|cas|for|lot|per|at|by|in|is|of|on|to)\b} 0:operator
add-highlighter shared/bath/code/ regex %{(?i)^\h*(replace\h+after|mistaken\h+for|coefficient|interaction|temperature|counts\h+as|discarded|dissolves|leave\h+out|replenish|topped\h+up|capacity|currency|graduate|measures|mixed\h+as|pinch\h+of|solution|toxicity|use\h+once|agitate|balance|bottles|caution|cool\h+to|counted|density|silence|typical|use\h+for|warm\h+to|advise|beside|bottle|change|dilute|factor|filter|hazard|offers|source|unless|after|drain|holds|inert|keeps|limit|makes|means|meets|mixed|needs|stand|store|trays|trial|usual|where|also|bath|form|harm|ions|kind|made|note|part|role|says|sold|stop|swap|tank|time|took|tray|used|warn|wash|when|add|for|mix|do|in|of|pk)\b} 1:attribute
add-highlighter shared/bath/code/ regex %{(?i)^\h*(kind\h+of\h+bath|equilibrium|material|reaction|element|formula|process|variant|wording|phrase|batch|group|shelf|stock|read|rule|unit)\b} 1:keyword
# end of the words
}
