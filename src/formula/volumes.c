/* The volume that a part makes, and whether its liquids fit into it. */
#include "formula/checking.h"

#include "base/number.h"

static bool carries(const struct step *step)
{
    /* What other things dissolve in: water, a stock, another solution, a solvent. */
    if (step->how == ADD_WATER || step->how == ADD_STOCK || step->how == ADD_SOLUTION || step->how == ADD_TO_MAKE) {
        return true;
    }
    for (size_t i = 0; step->how == ADD_BY_VOLUME && i < step->material->role_count; i++) {
        if (text_is(step->material->roles[i], "solvent")) {
            return true;
        }
    }
    return false;
}

struct volumes {
    double liquids;               /* mL of everything but the water to make */
    const struct step *to_make;
    const struct step *largest;   /* liquid addition */
    const struct step *drawn;     /* the largest that is not water */
    double after_mark;            /* mL that follow the water to make */
    double begun_with;            /* mL of water that are poured in, not filled up */
    const struct step *passing;   /* the addition whose volume first passes the final one */
    bool carrier;
    bool water_open;              /* a liquid whose amount could not be read, or is taken as needed */
    bool additions;
};

/* Half a per cent is lost in the rounding of print. */
static const double OVER_THE_MARK = 0.005;

static struct volumes add_up(const struct part *part)
{
    struct volumes volumes = {0};
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (!step_is_addition(step)) {
            continue;
        }
        volumes.additions = true;
        volumes.after_mark += volumes.to_make != NULL ? step_room(step) : 0;
        if (step->how == ADD_TO_MAKE) {
            volumes.to_make = step;
            volumes.carrier = true;
            continue;
        }
        bool water = step->how == ADD_AS_NEEDED && step->material != NULL && step->material->is_water;
        volumes.water_open = volumes.water_open || water || (step->how == ADD_SOLUTION && isnan(step->volume));
        if (isnan(step->volume)) {
            continue;
        }
        volumes.carrier = volumes.carrier || carries(step);
        volumes.liquids += step->volume;
        volumes.begun_with += step->how == ADD_WATER ? step->volume : 0;
        if (volumes.largest == NULL || step->volume > volumes.largest->volume) {
            volumes.largest = step;
        }
        bool is_drawn = step->material != NULL && !step->material->is_water;
        if (is_drawn && (volumes.drawn == NULL || step->volume > volumes.drawn->volume)) {
            volumes.drawn = step;
        }
    }
    return volumes;
}

static void say_no_water(struct checker *checker, const struct part *part)
{
    struct diagnostic *diagnostic;
    if (part->name != NULL) {
        diagnostic = check_say(checker, DIAG_WATER_MISSING, part->span, "part %.*s has no water",
                               TEXT_ARGUMENTS(part->name->spelling));
    } else {
        diagnostic = check_say(checker, DIAG_WATER_MISSING, part->span, "the formula has no water");
    }
    diagnostics_help(checker->diagnostics, diagnostic,
                     "end it with a line such as: water to make 1 L; a dry mix says: makes 500 g");
    if (part->last != NULL) {
        struct span end = {part->last->span.end, part->last->span.end};
        diagnostics_fix(checker->diagnostics, diagnostic, end, "\n    water to make 1 L", "make it up to 1 L");
    }
}

/* A smaller share of the bath is hardly what makes it run over: then there is too much water to begin with. */
static const double MUCH_OF_A_BATH = 0.4;
/* Water to begin with, in such a share of the final volume, goes with it: then the two are right. */
static const double BEGINNING = 0.25;

/* A liquid that is far beyond any vessel of the formula, or the only one that does not fit beside the rest, is the line to mend;
 * else it is the final volume, which all of them pass together. */
static const struct step *line_to_mend(const struct volumes *volumes)
{
    double makes = volumes->to_make->volume;
    const struct step *drawn = volumes->drawn;
    if (volumes->largest->material != NULL && volumes->largest->volume > 20 * makes &&
        makes >= 50 /* mL: less is a final volume in the wrong unit */) {
        return volumes->largest;
    }
    if (drawn == NULL) {
        return volumes->to_make;
    }
    bool a_tenth_fits = volumes->begun_with >= BEGINNING * makes && drawn->volume > MUCH_OF_A_BATH * makes &&
                        volumes->liquids - 0.9 * drawn->volume <= makes;
    bool alone = drawn->volume > 1.5 * makes && volumes->liquids - drawn->volume <= makes;
    return a_tenth_fits || alone ? drawn : volumes->to_make;
}

/* Offers the units of volume that this one is written for by mistake: the smaller of them ("L" for "mL"), or the larger. */
static void offer_other_unit(struct checker *checker, struct diagnostic *diagnostic, const struct measure *measure, bool smaller)
{
    const struct word *meant = measure->fault == MEASURE_GOOD ? measure->unit->mistaken : NULL;
    for (; meant != NULL; meant = meant->next) {
        const struct unit *unit = library_unit(checker->library, meant->name);
        bool fits = unit != NULL && unit->dimension == DIMENSION_VOLUME;
        if (fits && (smaller ? unit->factor < measure->unit->factor : unit->factor > measure->unit->factor)) {
            formula_offer_unit(checker->formulary, diagnostic, measure->unit_span, meant);
        }
    }
}

static void offer_a_tenth(struct checker *checker, struct diagnostic *diagnostic, const struct step *step, const struct measure *measure)
{
    const struct quantity *quantity = step_quantity(step);
    if (measure->fault == MEASURE_GOOD && quantity->more == NULL && quantity->high == NULL) {
        diagnostics_fix_as(checker->diagnostics, diagnostic, quantity_number_span(quantity), "the point is one place to the left: %s", "%.10g",
                           quantity->value / 10);
    }
}

static void say_too_much(struct checker *checker, const struct volumes *volumes)
{
    double over = volumes->liquids - volumes->to_make->volume;
    const struct step *mend = line_to_mend(volumes);
    if (mend != volumes->to_make) {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_OVER_VOLUME, mend->amount_span, "%.6g mL bring the liquids to %.6g mL, in a bath of %.6g mL",
                      mend->volume, volumes->liquids, volumes->to_make->volume);
        diagnostics_relate(checker->diagnostics, diagnostic, volumes->to_make->amount_span, "the final volume is here");
        diagnostics_help(checker->diagnostics, diagnostic, "check the figure, its point and its unit");
        struct measure measure = step_measure(checker->library, checker->formula, mend);
        offer_a_tenth(checker, diagnostic, mend, &measure);
        offer_other_unit(checker, diagnostic, &measure, true);
        return;
    }
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_OVER_VOLUME, volumes->to_make->amount_span,
                  "the liquids come to %.6g mL, %.4g mL more than the final volume", volumes->liquids, over);
    diagnostics_help(checker->diagnostics, diagnostic,
                     "start with less water, or check the final volume: the largest liquid is %.6g mL",
                     volumes->largest->volume);
    if (volumes->largest->volume > 20 * volumes->to_make->volume) {
        struct measure measure = step_measure(checker->library, checker->formula, volumes->to_make);
        offer_other_unit(checker, diagnostic, &measure, false);
    }
}

/* A line that could not be read may have been the water; then that mistake is the one to mend. */
static bool line_was_lost(const struct checker *checker)
{
    const struct declaration *declaration = checker->formula->declaration;
    struct span all = {declaration->span.begin, declaration_end(declaration)};
    return checker->line_lost || diagnostics_any(checker->diagnostics, DIAG_SYNTAX, all, 0);
}

/* The water can make up only once. */
static void check_made_up_twice(struct checker *checker, const struct part *part)
{
    const struct step *first = NULL;
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (!step_is_addition(step) || step->how != ADD_TO_MAKE) {
            continue;
        }
        if (first == NULL) {
            first = step;
            continue;
        }
        bool agree = fabs(step->volume - first->volume) <= 0.005 * first->volume;
        struct diagnostic *diagnostic =
            agree ? check_say(checker, DIAG_ADDED_TWICE, step->span, "the bath is made up to its volume a second time")
                  : check_say(checker, DIAG_MAKES_DISAGREES, step->amount_span,
                              "made up to %.6g mL here and to %.6g mL above", step->volume, first->volume);
        diagnostics_relate(checker->diagnostics, diagnostic, first->amount_span, "the first time is here");
        diagnostics_help(checker->diagnostics, diagnostic, "leave one of the two out");
        diagnostics_fix(checker->diagnostics, diagnostic, step->span, "", "leave this line out");
    }
}

/* A dry mix weighs what its additions weigh. */
static void check_dry_total(struct checker *checker, const struct part *part)
{
    double total = 0;
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (step_is_addition(step)) {
            total += step->how == ADD_TO_MAKE ? NAN : step->mass;
        }
    }
    /* One per cent is lost in the rounding of print; NAN: an amount is not known by weight. */
    if (!(fabs(total - part->makes_mass) > 0.01 * part->makes_mass) || total <= 0 || checker->formula->faulty ||
        checker->makes == NULL || line_was_lost(checker)) {
        return;
    }
    struct span span = ((const struct quantity_statement *)checker->makes)->quantity->span;
    const char *sum = arena_format(checker->arena, "%s g", number_print_significant(checker->arena, total, 5));
    struct diagnostic *diagnostic = check_say(checker, DIAG_MAKES_DISAGREES, span,
                                              "the additions weigh %s together, but the formula says that it makes %.6g g", sum,
                                              part->makes_mass);
    diagnostics_help(checker->diagnostics, diagnostic, "check the amounts, or say what they come to: makes %s", sum);
    diagnostics_fix(checker->diagnostics, diagnostic, span, sum, "%s, as the additions weigh", sum);
}

static bool is_liquid(const struct checker *checker, const struct statement *statement)
{
    if (statement->kind != SAY_ADDITION) {
        return statement->kind == SAY_SOLUTION;
    }
    const struct addition_statement *addition = (const struct addition_statement *)statement;
    const struct material_reading *reading = library_material(checker->library, addition->material->name);
    const struct material *material = reading == NULL ? NULL : reading->material;
    return material == NULL || material->is_water || material->liquid || (addition->amount != NULL && addition->amount->kind != AMOUNT_PLAIN);
}

bool check_ounces_of_dry_mix(struct checker *checker, const struct quantity *quantity)
{
    const struct unit *unit = quantity->unit == NULL ? NULL : library_unit(checker->library, quantity->unit);
    if (unit == NULL || unit->of_liquids == NULL || checker->formula->declaration->kind != DECLARE_FORMULA) {
        return false;
    }
    for (const struct statement *at = checker->formula->declaration->statements; at != NULL; at = at->next) {
        if (is_liquid(checker, at)) {
            return false;
        }
    }
    checker->line_lost = true;
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_UNIT_AMBIGUOUS, quantity->span,
                  "all that is added is solid: is that %s %.*s the weight of a dry mix, or the volume of a solution?",
                  text_article(unit->name), TEXT_ARGUMENTS(unit->name));
    const struct unit *weight = library_unit_of_weight(checker->library, unit);
    struct text volume = unit->of_liquids->name;
    if (weight == NULL) {
        return true;
    }
    diagnostics_help(checker->diagnostics, diagnostic, "write %.*s for a weight, %.*s for a volume", TEXT_ARGUMENTS(weight->name), TEXT_ARGUMENTS(volume));
    if (quantity->more == NULL && quantity->high == NULL) {
        const char *fluid = arena_format(checker->arena, "%.*s", TEXT_ARGUMENTS(volume));
        const char *solid = arena_format(checker->arena, "%.*s", TEXT_ARGUMENTS(weight->name));
        diagnostics_fix(checker->diagnostics, diagnostic, quantity->unit_span, solid, "%s: the weight of a dry mix", solid);
        diagnostics_fix(checker->diagnostics, diagnostic, quantity->unit_span, fluid, "%s: the volume of a solution", fluid);
    }
    return true;
}

void check_part_volume(struct checker *checker, struct part *part)
{
    struct volumes volumes = add_up(part);
    if (volumes.to_make != NULL) {
        check_made_up_twice(checker, part);
        part->makes = volumes.to_make->volume;
        part->after_mark = volumes.after_mark > OVER_THE_MARK * part->makes ? volumes.after_mark : 0;
        if (volumes.liquids > part->makes * (1 + OVER_THE_MARK)) {
            say_too_much(checker, &volumes);
        }
        return;
    }
    if (!isnan(part->makes_mass)) {
        check_dry_total(checker, part);
        return;
    }
    if (!volumes.carrier && !volumes.water_open) {
        bool orphan = checker->formula->declaration->kind == DECLARE_VARIANT && checker->formula->variant_of == NULL;
        if (!orphan && (volumes.additions || part->name != NULL || checker->formula->variant_of == NULL) && isnan(part->makes) &&
            !line_was_lost(checker)) {
            say_no_water(checker, part);
        }
        return;
    }
    if (!isnan(part->makes)) { /* said by `makes` */
        if (volumes.liquids > part->makes * (1 + OVER_THE_MARK)) {
            struct diagnostic *diagnostic =
                check_say(checker, DIAG_OVER_VOLUME, volumes.largest->amount_span,
                          "the liquids come to %.6g mL, more than the %.6g mL that the formula makes", volumes.liquids,
                          part->makes);
            diagnostics_help(checker->diagnostics, diagnostic, "check the volumes against \"makes\"");
        }
        return;
    }
    part->makes = volumes.liquids;
    part->makes_assumed = true;
    if (volumes.largest == NULL) {
        part->makes = NAN;
        return;
    }
    if (line_was_lost(checker)) { /* it may have been the final volume */
        return;
    }
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_FINAL_VOLUME_ASSUMED, volumes.largest->amount_span,
                  "no final volume is stated; the liquids add up to %.5g mL", volumes.liquids);
    diagnostics_help(checker->diagnostics, diagnostic,
                     "dissolved solids make it a little more; write \"to make\" where the formula means the final volume");
}
