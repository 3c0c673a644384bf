/* What the library knows of a material, for programs. */
#include "chemistry/reactions.h"
#include "report/material_ions.h"
#include "report/json_values.h"
#include "report/report.h"

static json_t *texts_json(const struct text *texts, size_t count)
{
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++) {
        put_item(&list, text_or_null(texts[i]));
    }
    return list;
}

static json_t *forms_json(const struct material *material)
{
    json_t *list = json_array();
    for (size_t i = 0; i < material->form_count; i++) {
        const struct form *form = &material->forms[i];
        put_item(
            &list, json_pack("{s:o, s:o, s:o, s:o, s:f, s:o, s:b}", "form", text_or_null(form->label), "formula",
                            text_or_null(form->chemical), "molar_mass", number_or_null(form->molar_mass),
                            "cas", text_or_null(form->cas), "percent_w_w", form->percent, "density_g_per_mL",
                            number_or_null(form->density), "usual", form == material->usual));
    }
    return list;
}

static json_t *solubilities_json(const struct material *material)
{
    json_t *list = json_array();
    for (size_t i = 0; i < material->solubility_count; i++) {
        const struct solubility *figure = &material->solubilities[i];
        struct text form = figure->form == NULL ? (struct text){0} : figure->form->label;
        put_item(
            &list, json_pack("{s:o, s:o, s:o, s:o, s:b, s:o}", "g_per_100_mL",
                            figure->freely ? json_null() : number_or_null(figure->grams), "form", text_or_null(form),
                            "temperature_C", figure->freely ? json_null() : number_or_null(figure->temperature), "solvent",
                            text_json(figure->solvent.length > 0 ? figure->solvent : TEXT("water")), "freely", figure->freely,
                            "source", text_or_null(figure->source)));
    }
    return list;
}

static json_t *typical_json(const struct material *material)
{
    static const char *const strengths[] = {NULL, "stock", "working", "replenisher"};
    json_t *list = json_array();
    for (size_t i = 0; i < material->typical_count; i++) {
        const struct typical_range *range = &material->typical[i];
        put_item(&list, json_pack("{s:o, s:s?, s:f, s:f, s:s, s:o}", "kind", text_json(range->kind), "strength",
                                  strengths[range->strength], "low", range->low, "high", range->high, "unit",
                                  range->by_volume ? "mL/L" : "g/L", "source", text_or_null(range->source)));
    }
    return list;
}

/* The lists that its statements fill. */
struct statement_lists {
    json_t *ions, *cautions, *mistaken, *store, *sources;
};

static void add_statement(struct statement_lists *lists, const struct statement *statement)
{
    const struct text_statement *text = (const struct text_statement *)statement;
    switch (statement->kind) {
    case SAY_IONS:
        for (const struct ion *ion = ((const struct ions_statement *)statement)->ions; ion != NULL; ion = ion->next) {
            put_item(&lists->ions, json_pack("{s:o, s:f}", "ion", text_json(ion->formula), "count", ion->count));
        }
        break;
    case SAY_CAUTION:
        put_item(&lists->cautions, text_json(text->text));
        break;
    case SAY_MISTAKEN:
        for (const struct word *word = ((const struct words_statement *)statement)->words; word != NULL; word = word->next) {
            put_item(&lists->mistaken, text_json(word->name->spelling));
        }
        break;
    case SAY_STORE:
        put_item(&lists->store, text_json(text->text));
        break;
    case SAY_SOURCE:
        put_item(&lists->sources, text_json(text->text));
        break;
    default:
        break;
    }
}

json_t *report_material_json(struct library *library, const struct material *material)
{
    json_t *constants = material_constants_json(library, material);
    struct statement_lists lists = {json_array(), json_array(), json_array(), json_array(), json_array()};
    json_t *apart = json_array();
    for (const struct statement *statement = material->declaration->statements; statement != NULL;
         statement = statement->next) {
        add_statement(&lists, statement);
    }
    for (const struct meeting *meeting = meetings_of_material(library->arena, library, material); meeting != NULL;
         meeting = meeting->next) {
        put_item(&apart, json_pack("{s:o, s:o}", "from", text_json(meeting->other), "why", text_json(meeting->reaction->warn)));
    }
    return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "material", text_or_null(material->name),
                     "stop", text_or_null(material->stop),
                     "also", texts_json(material->also, material->also_count), "roles",
                     texts_json(material->roles, material->role_count), "forms", forms_json(material), "ions", lists.ions,
                     "constants", constants, "dissolves", solubilities_json(material), "typical", typical_json(material), "cautions", lists.cautions,
                     "keep_apart", apart, "mistaken_for", lists.mistaken, "store", lists.store, "sources",
                     lists.sources);
}
