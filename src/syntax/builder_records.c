/* Nodes of rules, shelves, batches and processes. */
#include "syntax/builder.h"

struct bound *build_bound(struct builder *builder, struct quantity *quantity, bool over)
{
    struct bound *bound = ARENA_NEW(builder->arena, struct bound);
    *bound = (struct bound){quantity, over};
    return bound;
}

struct condition_statement *build_relation(struct builder *builder, struct material_words *subject, enum relation relation,
                                           struct material_words *object, struct bound *bound)
{
    struct condition_statement *condition = ARENA_NEW(builder->arena, struct condition_statement);
    condition->subject = subject;
    condition->relation = relation;
    condition->object = object;
    condition->bound = bound;
    return condition;
}

void build_condition(struct builder *builder, struct condition_statement *condition, struct span span)
{
    build_statement(builder, &condition->base, SAY_WHEN, span);
}

void build_reagent(struct builder *builder, enum statement_kind kind, struct condition_statement *reagent, struct span span)
{
    build_statement(builder, &reagent->base, kind, span);
}

struct holding_statement *build_pack(struct builder *builder)
{
    struct holding_statement *holding = ARENA_NEW(builder->arena, struct holding_statement);
    holding->purity = NAN;
    return holding;
}

struct holding_statement *build_pack_once(struct holding_statement *holding, bool said, struct span span)
{
    if (said && holding->twice_span.end == 0) {
        holding->twice_span = span;
    }
    return holding;
}

void build_usual(struct builder *builder, struct material_words *material, struct quantity *range, bool optional,
                 struct span span)
{
    struct usual_statement *usual = ARENA_NEW(builder->arena, struct usual_statement);
    usual->material = material;
    usual->range = range;
    usual->optional = optional;
    build_statement(builder, &usual->base, SAY_HOLDS, span);
}

void build_usual_use(struct builder *builder, struct word *what, struct quantity *range, struct quantity *per, struct word *in,
                     struct span span)
{
    struct usual_use_statement *usual = ARENA_NEW(builder->arena, struct usual_use_statement);
    usual->what = what;
    usual->range = range;
    usual->per = per;
    usual->in = in;
    build_statement(builder, &usual->base, SAY_USUAL, span);
}

void build_usual_dilution(struct builder *builder, struct word *what, const struct ratio *low, const struct ratio *high, struct span span)
{
    struct usual_use_statement *usual = ARENA_NEW(builder->arena, struct usual_use_statement);
    usual->what = what;
    usual->low = *low;
    usual->high = *high;
    build_statement(builder, &usual->base, SAY_USUAL, span);
}

void build_holding(struct builder *builder, enum statement_kind kind, struct material_words *material, struct quantity *pack,
                   struct holding_statement *holding, struct span span)
{
    holding->material = material;
    holding->pack = pack;
    build_statement(builder, &holding->base, kind, span);
}

void build_bottles(struct builder *builder, double count, struct span count_span, struct quantity *volume, struct text note,
                   struct span span)
{
    struct bottles_statement *bottles = ARENA_NEW(builder->arena, struct bottles_statement);
    bottles->count = count;
    bottles->count_span = count_span;
    bottles->volume = volume;
    bottles->note = note;
    build_statement(builder, &bottles->base, SAY_BOTTLES, span);
}

void build_batch(struct builder *builder, struct text title, struct span title_span, struct text of, struct span of_span,
                 struct span span)
{
    build_titled(builder, DECLARE_BATCH, title, title_span, span);
    builder->open->of = of;
    builder->open->of_span = of_span;
}

void build_broken(struct builder *builder)
{
    if (builder->open != NULL) {
        builder->open->broken = true;
    }
}

void build_dated(struct builder *builder, enum statement_kind kind, struct text date, struct span date_span,
                 struct quantity *quantity, struct quantity *goods, struct span span)
{
    struct dated_statement *statement = ARENA_NEW(builder->arena, struct dated_statement);
    statement->date = date;
    statement->date_span = date_span;
    statement->quantity = quantity;
    statement->goods = goods;
    build_statement(builder, &statement->base, kind, span);
}

void build_took(struct builder *builder, enum statement_kind kind, struct took_statement *took, struct quantity *quantity, struct span span)
{
    took->quantity = quantity;
    build_statement(builder, &took->base, kind, span);
}

struct trial_statement *build_trial_lines(struct builder *builder)
{
    return ARENA_NEW(builder->arena, struct trial_statement);
}

struct trial_statement *build_trial_time(struct trial_statement *trial, struct quantity *time)
{
    trial->of.time = trial->of.time == NULL ? time : build_sum(trial->of.time, time);
    return trial;
}

void build_trial(struct builder *builder, struct trial_statement *trial, struct text date, struct span date_span,
                 struct span span)
{
    trial->date = date;
    trial->date_span = date_span;
    build_statement(builder, &trial->base, SAY_TRIAL, span);
}

struct wash_statement *build_washing(struct builder *builder, struct quantity *time, struct quantity *changes)
{
    struct wash_statement *wash = ARENA_NEW(builder->arena, struct wash_statement);
    wash->time = time;
    wash->changes = changes;
    return wash;
}

void build_wash(struct builder *builder, struct wash_statement *wash, struct span span)
{
    build_statement(builder, &wash->base, SAY_WASH, span);
}

void build_replenish(struct builder *builder, struct quantity *quantity, struct quantity *per, struct text title,
                     struct span title_span, struct span span)
{
    struct replenish_statement *statement = ARENA_NEW(builder->arena, struct replenish_statement);
    statement->quantity = quantity;
    statement->per = per;
    statement->title = title;
    statement->title_span = title_span;
    builder->file->draws_on_formulas = builder->file->draws_on_formulas || title.at != NULL;
    build_statement(builder, &statement->base, SAY_REPLENISH, span);
}

void build_task(struct builder *builder, struct text text, struct span text_span, struct quantity *time, struct span span)
{
    struct task_statement *statement = ARENA_NEW(builder->arena, struct task_statement);
    statement->text = text;
    statement->text_span = text_span;
    statement->time = time;
    build_statement(builder, &statement->base, SAY_TASK, span);
}

struct bath_statement *build_bath_use(struct builder *builder)
{
    return ARENA_NEW(builder->arena, struct bath_statement);
}

void build_bath(struct builder *builder, struct text title, struct span title_span, struct bath_statement *bath,
                struct span span)
{
    bath->title = title;
    bath->title_span = title_span;
    build_statement(builder, &bath->base, SAY_BATH, span);
}
