/* Checks a formula: statement by statement into the checked form, then what holds for the whole. */
#include "formula/checking.h"

void check_say_twice(struct checker *checker, const struct statement *statement, const char *what, struct span first)
{
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_DECLARED_TWICE, statement->span, "%s said a second time", what);
    diagnostics_relate(checker->diagnostics, diagnostic, first, "the first time is here");
    diagnostics_help(checker->diagnostics, diagnostic, "leave one of the two out");
    diagnostics_fix(checker->diagnostics, diagnostic, statement->span, "", "leave this line out");
}

static void add_remark(struct checker *checker, struct remark **list, struct text text)
{
    struct remark *remark = ARENA_NEW(checker->forms, struct remark);
    remark->text = text;
    CHAIN_APPEND(list, remark);
}

struct keeping *check_keeping(struct checker *checker, const struct quantity_statement *statement)
{
    struct measure reading =
        check_quantity_of(checker, statement->quantity, DIMENSION_TIME, "keeps 6 months in full bottle");
    if (reading.fault != MEASURE_GOOD) {
        return NULL;
    }
    if (reading.low <= 0) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, statement->quantity->span,
                                   "a keeping time must be more than nothing"),
                         "write it as in: keeps 6 months in full bottle");
        return NULL;
    }
    struct keeping *keeping = ARENA_NEW(checker->forms, struct keeping);
    keeping->duration = reading.low;
    keeping->months = measure_months(checker->library, statement->quantity);
    keeping->in = statement->word == NULL ? (struct text){0} : statement->word->name->spelling;
    keeping->span = statement->base.span;
    keeping->amount_span = statement->quantity->span;
    return keeping;
}

static void check_keeps(struct checker *checker, const struct quantity_statement *statement)
{
    struct keeping *keeping = check_keeping(checker, statement);
    if (keeping == NULL) {
        return;
    }
    bool of_part = checker->part->name != NULL && checker->use == NULL;
    struct keeping **list = of_part ? &checker->part->keeps : &checker->formula->keeps;
    CHAIN_APPEND(list, keeping);
}

static void check_note(struct checker *checker, const struct text_statement *statement)
{
    struct remark **list = checker->use != NULL          ? &checker->use->notes
                           : checker->part->name != NULL ? &checker->part->notes
                                                         : &checker->formula->notes;
    add_remark(checker, list, statement->text);
}

void check_say_too_many(struct checker *checker, struct span span, const char *what, int most, bool *told)
{
    if (!*told) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, span, "a formula has no more than %d %s", most, what),
                         "make several formulas of it");
    }
    *told = true;
}

static struct part *new_part(struct checker *checker, struct name *name, struct span span)
{
    struct part *part = ARENA_NEW(checker->forms, struct part);
    part->name = name;
    part->span = span;
    part->makes = part->makes_mass = NAN;
    if (checker->formula->part_count == CHECK_MOST_PARTS) { /* what follows belongs to a part that nobody looks at */
        check_say_too_many(checker, span, "parts", CHECK_MOST_PARTS, &checker->too_many_parts);
        checker->part = part;
        return part;
    }
    if (checker->part == NULL) {
        checker->formula->parts = part;
    } else { /* the open part is the last one */
        checker->part->next = part;
    }
    checker->formula->part_count++;
    checker->part = part;
    return part;
}

struct part *check_find_part(const struct formula *formula, const struct names *names, struct name *name)
{
    const struct name *wanted = names_folded((struct names *)names, name);
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        if (part->name != NULL && names_folded((struct names *)names, part->name) == wanted) {
            return check_open_part(part);
        }
    }
    return NULL;
}

static void check_part(struct checker *checker, const struct words_statement *statement)
{
    struct name *name = statement->words->name;
    const struct part *before = check_find_part(checker->formula, checker->library->names, name);
    if (before != NULL) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_DECLARED_TWICE, statement->words->span,
                                                  "part %.*s is there already", TEXT_ARGUMENTS(name->spelling));
        diagnostics_relate(checker->diagnostics, diagnostic, before->span, "the other part is here");
    }
    checker->use = NULL;
    /* The first heading names the part that stood open, unless something was added to it. */
    if (checker->part->name == NULL && checker->part->steps == NULL) {
        checker->part->name = name;
        checker->part->span = statement->base.span;
        return;
    }
    new_part(checker, name, statement->base.span);
}

static void check_makes(struct checker *checker, const struct quantity_statement *statement)
{
    if (check_ounces_of_dry_mix(checker, statement->quantity)) {
        return;
    }
    struct measure reading = check_quantity(checker, statement->quantity, true);
    if (reading.fault != MEASURE_GOOD) {
        return;
    }
    if (checker->makes != NULL) {
        check_say_twice(checker, &statement->base, "what it makes is", checker->makes->span);
        return;
    }
    checker->makes = &statement->base;
    if (reading.low <= 0) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, statement->quantity->span,
                                   "a batch must be more than nothing"),
                         "write it as in: makes 1 L");
    } else if (reading.dimension == DIMENSION_VOLUME) {
        checker->makes_volume = reading.low;
    } else if (reading.dimension == DIMENSION_MASS) {
        checker->makes_mass = reading.low;
    } else {
        struct diagnostic *diagnostic = check_say(checker, DIAG_UNIT_MISMATCH, statement->quantity->span,
                                                  "a batch is a volume, or the weight of a dry mix");
        diagnostics_help(checker->diagnostics, diagnostic, "write it as: makes 1 L");
    }
}

static void check_step(struct checker *checker, const struct statement *statement)
{
    const struct quantity_statement *quantity = (const struct quantity_statement *)statement;
    struct measure reading;
    struct step *step;
    switch (statement->kind) {
    case SAY_COOL:
    case SAY_WARM:
        reading = check_quantity_of(checker, quantity->quantity, DIMENSION_TEMPERATURE, "cool to 24 °C");
        step = check_new_step(checker, statement->kind == SAY_COOL ? STEP_COOL : STEP_WARM, statement);
        step->temperature = reading.fault == MEASURE_GOOD ? reading.low : NAN;
        break;
    case SAY_STAND:
        reading = check_quantity_of(checker, quantity->quantity, DIMENSION_TIME, "stand 12 h");
        step = check_new_step(checker, STEP_STAND, statement);
        step->duration = reading.fault == MEASURE_GOOD ? reading.low : NAN;
        break;
    case SAY_FILTER:
        step = check_new_step(checker, STEP_FILTER, statement);
        break;
    default:
        step = check_new_step(checker, STEP_DO, statement);
        step->text = ((const struct text_statement *)statement)->text;
        return;
    }
    step->amount_span = statement->kind == SAY_FILTER ? statement->span : quantity->quantity->span;
}

static void check_statement(struct checker *checker, const struct statement *statement)
{
    switch (statement->kind) {
    case SAY_ADDITION:
    case SAY_PINCH:
        check_addition(checker, (const struct addition_statement *)statement);
        break;
    case SAY_SOLUTION:
        check_solution(checker, (const struct solution_statement *)statement);
        break;
    case SAY_COOL:
    case SAY_WARM:
    case SAY_STAND:
    case SAY_FILTER:
    case SAY_DO:
        check_step(checker, statement);
        break;
    case SAY_PART:
        check_part(checker, (const struct words_statement *)statement);
        break;
    case SAY_MAKES:
        check_makes(checker, (const struct quantity_statement *)statement);
        break;
    case SAY_KEEPS:
        check_keeps(checker, (const struct quantity_statement *)statement);
        break;
    case SAY_NOTE:
        check_note(checker, (const struct text_statement *)statement);
        break;
    default:
        if (statement_is_of_use(statement)) {
            check_use_statement(checker, statement);
        }
        break;
    }
}

/* A formula in parts alone says how much a part is only by `makes`; without it a part is 1 g or 1 mL. */
static void settle_parts(struct checker *checker)
{
    bool dry = !isnan(checker->makes_mass);
    double total = 0;
    bool made_up = false;
    const struct step *first = checker->formula->parts->steps;
    for (const struct step *step = first; step != NULL; step = step->next) {
        if (!step_is_addition(step) || step->how == ADD_AS_NEEDED) {
            continue;
        }
        if (!step->from_parts) {
            return;
        }
        double share = dry ? step->mass : step->volume;
        if (step->how == ADD_TO_MAKE) {
            made_up = true;
            total = step->volume;
        } else if (!made_up && !isnan(share)) {
            total += share;
        }
    }
    double factor = (dry ? checker->makes_mass : checker->makes_volume) / total;
    if (!isfinite(factor)) {
        return;
    }
    for (const struct step *at = first; at != NULL; at = at->next) {
        struct step *step = check_open_step(at);
        step->mass *= factor;
        step->volume *= factor;
        step->from_parts = false;
    }
}

/* The final volume said by `makes` must be the one that the water makes up to. */
static void check_makes_agree(struct checker *checker)
{
    struct part *part = check_open_part(checker->formula->parts);
    bool one = checker->formula->part_count == 1;
    if (checker->makes == NULL || !one) {
        return;
    }
    settle_parts(checker);
    if (!isnan(checker->makes_mass)) {
        part->makes_mass = checker->makes_mass;
        return;
    }
    const struct step *to_make = NULL;
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (step_is_addition(step) && step->how == ADD_TO_MAKE) {
            to_make = step;
        }
    }
    if (to_make == NULL) {
        part->makes = checker->makes_volume;
    } else if (fabs(to_make->volume - checker->makes_volume) > 0.01 * checker->makes_volume) {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_MAKES_DISAGREES, to_make->amount_span,
                      "made up to %.6g mL here, but the formula says that it makes %.6g mL", to_make->volume,
                      checker->makes_volume);
        diagnostics_relate(checker->diagnostics, diagnostic, checker->makes->span, "said here");
        diagnostics_help(checker->diagnostics, diagnostic, "one of the two belongs to another batch size");
    }
}

/* Whether anything behind a pinch brings the rest of its material. */
static bool rest_follows(const struct step *pinch)
{
    for (const struct step *step = pinch->next; step != NULL; step = step->next) {
        bool of_solution = step_is_addition(step) && step->solution != NULL;
        if ((step_is_addition(step) && step->material == pinch->material) ||
            (of_solution && part_find(step->solution, pinch->material) != NULL)) {
            return true;
        }
    }
    return false;
}

/* A pinch is taken ahead from what is weighed later; where nothing is, it counts as nothing. */
static void check_pinches(struct checker *checker, const struct part *part)
{
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (step->kind != STEP_PINCH || rest_follows(step)) {
            continue;
        }
        struct text name = step->material->name;
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_ORDER, step->span,
                      "a pinch is taken ahead from a later addition of %.*s, and none follows here", TEXT_ARGUMENTS(name));
        diagnostics_help(checker->diagnostics, diagnostic, "put this line before the one that adds it, or give it an amount: %.*s 1 g",
                         TEXT_ARGUMENTS(name));
    }
}

static void check_opened(struct checker *checker)
{
    struct formula *formula = checker->formula;
    new_part(checker, NULL, formula->declaration->span);
    check_properties(checker);
    for (const struct statement *statement = formula->statements; statement != NULL; statement = statement->next) {
        check_statement(checker, statement);
    }
    check_makes_agree(checker);
    check_mixtures(checker);
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        check_part_volume(checker, check_open_part(part));
        if (!checker->line_lost && !formula->faulty) {
            check_pinches(checker, part);
        }
    }
}

static struct checker open_checker(struct formulary *formulary, struct formula *formula)
{
    return (struct checker){.formulary = formulary,
                            .library = formulary->library,
                            .diagnostics = formulary->diagnostics,
                            .arena = formulary->arena,
                            .forms = formulary->forms,
                            .formula = formula,
                            .makes_volume = NAN,
                            .makes_mass = NAN};
}

void check_statements(struct formulary *formulary, struct formula *formula)
{
    struct checker checker = open_checker(formulary, formula);
    check_opened(&checker);
}

void check_formula(struct formulary *formulary, struct formula *formula)
{
    struct checker checker = open_checker(formulary, formula);
    formula->being_checked = true;
    formulary->depth++;
    formula->statements = formula->declaration->statements;
    if (formula->declaration->kind == DECLARE_VARIANT && !check_derive(&checker, formula)) {
        formula->statements = NULL;
        checker.line_lost = true; /* all of the parent's lines, the water's among them */
    }
    check_opened(&checker);
    formulary->depth--;
    formula->being_checked = false;
}
