/* What one ingredient is enough for, at a limit of its own or the generic one: sensitisers (Regulation (EC) No 1272/2008,
 * Annex I, Table 3.4.5), mutagens (3.5.2), carcinogens (3.6.2), reproduction (3.7.2), and flammable or oxidising liquids where
 * the library has a limit for solutions. */
#include "chemistry/hazard_rules.h"

#include <math.h>

struct single {
    const char *hazard; /* class of the ingredient, and of the mixture */
    const char *code;
    double limit;       /* generic, % */
    const char *place;
};

static const struct single singles[] = {
    {"Resp. Sens. 1", "H334", 1, "Annex I, Table 3.4.5"},
    {"Resp. Sens. 1A", "H334", 0.1, "Annex I, Table 3.4.5"},
    {"Resp. Sens. 1B", "H334", 1, "Annex I, Table 3.4.5"},
    {"Skin Sens. 1", "H317", 1, "Annex I, Table 3.4.5"},
    {"Skin Sens. 1A", "H317", 0.1, "Annex I, Table 3.4.5"},
    {"Skin Sens. 1B", "H317", 1, "Annex I, Table 3.4.5"},
    {"Muta. 1A", "H340", 0.1, "Annex I, Table 3.5.2"},
    {"Muta. 1B", "H340", 0.1, "Annex I, Table 3.5.2"},
    {"Muta. 2", "H341", 1, "Annex I, Table 3.5.2"},
    {"Carc. 1A", "H350", 0.1, "Annex I, Table 3.6.2"},
    {"Carc. 1B", "H350", 0.1, "Annex I, Table 3.6.2"},
    {"Carc. 2", "H351", 1, "Annex I, Table 3.6.2"},
    {"Repr. 1A", "H360", 0.3, "Annex I, Table 3.7.2"},
    {"Repr. 1B", "H360", 0.3, "Annex I, Table 3.7.2"},
    {"Repr. 2", "H361", 3, "Annex I, Table 3.7.2"},
    {"Lact.", "H362", 0.3, "Annex I, Table 3.7.2"},
};

static const double EDGE = 1 - 1e-9; /* what a limit is multiplied by, so that rounding keeps nobody below it */

static const struct single *single_of(const struct hazard_class *class)
{
    for (size_t i = 0; i < sizeof singles / sizeof *singles; i++) {
        if (hazard_class_called(singles[i].hazard, singles[i].code) == class) {
            return &singles[i];
        }
    }
    return NULL;
}

/* The letters that say how it harms reproduction, of H360 and H361 codes: a capital is known or presumed, a small one
 * suspected. */
struct letters {
    bool fertility, child, maybe_fertility, maybe_child;
};

static void add_letters(struct letters *letters, struct text code)
{
    for (size_t i = 4; i < code.length; i++) {
        letters->fertility = letters->fertility || code.at[i] == 'F';
        letters->child = letters->child || code.at[i] == 'D';
        letters->maybe_fertility = letters->maybe_fertility || code.at[i] == 'f';
        letters->maybe_child = letters->maybe_child || code.at[i] == 'd';
    }
}

static struct text join_letters(struct arena *arena, struct text base, const struct letters *letters)
{
    bool known = text_is(base, "H360");
    const char *ends[] = {known ? (letters->fertility && letters->child         ? "FD"
                                   : letters->fertility && letters->maybe_child ? "Fd"
                                   : letters->child && letters->maybe_fertility ? "Df"
                                   : letters->fertility                         ? "F"
                                   : letters->child                             ? "D"
                                                                                : "")
                                : (letters->maybe_fertility && letters->maybe_child ? "fd"
                                   : letters->maybe_fertility                      ? "f"
                                   : letters->maybe_child                          ? "d"
                                                                                   : "")};
    return text_from(arena_format(arena, "%.*s%s", TEXT_ARGUMENTS(base), ends[0]));
}

/* Whether an ingredient reaches its limit for a class; *specific: by one of its own. */
static bool reaches(const struct ingredient *ingredient, const struct hazard_class *class, double generic, double *limit,
                    bool *specific)
{
    double own = hazard_limit_of(ingredient->data, class->family, class->rank, class->rank);
    *specific = !isnan(own);
    *limit = *specific ? own : generic;
    return ingredient->percent >= *limit * EDGE;
}

static double boron_percent(const struct classification *classification)
{
    double total = 0;
    for (size_t i = 0; i < classification->count; i++) {
        const struct ingredient *ingredient = &classification->ingredients[i];
        bool counts = ingredient->data->boron && hazard_entry_of(ingredient->data, FAMILY_REPRODUCTION) != NULL;
        total += counts ? ingredient->percent : 0;
    }
    return total;
}

/* A second ingredient of the same class stands beside the first as a cause. */
static void blame_as_well(struct classification *classification, const struct hazard_entry *entry,
                          const struct ingredient *ingredient)
{
    for (struct hazard_result *result = classification->results; result != NULL; result = result->next) {
        if (hazard_same_subject(result, entry->class, entry->code) && result->class->rank == entry->class->rank) {
            hazard_blame(classification, result, ingredient);
        }
    }
}

static void classify_entry(struct classification *classification, const struct ingredient *ingredient,
                           const struct hazard_entry *entry)
{
    const struct single *single = single_of(entry->class);
    double limit;
    bool specific;
    if (single == NULL) {
        return;
    }
    struct hazard_result *result;
    if (reaches(ingredient, entry->class, single->limit, &limit, &specific)) {
        result = hazard_add(classification, entry->class, entry->code, "%s %%, from %s %% on (%s)",
                            hazard_percent(classification->arena, ingredient->percent),
                            hazard_percent(classification->arena, limit),
                            specific ? "specific limit of the substance" : single->place);
    } else if (entry->class->family == FAMILY_REPRODUCTION && ingredient->data->boron &&
               boron_percent(classification) >= single->limit * EDGE) {
        result = hazard_add(classification, entry->class, entry->code,
                            "boron compounds %s %% in all, from %s %% on (Annex VI, note 11)",
                            hazard_percent(classification->arena, boron_percent(classification)),
                            hazard_percent(classification->arena, single->limit));
    } else {
        return;
    }
    if (result != NULL) {
        hazard_blame(classification, result, ingredient);
    } else {
        blame_as_well(classification, entry, ingredient);
    }
}

/* What several ingredients do to reproduction is told in one code. */
static void join_reproduction(struct classification *classification)
{
    for (struct hazard_result *result = classification->results; result != NULL; result = result->next) {
        if (result->class->family != FAMILY_REPRODUCTION) {
            continue;
        }
        struct letters letters = {0};
        for (size_t i = 0; i < classification->count; i++) {
            const struct ingredient *ingredient = &classification->ingredients[i];
            for (size_t e = 0; e < ingredient->data->entry_count; e++) {
                const struct hazard_entry *entry = &ingredient->data->entries[e];
                const struct single *single = single_of(entry->class);
                double limit;
                bool specific;
                bool counts = entry->class->family == FAMILY_REPRODUCTION && single != NULL &&
                              (reaches(ingredient, entry->class, single->limit, &limit, &specific) ||
                               (ingredient->data->boron && boron_percent(classification) >= single->limit * EDGE));
                if (counts) {
                    add_letters(&letters, entry->code);
                }
            }
        }
        result->code = join_letters(classification->arena, text_from(result->class->code), &letters);
    }
}

/* Flammable and oxidising liquids: a test decides; the library's limits say what solutions in water are known to be. */
static void classify_liquid(struct classification *classification, const struct ingredient *ingredient)
{
    static const enum hazard_family families[] = {FAMILY_FLAMMABLE_LIQUID, FAMILY_OXIDISING_LIQUID};
    for (size_t f = 0; f < 2; f++) {
        for (size_t i = 0; i < ingredient->data->limit_count; i++) {
            const struct hazard_limit *limit = &ingredient->data->limits[i];
            bool fits = limit->class->family == families[f] && ingredient->percent >= limit->from * EDGE &&
                        ingredient->percent < limit->to;
            if (fits) {
                struct hazard_result *result =
                    hazard_add(classification, limit->class, (struct text){0}, "%s %%, limit of its solutions %s %%",
                               hazard_percent(classification->arena, ingredient->percent),
                               hazard_percent(classification->arena, limit->from));
                hazard_blame(classification, result, ingredient);
            }
        }
    }
}


void hazard_single(struct classification *classification)
{
    for (size_t i = 0; i < classification->count; i++) {
        const struct ingredient *ingredient = &classification->ingredients[i];
        for (size_t e = 0; e < ingredient->data->entry_count; e++) {
            classify_entry(classification, ingredient, &ingredient->data->entries[e]);
        }
        if (classification->liquid) {
            classify_liquid(classification, ingredient);
        }
    }
    join_reproduction(classification);
}
