/* The safety notes for programs: section 6 of the notation's contract, with what else was reckoned beside it. */
#include "report/json_values.h"
#include "report/safety.h"

static json_t *causes_json(const struct hazard_cause *causes)
{
    json_t *list = json_array();
    for (const struct hazard_cause *cause = causes; cause != NULL; cause = cause->next) {
        put_item(&list, json_pack("{s:o, s:f, s:o}", "material", text_json(cause->material), "percent", cause->percent, "basis",
                                  text_or_null(hazard_basis_words(cause->basis))));
    }
    return list;
}

static json_t *statements_json(const struct safety_statement *statements)
{
    json_t *list = json_array();
    for (const struct safety_statement *statement = statements; statement != NULL; statement = statement->next) {
        put_item(&list, json_pack("{s:o, s:o}", "code", text_json(statement->code), "text", text_json(statement->text)));
    }
    return list;
}

static json_t *unassessed_json(const struct hazard_cause *unassessed)
{
    json_t *list = json_array();
    for (const struct hazard_cause *cause = unassessed; cause != NULL; cause = cause->next) {
        put_item(&list, json_pack("{s:o, s:o}", "material", text_json(cause->material), "percent",
                                  number_or_null(cause->percent)));
    }
    return list;
}

static json_t *stops_json(const struct hazard_stop *stops)
{
    json_t *list = json_array();
    for (const struct hazard_stop *stop = stops; stop != NULL; stop = stop->next) {
        put_item(&list, json_pack("{s:o, s:o}", "material", text_json(stop->material), "text", text_json(stop->words)));
    }
    return list;
}

static json_t *contents_json(const struct mixture *mixture)
{
    json_t *list = json_array();
    for (const struct component *component = mixture == NULL ? NULL : mixture->components; component != NULL;
         component = component->next) {
        put_item(&list, json_pack("{s:o, s:f}", "material", text_json(component->material->name), "percent",
                                  component->percent));
    }
    return list;
}

/* K of the contract, into an object that may hold other members; what cannot be reckoned is null. */
static void put_safety(json_t **json, const struct mixture_safety *safety)
{
    json_t *classes = json_array();
    json_t *supplements = json_array();
    json_t *statements = json_array();
    json_t *pictograms = json_array();
    for (const struct hazard_result *result = safety->classes; result != NULL; result = result->next) {
        bool supplement = result->class->family == FAMILY_SUPPLEMENT; /* a statement, and no class */
        json_t *item = json_pack("{s:o, s:o, s:o}", "code", text_json(result->code), "rule", text_json(result->rule), "because",
                                 causes_json(result->because));
        if (!supplement) {
            put_member(&item, "hazard", text_json(result->hazard));
        }
        put_item(supplement ? &supplements : &classes, item);
        if (!result->omitted) {
            put_item(&statements, text_json(result->code));
        }
    }
    for (size_t i = 0; i < safety->pictogram_count; i++) {
        put_item(&pictograms, text_json(safety->pictograms[i].code));
    }
    put_member(json, "classes", classes);
    put_member(json, "supplements", supplements);
    put_member(json, "signal_word", text_or_null(safety->signal_word));
    put_member(json, "pictograms", pictograms);
    put_member(json, "statements", statements);
    put_member(json, "label", statements_json(safety->hazards));
    put_member(json, "precautions", statements_json(safety->precautions));
    put_member(json, "contents", contents_json(safety->mixture));
    put_member(json, "pH", number_or_null(safety->acidity.ph));
    put_member(json, "reserve_g_per_100_g", number_or_null(safety->acidity.reserve));
    put_member(json, "not_assessed", unassessed_json(safety->unassessed));
    put_member(json, "stop", stops_json(safety->stops));
    put_member(json, "unknown_toxicity_percent", json_real(safety->unknown_percent[ROUTE_ORAL]));
}

json_t *safety_json(const struct mixture_safety *safety)
{
    if (safety == NULL) {
        return json_null();
    }
    json_t *json = json_object();
    put_safety(&json, safety);
    return json;
}

json_t *report_safety_json(const struct report_context *context, const struct formula *formula)
{
    /* Before any JSON is built: memory of the arena that runs out leaves no values behind. */
    const struct solutions solutions = solutions_of_formula(context->formulary, formula);
    json_t *json = json_object();
    put_member(&json, "title", text_json(formula->title));
    put_member(&json, "stock", safety_json(solutions.whole));
    json_t *parts = json_array();
    const struct mixture_safety *const *safety = solutions.parts;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        json_t *name = part->name == NULL ? json_null() : text_json(part->name->spelling);
        put_item(&parts, json_pack("{s:o, s:o}", "name", name, "safety", safety_json(*safety++)));
    }
    put_member(&json, "parts", parts);
    json_t *uses = json_array();
    safety = solutions.uses;
    for (const struct use *use = formula->uses; use != NULL; use = use->next, safety++) {
        if (!report_wants_use(context, use)) {
            continue;
        }
        json_t *item = json_pack("{s:o}", "for", text_json(use->name));
        if (*safety != NULL) {
            put_safety(&item, *safety);
        }
        put_item(&uses, item);
    }
    put_member(&json, "uses", uses);
    return json;
}
