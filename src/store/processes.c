/* Processes: from their lines to baths, washes and tasks, with what is wrong about them. */
#include "store/processes.h"

#include "base/number.h"
#include "store/reading.h"

#pragma GCC diagnostic ignored "-Wconversion" /* uthash's macros */

struct process_entry {
    struct text title;
    struct process *process;
    UT_hash_handle hh;
};

/* The process that is being read. */
struct process_reader {
    struct checker checker;
    struct process *process;
    struct stage *bath;            /* open for the lines below it, or NULL */
    int baths;                     /* so far */
    struct span vessel_span;       /* the amount of the tank or trays */
    const struct quantity *holds;  /* what it holds, as it was written */
};

void processes_start(struct processes *processes, struct formulary *formulary)
{
    *processes = (struct processes){.formulary = formulary};
}

const struct process *processes_find(const struct processes *processes, struct text title)
{
    struct process_entry *entry = NULL;
    title = text_trim(title);
    HASH_FIND(hh, processes->titles, title.at, title.length, entry);
    return entry == NULL ? NULL : entry->process;
}

static void remember_title(struct processes *processes, struct checker *checker, struct process *process)
{
    const struct process *before = processes_find(processes, process->title);
    if (before != NULL) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_DECLARED_TWICE, process->declaration->title_span,
                                                  "a process \"%.*s\" is there already", TEXT_ARGUMENTS(process->title));
        diagnostics_relate(checker->diagnostics, diagnostic, before->declaration->title_span, "the other one is here");
        diagnostics_help(checker->diagnostics, diagnostic, "give one of them another title");
        return;
    }
    struct arena *table_arena = checker->arena;
    struct process_entry *entry = ARENA_NEW(table_arena, struct process_entry);
    entry->title = process->title;
    entry->process = process;
    HASH_ADD_KEYPTR(hh, processes->titles, entry->title.at, entry->title.length, entry);
}

static struct stage *add_stage(struct process_reader *reader, enum stage_kind kind, const struct statement *statement)
{
    struct process *process = reader->process;
    struct stage *stage = ARENA_NEW(reader->checker.arena, struct stage);
    stage->kind = kind;
    stage->span = statement->span;
    stage->temperature = stage->time[0] = stage->time[1] = NAN;
    stage->stock_parts = stage->water_parts = stage->replenish = NAN;
    stage->flow = stage->changes = stage->filling = NAN;
    *(process->stages == NULL ? &process->stages : &process->last->next) = stage;
    process->last = stage;
    reader->bath = kind == STAGE_BATH ? stage : NULL;
    return stage;
}

/* ---- times and temperatures ---- */

static void read_times(struct process_reader *reader, struct stage *stage, const struct quantity *quantity, const char *example)
{
    if (quantity == NULL) {
        return;
    }
    stage->time[0] = stage->time[1] = store_read_time(&reader->checker, quantity, example);
    if (quantity->high != NULL && !isnan(stage->time[0])) {
        struct measure reading = check_quantity(&reader->checker, quantity, false);
        stage->time[1] = reading.high;
        if (reading.high < reading.low) {
            diagnostics_help(reader->checker.diagnostics,
                             check_say(&reader->checker, DIAG_AMOUNT_OUT_OF_RANGE, quantity->span,
                                       "this is a range that ends below its beginning"),
                             "write the smaller figure first");
        }
    }
}

static void read_temperature(struct process_reader *reader, struct stage *stage, const struct quantity *quantity)
{
    if (quantity == NULL) {
        return;
    }
    struct measure reading = check_quantity_of(&reader->checker, quantity, DIMENSION_TEMPERATURE, "at 20 °C");
    if (reading.fault == MEASURE_GOOD && (reading.low < 0 || reading.low > 100)) {
        diagnostics_help(reader->checker.diagnostics,
                         check_say(&reader->checker, DIAG_AMOUNT_OUT_OF_RANGE, quantity->span, "no bath is so %s",
                                   reading.low < 0 ? "cold" : "hot"),
                         "check the figure and whether °C or °F is meant");
    } else if (reading.fault == MEASURE_GOOD) {
        stage->temperature = reading.low;
    }
}

/* ---- the formula and its use ---- */

static bool same_use(struct process_reader *reader, struct text a, struct text b)
{
    return text_equal(names_fold(reader->checker.arena, a), names_fold(reader->checker.arena, b));
}

static const struct use *find_use(struct process_reader *reader, const struct formula *formula, struct text name)
{
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        if (same_use(reader, use->name, name)) {
            return use;
        }
    }
    return NULL;
}

static void say_unknown_use(struct process_reader *reader, const struct formula *formula, const struct word *word)
{
    struct checker *checker = &reader->checker;
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_PART_UNKNOWN, word->span, "\"%.*s\" has no use for %.*s", TEXT_ARGUMENTS(formula->title),
                  TEXT_ARGUMENTS(word->name->spelling));
    struct buffer list;
    buffer_start(&list, checker->arena);
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        buffer_format(&list, "%s%.*s", list.length == 0 ? "" : ", ", TEXT_ARGUMENTS(use->name));
        bool blanks = use->name.length > 0 && memchr(use->name.at, ' ', use->name.length) != NULL;
        const char *name = arena_format(checker->arena, blanks ? "\"%.*s\"" : "%.*s", TEXT_ARGUMENTS(use->name));
        diagnostics_fix_writing(checker->diagnostics, diagnostic, word->span, "%s", name);
    }
    if (list.length > 0) {
        diagnostics_help(checker->diagnostics, diagnostic, "its uses are for: %s", buffer_finish(&list));
    } else {
        diagnostics_help(checker->diagnostics, diagnostic, "it has no use at all: leave this out, or open one there with: use for %.*s",
                         TEXT_ARGUMENTS(word->name->spelling));
    }
}

/* The use that the first bath with one names: what the process is for. */
static const struct word *purpose_of(const struct process *process)
{
    for (const struct statement *statement = process->declaration->statements; statement != NULL; statement = statement->next) {
        const struct bath_statement *bath = (const struct bath_statement *)statement;
        if (statement->kind == SAY_BATH && bath->use != NULL) {
            return bath->use;
        }
    }
    return NULL;
}

/* The use that the bath names; else the one of the same name as the other baths', else the formula's only one. */
static void choose_use(struct process_reader *reader, struct stage *stage, const struct bath_statement *statement)
{
    const struct formula *formula = stage->formula;
    if (statement->use != NULL) {
        stage->use = find_use(reader, formula, statement->use->name->spelling);
        if (stage->use == NULL) {
            say_unknown_use(reader, formula, statement->use);
        }
        return;
    }
    const struct word *purpose = purpose_of(reader->process);
    stage->use = purpose == NULL ? NULL : find_use(reader, formula, purpose->name->spelling);
    if (stage->use != NULL || formula->uses == NULL) {
        return;
    }
    stage->use = formula->uses;
    if (formula->uses->next != NULL) {
        struct checker *checker = &reader->checker;
        struct diagnostic *diagnostic = check_say(checker, DIAG_PART_UNKNOWN, statement->title_span,
                                                  "which use of \"%.*s\" is meant?", TEXT_ARGUMENTS(formula->title));
        struct span end = {statement->title_span.end, statement->title_span.end};
        for (const struct use *use = formula->uses; use != NULL; use = use->next) {
            diagnostics_fix_writing(checker->diagnostics, diagnostic, end, " for \"%.*s\"", TEXT_ARGUMENTS(use->name));
        }
        diagnostics_help(checker->diagnostics, diagnostic, "say it behind the title: for %.*s", TEXT_ARGUMENTS(formula->uses->name));
    }
}

/* The formula of that title, checked and sound enough to be reckoned with; NULL when it is unknown, which is reported. */
static const struct formula *find_formula(struct process_reader *reader, struct text title, struct span span)
{
    const struct formula *formula = formulary_find(reader->checker.formulary, title);
    if (formula == NULL) {
        store_say_unknown_formula(&reader->checker, text_trim(title), span);
    }
    return formula;
}

/* Parts that follow each other are poured one by one; what stands below the line holds for each of them (copy_to_followers). */
static void pour_in_turn(struct process_reader *reader, struct stage *first, const struct bath_statement *statement)
{
    if (statement->time != NULL) {
        diagnostics_help(reader->checker.diagnostics,
                         check_say(&reader->checker, DIAG_UNIT_MISMATCH, statement->time->span,
                                   "the parts of \"%.*s\" follow each other, each in its own time", TEXT_ARGUMENTS(first->title)),
                         "leave the time out here; it stands in the use: bath A 4 min at 20 °C");
    }
    double temperature = first->temperature;
    for (const struct pour *pour = first->use->pours; pour != NULL; pour = pour->next) {
        struct stage *stage = pour == first->use->pours ? first : add_stage(reader, STAGE_BATH, &statement->base);
        stage->formula = first->formula;
        stage->use = first->use;
        stage->part = pour->part;
        stage->follows = stage != first;
        stage->title = pour->part->name == NULL ? first->title
                                                : text_from(arena_format(reader->checker.arena, "%.*s, part %.*s", TEXT_ARGUMENTS(text_trim(statement->title)),
                                                                         TEXT_ARGUMENTS(pour->part->name->spelling)));
        stage->temperature = isnan(temperature) ? pour->of.temperature : temperature;
        stage->time[0] = pour->of.time[0];
        stage->time[1] = pour->of.time[1];
        stage->agitation = first->use->agitation;
        reader->baths += stage->follows;
    }
    reader->bath = first;
}

static void copy_to_followers(const struct stage *first)
{
    for (struct stage *stage = first->next; stage != NULL && stage->follows; stage = stage->next) {
        stage->agitation = first->agitation;
        stage->once = first->once;
        stage->replace_after = first->replace_after;
        stage->replenish = first->replenish;
        stage->replenish_per = first->replenish_per;
        stage->replenisher = first->replenisher;
    }
}

static void read_bath(struct process_reader *reader, const struct bath_statement *statement)
{
    if (reader->baths++ >= PROCESS_MOST_BATHS) {
        reader->bath = ARENA_NEW(reader->checker.arena, struct stage); /* the lines below belong to a bath that nobody looks at */
        if (reader->baths == PROCESS_MOST_BATHS + 1) {
            diagnostics_help(reader->checker.diagnostics,
                             check_say(&reader->checker, DIAG_AMOUNT_OUT_OF_RANGE, statement->base.span,
                                       "a process has no more than %d baths", PROCESS_MOST_BATHS),
                             "make several processes of it");
        }
        return;
    }
    struct stage *stage = add_stage(reader, STAGE_BATH, &statement->base);
    stage->title = text_trim(statement->title);
    stage->formula = find_formula(reader, statement->title, statement->title_span);
    read_temperature(reader, stage, statement->temperature);
    read_times(reader, stage, statement->time, "9 min");
    if (stage->formula == NULL) {
        return;
    }
    choose_use(reader, stage, statement);
    if (stage->use != NULL) {
        stage->stock_parts = stage->use->stock_parts;
        stage->water_parts = stage->use->water_parts;
        stage->agitation = stage->use->agitation;
    }
    if (stage->use != NULL && stage->use->pours != NULL) {
        pour_in_turn(reader, stage, statement);
    }
}

/* ---- what is said of the open bath ---- */

static struct stage *open_bath(struct process_reader *reader, const struct statement *statement)
{
    if (reader->bath == NULL) {
        struct diagnostic *diagnostic = check_say(&reader->checker, DIAG_SYNTAX, statement->span,
                                                  "this line belongs to a bath, and no bath is open");
        diagnostics_help(reader->checker.diagnostics, diagnostic, "put it below the line of its bath");
    }
    return reader->bath;
}

static void read_dilution(struct process_reader *reader, struct stage *stage, const struct ratio_statement *statement)
{
    const struct ratio *ratio = &statement->ratio;
    if (stage->part != NULL) {
        diagnostics_help(reader->checker.diagnostics,
                         check_say(&reader->checker, DIAG_UNIT_MISMATCH, ratio->span, "parts that follow each other are used as they are mixed"),
                         "leave the dilution out");
        return;
    }
    bool good = ratio->count == 2 && ratio->figures[0] > 0 && ratio->figures[1] >= 0 && ratio->figures[1] <= 10000;
    if (!good) {
        struct diagnostic *diagnostic = check_say(&reader->checker, ratio->count == 2 ? DIAG_AMOUNT_OUT_OF_RANGE : DIAG_SYNTAX,
                                                  ratio->span, "no bath is diluted so");
        diagnostics_help(reader->checker.diagnostics, diagnostic, "parts of stock and parts of water, as in: dilute 1+3");
        return;
    }
    stage->stock_parts = ratio->figures[0];
    stage->water_parts = ratio->figures[1];
    stage->diluted_here = true;
}

static void read_replenishing(struct process_reader *reader, struct stage *stage, const struct replenish_statement *statement)
{
    double volume = store_read_volume(&reader->checker, statement->quantity, "replenish 20 mL per roll");
    if (goods_read(&reader->checker, statement->per, "replenish 20 mL per roll", &stage->replenish_per)) {
        stage->replenish = volume / stage->replenish_per.count;
        stage->replenish_per.count = 1;
    }
    if (statement->title.at != NULL) {
        stage->replenisher = find_formula(reader, statement->title, statement->title_span);
    }
}

static void read_bath_line(struct process_reader *reader, const struct statement *statement)
{
    struct stage *stage = open_bath(reader, statement);
    if (stage == NULL) {
        return;
    }
    switch (statement->kind) {
    case SAY_DILUTE:
        read_dilution(reader, stage, (const struct ratio_statement *)statement);
        break;
    case SAY_AGITATE:
        stage->agitation = ((const struct text_statement *)statement)->text;
        break;
    case SAY_ONCE:
        stage->once = true;
        break;
    case SAY_REPLACE:
        goods_read(&reader->checker, ((const struct quantity_statement *)statement)->quantity, "replace after 10 rolls",
                   &stage->replace_after);
        break;
    case SAY_REPLENISH:
        read_replenishing(reader, stage, (const struct replenish_statement *)statement);
        break;
    default:
        break;
    }
    copy_to_followers(stage);
}

/* ---- washes and tasks ---- */

static void read_wash(struct process_reader *reader, const struct wash_statement *statement)
{
    struct checker *checker = &reader->checker;
    struct stage *stage = add_stage(reader, STAGE_WASH, &statement->base);
    read_times(reader, stage, statement->time, "wash 10 min");
    read_temperature(reader, stage, statement->temperature);
    const struct quantity *changes = statement->changes;
    if (changes != NULL) {
        struct text word = changes->unit == NULL ? (struct text){0} : names_folded(checker->library->names, changes->unit)->spelling;
        if (!text_is(word, "changes") && !text_is(word, "change")) {
            struct diagnostic *diagnostic = check_say(checker, DIAG_UNIT_MISMATCH, changes->span, "how many changes of water?");
            diagnostics_help(checker->diagnostics, diagnostic, "write it as in: wash 5 changes of 500 mL in 10 min");
        } else if (!(changes->value >= 1) || changes->value > 1000 || changes->value != floor(changes->value)) {
            diagnostics_help(checker->diagnostics,
                             check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, changes->span,
                                       "the water is changed a whole number of times"),
                             "write it as in: wash 10 min in 5 changes");
        } else {
            stage->changes = changes->value;
            stage->filling = store_read_volume(checker, statement->filling, "wash 5 changes of 500 mL");
        }
    }
    if (statement->flow != NULL) {
        double volume = store_read_volume(checker, statement->flow, "wash 10 min, 3 L per min");
        double per = store_read_time(checker, statement->flow_per, "wash 10 min, 3 L per min");
        stage->flow = volume / per;
    }
}

static void read_task(struct process_reader *reader, const struct task_statement *statement)
{
    struct stage *stage = add_stage(reader, STAGE_TASK, &statement->base);
    stage->title = statement->text;
    read_times(reader, stage, statement->time, "do \"…\" 2 min");
}

/* ---- the whole ---- */

static void read_vessel(struct process_reader *reader, const struct quantity_statement *statement)
{
    struct process *process = reader->process;
    process->trays = statement->base.kind == SAY_TRAY;
    reader->vessel_span = statement->quantity->span;
    process->vessel = store_read_volume(&reader->checker, statement->quantity, process->trays ? "tray 2 L" : "tank 500 mL");
    if (statement->per != NULL) {
        reader->holds = statement->per;
        goods_read(&reader->checker, statement->per, "tank 500 mL holds 2 rolls", &process->holds);
    }
}

static void read_line(struct process_reader *reader, const struct statement *statement)
{
    switch (statement->kind) {
    case SAY_TANK:
    case SAY_TRAY:
        read_vessel(reader, (const struct quantity_statement *)statement);
        break;
    case SAY_DRAIN:
        reader->process->drain =
            store_read_time(&reader->checker, ((const struct quantity_statement *)statement)->quantity, "drain 10 s");
        break;
    case SAY_BATH:
        read_bath(reader, (const struct bath_statement *)statement);
        break;
    case SAY_WASH:
        read_wash(reader, (const struct wash_statement *)statement);
        break;
    case SAY_TASK:
        read_task(reader, (const struct task_statement *)statement);
        break;
    case SAY_NOTE:
        store_read_note(&reader->checker, reader->bath != NULL ? &reader->bath->notes : &reader->process->notes,
                        ((const struct text_statement *)statement)->text);
        break;
    default:
        read_bath_line(reader, statement);
    }
}

bool stage_is_once(const struct stage *stage)
{
    const struct use *use = stage->use;
    bool reused = stage->replace_after.unit != NULL || !isnan(stage->replenish);
    return stage->once || (use != NULL && !isnan(use->needs) && isnan(use->capacity) && !reused);
}

/* As the use says, where the process says nothing of how long a filling serves. */
static void replenish_by_use(struct process_reader *reader, struct stage *stage)
{
    const struct use *use = stage->use;
    bool said = !isnan(stage->replenish) || stage->once || stage->replace_after.unit != NULL;
    if (said || use == NULL || isnan(use->replenish) || !goods_read(&reader->checker, use->replenish_per, "replenish 20 mL per roll", &stage->replenish_per)) {
        return;
    }
    stage->replenish_per.count = 1; /* use->replenish is for one */
    stage->replenish = use->replenish;
    stage->replenisher = use->replenisher.length == 0 ? NULL : formulary_find(reader->checker.formulary, use->replenisher);
}

/* A tank must take the stock that its rolls need: 10 mL a roll at 1+29 makes a tank of 300 mL for each. */
static void check_vessel(struct process_reader *reader, const struct stage *stage)
{
    struct process *process = reader->process;
    const struct part *part = stage->formula == NULL ? NULL : formula_bath_part(stage->formula);
    if (part == NULL || stage->use == NULL || isnan(stage->use->needs) || process->holds.unit == NULL) {
        return;
    }
    struct use diluted = *stage->use;
    diluted.stock_parts = stage->stock_parts;
    diluted.water_parts = stage->water_parts;
    double share = use_share(&diluted, stage->formula, part);
    struct goods one = goods_of_needs(stage->use);
    double needed = goods_in(&process->holds, &one) * stage->use->needs;
    if (!(share > 0) || !(needed > process->vessel * share * 1.005)) {
        return;
    }
    struct checker *checker = &reader->checker;
    double least = ceil(needed / share / 50 - 1e-9) * 50; /* tanks go by 50 mL */
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, reader->vessel_span,
                  "%s mL of \"%.*s\" hold %s mL of stock, and what the %s holds needs %s mL", number_print_significant(checker->arena, process->vessel, 4),
                  TEXT_ARGUMENTS(stage->title), number_print_significant(checker->arena, process->vessel * share, 3), process->trays ? "tray" : "tank",
                  number_print_significant(checker->arena, needed, 3));
    diagnostics_relate(checker->diagnostics, diagnostic, stage->use->span, "the use that says how much is needed is here");
    double fewer = floor(process->holds.count * process->vessel * share / needed + 1e-9);
    if (fewer >= 1) {
        diagnostics_help(checker->diagnostics, diagnostic, "take %.0f mL, load only %.0f at a time, or dilute less", least, fewer);
        diagnostics_fix_as(checker->diagnostics, diagnostic, quantity_number_span(reader->holds), "load %s at a time", "%.0f", fewer);
    } else {
        diagnostics_help(checker->diagnostics, diagnostic, "take %.0f mL, or dilute less", least);
    }
    diagnostics_fix_as(checker->diagnostics, diagnostic, reader->vessel_span, "take %s", "%.0f mL", least);
}

static void add_process(struct processes *processes, struct process_reader *reader, const struct declaration *declaration)
{
    struct checker *checker = &reader->checker;
    struct process *process = ARENA_NEW(checker->arena, struct process);
    reader->process = process;
    reader->bath = NULL;
    process->title = text_trim(declaration->title);
    process->declaration = declaration;
    process->vessel = process->drain = NAN;
    checker->formula->declaration = declaration;
    checker->formula->faulty = declaration->title.at == NULL; /* a broken heading has been reported */
    checker->formula->said = NULL;
    if (!checker->formula->faulty) {
        remember_title(processes, checker, process);
    }
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        read_line(reader, statement);
    }
    for (struct stage *stage = process->stages; stage != NULL; stage = stage->next) {
        replenish_by_use(reader, stage);
        if (stage->kind == STAGE_BATH && !checker->formula->faulty) {
            check_vessel(reader, stage);
        }
    }
    process->faulty = checker->formula->faulty;
    *(processes->first == NULL ? &processes->first : &processes->last->next) = process;
    processes->last = process;
}

void processes_add_file(struct processes *processes, const struct syntax_file *file)
{
    struct formula stand_in = {0}; /* what is said is said of a formula; here it is the process */
    struct process_reader reader = {.checker = store_checker(processes->formulary, &stand_in)};
    const struct declaration *declaration = syntax_declarations(file, 1u << DECLARE_PROCESS);
    for (; declaration != NULL; declaration = declaration->next) {
        if (declaration->kind == DECLARE_PROCESS) {
            add_process(processes, &reader, declaration);
        }
    }
}
