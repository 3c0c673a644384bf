/* The lines of a mixing sheet, in mixing order: what is printed of each addition and of what is done between two. */
#include "report/sheet/model.h"

#include "base/number.h"
#include "practice/practice.h"

#include <math.h>

struct sheet_note *sheet_note(const struct sheet *sheet, struct sheet_note **list, struct page_words words)
{
    while (*list != NULL) {
        list = &(*list)->next;
    }
    *list = ARENA_NEW(sheet->page->arena, struct sheet_note);
    (*list)->words = words;
    return *list;
}

void sheet_note_when(const struct sheet *sheet, struct sheet_note **list, double from, double below, struct page_words words)
{
    sheet_note(sheet, list, words)->when = (struct page_when){true, from, below};
}

/* The amount of a line as it was written; of the final volume the figure alone. */
static struct text written_amount_of(const struct sheet *sheet, const struct step *step)
{
    struct span span = step->amount_span;
    if (step->how == ADD_TO_MAKE && step->statement != NULL && step->statement->kind == SAY_ADDITION) {
        const struct amount_words *amount = ((const struct addition_statement *)step->statement)->amount;
        span = amount != NULL && amount->quantity != NULL ? amount->quantity->span : span;
    }
    return print_written(sheet->page, source_text(sheet->context->formulary->sources, span));
}

/* The unit in which an amount was written is not the one that the sheet prints: the reader should see both. */
static bool in_other_units(const struct sheet *sheet, const struct step *step)
{
    struct measure measure = step_measure(sheet->context->formulary->library, sheet->formula, step);
    bool base = measure.dimension == DIMENSION_MASS || measure.dimension == DIMENSION_VOLUME;
    return step_is_addition(step) && measure.fault == MEASURE_GOOD && !(base && measure.unit->metric && measure.second == NULL);
}

/* Warnings that the compiler has for the line stand beside it.  Whether one of them doubts the amount. */
static bool add_warnings(const struct sheet *sheet, struct sheet_line *line)
{
    const struct diagnostics *diagnostics = sheet->context->formulary->diagnostics;
    const struct span span = line->at->one->span;
    bool doubted = false;
    for (size_t i = diagnostics_from(diagnostics, span.begin);
         i < diagnostics->count && diagnostics->items[i]->span.begin < span.end; i++) {
        const struct diagnostic *item = diagnostics->items[i];
        /* The line prints the range, and the last row the volume that is assumed; what is too small to weigh depends on the batch
         * and is said by note_small_weight. */
        bool plain = item->id == DIAG_RANGE_GIVEN || item->id == DIAG_FINAL_VOLUME_ASSUMED || item->id == DIAG_TOO_SMALL_TO_WEIGH;
        if (!plain) {
            sheet_note(sheet, &line->notes, page_plain(text_from(diagnostic_message(sheet->page->arena, item))));
        }
        doubted = doubted || item->id == DIAG_AMOUNT_UNUSUAL;
    }
    return doubted;
}

/* A weight or a volume, with the range in which the formula gives it. */
static struct page_words amount_of(const struct sheet *sheet, const struct step *step)
{
    bool by_mass = step->how == ADD_BY_MASS;
    double amount = by_mass ? step->mass : step->volume;
    return print_figure(sheet->context, sheet->page, by_mass ? PAGE_FIGURE_MASS : PAGE_FIGURE_VOLUME, amount,
                        step->high > 1 ? amount * step->high : 0, sheet->scale);
}

static void set_amount(const struct sheet *sheet, struct sheet_line *line)
{
    struct page *page = sheet->page;
    const struct step *step = line->at->one;
    struct text how = {0};
    line->amount = step->how == ADD_TO_MAKE     ? page_compose(page, "to {}", sheet_volume(sheet, step->volume))
                   : step->how == ADD_AS_NEEDED ? page_plain(TEXT("as needed"))
                                                : amount_of(sheet, step);
    switch (step->how) {
    case ADD_BY_MASS:
        how = TEXT("weigh");
        break;
    case ADD_BY_VOLUME:
        how = step->approximate ? TEXT("count, about") : TEXT("measure");
        break;
    case ADD_SOLUTION:
        how = TEXT("measure");
        break;
    case ADD_STOCK:
        line->how = page_compose(page, "of {}\u00A0% stock ({})", page_plain(text_from(number_print_significant(page->arena, step->stock_percent, 3))),
                                 sheet_mass(sheet, step->mass));
        return;
    case ADD_TO_MAKE:
        if (line->at->poured > 0) {
            line->how = page_compose(page, "to the mark, about {}", sheet_volume(sheet, line->at->poured_one));
            return;
        }
        how = TEXT("to the mark");
        break;
    case ADD_WATER:
    case ADD_AS_NEEDED:
    default:
        break;
    }
    line->how = page_plain(how);
}

/* Says so of the batches from `from` up to but without `below` times the formula; not of the formula as it is written where that
 * gives proportions. */
static void note_weight_between(const struct sheet *sheet, struct sheet_line *line, double from, double below, double percent, bool proportions)
{
    struct page *page = sheet->page;
    const struct step *step = line->at->one;
    struct page_words note = page_compose(page, "{} cannot be weighed well: {} on a scale that shows {}{}", sheet_mass(sheet, step->mass),
                                          sheet_figure(sheet, PAGE_FIGURE_MASS_ERROR, step->mass),
                                          page_plain(print_mass(sheet->context, page, sheet->batch->scales->balance)),
                                          sheet_stock_advice(sheet, step, percent));
    if (!proportions || below <= 1 || from > 1) {
        sheet_note_when(sheet, &line->notes, from, below, note);
        return;
    }
    sheet_note_when(sheet, &line->notes, from, 1 - SHEET_AS_WRITTEN, note);
    sheet_note_when(sheet, &line->notes, 1 + SHEET_AS_WRITTEN, below, note);
}

/* Says of the batches that are too small for it that the weight is (practice_check_formula gives the diagnostic). */
static void note_small_weight(const struct sheet *sheet, struct sheet_line *line)
{
    const struct report_context *context = sheet->context;
    const struct step *step = line->at->one;
    if (sheet->formula->silenced[DIAG_TOO_SMALL_TO_WEIGH] ||
        context->formulary->diagnostics->silenced[DIAG_TOO_SMALL_TO_WEIGH]) {
        return;
    }
    /* Other stocks are advised for other sizes. */
    bool proportions = isnan(context->make) && sheet->formula->parts->makes < PRACTICE_SMALLEST_BATCH;
    double percent;
    for (double high = practice_least_weight(sheet->batch->scales->balance); high > 0;) {
        double low = sheet_stock_range(sheet, step, high, &percent);
        note_weight_between(sheet, line, low / step->mass, high / step->mass, percent, proportions);
        high = low;
    }
}

static struct text addition_name(const struct sheet *sheet, const struct step *step)
{
    struct page *page = sheet->page;
    if (step->how == ADD_SOLUTION) {
        bool own = step->solution_of == sheet->formula && step->solution != NULL;
        return own ? page_format(page, "solution %.*s", TEXT_ARGUMENTS(step->solution->name->spelling))
                   : page_format(page, "\"%.*s\"", TEXT_ARGUMENTS(step->solution_of == NULL ? (struct text){0} : step->solution_of->title));
    }
    struct text name = print_material(page, step->material, step->form);
    if (!isnan(step->temperature)) {
        name = page_format(page, "%.*s at %.*s", TEXT_ARGUMENTS(name),
                           TEXT_ARGUMENTS(print_temperature(page, step->temperature, NAN)));
    }
    if (step->tails != NULL && step->tails->optional) {
        name = page_format(page, "%.*s, optional", TEXT_ARGUMENTS(name));
    }
    return name;
}

static void fill_addition(const struct sheet *sheet, const struct part *part, struct sheet_line *line, const struct dissolving *dissolving)
{
    const struct step *step = line->at->one;
    line->what = addition_name(sheet, step);
    set_amount(sheet, line);
    if (step->statement != NULL && in_other_units(sheet, step)) {
        line->written = written_amount_of(sheet, step);
    }
    if (step->how != ADD_WATER && step->how != ADD_TO_MAKE && step->material != NULL) {
        line->per_litre = step->how == ADD_BY_VOLUME && !isnan(line->at->grams_per_litre) ? part_per_litre(part, line->at->poured_one) : line->at->grams_per_litre;
    }
    if (step->tails != NULL && step->tails->note.length > 0) {
        sheet_note(sheet, &line->notes, page_plain(step->tails->note))->remark = true;
    }
    line->lots = sheet_lots(sheet, line->at);
    sheet_note_taking(sheet, line);
    sheet_note_dissolving(sheet, line, dissolving);
    bool doubted = add_warnings(sheet, line);
    if (step->how == ADD_BY_MASS && !step->from_parts && !doubted) {
        note_small_weight(sheet, line);
    }
}

static struct text working_step(struct page *page, const struct step *step)
{
    switch (step->kind) {
    case STEP_PINCH:
        return page_format(page, "a pinch of %.*s, taken from the amount below", TEXT_ARGUMENTS(step->material->name));
    case STEP_COOL:
        return page_format(page, "cool to %.*s", TEXT_ARGUMENTS(print_temperature(page, step->temperature, NAN)));
    case STEP_WARM:
        return page_format(page, "warm to %.*s", TEXT_ARGUMENTS(print_temperature(page, step->temperature, NAN)));
    case STEP_STAND:
        return page_format(page, "let stand %.*s", TEXT_ARGUMENTS(print_time(page, step->duration)));
    case STEP_FILTER:
        return TEXT("filter");
    case STEP_ADDITION:
    case STEP_DO:
    default:
        return step->text;
    }
}

void sheet_fill_part(const struct sheet *sheet, struct sheet_part *part)
{
    struct page *page = sheet->page;
    const struct batch_part *batch = part->batch;
    struct print_sum printed = {0};
    const struct dissolving *dissolving =
        part_dissolving(page->arena, sheet->context->formulary->library, batch->one, SHEET_FIRST_WATER);
    part->start_with = batch->water_last * SHEET_FIRST_WATER;
    part->lines = ARENA_ARRAY(page->arena, struct sheet_line, batch->step_count + 1);
    for (size_t i = 0; i < batch->step_count; i++) {
        struct sheet_line *line = &part->lines[i];
        const struct step *step = batch->steps[i].one;
        *line = (struct sheet_line){.at = &batch->steps[i], .per_litre = NAN};
        if (!step_is_addition(step)) {
            line->what = working_step(page, step);
            add_warnings(sheet, line);
            continue;
        }
        fill_addition(sheet, batch->one, line, dissolving);
        part->dissolved += step->how == ADD_BY_MASS;
        if (step->how == ADD_BY_MASS && step->mass > 0) {
            part->weighed_sum = measured_sum(part->weighed_sum, measured_in_steps(line->at->step->mass, sheet->batch->scales->balance));
            print_sum_add(sheet->context, page, &printed, step->mass, step->high > 1 ? step->mass * step->high : 0, sheet->scale);
            part->weighed_one += step->mass;
            part->weighed_count++;
        }
    }
    if (part->weighed_count > 1) {
        part->weighed = print_sum(page, &printed);
    }
    part->coming_out = part_coming_out(page->arena, sheet->context->formulary->library, batch->one);
}
