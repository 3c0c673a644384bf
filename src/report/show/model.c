/* What `show` says of a formula. */
#include "report/show/model.h"

#include "store/taking.h"

#include <math.h>

const struct batch *report_batch(const struct report_context *context, const struct formula *formula)
{
    return batch_make(context->formulary->arena, formula, batch_scale(formula, context->make), NULL, &context->scales);
}

const struct batch *report_batch_of_shelf(const struct report_context *context, const struct formula *formula)
{
    return context->using_shelf ? store_batch(context->store, formula, batch_scale(formula, context->make), &context->scales)
                                : report_batch(context, formula);
}

struct show_model show_model(const struct report_context *context, const struct batch *batch, bool estimates)
{
    struct arena *arena = context->formulary->arena;
    const struct formula *formula = batch->written;
    size_t count = 0;
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        count++;
    }
    const struct content **contents = ARENA_ARRAY(arena, const struct content *, count + 1);
    struct estimate *uses = ARENA_ARRAY(arena, struct estimate, count + 1);
    struct estimate *parts = ARENA_ARRAY(arena, struct estimate, formula->part_count + 1);
    size_t i = 0;
    for (const struct use *use = formula->uses; use != NULL; use = use->next, i++) {
        contents[i] = use_contents(arena, formula, use);
        if (estimates) {
            uses[i] = estimate_use(context->formulary, formula, use);
        }
    }
    i = 0;
    for (const struct part *part = formula->parts; estimates && part != NULL; part = part->next) {
        parts[i++] = estimate_part(context->formulary, part, NAN);
    }
    return (struct show_model){batch, estimates ? parts : NULL, estimates ? uses : NULL, contents};
}
