/* Amounts of a line and of its formula written otherwise: in another form, in grams, for another size of batch. */
#include "workspace/actions.h"

#include <math.h>

static const char *figure(const struct doing *doing, double value, int digits)
{
    struct buffer out;
    buffer_start(&out, doing->arena);
    number_add_significant(&out, value, digits);
    return buffer_finish(&out);
}

static const struct addition_statement *addition_of(const struct step *step)
{
    bool addition = step != NULL && step->statement != NULL && step->statement->kind == SAY_ADDITION;
    return addition ? (const struct addition_statement *)step->statement : NULL;
}

/* ---- another form ---- */

/* The weights of the others, in grams; a range and a sum of units have no single number to put in their place. */
static void offer_forms(struct doing *doing)
{
    const struct step *step = doing->at.step;
    const struct addition_statement *addition = addition_of(step);
    if (addition == NULL || step->how != ADD_BY_MASS || step->from_parts || step->high > 1 || step->form == NULL ||
        addition->amount->kind != AMOUNT_PLAIN || addition->material->name == NULL) {
        return;
    }
    for (size_t i = 0; i < step->material->form_count; i++) {
        const struct form *form = &step->material->forms[i];
        double grams = form_equivalent(step->form, form, step->mass);
        if (form == step->form || form->label.length == 0 || isnan(grams) || form->percent < 100) {
            continue;
        }
        const char *amount = figure(doing, grams, 4);
        const char *label = arena_copy(doing->arena, form->label.at, form->label.length);
        const struct form_words *written = addition->material->form;
        if (written != NULL && written->span.begin > step->amount_span.begin) { /* behind the amount, as books have it */
            doing_edit(doing, step->amount_span, arena_format(doing->arena, "%s g", amount));
            doing_edit(doing, written->span, label);
        } else {
            struct span end = span_make(addition->material->span.end, addition->material->span.end);
            doing_edit(doing, written != NULL ? written->span : end, written != NULL ? label : arena_format(doing->arena, " (%s)", label));
            doing_edit(doing, step->amount_span, arena_format(doing->arena, "%s g", amount));
        }
        doing_add(doing, POTASH_ACTION_REWRITE, "write the weight as %s: %s g", label, amount);
    }
}

/* ---- metric units ---- */

/* An amount that is not in metric units, in grams or millilitres; false where it is, or cannot be. */
static bool convert(struct doing *doing, const struct quantity *quantity, bool liquid)
{
    struct library *library = &doing->checked->session->library;
    struct measure measure = measure_read(library, quantity, doing->at.formula->measures, liquid);
    bool good = measure.fault == MEASURE_GOOD && (measure.dimension == DIMENSION_MASS || measure.dimension == DIMENSION_VOLUME);
    if (!good || measure.second != NULL || measure.leftover != NULL || (measure.unit->metric && quantity->more == NULL)) {
        return false;
    }
    const struct unit *base = library_base_unit(library, measure.dimension);
    if (base == NULL || measure.unit == base) {
        return false;
    }
    const char *low = figure(doing, measure.low, 4);
    const char *range = quantity->high == NULL ? "" : arena_format(doing->arena, " to %s", figure(doing, measure.high, 4));
    doing_edit(doing, quantity->span, arena_format(doing->arena, "%s%s %.*s", low, range, TEXT_ARGUMENTS(base->name)));
    return true;
}

static bool is_liquid(const struct step *step)
{
    return step->material == NULL || step->material->is_water || step->material->liquid;
}

/* The amounts of a formula's own lines, in their order. */
static size_t convert_all(struct doing *doing)
{
    size_t converted = 0;
    for (const struct part *part = doing->at.formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            const struct quantity *quantity = line_is_own(doing->at.formula, step->span) ? step_quantity(step) : NULL;
            converted += quantity != NULL && step_is_addition(step) && convert(doing, quantity, is_liquid(step));
        }
    }
    return converted;
}

static void offer_metric(struct doing *doing)
{
    const struct step *step = doing->at.step;
    const struct quantity *quantity = step == NULL || !step_is_addition(step) ? NULL : step_quantity(step);
    if (quantity != NULL && line_is_own(doing->at.formula, step->span) && convert(doing, quantity, is_liquid(step))) {
        doing_add(doing, POTASH_ACTION_REWRITE, "convert to %s", doing->edits[0].text);
    }
    if (convert_all(doing) > 0) {
        doing_add(doing, POTASH_ACTION_REWRITE, "convert the formula to grams and millilitres");
    }
}

/* ---- another size ---- */

/* Every number of an amount, with its unit left as it is. */
static void scale(struct doing *doing, const struct quantity *quantity, double factor)
{
    for (const struct quantity *at = quantity; at != NULL; at = at->more) {
        doing_edit(doing, quantity_number_span(at), figure(doing, at->value * factor, 6));
    }
    if (quantity->high != NULL) {
        scale(doing, quantity->high, factor);
    }
}

/* Lines of amounts: `makes`, additions, solutions taken in.  False where one cannot be multiplied as it is written. */
static bool scale_line(struct doing *doing, const struct statement *statement, double factor)
{
    const struct amount_words *amount;
    switch (statement->kind) {
    case SAY_MAKES:
        scale(doing, ((const struct quantity_statement *)statement)->quantity, factor);
        return true;
    case SAY_SOLUTION:
        if (((const struct solution_statement *)statement)->quantity != NULL) {
            scale(doing, ((const struct solution_statement *)statement)->quantity, factor);
        }
        return true;
    case SAY_ADDITION:
        amount = ((const struct addition_statement *)statement)->amount;
        if (((const struct addition_statement *)statement)->tails != NULL && ((const struct addition_statement *)statement)->tails->other != NULL) {
            return false;
        }
        if (amount->quantity != NULL) {
            scale(doing, amount->quantity, factor);
        }
        return true;
    default:
        return statement->kind != SAY_LINE;
    }
}

static void offer_size(struct doing *doing, double factor, const char *title)
{
    bool whole = true;
    for (const struct statement *statement = doing->at.declaration->statements; statement != NULL && whole; statement = statement->next) {
        whole = scale_line(doing, statement, factor);
    }
    if (!whole) {
        doing->edit_count = 0;
        return;
    }
    doing_add(doing, POTASH_ACTION_REWRITE, "%s", title);
}

static void offer_sizes(struct doing *doing)
{
    const struct formula *formula = doing->at.formula;
    if (doing->at.declaration->kind != DECLARE_FORMULA || formula->parts == NULL) {
        return;
    }
    const struct part *part = formula->parts;
    if (part->next == NULL && !isnan(part->makes) && fabs(part->makes - 1000) > 1e-6) {
        offer_size(doing, 1000 / part->makes, "scale the formula to 1 L");
    }
    offer_size(doing, 2, "double the formula");
    offer_size(doing, 0.5, "halve the formula");
}

void doing_rewrite(struct doing *doing)
{
    offer_forms(doing);
    offer_metric(doing);
    offer_sizes(doing);
}
