/* The volume of a part: which line it hangs on, and what it is begun with. */
#include "practice/part_volumes.h"

#include "library/bath_kinds.h"

#include <math.h>

const struct step *volumes_line(const struct part *part)
{
    const struct step *largest = NULL;
    const struct step *drawn = NULL;
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (!step_is_addition(step) || isnan(step->volume)) {
            continue;
        }
        if (step->how == ADD_TO_MAKE) {
            return step;
        }
        const struct step **place = step->how == ADD_WATER ? &largest : &drawn;
        if (*place == NULL || step->volume > (*place)->volume) {
            *place = step;
        }
    }
    return largest != NULL ? largest : drawn;
}

double volumes_of_liquids(const struct part *part)
{
    double sum = 0;
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        bool liquid = step_is_addition(step) && step->how != ADD_TO_MAKE && !isnan(step->volume);
        sum += liquid ? step->volume : 0;
    }
    return sum;
}

bool volumes_start_with_water(const struct part *part)
{
    const struct step *first = part->steps;
    return first != NULL && step_is_addition(first) && first->how == ADD_WATER;
}

bool volumes_begin_with_little(struct library *library, const struct formula *formula, const struct part *part)
{
    const struct step *make = volumes_line(part);
    double least = library_bath_range(library, formula->kind, BATH_START, NAN, NULL, NULL).low / 1000; /* of a litre */
    return make != NULL && make->how == ADD_TO_MAKE && !isnan(make->volume) && volumes_start_with_water(part) &&
           volumes_of_liquids(part) < least * make->volume;
}
