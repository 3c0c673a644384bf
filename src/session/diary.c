/* A batch of a formula as its declaration for the diary. */
#include "session/reports.h"

#include "base/number.h"
#include "base/shown.h"
#include "formula/fingerprint.h"
#include "store/ledger.h"
#include "syntax/parse.h"

#include <math.h>

/* What is to be recorded. */
struct recorded {
    const struct formula *formula; /* NULL, mostly with a message, when it cannot be */
    struct text title;
};

/* The one formula, or stock as a formula, of the session. */
static struct recorded find_recorded(struct potash *potash)
{
    const struct formula *formula = session_next(potash, NULL);
    const struct stock *stock = session_next_stock(potash, NULL);
    bool several = formula != NULL ? session_next(potash, formula) != NULL
                                   : stock != NULL && session_next_stock(potash, stock) != NULL;
    if (several) {
        session_unusable(potash, "there are several formulas in these files; name the one that was mixed with --title");
        return (struct recorded){0};
    }
    if (formula != NULL || stock == NULL) {
        bool ready = session_ready(potash) == POTASH_GOOD;
        return ready ? (struct recorded){formula, formula->title} : (struct recorded){0};
    }
    return (struct recorded){stock_formula(&potash->formulary, stock), stock_title(&potash->arena, stock)};
}

/* A whole number of litres in litres, all else in millilitres: exact, since it is read again. */
static const char *made(struct potash *potash, double millilitres)
{
    bool litres = fmod(millilitres, 500) == 0 && millilitres >= 1000;
    return litres ? arena_format(&potash->arena, "%s L", number_print(&potash->arena, millilitres / 1000, 1))
                  : arena_format(&potash->arena, "%s mL", number_print(&potash->arena, millilitres, 3));
}

static const struct syntax_file *read_diary(struct potash *potash, const char *diary, size_t length)
{
    struct diagnostics aside; /* what is wrong in the diary is told when it is read as a file */
    diagnostics_start(&aside, &potash->arena, &potash->sources);
    char *copy = arena_copy(&potash->arena, diary, length);
    struct source_file *source = source_add(&potash->sources, "diary", copy, length, false);
    return source == NULL ? NULL : syntax_parse(&potash->arena, &potash->names, &aside, source, false);
}

/* ---- what it takes ---- */

/* "1.52 g": to what the scale shows. */
static const char *weight(struct potash *potash, double grams)
{
    const double step = potash->context.scales.balance;
    double shown = step > 0 ? round(grams / step) * step : grams;
    return arena_format(&potash->arena, "%s g", number_print(&potash->arena, shown > 0 ? shown : grams, 4));
}

static const char *volume(struct potash *potash, double millilitres)
{
    return arena_format(&potash->arena, "%s mL", number_print(&potash->arena, millilitres, 2));
}

static void put_material(struct buffer *out, const struct material *material, const struct form *form)
{
    buffer_format(out, "    took  %.*s", TEXT_ARGUMENTS(material->name));
    if (form != NULL && form->label.length > 0) {
        buffer_format(out, " (%.*s)", TEXT_ARGUMENTS(form->label));
    }
}

/* What is poured from a bottle, in millilitres; nothing where no bottle stands ready, since it is not known then what it comes from. */
static void put_poured(struct potash *potash, struct buffer *out, const struct step *step, long today)
{
    double poured;
    const struct mixing *bottle = ledger_bottle(&potash->batches, step, step->volume, today, &poured);
    if (bottle == NULL) {
        return;
    }
    if (step->how == ADD_STOCK) {
        put_material(out, step->material, NULL);
    } else {
        buffer_format(out, "    took  \"%.*s\"", TEXT_ARGUMENTS(step->solution_of->title));
    }
    buffer_format(out, " %s of batch \"%.*s\"\n", volume(potash, poured), TEXT_ARGUMENTS(bottle->id));
}

/* A pack with a lot to name it by: the one that is used first of those that hold the form, and enough of it. */
static const struct pack *lot_of(const struct potash *potash, const struct step *step)
{
    const struct pack *pack = store_usable(&potash->store, step->material);
    while (pack != NULL && !(pack->form == step->form && pack->lot.length > 0 && pack_grams(pack, pack->left) >= step->mass)) {
        pack = pack->next_usable;
    }
    return pack;
}

static void put_taken(struct potash *potash, struct buffer *out, const struct batch_step *taken)
{
    const struct step *step = taken->step;
    const struct drawn *drawn = taken->taking == NULL ? NULL : taken->taking->drawn;
    for (const struct drawn *at = taken->taking != NULL && taken->taking->several ? drawn : NULL; at != NULL; at = at->next) {
        put_material(out, at->pack->material, at->pack->form);
        buffer_format(out, " %s", weight(potash, at->grams / at->pack->purity));
        buffer_format(out, at->pack->lot.length > 0 ? " of lot \"%.*s\"\n" : "\n", TEXT_ARGUMENTS(at->pack->lot));
    }
    if (taken->taking != NULL && taken->taking->several) {
        return;
    }
    const struct pack *pack = drawn != NULL ? drawn->pack : lot_of(potash, step);
    put_material(out, step->material, step->form);
    buffer_format(out, " %s", step->how == ADD_BY_VOLUME && taken->poured > 0 ? volume(potash, taken->poured) : weight(potash, step->mass));
    if (pack != NULL && pack->lot.length > 0) {
        buffer_format(out, " of lot \"%.*s\"", TEXT_ARGUMENTS(pack->lot));
    }
    buffer_character(out, '\n');
}

static void put_tooks(struct potash *potash, struct buffer *out, const struct batch *batch, long today)
{
    for (size_t i = 0; i < batch->part_count; i++) {
        for (size_t j = 0; j < batch->parts[i].step_count; j++) {
            const struct batch_step *taken = &batch->parts[i].steps[j];
            const struct step *step = taken->step;
            bool other = step->how == ADD_SOLUTION && step->solution_of != NULL && step->solution_of != batch->formula &&
                         step->solution_of != batch->written;
            if (step->how == ADD_STOCK || other) {
                put_poured(potash, out, step, today);
            } else if ((step->how == ADD_BY_MASS || step->how == ADD_BY_VOLUME) && step->material != NULL && !step->material->is_water && step->mass > 0) {
                put_taken(potash, out, taken);
            }
        }
    }
}

static enum potash_status record(struct potash *potash, const char *diary, size_t length, struct potash_output *output)
{
    if (potash->context.date == NULL) {
        return session_unusable(potash, "a batch is mixed on a day; give it with --date 2026-03-04");
    }
    const char *who = potash->options.by;
    if (who != NULL && strpbrk(who, "\"\r\n") != NULL) {
        return session_unusable(potash, "--by takes a name without quotes, such as \"R. K.\"");
    }
    const struct recorded recorded = find_recorded(potash);
    const struct formula *const formula = recorded.formula;
    const struct text title = recorded.title;
    if (formula == NULL) {
        return potash->message != NULL ? POTASH_UNUSABLE : POTASH_FAULTY;
    }
    const struct syntax_file *taken = diary == NULL ? NULL : read_diary(potash, diary, length);
    const char *date = potash->context.date;
    struct text by = who == NULL ? (struct text){0} : text_trim(text_from(who));
    struct text id = batches_new_id(&potash->batches, &potash->arena, text_from(date), by, taken);
    struct buffer out;
    buffer_start(&out, &potash->arena);
    buffer_format(&out, "batch \"%.*s\" of \"%.*s\"\n    mixed %s", TEXT_ARGUMENTS(id), TEXT_ARGUMENTS(title), date);
    if (by.length > 0) {
        buffer_format(&out, " by \"%.*s\"", TEXT_ARGUMENTS(by));
    }
    const struct batch *batch = report_batch_of_shelf(&potash->context, formula);
    const struct part *mixed = batch->formula->parts;
    buffer_string(&out, "\n");
    if (!isnan(mixed->makes)) {
        buffer_format(&out, "    made  %s\n", made(potash, mixed->makes));
    } else if (!isnan(mixed->makes_mass)) {
        buffer_format(&out, "    made  %s g\n", number_print(&potash->arena, mixed->makes_mass, 3));
    }
    buffer_format(&out, "    mixed as %.*s\n", TEXT_ARGUMENTS(formula_fingerprint(&potash->arena, formula)));
    put_tooks(potash, &out, batch, calendar_day(text_from(date)));
    buffer_finish(&out);
    if (!shown_is_plain((struct text){out.bytes, out.length})) { /* the diary must name the formula as it is called */
        return session_unusable(potash, "the title holds a sign that is not seen; take it out before a batch is recorded");
    }
    return session_put_text(&out, output);
}

enum potash_status potash_record(struct potash *potash, const char *diary, size_t length, struct potash_output *output)
{
    if (session_has_forms(potash) != POTASH_GOOD) {
        return POTASH_UNUSABLE;
    }
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    return record(potash, diary, length, output);
}
