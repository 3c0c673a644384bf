/* Kinds of bath out of their declarations. */
#include "library/bath_kinds.h"

#include "library/entries.h"
#include "library/measure.h"

#include <math.h>

/* The kind that holds where another says nothing, and for formulas that do not say theirs; it has no chapter. */
static const struct text ANY_KIND = {"any", 3};

static const struct {
    const char *word;
    enum dimension dimension;
} figures[BATH_FIGURES] = {
    [BATH_MIXING] = {"mixing", DIMENSION_TEMPERATURE},          [BATH_COOLING] = {"cooling", DIMENSION_TEMPERATURE},
    [BATH_USE] = {"use", DIMENSION_TEMPERATURE},                [BATH_MIXING_ADVISED] = {"mixing advised", DIMENSION_TEMPERATURE},
    [BATH_USE_ADVISED] = {"use advised", DIMENSION_TEMPERATURE}, [BATH_ROOM] = {"room", DIMENSION_TEMPERATURE},
    [BATH_START] = {"start", DIMENSION_VOLUME_RATIO},
};

static const char *const roles[BATH_ROLES] = {[BATH_KEPT_AS_STOCK] = "kept as stock", [BATH_OF_MANY_CLASSES] = "many classes"};

static void report(struct library *library, struct span span, const char *what, const char *help)
{
    diagnostics_help(library->diagnostics, diagnostics_add(library->diagnostics, DIAG_SYNTAX, span, "%s", what), "%s", help);
}

static struct bath_range *read_range(struct library *library, const struct figure_statement *statement)
{
    struct text word = names_folded(library->names, statement->word->name)->spelling;
    enum bath_figure figure = 0;
    while (figure < BATH_FIGURES && !text_is(word, figures[figure].word)) {
        figure++;
    }
    if (figure == BATH_FIGURES) {
        report(library, statement->word->span, "this is nothing that is usual of a kind of bath",
               "there are: mixing, cooling, use, mixing advised, use advised, room, start");
        return NULL;
    }
    struct measure measure = measure_read(library, statement->quantity, MEASURES_UNSTATED, false);
    if (measure.fault != MEASURE_GOOD || measure.dimension != figures[figure].dimension || !(measure.high > measure.low)) {
        report(library, statement->quantity->span, "this is a range, of temperatures or of a beginning",
               "write it as: typical use 10 to 45 °C, or: typical start 420 to 980 mL/L");
        return NULL;
    }
    struct bath_range *range = ARENA_NEW(library->arena, struct bath_range);
    *range = (struct bath_range){NULL, figure, measure.low, measure.high, statement->solvent};
    return range;
}

static void read_roles(struct library *library, struct bath_kind *kind, const struct word *word)
{
    for (; word != NULL; word = word->next) {
        bool found = false;
        for (enum bath_role role = 0; role < BATH_ROLES; role++) {
            bool is = text_is(names_folded(library->names, word->name)->spelling, roles[role]);
            kind->roles[role] = kind->roles[role] || is;
            found = found || is;
        }
        if (!found) {
            report(library, word->span, "this is no role of a kind of bath", "there are: kept as stock, many classes");
        }
    }
}

static const struct bath_kind *make_kind(struct library *library, struct library_entry *entry)
{
    const struct declaration *declaration = entry->made != NULL ? NULL : library_declaration(library, entry);
    if (declaration == NULL) {
        return entry->made;
    }
    struct bath_kind *kind = ARENA_NEW(library->arena, struct bath_kind);
    struct bath_range **end = &kind->ranges;
    kind->name = entry->key;
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_SAYS) {
            kind->chapter = ((const struct text_statement *)statement)->text;
        } else if (statement->kind == SAY_ROLE) {
            read_roles(library, kind, ((const struct words_statement *)statement)->words);
        } else if (statement->kind == SAY_TYPICAL && (*end = read_range(library, (const struct figure_statement *)statement)) != NULL) {
            end = &(*end)->next;
        }
    }
    entry->made = kind;
    return kind;
}

static const struct bath_kind *find_kind(struct library *library, struct text folded)
{
    struct library_entry *entry = library_find(library, DECLARE_KIND_OF_BATH, folded);
    return entry == NULL ? NULL : make_kind(library, entry);
}

const struct bath_kind *library_bath_kind(struct library *library, struct text folded)
{
    const struct bath_kind *kind = find_kind(library, folded);
    return kind == NULL || kind->chapter.length == 0 ? NULL : kind;
}

size_t library_bath_kinds(struct library *library, const struct bath_kind **found)
{
    size_t count = 0;
    for (struct library_entry *entry = NULL; (entry = library_next_entry(library, DECLARE_KIND_OF_BATH, entry)) != NULL;) {
        const struct bath_kind *kind = make_kind(library, entry);
        if (kind != NULL && kind->chapter.length > 0) {
            if (found != NULL) {
                found[count] = kind;
            }
            count++;
        }
    }
    return count;
}

bool library_bath_role(struct library *library, struct text kind, enum bath_role role)
{
    const struct bath_kind *found = find_kind(library, kind);
    return found != NULL && found->roles[role];
}

static bool is_for(const struct bath_range *range, struct library *library, bath_holds *holds, void *context)
{
    for (const struct word *word = range->holding; word != NULL; word = word->next) {
        if (holds(context, names_folded(library->names, word->name)->spelling)) {
            return true;
        }
    }
    return range->holding == NULL;
}

struct bath_range library_bath_range(struct library *library, struct text kind, enum bath_figure figure, double value, bath_holds *holds,
                                     void *context)
{
    const struct bath_range *found = NULL;
    for (int any = 0; any < 2 && found == NULL; any++) {
        const struct bath_kind *of = find_kind(library, any ? ANY_KIND : kind);
        bool beyond = false;
        for (const struct bath_range *range = of == NULL ? NULL : of->ranges; range != NULL; range = range->next) {
            beyond = beyond || (range->figure == figure && (value < range->low || value > range->high));
        }
        for (const struct bath_range *range = of == NULL ? NULL : of->ranges; range != NULL; range = range->next) {
            bool of_these = range->figure == figure && (range->holding == NULL || beyond);
            found = of_these && is_for(range, library, holds, context) ? range : found;
        }
    }
    return found == NULL ? (struct bath_range){.low = -INFINITY, .high = INFINITY} : *found;
}
