/* Materials: from their declarations to forms, solubilities and typical ranges. */
#include "library/entries.h"
#include "library/groups.h"
#include "library/measure.h"

#include "base/number.h"
#include "library/equilibria.h"

#include <math.h>

static struct text folded(struct library *library, struct name *name)
{
    return names_folded(library->names, name)->spelling;
}

/* The name that a number prints, kept for the few numbers that forms have. */
static struct name *figure_name(struct library *library, double number, bool percent)
{
    unsigned place = number >= 0 && number < 1e6 ? (unsigned)(number * 8) + percent : 0;
    struct figure_name *kept = &library->figure_names[place % FIGURE_NAMES];
    if (kept->name == NULL || kept->number != number || kept->percent != percent) {
        const char *figure = number_print(library->arena, number, 6);
        const char *spelling = arena_format(library->arena, "%s%s", figure, percent ? " %" : "");
        *kept = (struct figure_name){number, percent, names_find(library->names, text_from(spelling))};
    }
    return kept->name;
}

/* A form written as a number has the name that the number prints: 28 % and 28.0 % are one. */
static struct name *form_key(struct library *library, const struct form_words *words)
{
    if (words->words != NULL && isnan(words->number)) {
        struct text text = folded(library, words->words);
        bool number = text.length > 0 && (text.at[0] == '.' || (text.at[0] >= '0' && text.at[0] <= '9'));
        size_t length = number ? strspn(text.at, "0123456789.") : 0;
        if (!number || length > text.length) {
            return names_folded(library->names, words->words);
        }
        /* "0.880", ".880", "28 %", "28 per cent" among other names of a form */
        struct text rest = text_trim((struct text){text.at + length, text.length - length});
        bool percent = text_is(rest, "%") || text_is(rest, "per cent") || text_is(rest, "percent");
        if (rest.length > 0 && !percent) {
            return names_folded(library->names, words->words);
        }
        return figure_name(library, number_read((struct text){text.at, length}), percent);
    }
    return figure_name(library, words->number, words->percent);
}

static bool form_has_name(const struct form *form, const struct name *key)
{
    for (size_t i = 0; i < form->other_count; i++) {
        if (form->others[i] == key) {
            return true;
        }
    }
    return form->name == key;
}

static const struct form *form_called(const struct material *material, const struct name *key)
{
    for (size_t i = 0; i < material->form_count; i++) {
        if (form_has_name(&material->forms[i], key)) {
            return &material->forms[i];
        }
    }
    return NULL;
}

/* A strength told by its specific gravity, as acids are: the form whose density is the nearest, if it is as near as print rounds. */
static const struct form *form_of_gravity(const struct material *material, double gravity)
{
    const struct form *nearest = NULL;
    double least = 0.0051;
    for (size_t i = 0; i < material->form_count; i++) {
        double off = fabs(material->forms[i].density - gravity);
        if (off < least) { /* never, where no density is known */
            least = off;
            nearest = &material->forms[i];
        }
    }
    return nearest;
}

/* What print makes of the words for forms, and what they stand for, as folded.  Common practice, no source. */
static const struct {
    const char *written;
    const char *meant;
} short_forms[] = {
    {"anh", "anhydrous"},     {"anhyd", "anhydrous"},     {"anhydr", "anhydrous"},  {"anhydrate", "anhydrous"}, {"sicc", "dry"},
    {"siccum", "dry"},        {"desic", "dry"},           {"desicc", "dry"},        {"exsicc", "dry"},          {"exsic", "dry"},
    {"des", "dry"},           {"dess", "dry"},            {"dried", "dry"},         {"calc", "calcined"},       {"crys", "crystals"},
    {"cryst", "crystals"},    {"crystal", "crystals"},    {"crystallized", "crystals"}, {"xtal", "crystals"},   {"xtals", "crystals"},
    {"mono", "monohydrate"},  {"monohyd", "monohydrate"}, {"penta", "pentahydrate"}, {"hepta", "heptahydrate"}, {"deca", "decahydrate"},
    {"glac", "glacial"},      {"conc", "concentrated"},
};

const struct form *library_form(struct library *library, const struct material *material, const struct form_words *words)
{
    const struct name *key = form_key(library, words);
    const struct form *form = form_called(material, key);
    for (size_t i = 0; form == NULL && i < sizeof short_forms / sizeof *short_forms; i++) {
        if (text_is(key->spelling, short_forms[i].written)) {
            form = form_called(material, names_find(library->names, text_from(short_forms[i].meant)));
        }
    }
    if (form == NULL && words->words == NULL && !words->percent) {
        form = form_of_gravity(material, words->number);
    }
    const char or[] = " or "; /* "anhydrous or dry" are one */
    for (size_t at = 1; form == NULL && at + sizeof or < key->spelling.length; at++) {
        if (memcmp(key->spelling.at + at, or, sizeof or - 1) == 0) {
            struct text behind = {key->spelling.at + at + sizeof or - 1, key->spelling.length - at - (sizeof or - 1)};
            const struct form *one = library_form_named(library, material, names_find(library->names, (struct text){key->spelling.at, at}));
            return one != NULL && one == library_form_named(library, material, names_find(library->names, behind)) ? one : NULL;
        }
    }
    return form;
}

const struct form *library_form_named(struct library *library, const struct material *material, struct name *name)
{
    struct form_words words = {.words = name, .number = NAN};
    return library_form(library, material, &words);
}

static void make_form(struct library *library, struct form *form, const struct form_statement *statement)
{
    form->statement = statement;
    form->percent = 100;
    form->density = NAN;
    form->molar_mass = NAN;
    form->usual = statement->usual;
    form->cas = statement->cas;
    form->source = statement->source;
    form->chemical = statement->chemical;
    if (statement->name != NULL) {
        form->name = form_key(library, statement->name);
        form->label = source_text(library->sources, statement->name->span);
        if (form->label.length > 1 && form->label.at[0] == '"') {
            form->label = (struct text){form->label.at + 1, form->label.length - 2};
        }
    }
    for (const struct form_list *other = statement->others; other != NULL; other = other->next) {
        form->other_count++;
    }
    form->others = ARENA_ARRAY(library->arena, struct name *, form->other_count);
    form->other_count = 0;
    for (const struct form_list *other = statement->others; other != NULL; other = other->next) {
        form->others[form->other_count++] = form_key(library, other->form);
    }
    if (statement->chemical.length > 0) {
        size_t fault = 0;
        form->molar_mass = library_molar_mass(library, statement->chemical, &form->waters, &fault);
        if (isnan(form->molar_mass)) {
            struct span at = {statement->chemical_span.begin + (uint32_t)fault, statement->chemical_span.end};
            diagnostics_help(
                library->diagnostics,
                diagnostics_add(
                    library->diagnostics, DIAG_SYNTAX, at,
                    "the formula %.*s cannot be read from here: an element, a count or a bracket is expected",
                    TEXT_ARGUMENTS(statement->chemical)),
                "write it as in: Na2SO3, or Na2SO3.7H2O with its water of crystallisation");
        }
    }
    if (statement->strength != NULL) {
        form->percent = statement->strength->percent;
    }
    if (statement->density != NULL && statement->density->unit != NULL) {
        form->density = measure_read_only(library, statement->density, DIMENSION_CONCENTRATION) / 1000; /* g/L -> g/mL */
        if (isnan(form->density)) {
            diagnostics_help(library->diagnostics,
                             diagnostics_add(library->diagnostics, DIAG_UNIT_MISMATCH, statement->density->span,
                                             "a density is a mass in a volume, such as 1.05 g/mL"),
                             "write it as in: density 1.05 g/mL");
        }
    }
}

/* A figure and its unit, in base units of `dimension`; NAN with a diagnostic when it is none. */
static double read_figure(struct library *library, const struct quantity *quantity, enum dimension dimension)
{
    double value = measure_read_only(library, quantity, dimension);
    if (isnan(value)) {
        diagnostics_help(library->diagnostics,
                         diagnostics_add(library->diagnostics, DIAG_UNIT_MISMATCH, quantity->span,
                                         "%s is expected here", dimension_phrases[dimension]),
                         "write it as in: dissolves 21 g per 100 mL at 20 °C");
    }
    return value;
}

static void make_solubility(struct library *library, const struct material *material, struct solubility *solubility,
                            const struct figure_statement *figure)
{
    solubility->source = figure->source;
    solubility->form = material->usual;
    if (figure->solvent != NULL) {
        solubility->solvent = figure->solvent->name->spelling;
    }
    if (figure->quantity == NULL) {
        solubility->freely = true;
        return;
    }
    if (figure->form != NULL) {
        solubility->form = library_form(library, material, figure->form);
        if (solubility->form == NULL) {
            diagnostics_help(library->diagnostics,
                             diagnostics_add(library->diagnostics, DIAG_FORM_UNKNOWN, figure->form->span,
                                             "this material has no such form"),
                             "give it a form line, or name one of those above");
            solubility->form = material->usual;
        }
    }
    double per = figure->per->value; /* mL, or g of water, which is the same within 0.2 % at 20 °C */
    solubility->grams = read_figure(library, figure->quantity, DIMENSION_MASS) / per * 100;
    solubility->temperature = read_figure(library, figure->temperature, DIMENSION_TEMPERATURE);
}

/* "developer stock" is the kind "developer" in stock strength. */
static void make_typical(struct library *library, struct typical_range *range, const struct figure_statement *figure)
{
    static const struct {
        const char *word;
        enum bath_strength strength;
    } strengths[] = {{" stock", STRENGTH_STOCK}, {" working", STRENGTH_WORKING}, {" replenisher", STRENGTH_REPLENISHER}};
    range->kind = folded(library, figure->word->name);
    for (size_t i = 0; i < sizeof strengths / sizeof *strengths; i++) {
        size_t length = strlen(strengths[i].word);
        if (range->kind.length > length &&
            memcmp(range->kind.at + range->kind.length - length, strengths[i].word, length) == 0) {
            range->strength = strengths[i].strength;
            range->kind.length -= length;
        }
    }
    struct measure measure = measure_read(library, figure->quantity, MEASURES_UNSTATED, false);
    if (measure.fault != MEASURE_GOOD || figure->quantity->high == NULL ||
        (measure.dimension != DIMENSION_CONCENTRATION && measure.dimension != DIMENSION_VOLUME_RATIO)) {
        diagnostics_help(library->diagnostics,
                         diagnostics_add(library->diagnostics, DIAG_UNIT_MISMATCH, figure->quantity->span,
                                         "a typical range is written as: developer 5 to 150 g/L"),
                         "write two figures and their unit: 5 to 150 g/L");
        return;
    }
    range->by_volume = measure.dimension == DIMENSION_VOLUME_RATIO;
    range->low = measure.low;
    range->high = measure.high;
    range->source = figure->source;
}

struct counts {
    size_t also, roles, forms, solubilities, typical;
};

static size_t count_words(const struct statement *statement)
{
    size_t count = 0;
    for (const struct word *word = ((const struct words_statement *)statement)->words; word != NULL; word = word->next) {
        count++;
    }
    return count;
}

static struct counts count_statements(const struct declaration *declaration)
{
    struct counts counts = {0};
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        counts.also += statement->kind == SAY_ALSO ? count_words(statement) : 0;
        counts.roles += statement->kind == SAY_ROLE ? count_words(statement) : 0;
        counts.forms += statement->kind == SAY_FORM;
        counts.solubilities += statement->kind == SAY_DISSOLVES;
        counts.typical += statement->kind == SAY_TYPICAL;
    }
    return counts;
}

static void make_forms(struct library *library, struct material *material, const struct declaration *declaration)
{
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_FORM) {
            struct form *form = &material->forms[material->form_count++];
            make_form(library, form, (const struct form_statement *)statement);
            material->liquid = material->liquid || !isnan(form->density);
            if (form->usual || material->usual == NULL) {
                material->usual = form;
            }
        }
    }
}

static void add_words(struct library *library, struct text *list, size_t *count, const struct statement *statement,
                      bool fold)
{
    for (const struct word *word = ((const struct words_statement *)statement)->words; word != NULL; word = word->next) {
        list[(*count)++] = fold ? folded(library, word->name) : word->name->spelling;
    }
}

/* A solid or a liquid as it is sold has no charge. */
static void check_charges(struct library *library, const struct ions_statement *statement)
{
    double charge = 0;
    for (const struct ion *ion = statement->ions; ion != NULL; ion = ion->next) {
        charge += ion->count * ion_charge(ion->formula);
    }
    if (fabs(charge) > 0.001) {
        struct diagnostic *diagnostic =
            diagnostics_add(library->diagnostics, DIAG_SYNTAX, statement->base.span,
                            "the charges of these ions add up to %+.3g; those of a material cancel", charge);
        diagnostics_help(library->diagnostics, diagnostic,
                         "count every ion, the hydrogen of acids too: sodium bisulfite gives Na+, H+, SO3--");
    }
}

static void make_properties(struct library *library, struct material *material, const struct declaration *declaration)
{
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        switch (statement->kind) {
        case SAY_ALSO:
            add_words(library, material->also, &material->also_count, statement, false);
            break;
        case SAY_ROLE:
            add_words(library, material->roles, &material->role_count, statement, true);
            break;
        case SAY_STOP:
            material->stop = ((const struct text_statement *)statement)->text;
            break;
        case SAY_IONS:
            check_charges(library, (const struct ions_statement *)statement);
            break;
        case SAY_DISSOLVES:
            make_solubility(library, material, &material->solubilities[material->solubility_count++],
                            (const struct figure_statement *)statement);
            break;
        case SAY_TYPICAL:
            make_typical(library, &material->typical[material->typical_count++],
                         (const struct figure_statement *)statement);
            break;
        default:
            break;
        }
    }
}

const struct material *library_make_material(struct library *library, struct library_entry *entry)
{
    if (entry->made != NULL || entry->making) {
        return entry->made;
    }
    const struct declaration *declaration = library_declaration(library, entry);
    if (declaration == NULL || declaration->name.name == NULL) {
        return NULL;
    }
    entry->making = true;
    struct counts counts = count_statements(declaration);
    struct material *material = ARENA_NEW(library->arena, struct material);
    material->name = declaration->name.name->spelling;
    material->declaration = declaration;
    material->entry = entry;
    material->number = entry->number;
    material->also = ARENA_ARRAY(library->arena, struct text, counts.also);
    material->roles = ARENA_ARRAY(library->arena, struct text, counts.roles);
    material->solubilities = ARENA_ARRAY(library->arena, struct solubility, counts.solubilities);
    material->typical = ARENA_ARRAY(library->arena, struct typical_range, counts.typical);
    material->forms = ARENA_ARRAY(library->arena, struct form, counts.forms == 0 ? 1 : counts.forms);
    make_forms(library, material, declaration);
    if (counts.forms == 0) { /* a user's short declaration: one nameless form of which nothing is known */
        static const struct form_statement no_statement;
        make_form(library, &material->forms[0], &no_statement);
        material->form_count = 1;
        material->usual = &material->forms[0];
    }
    make_properties(library, material, declaration);
    for (size_t i = 0; i < material->role_count; i++) {
        material->is_water = material->is_water || text_is(material->roles[i], "water");
    }
    material->groups = groups_of_material(library, material);
    entry->made = material;
    entry->making = false;
    return material;
}
