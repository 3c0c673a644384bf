/* Sessions of libpotash: taking files in and checking them. */
#include "session/session.h"

#include "base/shown.h"
#include "practice/practice.h"
#include "store/ledger.h"
#include "syntax/pieces.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

const char *potash_version(void)
{
    return POTASH_VERSION;
}

enum potash_status session_out_of_memory(struct potash *potash)
{
    json_decref(session_built(potash));
    opener_close(&potash->opener);
    potash->message = "out of memory";
    const struct arena *arena = potash->forms.over_limit ? &potash->forms : potash->trees.over_limit ? &potash->trees : &potash->arena;
    if (arena->over_limit) {
        snprintf(potash->over_limit, sizeof potash->over_limit, "this takes more than %zu MB of memory; read less at a time",
                 arena->limit / 1000000);
        potash->message = potash->over_limit;
    }
    return POTASH_UNUSABLE;
}

enum { MEMORY_AT_FIRST = 1000000000, MEMORY_FOR_BYTE = 1000 };

void session_allow(struct potash *potash, size_t bytes)
{
    size_t limit = potash->arena.limit;
    if (potash->options.memory == 0) {
        potash->arena.limit = bytes > (SIZE_MAX - limit) / MEMORY_FOR_BYTE ? SIZE_MAX : limit + bytes * MEMORY_FOR_BYTE;
    }
}

enum potash_status session_unusable(struct potash *potash, const char *format, ...)
{
    /* It may be called where no way back for failing allocations has been laid. */
    jmp_buf *outer = potash->arena.on_failure;
    jmp_buf here;
    if (setjmp(here) != 0) {
        potash->arena.on_failure = outer;
        return session_out_of_memory(potash);
    }
    potash->arena.on_failure = &here;
    va_list arguments;
    va_start(arguments, format);
    potash->message = shown_line(&potash->arena, text_from(arena_format_list(&potash->arena, format, arguments))).at;
    va_end(arguments);
    potash->arena.on_failure = outer;
    return POTASH_UNUSABLE;
}

static enum potash_status start(struct potash *potash, const struct session_texts *texts)
{
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    names_start(&potash->names, &potash->arena);
    source_start(&potash->sources, &potash->arena);
    diagnostics_start(&potash->diagnostics, &potash->arena, &potash->sources);
    potash->diagnostics.aside = &potash->aside;
    potash->diagnostics.text_only = potash->options.diagnostics_only && potash->options.diagnostics_as_text;
    if (potash->options.library == NULL && texts->library == NULL) {
        library_start(&potash->library, &potash->arena, &potash->names, &potash->sources, &potash->diagnostics);
        return POTASH_GOOD;
    }
    library_start_empty(&potash->library, &potash->arena, &potash->names, &potash->sources, &potash->diagnostics);
    enum potash_status status = POTASH_GOOD;
    for (size_t i = 0; i < texts->library_count; i++) {
        status = session_take_library(potash, &texts->library[i]) ? status : POTASH_UNUSABLE;
    }
    if (texts->library == NULL) {
        status = session_read_named(potash, potash->options.library, NULL, READ_FOR_LIBRARY);
        potash->opener.library = potash->opener.root;
    }
    if (status == POTASH_GOOD) {
        library_make_all(&potash->library, false);
    }
    return status;
}

struct potash *potash_open(const struct potash_options *options)
{
    return session_open(options, &(struct session_texts){0});
}

struct potash *session_open(const struct potash_options *options, const struct session_texts *texts)
{
    struct potash *potash = calloc(1, sizeof *potash);
    if (potash == NULL) {
        return NULL;
    }
    potash->options = options == NULL ? (struct potash_options){0} : *options;
    arena_start(&potash->arena);
    arena_start(&potash->forms);
    arena_start(&potash->trees);
    potash->arena.limit = potash->options.memory != 0 ? potash->options.memory : MEMORY_AT_FIRST;
    arena_start(&potash->aside);
    potash->aside.on_failure = &potash->failure;
    potash->arena.on_failure = &potash->failure;
    opener_start(&potash->opener, &potash->arena);
    potash->opener.anywhere = potash->options.allow_reads;
    potash->opener.at_hand = texts->at_hand;
    if (potash->options.fail_after > 0) {
        potash->arena.fail_after = potash->options.fail_after - 1;
        potash->aside.fail_after = potash->options.fail_after - 1;
    }
    if (start(potash, texts) == POTASH_UNUSABLE && potash->message == NULL) {
        potash->message = "the library could not be read";
    }
    return potash;
}

void potash_close(struct potash *potash)
{
    if (potash != NULL) {
        opener_close(&potash->opener);
        arena_release(&potash->aside);
        arena_release(&potash->forms);
        arena_release(&potash->trees);
        arena_release(&potash->arena);
        free(potash);
    }
}

static enum potash_status read_named(struct potash *potash, const char *path, const char *known_as, enum reading_for purpose)
{
    if (potash->message != NULL) {
        return POTASH_UNUSABLE;
    }
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    return session_read_named(potash, path, known_as, purpose);
}

enum potash_status potash_read(struct potash *potash, const char *path)
{
    return read_named(potash, path, NULL, READ_FOR_USER);
}

enum potash_status potash_read_as(struct potash *potash, const char *path, const char *known_as)
{
    return read_named(potash, path, known_as, READ_FOR_USER);
}

enum potash_status potash_read_shelf(struct potash *potash, const char *path)
{
    return read_named(potash, path, NULL, READ_FOR_SHELF);
}

enum potash_status potash_read_text(struct potash *potash, const char *name, const char *text, size_t length)
{
    if (potash->message != NULL) {
        return POTASH_UNUSABLE;
    }
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    return session_read_text(potash, name, (struct text){text, length}, NULL);
}

/* ---- checking ---- */

static void read_shelves(struct potash *potash)
{
    const char *date = potash->options.date;
    store_start(&potash->store, &potash->formulary, date == NULL ? CALENDAR_NO_DAY : calendar_day(text_from(date)));
    for (const struct syntax_list *item = potash->files; item != NULL; item = item->next) {
        store_add_file(&potash->store, item->file);
    }
}

/* What was mixed since the shelf was counted is taken off before anything asks what is left. */
static enum potash_status draw_down(struct potash *potash)
{
    const char *counted = potash->options.counted;
    long day = counted == NULL ? CALENDAR_NO_DAY : calendar_day(text_from(counted));
    if (counted != NULL && day == CALENDAR_NO_DAY) {
        return session_unusable(potash, "--counted: \"%.80s\" is no date; write it as 2026-03-04", counted);
    }
    batches_settle(&potash->batches);
    potash->drawn_down = store_draw_down(&potash->store, &potash->batches, day);
    store_settle(&potash->store);
    return POTASH_GOOD;
}

/* Formulas that reports are about are looked through for what is not there. */
static void check_against_shelf(struct potash *potash)
{
    struct formula *formula = store_is_empty(&potash->store) || potash->options.lists_missing ? NULL : potash->formulary.formulas;
    for (; formula != NULL; formula = formula->next) {
        if (formula->declaration->file->named) {
            store_check_formula(&potash->store, formula);
        }
    }
}

/* Whether a formula is looked at again once it is checked. */
static bool forms_are_kept(const struct potash *potash)
{
    const unsigned askers = 1u << DECLARE_VARIANT | 1u << DECLARE_SHELF | 1u << DECLARE_BATCH | 1u << DECLARE_PROCESS;
    for (const struct syntax_list *item = potash->files; item != NULL; item = item->next) {
        if ((item->file->kinds & askers) != 0 || item->file->draws_on_formulas) {
            return true;
        }
    }
    return !potash->options.diagnostics_only;
}

struct checking {
    const struct potash *potash;
    struct bench *bench;
};

static void look_at_formula(void *context, struct formula *formula)
{
    const struct checking *checking = context;
    practice_check_formula(checking->bench, formula);
    if (checking->potash->look_at != NULL) {
        checking->potash->look_at(checking->potash->look_at_context, formula);
    }
}

/* An arena whose memory is used over and over. */
static void start_over_and_over(const struct potash *potash, struct arena *arena)
{
    arena->on_failure = potash->arena.on_failure;
    arena->limit = potash->arena.limit;
    arena->fail_after = potash->arena.fail_after;
}

/* Parses and checks a few formulas after the others.  False when a file turns out to hold something else: then nothing holds that was
 * found out. */
static bool check_in_pieces(struct potash *potash, struct checking *checking)
{
    start_over_and_over(potash, &potash->trees);
    for (struct syntax_list *item = potash->files; item != NULL; item = item->next) {
        struct syntax_pieces pieces;
        syntax_begin_pieces(&pieces, &potash->arena, &potash->names, &potash->diagnostics, item->file->source);
        bool plain;
        struct declaration *formulas;
        while ((formulas = syntax_next_piece(&pieces, &potash->trees, &plain)) != NULL) {
            formulary_check_piece(&potash->formulary, formulas, &potash->trees, look_at_formula, checking);
            arena_start_over(&potash->trees);
        }
        if (!plain || potash->formulary.draws_on_formulas) {
            return false;
        }
    }
    return true;
}

static enum potash_status check(struct potash *potash, bool *again)
{
    formulary_start(&potash->formulary, &potash->library);
    for (const struct syntax_list *item = potash->files; item != NULL; item = item->next) {
        library_add_file(&potash->library, item->file);
    }
    library_make_all(&potash->library, true);
    read_shelves(potash);
    batches_start(&potash->batches, &potash->formulary, potash->store.today);
    processes_start(&potash->processes, &potash->formulary);
    if (session_read_options(potash) != POTASH_GOOD) {
        return POTASH_UNUSABLE;
    }
    for (const struct syntax_list *item = potash->files; item != NULL; item = item->next) {
        formulary_add_file(&potash->formulary, item->file);
    }
    if (!forms_are_kept(potash)) {
        start_over_and_over(potash, &potash->forms);
        potash->formulary.forms = &potash->forms;
    }
    struct bench bench = {
        .formulary = &potash->formulary, .balance = potash->context.scales.balance, .balance_said = potash->options.balance != NULL, .batch = potash->context.make};
    practice_start(&bench);
    struct checking checking = {potash, &bench};
    if (potash->whole) {
        formulary_check(&potash->formulary, look_at_formula, &checking);
    } else if (!check_in_pieces(potash, &checking)) {
        *again = true;
        return POTASH_UNUSABLE;
    }
    practice_check_stocks(&bench);
    for (const struct syntax_list *item = potash->files; item != NULL; item = item->next) {
        batches_add_file(&potash->batches, item->file);
        processes_add_file(&potash->processes, item->file);
    }
    if (draw_down(potash) != POTASH_GOOD) {
        return POTASH_UNUSABLE;
    }
    check_against_shelf(potash);
    if (potash->unread > 0 || potash->diagnostics.conflict) { /* one mistake, one diagnostic */
        diagnostics_leave_out_unknown_names(&potash->diagnostics);
    }
    diagnostics_finish(&potash->diagnostics);
    session_attribute_errors(potash);
    if (potash->options.diagnostics_only && potash->options.title != NULL && session_leave_out_others(potash) != POTASH_GOOD) {
        return POTASH_UNUSABLE;
    }
    potash->checked = true;
    if (potash->options.strict && potash->diagnostics.warnings > 0) { /* which is said once it is known whose errors the real ones are */
        potash->strictly_faulty = true;
        diagnostics_count_strictly(&potash->diagnostics);
    }
    return potash->diagnostics.errors > 0 ? POTASH_FAULTY : POTASH_GOOD;
}

enum potash_status potash_check(struct potash *potash)
{
    if (potash->message != NULL) {
        return POTASH_UNUSABLE;
    }
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    if (potash->whole && session_parse_waiting(potash) != POTASH_GOOD) { /* some wait, and another does not */
        return POTASH_UNUSABLE;
    }
    session_name_reads(potash);
    size_t said = potash->diagnostics.count;
    bool again = false;
    enum potash_status status = check(potash, &again);
    if (again) {
        diagnostics_go_back(&potash->diagnostics, said);
        library_start_over(&potash->library);
        status = session_parse_waiting(potash) == POTASH_GOOD ? check(potash, &again) : POTASH_UNUSABLE;
    }
    return status;
}

/* ---- what reports are about ---- */

const struct formula *session_next(struct potash *potash, const struct formula *before)
{
    const struct formula *formula = before == NULL ? potash->formulary.formulas : before->next;
    if (potash->options.title == NULL) {
        while (formula != NULL && !formula->declaration->file->named) {
            formula = formula->next;
        }
        return formula;
    }
    while (formula != NULL && !text_is(formula->title, potash->options.title)) {
        formula = formula->next;
    }
    return formula;
}

const struct stock *session_next_stock(struct potash *potash, const struct stock *before)
{
    const struct stock *stock = before == NULL ? potash->formulary.stocks : before->next;
    const char *title = potash->options.title;
    while (stock != NULL && (stock->material == NULL || !stock->declaration->file->named ||
                             (title != NULL && !text_is(stock_title(&potash->arena, stock), title)))) {
        stock = stock->next;
    }
    return stock;
}

enum potash_status session_has_forms(struct potash *potash)
{
    if (potash->message == NULL && potash->options.diagnostics_only) {
        session_unusable(potash, "this session was opened for diagnostics only");
    }
    return potash->message != NULL ? POTASH_UNUSABLE : POTASH_GOOD;
}

enum potash_status session_checked(struct potash *potash)
{
    return potash->checked ? POTASH_GOOD : session_unusable(potash, "the files have not been checked");
}

enum potash_status session_ready(struct potash *potash)
{
    if (potash->loose_errors > 0 || potash->strictly_faulty) {
        return POTASH_FAULTY;
    }
    bool faulty = false;
    const struct formula *formula = session_next(potash, NULL);
    if (formula == NULL) {
        return potash->options.title != NULL
                   ? session_unusable(potash, "there is no formula \"%.200s\" in these files", potash->options.title)
                   : session_unusable(potash, "there is no formula in these files");
    }
    for (; formula != NULL; formula = session_next(potash, formula)) {
        bool dry = !formula->faulty && isnan(formula->parts->makes);
        if (!formula->faulty && !isnan(potash->context.make) && potash->context.make_is_mass != dry) {
            return session_unusable(potash, "--make: \"%.*s\" makes a %s, and %s is a %s", TEXT_ARGUMENTS(formula->title),
                                    dry ? "weight" : "volume", potash->options.make, dry ? "volume" : "weight");
        }
        faulty = faulty || formula->faulty;
    }
    return faulty ? POTASH_FAULTY : POTASH_GOOD;
}

size_t potash_errors(const struct potash *potash)
{
    return potash->diagnostics.errors;
}

size_t potash_warnings(const struct potash *potash)
{
    return potash->diagnostics.warnings;
}

size_t potash_formulas(const struct potash *potash)
{
    return potash->options.title != NULL && potash->options.diagnostics_only ? 1 : potash->formulary.formula_count;
}

size_t potash_unread(const struct potash *potash)
{
    return potash->unread;
}

const char *potash_message(const struct potash *potash)
{
    return potash->message != NULL ? potash->message : potash->named_unread != NULL ? potash->named_unread : "";
}
