/* "pH of 45 g sodium carbonate (anhydrous) in 1 L": the estimate that sheets print, for what is not written as a formula. */
#include "reckoning/sums.h"

#include "base/number.h"
#include "chemistry/estimate.h"

#include <math.h>

static bool read_contents(struct reckoner *reckoner, const struct sum *sum, struct content **contents)
{
    struct content **last = contents;
    for (const struct sum_dissolved *item = sum->dissolved; item != NULL; item = item->next) {
        struct content *content = ARENA_NEW(reckoner->arena, struct content);
        if (!sum_material(reckoner, item->material, &content->material, &content->form)) {
            return false;
        }
        content->grams = sum_grams(reckoner, item->amount, content->material, content->form);
        if (isnan(content->grams)) {
            return false;
        }
        *last = content;
        last = &content->next;
    }
    return true;
}

bool sum_ph(struct reckoner *reckoner, const struct sum *sum)
{
    struct content *contents = NULL;
    struct sum_amount volume;
    double celsius = NAN;
    if (!read_contents(reckoner, sum, &contents) || !sum_volume(reckoner, sum->per, false, &volume) ||
        (sum->temperature != NULL && !sum_temperature(reckoner, sum->temperature, &celsius))) {
        return false;
    }
    reckoner->formulary.arena = reckoner->arena;
    struct estimate estimate = estimate_contents(&reckoner->formulary, contents, volume.value, celsius);
    if (!estimate.known) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->span, NULL, "no pH can be estimated: %.*s",
                          TEXT_ARGUMENTS(estimate.reason));
    }
    struct text words = estimate_text(reckoner->arena, &estimate);
    reckoner->answer->text = answer_format(reckoner, "about pH %.*s", TEXT_ARGUMENTS(words));
    reckoner->answer->working =
        answer_format(reckoner, "ionic strength %s mol/L; %s mol/L of strong acid or base would move it by one",
                      number_print_significant(reckoner->arena, estimate.ionic_strength, 2),
                      number_print_significant(reckoner->arena, estimate.buffer_capacity, 2));
    answer_add(reckoner, round(estimate.pH * 1e4) / 1e4, "pH", "estimate");
    for (const struct estimate_caution *caution = estimate.cautions; caution != NULL; caution = caution->next) {
        answer_note(reckoner, "%.*s", TEXT_ARGUMENTS(caution->text));
    }
    return true;
}
