/* A strong solution made weaker: by its per cent, or by mass where the library knows the densities. */
#include "reckoning/sums.h"

#include "base/number.h"

static bool is_acid(const struct material *material)
{
    for (size_t i = 0; material != NULL && i < material->role_count; i++) {
        if (text_is(material->roles[i], "acid")) {
            return true;
        }
    }
    return false;
}

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
                          "write it as in: 500 mL of 28 % acetic acid from glacial",
                          "name the material behind the strength");
    }
    for (int i = 0; i < 2; i++) {
        const struct strength *strength = i == 0 ? strong : weak;
        if (strength->saturated) {
            return sum_refuse(reckoner, DIAG_STOCK_UNKNOWN, strength->span, "give it in per cent",
                              "how strong a saturated solution is must be stated for this");
        }
        if (!(strength->percent > 0) || strength->percent > 200) {
            return sum_refuse(reckoner, DIAG_AMOUNT_OUT_OF_RANGE, strength->span, NULL,
                              "no solution has this strength");
        }
    }
    enum percent_basis basis = weak->basis == PERCENT_PLAIN ? strong->basis : weak->basis;
    if (strong->basis != PERCENT_PLAIN && strong->basis != basis) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, weak->span,
                          "name the liquid, so that its densities can be used", "%s and %s do not count alike",
                          answer_percent(reckoner, strong), answer_percent(reckoner, weak));
    }
    double factor = weak->percent / strong->percent;
    if (factor > 1) {
        return refuse_stronger(reckoner, sum);
    }
    const char *strong_label = answer_format(reckoner, "%s%s", answer_percent(reckoner, strong), label);
    const char *a = number_print_significant(reckoner->arena, strong->percent, 6);
    const char *b = number_print_significant(reckoner->arena, weak->percent, 6);
    if (sum->total == NULL && sum->taken == NULL) {
        double water = 1 / factor - 1;
        answer->text = answer_format(reckoner, "1+%s, 1 part of %s and %s of water", answer_number(reckoner, water),
                                     strong_label, answer_number(reckoner, water));
        answer->working =
            answer_format(reckoner, "%s / %s = %s parts in all", a, b, answer_number(reckoner, 1 / factor));
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
                              "name the liquid, so that its densities can be used",
                              "%s does not go with this per cent", dimension_phrases[amount.dimension]);
        }
    }
    double total = sum->total != NULL ? amount.value : amount.value / factor;
    double taken = total * factor;
    const char *some = answer_own_amount(reckoner, taken, amount.dimension);
    const char *whole = answer_own_amount(reckoner, total, amount.dimension);
    answer->text = answer_format(reckoner, "%s of %s + water to make %s (%s)", some, strong_label, whole,
                                 answer_amount(reckoner, total - taken, amount.dimension));
    const char *stated = answer_amount(reckoner, amount.value, amount.dimension);
    answer->working = sum->total != NULL ? answer_format(reckoner, "%s x %s / %s = %s", stated, b, a,
                                                         answer_amount(reckoner, taken, amount.dimension))
                                         : answer_format(reckoner, "%s x %s / %s = %s", stated, a, b,
                                                         answer_amount(reckoner, total, amount.dimension));
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
                          "give both strengths by volume or both by weight", "%s and %s do not count alike",
                          strong->label, weak->label);
    }
    /* A form that is labelled by volume counts as its label says. */
    double labelled = sum_label_percent(other->form);
    bool by_label = fabs(labelled - other->form->percent) > 1;
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
    double water = balanced ? (total * weak.density - taken * strong.density) / sum_water_density : total - taken;
    const char *some = answer_own_amount(reckoner, taken, DIMENSION_VOLUME);
    const char *whole = answer_own_amount(reckoner, total, DIMENSION_VOLUME);
    const char *pure = answer_amount(reckoner, grams, weak.by_volume ? DIMENSION_VOLUME : DIMENSION_MASS);
    answer->text = answer_format(reckoner, "%s of %s + water to make %s, about %s", some, strong.label, whole,
                                 answer_amount(reckoner, water, DIMENSION_VOLUME));
    const char *first = answer_amount(reckoner, sum->taken != NULL ? taken : total, DIMENSION_VOLUME);
    const struct liquid *second = sum->taken != NULL ? &weak : &strong;
    answer->working =
        answer_format(reckoner, "%s x %s = %s of %.*s; %s / (%s) = %s", first, strength_working(reckoner, of), pure,
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
    if (!sum_solution_named(reckoner, sum, &material, &form, &label)) {
        return false;
    }
    return sum_is_liquid(material) ? weaken_liquid(reckoner, sum, material) : weaken_plain(reckoner, sum, label);
}
