/* What is known of the place under the pointer. */
#include "workspace/facts.h"

#include "library/measure.h"
#include "syntax/keywords.h"
#include "workspace/lines.h"
#include "workspace/naming_places.h"
#include "workspace/text_tokens.h"

#include "notation.tab.h"

/* ---- the token there ---- */

struct token_search {
    uint32_t at;
    struct text_token token;
    bool found;
};

static bool is_there(void *context, const struct text_token *token)
{
    struct token_search *search = context;
    if (token->span.begin <= search->at && search->at < token->span.end && token->kind != T_NEWLINE) {
        search->token = *token;
        search->found = true;
    }
    return token->span.begin <= search->at;
}

/* ---- units ---- */

static void add_unit(const struct facts *facts, const struct line_at *line, const struct quantity *quantity)
{
    struct library *library = &facts->checked->session->library;
    struct name *leftover = NULL;
    struct text spelling = quantity->unit->spelling;
    struct name *words = names_find(library->names, (struct text){arena_copy(library->arena, spelling.at, spelling.length), spelling.length});
    const struct unit *unit = measure_find_unit(library, words, &leftover);
    if (unit == NULL) {
        return;
    }
    bool liquid = line->step != NULL && (line->step->material == NULL || line->step->material->liquid || line->step->material->is_water);
    enum measures measures = line->formula == NULL ? MEASURES_UNSTATED : line->formula->measures;
    struct unit_reading reading = library_read_unit(unit, measures, liquid);
    buffer_format(facts->out, "**%.*s**", TEXT_ARGUMENTS(unit->name));
    const struct unit *base = reading.answer == UNIT_GOOD ? library_base_unit(library, reading.dimension) : NULL;
    if (reading.answer == UNIT_NEEDS_MEASURES) {
        buffer_string(facts->out, ": US and imperial measure differ; the formula says which by `measures US` or `measures imperial`");
    } else if (reading.answer == UNIT_UNCLEAR) {
        buffer_string(facts->out, ": it is read in more than one way");
    } else if (base != NULL && base != reading.unit && reading.zero_at == 0) {
        buffer_format(facts->out, ": 1 %.*s is %s%s %.*s", TEXT_ARGUMENTS(reading.unit->name), reading.approximate ? "about " : "",
                      number_print_significant(facts->arena, reading.factor, 6), TEXT_ARGUMENTS(base->name));
    }
    if (line->step != NULL && line->step->amount_span.end > line->step->amount_span.begin) {
        fact_amount(facts, line->step);
    }
    if (unit->source.length > 0) {
        buffer_format(facts->out, "\n\n_%.*s_", TEXT_ARGUMENTS(unit->source));
    }
}

/* ---- keywords ---- */

static void add_keyword(const struct facts *facts, const struct line_at *line, int token)
{
    size_t count;
    const struct keyword *keywords = syntax_keywords(&count);
    unsigned belongs_to = line->declaration == NULL ? KEYWORD_OPENS : KEYWORD_OPENS | 1u << line->declaration->kind;
    for (size_t i = 0; i < count; i++) {
        if (keywords[i].token == token && (keywords[i].belongs_to & belongs_to) != 0) {
            buffer_format(facts->out, "**%s**, as in\n\n    %s\n", keywords[i].words, keywords[i].example);
            return;
        }
    }
}

/* ---- names ---- */

static void add_mention(const struct facts *facts, const struct line_at *line, const struct mention *mention)
{
    const struct potash *session = facts->checked->session;
    if (mention->kind == MENTION_TITLE) {
        const struct formula *formula = formulary_find(&facts->checked->session->formulary, mention->text);
        if (formula != NULL) {
            fact_formula(facts, formula);
        }
        return;
    }
    if (mention->material == NULL) {
        return;
    }
    struct library *library = &facts->checked->session->library;
    struct name *name = names_find(library->names, (struct text){arena_copy(library->arena, mention->text.at, mention->text.length), mention->text.length});
    const struct material_reading *reading = library_material(library, name);
    if (reading == NULL) {
        return;
    }
    bool of_line = line->step != NULL && line->step->material == reading->material;
    fact_material(facts, reading->material, line->formula, line->part, of_line ? line->step : NULL);
    for (const struct stock *stock = session->formulary.stocks; stock != NULL && mention->kind == MENTION_STOCK; stock = stock->next) {
        if (stock->material == reading->material && (stock->saturated || stock->percent == mention->strength->percent)) {
            buffer_format(facts->out, "\n\nDeclared in %s.", source_show_path(facts->arena, stock->declaration->file->path));
        }
    }
}

/* ---- the call ---- */

/* The reasons behind what was found there. */
static void add_reasons(struct potash_snapshot *snapshot, const struct facts *facts, const struct checked *checked, uint32_t at)
{
    const struct diagnostics *diagnostics = &checked->session->diagnostics;
    const struct source_file *source = checked->source;
    for (size_t i = diagnostics_from(diagnostics, source->base); i < diagnostics->count && diagnostics->items[i]->span.begin <= at; i++) {
        const struct diagnostic *item = diagnostics->items[i];
        if (at <= item->span.end) {
            const struct diagnostic_entry *entry = &diagnostic_registry[item->id];
            buffer_format(facts->out, "%s**%s**: %s\n\n%s", facts->out->length > 0 ? "\n\n---\n\n" : "", entry->name,
                          diagnostic_message(&snapshot->arena, item), entry->why);
        }
    }
}

enum potash_status potash_snapshot_hover(struct potash_snapshot *snapshot, const char *path, size_t offset, struct potash_hover *hover)
{
    *hover = (struct potash_hover){.text = NULL};
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        return workspace_out_of_memory(snapshot->workspace);
    }
    struct workspace_text *text = snapshot_begin(snapshot, path);
    if (text == NULL) {
        return POTASH_UNUSABLE;
    }
    const struct checked *checked = snapshot_check(snapshot, text);
    const struct syntax_file *tree = checked->session->files->file;
    struct buffer out;
    buffer_start(&out, &snapshot->arena);
    struct facts facts = {&snapshot->arena, checked, &out};
    uint32_t at = tree->source->base + (uint32_t)(offset < tree->source->length ? offset : tree->source->length);
    struct token_search search = {.at = at};
    size_t line_begin = offset - text_place(text->file, offset).column;
    text_tokens(&snapshot->arena, tree->source, (uint32_t)line_begin, is_there, &search);
    struct line_at line = line_find(checked, offset);
    struct wanted wanted = naming_at(snapshot, text, offset);
    struct span span = search.found ? search.token.span : span_make(at, at);
    if (wanted.found) {
        add_mention(&facts, &line, &wanted.mention);
        hover->range = naming_range(text, wanted.mention.span);
    } else if (search.found && search.token.quantity != NULL && search.token.quantity->unit != NULL) {
        add_unit(&facts, &line, search.token.quantity);
    } else if (search.found && search.token.kind != TEXT_COMMENT) {
        add_keyword(&facts, &line, search.token.kind);
    }
    if (!wanted.found) {
        hover->range = text_range_of(text->file, tree->source, span);
    }
    add_reasons(snapshot, &facts, checked, at);
    hover->text = out.length > 0 ? buffer_finish(&out) : NULL;
    return POTASH_GOOD;
}
