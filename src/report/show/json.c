/* The checked form for programs. */
#include "report/show/model.h"

#include "report/json_values.h"

#include "base/number.h"

#include <math.h>

static int line_of(const struct report_context *context, struct span span)
{
    return (int)source_place(context->formulary->sources, span.begin).line;
}

static const char *const ways[] = {"weigh", "measure", "stock", "water", "to make", "as needed", "solution"};
static const char *const bases[] = {[PERCENT_PLAIN] = "plain", [PERCENT_WEIGHT_IN_VOLUME] = "w/v", [PERCENT_WEIGHT_IN_WEIGHT] = "w/w",
                                    [PERCENT_VOLUME_IN_VOLUME] = "v/v"};

static json_t *addition_json(const struct report_context *context, const struct batch_step *at, int number)
{
    const struct step *step = at->step;
    bool named_form = step->form != NULL && step->form->label.length > 0;
    json_t *json = json_object();
    put_member(&json, "step", json_integer(number));
    put_member(&json, "material", step->material == NULL ? json_null() : text_json(step->material->name));
    put_member(&json, "form", named_form ? text_json(step->form->label) : json_null());
    put_member(&json, "as_written", text_json(source_text(context->formulary->sources, step->amount_span)));
    put_member(&json, "mass_g", number_or_null(step->mass));
    put_member(&json, "volume_mL", number_or_null(at->poured));
    put_member(&json, "stock_percent", number_or_null(step->stock_percent));
    put_member(&json, "g_per_L", number_or_null(at->grams_per_litre));
    put_member(&json, "mol_per_L", number_or_null(at->moles_per_litre));
    put_member(&json, "how", json_string(ways[step->how]));
    put_member(&json, "up_to_mL", number_or_null(step->how == ADD_TO_MAKE ? step->volume : NAN));
    put_member(&json, "to", number_or_null(step->high > 1 ? step->high * (isnan(at->poured) ? step->mass : at->poured) : NAN));
    put_member(&json, "stock_basis", isnan(step->stock_percent) ? json_null() : json_string(bases[step->basis]));
    put_member(&json, "temperature_C", number_or_null(step->temperature));
    put_member(&json, "form_assumed", json_boolean(step->form_assumed));
    put_member(&json, "approximate", json_boolean(step->approximate));
    put_member(&json, "optional", json_boolean(step->tails != NULL && step->tails->optional));
    put_member(&json, "note", step->tails == NULL ? json_null() : text_or_null(step->tails->note));
    put_member(&json, "line", json_integer(line_of(context, step->span)));
    if (step->how == ADD_SOLUTION && step->solution_of != NULL) {
        bool own = step->solution != NULL && step->solution->name != NULL;
        put_member(&json, "solution", own ? text_json(step->solution->name->spelling) : text_json(step->solution_of->title));
    }
    return json;
}

static json_t *keeps_json(const struct report_context *context, const struct keeping *keeps)
{
    json_t *list = json_array();
    for (const struct keeping *keeping = keeps; keeping != NULL; keeping = keeping->next) {
        json_t *json = json_object();
        put_member(&json, "time_s", json_real(keeping->duration));
        put_member(&json, "as_written", text_json(source_text(context->formulary->sources, keeping->amount_span)));
        put_member(&json, "in", text_or_null(keeping->in));
        put_item(&list, json);
    }
    return list;
}

/* More decimals of an estimate would be those of the arithmetic. */
static double rounded(double value)
{
    return round(value * 1e4) / 1e4;
}

/* `estimate`, and beside it why there is none. */
static void add_estimate(json_t **json, const struct estimate *estimate)
{
    if (estimate == NULL || !estimate->known) {
        put_member(json, "estimate", json_null());
        put_member(json, "estimate_missing", estimate == NULL ? json_null() : text_json(estimate->reason));
        return;
    }
    json_t *cautions = json_array();
    for (const struct estimate_caution *caution = estimate->cautions; caution != NULL; caution = caution->next) {
        put_item(&cautions, text_json(caution->text));
    }
    put_member(
        json, "estimate",
        json_pack("{s:f, s:f, s:f, s:f, s:f, s:f, s:o}", "pH", rounded(estimate->pH), "ionic_strength",
                  rounded(estimate->ionic_strength), "temperature_C", estimate->temperature, "within", rounded(estimate->reach),
                  "total_ions", rounded(estimate->total_ions), "buffer_capacity", rounded(estimate->buffer_capacity), "cautions",
                  cautions));
    put_member(json, "estimate_missing", json_null());
}

static json_t *notes_json(const struct remark *notes)
{
    json_t *list = json_array();
    for (; notes != NULL; notes = notes->next) {
        put_item(&list, text_json(notes->text));
    }
    return list;
}

/* A line of the order of mixing: an addition by its number, or what is done between two. */
static json_t *step_json(const struct report_context *context, const struct step *step, int addition)
{
    static const char *const kinds[] = {"add", "pinch", "cool", "warm", "stand", "filter", "do"};
    bool pinch = step->kind == STEP_PINCH && step->material != NULL;
    json_t *json = json_object();
    put_member(&json, "do", json_string(kinds[step->kind]));
    put_member(&json, "addition", step_is_addition(step) ? json_integer(addition) : json_null());
    put_member(&json, "material", pinch ? text_json(step->material->name) : json_null());
    put_member(&json, "temperature_C", number_or_null(step_is_addition(step) ? NAN : step->temperature));
    put_member(&json, "time_s", number_or_null(step->duration));
    put_member(&json, "words", step->kind == STEP_DO ? text_json(step->text) : json_null());
    put_member(&json, "line", json_integer(line_of(context, step->span)));
    return json;
}

/* `estimate` is NULL where nothing was reckoned. */
static json_t *part_json(const struct report_context *context, const struct batch_part *batch, const struct estimate *estimate)
{
    const struct part *part = batch->part;
    json_t *additions = json_array();
    json_t *steps = json_array();
    int number = 0;
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct step *step = batch->steps[i].step;
        if (step_is_addition(step)) {
            put_item(&additions, addition_json(context, &batch->steps[i], ++number));
        }
        put_item(&steps, step_json(context, step, number));
    }
    json_t *json = json_object();
    put_member(&json, "name", part->name == NULL ? json_null() : text_json(part->name->spelling));
    put_member(&json, "makes_mL", number_or_null(part->makes));
    if (!isnan(part->makes_mass)) {
        put_member(&json, "makes_g", number_or_null(part->makes_mass));
    }
    put_member(&json, "makes_assumed", json_boolean(part->makes_assumed));
    put_member(&json, "additions", additions);
    put_member(&json, "steps", steps);
    put_member(&json, "notes", notes_json(part->notes));
    put_member(&json, "keeps", keeps_json(context, part->keeps));
    add_estimate(&json, estimate);
    return json;
}

static json_t *mix_json(const struct use *use)
{
    if (use->mix == NULL) {
        return json_null();
    }
    json_t *list = json_array();
    for (const struct mix_share *share = use->mix; share != NULL; share = share->next) {
        struct text name = share->part != NULL && share->part->name != NULL ? share->part->name->spelling
                           : share->material != NULL                       ? share->material->name
                                                                           : TEXT("stock");
        json_t *json = json_object();
        put_member(&json, "part", text_json(name));
        put_member(&json, "parts", json_real(share->amount));
        put_item(&list, json);
    }
    return list;
}

static json_t *contents_json(const struct content *contents)
{
    json_t *list = json_array();
    for (const struct content *content = contents; content != NULL; content = content->next) {
        double moles = content->grams * content->form->percent / 100 / content->form->molar_mass;
        json_t *json = json_object();
        put_member(&json, "material", text_json(content->material->name));
        put_member(&json, "form", text_or_null(content->form->label));
        put_member(&json, "g_per_L", number_or_null(content->grams));
        put_member(&json, "mol_per_L", number_or_null(moles));
        put_item(&list, json);
    }
    return list;
}

static json_t *time_json(const double time[2])
{
    return isnan(time[0]) ? json_null() : json_pack("[f, f]", time[0], time[1]);
}

static json_t *times_json(const struct use *use)
{
    json_t *list = json_array();
    for (const struct time_row *row = use->times; row != NULL; row = row->next) {
        put_item(&list, json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "time_s", time_json(row->time), "temperature_C",
                                  number_or_null(row->temperature), "speed", number_or_null(row->speed), "contrast",
                                  number_or_null(row->contrast), "grade", number_or_null(row->grade), "stock_parts",
                                  number_or_null(row->stock_parts), "water_parts", number_or_null(row->water_parts)));
    }
    return list;
}

/* The baths of parts that follow each other; null of any other use. */
static json_t *pours_json(const struct use *use)
{
    if (use->pours == NULL) {
        return json_null();
    }
    json_t *list = json_array();
    for (const struct pour *pour = use->pours; pour != NULL; pour = pour->next) {
        put_item(&list, json_pack("{s:o, s:o, s:o}", "part", text_or_null(pour->part->name == NULL ? (struct text){0} : pour->part->name->spelling),
                                  "time_s", time_json(pour->of.time), "temperature_C", number_or_null(pour->of.temperature)));
    }
    return list;
}

/* "rolls", "sheets 8x10 in". */
static struct text goods_words(struct arena *arena, const struct name *unit, const struct sheet_size *size)
{
    if (size == NULL) {
        return unit->spelling;
    }
    return text_from(arena_format(arena, "%.*s %sx%s %.*s", TEXT_ARGUMENTS(unit->spelling), number_print(arena, size->width, 2),
                                  number_print(arena, size->height, 2),
                                  TEXT_ARGUMENTS(size->unit == NULL ? TEXT("in") : size->unit->spelling)));
}

/* How much is done, and what that takes. */
static void put_working(json_t **json, struct arena *arena, const struct use *use)
{
    bool replenished = !isnan(use->replenish);
    put_member(json, "capacity",
               isnan(use->capacity) ? json_null()
                                    : json_pack("{s:f, s:o, s:f}", "count", use->capacity, "goods",
                                                text_json(goods_words(arena, use->capacity_of, use->capacity_size)), "per_mL", use->capacity_per));
    put_member(json, "needs",
               isnan(use->needs) ? json_null() : json_pack("{s:f, s:o}", "mL", use->needs, "per", text_json(use->needs_per->spelling)));
    put_member(json, "replenish",
               !replenished ? json_null()
                            : json_pack("{s:f, s:o, s:o}", "mL", use->replenish, "per",
                                        text_json(goods_words(arena, use->replenish_per->unit, use->replenish_per->size)), "of",
                                        text_or_null(use->replenisher)));
    put_member(json, "agitation", text_or_null(use->agitation));
}

static json_t *use_json(const struct report_context *context, const struct use *use, const struct content *contents,
                        const struct estimate *estimate)
{
    json_t *json = json_object();
    put_member(&json, "for", text_json(use->name));
    put_member(&json, "stock_parts", number_or_null(use->stock_parts));
    put_member(&json, "water_parts", number_or_null(use->water_parts));
    put_member(&json, "water_parts_to", number_or_null(use->water_parts_high));
    put_member(&json, "mix", mix_json(use));
    put_member(&json, "temperature_C", number_or_null(use->temperature));
    put_member(&json, "temperature_to_C", number_or_null(use->temperature_high));
    put_member(&json, "time_s", time_json(use->time));
    put_member(&json, "times", times_json(use));
    put_member(&json, "baths", pours_json(use));
    put_working(&json, context->formulary->arena, use);
    put_member(&json, "total_parts", number_or_null(use_total_parts(use)));
    put_member(&json, "coefficient", isnan(use->coefficient) ? json_null()
                                                             : json_pack("{s:f, s:f}", "factor", use->coefficient, "per_C", use->coefficient_per));
    put_member(&json, "keeps", keeps_json(context, use->keeps));
    put_member(&json, "notes", notes_json(use->notes));
    put_member(&json, "contents", contents_json(contents));
    add_estimate(&json, estimate);
    return json;
}

/* Warnings and rules of practice that the formula turns off. */
static json_t *silences_json(const struct formula *formula)
{
    json_t *list = json_array();
    for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
        if (formula->silenced[id]) {
            put_item(&list, json_string(diagnostic_registry[id].name));
        }
    }
    for (const struct silenced_rule *rule = formula->silenced_rules; rule != NULL; rule = rule->next) {
        put_item(&list, text_json(rule->shown));
    }
    return list;
}

json_t *show_json(const struct report_context *context, const struct show_model *model)
{
    static const char *const measures[] = {[MEASURES_UNSTATED] = NULL, [MEASURES_METRIC] = "metric", [MEASURES_US] = "US", [MEASURES_IMPERIAL] = "imperial"};
    const struct batch *batch = model->batch;
    const struct formula *formula = batch->written;
    json_t *purposes = json_array();
    for (const struct word *word = formula->purposes; word != NULL; word = word->next) {
        put_item(&purposes, text_json(word->name->spelling));
    }
    json_t *parts = json_array();
    for (size_t i = 0; i < batch->part_count; i++) {
        put_item(&parts, part_json(context, &batch->parts[i], model->parts == NULL ? NULL : &model->parts[i]));
    }
    json_t *uses = json_array();
    size_t i = 0;
    for (const struct use *use = formula->uses; use != NULL; use = use->next, i++) {
        put_item(&uses, use_json(context, use, model->contents[i], model->uses == NULL ? NULL : &model->uses[i]));
    }
    json_t *json = json_object();
    put_member(&json, "title", text_json(formula->title));
    put_member(&json, "kind", formula->kind.length == 0 ? json_null() : text_json(formula->kind));
    put_member(&json, "for", purposes);
    put_member(&json, "makes_mL", number_or_null(batch_makes(batch)));
    put_member(&json, "parts", parts);
    put_member(&json, "uses", uses);
    put_member(&json, "keeps", keeps_json(context, formula->keeps));
    put_member(&json, "measures", measures[formula->measures] == NULL ? json_null() : json_string(measures[formula->measures]));
    put_member(&json, "notes", notes_json(formula->notes));
    put_member(&json, "silences", silences_json(formula));
    put_member(&json, "source", text_or_null(formula->source));
    put_member(&json, "variant_of", formula->variant_of == NULL ? json_null() : text_json(formula->variant_of->title));
    return json;
}
