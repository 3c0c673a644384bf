/* From unit to unit, temperatures among them; what lies between mass, volume and moles comes from the material. */
#include "reckoning/sums.h"

#include "base/buffer.h"
#include "base/number.h"

/* What a value is counted in: a unit, "grains per 20 imperial fl oz", or per cent. */
struct scale {
    enum dimension dimension; /* DIMENSION_NONE: per cent */
    double factor;            /* base units in one */
    double zero_at;
    const char *name;
    const struct unit *unit; /* NULL for per cent */
};

static bool refuse_mismatch(struct reckoner *reckoner, struct span span, enum dimension from, enum dimension to)
{
    const char *help =
        (from == DIMENSION_MASS && to == DIMENSION_VOLUME) || (from == DIMENSION_VOLUME && to == DIMENSION_MASS)
            ? "name a liquid, whose density is known: 10 mL acetic acid (glacial) in g"
        : from == DIMENSION_SUBSTANCE || to == DIMENSION_SUBSTANCE || from == DIMENSION_MOLARITY ||
                to == DIMENSION_MOLARITY
            ? "name the material: 0.1 mol potassium bromide in g"
            : NULL;
    return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, span, help, "%s cannot be given as %s", dimension_phrases[from],
                      dimension_phrases[to]);
}

/* The unit of that name; reported as the compiler does when there is none or it has no one value. */
static bool read_unit(struct reckoner *reckoner, struct name *name, struct span span, bool liquid,
                      struct unit_reading *reading)
{
    struct quantity *one = build_quantity(&reckoner->builder, 1, name, span);
    struct own_unit mass = reckoner->own_mass;
    struct own_unit volume = reckoner->own_volume;
    struct sum_amount amount;
    /* Only the unit is wanted: 1 °F is below nothing that is asked for here. */
    if (!sum_amount(reckoner, one, liquid, &amount)) {
        return false;
    }
    reckoner->own_mass = mass;
    reckoner->own_volume = volume;
    *reading = library_read_unit(library_unit(reckoner->library, one->unit), reckoner->formula.measures, liquid);
    return true;
}

/* Whether the bare name of the unit is understood as a measure of liquids when one is wanted (oz, dram). */
static bool wants_liquid(struct reckoner *reckoner, const struct quantity *quantity)
{
    const struct unit *unit = quantity->unit == NULL ? NULL : library_unit(reckoner->library, quantity->unit);
    return unit != NULL && (unit->of_liquids == NULL ? unit->dimension == DIMENSION_VOLUME : false);
}

static bool read_target(struct reckoner *reckoner, const struct sum_target *target, bool liquid, struct scale *scale)
{
    if (target->kind == TARGET_RATIO) {
        return sum_refuse(reckoner, DIAG_SYNTAX, target->span, "write it as in: 150 mL to 1 L as a ratio",
                          "a ratio is made of two volumes");
    }
    if (target->kind == TARGET_PERCENT) {
        *scale = (struct scale){.dimension = DIMENSION_NONE, .factor = 1, .name = "%"};
        return true;
    }
    struct unit_reading reading;
    if (!read_unit(reckoner, target->unit, target->span, liquid && target->per == NULL, &reading)) {
        return false;
    }
    *scale = (struct scale){.dimension = reading.dimension,
                            .factor = reading.factor,
                            .zero_at = reading.zero_at,
                            .name = answer_format(reckoner, "%.*s", TEXT_ARGUMENTS(target->unit->spelling)),
                            .unit = reading.unit};
    if (target->per == NULL) {
        return true;
    }
    struct sum_amount per;
    if (!sum_volume(reckoner, target->per, false, &per)) {
        return false;
    }
    struct span span = span_join(target->span, target->per->span);
    scale->name = answer_format(reckoner, "%.*s", TEXT_ARGUMENTS(source_text(reckoner->library->sources, span)));
    scale->factor *= 1000 / per.value;
    if (reading.dimension == DIMENSION_MASS) {
        scale->dimension = DIMENSION_CONCENTRATION;
    } else if (reading.dimension == DIMENSION_SUBSTANCE) {
        scale->dimension = DIMENSION_MOLARITY;
    } else if (reading.dimension == DIMENSION_VOLUME) {
        scale->dimension = DIMENSION_VOLUME_RATIO;
    } else {
        return refuse_mismatch(reckoner, span, reading.dimension, DIMENSION_CONCENTRATION);
    }
    return true;
}

/* ---- between mass, volume and moles ---- */

enum stuff { STUFF_NONE, STUFF_MASS, STUFF_VOLUME, STUFF_MOLES };

static enum stuff stuff_of(enum dimension dimension, bool *a_litre)
{
    *a_litre =
        dimension == DIMENSION_CONCENTRATION || dimension == DIMENSION_VOLUME_RATIO || dimension == DIMENSION_MOLARITY;
    switch (dimension) {
    case DIMENSION_MASS:
    case DIMENSION_CONCENTRATION:
        return STUFF_MASS;
    case DIMENSION_VOLUME:
    case DIMENSION_VOLUME_RATIO:
        return STUFF_VOLUME;
    case DIMENSION_SUBSTANCE:
    case DIMENSION_MOLARITY:
        return STUFF_MOLES;
    default:
        return STUFF_NONE;
    }
}

/* Grams in one mL or mol of the form; NAN when it has no such thing. */
static double grams_in(enum stuff stuff, const struct form *form)
{
    return stuff == STUFF_MASS ? 1 : stuff == STUFF_VOLUME ? form->density : form->molar_mass * 100 / form->percent;
}

static const char *const stuff_units[] = {"", "g", "mL", "mol"};

/* *value of dimension `from` in base units of `to`; the steps go to the working. */
static bool convert(struct reckoner *reckoner, const struct form *form, enum dimension from, enum dimension to,
                    double *value, struct buffer *working, struct span span)
{
    bool a_litre;
    bool to_a_litre;
    enum stuff first = stuff_of(from, &a_litre);
    enum stuff second = stuff_of(to, &to_a_litre);
    if (from == to) {
        return true;
    }
    double one = first == STUFF_NONE || form == NULL ? NAN : grams_in(first, form);
    double other = second == STUFF_NONE || form == NULL ? NAN : grams_in(second, form);
    if (a_litre != to_a_litre || isnan(one) || isnan(other)) {
        return refuse_mismatch(reckoner, span, from, to);
    }
    if (first != STUFF_MASS) {
        buffer_format(working, " x %s g/%s", number_print_significant(reckoner->arena, one, 5), stuff_units[first]);
    }
    if (second != STUFF_MASS) {
        buffer_format(working, " / %s g/%s", number_print_significant(reckoner->arena, other, 5), stuff_units[second]);
    }
    *value *= one / other;
    return true;
}

/* ---- temperatures ---- */

static bool convert_temperature(struct reckoner *reckoner, const struct sum_amount *amount, const struct scale *scale)
{
    struct answer *answer = reckoner->answer;
    const struct unit *unit = amount->unit;
    double written = amount->value / unit->factor + unit->zero_at;
    double ratio = unit->factor / scale->factor;
    struct buffer out;
    buffer_start(&out, reckoner->arena);
    buffer_format(&out, unit->zero_at == 0 ? "%s" : "(%s - %s)", answer_number(reckoner, written),
                  answer_number(reckoner, unit->zero_at));
    buffer_format(&out, ratio >= 1 ? " x %s" : " / %s", answer_number(reckoner, ratio >= 1 ? ratio : 1 / ratio));
    if (scale->zero_at != 0) {
        buffer_format(&out, " + %s", answer_number(reckoner, scale->zero_at));
    }
    double low = amount->value / scale->factor + scale->zero_at;
    double high = amount->high / scale->factor + scale->zero_at;
    const char *first = answer_number(reckoner, low);
    buffer_format(&out, " = %s", first);
    answer->working = buffer_finish(&out);
    bool range = amount->quantity->high != NULL;
    answer->text = range ? answer_format(reckoner, "%s to %s %s", first, answer_number(reckoner, high), scale->name)
                         : answer_format(reckoner, "%s %s", first, scale->name);
    answer_add(reckoner, low, scale->name, range ? "from" : "temperature");
    if (range) {
        answer_add(reckoner, high, scale->name, "to");
    }
    return true;
}

/* ---- one amount ---- */

/* Without a target: metric for what is not, and the other scale of temperature. */
static bool usual_target(struct reckoner *reckoner, const struct sum *sum, const struct sum_amount *amount,
                         struct scale *scale)
{
    enum dimension dimension = amount->dimension;
    const struct unit *unit = library_base_unit(reckoner->library, dimension);
    const struct unit *scales[2];
    if (unit == amount->unit && dimension == DIMENSION_TEMPERATURE &&
        library_usual_units(reckoner->library, DIMENSION_BIT(dimension), scales, 2) == 2) {
        unit = scales[scales[0] == unit];
    }
    bool counted = dimension == DIMENSION_SUBSTANCE || dimension == DIMENSION_PARTS || dimension == DIMENSION_COUNT ||
                   dimension == DIMENSION_MONEY;
    if (unit != NULL && !counted && (unit != amount->unit || sum->amount->more != NULL)) {
        *scale = (struct scale){dimension, unit->factor, unit->zero_at, answer_format(reckoner, "%.*s", TEXT_ARGUMENTS(unit->name)), unit};
        return true;
    }
    struct span end = {sum->span.end, sum->span.end};
    return sum_refuse(reckoner, DIAG_SYNTAX, end,
                      "name a unit or a form: 500 mL in US fl oz, 30 g borax (anhydrous) as decahydrate",
                      "the sum ends too early; what is to be reckoned is not said");
}

/* "3 x 28.35 + 70 x 0.0648"; in brackets when more steps follow. */
static void measures_working(struct reckoner *reckoner, const struct quantity *quantity, bool liquid, bool goes_on,
                             struct buffer *out)
{
    buffer_string(out, quantity->more != NULL && goes_on ? "(" : "");
    for (const struct quantity *measure = quantity; measure != NULL; measure = measure->more) {
        const struct unit *unit = library_unit(reckoner->library, measure->unit);
        struct unit_reading reading = library_read_unit(unit, reckoner->formula.measures, liquid);
        buffer_string(out, measure == quantity ? "" : " + ");
        buffer_format(out, "%s", number_print_significant(reckoner->arena, measure->value, 6));
        if (reading.factor != 1) {
            buffer_format(out, " x %s", number_print_significant(reckoner->arena, reading.factor, 6));
        }
    }
    buffer_string(out, quantity->more != NULL && goes_on ? ")" : "");
}

/* Behind a number; empty for what has none. */
static const char *base_unit_name(struct reckoner *reckoner, enum dimension dimension)
{
    const struct unit *unit = library_base_unit(reckoner->library, dimension);
    return unit == NULL ? "" : answer_format(reckoner, " %.*s", TEXT_ARGUMENTS(unit->name));
}

static void give(struct reckoner *reckoner, double low, double high, const struct scale *scale, const char *what)
{
    bool range = high > low;
    reckoner->answer->text = range ? answer_format(reckoner, "%s to %s %s", answer_number(reckoner, low),
                                                   answer_number(reckoner, high), scale->name)
                                   : answer_format(reckoner, "%s %s", answer_number(reckoner, low), scale->name);
    answer_add(reckoner, low, scale->name, range ? answer_format(reckoner, "%s, from", what) : what);
    if (range) {
        answer_add(reckoner, high, scale->name, answer_format(reckoner, "%s, to", what));
    }
}

/* g/L, mol/L or mL/L in per cent, and back: per cent w/v are g in 100 mL. */
static bool percent_from(struct reckoner *reckoner, const struct form *form, enum dimension dimension, double *value,
                         struct buffer *working, struct span span)
{
    if (dimension != DIMENSION_VOLUME_RATIO &&
        !convert(reckoner, form, dimension, DIMENSION_CONCENTRATION, value, working, span)) {
        return false;
    }
    *value /= 10;
    buffer_string(working, " / 10");
    answer_note(reckoner, dimension == DIMENSION_VOLUME_RATIO ? "per cent v/v: mL in 100 mL of solution"
                                                              : "per cent w/v: g in 100 mL of solution");
    return true;
}

static bool convert_amount(struct reckoner *reckoner, const struct sum *sum)
{
    const struct material *material = NULL;
    const struct form *form = NULL;
    if (sum->material != NULL && !sum_material(reckoner, sum->material, &material, &form)) {
        return false;
    }
    struct scale scale = {0};
    bool target = sum->target.kind != TARGET_NONE;
    bool liquid = material != NULL && (material->liquid || material->is_water);
    bool liquid_target = liquid || wants_liquid(reckoner, sum->amount);
    if (target && !read_target(reckoner, &sum->target, liquid_target, &scale)) {
        return false;
    }
    bool as_liquid = liquid || (target && material == NULL && scale.dimension == DIMENSION_VOLUME);
    struct sum_amount amount;
    if (!sum_amount(reckoner, sum->amount, as_liquid, &amount) ||
        (!target && !usual_target(reckoner, sum, &amount, &scale))) {
        return false;
    }
    if (amount.dimension == DIMENSION_TEMPERATURE && scale.dimension == DIMENSION_TEMPERATURE) {
        return convert_temperature(reckoner, &amount, &scale);
    }
    struct buffer working;
    buffer_start(&working, reckoner->arena);
    measures_working(reckoner, sum->amount, as_liquid, amount.dimension != scale.dimension || scale.factor != 1,
                     &working);
    if (amount.dimension != scale.dimension) {
        buffer_string(&working, base_unit_name(reckoner, amount.dimension));
    }
    double value = amount.value;
    if (scale.dimension == DIMENSION_NONE) {
        if (!percent_from(reckoner, form, amount.dimension, &value, &working, sum->target.span)) {
            return false;
        }
    } else if (!convert(reckoner, form, amount.dimension, scale.dimension, &value, &working, sum->target.span)) {
        return false;
    }
    if (scale.factor != 1) {
        buffer_format(&working, " / %s", number_print_significant(reckoner->arena, scale.factor, 6));
    }
    value /= scale.factor;
    buffer_format(&working, " = %s", answer_number(reckoner, value));
    reckoner->answer->working = buffer_finish(&working);
    give(reckoner, value, sum->amount->high == NULL ? value : value * amount.high / amount.value, &scale,
         material == NULL ? dimension_names[amount.dimension] : answer_material(reckoner, material, form));
    return true;
}

/* ---- an amount in another: a concentration ---- */

static bool convert_pair(struct reckoner *reckoner, const struct sum *sum)
{
    const struct material *material = NULL;
    const struct form *form = NULL;
    if (sum->material != NULL && !sum_material(reckoner, sum->material, &material, &form)) {
        return false;
    }
    struct sum_amount amount;
    struct sum_amount per;
    bool liquid = material != NULL && (material->liquid || material->is_water);
    if (!sum_amount(reckoner, sum->amount, liquid, &amount) || !sum_volume(reckoner, sum->per, true, &per)) {
        return false;
    }
    bool a_litre;
    enum stuff stuff = stuff_of(amount.dimension, &a_litre);
    bool both = per.dimension == amount.dimension; /* two masses or two volumes */
    struct span span = span_join(sum->amount->span, sum->per->span);
    if (sum->target.kind == TARGET_NONE && both && amount.dimension == DIMENSION_VOLUME) {
        return sum_ratio(reckoner, sum);
    }
    struct buffer working;
    buffer_start(&working, reckoner->arena);
    if (both && (sum->target.kind == TARGET_PERCENT || per.dimension == DIMENSION_MASS)) {
        struct scale scale = {.name = per.dimension == DIMENSION_MASS ? "% w/w" : "% v/v"};
        if (sum->target.kind == TARGET_UNIT) {
            return refuse_mismatch(reckoner, sum->target.span, per.dimension, DIMENSION_CONCENTRATION);
        }
        reckoner->answer->working = answer_format(
            reckoner, "100 x %s / %s = %s", answer_amount(reckoner, amount.value, amount.dimension),
            answer_amount(reckoner, per.value, per.dimension), answer_number(reckoner, 100 * amount.value / per.value));
        give(reckoner, 100 * amount.value / per.value, 0, &scale, "strength");
        return true;
    }
    if (stuff == STUFF_NONE || a_litre || per.dimension != DIMENSION_VOLUME) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, span, "write it as in: 40 grains per 20 imperial fl oz in g/L",
                          "%s in %s is no concentration", dimension_phrases[amount.dimension],
                          dimension_phrases[per.dimension]);
    }
    struct scale scale = {.dimension = stuff == STUFF_MASS     ? DIMENSION_CONCENTRATION
                                       : stuff == STUFF_VOLUME ? DIMENSION_VOLUME_RATIO
                                                               : DIMENSION_MOLARITY,
                          .factor = 1};
    enum dimension from = scale.dimension;
    scale.name = base_unit_name(reckoner, from) + 1;
    if (sum->target.kind != TARGET_NONE && !read_target(reckoner, &sum->target, false, &scale)) {
        return false;
    }
    double value = amount.value * 1000 / per.value;
    buffer_format(&working, "%s%s x 1000 / %s mL", answer_number(reckoner, amount.value),
                  base_unit_name(reckoner, amount.dimension), answer_number(reckoner, per.value));
    bool good = scale.dimension == DIMENSION_NONE
                    ? percent_from(reckoner, form, from, &value, &working, sum->target.span)
                    : convert(reckoner, form, from, scale.dimension, &value, &working, sum->target.span);
    if (!good) {
        return false;
    }
    if (scale.factor != 1) {
        buffer_format(&working, " / %s", number_print_significant(reckoner->arena, scale.factor, 6));
    }
    value /= scale.factor;
    buffer_format(&working, " = %s", answer_number(reckoner, value));
    reckoner->answer->working = buffer_finish(&working);
    give(reckoner, value, 0, &scale, material == NULL ? "concentration" : answer_material(reckoner, material, form));
    return true;
}

/* ---- a strength ---- */

static bool convert_strength(struct reckoner *reckoner, const struct sum *sum)
{
    const struct material *material = NULL;
    const struct form *form = NULL;
    double temperature;
    if (sum->material != NULL && !check_material(&reckoner->checker, sum->material, &material, &form, &temperature)) {
        return false;
    }
    const struct strength *strength = sum->weak.strength;
    struct scale scale = {0};
    if (!read_target(reckoner, &sum->target, false, &scale)) {
        return false;
    }
    struct buffer working;
    buffer_start(&working, reckoner->arena);
    struct form pure = {.percent = 100, .density = NAN, .molar_mass = NAN};
    double value = strength->percent * 10;
    bool by_volume = strength->basis == PERCENT_VOLUME_IN_VOLUME;
    if (material != NULL && material->liquid && !isnan(material->usual->density)) {
        struct liquid liquid;
        if (!sum_liquid(reckoner, &sum->weak, material, &liquid)) {
            return false;
        }
        by_volume = liquid.by_volume;
        value = liquid.grams * 1000;
        pure.molar_mass = material->usual->molar_mass;
        buffer_format(&working, isnan(liquid.density) ? "%s %% x 10" : "%s %% x 10 x %s g/mL",
                      answer_number(reckoner, liquid.percent),
                      number_print_significant(reckoner->arena, isnan(liquid.density) ? 0 : liquid.density, 5));
    } else {
        if (strength->basis == PERCENT_WEIGHT_IN_WEIGHT || !(strength->percent > 0) || strength->percent > 200) {
            return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, strength->span, "w/v counts g in 100 mL",
                              "this strength cannot be given by volume without a density");
        }
        if (material != NULL) {
            form = form == NULL ? material->usual : form;
            sum_note_assumed(reckoner, material);
            pure = *form;
        }
        buffer_format(&working, "%s %% x 10", answer_number(reckoner, strength->percent));
    }
    enum dimension from = by_volume ? DIMENSION_VOLUME_RATIO : DIMENSION_CONCENTRATION;
    if (scale.dimension == DIMENSION_NONE) {
        return refuse_mismatch(reckoner, sum->target.span, from, DIMENSION_NONE);
    }
    if (!convert(reckoner, &pure, from, scale.dimension, &value, &working, sum->target.span)) {
        return false;
    }
    if (scale.factor != 1) {
        buffer_format(&working, " / %s", number_print_significant(reckoner->arena, scale.factor, 6));
    }
    value /= scale.factor;
    buffer_format(&working, " = %s", answer_number(reckoner, value));
    reckoner->answer->working = buffer_finish(&working);
    give(reckoner, value, 0, &scale,
         material == NULL ? "concentration" : answer_format(reckoner, "%.*s", TEXT_ARGUMENTS(material->name)));
    return true;
}

bool sum_convert(struct reckoner *reckoner, const struct sum *sum)
{
    return sum->amount == NULL ? convert_strength(reckoner, sum)
           : sum->per != NULL  ? convert_pair(reckoner, sum)
                               : convert_amount(reckoner, sum);
}
