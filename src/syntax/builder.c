/* Nodes of formulas, variants and stocks. */
#include "syntax/builder.h"

#include "base/number.h"
#include "base/utf8.h"
#include "syntax/reread.h"

/* ---- declarations and statements ---- */

/* Declarations lie side by side, more and more at a time: every pass over a file's declarations then reads memory in order
 * instead of missing the cache at each, which was 8 % of a check. */
static struct declaration *new_declaration(struct builder *builder)
{
    enum { MOST_AT_A_TIME = 64 };
    if (builder->spare_count == 0) {
        size_t count = builder->spare_next == 0 ? 1 : builder->spare_next; /* a declaration of the library is parsed alone */
        builder->spare = ARENA_ARRAY(builder->arena, struct declaration, count);
        builder->spare_count = count;
        builder->spare_next = count < MOST_AT_A_TIME ? count * 2 : count;
    }
    builder->spare_count--;
    return builder->spare++;
}

static struct declaration *open_declaration(struct builder *builder, enum declaration_kind kind, struct span span)
{
    struct declaration *declaration = new_declaration(builder);
    declaration->kind = kind;
    declaration->span = span;
    declaration->file = builder->file->source;
    declaration->number = NAN;
    if (builder->file->last == NULL) {
        builder->file->declarations = declaration;
    } else {
        builder->file->last->next = declaration;
    }
    builder->file->last = declaration;
    builder->file->kinds |= 1u << kind;
    builder->open = declaration;
    return declaration;
}

void build_statement(struct builder *builder, struct statement *statement, enum statement_kind kind, struct span span)
{
    struct declaration *open = builder->open;
    statement->kind = kind;
    statement->span = span;
    if (open->last == NULL) {
        open->statements = statement;
    } else {
        open->last->next = statement;
    }
    open->last = statement;
    if (statement_is_property(kind)) {
        open->last_property = statement;
    }
}

struct span syntax_span_of(const struct builder *builder, struct text text)
{
    const struct lexer *lexer = &builder->lexer;
    uint32_t begin = lexer->base + (uint32_t)(text.at - lexer->start);
    return (struct span){begin, begin + (uint32_t)text.length};
}

struct text syntax_line_of(const struct builder *builder, struct span span)
{
    const struct lexer *lexer = &builder->lexer;
    const char *begin = lexer->start + (span.begin - lexer->base);
    while (begin > lexer->start && begin[-1] != '\n' && begin[-1] != '\r') {
        begin--;
    }
    return text_trim((struct text){begin, strcspn(begin, "\r\n#")});
}

void build_refused_line(struct builder *builder, struct span newline)
{
    if (builder->lexer.reread != NULL) {
        builder->lexer.reread->refused = true;
        return;
    }
    struct statement *statement = ARENA_NEW(builder->arena, struct statement);
    build_statement(builder, statement, SAY_LINE, syntax_span_of(builder, syntax_line_of(builder, newline)));
    builder->open->refused = true;
}

void build_titled(struct builder *builder, enum declaration_kind kind, struct text title, struct span title_span,
                  struct span span)
{
    struct declaration *declaration = open_declaration(builder, kind, span);
    declaration->title = kind == DECLARE_READ ? title : text_trim(title);
    declaration->title_hash = table_hash(declaration->title.at, declaration->title.length);
    declaration->title_span = title_span;
}

struct declaration *build_named(struct builder *builder, enum declaration_kind kind, struct name *name,
                                struct span name_span, bool replacing, struct span span)
{
    struct declaration *declaration = open_declaration(builder, kind, span);
    declaration->name.name = name;
    declaration->name.span = name_span;
    declaration->replacing = replacing;
    return declaration;
}

void build_stock(struct builder *builder, struct material_words *material, struct strength *strength, struct span span)
{
    struct declaration *declaration = open_declaration(builder, DECLARE_STOCK, span);
    if (material != NULL) {
        declaration->name = *material;
        declaration->strength = *strength;
    }
}

void build_words(struct builder *builder, enum statement_kind kind, struct word *words, struct span span)
{
    struct words_statement *statement = ARENA_NEW(builder->arena, struct words_statement);
    statement->words = words;
    build_statement(builder, &statement->base, kind, span);
}

void build_text_from(struct builder *builder, enum statement_kind kind, struct text text, struct span text_span,
                     struct text source, struct span span)
{
    struct text_statement *statement = ARENA_NEW(builder->arena, struct text_statement);
    statement->text = text;
    statement->text_span = text_span;
    statement->source = source;
    build_statement(builder, &statement->base, kind, span);
}

void build_text(struct builder *builder, enum statement_kind kind, struct text text, struct span text_span,
                struct span span)
{
    build_text_from(builder, kind, text, text_span, (struct text){0}, span);
}

void build_figures(struct builder *builder, enum statement_kind kind, struct quantity *quantity, struct quantity *per,
                    struct word *word, struct span span)
{
    struct quantity_statement *statement = ARENA_NEW(builder->arena, struct quantity_statement);
    statement->quantity = quantity;
    statement->per = per;
    statement->word = word;
    build_statement(builder, &statement->base, kind, span);
}

/* A part's name as one word: "A", "1", "No. 1". */
struct word *build_part_word(struct builder *builder, struct name *words, double number, struct text title,
                              struct span span)
{
    struct name *name = words;
    if (!isnan(number)) {
        const char *figure = number_print(builder->names->arena, number, 3);
        const char *spelling = words == NULL ? figure
                                             : arena_format(builder->names->arena, "%.*s %s",
                                                            TEXT_ARGUMENTS(words->spelling), figure);
        name = names_find(builder->names, text_from(spelling));
    } else if (words == NULL) {
        name = names_find(builder->names, title);
    }
    return build_word(builder, name, span);
}

void build_part(struct builder *builder, struct name *words, double number, struct text title, struct span name_span,
                struct span span)
{
    build_words(builder, SAY_PART, build_part_word(builder, words, number, title, name_span), span);
}

void build_addition(struct builder *builder, enum statement_kind kind, struct material_words *material,
                    struct amount_words *amount, const struct tails *tails, struct span span)
{
    struct addition_statement *statement = ARENA_NEW(builder->arena, struct addition_statement);
    statement->material = material;
    statement->amount = amount;
    statement->tails = tails;
    build_statement(builder, &statement->base, kind, span);
}

void build_solution(struct builder *builder, struct name *words, double number, struct text title, struct span what_span,
                    struct quantity *quantity, const struct tails *tails, struct span span)
{
    struct solution_statement *statement = ARENA_NEW(builder->arena, struct solution_statement);
    if (title.at == NULL) {
        statement->part = *build_part_word(builder, words, number, title, what_span);
    } else {
        statement->title = title;
        statement->title_span = what_span;
        builder->file->draws_on_formulas = true;
    }
    statement->number = number;
    statement->quantity = quantity;
    statement->tails = tails;
    build_statement(builder, &statement->base, SAY_SOLUTION, span);
}

void build_dilution(struct builder *builder, const struct ratio *ratio, const struct ratio *high, struct span span)
{
    struct ratio_statement *statement = ARENA_NEW(builder->arena, struct ratio_statement);
    statement->ratio = *ratio;
    if (high != NULL) {
        statement->high = *high;
    }
    build_statement(builder, &statement->base, SAY_DILUTE, span);
}

void build_volumes_dilution(struct builder *builder, struct quantity *taken, struct quantity *whole, struct span span)
{
    struct ratio_statement *statement = ARENA_NEW(builder->arena, struct ratio_statement);
    statement->taken = taken;
    statement->whole = whole;
    build_statement(builder, &statement->base, SAY_DILUTE, span);
}

void build_mix_ratio(struct builder *builder, const struct ratio *ratio, struct span span)
{
    struct mix_statement *statement = ARENA_NEW(builder->arena, struct mix_statement);
    statement->ratio = *ratio;
    build_statement(builder, &statement->base, SAY_MIX, span);
}

void build_time(struct builder *builder, struct quantity *time, const struct conditions *conditions, struct span span)
{
    struct time_statement *statement = ARENA_NEW(builder->arena, struct time_statement);
    statement->of = *conditions;
    statement->of.time = time;
    build_statement(builder, &statement->base, SAY_TIME, span);
}

void build_pour(struct builder *builder, struct name *words, double number, struct text title, struct span name_span,
                struct quantity *time, const struct conditions *conditions, struct span span)
{
    struct pour_statement *statement = ARENA_NEW(builder->arena, struct pour_statement);
    statement->part = *build_part_word(builder, words, number, title, name_span);
    statement->number = number;
    statement->of = *conditions;
    statement->of.time = time;
    build_statement(builder, &statement->base, SAY_POUR, span);
}

struct conditions *build_conditions(struct builder *builder, struct conditions *all, const struct conditions *one, struct span span)
{
    bool twice = (one->temperature != NULL && all->temperature != NULL) || (one->speed != NULL && all->speed != NULL) ||
                 (one->contrast != NULL && all->contrast != NULL) || (one->grade != NULL && all->grade != NULL) ||
                 (one->ratio != NULL && all->ratio != NULL);
    if (twice && !builder->lexer.line_told) {
        builder->lexer.line_told = true;
        diagnostics_help(builder->diagnostics, diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span, "this is said twice on the line"),
                         "a line has one time with what it holds for; write another line for another: time 7 min at 24 °C");
    }
    all->temperature = one->temperature != NULL ? one->temperature : all->temperature;
    all->speed = one->speed != NULL ? one->speed : all->speed;
    all->contrast = one->contrast != NULL ? one->contrast : all->contrast;
    all->grade = one->grade != NULL ? one->grade : all->grade;
    all->ratio = one->ratio != NULL ? one->ratio : all->ratio;
    return all;
}

void build_mix(struct builder *builder, struct mix_item *items, struct span span)
{
    struct mix_statement *statement = ARENA_NEW(builder->arena, struct mix_statement);
    statement->items = items;
    build_statement(builder, &statement->base, SAY_MIX, span);
}

/* ---- words ---- */

struct name *build_name(struct builder *builder, struct text spelling)
{
    return names_find(builder->names, spelling);
}

struct word *build_word(struct builder *builder, struct name *name, struct span span)
{
    struct word *word = ARENA_NEW(builder->arena, struct word);
    word->name = name;
    word->span = span;
    return word;
}

struct word *build_word_list(struct word *list, struct word *more)
{
    struct word *last = list;
    while (last->next != NULL) {
        last = last->next;
    }
    last->next = more;
    return list;
}

struct material_words *build_material(struct builder *builder, struct name *name, struct span span,
                                      struct form_words *form)
{
    struct material_words *material = ARENA_NEW(builder->arena, struct material_words);
    material->name = name;
    material->span = span;
    material->form = form;
    return material;
}

struct form_words *build_form(struct builder *builder, struct name *words, double number, bool percent)
{
    struct form_words *form = ARENA_NEW(builder->arena, struct form_words);
    form->words = words;
    form->number = number;
    form->percent = percent;
    form->temperature = words != NULL && !isnan(number);
    return form;
}

struct form_words *build_comma_form(struct builder *builder, struct name *words, struct span span)
{
    struct form_words *form = build_form(builder, words, NAN, false);
    form->span = span;
    return form;
}

/* A material whose strength stands behind its name without brackets. */
struct material_words *build_figures_form(struct builder *builder, struct material_words *material, struct form_words *form)
{
    if (material->form != NULL) {
        diagnostics_help(builder->diagnostics,
                         diagnostics_add(builder->diagnostics, DIAG_SYNTAX, form->span, "the form is stated already"),
                         "keep one of the two");
    }
    material->form = form;
    return material;
}

/* ---- quantities ---- */

struct quantity *build_quantity(struct builder *builder, double value, struct name *unit, struct span span)
{
    struct quantity *quantity = ARENA_NEW(builder->arena, struct quantity);
    quantity->value = value;
    quantity->unit = unit;
    quantity->span = span;
    quantity->number_end = unit == NULL ? span.end : span.begin;
    quantity->unit_span = span_make(quantity->number_end, span.end);
    return quantity;
}

struct quantity *build_counted(struct quantity *quantity, const struct sheet_size *size, struct span span)
{
    quantity->size = size;
    quantity->span = span;
    return quantity;
}

struct quantity *build_sum(struct quantity *first, struct quantity *more)
{
    struct quantity *last = first;
    while (last->more != NULL) {
        last = last->more;
    }
    last->more = more;
    first->span.end = more->span.end;
    return first;
}

struct quantity *build_range(struct quantity *low, struct quantity *high)
{
    low->high = high;
    low->span.end = high->span.end;
    bool degrees = low->unit != NULL && text_is(low->unit->spelling, "°"); /* "65° to 70° F" */
    if (low->unit == NULL || degrees) { /* "50 to 65 grains": the unit stands once */
        low->unit = high->unit;
        low->unit_span = high->unit_span;
    }
    return low;
}

struct strength *build_strength(struct builder *builder, double percent, enum percent_basis basis, bool saturated,
                                struct span number_span, struct span span)
{
    struct strength *strength = ARENA_NEW(builder->arena, struct strength);
    *strength = (struct strength){percent, basis, saturated, number_span, span};
    return strength;
}

struct amount_words *build_amount(struct builder *builder, enum amount_kind kind, struct quantity *quantity,
                                  const struct strength *strength, struct span span)
{
    struct amount_words *amount = ARENA_NEW(builder->arena, struct amount_words);
    *amount = (struct amount_words){kind, quantity, strength, span};
    return amount;
}

struct amount_words *build_plain_amount(struct builder *builder, struct quantity *quantity)
{
    return build_amount(builder, AMOUNT_PLAIN, quantity, NULL, quantity->span);
}

struct amount_words *build_as_needed(struct builder *builder, struct span span)
{
    return build_amount(builder, AMOUNT_AS_NEEDED, NULL, NULL, span);
}

/* ---- tails ---- */

struct tails *build_tail_temperature(struct builder *builder, struct quantity *temperature)
{
    struct tails *tail = ARENA_NEW(builder->arena, struct tails);
    tail->temperature = temperature;
    return tail;
}

struct tails *build_tail_optional(struct builder *builder)
{
    struct tails *tail = ARENA_NEW(builder->arena, struct tails);
    tail->optional = true;
    return tail;
}

struct tails *build_tail_note(struct builder *builder, struct text note)
{
    struct tails *tail = ARENA_NEW(builder->arena, struct tails);
    tail->note = note;
    return tail;
}

struct tails *build_tail_other(struct builder *builder, struct quantity *other, struct span span)
{
    struct tails *tail = ARENA_NEW(builder->arena, struct tails);
    tail->other = other;
    tail->other_span = span;
    return tail;
}

struct tails *build_tail_form(struct builder *builder, struct form_words *form)
{
    struct tails *tail = ARENA_NEW(builder->arena, struct tails);
    tail->form = form;
    return tail;
}

struct tails *build_tail_place(struct builder *builder, struct material_words *place, bool before)
{
    struct tails *tail = ARENA_NEW(builder->arena, struct tails);
    tail->place = place;
    tail->before = before;
    return tail;
}

struct tails *build_tails(struct tails *tails, const struct tails *tail)
{
    if (tail->temperature != NULL) {
        tails->temperature = tail->temperature;
    }
    if (tail->note.at != NULL) {
        tails->note = tail->note;
    }
    if (tail->place != NULL) {
        tails->place = tail->place;
        tails->before = tail->before;
    }
    if (tail->other != NULL) {
        tails->other = tail->other;
        tails->other_span = tail->other_span;
    }
    if (tail->form != NULL) {
        tails->form = tail->form;
    }
    tails->optional = tails->optional || tail->optional;
    return tails;
}
