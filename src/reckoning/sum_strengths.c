/* Percent solutions: what they hold, how they are made up, and how a strong one is made weaker. */
#include "reckoning/sums.h"

#include "base/number.h"

/* CRC Handbook of Chemistry and Physics: density of water at 20 °C, g/mL. */
static const double water_density = 0.9982;

static const char *percent_of(struct reckoner *reckoner, const struct strength *strength)
{
    static const char *const bases[] = {"", " w/v", " w/w", " v/v"};
    return answer_format(reckoner, "%s %%%s", number_print_significant(reckoner->arena, strength->percent, 6),
                         bases[strength->basis]);
}

/* What a plain strength counts: grams or millilitres of substance in 100 mL or 100 g. */
struct plain {
    double percent;
    enum dimension of;       /* of the substance */
    enum dimension in;       /* of the solution */
    const char *text;        /* "1 %" */
};

/* Reads a strength for a solution given in `in`, or for an amount of substance given in `of` (the other is
 * DIMENSION_NONE).  A bare per cent is w/v, by weight of what is weighed whole, and by volume of what is measured. */
static bool read_plain(struct reckoner *reckoner, const struct sum_solution *solution, enum dimension of, enum dimension in,
                       struct span amount, struct plain *plain)
{
    const struct strength *strength = solution->strength;
    if (strength == NULL) {
        return sum_refuse(reckoner, DIAG_SYNTAX, solution->span, "write it as in: 0.25 g from 1 % stock",
                          "a strength is wanted here, or a liquid of which the material is named");
    }
    enum percent_basis basis = strength->basis;
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
    plain->of = basis == PERCENT_VOLUME_IN_VOLUME ? DIMENSION_VOLUME : DIMENSION_MASS;
    plain->in = basis == PERCENT_WEIGHT_IN_WEIGHT ? DIMENSION_MASS : DIMENSION_VOLUME;
    plain->text = percent_of(reckoner, strength);
    double most = basis == PERCENT_WEIGHT_IN_VOLUME ? 200 : 100;
    if (!(strength->percent > 0) || strength->percent > most) {
        return sum_refuse(reckoner, DIAG_AMOUNT_OUT_OF_RANGE, strength->span, NULL, "no solution has this strength");
    }
    if ((in != DIMENSION_NONE && in != plain->in) || (of != DIMENSION_NONE && of != plain->of)) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, amount,
                          "w/v counts g in 100 mL, w/w g in 100 g, v/v mL in 100 mL; name the liquid if its density is needed",
                          "a %s does not go with %s", dimension_names[in != DIMENSION_NONE ? in : of], plain->text);
    }
    return true;
}

/* The material of a sum about solutions: named behind a strength, or by the strong solution itself; NULL when none is, or it
 * is a solid of which strengths are plain figures.  *label: " potassium bromide", or empty. */
static bool solution_material(struct reckoner *reckoner, const struct sum *sum, const struct material **material,
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

static bool has_density(const struct material *material)
{
    return material != NULL && material->liquid && !isnan(material->usual->density);
}

static bool is_acid(const struct material *material)
{
    for (size_t i = 0; material != NULL && i < material->role_count; i++) {
        if (text_is(material->roles[i], "acid")) {
            return true;
        }
    }
    return false;
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
static bool in_target(struct reckoner *reckoner, const struct sum_target *target, double value, enum dimension dimension,
                      double *factor, const char **name)
{
    const struct unit *unit = library_unit(reckoner->library, target->unit);
    if (target->kind != TARGET_UNIT || target->per != NULL || unit == NULL || unit->dimension != dimension ||
        isnan(unit->factor)) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, target->span, NULL, "the answer is a %s and cannot be given so",
                          dimension_names[dimension]);
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
    if (!solution_material(reckoner, sum, &material, &form, &label) || !sum_volume(reckoner, sum->amount, true, &amount)) {
        return false;
    }
    double held;
    enum dimension dimension = DIMENSION_MASS;
    const char *what = material == NULL ? "the substance" : answer_format(reckoner, "%.*s", TEXT_ARGUMENTS(material->name));
    if (has_density(material)) {
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
        answer->working = answer_format(reckoner, "%s%s x %s %% / 100 = %s", answer_amount(reckoner, amount.value, amount.dimension),
                                        density, answer_number(reckoner, liquid.percent), answer_amount(reckoner, held, dimension));
    } else {
        struct plain plain;
        if (!read_plain(reckoner, &sum->weak, DIMENSION_NONE, amount.dimension, sum->amount->span, &plain)) {
            return false;
        }
        held = amount.value * plain.percent / 100;
        dimension = plain.of;
        answer->working = answer_format(reckoner, "%s x %s / 100 = %s", answer_amount(reckoner, amount.value, amount.dimension),
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
        answer_add(reckoner, held / factor, answer_format(reckoner, "%.*s", TEXT_ARGUMENTS(sum->target.unit->spelling)), what);
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
    if (!solution_material(reckoner, sum, &material, &form, &label)) {
        return false;
    }
    if (has_density(material)) { /* from the bottle as it is usually sold */
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
        !read_plain(reckoner, &sum->weak, DIMENSION_NONE, total.dimension, sum->amount->span, &plain)) {
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
        answer->text = answer_format(reckoner, "%s%s + %s of water = %s", answer_own_amount(reckoner, weighed, plain.of), of,
                                     answer_amount(reckoner, water, DIMENSION_MASS), whole);
        answer_add_amount(reckoner, water, DIMENSION_MASS, "water");
    } else {
        answer->text = answer_format(reckoner, "%s%s, water to make %s", answer_own_amount(reckoner, weighed, plain.of), of,
                                     whole);
        answer_add_amount(reckoner, total.value, total.dimension, "water to make");
    }
    answer->working = answer_format(reckoner, "%s x %s / 100 = %s", answer_amount(reckoner, total.value, total.dimension),
                                    plain.text, answer_amount(reckoner, substance, plain.of));
    return true;
}

bool sum_take(struct reckoner *reckoner, const struct sum *sum)
{
    struct answer *answer = reckoner->answer;
    const struct material *material;
    const struct form *form;
    const char *label;
    if (!solution_material(reckoner, sum, &material, &form, &label)) {
        return false;
    }
    struct sum_amount amount;
    if (!sum_amount(reckoner, sum->amount, has_density(material) && sum->weak.strength == NULL, &amount)) {
        return false;
    }
    if (amount.dimension != DIMENSION_MASS && amount.dimension != DIMENSION_VOLUME) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->amount->span, "write it as in: 0.25 g from 1 % stock",
                          "a mass is expected here, and this is a %s", dimension_names[amount.dimension]);
    }
    const char *wanted = answer_amount(reckoner, amount.value, amount.dimension);
    if (has_density(material) && amount.dimension == DIMENSION_MASS) {
        struct liquid liquid;
        if (!sum_liquid(reckoner, &sum->weak, material, &liquid)) {
            return false;
        }
        if (!liquid.by_volume) {
            double volume = amount.value / liquid.grams;
            const char *density = isnan(liquid.density)
                                      ? ""
                                      : answer_format(reckoner, "%s g/mL x ", answer_number(reckoner, liquid.density));
            answer->text = answer_format(reckoner, "%s of %s", answer_own_amount(reckoner, volume, DIMENSION_VOLUME), liquid.label);
            answer->working =
                answer_format(reckoner, "%s / (%s%s %% / 100) = %s", wanted, density, answer_number(reckoner, liquid.percent),
                              answer_amount(reckoner, volume, DIMENSION_VOLUME));
            answer_add_amount(reckoner, volume, DIMENSION_VOLUME, liquid.label);
            return true;
        }
    }
    struct plain plain;
    if (!read_plain(reckoner, &sum->weak, amount.dimension, DIMENSION_NONE, sum->amount->span, &plain)) {
        return false;
    }
    double stock = amount.value * 100 / plain.percent;
    const char *what = answer_format(reckoner, "%s%s stock", plain.text, label);
    answer->text = answer_format(reckoner, "%s of %s", answer_own_amount(reckoner, stock, plain.in), what);
    answer->working = answer_format(reckoner, "%s x 100 / %s = %s", wanted, plain.text, answer_amount(reckoner, stock, plain.in));
    answer_add_amount(reckoner, stock, plain.in, what);
    return true;
}

/* ---- a strong solution made weaker ---- */

/* The volume or mass that is stated: of the weak solution, or of the strong one. */
static bool stated_amount(struct reckoner *reckoner, const struct sum *sum, struct sum_amount *amount)
{
    const struct quantity *quantity = sum->total != NULL ? sum->total : sum->taken;
    return sum_volume(reckoner, quantity, true, amount);
}

static bool refuse_stronger(struct reckoner *reckoner, const struct sum *sum)
{
    return sum_refuse(reckoner, DIAG_AMOUNT_OUT_OF_RANGE, sum->weak.span, "water only makes it weaker",
                      "a solution of this strength cannot be made from the weaker one");
}

static bool weaken_plain(struct reckoner *reckoner, const struct sum *sum, const char *label)
{
    struct answer *answer = reckoner->answer;
    const struct strength *strong = sum->strong.strength;
    const struct strength *weak = sum->weak.strength;
    if (strong == NULL || weak == NULL) {
        return sum_refuse(reckoner, DIAG_SYNTAX, strong == NULL ? sum->strong.span : sum->weak.span,
                          "write it as in: 500 mL of 28 % acetic acid from glacial", "name the material behind the strength");
    }
    for (int i = 0; i < 2; i++) {
        const struct strength *strength = i == 0 ? strong : weak;
        if (!(strength->percent > 0) || strength->percent > 200) {
            return sum_refuse(reckoner, DIAG_AMOUNT_OUT_OF_RANGE, strength->span, NULL, "no solution has this strength");
        }
    }
    enum percent_basis basis = weak->basis == PERCENT_PLAIN ? strong->basis : weak->basis;
    if (strong->basis != PERCENT_PLAIN && strong->basis != basis) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, weak->span, "name the liquid, so that its densities can be used",
                          "%s and %s do not count alike", percent_of(reckoner, strong), percent_of(reckoner, weak));
    }
    double factor = weak->percent / strong->percent;
    if (factor > 1) {
        return refuse_stronger(reckoner, sum);
    }
    const char *strong_label = answer_format(reckoner, "%s%s", percent_of(reckoner, strong), label);
    const char *a = number_print_significant(reckoner->arena, strong->percent, 6);
    const char *b = number_print_significant(reckoner->arena, weak->percent, 6);
    if (sum->total == NULL && sum->taken == NULL) {
        double water = 1 / factor - 1;
        answer->text = answer_format(reckoner, "1+%s, 1 part of %s and %s of water", answer_number(reckoner, water), strong_label,
                                     answer_number(reckoner, water));
        answer->working = answer_format(reckoner, "%s / %s = %s parts in all", a, b, answer_number(reckoner, 1 / factor));
        answer_add(reckoner, 1, "parts", strong_label);
        answer_add(reckoner, water, "parts", "water");
        return true;
    }
    struct sum_amount amount;
    if (!stated_amount(reckoner, sum, &amount)) {
        return false;
    }
    bool weighed = amount.dimension == DIMENSION_MASS;
    if (weighed != (basis == PERCENT_WEIGHT_IN_WEIGHT) && (weighed ? basis != PERCENT_PLAIN : true)) {
        if (weighed || basis == PERCENT_WEIGHT_IN_WEIGHT) {
            return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, amount.quantity->span,
                              "name the liquid, so that its densities can be used", "a %s does not go with this per cent",
                              dimension_names[amount.dimension]);
        }
    }
    double total = sum->total != NULL ? amount.value : amount.value / factor;
    double taken = total * factor;
    const char *some = answer_own_amount(reckoner, taken, amount.dimension);
    const char *whole = answer_own_amount(reckoner, total, amount.dimension);
    answer->text = answer_format(reckoner, "%s of %s + water to make %s (%s)", some, strong_label, whole,
                                 answer_amount(reckoner, total - taken, amount.dimension));
    const char *stated = answer_amount(reckoner, amount.value, amount.dimension);
    answer->working =
        sum->total != NULL
            ? answer_format(reckoner, "%s x %s / %s = %s", stated, b, a, answer_amount(reckoner, taken, amount.dimension))
            : answer_format(reckoner, "%s x %s / %s = %s", stated, a, b, answer_amount(reckoner, total, amount.dimension));
    answer_add_amount(reckoner, taken, amount.dimension, strong_label);
    answer_add_amount(reckoner, total - taken, amount.dimension, "water");
    answer_add_amount(reckoner, total, amount.dimension, "in all");
    return true;
}

/* The two of a sum, alike in what they count; reckoned with the library's densities. */
static bool read_liquids(struct reckoner *reckoner, const struct sum *sum, const struct material *material,
                         struct liquid *strong, struct liquid *weak)
{
    if (!sum_liquid(reckoner, &sum->weak, material, weak) || !sum_liquid(reckoner, &sum->strong, material, strong)) {
        return false;
    }
    struct liquid *other = weak->by_volume ? strong : weak;
    const double pure = 95; /* %; what is stronger is taken as the pure liquid where volumes are counted */
    if (strong->by_volume == weak->by_volume) {
        return true;
    }
    if (other->form == NULL) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, span_join(sum->weak.span, sum->strong.span),
                          "give both strengths by volume or both by weight", "%s and %s do not count alike", strong->label,
                          weak->label);
    }
    /* A form that is labelled by volume counts as its label says. */
    double labelled = strtod(other->form->label.length > 0 ? other->form->label.at : "0", NULL);
    bool by_label = labelled > 1 && fabs(labelled - other->form->percent) > 1;
    if (!by_label && other->form->percent < pure) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, span_join(sum->weak.span, sum->strong.span),
                          "give both strengths by volume or both by weight",
                          "%s is a strength by weight and does not go with one by volume", other->label);
    }
    other->percent = by_label ? labelled : 100;
    other->grams = other->percent / 100;
    other->by_volume = true;
    other->density = NAN;
    if (!by_label) {
        answer_note(reckoner, "%s is taken as the pure liquid", other->label);
    }
    return true;
}

static const char *strength_working(struct reckoner *reckoner, const struct liquid *liquid)
{
    if (liquid->by_volume || isnan(liquid->density)) {
        return answer_format(reckoner, "%s %%", answer_number(reckoner, liquid->percent));
    }
    return answer_format(reckoner, "%s g/mL x %s %%", number_print_significant(reckoner->arena, liquid->density, 5),
                         answer_number(reckoner, liquid->percent));
}

static bool weaken_liquid(struct reckoner *reckoner, const struct sum *sum, const struct material *material)
{
    struct answer *answer = reckoner->answer;
    struct liquid strong;
    struct liquid weak;
    if (!read_liquids(reckoner, sum, material, &strong, &weak)) {
        return false;
    }
    if (weak.grams > strong.grams * (1 + 1e-12)) {
        return refuse_stronger(reckoner, sum);
    }
    struct sum_amount amount = {.value = 1000, .dimension = DIMENSION_VOLUME};
    bool stated = sum->total != NULL || sum->taken != NULL;
    if (stated && !stated_amount(reckoner, sum, &amount)) {
        return false;
    }
    const struct liquid *of = sum->taken != NULL ? &strong : &weak;
    double volume = amount.value;
    if (amount.dimension == DIMENSION_MASS) {
        if (isnan(of->density)) {
            return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, amount.quantity->span, "give it in mL",
                              "a mass does not go with %s", of->label);
        }
        volume /= of->density;
    }
    double total = sum->taken != NULL ? volume * strong.grams / weak.grams : volume;
    double taken = total * weak.grams / strong.grams;
    double grams = total * weak.grams;
    bool balanced = !isnan(strong.density) && !isnan(weak.density);
    double water = balanced ? (total * weak.density - taken * strong.density) / water_density : total - taken;
    const char *some = answer_own_amount(reckoner, taken, DIMENSION_VOLUME);
    const char *whole = answer_own_amount(reckoner, total, DIMENSION_VOLUME);
    const char *pure = answer_amount(reckoner, grams, weak.by_volume ? DIMENSION_VOLUME : DIMENSION_MASS);
    answer->text = answer_format(reckoner, "%s of %s + water to make %s, about %s", some, strong.label, whole,
                                 answer_amount(reckoner, water, DIMENSION_VOLUME));
    const char *first = answer_amount(reckoner, sum->taken != NULL ? taken : total, DIMENSION_VOLUME);
    const struct liquid *second = sum->taken != NULL ? &weak : &strong;
    answer->working = answer_format(reckoner, "%s x %s = %s of %.*s; %s / (%s) = %s", first, strength_working(reckoner, of), pure,
                                    TEXT_ARGUMENTS(material->name), pure, strength_working(reckoner, second),
                                    answer_amount(reckoner, sum->taken != NULL ? total : taken, DIMENSION_VOLUME));
    answer_add_amount(reckoner, taken, DIMENSION_VOLUME, strong.label);
    answer_add_amount(reckoner, water, DIMENSION_VOLUME, "water, about");
    answer_add_amount(reckoner, total, DIMENSION_VOLUME, "in all");
    if (is_acid(material) && taken < total) {
        answer_note(reckoner, "pour the acid into the water, never water into the acid; see its safety data sheet");
    }
    return true;
}

bool sum_weaken(struct reckoner *reckoner, const struct sum *sum)
{
    const struct material *material;
    const struct form *form;
    const char *label;
    if (!solution_material(reckoner, sum, &material, &form, &label)) {
        return false;
    }
    return has_density(material) ? weaken_liquid(reckoner, sum, material) : weaken_plain(reckoner, sum, label);
}
