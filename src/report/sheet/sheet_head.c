/* The head of the mixing sheet: what it is for, the size of the batch, where the formula comes from. */
#include "report/sheet/model.h"

#include "practice/practice.h"

#include <math.h>

/* The units that a batch is given in; what they are worth is looked up in the library. */
static const struct offered_unit {
    const char *shown;
    const char *name;
    enum measures measures;
    bool mass;
} offered_units[] = {
    {"mL", "mL", MEASURES_METRIC, false},
    {"L", "L", MEASURES_METRIC, false},
    {"US fl oz", "fl oz", MEASURES_US, false},
    {"US quart", "quart", MEASURES_US, false},
    {"US gallon", "gallon", MEASURES_US, false},
    {"imperial fl oz", "fl oz", MEASURES_IMPERIAL, false},
    {"imperial pint", "pint", MEASURES_IMPERIAL, false},
    {"imperial gallon", "gallon", MEASURES_IMPERIAL, false},
    {"g", "g", MEASURES_METRIC, true},
    {"kg", "kg", MEASURES_METRIC, true},
    {"oz", "oz", MEASURES_METRIC, true},
    {"lb", "lb", MEASURES_METRIC, true},
};

static void offer_units(const struct sheet *sheet, bool mass)
{
    struct library *library = sheet->context->formulary->library;
    for (size_t i = 0; i < sizeof offered_units / sizeof *offered_units; i++) {
        const struct offered_unit *offered = &offered_units[i];
        struct name *name = offered->mass == mass ? names_find(library->names, text_from(offered->name)) : NULL;
        const struct unit *unit = name == NULL ? NULL : library_unit(library, name);
        if (unit == NULL) { /* a library of the user's own may do without it */
            continue;
        }
        struct unit_reading reading = library_read_unit(unit, offered->measures, !mass);
        if (reading.answer == UNIT_GOOD && reading.dimension == (mass ? DIMENSION_MASS : DIMENSION_VOLUME)) {
            page_batch_unit(sheet->page, text_from(offered->shown), reading.factor);
        }
    }
}

static void set_batch(const struct sheet *sheet)
{
    const struct part *first = sheet->formula->parts;
    bool mass;
    double makes = formula_makes(sheet->formula, &mass);
    if (isnan(makes) || makes <= 0) {
        return;
    }
    double size = formula_makes(sheet->batch->formula, NULL);
    struct page_step *graduate_steps = ARENA_ARRAY(sheet->page->arena, struct page_step, GRADUATES);
    for (size_t i = 0; i < GRADUATES; i++) {
        graduate_steps[i] = (struct page_step){graduates[i].up_to, graduates[i].step};
    }
    struct page_batch batch = {.makes = makes,
                               .by_mass = mass,
                               .of = first->name == NULL ? (struct text){0}
                                                         : page_format(sheet->page, "part %.*s", TEXT_ARGUMENTS(first->name->spelling)),
                               .scale = sheet->scale,
                               .unit = mass ? (size < 1000 ? TEXT("g") : TEXT("kg")) : size < 1000 ? TEXT("mL") : TEXT("L"),
                               .balance = sheet->batch->scales->balance,
                               .graduate = sheet->batch->scales->graduate,
                               .rough = PRACTICE_ROUGH_SHARE,
                               .heavy = PRINT_HEAVY,
                               .volume_steps = graduate_steps,
                               .volume_step_count = GRADUATES};
    page_set_batch(sheet->page, &batch);
    offer_units(sheet, mass);
}

static void add_batch_fact(const struct sheet *sheet)
{
    struct page *page = sheet->page;
    const struct part *first = sheet->formula->parts;
    if (sheet->formula->part_count != 1 || isnan(first->makes)) {
        return;
    }
    struct page_words batch = sheet_volume(sheet, first->makes);
    struct page_words scaled = page_compose(page, "{} = {} x the formula as written ({})", batch, sheet_figure(sheet, PAGE_FIGURE_TIMES, 1),
                                            page_plain(print_volume(sheet->context, page, first->makes)));
    struct page_words plain = page_compose(page, "{}, as the formula is written", batch);
    const double bounds[] = {0, 1 - SHEET_AS_WRITTEN, 1 + SHEET_AS_WRITTEN, INFINITY};
    for (size_t i = 0; i < 3; i++) {
        page_fact_strong(page_add_fact_when(page, bounds[i], bounds[i + 1], TEXT("batch"), i == 1 ? plain : scaled));
    }
}

void sheet_add_head(const struct sheet *sheet)
{
    struct page *page = sheet->page;
    const struct formula *formula = sheet->formula;
    set_batch(sheet);
    page_set_title(page, formula->title.length > 0 ? formula->title : TEXT("Untitled"));
    struct buffer purpose;
    buffer_start(&purpose, page->arena);
    buffer_text(&purpose, formula->kind.length > 0 ? formula->kind : TEXT("formula"));
    for (const struct word *word = formula->purposes; word != NULL; word = word->next) {
        buffer_string(&purpose, word == formula->purposes ? " for " : word->next == NULL ? " and " : ", ");
        buffer_text(&purpose, word->name->spelling);
    }
    page_set_subtitle(page, page_format(page, "Mixing sheet: %s", buffer_finish(&purpose)));
    add_batch_fact(sheet);
    sheet_note_shelf(sheet);
    if (formula->variant_of != NULL) {
        page_add_fact(page, TEXT("variant of"), formula->variant_of->title);
    }
    if (formula->source.length > 0) {
        page_add_fact(page, TEXT("after"), formula->source);
    }
    for (const struct remark *note = formula->notes; note != NULL; note = note->next) {
        page_add_fact(page, TEXT("note"), note->text);
    }
    page_set_source(page, text_from(formula->declaration->file->name));
    if (sheet->context->date != NULL) {
        page_set_date(page, text_from(sheet->context->date));
    }
    report_caution(page);
}
