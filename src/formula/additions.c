/* Additions: a line of a formula to a material, its form and an amount. */
#include "formula/checking.h"

#include "base/slips.h"

enum {
    ABSURD_MASS = 100000,   /* g: more than anybody weighs out for a bath */
    ABSURD_VOLUME = 1000000 /* mL */
};

struct step *part_add_step(struct arena *arena, struct part *part, enum step_kind kind, struct span span)
{
    struct step *step = ARENA_NEW(arena, struct step);
    step->kind = kind;
    step->span = span;
    step->mass = step->volume = step->stock_percent = step->temperature = step->duration = NAN;
    step->high = 1;
    if (part->last == NULL) {
        part->steps = step;
    } else {
        part->last->next = step;
    }
    part->last = step;
    return step;
}

struct step *check_new_step(struct checker *checker, enum step_kind kind, const struct statement *statement)
{
    struct step *step = part_add_step(checker->forms, checker->part, kind, statement->span);
    step->statement = statement;
    return step;
}

/* ---- amounts ---- */

static void take_form(struct step *step, const struct form *form)
{
    step->form = form != NULL ? form : step->material->usual;
    step->form_assumed = form == NULL && step->material->form_count > 1;
}

/* Offers the units that are written so by mistake, and that such a material is measured in. */
static void offer_fitting_units(struct checker *checker, struct diagnostic *diagnostic, const struct measure *measure, enum dimension fitting)
{
    for (const struct word *meant = measure->unit->mistaken; meant != NULL; meant = meant->next) {
        const struct unit *unit = library_unit(checker->library, meant->name);
        if (unit != NULL && unit->dimension == fitting) {
            formula_offer_unit(checker->formulary, diagnostic, measure->unit_span, meant);
        }
    }
}

static void say_mismatch(struct checker *checker, const struct step *step, const struct measure *measure)
{
    bool liquid = step->material->liquid || step->material->is_water;
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_UNIT_MISMATCH, step->amount_span, "%.*s is a %s and cannot be measured as %s",
                  TEXT_ARGUMENTS(step->material->name), liquid ? "liquid" : "solid", dimension_phrases[measure->dimension]);
    if (liquid) {
        diagnostics_help(checker->diagnostics, diagnostic, "give a volume, such as 25 mL");
    } else if (measure->dimension != DIMENSION_VOLUME) {
        diagnostics_help(checker->diagnostics, diagnostic, "give a weight, such as 25 g");
    } else {
        diagnostics_help(checker->diagnostics, diagnostic, "give a weight, or say of which solution: %s of 10 %% stock",
                         measure->approximate ? "5 mL" : "10 mL");
    }
    offer_fitting_units(checker, diagnostic, measure, liquid ? DIMENSION_VOLUME : DIMENSION_MASS);
}

/* A density that was declared for a solid, g/mL; NAN when there is none. */
static double solid_density(struct checker *checker, const struct material *material)
{
    if (material->declaration == NULL) {
        return NAN;
    }
    for (const struct statement *statement = material->declaration->statements; statement != NULL;
         statement = statement->next) {
        const struct figure_statement *figure = (const struct figure_statement *)statement;
        double density = statement->kind == SAY_DENSITY ? measure_read_only(checker->library, figure->quantity, DIMENSION_CONCENTRATION) : NAN;
        if (!isnan(density)) {
            return density / 1000;
        }
    }
    return NAN;
}

/* A plain amount: weighed, or measured when the material is a liquid. */
static bool take_plain_amount(struct checker *checker, struct step *step, const struct measure *reading)
{
    const struct form *form = step->form;
    double density = form->density;
    switch (reading->dimension) {
    case DIMENSION_PARTS:
        step->from_parts = true;
        if (step->material->liquid || step->material->is_water) {
            step->volume = reading->low;
            step->mass = reading->low * density;
        } else {
            step->mass = reading->low;
        }
        break;
    case DIMENSION_MASS:
        step->mass = reading->low;
        step->volume = reading->low / density; /* NAN for solids */
        break;
    case DIMENSION_VOLUME:
        if (isnan(density) && !step->material->is_water) {
            density = solid_density(checker, step->material);
            if (isnan(density)) {
                say_mismatch(checker, step, reading);
                return false;
            }
            step->mass = reading->low * density;
            break;
        }
        step->volume = reading->low;
        step->mass = reading->low * density;
        break;
    case DIMENSION_SUBSTANCE:
        step->mass = reading->low * form->molar_mass / (form->percent / 100);
        if (isnan(step->mass)) {
            diagnostics_help(checker->diagnostics,
                             check_say(checker, DIAG_UNIT_MISMATCH, step->amount_span,
                                       "%.*s has no chemical formula to reckon moles by",
                                       TEXT_ARGUMENTS(step->material->name)),
                             "weigh it: 25 g");
            return false;
        }
        step->volume = step->mass / density;
        break;
    default:
        say_mismatch(checker, step, reading);
        return false;
    }
    if (step->material->is_water) {
        step->how = ADD_WATER;
        if (isnan(step->volume)) { /* water by weight */
            step->volume = step->mass;
        }
        step->mass = NAN;
    } else if (isnan(step->volume)) {
        step->how = ADD_BY_MASS;
    } else {
        step->how = ADD_BY_VOLUME;
    }
    return true;
}

/* Grams of the form in 1 mL of a stock of that strength. */
static double stock_grams_per_mL(const struct step *step, const struct strength *strength, double percent)
{
    bool liquid = !isnan(step->form->density);
    switch (strength->basis) {
    case PERCENT_WEIGHT_IN_WEIGHT: /* the density of a dilute solution is taken as 1 g/mL */
    case PERCENT_WEIGHT_IN_VOLUME:
        return percent / 100;
    case PERCENT_VOLUME_IN_VOLUME:
        return percent / 100 * step->form->density;
    case PERCENT_PLAIN:
    default:
        return liquid ? percent / 100 * step->form->density : percent / 100;
    }
}

static bool take_stock_amount(struct checker *checker, struct step *step, const struct amount_words *words,
                              const struct measure *reading)
{
    const struct strength *strength = words->strength;
    double percent = strength->percent;
    if (strength->saturated) {
        percent = material_saturated_percent(step->material, step->form);
        if (isnan(percent)) {
            struct diagnostic *diagnostic =
                check_say(checker, DIAG_STOCK_UNKNOWN, strength->span,
                          "a saturated stock cannot be reckoned: the solubility of %.*s is not known",
                          TEXT_ARGUMENTS(step->material->name));
            diagnostics_help(checker->diagnostics, diagnostic, "give the strength: of 10 %% stock");
            return false;
        }
    }
    if (!(percent > 0)) {
        diagnostics_help(
            checker->diagnostics,
            check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, strength->span, "a stock must have some strength"),
            "write its strength, as in: 0.25 g from 1 %% stock");
        return false;
    }
    if (percent > 100 && strength->basis != PERCENT_WEIGHT_IN_VOLUME && strength->basis != PERCENT_PLAIN) {
        diagnostics_help(
            checker->diagnostics,
            check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, strength->span, "more than 100 %% cannot be in 100"),
            "write a strength below 100 %%, or mean grams in 100 mL: %% w/v");
        return false;
    }
    double grams_per_mL = stock_grams_per_mL(step, strength, percent);
    if (isnan(grams_per_mL)) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_UNIT_MISMATCH, strength->span,
                                   "%% v/v needs a liquid, and %.*s is a solid", TEXT_ARGUMENTS(step->material->name)),
                         "write %% w/v: grams in 100 mL of solution");
        return false;
    }
    step->how = ADD_STOCK;
    step->stock_percent = percent;
    step->basis = strength->basis;
    bool volume = reading->dimension == DIMENSION_VOLUME || reading->dimension == DIMENSION_PARTS;
    step->from_parts = reading->dimension == DIMENSION_PARTS;
    if (words->kind == AMOUNT_OF_STOCK && volume) {
        step->volume = reading->low;
        step->mass = reading->low * grams_per_mL;
        return true;
    }
    double grams = reading->dimension == DIMENSION_MASS ? reading->low
                   : reading->dimension == DIMENSION_SUBSTANCE
                       ? reading->low * step->form->molar_mass / (step->form->percent / 100)
                       : NAN;
    if (words->kind == AMOUNT_OF_STOCK || isnan(grams)) {
        bool of = words->kind == AMOUNT_OF_STOCK;
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_UNIT_MISMATCH, step->amount_span, "%s",
                      of ? "a stock solution is measured by volume" : "\"from\" a stock gives the weight that is wanted");
        diagnostics_help(checker->diagnostics, diagnostic,
                         of ? "so much stock: 25 mL of 1 %% stock; so much substance: 0.25 g from 1 %% stock"
                            : "so much substance: 0.25 g from 1 %% stock; so much stock: 25 mL of 1 %% stock");
        return false;
    }
    step->mass = grams;
    step->volume = grams / grams_per_mL;
    return true;
}

static bool take_final_volume(struct checker *checker, struct step *step, const struct measure *reading)
{
    bool volume = reading->dimension == DIMENSION_VOLUME || reading->dimension == DIMENSION_PARTS;
    if (!volume) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_UNIT_MISMATCH, step->amount_span,
                                                  "the final volume is a volume, and this is %s",
                                                  dimension_phrases[reading->dimension]);
        diagnostics_help(checker->diagnostics, diagnostic, "write it as: water to make 1 L");
        return false;
    }
    if (!step->material->is_water && !step->material->liquid) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_UNIT_MISMATCH, step->amount_span,
                                   "%.*s is a solid; a bath is made up with water",
                                   TEXT_ARGUMENTS(step->material->name)),
                         "write it as: water to make 1 L");
        return false;
    }
    step->how = ADD_TO_MAKE;
    step->from_parts = reading->dimension == DIMENSION_PARTS;
    step->volume = reading->low;
    return true;
}

/* Zero, less, or more than anybody mixes. */
bool check_amount_in_range(struct checker *checker, const struct step *step, const struct measure *reading)
{
    bool absurd = (reading->dimension == DIMENSION_MASS && reading->low > ABSURD_MASS) ||
                  (reading->dimension == DIMENSION_VOLUME && reading->low > ABSURD_VOLUME);
    if (reading->low > 0 && reading->high >= reading->low && !absurd) {
        return true;
    }
    const char *what = reading->low == 0 ? "an amount of nothing"
                       : reading->low < 0 ? "an amount below nothing"
                       : absurd           ? "far more than a bath can hold"
                                          : "a range that ends below its beginning";
    struct diagnostic *diagnostic = check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, step->amount_span, "this is %s", what);
    diagnostics_help(checker->diagnostics, diagnostic,
                     reading->low < 0    ? "write how much is meant; a dash before a figure is read as a minus"
                     : reading->low == 0 ? "leave the line out, or write how much is meant"
                                         : "check the figure and its unit");
    return false;
}

static struct span quantity_span(const struct amount_words *words)
{
    return words->quantity != NULL ? words->quantity->span : words->span;
}

/* "500 cc (52 °C)": what stands in brackets is how warm it is. */
static bool is_warmth(struct checker *checker, const struct quantity *quantity)
{
    const struct unit *unit = quantity->unit == NULL ? NULL : library_unit(checker->library, quantity->unit);
    return unit != NULL && unit->dimension == DIMENSION_TEMPERATURE;
}

/* Whether another figure on the line, "75 gr (5 g)", is the same amount. */
static bool check_other_reading(struct checker *checker, const struct step *step, const struct measure *reading, bool liquid)
{
    const struct tails *tails = step->tails;
    bool in_others = tails != NULL && tails->other != NULL && reading->dimension != DIMENSION_TIME; /* that is told elsewhere */
    return !in_others || is_warmth(checker, tails->other) ||
           check_same_amount(checker, reading, step->amount_span, tails->other, tails->other_span, liquid);
}

/* What stands behind the unit and is no form: a remark, or a slip of the pen for a word of the notation. */
static void say_of_leftover(struct checker *checker, struct diagnostic *diagnostic, struct span amount,
                            struct text leftover)
{
    struct text word = names_fold(checker->arena, leftover);
    if (word.length > SLIPS_LONGEST || text_slips(word, TEXT("optional"), 4) > 4) {
        diagnostics_help(checker->diagnostics, diagnostic, "remarks stand in quotes: note \"%.*s\"",
                         TEXT_ARGUMENTS(leftover));
        return;
    }
    diagnostics_help(checker->diagnostics, diagnostic, "did you mean optional?");
    struct span span = {amount.end - (uint32_t)leftover.length, amount.end};
    diagnostics_fix_writing(checker->diagnostics, diagnostic, span, "optional");
}

static bool take_amount(struct checker *checker, struct step *step, const struct amount_words *words,
                        const struct form *written_form)
{
    step->amount_span = words->span;
    if (words->kind == AMOUNT_AS_NEEDED) {
        step->how = ADD_AS_NEEDED;
        return true;
    }
    bool liquid = step->material->liquid || step->material->is_water || words->kind == AMOUNT_OF_STOCK ||
                  words->kind == AMOUNT_TO_MAKE;
    struct measure reading = check_quantity(checker, words->quantity, liquid);
    if (reading.fault != MEASURE_GOOD) {
        return false;
    }
    if (reading.leftover != NULL) { /* "25 g anhydrous" */
        const struct form *form = library_form_named(checker->library, step->material, reading.leftover);
        if (form == NULL || written_form != NULL) {
            struct diagnostic *diagnostic = check_say(checker, DIAG_SYNTAX, words->span, "\"%.*s\" has no meaning behind the amount",
                                                      TEXT_ARGUMENTS(reading.leftover->spelling));
            say_of_leftover(checker, diagnostic, words->span, reading.leftover->spelling);
            return false;
        }
        step->form = form;
        step->form_assumed = false;
    }
    step->amount_span = quantity_span(words);
    if (!check_other_reading(checker, step, &reading, liquid)) {
        return false;
    }
    if (!check_amount_in_range(checker, step, &reading)) {
        return false;
    }
    step->high = reading.high / reading.low;
    step->approximate = reading.approximate;
    bool good = words->kind == AMOUNT_TO_MAKE  ? take_final_volume(checker, step, &reading)
                : words->kind == AMOUNT_PLAIN ? take_plain_amount(checker, step, &reading)
                                              : take_stock_amount(checker, step, words, &reading);
    step->amount_span = words->span;
    return good;
}

static void say_about_amount(struct checker *checker, struct step *step, const struct addition_statement *statement)
{
    if (step->form_assumed && step->how != ADD_AS_NEEDED) {
        check_say_form_unstated(checker, step, statement->material);
    }
    if (step->high > 1) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_RANGE_GIVEN, step->amount_span,
                                                  "a range is given; its first figure is reckoned with");
        diagnostics_help(checker->diagnostics, diagnostic, "the sheet prints the whole range");
    }
    if (step->approximate) {
        struct text written = source_text(checker->formulary->sources, quantity_span(statement->amount));
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_DROP_APPROXIMATE, step->amount_span, "\"%.*s\" is only about %.3g %s",
                      TEXT_ARGUMENTS(written), isnan(step->volume) ? step->mass : step->volume,
                      isnan(step->volume) ? "g" : "mL");
        diagnostics_help(checker->diagnostics, diagnostic, "drops, spoons and pinches are rough; measure it where it matters");
    }
}

void check_step_temperature(struct checker *checker, struct step *step, const struct tails *tails)
{
    const struct quantity *warmth = tails == NULL ? NULL : tails->temperature;
    if (warmth == NULL && tails != NULL && tails->other != NULL && is_warmth(checker, tails->other)) {
        warmth = tails->other;
    }
    if (warmth == NULL) {
        return;
    }
    struct measure reading =
        check_quantity_of(checker, warmth, DIMENSION_TEMPERATURE, "water 750 mL at 45 °C");
    if (reading.fault == MEASURE_GOOD) {
        step->temperature = reading.low;
    }
}

/* A solid in brackets with a per cent is a stock of it: "potassium bromide (10 % solution) 30 mL". */
static bool is_stock_in_brackets(struct checker *checker, const struct material_words *words, const struct amount_words *amount)
{
    if (words->form == NULL || !words->form->percent || amount == NULL || amount->kind != AMOUNT_PLAIN) {
        return false;
    }
    const struct material_reading *reading = library_material(checker->library, words->name);
    return reading != NULL && !reading->material->liquid && library_form(checker->library, reading->material, words->form) == NULL;
}

/* A liquid that is sold in the strength that is written is that form: "acetic acid 48 mL of 28 % solution". */
static bool is_form_as_stock(struct checker *checker, const struct material_words *words, const struct amount_words *amount,
                             struct form_words *form)
{
    const struct strength *strength = amount == NULL ? NULL : amount->strength;
    bool by_weight = strength != NULL && (strength->basis == PERCENT_PLAIN || strength->basis == PERCENT_WEIGHT_IN_WEIGHT);
    if (words->form != NULL || !by_weight || strength->saturated || amount->kind != AMOUNT_OF_STOCK) {
        return false;
    }
    *form = (struct form_words){.number = strength->percent, .percent = true, .span = strength->span};
    const struct material_reading *reading = library_material(checker->library, words->name);
    return reading != NULL && reading->material->liquid && library_form(checker->library, reading->material, form) != NULL;
}

/* The rest of a line whose material or form is not known: its figures may be wrong as well. */
static void check_rest_of_line(struct checker *checker, const struct addition_statement *statement,
                               const struct material *material, const struct amount_words *amount)
{
    struct step step = {.tails = statement->tails, .temperature = NAN};
    check_step_temperature(checker, &step, statement->tails);
    if (amount == NULL || amount->quantity == NULL) {
        return;
    }
    bool liquid = amount->kind != AMOUNT_PLAIN || (material != NULL && (material->liquid || material->is_water));
    step.amount_span = quantity_span(amount);
    struct measure reading = check_quantity_of_unknown(checker, amount->quantity, liquid);
    if (reading.fault == MEASURE_GOOD && check_other_reading(checker, &step, &reading, liquid)) {
        check_amount_in_range(checker, &step, &reading);
    }
}

static void add(struct checker *checker, const struct addition_statement *statement, const struct material_words *words,
                const struct amount_words *amount)
{
    const struct material *material = NULL;
    const struct form *form;
    double temperature = NAN;
    if (check_unit_first(checker, words, amount) || check_two_figures(checker, words)) {
        checker->line_lost = true;
        return;
    }
    if (!check_material(checker, words, &material, &form, &temperature)) {
        checker->line_lost = true;
        check_rest_of_line(checker, statement, material, amount);
        return;
    }
    bool pinch = statement->base.kind == SAY_PINCH;
    struct step *step = check_new_step(checker, pinch ? STEP_PINCH : STEP_ADDITION, &statement->base);
    step->material = material;
    step->tails = statement->tails;
    step->temperature = temperature;
    take_form(step, form);
    check_step_temperature(checker, step, statement->tails);
    if (pinch) {
        step->form_assumed = false;
        return;
    }
    if (!take_amount(checker, step, amount, form)) {
        checker->line_lost = checker->line_lost || material->is_water || material->liquid;
        step->how = ADD_AS_NEEDED; /* counts as nothing; the formula is faulty anyway */
        step->mass = step->volume = NAN;
        return;
    }
    say_about_amount(checker, step, statement);
}

/* "45 g (dry)": the form stands behind the amount. */
static bool is_formed_behind(const struct addition_statement *statement)
{
    return statement->tails != NULL && statement->tails->form != NULL && statement->material->form == NULL;
}

void check_addition(struct checker *checker, const struct addition_statement *statement)
{
    struct form_words form;
    const struct quantity *quantity = statement->amount == NULL ? NULL : statement->amount->quantity;
    const struct unit *unit = quantity == NULL || quantity->unit == NULL ? NULL : library_unit(checker->library, quantity->unit);
    bool unknown = library_material(checker->library, statement->material->name) == NULL ||
                   (quantity != NULL && quantity->unit != NULL && (unit == NULL || unit->unclear != NULL));
    if (unknown && formula_read_addition(checker, statement)) {
        return;
    }
    statement = check_as_printed(checker, statement);
    if (is_formed_behind(statement)) {
        struct material_words words = *statement->material;
        words.form = statement->tails->form;
        add(checker, statement, &words, statement->amount);
        return;
    }
    if (is_stock_in_brackets(checker, statement->material, statement->amount)) {
        struct material_words words = *statement->material;
        struct strength strength = {.percent = words.form->number, .span = words.form->span};
        struct amount_words amount = *statement->amount;
        words.form = NULL;
        amount.kind = AMOUNT_OF_STOCK;
        amount.strength = &strength;
        add(checker, statement, &words, &amount);
    } else if (is_form_as_stock(checker, statement->material, statement->amount, &form)) {
        struct material_words words = *statement->material;
        struct amount_words amount = *statement->amount;
        words.form = &form;
        amount.kind = AMOUNT_PLAIN;
        add(checker, statement, &words, &amount);
    } else {
        add(checker, statement, statement->material, statement->amount);
    }
}
