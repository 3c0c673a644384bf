/* Batches: from their lines to what they say, with what is wrong about it. */
#include "store/ledger.h"

#include "base/number.h"
#include "formula/fingerprint.h"
#include "store/reading.h"


#include <strings.h>

#pragma GCC diagnostic ignored "-Wconversion" /* uthash's macros */

/* A batch by its id, or a stock's formula by its title. */
struct batch_entry {
    struct text text;
    struct mixing *batch;
    const struct formula *formula;
    long offered;              /* ids behind this one that were offered in its place */
    UT_hash_handle hh;
};

void batches_start(struct batches *batches, struct formulary *formulary, long today)
{
    *batches = (struct batches){.formulary = formulary, .today = today};
}

static void add_entry(struct arena *table_arena, struct batch_entry **table, struct text text, struct mixing *batch,
                      const struct formula *formula)
{
    struct batch_entry *entry = ARENA_NEW(table_arena, struct batch_entry);
    entry->text = text;
    entry->batch = batch;
    entry->formula = formula;
    HASH_ADD_KEYPTR(hh, *table, entry->text.at, entry->text.length, entry);
}

static struct batch_entry *find_entry(struct batch_entry *table, struct text text)
{
    struct batch_entry *entry = NULL;
    HASH_FIND(hh, table, text.at, text.length, entry);
    return entry;
}

struct mixing *batches_bottle(struct batches *batches, struct text id)
{
    struct batch_entry *entry = find_entry(batches->ids, id);
    return entry == NULL ? NULL : entry->batch;
}

const struct mixing *batches_find(const struct batches *batches, struct text id)
{
    const struct batch_entry *entry = find_entry(batches->ids, id);
    return entry == NULL ? NULL : entry->batch;
}

const struct batch_list *batches_of(const struct batches *batches, const struct formula *formula)
{
    struct batch_list *list = NULL;
    HASH_FIND_PTR(batches->formulas, &formula, list);
    return list;
}

static void add_to_formula(struct batches *batches, struct mixing *batch)
{
    struct arena *table_arena = batches->formulary->arena;
    struct batch_list *list = NULL;
    HASH_FIND_PTR(batches->formulas, &batch->formula, list);
    if (list == NULL) {
        list = ARENA_NEW(table_arena, struct batch_list);
        list->formula = batch->formula;
        list->first = batch;
        HASH_ADD_PTR(batches->formulas, formula, list);
    } else {
        list->last->next_alike = batch;
    }
    list->last = batch;
    list->count++;
}

/* ---- ids ---- */

/* The id that the second batch of a name may have; the next one that asks gets another. */
static struct text free_id(struct batches *batches, struct batch_entry *before)
{
    struct text id;
    do {
        id = batch_id_after(batches->formulary->arena, before->text, ++before->offered);
    } while (find_entry(batches->ids, id) != NULL);
    return id;
}

/* What is there is known only when all files were read. */
struct same_id {
    struct batches *batches;
    struct text id;
    struct span title;
};

static void offer_id(struct diagnostics *diagnostics, struct diagnostic *diagnostic, const void *arguments)
{
    const struct same_id *same = arguments;
    struct text id = free_id(same->batches, find_entry(same->batches->ids, same->id));
    diagnostics_help(diagnostics, diagnostic, "give each batch a name of its own, so that its bottle can be told: \"%.*s\"", TEXT_ARGUMENTS(id));
    diagnostics_fix(diagnostics, diagnostic, same->title, arena_format(diagnostics->arena, "\"%.*s\"", TEXT_ARGUMENTS(id)), "call it \"%.*s\"",
                    TEXT_ARGUMENTS(id));
}

static void remember_id(struct batches *batches, struct checker *checker, struct mixing *batch)
{
    const struct batch_entry *before = find_entry(batches->ids, batch->id);
    if (before == NULL) {
        add_entry(checker->arena, &batches->ids, batch->id, batch, NULL);
        return;
    }
    const struct span title = batch->declaration->title_span;
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_DECLARED_TWICE, title, "a batch \"%.*s\" is there already", TEXT_ARGUMENTS(batch->id));
    diagnostics_relate(checker->diagnostics, diagnostic, before->batch->declaration->title_span, "the other one is here");
    const struct same_id same = {batches, batch->id, title};
    diagnostics_explain_later(checker->diagnostics, diagnostic, offer_id, &same, sizeof same);
}

/* ---- the formula ---- */

const struct formula *batches_stock(struct batches *batches, struct text title)
{
    struct formulary *formulary = batches->formulary;
    if (batches->stocks == NULL) {
        for (const struct stock *stock = formulary->stocks; stock != NULL; stock = stock->next) {
            if (stock->material != NULL) {
                add_entry(formulary->arena, &batches->stocks, stock_title(formulary->arena, stock), NULL,
                          stock_formula(formulary, stock));
            }
        }
    }
    const struct batch_entry *entry = find_entry(batches->stocks, title);
    return entry == NULL ? NULL : entry->formula;
}

static void find_formula(struct batches *batches, struct checker *checker, struct mixing *batch)
{
    struct text title = text_trim(batch->declaration->of);
    batch->formula = formulary_find(batches->formulary, title);
    if (batch->formula == NULL) {
        batch->formula = batches_stock(batches, title);
    }
    if (batch->formula == NULL) {
        store_say_unknown_formula(checker, title, batch->declaration->of_span);
    }
}

/* ---- lines ---- */

static void read_trial(struct checker *checker, struct mixing *batch, const struct trial_statement *statement)
{
    struct trial *trial = ARENA_NEW(checker->arena, struct trial);
    trial->batch = batch;
    trial->span = statement->base.span;
    trial->day = store_read_day(checker, statement->date, statement->date_span);
    trial->use = statement->use == NULL ? (struct text){0} : statement->use->name->spelling;
    check_conditions(checker, &statement->of, &trial->of);
    trial->verdict = statement->verdict;
    *(batch->trials == NULL ? &batch->trials : &batch->last_trial->next) = trial;
    batch->last_trial = trial;
}

/* What was made or taken: a volume, or the weight of a dry mix; NAN when it is none. */
static double read_amount(struct checker *checker, const struct mixing *batch, const struct quantity *quantity, const char *wet,
                          const char *dry)
{
    if (!batch->dry) {
        return store_read_volume(checker, quantity, wet);
    }
    struct measure reading = check_quantity_of(checker, quantity, DIMENSION_MASS, dry);
    if (reading.fault == MEASURE_GOOD && !(reading.low > 0)) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, quantity->span, "a weight must be more than nothing");
        diagnostics_help(checker->diagnostics, diagnostic, "write it as in: %s", dry);
        return NAN;
    }
    return reading.fault == MEASURE_GOOD ? reading.low : NAN;
}

static void read_use(struct checker *checker, struct mixing *batch, const struct dated_statement *statement)
{
    struct batch_use *use = ARENA_NEW(checker->arena, struct batch_use);
    use->span = statement->base.span;
    use->day = store_read_day(checker, statement->date, statement->date_span);
    if (statement->quantity != NULL) {
        double volume = read_amount(checker, batch, statement->quantity, "used 250 mL on 2026-03-06", "used 50 g on 2026-03-06");
        use->volume = isnan(volume) ? 0 : volume;
    }
    if (statement->goods != NULL) {
        goods_read(checker, statement->goods, "used 250 mL on 2026-03-06 for 2 rolls", &use->goods);
    }
    double before = batch->taken;
    batch->taken += use->volume;
    const double there = batch->made + batch->topped_up;
    bool fits = isnan(there) || batch->taken <= there * 1.005;
    const char *unit = batch->dry ? "g" : "mL";
    if (!fits && before <= there * 1.005) {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, statement->quantity->span,
                      "with this, %s %s have been taken out of a batch of %s %s", number_print_significant(checker->arena, batch->taken, 5), unit,
                      number_print_significant(checker->arena, there, 5), unit);
        diagnostics_help(checker->diagnostics, diagnostic,
                         before < there ? "%s %s were left; what is poured back is written without a volume: used on "
                                                "2026-03-06 for 2 rolls"
                                              : "nothing was left by then",
                         number_print_significant(checker->arena, there - before, 5), unit);
    }
    *(batch->uses == NULL ? &batch->uses : &batch->last_use->next) = use;
    batch->last_use = use;
}

/* "A" of "made 500 mL of A", or of "part A". */
static struct name *part_name(struct checker *checker, struct name *name)
{
    static const char before[] = "part ";
    const size_t length = sizeof before - 1;
    bool with_word = name->spelling.length > length && strncasecmp(name->spelling.at, before, length) == 0;
    return with_word ? names_find(checker->library->names, (struct text){name->spelling.at + length, name->spelling.length - length})
                     : name;
}

static void read_part(struct checker *checker, struct mixing *batch, const struct word *word)
{
    const struct formula *formula = batch->formula;
    if (formula == NULL) {
        return;
    }
    batch->part = check_find_part(formula, checker->library->names, part_name(checker, word->name));
    if (batch->part != NULL && formula->part_count == 1) {
        batch->part = NULL;
    } else if (formula->part_count == 1) {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_PART_UNKNOWN, word->span, "\"%.*s\" is mixed in one part", TEXT_ARGUMENTS(formula->title));
        diagnostics_help(checker->diagnostics, diagnostic, "write how much was made alone, as in: made 1 L");
    } else if (batch->part == NULL) {
        checker->formula->parts = formula->parts; /* whose names the help lists */
        check_say_unknown_part(checker, word->name, word->span);
        checker->formula->parts = NULL;
    }
}

static bool is_dry(const struct mixing *batch)
{
    const struct part *part = batch->part != NULL ? batch->part : batch->formula == NULL ? NULL : batch->formula->parts;
    return part != NULL && isnan(part->makes) && part->makes_mass > 0;
}

/* The lines that others are held against: they may stand anywhere in the batch. */
static void read_made(struct checker *checker, struct mixing *batch)
{
    for (const struct statement *statement = batch->declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_MADE) {
            const struct quantity_statement *made = (const struct quantity_statement *)statement;
            if (made->word != NULL) {
                read_part(checker, batch, made->word);
            }
            batch->dry = is_dry(batch);
            batch->made = read_amount(checker, batch, made->quantity, "made 1 L", "made 500 g");
            return;
        }
    }
    const struct part *part = batch->formula == NULL ? NULL : batch->formula->parts;
    batch->dry = is_dry(batch);
    batch->made = part == NULL ? NAN : batch->dry ? part->makes_mass : part->makes;
    batch->made_assumed = true;
}

static void read_fingerprint(struct checker *checker, struct mixing *batch, const struct text_statement *statement)
{
    struct text text = statement->text;
    bool good = text.length == FINGERPRINT_LENGTH;
    for (size_t i = 0; i < text.length; i++) {
        good = good && (text_is_digit(text.at[i]) || (text.at[i] >= 'a' && text.at[i] <= 'f'));
    }
    if (good) {
        batch->mixed_as = text;
        return;
    }
    diagnostics_help(checker->diagnostics, check_say(checker, DIAG_SYNTAX, statement->text_span, "a fingerprint has sixteen figures, 0 to 9 and a to f"),
                     "it stands on the label, and --record writes it: mixed as 56ff1cf6a0bb4440");
}

static void read_lines(struct checker *checker, struct mixing *batch)
{
    for (const struct statement *statement = batch->declaration->statements; statement != NULL; statement = statement->next) {
        const struct dated_statement *dated = (const struct dated_statement *)statement;
        switch (statement->kind) {
        case SAY_MIXED:
            batch->mixed = store_read_day(checker, dated->date, dated->date_span);
            break;
        case SAY_DISCARDED:
            batch->discarded = store_read_day(checker, dated->date, dated->date_span);
            break;
        case SAY_BY:
            batch->by = text_trim(((const struct text_statement *)statement)->text);
            break;
        case SAY_MIXED_AS:
            read_fingerprint(checker, batch, (const struct text_statement *)statement);
            break;
        case SAY_TOOK:
        case SAY_TOPPED_UP:
            ledger_read_took(checker, batch, (const struct took_statement *)statement);
            break;
        case SAY_USED:
            read_use(checker, batch, dated);
            break;
        case SAY_TRIAL:
            read_trial(checker, batch, (const struct trial_statement *)statement);
            break;
        case SAY_NOTE:
            store_read_note(checker, &batch->notes, ((const struct text_statement *)statement)->text);
            break;
        default:
            break;
        }
    }
}

/* ---- what is said twice ---- */

static void say_twice(struct checker *checker, const struct mixing *batch, const struct statement *first, const struct statement *second)
{
    static const char *const what[] = {"how much was made", "the day of mixing", "the day on which it was discarded", "the fingerprint"};
    size_t which = second->kind == SAY_MADE ? 0 : second->kind == SAY_MIXED ? 1 : second->kind == SAY_DISCARDED ? 2 : 3;
    struct diagnostic *diagnostic = check_say(checker, DIAG_DECLARED_TWICE, second->span, "%s is said already", what[which]);
    diagnostics_relate(checker->diagnostics, diagnostic, first->span, "here");
    bool parts = second->kind == SAY_MADE && batch->formula != NULL && batch->formula->part_count > 1;
    diagnostics_help(checker->diagnostics, diagnostic,
                     parts ? "each part's bottle is a batch of its own, as in: made 500 mL of A" : "another bottle is a batch of its own");
}

static void check_once(struct checker *checker, const struct mixing *batch, enum statement_kind kind)
{
    const struct statement *first = NULL;
    for (const struct statement *statement = batch->declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == kind && first == NULL) {
            first = statement;
        } else if (statement->kind == kind) {
            say_twice(checker, batch, first, statement);
        }
    }
}

/* ---- the order of days ---- */

static void check_day(struct checker *checker, const struct mixing *batch, long day, struct span span)
{
    if (day == CALENDAR_NO_DAY) {
        return;
    }
    bool before = batch->mixed != CALENDAR_NO_DAY && day < batch->mixed;
    bool ends = batch->discarded != CALENDAR_NO_DAY && (batch->mixed == CALENDAR_NO_DAY || batch->discarded >= batch->mixed);
    bool after = ends && day > batch->discarded;
    if (!before && !after) {
        return;
    }
    struct text other = calendar_print(checker->arena, before ? batch->mixed : batch->discarded);
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, span,
                  before ? "this is before the batch was mixed, on %.*s" : "this is after the batch was discarded, on %.*s",
                  TEXT_ARGUMENTS(other));
    diagnostics_help(checker->diagnostics, diagnostic, "one of the two days is wrong; write year, month, day");
}

/* A diary tells of what was done.  The first such day of a batch is told: those behind it are wrong in the same way. */
static bool say_future(struct checker *checker, long today, long day, struct span span)
{
    if (today == CALENDAR_NO_DAY || day == CALENDAR_NO_DAY || day <= today) {
        return false;
    }
    struct diagnostic *diagnostic = check_say(checker, DIAG_AMOUNT_UNUSUAL, span, "this day is still to come");
    diagnostics_help(checker->diagnostics, diagnostic, "the diary is read as of %.*s",
                     TEXT_ARGUMENTS(calendar_print(checker->arena, today)));
    return true;
}

static void check_days(struct checker *checker, const struct mixing *batch, long today)
{
    bool future = false;
    for (const struct statement *statement = batch->declaration->statements; statement != NULL; statement = statement->next) {
        const struct dated_statement *dated = (const struct dated_statement *)statement;
        const struct trial_statement *trial = (const struct trial_statement *)statement;
        bool of_trial = statement->kind == SAY_TRIAL;
        const struct took_statement *took = (const struct took_statement *)statement;
        bool topped = statement->kind == SAY_TOPPED_UP;
        bool of_use = statement->kind == SAY_USED || statement->kind == SAY_DISCARDED;
        if (!of_trial && !of_use && !topped && statement->kind != SAY_MIXED) {
            continue;
        }
        long day = calendar_day(of_trial ? trial->date : topped ? took->date : dated->date);
        struct span span = of_trial ? trial->date_span : topped ? took->date_span : dated->date_span;
        if (of_trial || of_use || topped) {
            check_day(checker, batch, day, span);
        }
        future = future || say_future(checker, today, day, span);
    }
}

static void add_batch(struct batches *batches, struct checker *checker, const struct declaration *declaration)
{
    struct mixing *batch = ARENA_NEW(checker->arena, struct mixing);
    batch->id = text_trim(declaration->title);
    batch->declaration = declaration;
    batch->mixed = batch->discarded = CALENDAR_NO_DAY;
    checker->formula->declaration = declaration;
    bool headless = declaration->title.at == NULL; /* a broken heading or line has been reported */
    checker->formula->faulty = headless || declaration->broken;
    checker->formula->said = NULL;
    if (!headless) {
        remember_id(batches, checker, batch);
        find_formula(batches, checker, batch);
    }
    read_made(checker, batch);
    read_lines(checker, batch);
    check_days(checker, batch, batches->today);
    check_once(checker, batch, SAY_MADE);
    check_once(checker, batch, SAY_MIXED);
    check_once(checker, batch, SAY_DISCARDED);
    check_once(checker, batch, SAY_MIXED_AS);
    batch->faulty = checker->formula->faulty;
    if (batches->first == NULL) {
        batches->first = batch;
    } else {
        batches->last->next = batch;
    }
    batches->last = batch;
    batches->count++;
    if (batch->formula != NULL) {
        add_to_formula(batches, batch);
    }
}

void batches_add_file(struct batches *batches, const struct syntax_file *file)
{
    struct formula stand_in = {0}; /* what is said is said of a formula; here it is the batch */
    struct checker checker = store_checker(batches->formulary, &stand_in);
    const struct declaration *declaration = syntax_declarations(file, 1u << DECLARE_BATCH);
    for (; declaration != NULL; declaration = declaration->next) {
        if (declaration->kind == DECLARE_BATCH) {
            add_batch(batches, &checker, declaration);
        }
    }
}
