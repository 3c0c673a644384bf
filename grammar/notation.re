/* The words of the notation.  Tokens are views into the text; a run of words is one token, so that a printed name
 * (`hyposulphite of soda`) stays whole.  Which words end such a run depends on where the line stands:
 * at its start the keywords of statements are known, behind a number the unit's name ends before `of`, and in a
 * material's `form` line words come one by one because a chemical formula follows them.
 *
 * Actions start anew by `goto again`, never by `continue` or `break`: for machines that have no jumps the automaton is a loop over a
 * switch (LEXER in the Makefile), and these would be taken for its own. */
#include "syntax/builder.h"
#include "syntax/merge_conflict.h"
#include "syntax/tokens.h"

/*!re2c
    re2c:define:YYCTYPE  = "unsigned char";
    re2c:yyfill:enable   = 0;
    re2c:flags:utf-8     = 1;

    blank     = [ \t] | [\u00A0\u2000-\u200A\u202F\u205F\u3000];
    hidden    = [\u00AD\u061C\u200B-\u200F\u2028-\u202E\u2060-\u206F\uFEFF];
    leader    = "." "."+ | "\u2026";
    gap       = (blank | leader | hidden | (blank "." blank))+;
    ascii     = [a-zA-Z];
    footmark  = "*" | [\u00A7\u00B6\u00B9\u2020\u2021];
    bullet    = [*\-\u00B7\u2013\u2014\u2022\u2023\u2219\u25A0-\u25FF\u2610-\u2612];
    mark      = hidden | [\u00A0\u2000-\u200A\u202F\u205F\u3000\u00B7\u00BC-\u00BE\u00D7\u2013\u2014\u201C-\u201F\u2026\u2033\u2044\u2150-\u215E\u2212\u00A7\u00B6\u00B9\u2020-\u2023\u2219\u25A0-\u25FF\u2610-\u2612];
    letter    = ascii | "\u00B0" | ([^\x00-\x7F] \ mark);
    inner     = letter | hidden | [0-9] | "'" | "/" | "-" | "_" | ("(" [IVX]+ ")");
    word      = letter (inner | "." letter)* "."?;
    locant    = [0-9]+ ("," [0-9]+)* "-" letter (inner | "," [0-9] | "." letter)*;
    decimal   = [0-9]+ ("." [0-9]+)? | "." [0-9]+;
    thousands = [1-9] [0-9]? [0-9]? "." [0-9] [0-9] [0-9];
    vulgar    = [\u00BC-\u00BE\u2150-\u215E];
    and       = ('and' | "&") blank+;
    slash     = "/" | "\u2044";
    fraction  = ([0-9]+ (blank+ and? | "-"))? [0-9]+ slash [0-9]+ | ([0-9]+ (blank+ and | blank* | "-" | "\u2013"))? vulgar;
    raised    = [0-9]+ "\u00B7" [0-9]+;
    comma     = [0-9]+ "," [0-9]+ ("." [0-9]+)?;
    times     = [xX] | "\u00D7";
    length    = 'inches' | 'inch' | 'ins' | 'in' | 'cm' | 'mm';
    size      = decimal blank* times blank* decimal (blank* length)?;
    date      = [0-9]{4} "-" [0-9]{2} "-" [0-9]{2};
    cas       = [0-9]{2,7} "-" [0-9]{2} "-" [0-9];
    string    = "\"" [^"\r\n\x00]* "\"" | "\u201C" ([^\u201D\r\n\x00])* "\u201D";
    unclosed  = "\"" [^"\r\n\x00]* | "\u201C" ([^\u201D\r\n\x00])*;
    newline   = "\r"? "\n";
    end       = "\x00";
    per_cent  = "%" | 'percent' | 'per' blank+ 'cent' "."?;
    basis     = blank* ('w/v' | 'w/w' | 'v/v');
    symbol    = [A-Z(] [A-Za-z0-9()]* ([.\u00B7] [0-9]* ("." [0-9]+)? [A-Z(] [A-Za-z0-9()]*)* [+\-]*;
    apart     = [ \t]+;
    sufficient = 'q.' apart? 's.' | 'sufficient' | 'enough';
    some      = sufficient | 'qs' | 'a' apart ('few' apart ('drops' | 'grains' | 'crystals') | 'little' | 'trace' | 'pinch') | 'as' apart 'required';
    up_to     = (('make' | 'made') apart)? 'up' apart 'to' | ('q.' apart? 's.' apart)? 'ad';
    line_end  = blank* ("\r" | "\n" | "#" | "\x00");
    figure    = [0-9] [0-9]?;
    roman     = [IVX]+;
    dash      = "\u2013" | "\u2014";
    numbered  = 'no' "."? gap? (figure | roman);
    titled    = (('stock' gap)? ('solution' | 'sol' "."?) | 'stock' | 'bottle' | 'liquid' | 'mixture' | 'section') gap (numbered | [A-Z] | roman | figure);
    label     = [A-H] | roman | numbered;
    bracketed = "(" ([A-Ha-h] | roman | [ivx]+ | figure) ")";
    counting  = figure [.)] blank+ | "(" figure ")" blank*;
    lettered  = "(" ([A-Ha-h] | roman | [ivx]+) ")";
    closing   = [.:)]* blank* dash? line_end;
    leading   = ((blank* "."? blank* dash | "." blank* "-" | blank+ "-" blank+) blank* | "." blank+) ascii;
    stop      = some | up_to | 'to' | 'from' | 'at' | 'for' | 'per' | 'is' | 'on' | 'over' | 'under' | 'left' | 'opened' | 'counted' | 'lot' | 'purity' | 'within' | 'holds'
              | 'comes' | 'meets' | 'best' | 'measures' | 'usual' | 'cas' | 'also' | 'source' | 'optional' | 'note' | 'after'
              | 'before' | 'strength' | 'density' | 'as' blank+ 'needed' | 'per' blank+ 'cent' "."? | 'percent' | 'saturated';
    condition = 'speed' | 'contrast' | 'grade' | 'dilute' | 'time';
*/

/* Reads on in a run of words; returns where it ends.  `in_unit`: it names a unit, and ends before `of` too. */
static const char *lex_run(const char *at, bool in_unit)
{
    const unsigned char *end = (const unsigned char *)at;
    again: {
        const unsigned char *YYCURSOR = end;
        const unsigned char *YYMARKER;
        /*!re2c
            gap (stop | 'in')
            { return (const char *)end; }

            gap ('of' | condition) { if (in_unit) { return (const char *)end; } end = YYCURSOR; goto again; }

            gap? word { end = YYCURSOR; goto again; }
            gap locant { if (in_unit) { return (const char *)end; } end = YYCURSOR; goto again; }
            * { return (const char *)end; }
        */
    }
}

/* The end of the unit's name that follows a number; `at` itself when none does. */
static const char *lex_unit(const char *at)
{
    const unsigned char *YYCURSOR = (const unsigned char *)at;
    const unsigned char *YYMARKER;
    /*!re2c
        gap? (stop | 'of' | 'or' | condition)
        { return at; }

        gap? 'sq' "."? blank+ 'in' "."? { return (const char *)YYCURSOR; }
        gap? word { return lex_run((const char *)YYCURSOR, true); }
        * { return at; }
    */
}

/* Tokens at the start of a line. */
int lexer_line_start(struct builder *builder, union NOTATION_STYPE *value)
{
    struct lexer *lexer = &builder->lexer;
    const unsigned char *YYCURSOR = (const unsigned char *)lexer->cursor;
    const unsigned char *YYMARKER;
    const unsigned char *YYCTXMARKER;
    const unsigned char *token;
    again: {
        token = YYCURSOR;
        /*!re2c
            gap | "."             { goto again; }
            "#" [^\r\n\x00]*      { lexing_comment(builder, (const char *)token, (const char *)YYCURSOR); goto again; }
            newline               { goto again; }
            "\r"                  { goto again; }
            end                   { return lexing_end(builder, (const char *)token); }

            'formula'             { return lexing_keyword(builder, T_FORMULA, token, YYCURSOR); }
            'variant'             { return lexing_keyword(builder, T_VARIANT, token, YYCURSOR); }
            'stock'               { return lexing_keyword(builder, T_STOCK, token, YYCURSOR); }
            'material'            { return lexing_keyword(builder, T_MATERIAL, token, YYCURSOR); }
            'unit'                { return lexing_keyword(builder, T_UNIT, token, YYCURSOR); }
            'element'             { return lexing_keyword(builder, T_ELEMENT, token, YYCURSOR); }
            'phrase'              { return lexing_keyword(builder, T_PHRASE, token, YYCURSOR); }
            'read'                { return lexing_keyword(builder, T_READ, token, YYCURSOR); }

            'rule'                { return lexing_keyword(builder, T_RULE, token, YYCURSOR); }
            'reaction'            { return lexing_keyword(builder, T_REACTION, token, YYCURSOR); }
            'group'               { return lexing_keyword(builder, T_GROUP, token, YYCURSOR); }
            'kind' gap 'of' gap 'bath' { return lexing_keyword(builder, T_KIND_OF_BATH, token, YYCURSOR); }
            'shelf'               { return lexing_keyword(builder, T_SHELF, token, YYCURSOR); }
            'batch'               { return lexing_keyword(builder, T_BATCH, token, YYCURSOR); }
            'process'             { return lexing_keyword(builder, T_PROCESS, token, YYCURSOR); }
            'wording'             { return lexing_keyword(builder, T_WORDING, token, YYCURSOR); }
            'means'               { return lexing_keyword(builder, T_MEANS, token, YYCURSOR); }
            'offers'              { return lexing_keyword(builder, T_OFFERS, token, YYCURSOR); }

            'kind'                { return lexing_keyword(builder, T_KIND, token, YYCURSOR); }
            'for'                 { return lexing_keyword(builder, T_FOR, token, YYCURSOR); }
            'makes'               { return lexing_keyword(builder, T_MAKES, token, YYCURSOR); }
            'measures'            { return lexing_keyword(builder, T_MEASURES, token, YYCURSOR); }
            'after'               { return lexing_keyword(builder, T_AFTER, token, YYCURSOR); }
            'note'                { return lexing_keyword(builder, T_NOTE, token, YYCURSOR); }
            'keeps'               { return lexing_keyword(builder, T_KEEPS, token, YYCURSOR); }
            'silence'             { return lexing_keyword(builder, T_SILENCE, token, YYCURSOR); }
            'pinch' gap 'of'      { return lexing_keyword(builder, T_PINCH_OF, token, YYCURSOR); }
            'solution'            { return lexing_keyword(builder, T_SOLUTION, token, YYCURSOR); }
            'cool' gap 'to'       { return lexing_keyword(builder, T_COOL_TO, token, YYCURSOR); }
            'warm' gap 'to'       { return lexing_keyword(builder, T_WARM_TO, token, YYCURSOR); }
            'stand'               { return lexing_keyword(builder, T_STAND, token, YYCURSOR); }
            'filter'              { return lexing_keyword(builder, T_FILTER, token, YYCURSOR); }
            'do'                  { return lexing_keyword(builder, T_DO, token, YYCURSOR); }
            'part'                { return lexing_keyword(builder, T_PART, token, YYCURSOR); }
            'use' gap 'for'       { return lexing_keyword(builder, T_USE_FOR, token, YYCURSOR); }
            'dilute'              { return lexing_keyword(builder, T_DILUTE, token, YYCURSOR); }
            'mix'                 { return lexing_keyword(builder, T_MIX, token, YYCURSOR); }
            'temperature'         { return lexing_keyword(builder, T_TEMPERATURE, token, YYCURSOR); }
            'time'                { return lexing_keyword(builder, T_TIME, token, YYCURSOR); }
            'agitate'             { return lexing_keyword(builder, T_AGITATE, token, YYCURSOR); }
            'needs'               { return lexing_keyword(builder, T_NEEDS, token, YYCURSOR); }
            'capacity'            { return lexing_keyword(builder, T_CAPACITY, token, YYCURSOR); }
            'coefficient'         { return lexing_keyword(builder, T_COEFFICIENT, token, YYCURSOR); }

            'of'                  { return lexing_keyword(builder, T_OF, token, YYCURSOR); }
            'change'              { return lexing_keyword(builder, T_CHANGE, token, YYCURSOR); }
            'leave' gap 'out'     { return lexing_keyword(builder, T_LEAVE_OUT, token, YYCURSOR); }
            'add'                 { return lexing_keyword(builder, T_ADD, token, YYCURSOR); }
            'swap'                { return lexing_keyword(builder, T_SWAP, token, YYCURSOR); }
            'in'                  { return lexing_keyword(builder, T_IN, token, YYCURSOR); }

            'also'                { return lexing_keyword(builder, T_ALSO, token, YYCURSOR); }
            'role'                { return lexing_keyword(builder, T_ROLE, token, YYCURSOR); }
            'form'                { return lexing_keyword(builder, T_FORM, token, YYCURSOR); }
            'ions'                { return lexing_keyword(builder, T_IONS, token, YYCURSOR); }
            'dissolves'           { return lexing_keyword(builder, T_DISSOLVES, token, YYCURSOR); }
            'typical'             { return lexing_keyword(builder, T_TYPICAL, token, YYCURSOR); }
            'density'             { return lexing_keyword(builder, T_DENSITY, token, YYCURSOR); }
            'hazard'              { return lexing_keyword(builder, T_HAZARD, token, YYCURSOR); }
            'limit'               { return lexing_keyword(builder, T_LIMIT, token, YYCURSOR); }
            'factor'              { return lexing_keyword(builder, T_FACTOR, token, YYCURSOR); }
            'toxicity'            { return lexing_keyword(builder, T_TOXICITY, token, YYCURSOR); }
            'counts' gap 'as'     { return lexing_keyword(builder, T_COUNTS_AS, token, YYCURSOR); }
            'caution'             { return lexing_keyword(builder, T_CAUTION, token, YYCURSOR); }
            'mistaken' gap 'for'  { return lexing_keyword(builder, T_MISTAKEN_FOR, token, YYCURSOR); }
            'stop' / (gap ["])    { return lexing_keyword(builder, T_STOP, token, YYCURSOR); }
            'store'               { return lexing_keyword(builder, T_STORE, token, YYCURSOR); }
            'source'              { return lexing_keyword(builder, T_SOURCE, token, YYCURSOR); }

            'equilibrium'         { return lexing_keyword(builder, T_EQUILIBRIUM, token, YYCURSOR); }
            'pk'                  { return lexing_keyword(builder, T_PK, token, YYCURSOR); }
            'inert'               { return lexing_keyword(builder, T_INERT, token, YYCURSOR); }
            'interaction'         { return lexing_keyword(builder, T_INTERACTION, token, YYCURSOR); }

            'usual'               { return lexing_keyword(builder, T_USUAL, token, YYCURSOR); }
            'when'                { return lexing_keyword(builder, T_WHEN, token, YYCURSOR); }
            'warn'                { return lexing_keyword(builder, T_WARN, token, YYCURSOR); }
            'advise'              { return lexing_keyword(builder, T_ADVISE, token, YYCURSOR); }
            'says'                { return lexing_keyword(builder, T_SAYS, token, YYCURSOR); }

            'meets'               { return lexing_keyword(builder, T_MEETS, token, YYCURSOR); }
            'beside'              { return lexing_keyword(builder, T_BESIDE, token, YYCURSOR); }
            'unless'              { return lexing_keyword(builder, T_UNLESS, token, YYCURSOR); }
            'where'               { return lexing_keyword(builder, T_WHERE, token, YYCURSOR); }
            'harm'                { return lexing_keyword(builder, T_HARM, token, YYCURSOR); }

            'currency'            { return lexing_keyword(builder, T_CURRENCY, token, YYCURSOR); }
            'counted'             { return lexing_keyword(builder, T_COUNTED, token, YYCURSOR); }
            'balance'             { return lexing_keyword(builder, T_BALANCE, token, YYCURSOR); }
            'graduate'            { return lexing_keyword(builder, T_GRADUATE, token, YYCURSOR); }
            'holds'               { return lexing_keyword(builder, T_HOLDS, token, YYCURSOR); }
            'sold'                { return lexing_keyword(builder, T_SOLD, token, YYCURSOR); }
            'bottle' | 'bottles'  { return lexing_keyword(builder, T_BOTTLE, token, YYCURSOR); }
            'mixed' gap 'as'      { return lexing_keyword(builder, T_MIXED_AS, token, YYCURSOR); }
            'took'                { return lexing_keyword(builder, T_TOOK, token, YYCURSOR); }
            'topped' gap 'up'     { return lexing_keyword(builder, T_TOPPED_UP, token, YYCURSOR); }
            'mixed'               { return lexing_keyword(builder, T_MIXED, token, YYCURSOR); }
            'made'                { return lexing_keyword(builder, T_MADE, token, YYCURSOR); }
            'used'                { return lexing_keyword(builder, T_USED, token, YYCURSOR); }
            'discarded'           { return lexing_keyword(builder, T_DISCARDED, token, YYCURSOR); }
            'trial'               { return lexing_keyword(builder, T_TRIAL, token, YYCURSOR); }
            'tank'                { return lexing_keyword(builder, T_TANK, token, YYCURSOR); }
            'trays' | 'tray'      { return lexing_keyword(builder, T_TRAY, token, YYCURSOR); }
            'drain'               { return lexing_keyword(builder, T_DRAIN, token, YYCURSOR); }
            'use' gap 'once'      { return lexing_keyword(builder, T_USE_ONCE, token, YYCURSOR); }
            'replace' gap 'after' { return lexing_keyword(builder, T_REPLACE_AFTER, token, YYCURSOR); }
            'replenish'           { return lexing_keyword(builder, T_REPLENISH, token, YYCURSOR); }
            'bath'                { return lexing_keyword(builder, T_BATH, token, YYCURSOR); }
            'wash'                { return lexing_keyword(builder, T_WASH, token, YYCURSOR); }

            "<<<<<<<" | "|||||||" | "=======" | ">>>>>>>"
                                  { const char *beyond = merge_conflict_pass(builder, (const char *)token);
                                    if (beyond == NULL) { goto rest; }
                                    YYCURSOR = (const unsigned char *)beyond;
                                    goto again; }
            (bullet | footmark+) blank*
                                  { if (lexing_is_bullet(token, YYCURSOR)) { goto again; }
                                    goto rest; }
            counting              { if (!lexing_begins_name(YYCURSOR)) { goto rest; }
                                    if (lexing_is_numbering(lexer->start, (const char *)token)) { goto again; }
                                    return lexing_label(builder, value, token, lexing_number_end(token)); }
            (titled | label | bracketed | figure) / closing
                                  { return lexing_label(builder, value, token, YYCURSOR); }
            (titled | label) / leading
                                  { return lexing_label(builder, value, token, YYCURSOR); }
            lettered / (blank* ascii)
                                  { return lexing_label(builder, value, token, YYCURSOR); }
            'dilute' gap word gap 'acid' | 'shelf' gap 'life' | 'stock' gap 'strength'
                                  { return lexing_words(builder, value, token, lex_run((const char *)YYCURSOR, false)); }
            'stock' gap 'solution'
                                  { return lexing_keyword(builder, T_SOLUTION, token, YYCURSOR); }
            ('a' gap)? ('cold' gap)? 'saturated' / (gap ('solution' | 'stock' | 'sol' | 'soln'))
                                  { return lexing_keyword(builder, T_SATURATED, token, YYCURSOR); }
            'solution' gap 'of' / gap
                                  { return lexing_words(builder, value, token, lex_run((const char *)YYCURSOR, false)); }
            word | locant         { return lexing_words(builder, value, token, lex_run((const char *)YYCURSOR, false)); }
            *                     { goto rest; }
        */
    rest:
        lexer->cursor = (const char *)token;
        lexer->mode = LEX_REST;
        return LEXING_GO_ON;
    }
}

/* Tokens in the rest of a line. */
int lexer_rest(struct builder *builder, union NOTATION_STYPE *value)
{
    struct lexer *lexer = &builder->lexer;
    const unsigned char *YYCURSOR = (const unsigned char *)lexer->cursor;
    const unsigned char *YYMARKER;
    const unsigned char *YYCTXMARKER;
    const unsigned char *token;
    again: {
        token = YYCURSOR;
        /*!re2c
            gap | "."             { goto again; }
            "#" [^\r\n\x00]*      { lexing_comment(builder, (const char *)token, (const char *)YYCURSOR); goto again; }
            newline | "\r"        { return lexing_newline(builder, token, YYCURSOR); }
            end                   { return lexing_end(builder, (const char *)token); }

            thousands             { value->number = lexing_thousands(builder, token, YYCURSOR); goto number; }
            decimal               { value->number = lexing_decimal(token, YYCURSOR); goto number; }
            raised                { value->number = lexing_raised_point(token, YYCURSOR); goto number; }
            fraction              { value->number = lexing_figures_of_fraction(builder, token, YYCURSOR); goto number; }
            comma                 { value->number = lexing_decimal_comma(builder, token, YYCURSOR); goto number; }
            ("-" | "\u2212") blank* decimal
                                  { if (lexer->previous == T_NUMBER || lexer->previous == T_AMOUNT) { /* 50-65 grains */
                                        return lexing_token(builder, T_TO, token, token + lexing_character(token));
                                    }
                                    if (lexing_is_leader(lexer, token)) { /* metol - 2 g */
                                        YYCURSOR = token + lexing_character(token);
                                        goto again;
                                    }
                                    value->number = lexing_minus(token, YYCURSOR);
                                    goto number; }
            "-" | "\u2013" | "\u2014"
                                  { if (lexing_is_leader(lexer, token)) { goto again; }
                                    return lexing_token(builder, lexer->previous == T_NUMBER || lexer->previous == T_AMOUNT ? T_TO : T_UNKNOWN, token, YYCURSOR); }
            "|" | footmark+       { goto again; }
            [,;=/]                { if (lexing_divides_columns(builder, YYCURSOR)) { goto again; } /* 45 grains, 3 g */
                                    return lexing_token(builder, *token == ',' ? T_COMMA : T_UNKNOWN, token, YYCURSOR); }
            size                  { return lexing_size(builder, value, token, YYCURSOR); }
            date                  { return lexing_view(builder, value, T_DATE, token, YYCURSOR); }
            cas                   { return lexing_view(builder, value, T_CAS_NUMBER, token, YYCURSOR); }
            string                { return lexing_string(builder, value, token, YYCURSOR); }
            ",," | "\u201E" | "\u2033" | "''" | "\u201D"
                                  { return lexing_ditto(builder, token, YYCURSOR); }
            unclosed              { return lexing_unclosed(builder, value, token, YYCURSOR); }
            per_cent              { return lexing_percent(builder, value, token, YYCURSOR, PERCENT_PLAIN); }
            per_cent basis        { return lexing_percent(builder, value, token, YYCURSOR, lexing_basis(YYCURSOR)); }

            "(" | "["             { return lexing_token(builder, T_OPEN, token, YYCURSOR); }
            ")" | "]"             { return lexing_token(builder, T_CLOSE, token, YYCURSOR); }
            "+"                   { return lexing_token(builder, T_PLUS, token, YYCURSOR); }
            ":"                   { if (lexing_is_leader(lexer, token)) { goto again; }
                                    return lexing_token(builder, T_COLON, token, YYCURSOR); }

            'to'                  { return lexing_token(builder, T_TO, token, YYCURSOR); }
            (sufficient gap)? 'to' gap ('make' | 'measure' | 'produce') (gap 'up' (gap 'to')?)? | up_to
                                  { return lexing_token(builder, T_TO_MAKE, token, YYCURSOR); }
            'or'                  { if (lexer->previous != T_NUMBER || !lexing_divides_columns(builder, YYCURSOR)) { goto words; }
                                    return lexing_token(builder, T_TO, token, YYCURSOR); } /* 1 or 2 g */
            'as' gap 'needed' | some
                                  { return lexing_token(builder, T_AS_NEEDED, token, YYCURSOR); }
            'from'                { return lexing_token(builder, T_FROM, token, YYCURSOR); }
            'of'                  { return lexing_token(builder, T_OF, token, YYCURSOR); }
            'at'                  { return lexing_token(builder, T_AT, token, YYCURSOR); }
            'for'                 { return lexing_token(builder, T_FOR, token, YYCURSOR); }
            'in'                  { return lexing_token(builder, T_IN, token, YYCURSOR); }
            'per'                 { return lexing_token(builder, T_PER, token, YYCURSOR); }
            'per' / (blank+ 'cent' letter)
                                  { return lexing_token(builder, T_PER, token, YYCURSOR); } /* per centilitre */
            'is'                  { return lexing_token(builder, T_IS, token, YYCURSOR); }
            'by' / (gap? ["])     { return lexing_token(builder, T_BY, token, YYCURSOR); }
            'batch' / (gap? ["])  { return lexing_token(builder, T_BATCH, token, YYCURSOR); }
            'is' gap 'about'      { return lexing_token(builder, T_IS_ABOUT, token, YYCURSOR); }
            'is' gap 'unclear'    { return lexing_token(builder, T_IS_UNCLEAR, token, YYCURSOR); }
            'measures'            { return lexing_token(builder, T_MEASURES, token, YYCURSOR); }
            'is' gap 'missing'    { return lexing_token(builder, T_IS_MISSING, token, YYCURSOR); }
            'comes' gap 'after'   { return lexing_token(builder, T_COMES_AFTER, token, YYCURSOR); }
            'comes' gap 'before'  { return lexing_token(builder, T_COMES_BEFORE, token, YYCURSOR); }
            'meets'               { return lexing_token(builder, T_MEETS, token, YYCURSOR); }
            'over'                { return lexing_token(builder, T_OVER, token, YYCURSOR); }
            'under'               { return lexing_token(builder, T_UNDER, token, YYCURSOR); }
            'within'              { return lexing_token(builder, T_WITHIN, token, YYCURSOR); }
            'holds'               { return lexing_token(builder, T_HOLDS, token, YYCURSOR); }
            'says'                { return lexing_token(builder, T_SAYS, token, YYCURSOR); }
            'left'                { return lexing_token(builder, T_LEFT, token, YYCURSOR); }
            'opened'              { return lexing_token(builder, T_OPENED, token, YYCURSOR); }
            'counted'             { return lexing_token(builder, T_COUNTED, token, YYCURSOR); }
            'lot'                 { return lexing_token(builder, T_LOT, token, YYCURSOR); }
            'purity'              { return lexing_token(builder, T_PURITY, token, YYCURSOR); }
            'on'                  { return lexing_token(builder, T_ON, token, YYCURSOR); }
            'best' gap 'before'   { return lexing_token(builder, T_BEST_BEFORE, token, YYCURSOR); }
            'optional'            { return lexing_token(builder, T_OPTIONAL, token, YYCURSOR); }
            'note'                { return lexing_token(builder, T_NOTE, token, YYCURSOR); }
            'after'               { return lexing_token(builder, T_AFTER, token, YYCURSOR); }
            'before'              { return lexing_token(builder, T_BEFORE, token, YYCURSOR); }
            'usual'               { return lexing_token(builder, T_USUAL, token, YYCURSOR); }
            'saturated'           { return lexing_token(builder, T_SATURATED, token, YYCURSOR); }
            ('stock' (gap 'solution')?) | 'solution' | 'soln' "."? | 'sol.'
                                  { if (lexer->previous != T_PERCENT && lexer->previous != T_SATURATED) { goto words; }
                                    return lexing_token(builder, T_STOCK, token, YYCURSOR); }
            'also'                { lexer->mode = LEX_NAMES; return lexing_token(builder, T_ALSO, token, YYCURSOR); }
            'source'              { return lexing_token(builder, T_SOURCE, token, YYCURSOR); }
            'replacing' gap 'the' gap 'library' "'" 's'
                                  { return lexing_token(builder, T_REPLACING, token, YYCURSOR); }
            'sq' "."? blank+ 'in' "."?
                                  { return lexing_words(builder, value, token, (const char *)YYCURSOR); }
            word                  { goto words; }
            locant                { goto words; }
            *                     { return lexing_token(builder, T_UNKNOWN, token, token + lexing_character(token)); }
        */
    words:
        return lexing_words(builder, value, token, lex_run((const char *)YYCURSOR, false));
    number:
        return lexing_amount(builder, value, token, YYCURSOR, lex_unit((const char *)YYCURSOR));
    }
}

/* Tokens in the rest of a line that says what a time holds for (`time`, `trial`): a figure may follow a word and a word a figure. */
static int lex_conditions(struct builder *builder, union NOTATION_STYPE *value)
{
    struct lexer *lexer = &builder->lexer;
    const unsigned char *YYCURSOR = (const unsigned char *)lexer->cursor;
    const unsigned char *YYMARKER;
    const unsigned char *token;
    again: {
        token = YYCURSOR;
        /*!re2c
            gap                   { goto again; }
            'speed'               { return lexing_token(builder, T_SPEED, token, YYCURSOR); }
            'contrast'            { return lexing_token(builder, T_CONTRAST, token, YYCURSOR); }
            'grade'               { return lexing_token(builder, T_GRADE, token, YYCURSOR); }
            'dilute'              { return lexing_token(builder, T_DILUTE, token, YYCURSOR); }
            'time'                { return lexing_token(builder, T_TIME, token, YYCURSOR); }
            stop | 'of' | 'in' | 'or'
                                  { lexer->cursor = (const char *)token; return lexer_rest(builder, value); }
            word                  { return lexing_words(builder, value, token, lex_run((const char *)YYCURSOR, true)); }
            *                     { lexer->cursor = (const char *)token; return lexer_rest(builder, value); }
        */
    }
}

/* Reads on in a name of a list of names; returns where it ends. */
static const char *lex_names_run(const char *at)
{
    const unsigned char *end = (const unsigned char *)at;
    again: {
        const unsigned char *YYCURSOR = end;
        const unsigned char *YYMARKER;
        /*!re2c
            gap 'source'          { return (const char *)end; }
            gap? [^ \t\r\n\x00,#"\u00A0\u201C\u2026]+
                                  { end = YYCURSOR; goto again; }
            *                     { return (const char *)end; }
        */
    }
}

/* The name that a `unit` or `element` line declares, whatever words it holds: up to `is` or `measures`. */
static int lex_declared(struct builder *builder, union NOTATION_STYPE *value)
{
    struct lexer *lexer = &builder->lexer;
    const unsigned char *YYCURSOR = (const unsigned char *)lexer->cursor;
    const unsigned char *YYMARKER;
    const unsigned char *token = NULL;
    const unsigned char *end = YYCURSOR;
    lexer->mode = LEX_REST;
    again: {
        /*!re2c
            gap ('is' | 'measures') { goto done; }
            gap                   { goto again; }
            [^ \t\r\n\x00,#"\u00A0\u201C\u2026]+
                                  { token = token == NULL ? end : token; end = YYCURSOR; goto again; }
            *                     { goto done; }
        */
    }
done:
    while (token != NULL && (*token == ' ' || *token == '\t')) {
        token++;
    }
    return token == NULL ? lexer_rest(builder, value) : lexing_words(builder, value, token, (const char *)end);
}

/* Tokens of a `form` or `ions` line. */
static int lex_form(struct builder *builder, union NOTATION_STYPE *value)
{
    struct lexer *lexer = &builder->lexer;
    const unsigned char *YYCURSOR = (const unsigned char *)lexer->cursor;
    const unsigned char *YYMARKER;
    const unsigned char *token;
    again: {
        token = YYCURSOR;
        /*!re2c
            gap                   { goto again; }
            'cas'                 { return lexing_token(builder, T_CAS, token, YYCURSOR); }
            'usual'               { return lexing_token(builder, T_USUAL, token, YYCURSOR); }
            'strength'            { return lexing_token(builder, T_STRENGTH, token, YYCURSOR); }
            'density'             { return lexing_token(builder, T_DENSITY, token, YYCURSOR); }
            cas                   { return lexing_view(builder, value, T_CAS_NUMBER, token, YYCURSOR); }
            decimal               { if (lexer->previous == T_DENSITY) { lexer->cursor = (const char *)token;
                                                                        return lexer_rest(builder, value); }
                                    value->number = lexing_decimal(token, YYCURSOR);
                                    return lexing_token(builder, T_NUMBER, token, YYCURSOR); }
            'also'                { lexer->mode = LEX_NAMES; return lexing_token(builder, T_ALSO, token, YYCURSOR); }
            'source'              { lexer->mode = LEX_REST; return lexing_token(builder, T_SOURCE, token, YYCURSOR); }
            symbol                { return lexing_view(builder, value, T_CHEMICAL, token, YYCURSOR); }
            [a-z] (inner | "." letter)*
                                  { return lexing_words(builder, value, token, (const char *)YYCURSOR); }
            *                     { lexer->cursor = (const char *)token; return lexer_rest(builder, value); }
        */
    }
}

/* The unit of one word behind a number in a `pk` line; `at` itself when none follows. */
static const char *lex_short_unit(const char *at)
{
    const unsigned char *YYCURSOR = (const unsigned char *)at;
    const unsigned char *YYMARKER;
    /*!re2c
        gap? letter (letter | "/")*  { return (const char *)YYCURSOR; }
        * { return at; }
    */
}

/* Tokens of a `pk`, `inert` or `interaction` line: ions, numbers, and a few words.  Only behind a word that wants one does a
 * number have a unit, so that `2 H+` stays a count and an ion. */
static int lex_equilibrium(struct builder *builder, union NOTATION_STYPE *value)
{
    struct lexer *lexer = &builder->lexer;
    const unsigned char *YYCURSOR = (const unsigned char *)lexer->cursor;
    const unsigned char *YYMARKER;
    const unsigned char *token;
    bool measured = lexer->previous == T_AT || lexer->previous == T_IN || lexer->previous == T_ENTHALPY ||
                    lexer->previous == T_HEAT_CAPACITY;
    again: {
        token = YYCURSOR;
        /*!re2c
            gap                   { goto again; }
            decimal               { value->number = lexing_decimal(token, YYCURSOR); goto number; }
            ("-" | "\u2212") decimal
                                  { value->number = lexing_minus(token, YYCURSOR); goto number; }
            'at'                  { return lexing_token(builder, T_AT, token, YYCURSOR); }
            'in'                  { return lexing_token(builder, T_IN, token, YYCURSOR); }
            'gives'               { return lexing_token(builder, T_GIVES, token, YYCURSOR); }
            'with'                { return lexing_token(builder, T_WITH, token, YYCURSOR); }
            'within'              { return lexing_token(builder, T_WITHIN, token, YYCURSOR); }
            'enthalpy'            { return lexing_token(builder, T_ENTHALPY, token, YYCURSOR); }
            'heat' gap 'capacity' { return lexing_token(builder, T_HEAT_CAPACITY, token, YYCURSOR); }
            'source'              { return lexing_token(builder, T_SOURCE, token, YYCURSOR); }
            symbol                { return lexing_view(builder, value, T_CHEMICAL, token, YYCURSOR); }
            *                     { lexer->cursor = (const char *)token; return lexer_rest(builder, value); }
        */
    number:
        return lexing_amount(builder, value, token, YYCURSOR,
                             measured ? lex_short_unit((const char *)YYCURSOR) : (const char *)YYCURSOR);
    }
}

/* Names one after the other, each up to its comma; they may hold figures and any word of the notation. */
static int lex_names(struct builder *builder, union NOTATION_STYPE *value)
{
    struct lexer *lexer = &builder->lexer;
    const unsigned char *YYCURSOR = (const unsigned char *)lexer->cursor;
    const unsigned char *YYMARKER;
    const unsigned char *token;
    again: {
        token = YYCURSOR;
        /*!re2c
            piece = [^ \t\r\n\x00,#"\u00A0\u201C\u2026]+;
            gap                   { goto again; }
            ","                   { return lexing_token(builder, T_COMMA, token, YYCURSOR); }
            'source' | 'replacing' gap 'the' gap 'library' "'" 's'
                                  { lexer->mode = LEX_REST; lexer->cursor = (const char *)token;
                                    return lexer_rest(builder, value); }
            piece                 { lexing_remark(builder, token, YYCURSOR); return lexing_words(builder, value, token, lex_names_run((const char *)YYCURSOR)); }
            *                     { lexer->cursor = (const char *)token; return lexer_rest(builder, value); }
        */
    }
}

int lexer_other(struct builder *builder, union NOTATION_STYPE *value)
{
    switch (builder->lexer.mode) {
    case LEX_MEANING:
        return lexing_meaning(builder, value);
    case LEX_REREAD:
        return reread_lex(builder, value);
    case LEX_FORM:
        return lex_form(builder, value);
    case LEX_NAMES:
        return lex_names(builder, value);
    case LEX_CONDITIONS:
        return lex_conditions(builder, value);
    case LEX_EQUILIBRIUM:
        return lex_equilibrium(builder, value);
    case LEX_BROKEN:
        return lexing_broken(builder);
    case LEX_MEANT:
        return lexing_meant(builder);
    default:
        return lex_declared(builder, value);
    }
}
