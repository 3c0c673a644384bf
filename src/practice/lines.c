/* Repairs that concern whole lines of a formula. */
#include "practice/lines.h"

#include "base/number.h"

#include <math.h>
#include <string.h>

/* From the line's first byte to before its newline. */
static struct span whole_line(const struct practice *practice, struct span inside)
{
    const struct source_file *file = source_file_at(practice->formulary->sources, inside.begin);
    struct span all = {file->base, file->base + file->length};
    struct text text = source_text(practice->formulary->sources, all);
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

/* The unit that the line beside is written in, as far as weights are. */
struct written_unit {
    const char *name;
    double grams;
};

static bool holds_word(struct text text, const char *word)
{
    size_t length = strlen(word);
    for (size_t i = 0; i + length <= text.length; i++) {
        if (memcmp(text.at + i, word, length) == 0) {
            return true;
        }
    }
    return false;
}

static struct written_unit unit_beside(const struct practice *practice, const struct step *beside, double grams)
{
    /* Grain and ounce after NIST Handbook 44, Appendix C. */
    static const struct written_unit grain = {"grains", 0.06479891};
    static const struct written_unit ounce = {"oz", 28.349523125};
    struct text amount = source_text(practice->formulary->sources, beside->amount_span);
    if (beside->from_parts) {
        return (struct written_unit){"parts", 1};
    }
    if (holds_word(amount, "grain") || holds_word(amount, "oz") || holds_word(amount, "ounce")) {
        return grams < ounce.grams / 2 ? grain : ounce;
    }
    return (struct written_unit){"g", 1};
}

/* Two figures, as a person would begin with: 0.23, 4.5, 45, 230. */
static const char *rounded(const struct practice *practice, double value)
{
    double place = pow(10, floor(log10(value)) - 1);
    return number_print(practice->formulary->arena, round(value / place) * place, 6);
}

void lines_offer_addition(const struct practice *practice, struct diagnostic *diagnostic, const struct formula *formula,
                          const struct material *material, double grams, const struct step *beside, bool before)
{
    if (diagnostic == NULL || beside->statement == NULL || !(grams > 0) || formula->variant_of != NULL || material->stop.length > 0) {
        return;
    }
    struct arena *arena = practice->formulary->arena;
    struct span line = whole_line(practice, beside->span);
    struct text text = source_text(practice->formulary->sources, line);
    size_t indent = 0;
    while (indent < text.length && (text.at[indent] == ' ' || text.at[indent] == '\t')) {
        indent++;
    }
    struct written_unit unit = unit_beside(practice, beside, grams);
    const char *amount = material->liquid
                             ? arena_format(arena, "%s mL", rounded(practice, grams / material->usual->density))
                             : arena_format(arena, "%s %s", rounded(practice, grams / unit.grams), unit.name);
    bool has_form = material->form_count > 1 && material->usual->name != NULL;
    const char *name = has_form ? arena_format(arena, "%.*s (%.*s)", TEXT_ARGUMENTS(material->name),
                                               TEXT_ARGUMENTS(material->usual->name->spelling))
                                : arena_format(arena, "%.*s", TEXT_ARGUMENTS(material->name));
    /* In the column of the amounts, where there is room. */
    size_t column = beside->amount_span.begin > line.begin ? beside->amount_span.begin - line.begin : 0;
    size_t width = column > indent + strlen(name) ? column - indent : strlen(name) + 1;
    const char *added = arena_format(arena, "%.*s%-*s%s", (int)indent, text.at, (int)width, name, amount);
    struct span place = before ? span_make(line.begin, line.begin) : span_make(line.end, line.end);
    diagnostics_fix(practice->formulary->diagnostics, diagnostic, place,
                    before ? arena_format(arena, "%s\n", added) : arena_format(arena, "\n%s", added),
                    "put in %s, %s: the amount is only what is usual, look it up", name, amount);
}

/* ---- two lines exchanged ---- */

static struct span trimmed(const struct practice *practice, struct span line)
{
    struct text text = source_text(practice->formulary->sources, line);
    struct text inner = text_trim(text);
    uint32_t begin = line.begin + (uint32_t)(inner.at - text.at);
    return span_make(begin, begin + (uint32_t)inner.length);
}

void lines_offer_exchange(const struct practice *practice, struct diagnostic *diagnostic, const struct step *first,
                          const struct step *second)
{
    if (diagnostic == NULL || first->statement == NULL || second->statement == NULL) {
        return;
    }
    struct arena *arena = practice->formulary->arena;
    struct span upper = trimmed(practice, whole_line(practice, first->span));
    struct span lower = trimmed(practice, whole_line(practice, second->span));
    if (upper.end > lower.begin) {
        return;
    }
    struct text upper_text = source_text(practice->formulary->sources, upper);
    struct text lower_text = source_text(practice->formulary->sources, lower);
    diagnostics_fix(practice->formulary->diagnostics, diagnostic, upper,
                    arena_format(arena, "%.*s", TEXT_ARGUMENTS(lower_text)), "exchange this line and the one with %.*s",
                    TEXT_ARGUMENTS(first->material == NULL ? text_from("it") : second->material->name));
    diagnostics_fix_also(practice->formulary->diagnostics, diagnostic, lower,
                         arena_format(arena, "%.*s", TEXT_ARGUMENTS(upper_text)));
}
