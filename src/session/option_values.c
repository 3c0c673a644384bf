/* The options of a session, out of their texts: numbers are read as the notation reads them. */
#include "session/reports.h"

#include "base/limits.h"
#include "formula/checking.h"
#include "store/reading.h"

#include <math.h>

/* The value of an option in base units, by measure_read_text (library/measure.h): "2 L", "0.1 g", "30 days", "2%", "22 °C".  NAN, with a
 * message that names the option, what was given and why it will not do, when it is not what is wanted or out of bounds. */
static double read_option(struct potash *potash, const char *option, const char *words, const struct measure_wanted *wanted,
                           struct measure_given *given)
{
    *given = measure_read_text(&potash->library, words, wanted);
    if (given->reason != NULL && potash->message == NULL) {
        session_unusable(potash, "%s: \"%.80s\": %s", option, words, given->reason);
    }
    return given->reason == NULL ? given->value : NAN;
}

/* ---- whose pints ---- */

/* The measures that a formula says it is in; a variant is in its parent's, unless it says others. */
static enum measures measures_of(struct potash *potash, const struct declaration *formula, int depth)
{
    for (const struct statement *statement = formula->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_MEASURES) {
            const struct words_statement *words = (const struct words_statement *)statement;
            return library_measures_named(names_folded(&potash->names, words->words->name)->spelling);
        }
    }
    const struct declaration *parent = depth == CHECK_DEEPEST ? NULL : session_parent(potash, formula);
    return parent == NULL ? MEASURES_UNSTATED : measures_of(potash, parent, depth + 1);
}

/* The formula says that it makes a weight, as a dry mix does; a variant makes what its parent makes, unless it says more. */
static bool weighs(struct potash *potash, const struct declaration *formula, int depth)
{
    for (const struct statement *statement = formula->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_MAKES) {
            const struct quantity *quantity = ((const struct quantity_statement *)statement)->quantity;
            const struct unit *unit = quantity->unit == NULL ? NULL : library_unit(&potash->library, quantity->unit);
            return unit != NULL && unit->dimension == DIMENSION_MASS && unit->of_liquids == NULL;
        }
    }
    const struct declaration *parent = depth == CHECK_DEEPEST ? NULL : session_parent(potash, formula);
    return parent != NULL && weighs(potash, parent, depth + 1);
}

/* They need not have been checked yet. */
static struct stated stated_of_all(struct potash *potash)
{
    struct stated all = {MEASURES_UNSTATED, false};
    bool first = true;
    const char *title = potash->options.title;
    for (const struct syntax_list *item = potash->files; item != NULL; item = item->next) {
        for (const struct declaration *at = item->file->declarations; at != NULL; at = at->next) {
            bool formula = at->kind == DECLARE_FORMULA || at->kind == DECLARE_VARIANT;
            if (!formula || (title == NULL ? !item->file->source->named : !text_is(at->title, title))) {
                continue;
            }
            enum measures one = measures_of(potash, at, 0);
            bool dry = weighs(potash, at, 0);
            all.measures = first || one == all.measures ? one : MEASURES_UNSTATED;
            all.dry = dry && (first || all.dry);
            first = false;
            if (all.measures == MEASURES_UNSTATED && !all.dry) {
                return all;
            }
        }
    }
    return all;
}

/* ---- amounts ---- */

enum {
    MOST_MADE = 100000000,    /* mL or g: more than any works mixes at once */
    LEAST_MADE_A_MILLION = 1000 /* millionths of a mL or g: less than a balance or a pipette can give */
};

double session_read_make(struct potash *potash, const char *words, struct stated stated, bool *mass)
{
    const struct measure_wanted wanted = {.dimensions = DIMENSION_BIT(DIMENSION_VOLUME) | DIMENSION_BIT(DIMENSION_MASS),
                                          .least = LEAST_MADE_A_MILLION / 1e6,
                                          .most = MOST_MADE,
                                          .liquid = !stated.dry,
                                          .measures = stated.measures,
                                          .example = "2 L, 500 mL or \"20 imperial fl oz\""};
    struct measure_given given;
    double amount = read_option(potash, "--make", words, &wanted, &given);
    *mass = given.dimension == DIMENSION_MASS;
    return amount;
}

static double read_working(struct potash *potash, const char *words)
{
    const struct measure_wanted wanted = {.dimensions = DIMENSION_BIT(DIMENSION_VOLUME),
                                          .least = LEAST_MADE_A_MILLION / 1e6,
                                          .most = MOST_MADE,
                                          .liquid = true,
                                          .measures = stated_of_all(potash).measures,
                                          .example = "300 mL"};
    struct measure_given given;
    return read_option(potash, "--working", words, &wanted, &given);
}

/* ---- the rest ---- */

static bool read_goods(struct potash *potash)
{
    potash->goods = (struct goods){.area = NAN};
    const char *words = potash->options.goods;
    if (words == NULL) {
        return true;
    }
    const struct measure_wanted wanted = {.dimensions = DIMENSION_BIT(DIMENSION_NONE), LIMITS_MEMBERS(LIMITS_GOODS), .whole = true, .example = "10"};
    struct measure_given given;
    const char *count = arena_copy(&potash->arena, words, strcspn(words, " "));
    if (isnan(read_option(potash, strstr(words, "sheet") == NULL ? "--rolls" : "--sheets", count, &wanted, &given))) {
        return false;
    }
    const struct quantity *quantity = measure_parse(&potash->library, words);
    struct formula stand_in = {.scratch = true}; /* nothing is said but by the message below */
    struct checker checker = store_checker(&potash->formulary, &stand_in);
    if (quantity == NULL || !goods_read(&checker, quantity, "", &potash->goods)) {
        session_unusable(potash, "\"%.80s\" is no count of rolls or sheets; write --rolls 10, or --sheets 12 8x10", words);
        return false;
    }
    return true;
}

enum { USUAL_HORIZON = 90 /* days */ };

static bool read_horizon(struct potash *potash)
{
    const char *words = potash->options.horizon;
    potash->horizon = USUAL_HORIZON;
    if (words == NULL) {
        return true;
    }
    const struct measure_wanted wanted = {
        .dimensions = DIMENSION_BIT(DIMENSION_TIME), .most = 100 * 365.2425 * 86400, .example = "\"30 days\" or \"6 months\""};
    struct measure_given given;
    double seconds = read_option(potash, "--ahead", words, &wanted, &given);
    const struct quantity *quantity = isnan(seconds) ? NULL : measure_parse(&potash->library, words);
    long today = potash->store.today;
    bool dated = quantity != NULL && today != CALENDAR_NO_DAY;
    potash->horizon = dated ? calendar_later(today, seconds, measure_months(&potash->library, quantity)) - today : 0;
    return !isnan(seconds);
}

/* Two numbers of an option; those of before where it was not given. */
static bool read_pair(struct potash *potash, const char *option, const char *words, const struct measure_wanted *wanted, double *first,
                      double *second)
{
    const char *reason = words == NULL ? NULL : measure_read_pair(&potash->library, words, wanted, first, second);
    if (reason != NULL) {
        session_unusable(potash, "%s: \"%.80s\": %s", option, words, reason);
    }
    return reason == NULL;
}

static bool read_count(struct potash *potash, const char *option, const char *words, const struct measure_wanted *wanted, double *count)
{
    struct measure_given given;
    *count = words == NULL ? 1 : read_option(potash, option, words, wanted, &given);
    return *count >= 1;
}

static bool read_labels(struct potash *potash)
{
    const struct potash_label_sheet *given = &potash->options.label_sheet;
    struct label_sheet *sheet = &potash->label_sheet;
    const unsigned length = DIMENSION_BIT(DIMENSION_LENGTH) | DIMENSION_BIT(DIMENSION_NONE);
    const struct measure_wanted size = {.dimensions = length, LIMITS_MEMBERS(LIMITS_LABEL), .example = "99.1x67.7"};
    const struct measure_wanted margin = {.dimensions = length, LIMITS_MEMBERS(LIMITS_MARGIN), .example = "4.7x13"};
    const struct measure_wanted grid = {.dimensions = DIMENSION_BIT(DIMENSION_NONE), LIMITS_MEMBERS(LIMITS_GRID), .whole = true, .example = "2x4"};
    const struct measure_wanted start = {.dimensions = DIMENSION_BIT(DIMENSION_NONE), LIMITS_MEMBERS(LIMITS_START), .whole = true, .example = "2"};
    const struct measure_wanted copies = {.dimensions = DIMENSION_BIT(DIMENSION_NONE), LIMITS_MEMBERS(LIMITS_COPIES), .whole = true, .example = "2"};
    return read_pair(potash, "--size", given->size, &size, &sheet->width, &sheet->height) &&
           read_pair(potash, "--grid", given->grid, &grid, &sheet->columns, &sheet->rows) &&
           read_pair(potash, "--margins", given->margins, &margin, &sheet->left, &sheet->top) &&
           read_pair(potash, "--pitch", given->pitch, &size, &sheet->across, &sheet->down) &&
           read_count(potash, "--start", given->start, &start, &sheet->start) &&
           read_count(potash, "--copies", given->copies, &copies, &sheet->copies);
}

static bool read_within(struct potash *potash)
{
    const struct measure_wanted wanted = {.dimensions = DIMENSION_BIT(DIMENSION_NONE), LIMITS_MEMBERS(LIMITS_WITHIN), .percent = true, .example = "2 %"};
    struct measure_given given;
    const char *words = potash->options.within;
    potash->within = words == NULL ? NAN : read_option(potash, "--within", words, &wanted, &given) / 100;
    return words == NULL || !isnan(potash->within);
}

static bool read_against(struct potash *potash)
{
    const struct measure_wanted wanted = {.dimensions = DIMENSION_BIT(DIMENSION_MONEY) | DIMENSION_BIT(DIMENSION_NONE),
                                          .most = 1e9,
                                          .example = "4.80, or \"4.80 GBP\""};
    const char *words = potash->options.against;
    return words == NULL || !isnan(read_option(potash, "--against", words, &wanted, &potash->against));
}

/* What an instrument shows: what the caller says goes before what the shelf says, and that before what is usual; NAN with a message. */
static double read_resolution(struct potash *potash, const char *option, const char *words, enum dimension dimension, double shelf,
                              double usual)
{
    if (words == NULL) {
        return shelf > 0 ? shelf : usual;
    }
    const struct measure_wanted wanted = {.dimensions = DIMENSION_BIT(dimension) | DIMENSION_BIT(DIMENSION_NONE),
                                          .least = 1e-6,
                                          .most = 1e6,
                                          .liquid = true,
                                          .example = dimension == DIMENSION_MASS ? "0.1 g" : "0.5 mL"};
    struct measure_given given;
    return read_option(potash, option, words, &wanted, &given);
}

/* What times are asked for; what is not is NAN. */
static void read_wanted(struct potash *potash, struct time_row *wanted)
{
    const struct potash_options *options = &potash->options;
    const struct {
        const char *option;
        const char *words;
        double *into;
        struct measure_wanted bounds;
    } asked[] = {
        {"--temperature", options->temperature, &wanted->temperature,
         {.dimensions = DIMENSION_BIT(DIMENSION_TEMPERATURE), LIMITS_MEMBERS(LIMITS_TEMPERATURE), .example = "\"22 °C\""}},
        {"--speed", options->speed, &wanted->speed,
         {.dimensions = DIMENSION_BIT(DIMENSION_NONE), LIMITS_MEMBERS(LIMITS_SPEED), .example = "200"}},
        {"--contrast", options->contrast, &wanted->contrast,
         {.dimensions = DIMENSION_BIT(DIMENSION_NONE), LIMITS_MEMBERS(LIMITS_CONTRAST), .example = "0.62"}},
        {"--grade", options->grade, &wanted->grade,
         {.dimensions = DIMENSION_BIT(DIMENSION_NONE), LIMITS_MEMBERS(LIMITS_GRADE), .example = "2"}}};
    wanted->stock_parts = wanted->water_parts = NAN;
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++) {
        struct measure_given given;
        *asked[i].into = asked[i].words == NULL ? NAN : read_option(potash, asked[i].option, asked[i].words, &asked[i].bounds, &given);
    }
}

static enum potash_status read_context(struct potash *potash)
{
    struct report_context *context = &potash->context;
    context->formulary = &potash->formulary;
    context->batches = &potash->batches;
    context->make = NAN;
    context->using_shelf = potash->options.using_shelf;
    context->scales.balance =
        read_resolution(potash, "--balance", potash->options.balance, DIMENSION_MASS, store_balance(&potash->store), 0.01);
    context->scales.graduate =
        read_resolution(potash, "--graduate", potash->options.graduate, DIMENSION_VOLUME, store_graduate(&potash->store), 0.1);
    context->store = &potash->store;
    const char *date = potash->options.date; /* the caller's may not live as long as the session */
    context->date = date == NULL ? NULL : arena_copy(&potash->arena, date, strlen(date));
    context->use_for = potash->options.use_for;
    const char *by = potash->options.price_by;
    context->price_by = PRICE_CHEAPEST;
    if (by != NULL && !price_by_read(by, &context->price_by)) {
        return session_unusable(potash, "--price-by takes cheapest, oldest or average, not \"%.80s\"", by);
    }
    context->working = NAN;
    read_wanted(potash, &context->wanted);
    if (potash->options.make != NULL) {
        context->make = session_read_make(potash, potash->options.make, stated_of_all(potash), &context->make_is_mass);
    }
    if (potash->options.working != NULL) {
        context->working = read_working(potash, potash->options.working);
    }
    bool good = potash->message == NULL && read_goods(potash) && read_horizon(potash) && read_labels(potash) &&
                read_within(potash) && read_against(potash);
    return good ? POTASH_GOOD : POTASH_UNUSABLE;
}

static enum potash_status read_silence(struct potash *potash)
{
    for (const char *const *id = potash->options.silence; id != NULL && *id != NULL; id++) {
        enum diagnostic_id found = diagnostic_find(text_from(*id));
        struct text rule = names_fold(&potash->arena, text_from(*id));
        if (found == DIAGNOSTIC_IDS && library_has_rule(&potash->library, rule)) {
            struct silenced_rule *silenced = ARENA_NEW(&potash->arena, struct silenced_rule);
            *silenced = (struct silenced_rule){potash->formulary.silenced_rules, rule, text_from(*id)};
            potash->formulary.silenced_rules = silenced;
            continue;
        }
        if (found == DIAGNOSTIC_IDS) {
            return session_unusable(potash, "--silence: \"%.80s\" is the id of no diagnostic; see: potash why", *id);
        }
        if (diagnostic_registry[found].severity == SEVERITY_ERROR) {
            return session_unusable(potash, "--silence: \"%s\" is an error, and an error cannot be silenced", *id);
        }
        potash->diagnostics.silenced[found] = true;
    }
    return POTASH_GOOD;
}

/* Whether the materials of the option `without` are known. */
static bool know_without(struct potash *potash)
{
    for (const char *const *name = potash->options.without; name != NULL && *name != NULL; name++) {
        if (session_find_material(potash, *name) == NULL) {
            return false;
        }
    }
    return true;
}

enum potash_status session_read_options(struct potash *potash)
{
    bool good = read_silence(potash) == POTASH_GOOD && read_context(potash) == POTASH_GOOD && know_without(potash);
    return good ? POTASH_GOOD : POTASH_UNUSABLE;
}
