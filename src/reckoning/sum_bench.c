/* Sums of the bench that lean on the chemistry: a replacement with an alkali, whether something dissolves, a time at another
 * temperature. */
#include "reckoning/sums.h"

#include "base/number.h"
#include "chemistry/solubility.h"
#include "chemistry/time_temperature.h"
#include "library/replacement.h"

#include <math.h>

double sum_grams(struct reckoner *reckoner, const struct quantity *quantity, const struct material *material,
                 const struct form *form)
{
    struct sum_amount amount;
    if (!sum_amount(reckoner, quantity, material->liquid, &amount)) {
        return NAN;
    }
    double factor = amount.dimension == DIMENSION_MASS        ? 1
                    : amount.dimension == DIMENSION_VOLUME    ? form->density
                    : amount.dimension == DIMENSION_SUBSTANCE ? form->molar_mass * 100 / form->percent
                                                              : NAN;
    if (isnan(factor)) {
        sum_refuse(reckoner, DIAG_UNIT_MISMATCH, quantity->span, "give a mass, or name a liquid form that has a density",
                   "%s of %s cannot be reckoned", dimension_phrases[amount.dimension],
                   answer_material(reckoner, material, form));
    }
    return amount.value * factor;
}

/* ---- a replacement with what makes up for its acid ---- */

static bool refuse_replacement(struct reckoner *reckoner, const struct sum *sum, const struct replacement *answer,
                               const struct material *from, const struct material *to, const struct material *with)
{
    switch (answer->fault) {
    case REPLACEMENT_NO_NEUTRALIZER:
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->with->span, "such as sodium hydroxide",
                          "%.*s is neither a hydroxide, ammonia nor a plain acid", TEXT_ARGUMENTS(with->name));
    case REPLACEMENT_NOT_NEEDED:
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->with->span, NULL, "%.*s takes the place of %.*s by itself",
                          TEXT_ARGUMENTS(to->name), TEXT_ARGUMENTS(from->name));
    case REPLACEMENT_WRONG_WAY:
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->with->span,
                          answer->acidity > 0 ? "a hydroxide is wanted with it" : "an acid is wanted with it",
                          "%.*s is more %s than %.*s already", TEXT_ARGUMENTS(to->name),
                          answer->acidity > 0 ? "acid" : "alkaline", TEXT_ARGUMENTS(from->name));
    case REPLACEMENT_NO_FORMULA:
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->span, NULL, "the library has no chemical formula to reckon by");
    case REPLACEMENT_NO_ION:
    case REPLACEMENT_GOOD:
    default:
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->other->span,
                          "equal moles are reckoned between materials of one acting ion, such as the borates",
                          "%.*s and %.*s have no acting ion in common", TEXT_ARGUMENTS(from->name), TEXT_ARGUMENTS(to->name));
    }
}

bool sum_replacement(struct reckoner *reckoner, const struct sum *sum)
{
    struct formed_material from;
    struct formed_material to;
    struct formed_material with;
    if (!sum_material(reckoner, sum->material, &from.material, &from.form) ||
        !sum_material(reckoner, sum->other, &to.material, &to.form) ||
        !sum_material(reckoner, sum->with, &with.material, &with.form)) {
        return false;
    }
    double grams = sum_grams(reckoner, sum->amount, from.material, from.form);
    if (isnan(grams)) {
        return false;
    }
    struct replacement answer = material_replacement(&from, grams, &to, &with);
    if (answer.fault != REPLACEMENT_GOOD) {
        return refuse_replacement(reckoner, sum, &answer, from.material, to.material, with.material);
    }
    const char *first = answer_material(reckoner, to.material, to.form);
    const char *second = answer_material(reckoner, with.material, with.form);
    reckoner->answer->text =
        answer_format(reckoner, "%s of %s and %s of %s", answer_own_amount(reckoner, answer.grams, DIMENSION_MASS), first,
                      answer_own_amount(reckoner, answer.companion_grams, DIMENSION_MASS), second);
    reckoner->answer->working =
        answer_format(reckoner, "%s mol of %.*s in both, and as much acid or alkali", answer_number(reckoner, answer.moles),
                      TEXT_ARGUMENTS(answer.ion));
    answer_add(reckoner, answer.grams, "g", first);
    answer_add(reckoner, answer.companion_grams, "g", second);
    return true;
}

/* ---- dissolving ---- */

bool sum_temperature(struct reckoner *reckoner, const struct quantity *quantity, double *celsius)
{
    struct sum_amount amount;
    if (!sum_amount(reckoner, quantity, true, &amount)) {
        return false;
    }
    *celsius = amount.value;
    return amount.dimension == DIMENSION_TEMPERATURE ||
           sum_refuse(reckoner, DIAG_UNIT_MISMATCH, quantity->span, "such as 20 °C", "this is no temperature");
}

bool sum_dissolve(struct reckoner *reckoner, const struct sum *sum)
{
    const struct material *material;
    const struct form *form;
    double celsius = 20;
    struct sum_amount water = {.value = NAN};
    if (!sum_material(reckoner, sum->material, &material, &form) ||
        (sum->temperature != NULL && !sum_temperature(reckoner, sum->temperature, &celsius)) ||
        (sum->per != NULL && !sum_volume(reckoner, sum->per, false, &water))) {
        return false;
    }
    double grams = sum_grams(reckoner, sum->amount, material, form);
    if (isnan(grams)) {
        return false;
    }
    const char *name = answer_material(reckoner, material, form);
    double needed = solubility_water_for(material, form, grams, celsius);
    if (isnan(needed)) {
        return sum_refuse(reckoner, DIAG_MATERIAL_UNKNOWN, sum->material->span, NULL,
                          "the library has no solubility of %.*s in water", TEXT_ARGUMENTS(material->name));
    }
    const char *amount = answer_own_amount(reckoner, grams, DIMENSION_MASS);
    const char *at = number_print(reckoner->arena, celsius, 1);
    const char *volume = answer_own_amount(reckoner, needed, DIMENSION_VOLUME);
    answer_add(reckoner, needed, "mL", "water");
    reckoner->answer->working = answer_format(reckoner, "%s g of it in 100 mL of water at %s °C",
                                              answer_number(reckoner, 100 * grams / needed), at);
    answer_note(reckoner, "an estimate from the solubility in pure water; other salts in it leave less");
    for (size_t i = 0; i < material->solubility_count; i++) {
        const struct solubility *figure = &material->solubilities[i];
        if (figure->freely && figure->solvent.length > 0) {
            answer_note(reckoner, "enough %.*s in the bath dissolves it whatever the water holds", TEXT_ARGUMENTS(figure->solvent));
        }
    }
    if (isnan(water.value) || needed <= 0) {
        reckoner->answer->text = answer_format(reckoner, "%s of %s takes at least %s of water at %s °C", amount, name, volume, at);
    } else if (needed <= water.value) {
        reckoner->answer->text = answer_format(reckoner, "yes: %s of %s takes at least %s of water at %s °C", amount, name, volume, at);
    } else {
        double warm = solubility_temperature_for(material, form, grams, water.value, celsius);
        const char *or_warm = isnan(warm) ? "" : answer_format(reckoner, ", or %s °C in this much", number_print(reckoner->arena, warm, 0));
        reckoner->answer->text = answer_format(reckoner, "no: %s of %s takes at least %s of water at %s °C%s", amount, name,
                                               volume, at, or_warm);
        if (!isnan(warm)) {
            answer_add(reckoner, warm, "°C", "to dissolve it in this much");
        }
    }
    return true;
}

/* ---- time and temperature ---- */

/* "7 min 12 s". */
static const char *clock_time(struct reckoner *reckoner, double seconds)
{
    long whole = lround(seconds);
    if (whole < 120) {
        return answer_format(reckoner, "%s s", answer_number(reckoner, seconds < 10 ? seconds : (double)whole));
    }
    return whole % 60 == 0 ? answer_format(reckoner, "%ld min", whole / 60)
                           : answer_format(reckoner, "%ld min %ld s", whole / 60, whole % 60);
}

bool sum_time(struct reckoner *reckoner, const struct sum *sum)
{
    struct sum_amount time;
    double from;
    double to;
    if (!sum_amount(reckoner, sum->amount, true, &time) || !sum_temperature(reckoner, sum->temperature, &from) ||
        !sum_temperature(reckoner, sum->to_temperature, &to)) {
        return false;
    }
    if (time.dimension != DIMENSION_TIME) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->amount->span, "such as 9 min", "this is no time");
    }
    if (isnan(sum->coefficient)) {
        return sum_refuse(reckoner, DIAG_SYNTAX, sum->span, "write it behind the sum: coefficient 1.9 per 10 °C",
                          "the temperature coefficient of the developer is not given");
    }
    double degrees = measure_read_degrees(reckoner->library, sum->per);
    if (isnan(degrees) || !(sum->coefficient > 0)) {
        return sum_refuse(reckoner, DIAG_AMOUNT_OUT_OF_RANGE, sum->per->span, "such as coefficient 1.9 per 10 °C",
                          "the coefficient is a factor above 0 for a step of temperature");
    }
    double seconds = time_at_temperature(time.value, from, to, sum->coefficient, degrees);
    reckoner->answer->text = answer_format(reckoner, "%s at %s °C", clock_time(reckoner, seconds), number_print(reckoner->arena, to, 1));
    reckoner->answer->working =
        answer_format(reckoner, "%s x %s ^ ((%s - %s) / %s)", clock_time(reckoner, time.value),
                      number_print(reckoner->arena, sum->coefficient, 3), number_print(reckoner->arena, from, 1),
                      number_print(reckoner->arena, to, 1), number_print(reckoner->arena, degrees, 2));
    answer_add(reckoner, seconds, "s", "time");
    if (!time_temperature_holds(from, to)) {
        answer_note(reckoner, "an extrapolation: outside %s to %s °C a coefficient is not known to hold; make a test",
                    number_print(reckoner->arena, time_temperature_lowest, 0),
                    number_print(reckoner->arena, time_temperature_highest, 0));
    }
    return true;
}
