/* What an editor shows in the lines beside what is written there. */
#include "base/number.h"
#include "library/measure.h"
#include "workspace/lines.h"

#include <math.h>

struct adder {
    struct arena *arena;
    const struct workspace_text *text;
    const struct checked *checked;
    uint32_t begin;
    uint32_t end;
    struct potash_inlay *items;
    size_t count;
    size_t room;
};

/* Kept in the order of the text: those of a line come in any order, and parts may refer to each other. */
static void add(struct adder *adder, uint32_t at, const char *words)
{
    if (at < adder->begin || at > adder->end) {
        return;
    }
    const struct source_file *source = adder->checked->source;
    struct potash_inlay inlay = {text_place(adder->text->file, at - source->base), words};
    struct potash_inlay *added = SNAPSHOT_ADD(adder->arena, struct potash_inlay, adder->items, adder->count, adder->room);
    *added = inlay;
    for (; added > adder->items && added[-1].at.offset > inlay.at.offset; added--) {
        added[0] = added[-1];
        added[-1] = inlay;
    }
}

static const char *figure(const struct adder *adder, double value)
{
    struct buffer out;
    buffer_start(&out, adder->arena);
    number_add_significant(&out, value, 3);
    return buffer_finish(&out);
}

/* The form that is assumed, behind the name; grams in a litre behind the amount, where that is another figure. */
static void add_step(struct adder *adder, const struct part *part, const struct step *step)
{
    if (!step_is_addition(step) || step->statement == NULL || (step->statement->kind != SAY_ADDITION && step->statement->kind != SAY_ADD)) {
        return;
    }
    const struct addition_statement *addition = (const struct addition_statement *)step->statement;
    if (step->form_assumed && step->form != NULL && step->form->label.length > 0) {
        add(adder, addition->material->span.end, arena_format(adder->arena, "(%.*s)", TEXT_ARGUMENTS(step->form->label)));
    }
    bool weighed = step->how == ADD_BY_MASS || (step->how == ADD_STOCK && !isnan(step->mass));
    bool measured = step->how == ADD_BY_VOLUME;
    double amount = weighed ? step->mass : step->volume;
    double per_litre = part_per_litre(part, amount);
    const struct quantity *quantity = step_quantity(step);
    bool same = quantity != NULL && quantity->more == NULL && fabs(per_litre - quantity->value) <= 1e-6 * per_litre && step->how != ADD_STOCK;
    if ((weighed || measured) && !isnan(per_litre) && !same && step->amount_span.end > 0) {
        add(adder, step->amount_span.end, arena_format(adder->arena, "%s %s/L", figure(adder, per_litre), weighed ? "g" : "mL"));
    }
}

/* The dilution that volumes come to, 3+17 for 150 mL to make 1 L, at the end of their line. */
static void add_ratio(struct adder *adder, const struct use *use)
{
    if (use->ratio != NULL || use->mix != NULL || isnan(use->stock_parts) || isnan(use->water_parts)) {
        return;
    }
    const struct source_file *source = adder->checked->source;
    const char *end = source->bytes + (use->dilution_span.begin - source->base);
    end += strcspn(end, "\r\n#");
    while (strchr(" \t", end[-1]) != NULL) {
        end--;
    }
    add(adder, source->base + (uint32_t)(end - source->bytes),
        arena_format(adder->arena, "%s+%s", figure(adder, use->stock_parts), figure(adder, use->water_parts)));
}

enum potash_status potash_snapshot_inlays(struct potash_snapshot *snapshot, const char *path, size_t begin, size_t end,
                                          struct potash_inlays *inlays)
{
    *inlays = (struct potash_inlays){0};
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        return workspace_out_of_memory(snapshot->workspace);
    }
    struct workspace_text *text = snapshot_begin(snapshot, path);
    if (text == NULL) {
        return POTASH_UNUSABLE;
    }
    const struct checked *checked = snapshot_check(snapshot, text);
    const struct source_file *source = checked->source;
    size_t last = end < source->length ? end : source->length;
    struct adder adder = {&snapshot->arena, text, checked, source->base + (uint32_t)(begin < last ? begin : last), source->base + (uint32_t)last, NULL, 0, 0};
    for (const struct formula *formula = checked->session->formulary.formulas; formula != NULL; formula = formula->next) {
        bool there = formula->declaration->file == source && formula->declaration->span.begin <= adder.end &&
                     declaration_end(formula->declaration) >= adder.begin;
        for (const struct part *part = there ? formula->parts : NULL; part != NULL; part = part->next) {
            for (const struct step *step = part->steps; step != NULL; step = step->next) {
                if (line_is_own(formula, step->span)) {
                    add_step(&adder, part, step);
                }
            }
        }
        for (const struct use *use = there ? formula->uses : NULL; use != NULL; use = use->next) {
            if (line_is_own(formula, use->span)) {
                add_ratio(&adder, use);
            }
        }
    }
    *inlays = (struct potash_inlays){adder.items, adder.count};
    return POTASH_GOOD;
}
