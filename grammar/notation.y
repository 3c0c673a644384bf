/* The notation: a file of declarations, a statement a line.
 *
 * A declaration runs from its heading line to the next heading.  A line that cannot be read is reported once and left out
 * (`error NEWLINE`); reading goes on with the next.  What a statement means is none of the grammar's business. */
%require "3.8"
%language "C"
%define api.pure full
%define api.prefix {notation_}
%define api.token.prefix {T_}
%define api.token.raw
%define api.location.type {struct span}
%define parse.error custom
/* A table for every context: a line is found wrong at the first token that cannot stand there, and what could is read off the
 * table, without trying it out on a copy of the stack. */
%define lr.type canonical-lr
%define lr.default-reduction consistent
%locations
%lex-param   {struct builder *builder}
%parse-param {struct builder *builder}

%code requires {
#include "syntax/builder.h"
}

%code {
#define YYLLOC_DEFAULT(current, rhs, n)                                                                                \
    ((current) = (n) ? span_from(YYRHSLOC(rhs, 1), YYRHSLOC(rhs, n))                                                   \
                     : span_make(YYRHSLOC(rhs, 0).end, YYRHSLOC(rhs, 0).end))
/* Every list is left-recursive, so the depth of the stack does not depend on the text: the stacks that stand in the parser's
 * frame suffice, and nothing has to be freed when an allocation elsewhere fails. */
#define YYINITDEPTH 200
#define YYMAXDEPTH 200
#define YYMALLOC(size) ((void)(size), (void *)0)
#define YYFREE(pointer) ((void)(pointer))

#include "syntax/tokens.h"
static void notation_error(const struct span *location, struct builder *builder, const char *message);
}

%union {
    double number;
    enum percent_basis basis;
    struct text text;
    struct name *name;
    struct word *word;
    struct sheet_size *size;
    struct quantity *quantity;
    struct strength *strength;
    struct form_words *form;
    struct form_list *forms;
    struct material_words *material;
    struct amount_words *amount;
    struct tails *tails;
    struct mix_item *mix;
    struct ratio *ratio;
    struct form_statement *form_statement;
    struct figure_statement *figure;
    struct ion *ion;
    struct unit_value *unit_value;
    struct unit_words *unit;
    struct condition_statement *condition;
    struct bound *bound;
    struct phrase_words *phrase;
    struct holding_statement *pack;
    struct took_statement *took;
    struct bath_statement *bath;
    struct trial_statement *trial;
    struct conditions *conditions;
    struct wash_statement *wash;
    struct pk_statement *pk;
}

/* What a person may see named in a message stands in the alias, in the words of the trade. */
%token END 0          "the end of the file"
%token NEWLINE        "the end of the line"
%token UNKNOWN        "a sign that has no meaning here"
%token <name> WORDS   "a name"
%token <text> STRING  "a text in double quotes"
%token <number> NUMBER "a number"
%token <quantity> AMOUNT "an amount such as 25 g"
%token <basis> PERCENT "%"
%token <size> SIZE    "a size such as 8x10 in"
%token <text> LABEL  "a name of a part as it is printed"
%token <text> DATE    "a date such as 2026-03-04"
%token <text> CAS_NUMBER "a CAS number such as 7757-83-7"
%token <text> CHEMICAL "a chemical formula such as Na2SO3"
%token OPEN "(" CLOSE ")" COMMA "," PLUS "+" COLON ":"
%token TO "to" TO_MAKE "to make" AS_NEEDED "as needed" FROM "from" OF "of" AT "at" FOR "for" IN "in" PER "per" IS "is"
%token IS_ABOUT "is about" IS_UNCLEAR "is unclear" OPTIONAL "optional" BEFORE "before" SATURATED "saturated"
%token REPLACING "replacing the library's" CAS "cas" USUAL "usual" STRENGTH "strength"

%token IS_MISSING "is missing" COMES_AFTER "comes after" COMES_BEFORE "comes before" MEETS "meets" OVER "over"
%token UNDER "under" WITHIN "within" LEFT "left" OPENED "opened" LOT "lot" ON "on" BEST_BEFORE "best before"
%token RULE "rule" REACTION "reaction" GROUP "group" WHEN "when" WARN "warn" ADVISE "advise" SAYS "says"
%token BESIDE "beside" UNLESS "unless" WHERE "where" HARM "harm"
%token SHELF "shelf" CURRENCY "currency" BALANCE "balance" GRADUATE "graduate" HOLDS "holds"
%token SOLD "sold" BOTTLE "bottle" PURITY "purity" COUNTED "counted"
%token BATCH "batch" MIXED "mixed" MIXED_AS "mixed as" BY "by" TOOK "took" TOPPED_UP "topped up" MADE "made" USED "used" DISCARDED "discarded" TRIAL "trial" SPEED "speed" CONTRAST "contrast" GRADE "grade"
%token PROCESS "process" TANK "tank" TRAY "tray" DRAIN "drain" BATH "bath" WASH "wash"
%token USE_ONCE "use once" REPLACE_AFTER "replace after" REPLENISH "replenish"
%token FORMULA "formula" VARIANT "variant" STOCK "stock" MATERIAL "material" UNIT "unit" ELEMENT "element"
%token WORDING "wording" MEANS "means" OFFERS "offers"
%token <text> MEANING "a line of the notation"
%token PHRASE "phrase" READ "read" KIND_OF_BATH "kind of bath"
%token KIND "kind" MAKES "makes" MEASURES "measures" AFTER "after" NOTE "note" KEEPS "keeps" SILENCE "silence"
%token PINCH_OF "pinch of" SOLUTION "solution" COOL_TO "cool to" WARM_TO "warm to" STAND "stand" FILTER "filter" DO "do"
%token PART "part" USE_FOR "use for" DILUTE "dilute" MIX "mix" TEMPERATURE "temperature" TIME "time" AGITATE "agitate"
%token NEEDS "needs" CAPACITY "capacity" COEFFICIENT "coefficient"
%token CHANGE "change" LEAVE_OUT "leave out" ADD "add" SWAP "swap"
%token ALSO "also" ROLE "role" FORM "form" IONS "ions" DISSOLVES "dissolves" TYPICAL "typical" DENSITY "density"
%token HAZARD "hazard" LIMIT "limit" FACTOR "factor" TOXICITY "toxicity" CAUTION "caution"
%token MISTAKEN_FOR "mistaken for" STOP "stop" STORE "store" SOURCE "source" COUNTS_AS "counts as"
%token EQUILIBRIUM "equilibrium" PK "pk" INERT "inert" INTERACTION "interaction" GIVES "gives" WITH "with"
%token ENTHALPY "enthalpy" HEAT_CAPACITY "heat capacity"

%type <word> word words use_name dimension in_part
%type <quantity> quantity compound counted sum added sheets measure
%type <strength> strength
%type <form> form form_other figures
%type <forms> form_others
%type <material> material formed place solute
%type <amount> amount other_amount plain_amount
%type <tails> tails tail any_tails bracketed bracket
%type <mix> mix_items mix_item
%type <ratio> ratio ratio_figures
%type <text> source bottle_note
%type <form_statement> form_line
%type <figure> dissolving limits
%type <ion> ions ion
%type <unit_value> unit_values unit_value
%type <unit> unit_meaning
%type <phrase> phrase
%type <name> code
%type <condition> condition reagent
%type <bound> bound
%type <pack> holding
%type <took> origin
%type <bath> bath
%type <trial> trial
%type <conditions> circumstance circumstances
%type <wash> washing
%type <pk> pk
%type <ion> interactions

%%

file:
    preamble declarations
  ;

preamble:
    %empty
  | preamble error NEWLINE                      { yyerrok; }
  ;

declarations:
    %empty
  | declarations declaration
  ;

declaration:
    formula_heading formula_lines
  | variant_heading variant_lines
  | stock_heading stock_lines
  | material_heading material_lines
  | rule_heading rule_lines
  | reaction_heading reaction_lines
  | group_heading group_lines
  | equilibrium_heading equilibrium_lines
  | shelf_heading shelf_lines
  | batch_heading batch_lines
  | process_heading process_lines
  | wording_heading wording_lines
  | kind_heading kind_lines
  | unit_heading unit_lines
  | plain_declaration plain_lines
  ;

/* ---- formulas ---- */

formula_heading:
    FORMULA STRING NEWLINE                      { build_titled(builder, DECLARE_FORMULA, $2, @2, @$); }
  | FORMULA error NEWLINE                       { build_titled(builder, DECLARE_FORMULA, (struct text){0}, @1, @$); yyerrok; }
  ;

formula_lines:
    %empty
  | formula_lines common_line
  | formula_lines part_line
  | formula_lines use_line
  | formula_lines addition_line
  | formula_lines step_line
  | formula_lines label NEWLINE
  | formula_lines label addition_line
  | formula_lines error NEWLINE                 { build_refused_line(builder, @3); yyerrok; }
  ;

/* How books head a part, alone on its line or before its first addition: "No. 1.", "Solution B", "A.—". */
label:
    LABEL                                       { build_label(builder, $1, @1); }
  ;

common_line:
    KIND words NEWLINE                          { build_words(builder, SAY_KIND, $2, @$); }
  | FOR words NEWLINE                           { build_for(builder, $2, @$); }
  | MAKES quantity NEWLINE                      { build_figures(builder, SAY_MAKES, $2, NULL, NULL, @$); }
  | MEASURES word NEWLINE                       { build_words(builder, SAY_MEASURES, $2, @$); }
  | AFTER STRING NEWLINE                        { build_text(builder, SAY_AFTER, $2, @2, @$); }
  | NOTE STRING NEWLINE                         { build_text(builder, SAY_NOTE, $2, @2, @$); }
  | KEEPS quantity NEWLINE                      { build_figures(builder, SAY_KEEPS, $2, NULL, NULL, @$); }
  | KEEPS quantity IN use_name NEWLINE          { build_figures(builder, SAY_KEEPS, $2, NULL, $4, @$); }
  | SILENCE words NEWLINE                       { build_words(builder, SAY_SILENCE, $2, @$); }
  ;

part_line:
    PART WORDS NEWLINE                          { build_part(builder, $2, NAN, (struct text){0}, @2, @$); }
  | PART NUMBER NEWLINE                         { build_part(builder, NULL, $2, (struct text){0}, @2, @$); }
  | PART WORDS NUMBER NEWLINE                   { build_part(builder, $2, $3, (struct text){0}, span_join(@2, @3), @$); }
  | PART STRING NEWLINE                         { build_part(builder, NULL, NAN, $2, @2, @$); }
  ;

use_line:
    USE_FOR use_name NEWLINE                    { build_words(builder, SAY_USE, $2, @$); }
  | DILUTE ratio NEWLINE                        { build_dilution(builder, $2, NULL, @$); }
  | DILUTE ratio TO ratio NEWLINE               { build_dilution(builder, $2, $4, @$); }
  | DILUTE sum TO_MAKE sum NEWLINE              { build_volumes_dilution(builder, $2, $4, @$); }
  | MIX mix_items NEWLINE                       { build_mix(builder, $2, @$); }
  | MIX ratio_figures NEWLINE                   { build_mix_ratio(builder, $2, @$); }
  | TEMPERATURE quantity NEWLINE                { build_figures(builder, SAY_TEMPERATURE, $2, NULL, NULL, @$); }
  | TIME quantity circumstances NEWLINE            { build_time(builder, $2, $3, @$); }
  | BATH WORDS quantity circumstances NEWLINE      { build_pour(builder, $2, NAN, (struct text){0}, @2, $3, $4, @$); }
  | BATH NUMBER quantity circumstances NEWLINE     { build_pour(builder, NULL, $2, (struct text){0}, @2, $3, $4, @$); }
  | BATH WORDS NUMBER quantity circumstances NEWLINE
                                                { build_pour(builder, $2, $3, (struct text){0}, span_join(@2, @3), $4, $5, @$); }
  | BATH STRING quantity circumstances NEWLINE     { build_pour(builder, NULL, NAN, $2, @2, $3, $4, @$); }
  | AGITATE STRING NEWLINE                      { build_text(builder, SAY_AGITATE, $2, @2, @$); }
  | NEEDS quantity PER counted NEWLINE          { build_figures(builder, SAY_NEEDS, $2, $4, NULL, @$); }
  | CAPACITY quantity PER counted NEWLINE       { build_figures(builder, SAY_CAPACITY, $2, $4, NULL, @$); }
  | COEFFICIENT quantity PER counted NEWLINE    { build_figures(builder, SAY_COEFFICIENT, $2, $4, NULL, @$); }
  | REPLENISH quantity PER counted NEWLINE      { build_replenish(builder, $2, $4, (struct text){0}, @1, @$); }
  | REPLENISH quantity OF STRING PER counted NEWLINE
                                                { build_replenish(builder, $2, $6, $4, @4, @$); }
  ;

/* What a time holds for, or was tried with, in any order: `at 20 °C for speed 200 contrast 0.62`. */
circumstances:
    %empty                                      { $$ = ARENA_NEW(builder->arena, struct conditions); }
  | circumstances circumstance                        { $$ = build_conditions(builder, $1, $2, @2); }
  | circumstances FOR circumstance                    { $$ = build_conditions(builder, $1, $3, @3); }
  | circumstances COMMA
  ;

circumstance:
    AT measure                                  { $$ = ARENA_NEW(builder->arena, struct conditions); $$->temperature = $2; }
  | SPEED NUMBER                                { $$ = ARENA_NEW(builder->arena, struct conditions); $$->speed = build_quantity(builder, $2, NULL, @2); }
  | CONTRAST NUMBER                             { $$ = ARENA_NEW(builder->arena, struct conditions); $$->contrast = build_quantity(builder, $2, NULL, @2); }
  | GRADE NUMBER                                { $$ = ARENA_NEW(builder->arena, struct conditions); $$->grade = build_quantity(builder, $2, NULL, @2); }
  | DILUTE ratio                                { $$ = ARENA_NEW(builder->arena, struct conditions); $$->ratio = $2; }
  ;

use_name:
    WORDS                                       { $$ = build_word(builder, $1, @1); }
  | STRING                                      { $$ = build_word(builder, build_name(builder, $1), @1); }
  ;

/* Most lines of any file are a name and an amount, so the parser is spared what it can be in these: a bare name and a lone amount
 * are taken as they are, without a reduction for each thing that they are an instance of. */
addition_line:
    WORDS AMOUNT NEWLINE                        { build_addition(builder, SAY_ADDITION, build_material(builder, $1, @1, NULL),
                                                                 build_plain_amount(builder, $2), NULL, @$); }
  | WORDS other_amount NEWLINE                  { build_addition(builder, SAY_ADDITION, build_material(builder, $1, @1, NULL), $2, NULL, @$); }
  | WORDS amount tails NEWLINE                  { build_addition(builder, SAY_ADDITION, build_material(builder, $1, @1, NULL), $2, $3, @$); }
  | formed AMOUNT NEWLINE                       { build_addition(builder, SAY_ADDITION, $1, build_plain_amount(builder, $2), NULL, @$); }
  | formed other_amount NEWLINE                 { build_addition(builder, SAY_ADDITION, $1, $2, NULL, @$); }
  | formed amount tails NEWLINE                 { build_addition(builder, SAY_ADDITION, $1, $2, $3, @$); }
  | WORDS amount bracketed NEWLINE              { build_addition(builder, SAY_ADDITION, build_material(builder, $1, @1, NULL), $2, $3, @$); }
  | formed amount bracketed NEWLINE             { build_addition(builder, SAY_ADDITION, $1, $2, $3, @$); }
  | formed COMMA amount any_tails NEWLINE       { build_addition(builder, SAY_ADDITION, $1, $3, $4, @$); }
  | WORDS COMMA amount any_tails NEWLINE        { build_addition(builder, SAY_ADDITION, build_material(builder, $1, @1, NULL), $3, $4, @$); }
  | WORDS COMMA amount OPEN AMOUNT CLOSE amount any_tails NEWLINE
                                                { build_warm_addition(builder, build_material(builder, $1, @1, NULL), $3, $7, $8, @$); }
  | WORDS AT AMOUNT amount any_tails NEWLINE    { build_warm_addition(builder, build_material(builder, $1, @1, NULL),
                                                                      build_plain_amount(builder, $3),
                                                                      $4, $5, @$); }
  | WORDS AT AMOUNT OPEN AMOUNT CLOSE amount any_tails NEWLINE
                                                { build_warm_addition(builder, build_material(builder, $1, @1, NULL),
                                                                      build_plain_amount(builder, $3),
                                                                      $7, $8, @$); }
  | WORDS figures amount any_tails NEWLINE      { build_addition(builder, SAY_ADDITION, build_material(builder, $1, @1, $2), $3, $4, @$); }
  | formed figures amount any_tails NEWLINE     { build_addition(builder, SAY_ADDITION, build_figures_form(builder, $1, $2), $3, $4, @$); }
  | WORDS COMMA figures amount any_tails NEWLINE
                                                { build_addition(builder, SAY_ADDITION, build_material(builder, $1, @1, $3), $4, $5, @$); }
  | WORDS COMMA figures COMMA amount any_tails NEWLINE
                                                { build_addition(builder, SAY_ADDITION, build_material(builder, $1, @1, $3), $5, $6, @$); }
  | WORDS NUMBER sum any_tails NEWLINE          { build_gravity_addition(builder, build_material(builder, $1, @1, NULL), $2, @2, $3, $4, @$); }
  | formed NUMBER sum any_tails NEWLINE         { build_gravity_addition(builder, $1, $2, @2, $3, $4, @$); }
  | WORDS COMMA NUMBER sum any_tails NEWLINE    { build_gravity_addition(builder, build_material(builder, $1, @1, NULL), $3, @3, $4, $5, @$); }
  | WORDS strength STOCK quantity any_tails NEWLINE
                                                { build_addition(builder, SAY_ADDITION, build_material(builder, $1, @1, NULL),
                                                                 build_amount(builder, AMOUNT_OF_STOCK, $4, $2, @4), $5, @$); }
  | formed strength STOCK quantity any_tails NEWLINE
                                                { build_addition(builder, SAY_ADDITION, $1, build_amount(builder, AMOUNT_OF_STOCK, $4, $2, @4), $5, @$); }
  | WORDS COMMA strength STOCK quantity any_tails NEWLINE
                                                { build_addition(builder, SAY_ADDITION, build_material(builder, $1, @1, NULL),
                                                                 build_amount(builder, AMOUNT_OF_STOCK, $5, $3, @5), $6, @$); }
  | strength STOCK solute quantity any_tails NEWLINE
                                                { build_addition(builder, SAY_ADDITION, $3, build_amount(builder, AMOUNT_OF_STOCK, $4, $1, @4), $5, @$); }
  | strength WORDS quantity any_tails NEWLINE   { build_named_solution(builder, $1, $2, @2, $3, $4, @$); }
  | strength STOCK OF solute quantity any_tails NEWLINE
                                                { build_addition(builder, SAY_ADDITION, $4, build_amount(builder, AMOUNT_OF_STOCK, $5, $1, @5), $6, @$); }
  | WORDS AS_NEEDED any_tails NEWLINE           { build_addition(builder, SAY_ADDITION, build_material(builder, $1, @1, NULL),
                                                                 build_as_needed(builder, @2), $3, @$); }
  | formed AS_NEEDED any_tails NEWLINE          { build_addition(builder, SAY_ADDITION, $1, build_as_needed(builder, @2), $3, @$); }
  | WORDS COMMA AS_NEEDED any_tails NEWLINE     { build_addition(builder, SAY_ADDITION, build_material(builder, $1, @1, NULL),
                                                                 build_as_needed(builder, @3), $4, @$); }
  | formed COMMA AS_NEEDED any_tails NEWLINE    { build_addition(builder, SAY_ADDITION, $1, build_as_needed(builder, @3), $4, @$); }
  | PINCH_OF place NEWLINE                      { build_addition(builder, SAY_PINCH, $2, NULL, NULL, @$); }
  | PINCH_OF place tails NEWLINE                { build_addition(builder, SAY_PINCH, $2, NULL, $3, @$); }
  | SOLUTION WORDS quantity any_tails NEWLINE   { build_solution(builder, $2, NAN, (struct text){0}, @2, $3, $4, @$); }
  | SOLUTION NUMBER quantity any_tails NEWLINE  { build_solution(builder, NULL, $2, (struct text){0}, @2, $3, $4, @$); }
  | SOLUTION WORDS NUMBER quantity any_tails NEWLINE
                                                { build_solution(builder, $2, $3, (struct text){0}, span_join(@2, @3), $4, $5, @$); }
  | SOLUTION WORDS AS_NEEDED any_tails NEWLINE  { build_solution(builder, $2, NAN, (struct text){0}, @2, NULL, $4, @$); }
  | SOLUTION NUMBER AS_NEEDED any_tails NEWLINE { build_solution(builder, NULL, $2, (struct text){0}, @2, NULL, $4, @$); }
  | SOLUTION STRING AS_NEEDED any_tails NEWLINE { build_solution(builder, NULL, NAN, $2, @2, NULL, $4, @$); }
  | SOLUTION WORDS NEWLINE                      { build_part_as_solution(builder, @1, $2, @2, @$); }
  | SOLUTION STRING quantity any_tails NEWLINE  { build_solution(builder, NULL, NAN, $2, @2, $3, $4, @$); }
  ;

step_line:
    COOL_TO quantity NEWLINE                    { build_figures(builder, SAY_COOL, $2, NULL, NULL, @$); }
  | WARM_TO quantity NEWLINE                    { build_figures(builder, SAY_WARM, $2, NULL, NULL, @$); }
  | STAND quantity NEWLINE                      { build_figures(builder, SAY_STAND, $2, NULL, NULL, @$); }
  | FILTER NEWLINE                              { build_words(builder, SAY_FILTER, NULL, @$); }
  | DO STRING NEWLINE                           { build_text(builder, SAY_DO, $2, @2, @$); }
  ;

/* A strength without its brackets, as books print it: "acetic acid 28 %", "formalin, 40 %". */
figures:
    NUMBER PERCENT                              { $$ = build_form(builder, NULL, $1, true); $$->span = @$; }
  ;

/* What a solution is of, where the line begins with its strength: "10% solution of potassium bromide, 30 mL". */
solute:
    WORDS                                       { $$ = build_material(builder, $1, @1, NULL); }
  | WORDS COMMA                                 { $$ = build_material(builder, $1, @1, NULL); }
  | formed
  | formed COMMA
  ;

/* A material: `NAME`, `NAME (FORM)`, or as books print it, `NAME, FORM`. */
material:
    WORDS                                       { $$ = build_material(builder, $1, @1, NULL); }
  | formed
  ;

formed:
    WORDS OPEN form CLOSE                       { $$ = build_material(builder, $1, @1, $3); }
  | WORDS COMMA OPEN form CLOSE                 { $$ = build_material(builder, $1, @1, $4); }
  | WORDS COMMA WORDS                           { $$ = build_material(builder, $1, @1, build_comma_form(builder, $3, @3)); }
  ;

place:
    WORDS                                       { $$ = build_material(builder, $1, @1, NULL); }
  | WORDS OPEN form CLOSE                       { $$ = build_material(builder, $1, @1, $3); }
  ;

form:
    WORDS                                       { $$ = build_form(builder, $1, NAN, false); $$->span = @$; }
  | NUMBER                                      { $$ = build_form(builder, NULL, $1, false); $$->span = @$; }
  | NUMBER PERCENT                              { $$ = build_form(builder, NULL, $1, true); $$->span = @$; }
  | WORDS NUMBER                                { $$ = build_gravity_form(builder, $1, $2, @1); $$->span = @$; }
  | NUMBER PERCENT WORDS                        { $$ = build_form(builder, NULL, $1, true); $$->span = @$; }
  | NUMBER PERCENT STOCK                        { $$ = build_form(builder, NULL, $1, true); $$->span = @$; }
  | AMOUNT                                      { $$ = build_form(builder, $1->unit, $1->value, false); $$->span = @$; }
  | WORDS AMOUNT                                { $$ = build_form(builder, $2->unit, $2->value, false); $$->span = @$; }
  | AMOUNT AMOUNT                               { $$ = build_form_or(builder, $1, $2); $$->span = @$; }
  | WORDS AMOUNT AMOUNT                         { $$ = build_form_or(builder, $2, $3); $$->span = @$; }
  | AMOUNT TO AMOUNT                            { $$ = build_form(builder, $3->unit, $1->value, false); $$->span = @$; }
  | STRING                                      { $$ = build_form(builder, build_name(builder, $1), NAN, false); $$->span = @$; }
  ;

amount:
    AMOUNT                                      { $$ = build_plain_amount(builder, $1); }
  | other_amount
  ;

other_amount:
    compound                                    { $$ = build_amount(builder, AMOUNT_PLAIN, $1, NULL, @$); }
  | quantity FROM strength STOCK                { $$ = build_amount(builder, AMOUNT_FROM_STOCK, $1, $3, @$); }
  | quantity OF strength STOCK                  { $$ = build_amount(builder, AMOUNT_OF_STOCK, $1, $3, @$); }
  | TO_MAKE AMOUNT                              { $$ = build_amount(builder, AMOUNT_TO_MAKE, $2, NULL, @$); }
  | TO_MAKE compound                            { $$ = build_amount(builder, AMOUNT_TO_MAKE, $2, NULL, @$); }
  | TO quantity                                 { $$ = build_amount(builder, AMOUNT_TO_MAKE, $2, NULL, @$); }
  ;

plain_amount:
    quantity                                    { $$ = build_amount(builder, AMOUNT_PLAIN, $1, NULL, @$); }
  | quantity FROM strength STOCK                { $$ = build_amount(builder, AMOUNT_FROM_STOCK, $1, $3, @$); }
  | quantity OF strength STOCK                  { $$ = build_amount(builder, AMOUNT_OF_STOCK, $1, $3, @$); }
  ;

strength:
    NUMBER PERCENT                              { $$ = build_strength(builder, $1, $2, false, @1, @$); }
  | SATURATED                                   { $$ = build_strength(builder, NAN, PERCENT_PLAIN, true, (struct span){0}, @$); }
  ;

any_tails:
    %empty                                      { $$ = NULL; }
  | tails
  | bracketed
  ;

bracketed:
    bracket
  | bracket tails                               { $$ = build_tails($1, $2); }
  ;

tails:
    tail
  | tails tail                                  { $$ = build_tails($1, $2); }
  ;

/* Right behind the amount: the same in other units, or the form. */
bracket:
    OPEN AMOUNT CLOSE                           { $$ = build_tail_other(builder, $2, @$); }
  | OPEN AMOUNT TO sum CLOSE                    { $$ = build_tail_other(builder, build_range($2, $4), @$); }
  | OPEN NUMBER TO sum CLOSE                    { $$ = build_tail_other(builder, build_range(build_quantity(builder, $2, NULL, @2), $4), @$); }
  | OPEN WORDS CLOSE                            { $$ = build_tail_form(builder, build_comma_form(builder, $2, @2)); }
  | OPEN NUMBER PERCENT CLOSE                   { $$ = build_tail_form(builder, build_form(builder, NULL, $2, true)); $$->form->span = span_join(@2, @3); }
  | OPEN OPTIONAL CLOSE                         { $$ = build_tail_optional(builder); }
  ;

tail:
    AT AMOUNT OPEN AMOUNT CLOSE                 { $$ = build_tail_temperature(builder, $2); }
  | AT quantity                                 { $$ = build_tail_temperature(builder, $2); }
  | OPTIONAL                                    { $$ = build_tail_optional(builder); }
  | COMMA OPTIONAL                              { $$ = build_tail_optional(builder); }
  | COMMA WORDS                                 { $$ = build_tail_form(builder, build_comma_form(builder, $2, @2)); }
  | NOTE STRING                                 { $$ = build_tail_note(builder, $2); }
  | COMMA AFTER place                           { $$ = build_tail_place(builder, $3, false); }
  | COMMA BEFORE place                          { $$ = build_tail_place(builder, $3, true); }
  | AFTER place                                 { $$ = build_tail_place(builder, $2, false); }
  | BEFORE place                                { $$ = build_tail_place(builder, $2, true); }
  ;

/* ---- quantities ---- */

quantity:
    AMOUNT                                      { $$ = $1; }
  | compound
  ;

/* A quantity that is more, or less, than one amount. */
compound:
    NUMBER                                      { $$ = build_quantity(builder, $1, NULL, @$); }
  | sheets
  | added
  | AMOUNT TO sum                               { $$ = build_range($1, $3); }
  | sheets TO sum                               { $$ = build_range($1, $3); }
  | added TO sum                                { $$ = build_range($1, $3); }
  | NUMBER TO sum                               { $$ = build_range(build_quantity(builder, $1, NULL, @1), $3); }
  | NUMBER TO NUMBER                            { $$ = build_range(build_quantity(builder, $1, NULL, @1),
                                                                   build_quantity(builder, $3, NULL, @3)); }
  ;

sum:
    AMOUNT                                      { $$ = $1; }
  | sheets
  | added
  ;

/* Amounts that are added up: "3 oz 70 grains". */
added:
    AMOUNT AMOUNT                               { $$ = build_sum($1,
                                                                 $2); }
  | sheets AMOUNT                               { $$ = build_sum($1, $2); }
  | added AMOUNT                                { $$ = build_sum($1, $2); }
  ;

sheets:
    AMOUNT SIZE                                 { $$ = build_counted($1, $2, @$); }
  ;

measure:
    AMOUNT                                      { $$ = $1; }
  ;

/* What an amount goes by: `per roll`, `per L`, `per 10 °C`, `per sheet 8x10 in`. */
counted:
    WORDS                                       { $$ = build_quantity(builder, 1, $1, @$); }
  | WORDS SIZE                                  { $$ = build_counted(build_quantity(builder, 1, $1, @1), $2, @$); }
  | sum
  ;

ratio:
    ratio_figures
  | WORDS                                       { if (($$ = build_ratio_words(builder, $1, @$)) == NULL) { YYERROR; } }
  ;

ratio_figures:
    NUMBER PLUS NUMBER                          { $$ = build_ratio(builder, $1, $3, @3, @$); }
  | ratio_figures PLUS NUMBER                   { $$ = build_ratio_more(builder, $1, $3, @3, @$); }
  | NUMBER COLON NUMBER                         { $$ = build_ratio_with_colon(builder, $1, $3, @3, @$); }
  ;

mix_items:
    mix_item
  | mix_items PLUS mix_item                     { $$ = build_mix_list($1, $3); }
  ;

mix_item:
    WORDS quantity                              { $$ = build_mix_item(builder, build_material(builder, $1, @1, NULL), NAN, (struct text){0}, $2, @$); }
  | WORDS OPEN form CLOSE quantity              { $$ = build_mix_item(builder, build_material(builder, $1, @1, $3), NAN, (struct text){0}, $5, @$); }
  | NUMBER quantity                             { $$ = build_mix_item(builder, NULL, $1, (struct text){0}, $2, @$); }
  | WORDS NUMBER quantity                       { $$ = build_mix_item(builder, build_material(builder, $1, @1, NULL), $2, (struct text){0}, $3, @$); }
  | STRING quantity                             { $$ = build_mix_item(builder, NULL, NAN, $1, $2, @$); }
  | WORDS TO_MAKE quantity                      { $$ = build_mix_item(builder, build_material(builder, $1, @1, NULL), NAN, (struct text){0}, $3, @$);
                                                  $$->to_make = true; }
  ;

/* ---- variants and stocks ---- */

variant_heading:
    VARIANT STRING NEWLINE                      { build_titled(builder, DECLARE_VARIANT, $2, @2, @$); }
  | VARIANT error NEWLINE                       { build_titled(builder, DECLARE_VARIANT, (struct text){0}, @1, @$); yyerrok; }
  ;

variant_lines:
    %empty
  | variant_lines common_line
  | variant_lines use_line
  | variant_lines change_line
  | variant_lines error NEWLINE                 { build_refused_line(builder, @3); yyerrok; }
  ;

change_line:
    OF STRING NEWLINE                           { build_text(builder, SAY_OF, $2, @2, @$); }
  | CHANGE material in_part TO plain_amount NEWLINE
                                                { build_change(builder, SAY_CHANGE, $2, $3, $5, @$); }
  | CHANGE material in_part TO_MAKE quantity NEWLINE
                                                { build_change(builder, SAY_CHANGE, $2, $3,
                                                               build_amount(builder, AMOUNT_TO_MAKE, $5, NULL, span_join(@4, @5)), @$); }
  | LEAVE_OUT material in_part NEWLINE          { build_change(builder, SAY_LEAVE_OUT, $2, $3, NULL, @$); }
  | ADD material amount in_part any_tails NEWLINE
                                                { build_addition(builder, SAY_ADD, $2, $3, build_tail_part(builder, $5, $4), @$); }
  | SWAP material in_part FOR material NEWLINE  { build_swap(builder, $2, $3, $5, NULL, @$); }
  | SWAP material in_part FOR material PLUS material NEWLINE
                                                { build_swap(builder, $2, $3, $5, $7, @$); }
  ;

/* Which part of the parent is meant: `in part A`. */
in_part:
    %empty                                      { $$ = NULL; }
  | IN WORDS                                    { $$ = build_in_part(builder, $2, @2, NAN, (struct text){0}, @2); }
  | IN WORDS NUMBER                             { $$ = build_in_part(builder, $2, @2, $3, (struct text){0}, @3); }
  | IN WORDS STRING                             { $$ = build_in_part(builder, $2, @2, NAN, $3, @3); }
  ;

stock_heading:
    STOCK material strength NEWLINE             { build_stock(builder, $2, $3, @$); }
  | STOCK error NEWLINE                         { build_stock(builder, NULL, NULL, @$); yyerrok; }
  ;

stock_lines:
    %empty
  | stock_lines common_line
  | stock_lines step_line
  | stock_lines IN word NEWLINE                 { build_words(builder, SAY_SOLVENT, $3, span_join(@2, @4)); }
  | stock_lines error NEWLINE                   { build_refused_line(builder, @3); yyerrok; }
  ;

/* ---- the library: materials, units, elements, phrases ---- */

material_heading:
    MATERIAL WORDS NEWLINE                      { build_named(builder, DECLARE_MATERIAL, $2, @2, false, @$); }
  | MATERIAL WORDS COMMA REPLACING NEWLINE      { build_named(builder, DECLARE_MATERIAL, $2, @2, true, @$); }
  | MATERIAL error NEWLINE                      { build_named(builder, DECLARE_MATERIAL, NULL, @1, false, @$); yyerrok; }
  ;

material_lines:
    %empty
  | material_lines material_line
  ;

material_line:
    ALSO words NEWLINE                          { build_words(builder, SAY_ALSO, $2, @$); }
  | ROLE words NEWLINE                          { build_words(builder, SAY_ROLE, $2, @$); }
  | FORM form_line NEWLINE                      { build_form_statement(builder, $2, @$); }
  | IONS ions source NEWLINE                    { build_ions(builder, SAY_IONS, $2, $3, @$); }
  | IONS word source NEWLINE                    { build_no_ions(builder, $2, $3, @$); }
  | DISSOLVES dissolving source NEWLINE         { build_figure(builder, SAY_DISSOLVES, $2, $3, @$); }
  | TYPICAL word quantity source NEWLINE        { build_figure(builder, SAY_TYPICAL, build_figure_of(builder, $2, $3, NULL), $4, @$); }
  | DENSITY quantity source NEWLINE             { build_figure(builder, SAY_DENSITY, build_figure_of(builder, NULL, $2, NULL), $3, @$); }
  | DENSITY quantity AT quantity source NEWLINE { build_figure(builder, SAY_DENSITY, build_figure_of(builder, NULL, $2, $4), $5, @$); }
  | HAZARD STRING word source NEWLINE           { build_figure(builder, SAY_HAZARD, build_class(builder, $2, $3), $4, @$); }
  | HAZARD word source NEWLINE                  { build_figure(builder, SAY_HAZARD, build_class(builder, (struct text){0}, $2), $3, @$); }
  | LIMIT STRING word limits source NEWLINE     { build_figure(builder, SAY_LIMIT, build_limit(builder, $2, $3, $4), $5, @$); }
  | LIMIT word limits source NEWLINE            { build_figure(builder, SAY_LIMIT, build_limit(builder, (struct text){0}, $2, $3), $4, @$); }
  | COUNTS_AS form source NEWLINE               { build_counts_as(builder, $2, @2, $3, @$); }
  | FACTOR word NUMBER source NEWLINE           { build_figure(builder, SAY_FACTOR, build_figure_of(builder, $2,
                                                    build_quantity(builder, $3, NULL, @3), NULL), $4, @$); }
  | TOXICITY word quantity source NEWLINE       { build_figure(builder, SAY_TOXICITY, build_figure_of(builder, $2, $3, NULL), $4, @$); }
  | CAUTION STRING source NEWLINE               { build_text_from(builder, SAY_CAUTION, $2, @2, $3, @$); }
  | STOP STRING source NEWLINE                  { build_text_from(builder, SAY_STOP, $2, @2, $3, @$); }
  | MISTAKEN_FOR words NEWLINE                  { build_words(builder, SAY_MISTAKEN, $2, @$); }
  | STORE STRING source NEWLINE                 { build_text_from(builder, SAY_STORE, $2, @2, $3, @$); }
  | NOTE STRING NEWLINE                         { build_text(builder, SAY_NOTE, $2, @2, @$); }
  | SOURCE STRING NEWLINE                       { build_text(builder, SAY_SOURCE, $2, @2, @$); }
  | error NEWLINE                               { yyerrok; }
  ;

form_line:
    %empty                                      { $$ = build_form_line(builder); }
  | form_line WORDS                             { $$ = build_form_name(builder, $1, build_form(builder, $2, NAN, false), @2); }
  | form_line NUMBER                            { $$ = build_form_name(builder, $1, build_form(builder, NULL, $2, false), @2); }
  | form_line NUMBER PERCENT                    { $$ = build_form_name(builder, $1, build_form(builder, NULL, $2, true), span_join(@2, @3)); }
  | form_line STRING                            { $$ = build_form_name(builder, $1, build_form(builder, build_name(builder, $2), NAN, false), @2); }
  | form_line CHEMICAL                          { $$ = build_form_chemical(builder, $1, $2, @2); }
  | form_line CAS CAS_NUMBER                    { $$ = $1; $$->cas = $3; $$->cas_span = @3; }
  | form_line STRENGTH strength                 { $$ = $1; $$->strength = $3; }
  | form_line DENSITY measure                   { $$ = $1; $$->density = $3; }
  | form_line USUAL                             { $$ = $1; $$->usual = true; }
  | form_line ALSO form_others                  { $$ = $1; $$->others = $3; }
  | form_line SOURCE STRING                     { $$ = $1; $$->source = $3; }
  ;

form_others:
    form_other                                  { $$ = build_form_list(builder, NULL, $1); }
  | form_others COMMA form_other                { $$ = build_form_list(builder, $1, $3); }
  ;

form_other:
    WORDS                                       { $$ = build_form(builder, $1, NAN, false); $$->span = @$; }
  | STRING                                      { $$ = build_form(builder, build_name(builder, $1), NAN, false); $$->span = @$; }
  ;

ions:
    ion
  | ions COMMA ion                              { $$ = build_ion_list($1, $3); }
  ;

ion:
    CHEMICAL                                    { $$ = build_ion(builder, 1, $1, @$); }
  | NUMBER CHEMICAL                             { $$ = build_ion(builder, $1, $2, @$); }
  ;

dissolving:
    word                                        { $$ = build_figure_of(builder, $1, NULL, NULL); }
  | IN word                                     { $$ = build_dissolving(builder, NULL, NULL, NULL, NULL, $2); }
  | quantity PER sum AT quantity                { $$ = build_dissolving(builder, $1, NULL, $3, $5, NULL); }
  | quantity OPEN form CLOSE PER sum AT quantity
                                                { $$ = build_dissolving(builder, $1, $3, $6, $8, NULL); }
  | quantity PER sum AT quantity IN word        { $$ = build_dissolving(builder, $1, NULL, $3, $5, $7); }
  | quantity OPEN form CLOSE PER sum AT quantity IN word
                                                { $$ = build_dissolving(builder, $1, $3, $6, $8, $10); }
  ;

limits:
    FROM NUMBER PERCENT                         { $$ = build_limits(builder, $2, NAN); }
  | FROM NUMBER PERCENT TO NUMBER PERCENT       { $$ = build_limits(builder, $2, $5); }
  | TO NUMBER PERCENT                           { $$ = build_limits(builder, NAN, $2); }
  ;

source:
    %empty                                      { $$ = (struct text){0}; }
  | SOURCE STRING                               { $$ = $2; }
  ;

unit_heading:
    UNIT WORDS unit_meaning NEWLINE             { build_unit(builder, $2, @2, $3, @$); }
  | UNIT WORDS COMMA REPLACING unit_meaning NEWLINE
                                                { build_unit(builder, $2, @2, $5, @$); builder->open->replacing = true; }
  | UNIT error NEWLINE                          { build_unit(builder, NULL, @1, NULL, @$); yyerrok; }
  ;

unit_lines:
    %empty
  | unit_lines MISTAKEN_FOR words NEWLINE       { build_words(builder, SAY_MISTAKEN, $3, @$); }
  | unit_lines error NEWLINE                    { yyerrok; }
  ;

plain_declaration:
    ELEMENT WORDS IS NUMBER ALSO words source NEWLINE
                                                { build_element(builder, $2, @2, $4, $6, $7, @$); }
  | ELEMENT error NEWLINE                       { build_element(builder, NULL, @1, NAN, NULL, (struct text){0}, @$); yyerrok; }
  | PHRASE code STRING phrase NEWLINE           { build_phrase(builder, $2, @2, $3, @3, $4, @$); }
  | PHRASE code COMMA REPLACING STRING phrase NEWLINE
                                                { build_phrase(builder, $2, @2, $5, @5, $6, @$); builder->open->replacing = true; }
  | PHRASE error NEWLINE                        { build_phrase(builder, NULL, @1, (struct text){0}, @1, NULL, @$); yyerrok; }
  | READ STRING NEWLINE                         { build_titled(builder, DECLARE_READ, $2, @2, @$); }
  | READ error NEWLINE                          { build_titled(builder, DECLARE_READ, (struct text){0}, @1, @$); yyerrok; }
  ;

/* Statements that belong together are one: `P305+P351+P338`. */
code:
    WORDS
  | code PLUS WORDS                             { $$ = build_code(builder, @$); }
  ;

phrase:
    %empty                                      { $$ = build_phrase_words(builder); }
  | phrase FOR words                            { $$ = $1; $$->codes = $3; }
  | phrase SAYS STRING                          { $$ = $1; $$->says = $3; }
  | phrase SOURCE STRING                        { $$ = $1; $$->source = $3; }
  ;

plain_lines:
    %empty
  | plain_lines error NEWLINE                   { yyerrok; }
  ;

unit_meaning:
    MEASURES dimension                          { $$ = build_unit_meaning(builder); $$->dimension = $2; }
  | MEASURES dimension TO NUMBER                { $$ = build_unit_meaning(builder); $$->dimension = $2; $$->smallest = $4; }
  | IS unit_values                              { $$ = build_unit_meaning(builder); $$->values = $2; }
  | IS unit_values FROM NUMBER                  { $$ = build_unit_meaning(builder); $$->values = $2; $$->zero_at = $4; }
  | IS_ABOUT unit_values                        { $$ = build_unit_meaning(builder); $$->values = $2; $$->about = true; }
  | IS_UNCLEAR words                            { $$ = build_unit_meaning(builder); $$->unclear = $2; }
  | unit_meaning USUAL                          { $$ = $1; $$->usual = true; }
  | unit_meaning ALSO words                     { $$ = $1; $$->also = $3; }
  | unit_meaning SOURCE STRING                  { $$ = $1; $$->source = $3; }
  ;

unit_values:
    unit_value
  | unit_values COMMA unit_value                { $$ = build_unit_value_list($1, $3); }
  ;

unit_value:
    measure                                     { $$ = build_unit_value(builder, $1, NULL, NULL); }
  | measure IN word                             { $$ = build_unit_value(builder, $1, $3, NULL); }
  | measure OF word                             { $$ = build_unit_value(builder, $1, NULL, $3); }
  ;

dimension:
    word
  ;

/* ---- rules of practice ---- */

rule_heading:
    RULE WORDS NEWLINE                          { build_named(builder, DECLARE_RULE, $2, @2, false, @$); }
  | RULE WORDS COMMA REPLACING NEWLINE          { build_named(builder, DECLARE_RULE, $2, @2, true, @$); }
  | RULE error NEWLINE                          { build_named(builder, DECLARE_RULE, NULL, @1, false, @$); yyerrok; }
  ;

rule_lines:
    %empty
  | rule_lines IN words NEWLINE                 { build_words(builder, SAY_FOR, $3, span_join(@2, @4)); }
  | rule_lines FOR words NEWLINE                { build_words(builder, SAY_PURPOSE, $3, span_join(@2, @4)); }
  | rule_lines WHEN condition NEWLINE           { build_condition(builder, $3, span_join(@2, @4)); }
  | rule_lines HOLDS material quantity NEWLINE  { build_usual(builder, $3, $4, false, span_join(@2, @5)); }
  | rule_lines HOLDS material quantity OPTIONAL NEWLINE
                                                { build_usual(builder, $3, $4, true, span_join(@2, @6)); }
  | rule_lines USUAL word quantity NEWLINE      { build_usual_use(builder, $3, $4, NULL, NULL, span_join(@2, @5)); }
  | rule_lines USUAL word quantity PER counted NEWLINE
                                                { build_usual_use(builder, $3, $4, $6, NULL, span_join(@2, @7)); }
  | rule_lines USUAL word quantity IN use_name NEWLINE
                                                { build_usual_use(builder, $3, $4, NULL, $6, span_join(@2, @7)); }
  | rule_lines USUAL word ratio TO ratio NEWLINE
                                                { build_usual_dilution(builder, $3, $4, $6, span_join(@2, @7)); }
  | rule_lines WARN STRING NEWLINE              { build_text(builder, SAY_WARN, $3, @3, span_join(@2, @4)); }
  | rule_lines SAYS word NEWLINE                { build_words(builder, SAY_SAYS, $3, span_join(@2, @4)); }
  | rule_lines ADVISE STRING NEWLINE            { build_text(builder, SAY_ADVISE, $3, @3, span_join(@2, @4)); }
  | rule_lines SOURCE STRING NEWLINE            { build_text(builder, SAY_SOURCE, $3, @3, span_join(@2, @4)); }
  | rule_lines error NEWLINE                    { yyerrok; }
  ;

/* ---- what must not meet ---- */

reaction_heading:
    REACTION WORDS NEWLINE                      { build_named(builder, DECLARE_REACTION, $2, @2, false, @$); }
  | REACTION WORDS COMMA REPLACING NEWLINE      { build_named(builder, DECLARE_REACTION, $2, @2, true, @$); }
  | REACTION error NEWLINE                      { build_named(builder, DECLARE_REACTION, NULL, @1, false, @$); yyerrok; }
  ;

reaction_lines:
    %empty
  | reaction_lines OF reagent NEWLINE           { build_reagent(builder, SAY_OF, $3, span_join(@2, @4)); }
  | reaction_lines MEETS reagent NEWLINE        { build_reagent(builder, SAY_MEETS, $3, span_join(@2, @4)); }
  | reaction_lines BESIDE reagent NEWLINE       { build_reagent(builder, SAY_BESIDE, $3, span_join(@2, @4)); }
  | reaction_lines UNLESS reagent NEWLINE       { build_reagent(builder, SAY_UNLESS, $3, span_join(@2, @4)); }
  | reaction_lines IN words NEWLINE             { build_words(builder, SAY_FOR, $3, span_join(@2, @4)); }
  | reaction_lines WHERE words NEWLINE          { build_words(builder, SAY_WHERE, $3, span_join(@2, @4)); }
  | reaction_lines HARM word NEWLINE            { build_words(builder, SAY_HARM, $3, span_join(@2, @4)); }
  | reaction_lines KEEPS quantity NEWLINE       { build_figures(builder, SAY_KEEPS, $3, NULL, NULL, span_join(@2, @4)); }
  | reaction_lines KEEPS quantity IN use_name NEWLINE
                                                { build_figures(builder, SAY_KEEPS, $3, NULL, $5, span_join(@2, @6)); }
  | reaction_lines WARN STRING NEWLINE          { build_text(builder, SAY_WARN, $3, @3, span_join(@2, @4)); }
  | reaction_lines ADVISE STRING NEWLINE        { build_text(builder, SAY_ADVISE, $3, @3, span_join(@2, @4)); }
  | reaction_lines NOTE STRING NEWLINE          { build_text(builder, SAY_NOTE, $3, @3, span_join(@2, @4)); }
  | reaction_lines SOURCE STRING NEWLINE        { build_text(builder, SAY_SOURCE, $3, @3, span_join(@2, @4)); }
  | reaction_lines error NEWLINE                { yyerrok; }
  ;

reagent:
    material                                    { $$ = build_relation(builder, $1, RELATION_THERE, NULL, NULL); }
  | material bound                              { $$ = build_relation(builder, $1, RELATION_THERE, NULL, $2); }
  ;

/* ---- materials that behave alike ---- */

group_heading:
    GROUP WORDS NEWLINE                         { build_named(builder, DECLARE_GROUP, $2, @2, false, @$); }
  | GROUP WORDS COMMA REPLACING NEWLINE         { build_named(builder, DECLARE_GROUP, $2, @2, true, @$); }
  | GROUP error NEWLINE                         { build_named(builder, DECLARE_GROUP, NULL, @1, false, @$); yyerrok; }
  ;

group_lines:
    %empty
  | group_lines HOLDS words NEWLINE             { build_words(builder, SAY_HOLDS, $3, span_join(@2, @4)); }
  | group_lines LEAVE_OUT words NEWLINE         { build_words(builder, SAY_LEAVE_OUT, $3, span_join(@2, @4)); }
  | group_lines IONS ions NEWLINE               { build_ions(builder, SAY_IONS, $3, (struct text){0}, span_join(@2, @4)); }
  | group_lines FORM ions NEWLINE               { build_ions(builder, SAY_FORM, $3, (struct text){0}, span_join(@2, @4)); }
  | group_lines HAZARD words NEWLINE            { build_words(builder, SAY_HAZARD, $3, span_join(@2, @4)); }
  | group_lines NOTE STRING NEWLINE             { build_text(builder, SAY_NOTE, $3, @3, span_join(@2, @4)); }
  | group_lines SOURCE STRING NEWLINE           { build_text(builder, SAY_SOURCE, $3, @3, span_join(@2, @4)); }
  | group_lines error NEWLINE                   { yyerrok; }
  ;

condition:
    material IS_MISSING                         { $$ = build_relation(builder, $1, RELATION_MISSING, NULL, NULL); }
  | material IS_MISSING BEFORE material         { $$ = build_relation(builder, $1, RELATION_MISSING_BEFORE, $4, NULL); }
  | material                                    { $$ = build_relation(builder, $1, RELATION_THERE, NULL, NULL); }
  | material bound                              { $$ = build_relation(builder, $1, RELATION_THERE, NULL, $2); }
  | material AT bound                           { $$ = build_relation(builder, $1, RELATION_AT, NULL, $3); }
  | material COMES_AFTER material               { $$ = build_relation(builder, $1, RELATION_AFTER, $3, NULL); }
  | material COMES_AFTER material bound         { $$ = build_relation(builder, $1, RELATION_AFTER, $3, $4); }
  | material COMES_BEFORE material              { $$ = build_relation(builder, $1, RELATION_BEFORE, $3, NULL); }
  | material COMES_BEFORE material bound        { $$ = build_relation(builder, $1, RELATION_BEFORE, $3, $4); }
  | material MEETS material                     { $$ = build_relation(builder, $1, RELATION_MEETS, $3, NULL); }
  | material MEETS material bound               { $$ = build_relation(builder, $1, RELATION_MEETS, $3, $4); }
  ;

bound:
    OVER quantity                               { $$ = build_bound(builder, $2, true); }
  | UNDER quantity                              { $$ = build_bound(builder, $2, false); }
  ;

/* ---- kinds of bath ---- */

kind_heading:
    KIND_OF_BATH WORDS NEWLINE                  { build_named(builder, DECLARE_KIND_OF_BATH, $2, @2, false, @$); }
  | KIND_OF_BATH WORDS COMMA REPLACING NEWLINE  { build_named(builder, DECLARE_KIND_OF_BATH, $2, @2, true, @$); }
  | KIND_OF_BATH error NEWLINE                  { build_named(builder, DECLARE_KIND_OF_BATH, NULL, @1, false, @$); yyerrok; }
  ;

kind_lines:
    %empty
  | kind_lines SAYS STRING NEWLINE              { build_text(builder, SAY_SAYS, $3, @3, span_join(@2, @4)); }
  | kind_lines ROLE words NEWLINE               { build_words(builder, SAY_ROLE, $3, span_join(@2, @4)); }
  | kind_lines TYPICAL word quantity source NEWLINE
                                                { build_figure(builder, SAY_TYPICAL, build_figure_for(builder, $3, $4, NULL), $5, span_join(@2, @6)); }
  | kind_lines TYPICAL word quantity FOR words source NEWLINE
                                                { build_figure(builder, SAY_TYPICAL, build_figure_for(builder, $3, $4, $6), $7, span_join(@2, @8)); }
  | kind_lines SOURCE STRING NEWLINE            { build_text(builder, SAY_SOURCE, $3, @3, span_join(@2, @4)); }
  | kind_lines error NEWLINE                    { yyerrok; }
  ;

/* ---- equilibria of ions ---- */

equilibrium_heading:
    EQUILIBRIUM WORDS NEWLINE                   { build_named(builder, DECLARE_EQUILIBRIUM, $2, @2, false, @$); }
  | EQUILIBRIUM WORDS COMMA REPLACING NEWLINE   { build_named(builder, DECLARE_EQUILIBRIUM, $2, @2, true, @$); }
  | EQUILIBRIUM error NEWLINE                   { build_named(builder, DECLARE_EQUILIBRIUM, NULL, @1, false, @$); yyerrok; }
  ;

equilibrium_lines:
    %empty
  | equilibrium_lines PK pk NEWLINE             { build_pk(builder, $3, span_join(@2, @4)); }
  | equilibrium_lines INERT ions source NEWLINE { build_ions(builder, SAY_INERT, $3, $4, span_join(@2, @5)); }
  | equilibrium_lines INTERACTION CHEMICAL WITH interactions source NEWLINE
                                                { build_interaction(builder, $3, @3, $5, $6, span_join(@2, @7)); }
  | equilibrium_lines NOTE STRING NEWLINE       { build_text(builder, SAY_NOTE, $3, @3, span_join(@2, @4)); }
  | equilibrium_lines SOURCE STRING NEWLINE     { build_text(builder, SAY_SOURCE, $3, @3, span_join(@2, @4)); }
  | equilibrium_lines error NEWLINE             { yyerrok; }
  ;

/* The acid, its pK, and what is known of it in any order. */
pk:
    ion NUMBER                                  { $$ = build_acid(builder, $1, $2, @2); }
  | pk AT measure                               { $$ = $1; $$->temperature = $3; }
  | pk IN measure                               { $$ = $1; $$->strength = $3; }
  | pk GIVES CHEMICAL                           { $$ = $1; $$->gives = $3; $$->gives_span = @3; }
  | pk ENTHALPY measure                         { $$ = $1; $$->enthalpy = $3; }
  | pk HEAT_CAPACITY measure                    { $$ = $1; $$->heat_capacity = $3; }
  | pk WITHIN NUMBER                            { $$ = $1; $$->within = $3; }
  | pk SOURCE STRING                            { $$ = $1; $$->source = $3; }
  ;

/* Coefficients of interaction, kg/mol. */
interactions:
    CHEMICAL NUMBER                             { $$ = build_ion(builder, $2, $1, @$); }
  | interactions COMMA CHEMICAL NUMBER          { $$ = build_ion_list($1, build_ion(builder, $4, $3, span_join(@3, @4))); }
  ;

/* ---- the shelf, batches, processes ---- */

shelf_heading:
    SHELF STRING NEWLINE                        { build_titled(builder, DECLARE_SHELF, $2, @2, @$); }
  | SHELF error NEWLINE                         { build_titled(builder, DECLARE_SHELF, (struct text){0}, @1, @$); yyerrok; }
  ;

shelf_lines:
    %empty
  | shelf_lines CURRENCY word NEWLINE           { build_words(builder, SAY_CURRENCY, $3, span_join(@2, @4)); }
  | shelf_lines COUNTED DATE NEWLINE            { build_dated(builder, SAY_COUNTED, $3, @3, NULL, NULL, span_join(@2, @4)); }
  | shelf_lines BALANCE quantity NEWLINE        { build_figures(builder, SAY_BALANCE, $3, NULL, NULL, span_join(@2, @4)); }
  | shelf_lines BALANCE quantity WITHIN quantity NEWLINE
                                                { build_figures(builder, SAY_BALANCE, $5, $3, NULL, span_join(@2, @6)); }
  | shelf_lines GRADUATE quantity WITHIN quantity NEWLINE
                                                { build_figures(builder, SAY_GRADUATE, $3, $5, NULL, span_join(@2, @6)); }
  | shelf_lines HOLDS material quantity holding NEWLINE
                                                { build_holding(builder, SAY_HOLDS, $3, $4, $5, span_join(@2, @6)); }
  | shelf_lines SOLD material quantity holding NEWLINE
                                                { build_holding(builder, SAY_SOLD, $3, $4, $5, span_join(@2, @6)); }
  | shelf_lines BOTTLE quantity bottle_note NEWLINE
                                                { build_bottles(builder, 1, @2, $3, $4, span_join(@2, @5)); }
  | shelf_lines BOTTLE NUMBER OF quantity bottle_note NEWLINE
                                                { build_bottles(builder, $3, @3, $5, $6, span_join(@2, @7)); }
  | shelf_lines NOTE STRING NEWLINE             { build_text(builder, SAY_NOTE, $3, @3, span_join(@2, @4)); }
  | shelf_lines error NEWLINE                   { yyerrok; }
  ;

/* What is known of a pack, in any order. */
holding:
    %empty                                      { $$ = build_pack(builder); }
  | holding FOR quantity                        { $$ = build_pack_once($1, $1->price != NULL, span_join(@2, @3)); $$->price = $3; }
  | holding LEFT quantity                       { $$ = build_pack_once($1, $1->left != NULL, span_join(@2, @3)); $$->left = $3; }
  | holding OPENED DATE                         { $$ = build_pack_once($1, $1->opened.length > 0, span_join(@2, @3)); $$->opened = $3; $$->opened_span = @3; }
  | holding COUNTED DATE                        { $$ = build_pack_once($1, $1->counted.length > 0, span_join(@2, @3)); $$->counted = $3; $$->counted_span = @3; }
  | holding BEST_BEFORE DATE                    { $$ = build_pack_once($1, $1->best_before.length > 0, span_join(@2, @3)); $$->best_before = $3; $$->best_before_span = @3; }
  | holding LOT STRING                          { $$ = build_pack_once($1, $1->lot.at != NULL, span_join(@2, @3)); $$->lot = $3; $$->lot_span = @3; }
  | holding PURITY NUMBER PERCENT               { $$ = build_pack_once($1, $1->purity_span.end > 0, span_join(@2, @4)); $$->purity = $3; $$->purity_span = span_join(@3, @4); }
  | holding FROM STRING                         { $$ = build_pack_once($1, $1->supplier.at != NULL, span_join(@2, @3)); $$->supplier = $3; }
  ;

bottle_note:
    %empty                                      { $$ = (struct text){0}; }
  | NOTE STRING                                 { $$ = $2; }
  ;

batch_heading:
    BATCH STRING OF STRING NEWLINE              { build_batch(builder, $2, @2, $4, @4, @$); }
  | BATCH error NEWLINE                         { build_batch(builder, (struct text){0}, @1, (struct text){0}, @1, @$); yyerrok; }
  ;

batch_lines:
    %empty
  | batch_lines MIXED DATE NEWLINE              { build_dated(builder, SAY_MIXED, $3, @3, NULL, NULL, span_join(@2, @4)); }
  | batch_lines MIXED DATE BY STRING NEWLINE    { build_dated(builder, SAY_MIXED, $3, @3, NULL, NULL, span_join(@2, @6));
                                                  build_text(builder, SAY_BY, $5, @5, span_join(@2, @6)); }
  | batch_lines MIXED_AS MEANING NEWLINE        { build_text(builder, SAY_MIXED_AS, $3, @3, span_join(@2, @4)); }
  | batch_lines TOOK material quantity origin NEWLINE
                                                { $5->material = $3; build_took(builder, SAY_TOOK, $5, $4, span_join(@2, @6)); }
  | batch_lines TOOK STRING quantity origin NEWLINE
                                                { $5->title = $3; $5->title_span = @3; build_took(builder, SAY_TOOK, $5, $4, span_join(@2, @6)); }
  | batch_lines TOPPED_UP quantity origin ON DATE NEWLINE
                                                { $4->date = $6; $4->date_span = @6; build_took(builder, SAY_TOPPED_UP, $4, $3, span_join(@2, @7)); }
  | batch_lines MADE quantity NEWLINE           { build_figures(builder, SAY_MADE, $3, NULL, NULL, span_join(@2, @4)); }
  | batch_lines MADE quantity OF WORDS NEWLINE  { build_figures(builder, SAY_MADE, $3, NULL, build_part_word(builder, $5, NAN, (struct text){0}, @5), span_join(@2, @6)); }
  | batch_lines MADE quantity OF NUMBER NEWLINE { build_figures(builder, SAY_MADE, $3, NULL, build_part_word(builder, NULL, $5, (struct text){0}, @5), span_join(@2, @6)); }
  | batch_lines MADE quantity OF WORDS NUMBER NEWLINE
                                                { build_figures(builder, SAY_MADE, $3, NULL, build_part_word(builder, $5, $6, (struct text){0}, span_join(@5, @6)), span_join(@2, @7)); }
  | batch_lines USED quantity ON DATE NEWLINE   { build_dated(builder, SAY_USED, $5, @5, $3, NULL, span_join(@2, @6)); }
  | batch_lines USED quantity ON DATE FOR quantity NEWLINE
                                                { build_dated(builder, SAY_USED, $5, @5, $3, $7, span_join(@2, @8)); }
  | batch_lines USED quantity FOR quantity ON DATE NEWLINE
                                                { build_dated(builder, SAY_USED, $7, @7, $3, $5, span_join(@2, @8)); }
  | batch_lines USED FOR quantity ON DATE NEWLINE
                                                { build_dated(builder, SAY_USED, $6, @6, NULL, $4, span_join(@2, @7)); }
  | batch_lines USED ON DATE FOR quantity NEWLINE
                                                { build_dated(builder, SAY_USED, $4, @4, NULL, $6, span_join(@2, @7)); }
  | batch_lines TRIAL DATE trial NEWLINE        { build_trial(builder, $4, $3, @3, span_join(@2, @5)); }
  | batch_lines DISCARDED DATE NEWLINE          { build_dated(builder, SAY_DISCARDED, $3, @3, NULL, NULL, span_join(@2, @4)); }
  | batch_lines NOTE STRING NEWLINE             { build_text(builder, SAY_NOTE, $3, @3, span_join(@2, @4)); }
  | batch_lines error NEWLINE                   { build_broken(builder); yyerrok; }
  ;

/* Where it was taken from: `of lot "C-77"`, `of batch "2026-02-20 a"`. */
origin:
    %empty                                      { $$ = ARENA_NEW(builder->arena, struct took_statement); }
  | OF LOT STRING                               { $$ = ARENA_NEW(builder->arena, struct took_statement); $$->lot = $3; $$->from_span = @3; }
  | OF BATCH STRING                             { $$ = ARENA_NEW(builder->arena, struct took_statement); $$->batch = $3; $$->from_span = @3; }
  ;

/* What was tried, in any order: `film at 20 °C 9 min speed 200 "shadows thin"`. */
trial:
    %empty                                      { $$ = build_trial_lines(builder); }
  | trial WORDS                                 { $$ = $1; $$->use = build_word(builder, $2, @2); }
  | trial OF use_name                           { $$ = $1; $$->use = $3; }
  | trial circumstance                           { $$ = $1; build_conditions(builder, &$$->of, $2, @2); }
  | trial FOR circumstance                         { $$ = $1; build_conditions(builder, &$$->of, $3, @3); }
  | trial measure                               { $$ = build_trial_time($1, $2); }
  | trial FOR measure                           { $$ = build_trial_time($1, $3); }
  | trial TIME measure                          { $$ = build_trial_time($1, $3); }
  | trial STRING                                { $$ = $1; $$->verdict = $2; }
  | trial COMMA
  ;

process_heading:
    PROCESS STRING NEWLINE                      { build_titled(builder, DECLARE_PROCESS, $2, @2, @$); }
  | PROCESS error NEWLINE                       { build_titled(builder, DECLARE_PROCESS, (struct text){0}, @1, @$); yyerrok; }
  ;

process_lines:
    %empty
  | process_lines TANK quantity NEWLINE         { build_figures(builder, SAY_TANK, $3, NULL, NULL, span_join(@2, @4)); }
  | process_lines TANK quantity HOLDS quantity NEWLINE
                                                { build_figures(builder, SAY_TANK, $3, $5, NULL, span_join(@2, @6)); }
  | process_lines BATH STRING bath NEWLINE      { build_bath(builder, $3, @3, $4, span_join(@2, @5)); }
  | process_lines BATH STRING bath sum NEWLINE  { $4->time = $5; build_bath(builder, $3, @3, $4, span_join(@2, @6)); }
  | process_lines TRAY quantity NEWLINE         { build_figures(builder, SAY_TRAY, $3, NULL, NULL, span_join(@2, @4)); }
  | process_lines TRAY quantity HOLDS quantity NEWLINE
                                                { build_figures(builder, SAY_TRAY, $3, $5, NULL, span_join(@2, @6)); }
  | process_lines DRAIN quantity NEWLINE        { build_figures(builder, SAY_DRAIN, $3, NULL, NULL, span_join(@2, @4)); }
  | process_lines DILUTE ratio NEWLINE          { build_dilution(builder, $3, NULL, span_join(@2, @4)); }
  | process_lines AGITATE STRING NEWLINE        { build_text(builder, SAY_AGITATE, $3, @3, span_join(@2, @4)); }
  | process_lines USE_ONCE NEWLINE              { build_words(builder, SAY_ONCE, NULL, span_join(@2, @3)); }
  | process_lines REPLACE_AFTER quantity NEWLINE
                                                { build_figures(builder, SAY_REPLACE, $3, NULL, NULL, span_join(@2, @4)); }
  | process_lines REPLENISH quantity PER counted NEWLINE
                                                { build_replenish(builder, $3, $5, (struct text){0}, @2, span_join(@2, @6)); }
  | process_lines REPLENISH quantity PER counted FROM STRING NEWLINE
                                                { build_replenish(builder, $3, $5, $7, @7, span_join(@2, @8)); }
  | process_lines REPLENISH quantity OF STRING PER counted NEWLINE
                                                { build_replenish(builder, $3, $7, $5, @5, span_join(@2, @8)); }
  | process_lines WASH washing NEWLINE          { build_wash(builder, $3, span_join(@2, @4)); }
  | process_lines DO STRING NEWLINE             { build_task(builder, $3, @3, NULL, span_join(@2, @4)); }
  | process_lines DO STRING sum NEWLINE         { build_task(builder, $3, @3, $4, span_join(@2, @5)); }
  | process_lines NOTE STRING NEWLINE           { build_text(builder, SAY_NOTE, $3, @3, span_join(@2, @4)); }
  | process_lines error NEWLINE                 { yyerrok; }
  ;

/* How a bath is used, before its time: `for film at 20 °C 9 min`. */
bath:
    %empty                                      { $$ = build_bath_use(builder); }
  | bath FOR use_name                           { $$ = $1; $$->use = $3; }
  | bath AT measure                             { $$ = $1; $$->temperature = $3; }
  ;

/* In running water, or in so many fillings: `10 min, 3 L per min`, `5 changes of 500 mL in 10 min`. */
washing:
    quantity                                    { $$ = build_washing(builder, $1, NULL); }
  | quantity OF quantity                        { $$ = build_washing(builder, NULL, $1); $$->filling = $3; }
  | quantity OF quantity IN quantity            { $$ = build_washing(builder, $5, $1); $$->filling = $3; }
  | washing AT measure                          { $$ = $1; $$->temperature = $3; }
  | washing COMMA quantity PER counted          { $$ = $1; $$->flow = $3; $$->flow_per = $5; }
  ;

/* ---- lines as print and habit have them ---- */

wording_heading:
    WORDING STRING NEWLINE                      { build_titled(builder, DECLARE_WORDING, $2, @2, @$); }
  | WORDING error NEWLINE                       { build_titled(builder, DECLARE_WORDING, (struct text){0}, @1, @$); yyerrok; }
  ;

wording_lines:
    %empty
  | wording_lines IN words NEWLINE              { build_words(builder, SAY_FOR, $3, span_join(@2, @4)); }
  | wording_lines MEANS MEANING NEWLINE         { build_text(builder, SAY_MEANS, $3, @3, span_join(@2, @4)); }
  | wording_lines OFFERS MEANING NEWLINE        { build_text(builder, SAY_OFFERS, $3, @3, span_join(@2, @4)); }
  | wording_lines SOURCE STRING NEWLINE         { build_text(builder, SAY_SOURCE, $3, @3, span_join(@2, @4)); }
  | wording_lines error NEWLINE                 { yyerrok; }
  ;

/* ---- words ---- */

word:
    WORDS                                       { $$ = build_word(builder, $1, @1); }
  ;

/* A name that holds a comma stands in quotes. */
words:
    WORDS                                       { $$ = build_word(builder, $1, @1); }
  | STRING                                      { $$ = build_word(builder, build_name(builder, $1), @1); }
  | words COMMA WORDS                           { $$ = build_word_list($1, build_word(builder, $3, @3)); }
  | words COMMA STRING                          { $$ = build_word_list($1, build_word(builder, build_name(builder, $3), @3)); }
  ;

%%

static void notation_error(const struct span *location, struct builder *builder, const char *message)
{
    /* Only memory exhausted by the parser's own stack comes here; the rest goes through yyreport_syntax_error. */
    diagnostics_add(builder->diagnostics, DIAG_SYNTAX, *location, "%s", message);
}

static int yyreport_syntax_error(const yypcontext_t *context, struct builder *builder)
{
    enum { MOST = 80 };
    yysymbol_kind_t kinds[MOST];
    const char *expected[MOST];
    int count = yypcontext_expected_tokens(context, kinds, MOST);
    for (int i = 0; i < count; i++) {
        expected[i] = yysymbol_name(kinds[i]);
    }
    /* The lexer's last token is the one that does not fit; the context has it only as the parser numbers symbols. */
    builder_syntax_error(builder, builder->lexer.previous, *yypcontext_location(context), expected, count);
    return 0;
}
