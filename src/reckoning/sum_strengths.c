/* Percent solutions: what they hold, and how they are made up. */
#include "reckoning/sums.h"

#include "base/number.h"

/* What a plain strength counts: grams or millilitres of substance in 100 mL or 100 g. */
struct plain {
    double percent;
    enum dimension of; /* of the substance */
    enum dimension in; /* of the solution */
    const char *text;  /* "1 %" */
};

/* Per cent w/v of a saturated solution at 20 °C, by the library's solubility. */
static bool saturated_percent(struct reckoner *reckoner, const struct strength *strength,
                              const struct material *material, const struct form *form, double *percent)
{
    *percent = material == NULL ? NAN : material_saturated_percent(material, form);
    if (isnan(*percent)) {
        return sum_refuse(reckoner, DIAG_STOCK_UNKNOWN, strength->span,
                          "name the material: 10 mL of saturated stock potassium bromide; or give the strength",
                          "how strong a saturated solution this is cannot be said");
    }
    answer_note(reckoner, "saturated at 20 °C: about %s g in 100 mL of solution, an estimate",
                number_print_significant(reckoner->arena, *percent, 3));
    return true;
}

/* Reads a strength for a solution given in `in`, or for an amount of substance given in `of` (the other is
 * DIMENSION_NONE).  A bare per cent is w/v, by weight of what is weighed whole, and by volume of what is measured. */
static bool read_plain(struct reckoner *reckoner, const struct sum_solution *solution, const struct material *material,
                       const struct form *form, enum dimension of, enum dimension in, struct span amount,
                       struct plain *plain)
{
    const struct strength *strength = solution->strength;
    if (strength == NULL) {
        return sum_refuse(reckoner, DIAG_SYNTAX, solution->span, "write it as in: 0.25 g from 1 % stock",
                          "a strength is wanted here, or a liquid of which the material is named");
    }
    enum percent_basis basis = strength->saturated ? PERCENT_WEIGHT_IN_VOLUME : strength->basis;
    if (basis == PERCENT_PLAIN) {
        basis = in == DIMENSION_MASS     ? PERCENT_WEIGHT_IN_WEIGHT
                : of == DIMENSION_VOLUME ? PERCENT_VOLUME_IN_VOLUME
                                         : PERCENT_WEIGHT_IN_VOLUME;
        if (basis != PERCENT_WEIGHT_IN_VOLUME) {
            answer_note(reckoner, "the per cent are taken by %s",
                        basis == PERCENT_WEIGHT_IN_WEIGHT ? "weight, since the solution is weighed"
                                                          : "volume, since the substance is measured");
        }
    }
    plain->percent = strength->percent;
    if (strength->saturated && !saturated_percent(reckoner, strength, material, form, &plain->percent)) {
        return false;
    }
    plain->of = basis == PERCENT_VOLUME_IN_VOLUME ? DIMENSION_VOLUME : DIMENSION_MASS;
    plain->in = basis == PERCENT_WEIGHT_IN_WEIGHT ? DIMENSION_MASS : DIMENSION_VOLUME;
    plain->text = strength->saturated ? answer_format(reckoner, "%s %%", answer_number(reckoner, plain->percent))
                                      : answer_percent(reckoner, strength);
    double most = basis == PERCENT_WEIGHT_IN_VOLUME ? 200 : 100;
    if (!(plain->percent > 0) || plain->percent > most) {
        return sum_refuse(reckoner, DIAG_AMOUNT_OUT_OF_RANGE, strength->span, NULL, "no solution has this strength");
    }
    if ((in != DIMENSION_NONE && in != plain->in) || (of != DIMENSION_NONE && of != plain->of)) {
        return sum_refuse(
            reckoner, DIAG_UNIT_MISMATCH, amount,
            "w/v counts g in 100 mL, w/w g in 100 g, v/v mL in 100 mL; name the liquid if its density is needed",
            "%s does not go with %s", dimension_phrases[in != DIMENSION_NONE ? in : of], plain->text);
    }
    return true;
}

bool sum_solution_named(struct reckoner *reckoner, const struct sum *sum, const struct material **material,
                        const struct form **form, const char **label)
{
    *material = NULL;
    *form = NULL;
    *label = "";
    bool of_strong = sum_solution_material(reckoner, &sum->strong, material) ||
                     (sum->material == NULL && sum_solution_material(reckoner, &sum->weak, material));
    if (sum->material != NULL) {
        double temperature;
        const struct material *named;
        if (!check_material(&reckoner->checker, sum->material, &named, form, &temperature)) {
            return false;
        }
        if (of_strong && named != *material) {
            return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->strong.span, NULL, "this is no %.*s",
                              TEXT_ARGUMENTS(named->name));
        }
        *material = named;
        *label = answer_format(reckoner, " %s", answer_material(reckoner, named, *form));
    }
    return true;
}

bool sum_is_liquid(const struct material *material)
{
    return material != NULL && material->liquid && !isnan(material->usual->density);
}

/* ---- what a solution holds, and how it is made up ---- */

/* Grams of `form` that hold `grams` of the substance: the same unless it is sold by strength. */
static double of_form(const struct form *form, double grams)
{
    return form == NULL ? grams : grams * 100 / form->percent;
}

static const char *substance_label(struct reckoner *reckoner, const struct material *material, const struct form **form)
{
    if (material == NULL) {
        return "the substance";
    }
    if (*form == NULL) {
        *form = material->usual;
        sum_note_assumed(reckoner, material);
    }
    return answer_material(reckoner, material, *form);
}

/* The amount in the unit that was asked for. */
static bool in_target(struct reckoner *reckoner, const struct sum_target *target, double value,
                      enum dimension dimension, double *factor, const char **name)
{
    const struct unit *unit = library_unit(reckoner->library, target->unit);
    if (target->kind != TARGET_UNIT || target->per != NULL || unit == NULL || unit->dimension != dimension ||
        isnan(unit->factor)) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, target->span, NULL, "the answer is %s and cannot be given so",
                          dimension_phrases[dimension]);
    }
    *factor = unit->factor;
    *name = answer_format(reckoner, "%s %.*s", answer_number(reckoner, value / unit->factor),
                          TEXT_ARGUMENTS(target->unit->spelling));
    return true;
}

bool sum_content(struct reckoner *reckoner, const struct sum *sum)
{
    struct answer *answer = reckoner->answer;
    const struct material *material;
    const struct form *form;
    const char *label;
    struct sum_amount amount;
    if (!sum_solution_named(reckoner, sum, &material, &form, &label) ||
        !sum_volume(reckoner, sum->amount, true, &amount)) {
        return false;
    }
    double held;
    enum dimension dimension = DIMENSION_MASS;
    const char *what =
        material == NULL ? "the substance" : answer_format(reckoner, "%.*s", TEXT_ARGUMENTS(material->name));
    if (sum_is_liquid(material)) {
        struct liquid liquid;
        if (!sum_liquid(reckoner, &sum->weak, material, &liquid)) {
            return false;
        }
        bool weighed = amount.dimension == DIMENSION_MASS;
        dimension = liquid.by_volume ? DIMENSION_VOLUME : DIMENSION_MASS;
        if (weighed && (isnan(liquid.density) || liquid.by_volume)) {
            return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->amount->span, "give it in mL",
                              "a mass does not go with %s", liquid.label);
        }
        held = amount.value * (weighed ? liquid.percent / 100 : liquid.grams);
        const char *density = weighed || liquid.by_volume || isnan(liquid.density)
                                  ? ""
                                  : answer_format(reckoner, " x %s g/mL", answer_number(reckoner, liquid.density));
        answer->working =
            answer_format(reckoner, "%s%s x %s %% / 100 = %s", answer_amount(reckoner, amount.value, amount.dimension),
                          density, answer_number(reckoner, liquid.percent), answer_amount(reckoner, held, dimension));
    } else {
        struct plain plain;
        if (!read_plain(reckoner, &sum->weak, material, form, DIMENSION_NONE, amount.dimension, sum->amount->span,
                        &plain)) {
            return false;
        }
        held = amount.value * plain.percent / 100;
        dimension = plain.of;
        answer->working =
            answer_format(reckoner, "%s x %s / 100 = %s", answer_amount(reckoner, amount.value, amount.dimension),
                          plain.text, answer_amount(reckoner, held, dimension));
    }
    const char *of = material == NULL ? "" : answer_format(reckoner, " of %s", what);
    if (sum->target.kind != TARGET_NONE) {
        const char *converted = "";
        double factor = 1;
        if (!in_target(reckoner, &sum->target, held, dimension, &factor, &converted)) {
            return false;
        }
        answer->text = answer_format(reckoner, "%s%s", converted, of);
        answer_add(reckoner, held / factor, answer_format(reckoner, "%.*s", TEXT_ARGUMENTS(sum->target.unit->spelling)),
                   what);
        return true;
    }
    answer->text = answer_format(reckoner, "%s%s", answer_own_amount(reckoner, held, dimension), of);
    answer_add_amount(reckoner, held, dimension, what);
    return true;
}

bool sum_make(struct reckoner *reckoner, const struct sum *sum)
{
    struct answer *answer = reckoner->answer;
    const struct material *material;
    const struct form *form;
    const char *label;
    if (!sum_solution_named(reckoner, sum, &material, &form, &label)) {
        return false;
    }
    if (sum_is_liquid(material)) { /* from the bottle as it is usually sold */
        struct sum from = *sum;
        from.total = sum->amount;
        if (form != NULL) {
            from.strong.named = sum->material;
            from.strong.span = sum->material->span;
        }
        return sum_weaken(reckoner, &from);
    }
    struct sum_amount total;
    struct plain plain;
    if (!sum_volume(reckoner, sum->amount, true, &total) ||
        !read_plain(reckoner, &sum->weak, material, form, DIMENSION_NONE, total.dimension, sum->amount->span, &plain)) {
        return false;
    }
    const char *what = substance_label(reckoner, material, &form);
    double substance = total.value * plain.percent / 100;
    double weighed = of_form(form, substance);
    const char *whole = answer_own_amount(reckoner, total.value, total.dimension);
    const char *of = material == NULL ? "" : answer_format(reckoner, " of %s", what);
    answer_add_amount(reckoner, weighed, plain.of, what);
    if (plain.in == DIMENSION_MASS) {
        double water = total.value - weighed;
        answer->text =
            answer_format(reckoner, "%s%s + %s of water = %s", answer_own_amount(reckoner, weighed, plain.of), of,
                          answer_amount(reckoner, water, DIMENSION_MASS), whole);
        answer_add_amount(reckoner, water, DIMENSION_MASS, "water");
    } else {
        answer->text = answer_format(reckoner, "%s%s, water to make %s", answer_own_amount(reckoner, weighed, plain.of),
                                     of, whole);
        answer_add_amount(reckoner, total.value, total.dimension, "water to make");
    }
    answer->working =
        answer_format(reckoner, "%s x %s / 100 = %s", answer_amount(reckoner, total.value, total.dimension), plain.text,
                      answer_amount(reckoner, substance, plain.of));
    return true;
}

bool sum_take(struct reckoner *reckoner, const struct sum *sum)
{
    struct answer *answer = reckoner->answer;
    const struct material *material;
    const struct form *form;
    const char *label;
    if (!sum_solution_named(reckoner, sum, &material, &form, &label)) {
        return false;
    }
    struct sum_amount amount;
    if (!sum_amount(reckoner, sum->amount, sum_is_liquid(material) && sum->weak.strength == NULL, &amount)) {
        return false;
    }
    if (amount.dimension != DIMENSION_MASS && amount.dimension != DIMENSION_VOLUME) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->amount->span, "write it as in: 0.25 g from 1 % stock",
                          "a mass is expected here, and this is %s", dimension_phrases[amount.dimension]);
    }
    const char *wanted = answer_amount(reckoner, amount.value, amount.dimension);
    if (sum_is_liquid(material) && amount.dimension == DIMENSION_MASS) {
        struct liquid liquid;
        if (!sum_liquid(reckoner, &sum->weak, material, &liquid)) {
            return false;
        }
        if (!liquid.by_volume) {
            double volume = amount.value / liquid.grams;
            const char *density = isnan(liquid.density)
                                      ? ""
                                      : answer_format(reckoner, "%s g/mL x ", answer_number(reckoner, liquid.density));
            answer->text = answer_format(reckoner, "%s of %s", answer_own_amount(reckoner, volume, DIMENSION_VOLUME),
                                         liquid.label);
            answer->working = answer_format(reckoner, "%s / (%s%s %% / 100) = %s", wanted, density,
                                            answer_number(reckoner, liquid.percent),
                                            answer_amount(reckoner, volume, DIMENSION_VOLUME));
            answer_add_amount(reckoner, volume, DIMENSION_VOLUME, liquid.label);
            return true;
        }
    }
    struct plain plain;
    if (!read_plain(reckoner, &sum->weak, material, form, amount.dimension, DIMENSION_NONE, sum->amount->span,
                    &plain)) {
        return false;
    }
    double stock = amount.value * 100 / plain.percent;
    const char *what =
        answer_format(reckoner, "%s%s stock", sum->weak.strength->saturated ? "saturated" : plain.text, label);
    answer->text = answer_format(reckoner, "%s of %s", answer_own_amount(reckoner, stock, plain.in), what);
    answer->working =
        answer_format(reckoner, "%s x 100 / %s = %s", wanted, plain.text, answer_amount(reckoner, stock, plain.in));
    answer_add_amount(reckoner, stock, plain.in, what);
    return true;
}
