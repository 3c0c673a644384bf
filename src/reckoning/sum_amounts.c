/* Amounts and materials of a sum: read as those of a formula are, so that the same things are said of them. */
#include "reckoning/sums.h"

#include "base/number.h"

#include <stdarg.h>
#include <stdio.h>

bool sum_refuse(struct reckoner *reckoner, enum diagnostic_id id, struct span span, const char *help,
                const char *format, ...)
{
    struct diagnostics *diagnostics = reckoner->checker.diagnostics;
    va_list arguments;
    va_start(arguments, format);
    struct diagnostic *diagnostic = diagnostics_add_list(diagnostics, id, span, format, arguments);
    va_end(arguments);
    if (help != NULL) {
        diagnostics_help(diagnostics, diagnostic, "%s", help);
    }
    return false;
}

/* A unit that may stand for several, taken as the one that is being tried. */
static void choose_unclear(struct reckoner *reckoner, struct quantity *quantity)
{
    for (struct quantity *measure = quantity; measure != NULL; measure = measure->more) {
        const struct unit *unit = measure->unit == NULL ? NULL : library_unit(reckoner->library, measure->unit);
        const struct word *meaning = unit == NULL ? NULL : unit->unclear;
        for (int i = 0; meaning != NULL && i < reckoner->unclear_choice; i++) {
            meaning = meaning->next;
        }
        if (meaning != NULL) {
            measure->unit = meaning->name;
        }
    }
}

/* A unit that is not metric: answers are given in it too. */
static void keep_own_unit(struct reckoner *reckoner, const struct quantity *quantity,
                          const struct unit_reading *reading)
{
    struct own_unit *own = reading->dimension == DIMENSION_MASS     ? &reckoner->own_mass
                           : reading->dimension == DIMENSION_VOLUME ? &reckoner->own_volume
                                                                    : NULL;
    if (own != NULL && !reading->unit->metric && own->factor == 0 && quantity->more == NULL && !reckoner->tried) {
        own->factor = reading->factor;
        own->name = arena_format(reckoner->arena, "%.*s", TEXT_ARGUMENTS(quantity->unit->spelling));
    }
}

static bool in_range(const struct sum_amount *amount)
{
    const double absolute_zero = -273.15; /* °C; SI Brochure, 9th ed. */
    if (amount->dimension == DIMENSION_TEMPERATURE) {
        return amount->value >= absolute_zero && amount->high >= absolute_zero && amount->value < 1e6;
    }
    return amount->value > 0 && amount->value < 1e12 && amount->high > 0 && amount->high < 1e12;
}

bool sum_amount(struct reckoner *reckoner, const struct quantity *quantity, bool liquid, struct sum_amount *amount)
{
    struct quantity *own = (struct quantity *)quantity; /* the sum's own, made by the parser */
    if (reckoner->unclear_choice >= 0) {
        choose_unclear(reckoner, own);
    }
    if (own->high != NULL && own->unit == NULL) { /* 68 to 72 °F */
        own->unit = own->high->unit;
    }
    struct measure reading = check_quantity(&reckoner->checker, quantity, liquid);
    if (reading.fault != MEASURE_GOOD) {
        return false;
    }
    if (reading.leftover != NULL) {
        struct text words = reading.leftover->spelling;
        struct span behind = {quantity->span.end - (uint32_t)words.length, quantity->span.end};
        return sum_refuse(reckoner, DIAG_SYNTAX, behind, NULL,
                          "\"%.*s\" is not understood here; nothing may follow the unit", TEXT_ARGUMENTS(words));
    }
    *amount = (struct sum_amount){reading.low, reading.high, reading.dimension, reading.unit, quantity};
    if (reading.dimension == DIMENSION_TEMPERATURE && quantity->more != NULL) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, quantity->span, NULL, "temperatures cannot be added up");
    }
    if (!in_range(amount)) {
        return sum_refuse(reckoner, DIAG_AMOUNT_OUT_OF_RANGE, quantity->span, NULL,
                          amount->dimension == DIMENSION_TEMPERATURE
                              ? "there is no such temperature"
                              : "an amount must be more than nothing, and not absurd");
    }
    struct unit_reading unit = library_read_unit(reading.unit, reckoner->formula.measures, liquid);
    keep_own_unit(reckoner, quantity, &unit);
    if (reading.approximate) {
        answer_note(reckoner, "%s %.*s is taken as %s mL, which is approximate", text_article(reading.unit->name), TEXT_ARGUMENTS(reading.unit->name),
                    number_print_significant(reckoner->arena, reading.unit->factor, 4));
    }
    return true;
}

bool sum_volume(struct reckoner *reckoner, const struct quantity *quantity, bool mass_too, struct sum_amount *amount)
{
    if (!sum_amount(reckoner, quantity, true, amount)) {
        return false;
    }
    if (amount->dimension == DIMENSION_VOLUME || (mass_too && amount->dimension == DIMENSION_MASS)) {
        return true;
    }
    return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, quantity->span, "write it as in: 300 mL",
                      "%s is expected here, and this is %s", dimension_phrases[DIMENSION_VOLUME],
                      dimension_phrases[amount->dimension]);
}

/* Whether another form of the material would weigh otherwise. */
static bool forms_differ(const struct material *material)
{
    for (size_t i = 0; i < material->form_count; i++) {
        const struct form *form = &material->forms[i];
        double equivalent = form_equivalent(material->usual, form, 1);
        if (!isnan(form->density) || fabs(equivalent - 1) > 1e-9) {
            return material->form_count > 1;
        }
    }
    return false;
}

void sum_note_assumed(struct reckoner *reckoner, const struct material *material)
{
    if (forms_differ(material)) {
        answer_note(reckoner, "the form of %.*s is not stated; %.*s is assumed", TEXT_ARGUMENTS(material->name),
                    TEXT_ARGUMENTS(material->usual->label));
    }
}

bool sum_material(struct reckoner *reckoner, const struct material_words *words, const struct material **material,
                  const struct form **form)
{
    double temperature = NAN;
    if (!check_material(&reckoner->checker, words, material, form, &temperature)) {
        return false;
    }
    if (*form == NULL) {
        *form = (*material)->usual;
        sum_note_assumed(reckoner, *material);
    }
    return true;
}
