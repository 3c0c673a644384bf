/* The safety notes for programs: section 6 of the notation's contract, with what else was reckoned beside it. */
#include "report/json_values.h"
#include "report/safety.h"

static json_t *causes_json(const struct hazard_cause *causes)
{
    json_t *list = json_array();
    for (const struct hazard_cause *cause = causes; cause != NULL; cause = cause->next) {
        json_array_append_new(list, json_pack("{s:o, s:f}", "material", text_json(cause->material), "percent", cause->percent));
    }
    return list;
}

static json_t *statements_json(const struct safety_statement *statements)
{
    json_t *list = json_array();
    for (const struct safety_statement *statement = statements; statement != NULL; statement = statement->next) {
        json_array_append_new(list, json_pack("{s:o, s:o}", "code", text_json(statement->code), "text", text_json(statement->text)));
    }
    return list;
}

static json_t *contents_json(const struct mixture *mixture)
{
    json_t *list = json_array();
    for (const struct component *component = mixture == NULL ? NULL : mixture->components; component != NULL;
         component = component->next) {
        json_array_append_new(list, json_pack("{s:o, s:f}", "material", text_json(component->material->name), "percent",
                                              component->percent));
    }
    return list;
}

/* K of the contract, into an object that may hold other members; what cannot be reckoned is null. */
static void put_safety(json_t *object, const struct mixture_safety *safety)
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
            json_object_set_new(item, "hazard", text_json(result->hazard));
        }
        json_array_append_new(supplement ? supplements : classes, item);
        if (!result->omitted) {
            json_array_append_new(statements, text_json(result->code));
        }
    }
    for (size_t i = 0; i < safety->pictogram_count; i++) {
        json_array_append_new(pictograms, text_json(safety->pictograms[i].code));
    }
    json_object_set_new(object, "classes", classes);
    json_object_set_new(object, "supplements", supplements);
    json_object_set_new(object, "signal_word", text_or_null(safety->signal_word));
    json_object_set_new(object, "pictograms", pictograms);
    json_object_set_new(object, "statements", statements);
    json_object_set_new(object, "label", statements_json(safety->hazards));
    json_object_set_new(object, "precautions", statements_json(safety->precautions));
    json_object_set_new(object, "contents", contents_json(safety->mixture));
    json_object_set_new(object, "pH", number_or_null(safety->ph));
    json_object_set_new(object, "unknown_toxicity_percent", json_real(safety->unknown_percent[ROUTE_ORAL]));
}

static json_t *safety_or_null(const struct mixture_safety *safety)
{
    if (safety == NULL) {
        return json_null();
    }
    json_t *json = json_object();
    put_safety(json, safety);
    return json;
}

/* The classes of a formula's solutions. */
struct classed {
    const struct mixture_safety *whole;
    const struct mixture_safety **parts;
    const struct mixture_safety **uses; /* that the report is about */
};

/* All of it before any JSON is built: memory of the arena that runs out leaves no values behind. */
static struct classed class_all(const struct report_context *context, const struct formula *formula)
{
    struct formulary *formulary = context->formulary;
    struct arena *arena = formulary->arena;
    size_t uses = 0;
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        uses++;
    }
    struct classed classed = {.whole = safety_of_formula(arena, formulary, formula)};
    classed.parts = ARENA_ARRAY(arena, const struct mixture_safety *, formula->part_count + 1);
    classed.uses = ARENA_ARRAY(arena, const struct mixture_safety *, uses + 1);
    size_t i = 0;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        classed.parts[i++] = safety_of_part(arena, formulary, part);
    }
    i = 0;
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        if (report_wants_use(context, use)) {
            classed.uses[i++] = safety_of_use(arena, formulary, formula, use);
        }
    }
    return classed;
}

json_t *report_safety_json(const struct report_context *context, const struct formula *formula)
{
    const struct classed classed = class_all(context, formula);
    json_t *json = json_object();
    json_object_set_new(json, "title", text_json(formula->title));
    json_object_set_new(json, "stock", safety_or_null(classed.whole));
    json_t *parts = json_array();
    size_t i = 0;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        json_t *name = part->name == NULL ? json_null() : text_json(part->name->spelling);
        json_array_append_new(parts, json_pack("{s:o, s:o}", "name", name, "safety", safety_or_null(classed.parts[i++])));
    }
    json_object_set_new(json, "parts", parts);
    json_t *uses = json_array();
    i = 0;
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        if (!report_wants_use(context, use)) {
            continue;
        }
        const struct mixture_safety *safety = classed.uses[i++];
        json_t *item = json_pack("{s:o}", "for", text_json(use->name));
        if (safety != NULL) {
            put_safety(item, safety);
        }
        json_array_append_new(uses, item);
    }
    json_object_set_new(json, "uses", uses);
    return json;
}
