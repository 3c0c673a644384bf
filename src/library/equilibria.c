/* Equilibria of ions: from their declarations to families of species. */
#include "library/entries.h"

#include "library/equilibria.h"
#include "library/measure.h"

#include <math.h>

/* A formula weighs the same on both sides but for whole molecules of water; atomic weights are good to this, g/mol. */
static const double BALANCE = 0.02;

int ion_charge(struct text formula)
{
    int charge = 0;
    for (size_t i = formula.length; i > 0 && (formula.at[i - 1] == '+' || formula.at[i - 1] == '-'); i--) {
        charge += formula.at[i - 1] == '+' ? 1 : -1;
    }
    return charge;
}

/* Its place among the species; their number when it is not there. */
static size_t find_species(const struct equilibria *equilibria, struct text formula)
{
    size_t place = 0;
    while (place < equilibria->species_count && !text_equal(equilibria->species[place].formula, formula)) {
        place++;
    }
    return place;
}

const struct species *equilibria_species(const struct equilibria *equilibria, struct text formula)
{
    size_t place = find_species(equilibria, formula);
    return place < equilibria->species_count ? &equilibria->species[place] : NULL;
}

double equilibria_interaction(const struct equilibria *equilibria, struct text one, struct text other)
{
    for (size_t i = 0; i < equilibria->interaction_count; i++) {
        const struct interaction *pair = &equilibria->interactions[i];
        if ((text_equal(pair->cation, one) && text_equal(pair->anion, other)) ||
            (text_equal(pair->cation, other) && text_equal(pair->anion, one))) {
            return pair->coefficient;
        }
    }
    return 0;
}

struct maker {
    struct library *library;
    struct equilibria *made;
};

/* A figure with a unit of `dimension`; NAN with a diagnostic when it has another. */
static double read_measure(struct library *library, const struct quantity *quantity, enum dimension dimension)
{
    double value = measure_read_only(library, quantity, dimension);
    if (isnan(value)) {
        diagnostics_help(library->diagnostics,
                         diagnostics_add(library->diagnostics, DIAG_UNIT_MISMATCH, quantity->span,
                                         "%s is expected here, such as %s", dimension_phrases[dimension],
                                         dimension == DIMENSION_ENTHALPY        ? "14.7 kJ/mol"
                                         : dimension == DIMENSION_HEAT_CAPACITY ? "-249 J/mol/K"
                                         : dimension == DIMENSION_TEMPERATURE   ? "25 °C"
                                                                                : "0.1 mol/L"),
                         "write it as in: pk HCO3- 10.33 at 25 °C gives CO3--");
    }
    return value;
}

static struct species *add_species(struct maker *maker, const struct equilibrium *family, struct text formula,
                                   struct span span)
{
    struct equilibria *made = maker->made;
    size_t place = find_species(made, formula);
    struct species *species = &made->species[place];
    if (place == made->species_count) {
        *species = (struct species){.formula = formula, .charge = ion_charge(formula), .family = family, .place = place};
        made->species_count++;
    } else if (species->family != family || family == NULL) {
        struct text owner = species->family == NULL ? TEXT("the inert ions") : species->family->name;
        diagnostics_help(maker->library->diagnostics,
                         diagnostics_add(maker->library->diagnostics, DIAG_DECLARED_TWICE, span,
                                         "%.*s belongs to %.*s already", TEXT_ARGUMENTS(formula),
                                         TEXT_ARGUMENTS(owner)),
                         "one declaration holds all steps of a family");
        return NULL;
    }
    return species;
}

/* Both sides hold the same atoms, water aside. */
static bool is_balanced(struct library *library, const struct pk_statement *pk, double released)
{
    double waters;
    size_t fault;
    double left = pk->acid->count * library_molar_mass(library, pk->acid->formula, &waters, &fault);
    double right = library_molar_mass(library, pk->gives, &waters, &fault);
    double hydrogen = library_molar_mass(library, TEXT("H"), &waters, &fault);
    double water = library_molar_mass(library, TEXT("H2O"), &waters, &fault);
    double difference = (left - right - released * hydrogen) / water;
    return fabs(difference - round(difference)) * water < BALANCE * fmax(1, pk->acid->count);
}

static bool check_step(struct library *library, const struct pk_statement *pk, double released)
{
    if (pk->acid->count < 1 || released < 0 || released > 12 || fabs(released - round(released)) > 1e-9) {
        struct diagnostic *diagnostic = diagnostics_add(
            library->diagnostics, DIAG_SYNTAX, pk->gives_span, "%.*s cannot lose hydrogen ions and become %.*s: the charges disagree",
            TEXT_ARGUMENTS(pk->acid->formula), TEXT_ARGUMENTS(pk->gives));
        diagnostics_help(library->diagnostics, diagnostic, "each hydrogen ion that is lost lowers the charge by one: HCO3- gives CO3--");
        return false;
    }
    size_t fault = 0;
    double waters;
    bool elements = !isnan(library_molar_mass(library, TEXT("H2O"), &waters, &fault)); /* a library may be without */
    struct text formulas[] = {pk->acid->formula, pk->gives};
    for (int i = 0; elements && i < 2; i++) {
        if (isnan(library_molar_mass(library, formulas[i], &waters, &fault))) {
            diagnostics_help(library->diagnostics,
                             diagnostics_add(library->diagnostics, DIAG_SYNTAX,
                                             i == 0 ? pk->acid->span : pk->gives_span, "%.*s is no formula of elements",
                                             TEXT_ARGUMENTS(formulas[i])),
                             "write the ion by its elements and its charge, such as HCO3-");
            return false;
        }
    }
    if (elements && !is_balanced(library, pk, released)) {
        struct diagnostic *diagnostic =
            diagnostics_add(library->diagnostics, DIAG_SYNTAX, pk->gives_span, "%.*s and %.*s do not hold the same atoms",
                            TEXT_ARGUMENTS(pk->acid->formula), TEXT_ARGUMENTS(pk->gives));
        diagnostics_help(library->diagnostics, diagnostic, "only hydrogen ions and water may be left out");
        return false;
    }
    return true;
}

static struct acid_step *find_step(struct equilibrium *family, const struct species *acid, const struct species *gives,
                                   double count)
{
    for (size_t i = 0; i < family->step_count; i++) {
        struct acid_step *step = &family->steps[i];
        if (step->acid == acid && step->gives == gives && fabs(step->count - count) < 1e-9) {
            return step;
        }
    }
    struct acid_step *step = &family->steps[family->step_count++];
    *step = (struct acid_step){.acid = acid, .gives = gives, .count = count, .enthalpy = NAN};
    return step;
}

static void add_step(struct maker *maker, struct equilibrium *family, const struct pk_statement *pk)
{
    struct library *library = maker->library;
    double released = pk->acid->count * ion_charge(pk->acid->formula) - ion_charge(pk->gives);
    if (!check_step(library, pk, released)) {
        return;
    }
    const struct species *acid = add_species(maker, family, pk->acid->formula, pk->acid->span);
    const struct species *gives = acid == NULL ? NULL : add_species(maker, family, pk->gives, pk->gives_span);
    if (gives == NULL || gives == acid) {
        return;
    }
    struct acid_step *step = find_step(family, acid, gives, pk->acid->count);
    step->released = released;
    double temperature = pk->temperature == NULL ? 25 : read_measure(library, pk->temperature, DIMENSION_TEMPERATURE);
    double strength = pk->strength == NULL ? 0 : read_measure(library, pk->strength, DIMENSION_MOLARITY);
    if (isnan(temperature) || isnan(strength)) {
        return;
    }
    if (step->value_count < MOST_PK_VALUES) {
        step->values[step->value_count++] = (struct pk_value){pk->pk, temperature, strength, pk};
    }
    if (pk->enthalpy != NULL) {
        step->enthalpy = 1000 * read_measure(library, pk->enthalpy, DIMENSION_ENTHALPY);
    }
    if (pk->heat_capacity != NULL) {
        step->heat_capacity = read_measure(library, pk->heat_capacity, DIMENSION_HEAT_CAPACITY);
    }
    if (!isnan(pk->within)) {
        step->within = fmax(step->within, pk->within);
    }
}

/* Counts what every species holds, from the first on along the steps. */
static void link_species(struct maker *maker, struct equilibrium *family)
{
    if (family->count == 0) {
        return;
    }
    struct species *all = maker->made->species;
    family->first->units = 1;
    family->first->linked = true;
    for (bool changed = true; changed;) {
        changed = false;
        for (size_t i = 0; i < family->step_count; i++) {
            const struct acid_step *step = &family->steps[i];
            struct species *acid = &all[step->acid->place];
            struct species *gives = &all[step->gives->place];
            if (acid->linked && !gives->linked) {
                gives->units = acid->units * step->count;
                gives->protons = acid->protons * step->count - step->released;
                gives->linked = changed = true;
            } else if (gives->linked && !acid->linked) {
                acid->units = gives->units / step->count;
                acid->protons = (gives->protons + step->released) / step->count;
                acid->linked = changed = true;
            }
        }
    }
    for (size_t i = 0; i < family->count; i++) {
        if (!family->first[i].linked) {
            diagnostics_help(maker->library->diagnostics,
                             diagnostics_add(maker->library->diagnostics, DIAG_SYNTAX, family->declaration->name.span,
                                             "no pk line leads from %.*s to %.*s",
                                             TEXT_ARGUMENTS(family->first->formula),
                                             TEXT_ARGUMENTS(family->first[i].formula)),
                             "write the step between, or declare the two apart");
        }
    }
}

static void add_interactions(struct maker *maker, const struct interaction_statement *statement)
{
    for (const struct ion *ion = statement->with; ion != NULL; ion = ion->next) {
        int charges = ion_charge(statement->formula) * ion_charge(ion->formula);
        if (charges >= 0) {
            diagnostics_help(maker->library->diagnostics,
                             diagnostics_add(maker->library->diagnostics, DIAG_SYNTAX, ion->span,
                                             "an interaction is between a positive and a negative ion"),
                             "write it as in: interaction CO3-- with Na+ -0.08");
            continue;
        }
        bool first_is_cation = ion_charge(statement->formula) > 0;
        maker->made->interactions[maker->made->interaction_count++] =
            (struct interaction){first_is_cation ? statement->formula : ion->formula,
                                 first_is_cation ? ion->formula : statement->formula, ion->count};
    }
}

static void make_family(struct maker *maker, struct equilibrium *family, const struct declaration *declaration)
{
    family->name = declaration->name.name->spelling;
    family->declaration = declaration;
    family->first = &maker->made->species[maker->made->species_count];
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        family->step_count += statement->kind == SAY_PK;
    }
    family->steps = ARENA_ARRAY(maker->library->arena, struct acid_step, family->step_count);
    family->step_count = 0;
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_PK) {
            add_step(maker, family, (const struct pk_statement *)statement);
        }
    }
    family->count = (size_t)(&maker->made->species[maker->made->species_count] - family->first);
    link_species(maker, family);
    for (size_t i = 0; i < family->count; i++) {
        if (text_is(family->first[i].formula, "H2O")) {
            family->is_water = true;
            maker->made->water = family;
        }
    }
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_INERT) {
            for (const struct ion *ion = ((const struct ions_statement *)statement)->ions; ion != NULL; ion = ion->next) {
                add_species(maker, NULL, ion->formula, ion->span);
            }
        } else if (statement->kind == SAY_INTERACTION) {
            add_interactions(maker, (const struct interaction_statement *)statement);
        }
    }
}

static void count_room(const struct declaration *declaration, struct equilibria *room)
{
    room->family_count++;
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        const struct ion *ions = NULL;
        size_t *count = &room->species_count;
        if (statement->kind == SAY_PK) {
            room->species_count += 2;
        } else if (statement->kind == SAY_INERT) {
            ions = ((const struct ions_statement *)statement)->ions;
        } else if (statement->kind == SAY_INTERACTION) {
            ions = ((const struct interaction_statement *)statement)->with;
            count = &room->interaction_count;
        }
        for (; ions != NULL; ions = ions->next) {
            ++*count;
        }
    }
}

const struct equilibria *library_equilibria(struct library *library)
{
    if (library->equilibria != NULL) {
        return library->equilibria;
    }
    struct equilibria room = {0};
    for (struct library_entry *entry = NULL; (entry = library_next_entry(library, DECLARE_EQUILIBRIUM, entry)) != NULL;) {
        const struct declaration *declaration = library_declaration(library, entry);
        if (declaration != NULL) {
            count_room(declaration, &room);
        }
    }
    struct maker maker = {library, ARENA_NEW(library->arena, struct equilibria)};
    maker.made->families = ARENA_ARRAY(library->arena, struct equilibrium, room.family_count + 1);
    maker.made->species = ARENA_ARRAY(library->arena, struct species, room.species_count + 1);
    maker.made->interactions = ARENA_ARRAY(library->arena, struct interaction, room.interaction_count + 1);
    for (struct library_entry *entry = NULL; (entry = library_next_entry(library, DECLARE_EQUILIBRIUM, entry)) != NULL;) {
        const struct declaration *declaration = library_declaration(library, entry);
        if (declaration != NULL && declaration->name.name != NULL) {
            make_family(&maker, &maker.made->families[maker.made->family_count++], declaration);
        }
    }
    library->equilibria = maker.made;
    return maker.made;
}
