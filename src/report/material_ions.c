/* What a material is in solution: its ions, and the constants of the acids and bases among them. */
#include "report/json_values.h"
#include "report/printing.h"

#include "base/chemical.h"
#include "base/number.h"
#include "library/equilibria.h"
#include "report/material_ions.h"

#include <math.h>

/* Calls `visit` for each published constant of the families that the material's ions belong to, each family once. */
static void each_constant(struct library *library, const struct material *material,
                          void (*visit)(void *context, const struct acid_step *step, const struct pk_value *value), void *context)
{
    const struct equilibria *equilibria = library_equilibria(library);
    bool known;
    const struct ion *ions = library_ions(material, &known);
    for (size_t f = 0; f < equilibria->family_count; f++) {
        const struct equilibrium *family = &equilibria->families[f];
        bool concerned = false;
        for (const struct ion *ion = ions; ion != NULL && !family->is_water; ion = ion->next) {
            const struct species *species = equilibria_species(equilibria, ion->formula);
            concerned = concerned || (species != NULL && species->family == family);
        }
        for (size_t s = 0; concerned && s < family->step_count; s++) {
            for (size_t v = 0; v < family->steps[s].value_count; v++) {
                visit(context, &family->steps[s], &family->steps[s].values[v]);
            }
        }
    }
}

static struct text ions_in_words(struct page *page, const struct ion *ions)
{
    struct buffer words;
    buffer_start(&words, page->arena);
    for (const struct ion *ion = ions; ion != NULL; ion = ion->next) {
        const char *count = ion->count == 1 ? "" : arena_format(page->arena, "%s ", number_print(page->arena, ion->count, 2));
        buffer_format(&words, "%s%s%.*s", words.length == 0 ? "" : ", ", count, TEXT_ARGUMENTS(chemical_print(words.arena, ion->formula)));
    }
    return text_from(buffer_finish(&words));
}

struct listing {
    struct page *page;
    struct page_list *list;
};

static void list_constant(void *context, const struct acid_step *step, const struct pk_value *value)
{
    struct listing *listing = context;
    struct page *page = listing->page;
    struct buffer line;
    buffer_start(&line, page->arena);
    if (step->count != 1) {
        buffer_format(&line, "%s ", number_print(page->arena, step->count, 1));
    }
    buffer_format(&line, "%.*s %s %.*s: pK %s", TEXT_ARGUMENTS(chemical_print(line.arena, step->acid->formula)), step->count == 1 ? "gives" : "give",
                  TEXT_ARGUMENTS(chemical_print(line.arena, step->gives->formula)),
                  number_print(page->arena, value->pk, 3));
    buffer_format(&line, " at %s °C", number_print(page->arena, value->temperature, 1));
    if (value->strength > 0) {
        buffer_format(&line, " in %s mol/L", number_print_significant(page->arena, value->strength, 3));
    }
    if (step->within > 0) {
        buffer_format(&line, ", within %s", number_print(page->arena, step->within, 2));
    }
    if (!isnan(step->enthalpy)) {
        buffer_format(&line, ", enthalpy %s kJ/mol", number_print(page->arena, step->enthalpy / 1000, 2));
    }
    buffer_format(&line, " [%.*s]", TEXT_ARGUMENTS(value->statement->source));
    page_list_item(listing->list, text_from(buffer_finish(&line)));
}

void material_add_ions(struct library *library, const struct material *material, struct page *page)
{
    bool known;
    const struct ion *ions = library_ions(material, &known);
    if (!known) {
        return;
    }
    page_add_heading(page, 2, TEXT("In solution"));
    struct listing listing = {page, page_add_list(page, PAGE_POINTS)};
    page_list_item(listing.list, ions == NULL ? TEXT("gives no ions")
                                              : page_format(page, "gives %.*s", TEXT_ARGUMENTS(ions_in_words(page, ions))));
    each_constant(library, material, list_constant, &listing);
}

static void constant_json(void *context, const struct acid_step *step, const struct pk_value *value)
{
    json_t *json = json_object();
    put_member(&json, "acid", text_json(step->acid->formula));
    put_member(&json, "count", json_real(step->count));
    put_member(&json, "gives", text_json(step->gives->formula));
    put_member(&json, "pK", json_real(value->pk));
    put_member(&json, "temperature_C", json_real(value->temperature));
    put_member(&json, "ionic_strength", json_real(value->strength));
    put_member(&json, "within", step->within > 0 ? json_real(step->within) : json_null());
    put_member(&json, "enthalpy_kJ_per_mol", number_or_null(step->enthalpy / 1000));
    put_member(&json, "heat_capacity_J_per_mol_K", step->heat_capacity == 0 ? json_null() : json_real(step->heat_capacity));
    put_member(&json, "source", text_or_null(value->statement->source));
    put_item(context, json);
}

json_t *material_constants_json(struct library *library, const struct material *material)
{
    library_equilibria(library); /* it may run out of memory: before there is anything to lose */
    json_t *list = json_array();
    each_constant(library, material, constant_json, &list);
    return list;
}
