/* The working sheet of a process as data. */
#include "report/process.h"

#include "report/json_values.h"

static json_t *share_json(const struct process_sheet *sheet, const struct plan_stage *planned)
{
    json_t *list = json_array();
    struct arena *arena = sheet->context->formulary->arena;
    struct page page = {.arena = arena};
    struct process_sheet named = *sheet;
    named.page = &page;
    for (const struct plan_share *share = planned->shares; share != NULL; share = share->next) {
        put_item(&list, json_pack("{s:o, s:o, s:o}", "take", text_json(process_share_name(&named, planned, share)), "part",
                                  share->part == NULL || share->part->name == NULL ? json_null()
                                                                                   : text_json(share->part->name->spelling),
                                  "volume_mL", json_real(share->volume)));
    }
    return list;
}

static void set_bath(const struct process_sheet *sheet, const struct plan_stage *planned, json_t **json)
{
    const struct stage *stage = planned->stage;
    put_member(json, "use", stage->use == NULL ? json_null() : text_json(stage->use->name));
    put_member(json, "agitation", text_or_null(stage->agitation));
    put_member(json, "pour_out_s", number_or_null(planned->pour_out));
    put_member(json, "filling_mL", json_real(planned->volume));
    put_member(json, "shares", share_json(sheet, planned));
    put_member(json, "stock_mL", number_or_null(planned->stock));
    put_member(json, "once", json_boolean(stage_is_once(stage)));
    put_member(json, "does", number_or_null(planned->does));
    put_member(json, "fillings", json_real(planned->fillings));
    put_member(json, "stock_in_all_mL", number_or_null(planned->stock_in_all));
    put_member(json, "replenisher_mL", json_real(planned->replenisher));
    put_member(json, "lacking_mL", json_real(planned->lacking));
    put_member(json, "time_adjusted", json_boolean(planned->time_adjusted));
}

static json_t *stage_json(const struct process_sheet *sheet, const struct plan_stage *planned)
{
    static const char *const kinds[] = {"bath", "wash", "task"};
    const struct stage *stage = planned->stage;
    json_t *json = json_pack("{s:s, s:o, s:o, s:o, s:o, s:o, s:o}", "kind", kinds[stage->kind], "title", text_json(stage->title),
                             "temperature_C", number_or_null(planned->temperature), "start_s", json_real(planned->start), "time_s",
                             number_or_null(planned->time), "end_s", json_real(planned->end), "water_mL",
                             stage->kind == STAGE_TASK ? json_null() : number_or_null(planned->water));
    if (stage->kind == STAGE_BATH) {
        set_bath(sheet, planned, &json);
    }
    return json;
}

static json_t *needs_json(const struct process_sheet *sheet)
{
    json_t *list = json_array();
    long today = report_today(sheet->context);
    for (const struct demand *demand = plan_demands(sheet->context->formulary->arena, sheet->plan); demand != NULL; demand = demand->next) {
        const struct batch_list *batches = batches_of(sheet->batches, demand->formula);
        struct provision provision = process_provision(batches, today, demand);
        const struct batch_supply supply = provision.supply;
        put_item(&list, json_pack("{s:o, s:f, s:o, s:f, s:o}", "title", text_json(demand->formula->title), "volume_mL", demand->volume,
                                  "left_mL", batches == NULL ? json_null() : json_real(supply.left), "mix_mL", provision.more, "batch",
                                  supply.next == NULL ? json_null() : text_json(supply.next->id)));
    }
    return list;
}

static json_t *goods_json(const struct goods *goods, struct arena *arena)
{
    if (goods->unit == NULL) {
        return json_null();
    }
    struct page page = {.arena = arena};
    return json_pack("{s:f, s:o}", "count", goods->count, "as_written", text_json(print_goods_asked(&page, goods)));
}

json_t *report_process_json(const struct process_sheet *sheet)
{
    const struct plan *plan = sheet->plan;
    json_t *stages = json_array();
    for (const struct plan_stage *planned = plan->stages; planned != NULL; planned = planned->next) {
        put_item(&stages, stage_json(sheet, planned));
    }
    return json_pack("{s:o, s:o, s:f, s:f, s:b, s:f, s:f, s:f, s:f, s:b, s:o, s:o, s:o}", "title", text_json(plan->process->title), "goods",
                     goods_json(&plan->goods, sheet->context->formulary->arena), "at_a_time", plan->at_a_time, "loads", plan->loads, "trays",
                     plan->process->trays, "vessel_mL", plan->vessel, "drain_s", plan->drain, "length_s", plan->length, "water_mL",
                     plan->water, "water_complete", !plan->water_unknown, "stages", stages, "needs", needs_json(sheet), "cost", process_cost_json(sheet));
}
