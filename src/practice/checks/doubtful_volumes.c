/* Volumes that no bath can have: too small for what is to dissolve, filled up before they begin, or out of all proportion. */
#include "practice/checks/doubtful_volumes.h"

#include "practice/part_volumes.h"
#include "practice/repairs/line_repairs.h"
#include "practice/repairs/repairs.h"

#include <math.h>

/* Common practice, no source: less than 5 mL is not mixed, and more than 500 L is not mixed by hand. */
static const double LEAST = 5;
static const double MOST = 500e3;

/* g in a mL: twice what the most soluble salts of the trade come to (thiocyanates and silver nitrate, about 2 g in a mL of water). */
static const double BEYOND_DISSOLVING = 4;

/* A bath that begins with its whole volume has no room for so much of what dissolves, g in a mL. */
static const double BEGUN_FULL = 0.98;
static const double NEEDS_ROOM = 0.03;

/* Parts of one formula differ as drops do from a bottle, but not as a thimble from a barrel (common practice, no source). */
static const double OUT_OF_PROPORTION = 80;
static const double BARREL = 10e3;

/* What goes in dry, g. */
static double solids_of(const struct part *part)
{
    double sum = 0;
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        bool solid = step_is_addition(step) && step->how == ADD_BY_MASS && step->material != NULL && !step->material->liquid;
        sum += solid && !isnan(step->mass) ? step->mass : 0;
    }
    return sum;
}

static double smallest_of_others(const struct formula *formula, const struct part *part)
{
    double smallest = INFINITY;
    for (const struct part *other = formula->parts; other != NULL; other = other->next) {
        if (other != part && other->makes > 0) {
            smallest = fmin(smallest, other->makes);
        }
    }
    return smallest;
}

static bool begins_full(const struct part *part, const struct step *line, double solids)
{
    return line->how == ADD_TO_MAKE && volumes_start_with_water(part) && volumes_of_liquids(part) >= BEGUN_FULL * line->volume &&
           solids >= NEEDS_ROOM * line->volume;
}

/* Whether the part could be mixed in `times` its volume. */
static bool could_be(const struct formula *formula, const struct part *part, const struct step *line, double times)
{
    double makes = part->makes * times;
    double begun = line->how == ADD_TO_MAKE ? volumes_of_liquids(part) / makes : 1;
    return makes >= LEAST && makes <= MOST && solids_of(part) < makes && makes < OUT_OF_PROPORTION * smallest_of_others(formula, part) &&
           (line->how != ADD_TO_MAKE || !volumes_start_with_water(part) || (begun >= 0.5 && begun <= 0.95));
}

/* What is the matter with the part's volume, in words; NULL when nothing is. */
static const char *matter_with(const struct formula *formula, const struct part *part, const struct step *line)
{
    if (part->makes > MOST) {
        return "more is made here than anybody mixes by hand";
    }
    if (part->makes < LEAST && solids_of(part) > BEYOND_DISSOLVING * part->makes) {
        return "so little water never dissolves what this part holds";
    }
    if (part->makes >= BARREL && part->makes >= OUT_OF_PROPORTION * smallest_of_others(formula, part)) {
        return "this part is out of all proportion to the others";
    }
    if (begins_full(part, line, solids_of(part))) {
        return "made up to no more than the water it begins with: what dissolves needs room too";
    }
    return NULL;
}

void volumes_check(struct bench *bench)
{
    for (const struct part *part = bench->formula->parts; part != NULL; part = part->next) {
        const struct step *line = part->makes > 0 ? volumes_line(part) : NULL;
        const char *matter = line == NULL ? NULL : matter_with(bench->formula, part, line);
        if (matter == NULL) {
            continue;
        }
        bench->verdict.volume_doubted = true;
        struct diagnostic *diagnostic = bench_say(bench, DIAG_AMOUNT_UNUSUAL, line->amount_span, "%s", matter);
        diagnostics_help(bench->formulary->diagnostics, diagnostic, "check the figure, its point and its unit");
        struct repair repairs[MOST_REPAIRS];
        size_t count = repairs_of_volume(bench, line, repairs);
        for (size_t i = 0; i < count; i++) {
            if (could_be(bench->formula, part, line, repairs[i].factor)) {
                repair_offer(bench, diagnostic, &repairs[i]);
            }
        }
    }
}

static void check_mark_of(struct bench *bench, const struct part *part)
{
    if (!(part->after_mark > 0)) {
        return;
    }
    const struct step *mark = part->steps;
    while (!(step_is_addition(mark) && mark->how == ADD_TO_MAKE)) {
        mark = mark->next;
    }
    const struct step *first = NULL;
    const struct step *last = NULL;
    for (const struct step *step = mark; step != NULL; step = step->next) {
        if (step_room(step) > 0) {
            first = first == NULL ? step : first;
            last = step;
        }
    }
    struct diagnostic *diagnostic = bench_say(bench, DIAG_AFTER_THE_MARK, first->amount_span,
                                                 "this is added after the bath is made up to %.6g mL, and makes it about %.4g mL",
                                                 part->makes, part_volume(part));
    diagnostics_relate(bench->formulary->diagnostics, diagnostic, mark->amount_span, "it is made up here");
    diagnostics_help(bench->formulary->diagnostics, diagnostic, "make up to the mark last");
    lines_offer_exchange(bench, diagnostic, mark, last);
}

void volumes_check_mark(struct bench *bench)
{
    for (const struct part *part = bench->formula->parts; part != NULL; part = part->next) {
        check_mark_of(bench, part);
    }
}
