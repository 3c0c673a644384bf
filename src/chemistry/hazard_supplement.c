/* Supplementary statements of Regulation (EC) No 1272/2008, Annex II.
 *
 * For most of them no limit is published: a mixture bears the statement when it does what it says.  The library's limits go
 * before (`limit EUH031 from 5 %`: the one that Annex VI prints is that of sodium hypochlorite); where there is none, the
 * percentage below is taken, which errs to the safe side. */
#include "chemistry/hazard_rules.h"

#include <math.h>

static const struct {
    const char *code;
    double from;       /* %: the generic cut-off of table 1.1; for solvents, memory, to be checked against guidance */
    bool of_corrosive; /* only where the mixture burns the skin (Annex II, 1.2.6) */
    bool not_of_irritant;
} supplements[] = {
    {"EUH014", 1, false, false}, {"EUH019", 10, false, false}, {"EUH029", 1, false, false}, {"EUH031", 1, false, false},
    {"EUH032", 1, false, false}, {"EUH066", 20, false, true},  {"EUH070", 1, false, false}, {"EUH071", 1, true, false},
};

static bool has_result(const struct classification *classification, const char *code)
{
    for (const struct hazard_result *result = classification->results; result != NULL; result = result->next) {
        if (strcmp(result->class->code, code) == 0) {
            return true;
        }
    }
    return false;
}

static const struct hazard_limit *limit_with_code(const struct hazard_data *data, const char *code)
{
    for (size_t i = 0; i < data->limit_count; i++) {
        if (strcmp(data->limits[i].class->code, code) == 0) {
            return &data->limits[i];
        }
    }
    return NULL;
}

static bool has_entry(const struct hazard_data *data, const char *code)
{
    for (size_t i = 0; i < data->entry_count; i++) {
        if (strcmp(data->entries[i].class->code, code) == 0) {
            return true;
        }
    }
    return false;
}

static void add_supplement(struct classification *classification, size_t s)
{
    struct hazard_result *result = NULL;
    const char *code = supplements[s].code;
    for (size_t i = 0; i < classification->count; i++) {
        const struct ingredient *ingredient = &classification->ingredients[i];
        const struct hazard_limit *limit = limit_with_code(ingredient->data, code);
        double from = limit != NULL ? limit->from : supplements[s].from;
        if (!has_entry(ingredient->data, code) || ingredient->percent < from - 1e-9) {
            continue;
        }
        if (result == NULL) {
            result = hazard_add(classification, hazard_class_called("", code), (struct text){0},
                                "%s %%, taken from %s %% on (Annex II; %s)", hazard_percent(classification->arena, ingredient->percent),
                                hazard_percent(classification->arena, from),
                                limit != NULL ? "limit of the substance" : "no limit is published");
        }
        hazard_blame(classification, result, ingredient);
    }
}

/* EUH208 (Annex II, 2.8): the percentages of Table 3.4.6, a tenth of a specific limit where there is one; for what the mixture
 * is not classed for. */
static void add_elicitation(struct classification *classification)
{
    static const struct {
        enum hazard_family family;
        const char *code;
    } families[] = {{FAMILY_AIRWAYS_SENSITISER, "H334"}, {FAMILY_SKIN_SENSITISER, "H317"}};
    struct hazard_result *result = NULL;
    for (size_t f = 0; f < 2; f++) {
        for (size_t i = 0; !has_result(classification, families[f].code) && i < classification->count; i++) {
            const struct ingredient *ingredient = &classification->ingredients[i];
            const struct hazard_entry *entry = hazard_entry_of(ingredient->data, families[f].family);
            if (entry == NULL) {
                continue;
            }
            double specific = hazard_limit_of(ingredient->data, families[f].family, 1, 1);
            bool strong = entry->class->hazard[strlen(entry->class->hazard) - 1] == 'A';
            double from = !isnan(specific) ? specific / 10 : strong ? 0.01 : 0.1;
            if (ingredient->percent < from - 1e-9) {
                continue;
            }
            if (result == NULL) {
                result = hazard_add(classification, hazard_class_called("", "EUH208"), (struct text){0},
                                    "%s %%, from %s %% on (Annex II, 2.8; Annex I, Table 3.4.6)",
                                    hazard_percent(classification->arena, ingredient->percent),
                                    hazard_percent(classification->arena, from));
            }
            bool named = false;
            for (const struct hazard_cause *cause = result == NULL ? NULL : result->because; cause != NULL; cause = cause->next) {
                named = named || text_equal(cause->material, ingredient->data->name);
            }
            if (!named) {
                hazard_blame(classification, result, ingredient);
            }
        }
    }
}

void hazard_supplement(struct classification *classification)
{
    bool burns = has_result(classification, "H314");
    bool irritates = burns || has_result(classification, "H315");
    for (size_t s = 0; s < sizeof supplements / sizeof *supplements; s++) {
        if ((!supplements[s].of_corrosive || burns) && (!supplements[s].not_of_irritant || !irritates)) {
            add_supplement(classification, s);
        }
    }
    add_elicitation(classification);
}
