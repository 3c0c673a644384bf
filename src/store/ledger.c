/* What batches took: the lines that say so, and the bottles as accounts.
 *
 * A bottle is drawn from by the batches that say so, and by those that say nothing of a stock or solution that their formula wants: they
 * come by the day of mixing, and each takes of the bottle that keeps the shortest and still holds enough. */
#include "store/ledger.h"

#include "base/number.h"
#include "store/reading.h"

#include <math.h>
#include <stdlib.h>

/* ---- lines ---- */

static void say_amount(struct checker *checker, const struct quantity *quantity, const char *message, const char *example)
{
    diagnostics_help(checker->diagnostics, check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, quantity->span, "%s", message), "write it as in: %s",
                     example);
}

/* g or mL; false when it is neither, which has been reported. */
static bool read_amount(struct checker *checker, const struct took_statement *statement, struct took *took)
{
    const bool bottled = took->bottle_id.length > 0;
    const bool liquid = bottled || took->material == NULL || (took->form != NULL && took->form->density > 0);
    const char *example = bottled ? "took phenidone 18 mL of batch \"2026-02-20 a\"" : "took metol 1.52 g of lot \"C-77\"";
    struct measure reading = check_quantity(checker, statement->quantity, liquid);
    if (reading.fault != MEASURE_GOOD) {
        return false;
    }
    took->by_volume = reading.dimension == DIMENSION_VOLUME;
    if ((took->by_volume && !liquid) || (!took->by_volume && reading.dimension != DIMENSION_MASS)) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_UNIT_MISMATCH, statement->quantity->span,
                                                  took->by_volume ? "a solid is weighed, unless it comes out of a bottle"
                                                                  : "what was taken is a weight or a volume");
        diagnostics_help(checker->diagnostics, diagnostic, "write it as in: %s", example);
        return false;
    }
    if (!(reading.low > 0)) {
        say_amount(checker, statement->quantity, "what was taken is more than nothing", example);
        return false;
    }
    took->amount = reading.low;
    return true;
}

void ledger_read_took(struct checker *checker, struct mixing *batch, const struct took_statement *statement)
{
    struct took *took = ARENA_NEW(checker->arena, struct took);
    *took = (struct took){.statement = statement, .title = text_trim(statement->title), .lot = text_trim(statement->lot),
                          .bottle_id = text_trim(statement->batch), .day = batch->mixed};
    double temperature = NAN;
    if (statement->material != NULL && !check_material(checker, statement->material, &took->material, &took->form, &temperature)) {
        return;
    }
    if (took->material != NULL && took->form == NULL) {
        took->form = took->material->usual;
    }
    if (statement->date.length > 0) {
        took->day = store_read_day(checker, statement->date, statement->date_span);
    }
    if (!read_amount(checker, statement, took)) {
        return;
    }
    if (statement->base.kind == SAY_TOPPED_UP) {
        batch->topped_up += took->amount;
        *(batch->toppings == NULL ? &batch->toppings : &batch->last_topping->next) = took;
        batch->last_topping = took;
    } else {
        *(batch->tooks == NULL ? &batch->tooks : &batch->last_took->next) = took;
        batch->last_took = took;
    }
}

/* ---- what is written down of bottles ---- */

static void take_out(struct arena *arena, struct mixing *bottle, long day, double volume, struct span span, const struct mixing *by, bool calculated)
{
    struct batch_use *use = ARENA_NEW(arena, struct batch_use);
    *use = (struct batch_use){.day = day, .volume = volume, .span = span, .by = by, .calculated = calculated};
    *(bottle->uses == NULL ? &bottle->uses : &bottle->last_use->next) = use;
    bottle->last_use = use;
    bottle->taken += volume;
}

static bool say_wrong_bottle(struct checker *checker, const struct took *took, struct mixing *bottle)
{
    struct span span = took->statement->from_span;
    if (bottle == NULL) {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_FORMULA_UNKNOWN, span, "no batch is called \"%.*s\"", TEXT_ARGUMENTS(took->bottle_id));
        diagnostics_help(checker->diagnostics, diagnostic, "name a batch that stands in the diary, or a lot of the shelf: of lot \"C-77\"");
        return true;
    }
    bool early = took->day != CALENDAR_NO_DAY && bottle->mixed != CALENDAR_NO_DAY && took->day < bottle->mixed;
    bool late = took->day != CALENDAR_NO_DAY && bottle->discarded != CALENDAR_NO_DAY && took->day > bottle->discarded;
    if (early || late) {
        struct text day = calendar_print(checker->arena, early ? bottle->mixed : bottle->discarded);
        struct diagnostic *diagnostic = check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, span,
                                                  early ? "batch \"%.*s\" was mixed later, on %.*s" : "batch \"%.*s\" was discarded before, on %.*s",
                                                  TEXT_ARGUMENTS(bottle->id), TEXT_ARGUMENTS(day));
        diagnostics_relate(checker->diagnostics, diagnostic, bottle->declaration->title_span, "it is here");
        return true;
    }
    return false;
}

/* One that says more than was there has been mistaken somewhere, and is not counted. */
static bool say_overdrawn(struct checker *checker, const struct took *took, const struct mixing *bottle)
{
    double there = bottle->made + bottle->topped_up;
    if (isnan(there) || bottle->taken + took->amount <= there * 1.005) {
        return false;
    }
    const char *unit = bottle->dry ? "g" : "mL";
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, took->statement->quantity->span, "with this, %s %s have been taken out of batch \"%.*s\" of %s %s",
                  number_print_significant(checker->arena, bottle->taken + took->amount, 5), unit, TEXT_ARGUMENTS(bottle->id),
                  number_print_significant(checker->arena, there, 5), unit);
    diagnostics_relate(checker->diagnostics, diagnostic, bottle->declaration->title_span, "it is here");
    return true;
}

static void settle_written(struct batches *batches, struct checker *checker, struct mixing *batch, struct took *list)
{
    for (struct took *took = list; took != NULL; took = took->next) {
        took->day = took->statement->base.kind == SAY_TOOK ? batch->mixed : took->day;
        if (took->bottle_id.length == 0) {
            continue;
        }
        struct mixing *bottle = batches_bottle(batches, took->bottle_id);
        if (say_wrong_bottle(checker, took, bottle) || say_overdrawn(checker, took, bottle)) {
            batch->faulty = true;
            continue;
        }
        took->bottle = bottle;
        take_out(checker->arena, bottle, took->day, took->amount, took->statement->base.span, batch, false);
    }
}

/* ---- what is calculated ---- */

/* What a batch draws on while its needs are counted. */
struct drawing_on {
    struct batches *batches;
    struct mixing *batch;
    bool asked;      /* the formula draws on stocks or solutions at all */
    double scale;    /* of the batch */
};

static const struct took *took_of(const struct mixing *batch, const struct step *step)
{
    const struct took *took = batch->tooks;
    while (took != NULL && !(step->how == ADD_SOLUTION ? step->solution_of != NULL && text_equal(took->title, step->solution_of->title)
                                                       : took->material != NULL && step->material != NULL &&
                                                             took->material->entry == step->material->entry)) {
        took = took->next;
    }
    return took;
}

/* mL out of a bottle that are so many mL of what a step takes; NAN when the bottle holds another part. */
static double volume_from(const struct mixing *bottle, const struct step *step, double volume)
{
    const struct part *part = step->how == ADD_SOLUTION ? step->solution : bottle->formula->parts;
    if (bottle->part != NULL || bottle->formula->part_count <= 1) {
        return bottle->part == NULL || bottle->part == part ? volume : NAN;
    }
    return part != NULL && part->makes > 0 ? volume / part->makes * bottle->formula->parts->makes : NAN;
}

double mixing_left(const struct mixing *batch)
{
    return fmax(batch->made + batch->topped_up - batch->taken, 0);
}

/* The bottles of a formula that may still be drawn on, by the order of the files; what is gone for good is taken out. */
static void look_over(struct arena *arena, struct batch_list *list, long day)
{
    if (list->open == NULL) {
        list->open = ARENA_ARRAY(arena, struct mixing *, list->count + 1);
        for (struct mixing *bottle = list->first; bottle != NULL; bottle = bottle->next_alike) {
            if (!bottle->faulty && bottle->mixed != CALENDAR_NO_DAY) {
                list->open[list->open_count++] = bottle;
            }
        }
    }
    size_t kept = 0;
    for (size_t i = 0; i < list->open_count; i++) {
        struct mixing *bottle = list->open[i];
        bool discarded = bottle->discarded != CALENDAR_NO_DAY && bottle->discarded <= day;
        long keeps = mixing_standing(bottle, day, NULL).discard;
        bool gone = discarded || !(mixing_left(bottle) >= 1) || (keeps != CALENDAR_NO_DAY && keeps < day);
        list->open[kept] = bottle;
        kept += !gone;
    }
    list->open_count = kept;
}

struct mixing *ledger_bottle(struct batches *batches, const struct step *step, double volume, long day, double *poured)
{
    const struct formula *formula = step->solution_of;
    if (step->how == ADD_STOCK) {
        const struct stock *stock = formulary_stock(batches->formulary, step);
        formula = stock == NULL ? NULL : batches_stock(batches, stock_title(batches->formulary->arena, stock));
    }
    struct batch_list *list = formula == NULL ? NULL : (struct batch_list *)batches_of(batches, formula);
    if (list == NULL || isnan(volume)) {
        return NULL;
    }
    look_over(batches->formulary->arena, list, day);
    struct mixing *best = NULL;
    long soonest = CALENDAR_NO_DAY;
    for (size_t i = 0; i < list->open_count; i++) {
        struct mixing *bottle = list->open[i];
        const struct mixing_standing standing = mixing_standing(bottle, day, NULL);
        double wanted = volume_from(bottle, step, volume);
        bool enough = bottle->mixed <= day && standing.state == BATCH_IN_USE && wanted <= mixing_left(bottle) * (1 + 1e-9);
        bool sooner = best == NULL || (standing.discard != CALENDAR_NO_DAY && (soonest == CALENDAR_NO_DAY || standing.discard < soonest));
        if (enough && sooner) {
            best = bottle;
            soonest = standing.discard;
            *poured = wanted;
        }
    }
    return best;
}

/* What is written down is not calculated; what is drawn from a bottle was mixed with that. */
static bool is_drawn(void *context, const struct step *step, double scale)
{
    struct drawing_on *drawing = context;
    drawing->asked = true;
    if (took_of(drawing->batch, step) != NULL) {
        return true;
    }
    double poured = NAN;
    struct mixing *bottle = ledger_bottle(drawing->batches, step, step->volume * scale * drawing->scale, drawing->batch->mixed, &poured);
    if (bottle != NULL) {
        take_out(drawing->batches->formulary->arena, bottle, drawing->batch->mixed, poured, step->span, drawing->batch, true);
    }
    return bottle != NULL;
}

static bool is_written(const struct mixing *batch, const struct need *need)
{
    const struct took *took = batch->tooks;
    while (took != NULL && (took->material == NULL || took->material->entry != need->material->entry)) {
        took = took->next;
    }
    return took != NULL;
}

/* What is not written down, of the formula as it is written.  `list` keeps what all batches of it need that draw on nothing. */
static void calculate_needs(struct batches *batches, struct mixing *batch)
{
    struct batch_list *list = (struct batch_list *)batches_of(batches, batch->formula);
    if (list->needs != NULL && batch->part == NULL && batch->tooks == NULL) {
        batch->needs = list->needs;
        return;
    }
    struct drawing_on drawing = {batches, batch, false, mixing_scale(batch)};
    struct need *needs = needs_of_formula_beside(batches->formulary, batch->formula, batch->part, is_drawn, &drawing);
    struct need **at = &needs;
    while (*at != NULL) {
        if (is_written(batch, *at)) {
            *at = (*at)->next;
        } else {
            at = &(*at)->next;
        }
    }
    batch->needs = needs;
    if (batch->part == NULL && batch->tooks == NULL && !drawing.asked) {
        list->needs = needs;
    }
}

/* ---- all of it ---- */

static int by_day(const void *one, const void *other)
{
    const struct mixing *a = *(struct mixing *const *)one;
    const struct mixing *b = *(struct mixing *const *)other;
    return a->mixed != b->mixed ? (a->mixed < b->mixed ? -1 : 1) : (a->place > b->place) - (a->place < b->place);
}

void batches_settle(struct batches *batches)
{
    struct formulary *formulary = batches->formulary;
    struct formula stand_in = {0}; /* what is said is said of a formula; here it is the batch */
    struct checker checker = store_checker(formulary, &stand_in);
    batches->by_day = ARENA_ARRAY(formulary->arena, struct mixing *, batches->count + 1);
    for (struct mixing *batch = batches->first; batch != NULL; batch = batch->next) {
        stand_in.declaration = batch->declaration;
        if (!batch->faulty) {
            settle_written(batches, &checker, batch, batch->tooks);
            settle_written(batches, &checker, batch, batch->toppings);
        }
        batch->place = batches->sound_count;
        bool sound = !batch->faulty && batch->mixed != CALENDAR_NO_DAY && batch->formula != NULL && !batch->formula->faulty &&
                     batch->made > 0 && mixing_scale(batch) > 0;
        if (sound) {
            batches->by_day[batches->sound_count++] = batch;
        }
    }
    qsort(batches->by_day, batches->sound_count, sizeof *batches->by_day, by_day);
    for (size_t i = 0; i < batches->sound_count; i++) {
        calculate_needs(batches, batches->by_day[i]);
    }
    for (struct batch_list *list = batches->formulas; list != NULL; list = list->hh.next) {
        list->open = NULL; /* who asks next may ask for an earlier day */
        list->open_count = 0;
    }
}
