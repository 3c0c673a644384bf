/* What a process comes to for so many rolls or sheets: volumes, fillings, the clock. */
#include "store/processes.h"

#include "chemistry/time_table.h"

/* Where nothing is said (common practice, no source): a tank or tray of a litre, 10 s to pour out, a minute for each change of
 * water; an adjusted time is given to 5 s. */
static const double usual_vessel = 1000;
static const double usual_drain = 10;
static const double usual_change = 60;
static const double time_step = 5;

/* ---- one bath ---- */

static struct plan_share *add_share(struct arena *arena, struct plan_stage *stage, double volume)
{
    struct plan_share *share = ARENA_NEW(arena, struct plan_share);
    share->volume = volume;
    struct plan_share **end = &stage->shares;
    while (*end != NULL) {
        end = &(*end)->next;
    }
    *end = share;
    return share;
}

/* What goes into one filling, and how much of the formula that takes. */
static void share_out(struct arena *arena, struct plan_stage *planned)
{
    const struct stage *stage = planned->stage;
    const struct use *use = stage->use;
    const struct part *part = stage->part != NULL ? stage->part : formula_bath_part(stage->formula);
    bool diluted = !isnan(stage->stock_parts);
    planned->stock = NAN;
    if (stage->part != NULL) { /* mL of a whole formula */
        planned->stock = planned->volume * stage->formula->parts->makes / part->makes;
        add_share(arena, planned, planned->volume)->part = part;
        return;
    }
    if (use != NULL && use->mix != NULL && !stage->diluted_here) {
        double total = use_total_parts(use);
        for (const struct mix_share *item = isnan(total) ? NULL : use->mix; item != NULL; item = item->next) {
            struct plan_share *share = add_share(arena, planned, planned->volume * item->amount / total);
            share->part = item->part;
            share->material = item->material != NULL && item->material->is_water ? NULL : item->material;
            share->form = item->form;
            if (item->part != NULL) { /* mL of a whole formula: as much as its scarcest part asks for */
                double whole = share->volume * stage->formula->parts->makes / item->part->makes;
                planned->stock = isnan(planned->stock) ? whole : fmax(planned->stock, whole);
            }
        }
        return;
    }
    if (part == NULL) {
        return;
    }
    double share = diluted ? stage->stock_parts / (stage->stock_parts + stage->water_parts) : 1;
    planned->stock = planned->volume * share;
    add_share(arena, planned, planned->stock)->part = part;
    if (planned->volume > planned->stock) {
        add_share(arena, planned, planned->volume - planned->stock);
    }
}

/* Millilitres of water that go into one filling. */
static double water_share(const struct plan_stage *stage)
{
    double water = 0;
    for (const struct plan_share *share = stage->shares; share != NULL; share = share->next) {
        water += share->part == NULL && share->material == NULL ? share->volume : 0;
    }
    return water;
}

/* Goods of the order's kind that one filling does, before it is poured away. */
static double filling_does(const struct plan *plan, const struct plan_stage *planned)
{
    const struct stage *stage = planned->stage;
    struct goods one = plan->goods;
    one.count = 1;
    if (stage->replace_after.unit != NULL) {
        return goods_in(&stage->replace_after, &one);
    }
    if (stage->use == NULL || isnan(stage->use->capacity)) {
        return NAN;
    }
    struct goods able = goods_of_capacity(stage->use);
    able.count *= planned->volume / stage->use->capacity_per;
    return goods_in(&able, &one);
}

/* Stock that the goods of one load need by their number, and that the filling does not hold. */
static double lacking(const struct plan *plan, const struct plan_stage *planned)
{
    const struct use *use = planned->stage->use;
    if (use == NULL || isnan(use->needs) || isnan(planned->stock) || plan->goods.unit == NULL) {
        return 0;
    }
    struct goods load = plan->goods;
    load.count = plan->at_a_time;
    struct goods one = goods_of_needs(use);
    double needed = goods_in(&load, &one) * use->needs;
    return needed > planned->stock * 1.005 ? needed - planned->stock : 0;
}

static void count_fillings(const struct plan *plan, struct plan_stage *planned)
{
    const struct stage *stage = planned->stage;
    planned->does = NAN;
    planned->loads_per_filling = NAN;
    planned->fillings = 1;
    planned->lacking = lacking(plan, planned);
    if (stage_is_once(stage)) {
        planned->loads_per_filling = 1;
        planned->fillings = plan->loads;
    } else {
        planned->does = filling_does(plan, planned);
        bool replenished = !isnan(stage->replenish) && stage->replace_after.unit == NULL;
        if (planned->does > 0 && !replenished) {
            planned->loads_per_filling = fmax(floor(planned->does / plan->at_a_time + 1e-9), 1);
            planned->fillings = ceil(plan->loads / planned->loads_per_filling - 1e-9);
        }
    }
    planned->stock_in_all = planned->stock * planned->fillings;
    planned->water = water_share(planned) * planned->fillings;
    if (!isnan(stage->replenish)) {
        double goods = goods_in(&plan->goods, &stage->replenish_per);
        planned->replenisher = isnan(goods) ? 0 : goods * stage->replenish;
    }
}

/* ---- temperature and time ---- */

/* Whether the temperature is another than the use is given for. */
static bool warmer_or_colder(const struct stage *stage)
{
    const struct use *use = stage->use;
    if (use == NULL || isnan(use->temperature) || isnan(stage->temperature)) {
        return false;
    }
    double high = isnan(use->temperature_high) ? use->temperature : use->temperature_high;
    return stage->temperature < use->temperature - 0.01 || stage->temperature > high + 0.01;
}

/* The use's time at the temperature and dilution of the process, by its table or its coefficient; NULL where neither tells. */
static const struct time_answer *adjusted_time(struct arena *arena, const struct stage *stage)
{
    struct time_row wanted = {.temperature = warmer_or_colder(stage) ? stage->temperature : NAN, .stock_parts = stage->stock_parts,
                              .water_parts = stage->water_parts};
    wanted.speed = wanted.contrast = wanted.grade = NAN;
    const struct time_answer *answer = time_table_find(arena, stage->use, &wanted);
    if (answer == NULL) { /* at a dilution that the use has no time for */
        wanted.stock_parts = NAN;
        answer = time_table_find(arena, stage->use, &wanted);
    }
    return answer == NULL || answer->source == TIME_NOT_KNOWN ? NULL : answer;
}

/* The time of the process; else that of the use, at the process's temperature where the use's table or coefficient gives it. */
static void reckon_time(struct arena *arena, struct plan_stage *planned)
{
    const struct stage *stage = planned->stage;
    const struct use *use = stage->use;
    bool by_use = isnan(stage->temperature) && use != NULL;
    planned->temperature = by_use ? use->temperature : stage->temperature;
    planned->temperature_high = by_use ? use->temperature_high : NAN;
    planned->time = stage->time[0];
    if (stage->kind == STAGE_WASH && isnan(planned->time) && !isnan(stage->changes)) {
        planned->time = stage->changes * usual_change;
        planned->time_assumed = true;
    }
    if (!isnan(planned->time) || use == NULL || isnan(use->time[0])) {
        return;
    }
    planned->time = use->time[0];
    bool as_written = !warmer_or_colder(stage) && !stage->diluted_here;
    const struct time_answer *answer = as_written || stage->part != NULL ? NULL : adjusted_time(arena, stage);
    if (answer != NULL && answer->source == TIME_OF_ROW) {
        planned->time = answer->row.time[0];
    } else if (answer != NULL) {
        planned->time = fmax(round(answer->row.time[0] / time_step), 1) * time_step;
        planned->time_adjusted = true;
        planned->time_by_table = answer->source == TIME_BETWEEN;
        planned->time_extrapolated = answer->beyond;
    }
}

static void run_clock(struct plan *plan)
{
    double clock = 0;
    for (struct plan_stage *planned = plan->stages; planned != NULL; planned = planned->next) {
        planned->start = clock;
        clock += isnan(planned->time) ? 0 : planned->time;
        planned->end = clock;
        planned->pour_out = NAN;
        if (planned->stage->kind == STAGE_BATH && !isnan(planned->time)) {
            planned->pour_out = planned->end - fmin(plan->drain, planned->time / 3);
        }
    }
    plan->length = clock;
}

/* ---- the whole ---- */

static void reckon_wash(struct plan *plan, struct plan_stage *planned)
{
    const struct stage *stage = planned->stage;
    /* Prints are gathered and washed together; a tank is washed with each of its loads (common practice, no source). */
    double times = plan->process->trays ? 1 : plan->loads;
    planned->water = !isnan(stage->changes) ? stage->changes * stage->filling * times : stage->flow * planned->time * times;
    plan->water_unknown = plan->water_unknown || isnan(planned->water);
}

/* How many at a time, and how many loads that makes. */
static void load_up(struct plan *plan, const struct goods *goods)
{
    const struct process *process = plan->process;
    plan->goods = *goods;
    if (plan->goods.unit == NULL) {
        plan->goods = process->holds;
    }
    plan->at_a_time = plan->goods.unit == NULL ? 1 : process->trays ? 1 : plan->goods.count;
    if (process->holds.unit != NULL) {
        struct goods one = plan->goods;
        one.count = 1;
        double held = goods_in(&process->holds, &one);
        plan->at_a_time = isnan(held) ? plan->at_a_time : fmin(fmax(floor(held + 1e-9), 1), plan->goods.count);
    }
    plan->loads = plan->goods.unit == NULL ? 1 : ceil(plan->goods.count / plan->at_a_time - 1e-9);
}

struct plan *process_plan(struct arena *arena, const struct process *process, const struct goods *goods, double vessel)
{
    struct plan *plan = ARENA_NEW(arena, struct plan);
    plan->process = process;
    plan->vessel = !isnan(vessel) ? vessel : process->vessel;
    plan->vessel_assumed = isnan(plan->vessel);
    plan->vessel = plan->vessel_assumed ? usual_vessel : plan->vessel;
    plan->drain_assumed = isnan(process->drain);
    plan->drain = plan->drain_assumed ? usual_drain : process->drain;
    load_up(plan, goods);
    struct plan_stage **end = &plan->stages;
    for (const struct stage *stage = process->stages; stage != NULL; stage = stage->next) {
        struct plan_stage *planned = ARENA_NEW(arena, struct plan_stage);
        planned->stage = stage;
        reckon_time(arena, planned);
        if (stage->kind == STAGE_BATH) {
            planned->volume = plan->vessel;
            share_out(arena, planned);
            count_fillings(plan, planned);
        } else if (stage->kind == STAGE_WASH) {
            reckon_wash(plan, planned);
        }
        plan->water += isnan(planned->water) ? 0 : planned->water;
        *end = planned;
        end = &planned->next;
    }
    run_clock(plan);
    return plan;
}

static struct demand *add_demand(struct arena *arena, struct demand **list, const struct formula *formula, const struct use *use, double volume)
{
    if (formula == NULL || !(volume > 0)) {
        return NULL;
    }
    while (*list != NULL && (*list)->formula != formula) {
        list = &(*list)->next;
    }
    if (*list == NULL) {
        *list = ARENA_NEW(arena, struct demand);
        (*list)->formula = formula;
        (*list)->use = use;
    }
    (*list)->volume += volume;
    return *list;
}

/* Adds the loads of a bath that is used again and again, up to its capacity. */
static void add_loads(struct demand *demand, const struct plan *plan, const struct plan_stage *planned)
{
    const struct stage *stage = planned->stage;
    bool counts = !stage_is_once(stage) && isnan(stage->replenish) && stage->use != NULL && !isnan(stage->use->capacity);
    if (demand == NULL || !counts || !(planned->loads_per_filling > 0)) {
        return;
    }
    demand->load = plan->goods;
    demand->load.count = plan->at_a_time;
    demand->loads += plan->loads;
    demand->goods += plan->goods.count;
    demand->loads_per_filling = planned->loads_per_filling;
    demand->filling = planned->stock;
}

struct provision process_provision(const struct batch_list *list, long today, const struct demand *demand)
{
    struct provision provision = {.supply = batch_supply(list, today, demand->use, &demand->load)};
    struct goods all = demand->load;
    all.count = demand->goods;
    bool one_does = provision.supply.in_use == 1 && goods_in(&all, &provision.supply.still) <= provision.supply.still.count + 1e-9;
    double lacking = one_does ? 0 : demand->loads - provision.supply.loads;
    double by_capacity = lacking > 0 ? ceil(lacking / demand->loads_per_filling - 1e-9) * demand->filling : 0;
    double by_volume = demand->volume - provision.supply.left;
    provision.spent = by_capacity > fmax(by_volume, 0);
    provision.more = fmax(by_capacity, by_volume > demand->volume * 0.005 ? by_volume : 0); /* which nobody measures */
    return provision;
}

struct demand *plan_demands(struct arena *arena, const struct plan *plan)
{
    struct demand *list = NULL;
    for (const struct plan_stage *planned = plan->stages; planned != NULL; planned = planned->next) {
        const struct stage *stage = planned->stage;
        if (stage->kind == STAGE_BATH && !stage->follows) { /* what the first part takes of the formula does for the others */
            add_loads(add_demand(arena, &list, stage->formula, stage->use, planned->stock_in_all), plan, planned);
            add_demand(arena, &list, stage->replenisher != NULL ? stage->replenisher : stage->formula, NULL, planned->replenisher);
        }
    }
    return list;
}
