/* A batch of a formula as its declaration for the diary. */
#include "session/reports.h"

#include "base/number.h"
#include "base/shown.h"
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

static enum potash_status record(struct potash *potash, const char *diary, size_t length, struct potash_output *output)
{
    if (potash->context.date == NULL) {
        return session_unusable(potash, "a batch is mixed on a day; give it with --date 2026-03-04");
    }
    const struct recorded recorded = find_recorded(potash);
    const struct formula *const formula = recorded.formula;
    const struct text title = recorded.title;
    if (formula == NULL) {
        return potash->message != NULL ? POTASH_UNUSABLE : POTASH_FAULTY;
    }
    const struct syntax_file *taken = diary == NULL ? NULL : read_diary(potash, diary, length);
    struct text id = batches_new_id(&potash->batches, &potash->arena, title, taken);
    struct buffer out;
    buffer_start(&out, &potash->arena);
    buffer_format(&out, "batch \"%.*s\" of \"%.*s\"\n    mixed %s\n", TEXT_ARGUMENTS(id), TEXT_ARGUMENTS(title), potash->context.date);
    const struct part *mixed = report_batch(&potash->context, formula)->formula->parts;
    if (!isnan(mixed->makes)) {
        buffer_format(&out, "    made  %s\n", made(potash, mixed->makes));
    } else if (!isnan(mixed->makes_mass)) {
        buffer_format(&out, "    made  %s g\n", number_print(&potash->arena, mixed->makes_mass, 3));
    }
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
