/* The mixing sheet for programs: docs/schema/sheet.schema.json. */
#include "report/sheet/model.h"

#include "report/json_values.h"

/* Whether a note is about this size of batch. */
static bool holds(const struct sheet *sheet, const struct sheet_note *note)
{
    return !note->when.bounded || (sheet->scale >= note->when.from && sheet->scale < note->when.below);
}

static json_t *notes_json(const struct sheet *sheet, const struct sheet_note *notes, bool remarks)
{
    json_t *list = json_array();
    for (const struct sheet_note *note = notes; note != NULL; note = note->next) {
        if (note->remark == remarks && holds(sheet, note)) {
            put_item(&list, text_json(note->words.text));
        }
    }
    return list;
}

static json_t *cautions_json(const struct sheet_note *notes)
{
    json_t *list = json_array();
    for (const struct sheet_note *note = notes; note != NULL; note = note->next) {
        put_item(&list, json_pack("{s:o, s:o}", "material", text_json(note->title), "text", text_json(note->words.text)));
    }
    return list;
}

/* What is packed for a line: the sheet's words, and beside them what a program would have to read out of them. */
static json_t *line_json(const struct sheet *sheet, const struct sheet_line *line, int addition)
{
    const struct step *step = line->at->step;
    bool weighed = step->how == ADD_BY_MASS;
    double amount = weighed ? step->mass : step->how == ADD_TO_MAKE ? step->volume : line->at->poured;
    json_t *json = json_pack("{s:o, s:o, s:o, s:o}", "addition", addition > 0 ? json_integer(addition) : json_null(), "what",
                             text_json(line->what), "notes", notes_json(sheet, line->notes, false), "remarks",
                             notes_json(sheet, line->notes, true));
    if (addition > 0) {
        put_member(&json, "amount", text_json(line->amount.text));
        put_member(&json, "value", number_or_null(amount));
        put_member(&json, "unit", isnan(amount) ? json_null() : json_string(weighed ? "g" : "mL"));
        put_member(&json, "measure", text_or_null(line->how.text));
        put_member(&json, "per_litre", number_or_null(line->per_litre));
        put_member(&json, "error_percent", number_or_null(line->at->error * 100));
        put_member(&json, "lots", text_or_null(line->lots));
    }
    return json;
}

static json_t *weighed_json(const struct sheet_part *part)
{
    return part->weighed_count < 2
               ? json_null()
               : json_pack("{s:o, s:f, s:f}", "amount", text_json(part->weighed.text), "g", part->weighed_sum.amount, "error_percent",
                           print_reading_bound(measured_share(part->weighed_sum)) * 100);
}

static json_t *coming_out_json(const struct coming_out *out)
{
    return out->material == NULL ? json_null()
                                 : json_pack("{s:o, s:f}", "material", text_json(out->material->name), "below_C", out->below);
}

static json_t *part_json(const struct sheet *sheet, const struct sheet_part *part)
{
    json_t *lines = json_array();
    int addition = 0;
    for (size_t i = 0; i < part->batch->step_count; i++) {
        bool is_addition = step_is_addition(part->lines[i].at->step);
        addition += is_addition;
        put_item(&lines, line_json(sheet, &part->lines[i], is_addition ? addition : 0));
    }
    double start = part->start_with * sheet->scale;
    const struct name *name = part->batch->part->name;
    return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o}", "name", name == NULL ? json_null() : text_json(name->spelling), "start_with_mL",
                     start > 0 ? json_real(start) : json_null(), "lines", lines, "weighed_in_all", weighed_json(part), "comes_out",
                     coming_out_json(&part->coming_out), "label", text_json(part->label));
}

static json_t *takes_json(const struct sheet *sheet, const struct sheet_use *use)
{
    json_t *list = json_array();
    for (const struct sheet_take *take = use->takes; take < use->takes + use->take_count; take++) {
        json_t *amounts = json_array();
        for (size_t i = 0; i < sheet->volume_count; i++) {
            put_item(&amounts, json_pack("{s:f, s:f, s:o}", "of_mL", sheet->volumes[i], "mL", take->millilitres[i], "amount",
                                         text_json(take->amounts[i])));
        }
        put_item(&list, json_pack("{s:o, s:f, s:o}", "what", text_json(take->what), "parts", take->parts, "amounts", amounts));
    }
    return list;
}

static json_t *times_json(const struct sheet_use *use)
{
    static const char *const sources[] = {"table", "between", "coefficient", "not known"};
    json_t *list = json_array();
    for (const struct time_answer *answer = use->times; answer != NULL; answer = answer->next) {
        const struct time_row *row = &answer->row;
        put_item(&list, json_pack("{s:o, s:o, s:o, s:o, s:o, s:s, s:b}", "time_s",
                                  isnan(row->time[0]) ? json_null() : json_pack("[f, f]", row->time[0], row->time[1]), "temperature_C",
                                  number_or_null(row->temperature), "speed", number_or_null(row->speed), "contrast",
                                  number_or_null(row->contrast), "grade", number_or_null(row->grade), "by", sources[answer->source],
                                  "beyond", answer->beyond));
    }
    return list;
}

static json_t *use_json(const struct sheet *sheet, const struct sheet_use *use)
{
    return json_pack("{s:o, s:o, s:o, s:b, s:o, s:o, s:o, s:o}", "for", text_json(use->use->name), "take", takes_json(sheet, use), "times",
                     times_json(use), "times_asked_for", use->asked, "batch_does", number_or_null(use->does * sheet->scale),
                     "batch_enough_for", number_or_null(use->enough_for * sheet->scale), "warnings",
                     notes_json(sheet, use->warnings, false), "label", text_json(use->label));
}

json_t *sheet_json(const struct sheet *sheet)
{
    const struct scales *scales = sheet->batch->scales;
    json_t *parts = json_array();
    json_t *uses = json_array();
    for (size_t i = 0; i < sheet->batch->part_count; i++) {
        put_item(&parts, part_json(sheet, &sheet->parts[i]));
    }
    for (size_t i = 0; i < sheet->use_count; i++) {
        put_item(&uses, use_json(sheet, &sheet->uses[i]));
    }
    return json_pack("{s:o, s:{s:f, s:f, s:f, s:b}, s:o, s:o, s:o, s:o, s:o, s:o}", "formula", show_json(sheet->context, &sheet->show), "batch",
                     "times", sheet->scale, "balance_g", scales->balance, "graduate_mL", scales->graduate, "from_shelf",
                     sheet->batch->asked_shelf, "make_first", notes_json(sheet, sheet->stocks, false), "parts", parts, "uses", uses,
                     "warnings", notes_json(sheet, sheet->warnings, false), "turned_off", text_or_null(sheet->silenced), "cautions",
                     cautions_json(sheet->cautions));
}
