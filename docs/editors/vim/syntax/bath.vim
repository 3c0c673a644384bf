" Formulas of the bath notation.
if exists('b:current_syntax')
  finish
endif

" words of the notation (tests/editor/words.py writes them)
syntax match bathWord '\c\<\%(replacing\s\+the\s\+library\%x27s\|heat\s\+capacity\|comes\s\+before\|best\s\+before\|comes\s\+after\|is\s\+missing\|is\s\+unclear\|as\s\+needed\|saturated\|contrast\|enthalpy\|is\s\+about\|measures\|optional\|strength\|counted\|density\|to\s\+make\|before\|dilute\|opened\|purity\|source\|within\|after\|batch\|gives\|grade\|holds\|meets\|speed\|stock\|under\|usual\|also\|from\|left\|note\|over\|says\|time\|with\|cas\|for\|lot\|per\|at\|by\|in\|is\|of\|on\|to\)\>'
syntax match bathStatement '\c^\s*\zs\<\%(replace\s\+after\|mistaken\s\+for\|coefficient\|interaction\|temperature\|counts\s\+as\|discarded\|dissolves\|leave\s\+out\|replenish\|topped\s\+up\|capacity\|currency\|graduate\|measures\|mixed\s\+as\|pinch\s\+of\|solution\|toxicity\|use\s\+once\|agitate\|balance\|bottles\|caution\|cool\s\+to\|counted\|density\|silence\|typical\|use\s\+for\|warm\s\+to\|advise\|beside\|bottle\|change\|dilute\|factor\|filter\|hazard\|offers\|source\|unless\|after\|drain\|holds\|inert\|keeps\|limit\|makes\|means\|meets\|mixed\|needs\|stand\|store\|trays\|trial\|usual\|where\|also\|bath\|form\|harm\|ions\|kind\|made\|note\|part\|role\|says\|sold\|stop\|swap\|tank\|time\|took\|tray\|used\|warn\|wash\|when\|add\|for\|mix\|do\|in\|of\|pk\)\>'
syntax match bathHeading '\c^\s*\zs\<\%(kind\s\+of\s\+bath\|equilibrium\|material\|reaction\|element\|formula\|process\|variant\|wording\|phrase\|batch\|group\|shelf\|stock\|read\|rule\|unit\)\>'
" end of the words

syntax match bathNumber '\<\d\+\%([.,·]\d\+\)\?\%(\s*\d\+/\d\+\|/\d\+\)\?\%(\s*\%(%\|°\?\a[[:alpha:]/°.]*\)\)\?' contains=bathWord
syntax match bathRatio '\<\d\+\%(\.\d\+\)\?\%(+\d\+\%(\.\d\+\)\?\)\+'
syntax match bathColonRatio '\<\d\+:\d\+\>'
syntax match bathDate '\<\d\{4}-\d\d-\d\d\>'
syntax region bathForm start='(' end=')\|$' contains=bathNumber,bathText
syntax region bathText start='"' end='"\|$'
syntax region bathText start='“' end='”\|$'
syntax match bathComment '#.*$' contains=@Spell

highlight default link bathHeading Structure
highlight default link bathStatement Statement
highlight default link bathWord Keyword
highlight default link bathNumber Number
highlight default link bathRatio Number
highlight default link bathColonRatio Error
highlight default link bathDate Number
highlight default link bathForm Type
highlight default link bathText String
highlight default link bathComment Comment

let b:current_syntax = 'bath'
