/* The shelf: what can be mixed, what to buy, what expires. */
#include "session/reports.h"

#include "report/shelf.h"

#include <math.h>

/* ---- what can be mixed ---- */

static const struct batch *sized(struct potash *potash, const struct formula *formula, double scale)
{
    return batch_make(&potash->arena, formula, scale, NULL, &potash->context.scales);
}

static void add_needs(struct potash *potash, struct basket *basket, const struct batch *batch)
{
    basket_add(&potash->arena, basket, needs_of_formula(&potash->formulary, batch->formula), 1);
}

static struct mixable *look_for(struct potash *potash, const struct batch *batch)
{
    struct mixable *mixable = ARENA_NEW(&potash->arena, struct mixable);
    mixable->batch = batch;
    mixable->found = store_find_all(&potash->store, needs_of_formula(&potash->formulary, batch->formula));
    mixable->how = FOUND_AS_WRITTEN;
    for (const struct found *found = mixable->found; found != NULL; found = found->next) {
        mixable->how = found->how > mixable->how ? found->how : mixable->how;
    }
    return mixable;
}

/* How much of a formula is asked for, as a factor of it; NAN, with a message, when it cannot be made so. */
static double wanted_scale(struct potash *potash, const struct formula *formula, const char *make)
{
    bool dry;
    double makes = formula_makes(formula, &dry);
    if (make == NULL) {
        return 1;
    }
    bool mass = false;
    double amount = session_read_make(potash, make, (struct stated){formula->measures, dry}, &mass);
    if (isnan(amount)) {
        return NAN;
    }
    if (mass != dry || !(makes > 0)) {
        session_unusable(potash, "--make: \"%.*s\" makes a %s, and %.80s is a %s", TEXT_ARGUMENTS(formula->title),
                         dry ? "weight" : "volume", make, mass ? "weight" : "volume");
        return NAN;
    }
    return batch_scale(formula, amount);
}

/* What --mix asks for: a title, or an amount of it. */
struct wanted {
    const char *title;
    const char *make;                /* NULL: as much as --make says, or one batch */
    const struct formula *formula;   /* NULL: of no formula */
};

/* "5 L of Saltmarsh brine".  A title that has "of" in it goes before. */
static struct wanted read_wanted(struct potash *potash, const char *words)
{
    struct wanted wanted = {words, NULL, formulary_find(&potash->formulary, text_from(words))};
    const char *of = strstr(words, " of ");
    if (wanted.formula == NULL && of != NULL && processes_find(&potash->processes, text_from(words)) == NULL) {
        wanted = (struct wanted){of + 4, arena_copy(&potash->arena, words, (size_t)(of - words)), NULL};
        wanted.formula = formulary_find(&potash->formulary, text_from(wanted.title));
    }
    wanted.make = wanted.make != NULL ? wanted.make : potash->options.make;
    return wanted;
}

/* The batch that a formula is looked at for: as much as is asked for, else its own.  `--make` alone is for all that it fits. */
static double mixable_scale(struct potash *potash, const struct formula *formula)
{
    const char *const *mix = potash->options.mix;
    for (size_t i = 0; mix != NULL && mix[i] != NULL; i++) {
        struct wanted wanted = read_wanted(potash, mix[i]);
        if (wanted.formula == formula) {
            return wanted_scale(potash, formula, wanted.make);
        }
    }
    bool fits = isnan(formula->parts->makes) == potash->context.make_is_mass && mix == NULL;
    return fits ? batch_scale(formula, potash->context.make) : 1;
}

/* Formulas that a file reads are the darkroom's as well as those in the files that were named. */
static enum potash_status look_for_all(struct potash *potash, struct shelf_view *view)
{
    struct mixable **end = &view->mixables;
    const char *title = potash->options.title;
    for (const struct formula *formula = potash->formulary.formulas; formula != NULL; formula = formula->next) {
        if (!formula->faulty && (title == NULL || text_is(formula->title, title))) {
            double scale = mixable_scale(potash, formula);
            if (isnan(scale)) {
                return POTASH_UNUSABLE;
            }
            *end = look_for(potash, sized(potash, formula, scale));
            end = &(*end)->next;
        }
    }
    return POTASH_GOOD;
}

/* ---- what to buy ---- */

/* What a process takes that no bottle has yet, for the rolls or sheets that are asked for (--rolls, --sheets), else for one load. */
static enum potash_status add_process(struct potash *potash, struct shelf_view *view, const struct process *process,
                                      struct basket *basket)
{
    const struct plan *plan = process_plan(&potash->arena, process, &potash->goods, potash->context.working);
    for (const struct demand *demand = plan_demands(&potash->arena, plan); demand != NULL; demand = demand->next) {
        const struct batch_list *bottles = batches_of(&potash->batches, demand->formula);
        double makes = demand->formula->parts->makes;
        double volume = process_provision(bottles, potash->store.today, demand).more;
        if (volume > 0 && makes > 0) {
            add_needs(potash, basket, sized(potash, demand->formula, volume / makes));
        }
    }
    struct text count = potash->goods.unit == NULL ? TEXT("one load") : text_from(potash->options.goods);
    view->wanted[view->wanted_count++] = text_from(arena_format(&potash->arena, "%.*s in the process %.*s", TEXT_ARGUMENTS(count),
                                                                TEXT_ARGUMENTS(process->title)));
    return POTASH_GOOD;
}

static enum potash_status add_wanted(struct potash *potash, struct shelf_view *view, const char *words, struct basket *basket)
{
    struct wanted wanted = read_wanted(potash, words);
    const struct formula *formula = wanted.formula;
    const struct process *process = formula == NULL ? processes_find(&potash->processes, text_from(wanted.title)) : NULL;
    if (process != NULL && !process->faulty) {
        return wanted.title == words
                   ? add_process(potash, view, process, basket)
                   : session_unusable(potash, "--mix: \"%.200s\" is a process; say how much with --rolls or --sheets", wanted.title);
    }
    if (formula == NULL) {
        struct text near = formulary_near_title(&potash->formulary, text_from(wanted.title));
        return near.length == 0 ? session_unusable(potash, "--mix: there is no formula and no process \"%.200s\" in these files", wanted.title)
                                : session_unusable(potash, "--mix: there is no formula \"%.200s\" in these files; did you mean \"%.*s\"?",
                                                   wanted.title, TEXT_ARGUMENTS(near));
    }
    if (formula->faulty) {
        return session_unusable(potash, "--mix: \"%.200s\" has errors", wanted.title);
    }
    double scale = wanted_scale(potash, formula, wanted.make);
    if (isnan(scale)) {
        return POTASH_UNUSABLE;
    }
    add_needs(potash, basket, sized(potash, formula, scale));
    view->wanted[view->wanted_count++] = text_from(
        wanted.make == NULL ? arena_format(&potash->arena, "one batch of %.*s", TEXT_ARGUMENTS(formula->title))
                            : arena_format(&potash->arena, "%s of %.*s", wanted.make, TEXT_ARGUMENTS(formula->title)));
    return POTASH_GOOD;
}

static enum potash_status make_list(struct potash *potash, struct shelf_view *view)
{
    struct basket basket = {0};
    const char *const *mix = potash->options.mix;
    size_t count = 0;
    while (mix != NULL && mix[count] != NULL) {
        count++;
    }
    view->asked = count > 0;
    view->wanted = ARENA_ARRAY(&potash->arena, struct text, count + 1);
    for (size_t i = 0; i < count; i++) {
        if (add_wanted(potash, view, mix[i], &basket) != POTASH_GOOD) {
            return POTASH_UNUSABLE;
        }
    }
    for (const struct mixable *mixable = view->mixables; mixable != NULL && !view->asked; mixable = mixable->next) {
        if (mixable->how > FOUND_OTHER_MATERIAL) {
            add_needs(potash, &basket, mixable->batch);
        }
    }
    view->lacks = shopping_list(&potash->store, &basket);
    return POTASH_GOOD;
}

/* ---- output ---- */

static enum potash_status put(struct potash *potash, const struct shelf_view *view, enum potash_format format, struct potash_output *output)
{
    struct buffer out;
    buffer_start(&out, &potash->arena);
    struct page_set set;
    switch (format) {
    case POTASH_JSON:
        return session_put_json(potash, report_shelf_json(view), output);
    case POTASH_CSV:
        report_shelf_csv(view, &out);
        return session_put_text(&out, output);
    case POTASH_ICAL:
        if (potash->store.today == CALENDAR_NO_DAY) {
            return session_unusable(potash, "a calendar says on which day it was made: leave out --date none");
        }
        report_shelf_ical(view, &out);
        return session_put_text(&out, output);
    default:
        page_set_start(&set, &potash->arena);
        report_shelf(view, page_set_add(&set));
        return session_put_pages(potash, &set, format, output);
    }
}

enum potash_status session_put_shelf(struct potash *potash, const char *about, enum potash_format format, struct potash_output *output)
{
    (void)about;
    struct shelf_view view = {.context = &potash->context, .store = &potash->store, .batches = &potash->batches,
                              .drawn_down = &potash->drawn_down, .horizon = potash->horizon};
    if (look_for_all(potash, &view) != POTASH_GOOD || make_list(potash, &view) != POTASH_GOOD) {
        return POTASH_UNUSABLE;
    }
    enum potash_status status = put(potash, &view, format, output);
    /* What is wrong elsewhere has been said; the rest of the shelf is there all the same. */
    return status == POTASH_GOOD && potash->diagnostics.errors > 0 ? POTASH_FAULTY : status;
}
