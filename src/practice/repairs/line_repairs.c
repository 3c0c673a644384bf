/* Repairs that concern whole lines of a formula. */
#include "practice/repairs/line_repairs.h"

#include "base/number.h"

#include <math.h>
#include <string.h>

/* From the line's first byte to before its newline. */
static struct span whole_line(struct bench *bench, struct span inside)
{
    const struct source_file *file = source_file_at(bench->formulary->sources, inside.begin);
    struct span all = {file->base, file->base + file->length};
    struct text text = source_text(bench->formulary->sources, all);
    uint32_t begin = inside.begin;
    uint32_t end = inside.begin;
    while (begin > all.begin && text.at[begin - 1 - all.begin] != '\n') {
        begin--;
    }
    while (end < all.end && text.at[end - all.begin] != '\n' && text.at[end - all.begin] != '\r') {
        end++;
    }
    return span_make(begin, end);
}

/* ---- a line put in ---- */

/* The unit of weight that goes with the line beside: its own where it is one, of the usual ones of old tables that which leaves a
 * number easy to weigh, else the base unit. */
static const struct unit *unit_beside(struct bench *bench, const struct step *beside, double grams)
{
    enum { MOST = 8 };
    struct library *library = bench->formulary->library;
    struct measure measure = step_measure(library, bench->formula, beside);
    if (measure.fault != MEASURE_GOOD || measure.unit->metric || measure.approximate) {
        return library_base_unit(library, DIMENSION_MASS);
    }
    const struct unit *usual[MOST];
    size_t count = library_usual_units(library, DIMENSION_BIT(DIMENSION_MASS), usual, MOST);
    const struct unit *weight = NULL;
    for (size_t i = 0; i < count; i++) {
        bool better = weight == NULL || (usual[i]->factor > weight->factor ? grams >= usual[i]->factor / 2 : grams < weight->factor / 2);
        weight = !usual[i]->metric && better ? usual[i] : weight;
    }
    return weight != NULL ? weight : library_base_unit(library, DIMENSION_MASS);
}

/* Two figures, as a person would begin with: 0.23, 4.5, 45, 230. */
static const char *rounded(struct bench *bench, double value)
{
    double place = pow(10, floor(log10(value)) - 1);
    return number_print(bench->formulary->arena, round(value / place) * place, 6);
}

void lines_offer_addition(struct bench *bench, struct diagnostic *diagnostic, const struct material *material, double grams,
                          const struct step *beside, bool before)
{
    if (!diagnostics_take_fixes(bench->formulary->diagnostics, diagnostic) || beside->statement == NULL || !(grams > 0) || bench->formula->variant_of != NULL || material->stop.length > 0) {
        return;
    }
    struct arena *arena = bench->formulary->arena;
    struct span line = whole_line(bench, beside->span);
    struct text text = source_text(bench->formulary->sources, line);
    size_t indent = 0;
    while (indent < text.length && (text.at[indent] == ' ' || text.at[indent] == '\t')) {
        indent++;
    }
    struct library *library = bench->formulary->library;
    bool liquid = material->liquid;
    const struct unit *unit = liquid                ? library_base_unit(library, DIMENSION_VOLUME)
                              : beside->from_parts ? library_base_unit(library, DIMENSION_PARTS)
                                                   : unit_beside(bench, beside, grams);
    const char *number = rounded(bench, (liquid ? grams / material->usual->density : grams) / unit->factor);
    const char *amount = arena_format(arena, "%s %.*s", number, TEXT_ARGUMENTS(library_unit_plural(library, unit)));
    bool has_form = material->form_count > 1 && material->usual->name != NULL;
    const char *name = has_form ? arena_format(arena, "%.*s (%.*s)", TEXT_ARGUMENTS(material->name),
                                               TEXT_ARGUMENTS(material->usual->name->spelling))
                                : arena_format(arena, "%.*s", TEXT_ARGUMENTS(material->name));
    /* In the column of the amounts, where there is room. */
    size_t column = beside->amount_span.begin > line.begin ? beside->amount_span.begin - line.begin : 0;
    size_t width = column > indent + strlen(name) ? column - indent : strlen(name) + 1;
    const char *added = arena_format(arena, "%.*s%-*s%s", (int)indent, text.at, (int)width, name, amount);
    struct span place = before ? span_make(line.begin, line.begin) : span_make(line.end, line.end);
    diagnostics_fix(bench->formulary->diagnostics, diagnostic, place,
                    before ? arena_format(arena, "%s\n", added) : arena_format(arena, "\n%s", added),
                    "put in %s, %s: the amount is only what is usual, look it up", name, amount);
}

/* ---- two lines exchanged ---- */

static struct span trimmed(struct bench *bench, struct span line)
{
    struct text text = source_text(bench->formulary->sources, line);
    struct text inner = text_trim(text);
    uint32_t begin = line.begin + (uint32_t)(inner.at - text.at);
    return span_make(begin, begin + (uint32_t)inner.length);
}

void lines_offer_exchange(struct bench *bench, struct diagnostic *diagnostic, const struct step *first, const struct step *second)
{
    if (!diagnostics_take_fixes(bench->formulary->diagnostics, diagnostic) || first->statement == NULL || second->statement == NULL) {
        return;
    }
    struct arena *arena = bench->formulary->arena;
    struct span upper = trimmed(bench, whole_line(bench, first->span));
    struct span lower = trimmed(bench, whole_line(bench, second->span));
    if (upper.end > lower.begin) {
        return;
    }
    struct text upper_text = source_text(bench->formulary->sources, upper);
    struct text lower_text = source_text(bench->formulary->sources, lower);
    diagnostics_fix(bench->formulary->diagnostics, diagnostic, upper,
                    arena_format(arena, "%.*s", TEXT_ARGUMENTS(lower_text)), "exchange this line and the one with %.*s",
                    TEXT_ARGUMENTS(first->material == NULL ? text_from("it") : second->material->name));
    diagnostics_fix_also(bench->formulary->diagnostics, diagnostic, lower,
                         arena_format(arena, "%.*s", TEXT_ARGUMENTS(upper_text)));
}
