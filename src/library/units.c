/* Units: from their declarations to factors. */
#include "library/entries.h"

#include <math.h>

const char *const dimension_names[DIMENSIONS] = {
    [DIMENSION_NONE] = "number",
    [DIMENSION_MASS] = "mass",
    [DIMENSION_VOLUME] = "volume",
    [DIMENSION_SUBSTANCE] = "substance",
    [DIMENSION_PARTS] = "parts",
    [DIMENSION_CONCENTRATION] = "concentration",
    [DIMENSION_MOLARITY] = "molarity",
    [DIMENSION_TEMPERATURE] = "temperature",
    [DIMENSION_TIME] = "time",
    [DIMENSION_LENGTH] = "length",
    [DIMENSION_AREA] = "area",
    [DIMENSION_COUNT] = "count",
    [DIMENSION_MONEY] = "money",
    [DIMENSION_DOSE] = "dose",
    [DIMENSION_VOLUME_RATIO] = "volume ratio",
    [DIMENSION_ENTHALPY] = "enthalpy",
    [DIMENSION_HEAT_CAPACITY] = "heat capacity",
};

const char *const dimension_phrases[DIMENSIONS] = {
    [DIMENSION_NONE] = "a plain number",
    [DIMENSION_MASS] = "a mass",
    [DIMENSION_VOLUME] = "a volume",
    [DIMENSION_SUBSTANCE] = "an amount of substance",
    [DIMENSION_PARTS] = "a number of parts",
    [DIMENSION_CONCENTRATION] = "a concentration",
    [DIMENSION_MOLARITY] = "a molarity",
    [DIMENSION_TEMPERATURE] = "a temperature",
    [DIMENSION_TIME] = "a time",
    [DIMENSION_LENGTH] = "a length",
    [DIMENSION_AREA] = "an area",
    [DIMENSION_COUNT] = "a count",
    [DIMENSION_MONEY] = "a sum of money",
    [DIMENSION_DOSE] = "a dose",
    [DIMENSION_VOLUME_RATIO] = "a volume ratio",
    [DIMENSION_ENTHALPY] = "an enthalpy",
    [DIMENSION_HEAT_CAPACITY] = "a heat capacity",
};

static enum dimension dimension_of(struct library *library, const struct word *word)
{
    struct text name = names_folded(library->names, word->name)->spelling;
    for (int dimension = 1; dimension < DIMENSIONS; dimension++) {
        if (text_is(name, dimension_names[dimension])) {
            return (enum dimension)dimension;
        }
    }
    struct diagnostic *diagnostic = diagnostics_add(library->diagnostics, DIAG_SYNTAX, word->span,
                                                    "no unit can measure \"%.*s\"", TEXT_ARGUMENTS(word->name->spelling));
    diagnostics_help(library->diagnostics, diagnostic, "mass, volume, substance, parts, time, temperature, length, area …");
    return DIMENSION_NONE;
}

enum measures library_measures_named(struct text folded)
{
    static const struct {
        const char *word;
        enum measures measures;
    } known[] = {{"us", MEASURES_US},          {"u.s", MEASURES_US},       {"american", MEASURES_US},     {"imperial", MEASURES_IMPERIAL},
                 {"imp", MEASURES_IMPERIAL}, {"uk", MEASURES_IMPERIAL}, {"british", MEASURES_IMPERIAL}, {"metric", MEASURES_METRIC}};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        if (text_is(folded, known[i].word)) {
            return known[i].measures;
        }
    }
    return MEASURES_UNSTATED;
}

/* "US fl oz", "imperial pint": the measures named on the spot; the rest of the name goes to *rest. */
static enum measures named_measures(struct text name, struct text *rest)
{
    const char *blank = name.length == 0 ? NULL : memchr(name.at, ' ', name.length);
    size_t length = blank == NULL ? name.length : (size_t)(blank - name.at);
    enum measures measures = blank == NULL ? MEASURES_UNSTATED : library_measures_named((struct text){name.at, length});
    *rest = blank == NULL ? (struct text){0} : (struct text){blank + 1, name.length - length - 1};
    return measures == MEASURES_METRIC ? MEASURES_UNSTATED : measures;
}

static const struct unit *find_unit(struct library *library, struct text key);

/* The unit of that name, with the measures that the name itself states worked in. */
static const struct unit *stated_unit(struct library *library, struct text key)
{
    struct text rest;
    enum measures measures = named_measures(key, &rest);
    const struct unit *plain = measures == MEASURES_UNSTATED ? NULL : find_unit(library, rest);
    if (plain == NULL) {
        return NULL;
    }
    if (plain->of_liquids != NULL) { /* "US oz" can only be the fluid one */
        plain = plain->of_liquids;
    }
    if (isnan(plain->us_factor)) {
        return NULL;
    }
    struct unit *unit = ARENA_NEW(library->arena, struct unit);
    *unit = *plain;
    unit->factor = measures == MEASURES_US ? plain->us_factor : plain->imperial_factor;
    unit->us_factor = unit->imperial_factor = NAN;
    return unit;
}

static const struct unit *find_unit(struct library *library, struct text key)
{
    struct library_entry *entry = library_find(library, DECLARE_UNIT, key);
    return entry == NULL ? stated_unit(library, key) : library_make_unit(library, entry);
}

static void set_value(struct library *library, struct unit *unit, const struct unit_value *value)
{
    const struct quantity *quantity = value->quantity;
    const struct unit *in = quantity->unit == NULL ? NULL : library_unit(library, quantity->unit);
    if (in == NULL || in == unit) {
        struct diagnostic *diagnostic = diagnostics_add(
            library->diagnostics, DIAG_UNIT_UNKNOWN, quantity->span, "the unit \"%.*s\" is not declared",
            TEXT_ARGUMENTS(quantity->unit == NULL ? (struct text){0} : quantity->unit->spelling));
        diagnostics_help(library->diagnostics, diagnostic, "say it in units that are known, as in: unit scoop is 6 g");
        return;
    }
    struct text which =
        value->measures == NULL ? (struct text){0} : names_folded(library->names, value->measures->name)->spelling;
    bool liquids = value->matter != NULL && text_is(names_folded(library->names, value->matter->name)->spelling, "liquids");
    if (liquids) {
        unit->of_liquids = in;
        return;
    }
    unit->dimension = in->dimension;
    if (text_is(which, "us")) {
        unit->us_factor = quantity->value * (isnan(in->us_factor) ? in->factor : in->us_factor);
    } else if (text_is(which, "imperial")) {
        unit->imperial_factor = quantity->value * (isnan(in->imperial_factor) ? in->factor : in->imperial_factor);
    } else {
        unit->factor = quantity->value * in->factor;
        if (!isnan(in->us_factor)) {
            unit->us_factor = quantity->value * in->us_factor;
            unit->imperial_factor = quantity->value * in->imperial_factor;
        }
    }
}

static bool is_power_of_ten(double factor)
{
    double power = log10(factor);
    return fabs(power - round(power)) < 1e-9; /* not when it depends on the measures: NAN */
}

const struct unit *library_make_unit(struct library *library, struct library_entry *entry)
{
    if (entry->made != NULL || entry->making) {
        return entry->made;
    }
    const struct declaration *declaration = library_declaration(library, entry);
    if (declaration == NULL || declaration->unit == NULL) {
        return NULL;
    }
    entry->making = true;
    struct unit *unit = ARENA_NEW(library->arena, struct unit);
    unit->name = declaration->name.name->spelling;
    unit->factor = unit->us_factor = unit->imperial_factor = NAN;
    unit->declaration = declaration;
    unit->source = declaration->source;
    const struct unit_words *words = declaration->unit;
    unit->approximate = words->about;
    unit->unclear = words->unclear;
    if (words->dimension != NULL) {
        unit->dimension = dimension_of(library, words->dimension);
        unit->factor = 1;
        unit->smallest = words->smallest;
    }
    for (const struct unit_value *value = words->values; value != NULL; value = value->next) {
        set_value(library, unit, value);
    }
    unit->zero_at = isnan(words->zero_at) ? 0 : words->zero_at;
    for (const struct statement *line = declaration->statements; line != NULL; line = line->next) {
        unit->mistaken = line->kind == SAY_MISTAKEN ? ((const struct words_statement *)line)->words : unit->mistaken;
    }
    unit->metric = is_power_of_ten(unit->factor);
    entry->made = unit;
    entry->making = false;
    return unit;
}

const struct unit *library_look_up_unit(struct library *library, struct name *name)
{
    name->meaning[NAME_UNIT] = find_unit(library, names_folded(library->names, name)->spelling);
    name->looked_up |= 1u << NAME_UNIT;
    return name->meaning[NAME_UNIT];
}

struct unit_reading library_read_unit(const struct unit *unit, enum measures measures, bool liquid)
{
    if (liquid && unit->of_liquids != NULL) {
        unit = unit->of_liquids;
    }
    struct unit_reading reading = {.answer = UNIT_GOOD,
                                   .dimension = unit->dimension,
                                   .factor = unit->factor,
                                   .zero_at = unit->zero_at,
                                   .approximate = unit->approximate,
                                   .unit = unit};
    if (unit->unclear != NULL) {
        reading.answer = UNIT_UNCLEAR;
    } else if (!isnan(unit->us_factor)) {
        reading.factor = measures == MEASURES_US ? unit->us_factor : unit->imperial_factor;
        if (measures != MEASURES_US && measures != MEASURES_IMPERIAL) {
            reading.answer = UNIT_NEEDS_MEASURES;
        }
    }
    return reading;
}

const struct unit *library_base_unit(struct library *library, enum dimension dimension)
{
    for (struct library_entry *entry = NULL; (entry = library_next_entry(library, DECLARE_UNIT, entry)) != NULL;) {
        const struct unit *unit = entry->offered ? library_make_unit(library, entry) : NULL;
        if (unit != NULL && unit->dimension == dimension && unit->declaration->unit->dimension != NULL) {
            return unit;
        }
    }
    return NULL;
}

struct text library_unit_plural(struct library *library, const struct unit *unit)
{
    enum { SHORTEST_WORD = 4 }; /* letters; what is shorter is a sign: g, mL, oz, min */
    struct text plural = text_from(arena_format(library->arena, "%.*ss", TEXT_ARGUMENTS(unit->name)));
    bool word = unit->name.length >= SHORTEST_WORD && memchr(unit->name.at, ' ', unit->name.length) == NULL;
    return word && library_unit(library, names_find(library->names, plural)) == unit ? plural : unit->name;
}

const struct unit *library_unit_of_weight(struct library *library, const struct unit *unit)
{
    for (struct library_entry *entry = NULL; (entry = library_next_entry(library, DECLARE_UNIT, entry)) != NULL;) {
        const struct unit *other = library_make_unit(library, entry);
        if (other != NULL && other->dimension == DIMENSION_MASS && library_unit_is_plain(other) && fabs(other->factor / unit->factor - 1) < 1e-9) {
            return other;
        }
    }
    return NULL;
}

size_t library_usual_units(struct library *library, unsigned dimensions, const struct unit **found, size_t most)
{
    size_t count = 0;
    for (struct library_entry *entry = NULL; count < most && (entry = library_next_entry(library, DECLARE_UNIT, entry)) != NULL;) {
        const struct unit *unit = entry->offered ? library_make_unit(library, entry) : NULL;
        if (unit != NULL && unit->declaration->unit->usual && (DIMENSION_BIT(unit->dimension) & dimensions) != 0) {
            found[count++] = unit;
        }
    }
    return count;
}
