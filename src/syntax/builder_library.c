/* Nodes of the library's declarations: materials, units, elements, phrases. */
#include "syntax/builder.h"

struct form_list *build_form_list(struct builder *builder, struct form_list *list, struct form_words *form)
{
    struct form_list *item = ARENA_NEW(builder->arena, struct form_list);
    item->form = form;
    if (list == NULL) {
        return item;
    }
    struct form_list *last = list;
    while (last->next != NULL) {
        last = last->next;
    }
    last->next = item;
    return list;
}

struct form_statement *build_form_line(struct builder *builder)
{
    return ARENA_NEW(builder->arena, struct form_statement);
}

struct form_statement *build_form_name(struct builder *builder, struct form_statement *line, struct form_words *word,
                                       struct span span)
{
    word->span = span;
    if (line->name == NULL) {
        line->name = word;
    } else if (line->name->words != NULL && word->words != NULL) { /* a form's name may have several words */
        line->name->span = span_join(line->name->span, span);
        struct text spelling = source_text(builder->diagnostics->sources, line->name->span);
        line->name->words = names_find(builder->names, spelling);
    } else {
        diagnostics_help(builder->diagnostics,
                         diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span,
                                         "a form has one name; other names follow \"also\""),
                         "its other names stand behind also, as in: form anhydrous Na2CO3 also dry");
    }
    return line;
}

struct form_statement *build_form_chemical(struct builder *builder, struct form_statement *line, struct text chemical,
                                           struct span span)
{
    if (line->chemical.length > 0) {
        diagnostics_help(
            builder->diagnostics,
            diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span, "this form has a chemical formula already"),
            "each form has a line of its own");
    }
    line->chemical = chemical;
    line->chemical_span = span;
    return line;
}

void build_form_statement(struct builder *builder, struct form_statement *line, struct span span)
{
    build_statement(builder, &line->base, SAY_FORM, span);
}

struct ion *build_ion(struct builder *builder, double count, struct text formula, struct span span)
{
    struct ion *ion = ARENA_NEW(builder->arena, struct ion);
    ion->count = count;
    ion->formula = formula;
    ion->span = span;
    return ion;
}

struct ion *build_ion_list(struct ion *list, struct ion *more)
{
    struct ion *last = list;
    while (last->next != NULL) {
        last = last->next;
    }
    last->next = more;
    return list;
}

void build_ions(struct builder *builder, enum statement_kind kind, struct ion *ions, struct text source, struct span span)
{
    struct ions_statement *statement = ARENA_NEW(builder->arena, struct ions_statement);
    statement->ions = ions;
    statement->source = source;
    build_statement(builder, &statement->base, kind, span);
}

void build_no_ions(struct builder *builder, const struct word *none, struct text source, struct span span)
{
    if (!text_is(none->name->spelling, "none")) {
        diagnostics_help(builder->diagnostics,
                         diagnostics_add(builder->diagnostics, DIAG_SYNTAX, none->span,
                                         "ions are written as 2 Na+, SO3--, or as none for what gives no ions"),
                         "write it as in: ions 2 Na+, SO3--");
        return;
    }
    build_ions(builder, SAY_IONS, NULL, source, span);
}

struct pk_statement *build_acid(struct builder *builder, struct ion *acid, double pk, struct span pk_span)
{
    struct pk_statement *statement = ARENA_NEW(builder->arena, struct pk_statement);
    statement->acid = acid;
    statement->pk = pk;
    statement->pk_span = pk_span;
    statement->within = NAN;
    return statement;
}

void build_pk(struct builder *builder, struct pk_statement *pk, struct span span)
{
    if (pk->gives.length == 0) {
        diagnostics_help(
            builder->diagnostics,
            diagnostics_add(builder->diagnostics, DIAG_SYNTAX, pk->acid->span,
                            "what %.*s becomes is not said; write it as: pk HCO3- 10.33 at 25 °C gives CO3--",
                            TEXT_ARGUMENTS(pk->acid->formula)),
            "write it as in: pk HCO3- 10.33 at 25 °C gives CO3--");
        return;
    }
    build_statement(builder, &pk->base, SAY_PK, span);
}

void build_interaction(struct builder *builder, struct text formula, struct span formula_span, struct ion *with,
                       struct text source, struct span span)
{
    struct interaction_statement *statement = ARENA_NEW(builder->arena, struct interaction_statement);
    statement->formula = formula;
    statement->formula_span = formula_span;
    statement->with = with;
    statement->source = source;
    build_statement(builder, &statement->base, SAY_INTERACTION, span);
}

static struct figure_statement *new_figure(struct builder *builder)
{
    struct figure_statement *figure = ARENA_NEW(builder->arena, struct figure_statement);
    figure->from_percent = NAN;
    figure->to_percent = NAN;
    return figure;
}

struct figure_statement *build_figure_of(struct builder *builder, struct word *word, struct quantity *quantity,
                                         struct quantity *temperature)
{
    struct figure_statement *figure = new_figure(builder);
    figure->word = word;
    figure->quantity = quantity;
    figure->temperature = temperature;
    return figure;
}

struct figure_statement *build_figure_for(struct builder *builder, struct word *word, struct quantity *quantity, struct word *holding)
{
    struct figure_statement *figure = build_figure_of(builder, word, quantity, NULL);
    figure->solvent = holding;
    return figure;
}

struct figure_statement *build_class(struct builder *builder, struct text hazard, struct word *code)
{
    struct figure_statement *figure = new_figure(builder);
    figure->text = hazard;
    figure->word = code;
    return figure;
}

struct figure_statement *build_limits(struct builder *builder, double from, double to)
{
    struct figure_statement *figure = new_figure(builder);
    figure->from_percent = from;
    figure->to_percent = to;
    return figure;
}

struct figure_statement *build_limit(struct builder *builder, struct text hazard, struct word *code,
                                     struct figure_statement *limits)
{
    (void)builder;
    limits->text = hazard;
    limits->word = code;
    return limits;
}

struct figure_statement *build_dissolving(struct builder *builder, struct quantity *quantity, struct form_words *form,
                                          struct quantity *per, struct quantity *temperature,
                                          struct word *solvent)
{
    struct figure_statement *figure = new_figure(builder);
    figure->quantity = quantity;
    figure->form = form;
    figure->per = per;
    figure->temperature = temperature;
    figure->solvent = solvent;
    return figure;
}

void build_figure(struct builder *builder, enum statement_kind kind, struct figure_statement *figure, struct text source,
                  struct span span)
{
    figure->source = source;
    build_statement(builder, &figure->base, kind, span);
}

struct unit_words *build_unit_meaning(struct builder *builder)
{
    struct unit_words *unit = ARENA_NEW(builder->arena, struct unit_words);
    unit->zero_at = NAN;
    return unit;
}

struct unit_value *build_unit_value(struct builder *builder, struct quantity *quantity, struct word *measures,
                                    struct word *matter)
{
    struct unit_value *value = ARENA_NEW(builder->arena, struct unit_value);
    value->quantity = quantity;
    value->measures = measures;
    value->matter = matter;
    return value;
}

struct unit_value *build_unit_value_list(struct unit_value *list, struct unit_value *more)
{
    struct unit_value *last = list;
    while (last->next != NULL) {
        last = last->next;
    }
    last->next = more;
    return list;
}

void build_unit(struct builder *builder, struct name *name, struct span name_span, struct unit_words *unit,
                struct span span)
{
    struct declaration *declaration = build_named(builder, DECLARE_UNIT, name, name_span, false, span);
    declaration->unit = unit;
    if (unit != NULL) {
        declaration->source = unit->source;
    }
}

void build_element(struct builder *builder, struct name *symbol, struct span symbol_span, double weight,
                   struct word *also, struct text source, struct span span)
{
    struct declaration *declaration = build_named(builder, DECLARE_ELEMENT, symbol, symbol_span, false, span);
    declaration->number = weight;
    declaration->also = also;
    declaration->source = source;
}

struct name *build_code(struct builder *builder, struct span span)
{
    return names_find(builder->names, source_text(builder->diagnostics->sources, span));
}

struct phrase_words *build_phrase_words(struct builder *builder)
{
    return ARENA_NEW(builder->arena, struct phrase_words);
}

void build_phrase(struct builder *builder, struct name *code, struct span code_span, struct text text,
                  struct span text_span, const struct phrase_words *phrase, struct span span)
{
    struct declaration *declaration = build_named(builder, DECLARE_PHRASE, code, code_span, false, span);
    declaration->title = text;
    declaration->title_span = text_span;
    declaration->phrase = phrase;
    declaration->source = phrase == NULL ? (struct text){0} : phrase->source;
}

void build_counts_as(struct builder *builder, struct form_words *form, struct span form_span, struct text source,
                     struct span span)
{
    struct figure_statement *figure = new_figure(builder);
    form->span = form_span;
    figure->form = form;
    build_figure(builder, SAY_COUNTS_AS, figure, source, span);
}
