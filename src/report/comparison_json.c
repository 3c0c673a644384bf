/* What differs, for programs (docs/schema/compare.schema.json). */
#include "report/json_values.h"
#include "report/comparison.h"

#include <math.h>

/* A figure, [low, high] of a range, words, or null. */
static json_t *value_json(double figure, double high, struct text words)
{
    if (isfinite(figure) && isfinite(high)) {
        return json_pack("[f, f]", figure, high);
    }
    return isfinite(figure) ? json_real(figure) : text_or_null(words);
}

static json_t *change_json(const struct change *change, struct text title)
{
    json_t *json = json_object();
    put_member(&json, "what", json_string(change_names[change->what]));
    put_member(&json, "part", text_or_null(change->part));
    put_member(&json, "material", text_or_null(change->material));
    put_member(&json, "from", value_json(change->from, change->from_high, change->from_text));
    put_member(&json, "to", value_json(change->to, change->to_high, change->to_text));
    put_member(&json, "percent", isfinite(change->percent) ? json_real(change->percent) : json_null());
    if (change->unit != NULL) {
        put_member(&json, "unit", json_string(change->unit));
    }
    if (change->use.length > 0) {
        put_member(&json, "use", text_json(change->use));
    }
    if (change->in.length > 0) {
        put_member(&json, "in", text_json(change->in));
    }
    if (change->remark) {
        put_member(&json, "remark", json_true());
    }
    if (title.length > 0) {
        put_member(&json, "title", text_json(title));
    }
    return json;
}

/* A formula that only one side has. */
static json_t *only_json(const struct comparison *comparison)
{
    const struct formula *formula = comparison->a != NULL ? comparison->a : comparison->b;
    json_t *from = comparison->a != NULL ? text_json(formula->title) : json_null();
    json_t *to = comparison->b != NULL ? text_json(formula->title) : json_null();
    return json_pack("{s:s, s:n, s:n, s:o, s:o, s:n, s:o}", "what", "formula", "part", "material", "from", from, "to", to,
                     "percent", "title", text_json(formula->title));
}

json_t *report_comparison_json(const struct comparison_report *report)
{
    const struct comparison *first = report->comparisons;
    bool several = first != NULL && first->next != NULL;
    json_t *changes = json_array();
    for (const struct comparison *comparison = first; comparison != NULL; comparison = comparison->next) {
        if (comparison->a == NULL || comparison->b == NULL) {
            put_item(&changes, only_json(comparison));
            continue;
        }
        for (const struct change *change = comparison->changes; change != NULL; change = change->next) {
            put_item(&changes, change_json(change, several ? comparison->a->title : (struct text){0}));
        }
    }
    return json_pack("{s:b, s:o, s:o}", "same", report_comparison_same(report), "changes", changes, "costs",
                     comparison_costs_json(report));
}
