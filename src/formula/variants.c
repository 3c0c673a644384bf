/* Variants: the statements of a formula with the variant's changes worked in, line by line, before they are checked. */
#include "formula/deriving.h"

#include "base/number.h"

static size_t statement_size(const struct statement *statement)
{
    switch (statement->kind) {
    case SAY_ADDITION:
    case SAY_PINCH:
    case SAY_ADD:
        return sizeof(struct addition_statement);
    case SAY_SOLUTION:
        return sizeof(struct solution_statement);
    case SAY_DILUTE:
        return sizeof(struct ratio_statement);
    case SAY_MIX:
        return sizeof(struct mix_statement);
    case SAY_TIME:
        return sizeof(struct time_statement);
    case SAY_POUR:
        return sizeof(struct pour_statement);
    case SAY_REPLENISH:
        return sizeof(struct replenish_statement);
    case SAY_MAKES:
    case SAY_KEEPS:
    case SAY_COOL:
    case SAY_WARM:
    case SAY_STAND:
    case SAY_TEMPERATURE:
    case SAY_NEEDS:
    case SAY_CAPACITY:
    case SAY_COEFFICIENT:
        return sizeof(struct quantity_statement);
    case SAY_KIND:
    case SAY_FOR:
    case SAY_MEASURES:
    case SAY_SILENCE:
    case SAY_FILTER:
    case SAY_PART:
    case SAY_USE:
        return sizeof(struct words_statement);
    case SAY_LINE:
        return sizeof(struct statement);
    default:
        return sizeof(struct text_statement);
    }
}

static struct statement *copy_statement(struct checker *checker, const struct statement *statement)
{
    size_t size = statement_size(statement);
    struct statement *copy = arena_allocate(checker->arena, size);
    memcpy(copy, statement, size);
    copy->next = NULL;
    return copy;
}

/* Puts it at the end of a list, to be looked for from `place` on; returns where the next one goes. */
static struct statement **append(struct statement **place, struct statement *statement)
{
    while (*place != NULL) {
        place = &(*place)->next;
    }
    *place = statement;
    return &statement->next;
}

static bool says(const struct declaration *declaration, enum statement_kind kind)
{
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == kind) {
            return true;
        }
    }
    return false;
}

static struct name *use_name(struct checker *checker, const struct statement *statement)
{
    return names_folded(checker->library->names, ((const struct words_statement *)statement)->words->name);
}

static bool has_use(struct checker *checker, const struct declaration *declaration, const struct name *name)
{
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_USE && use_name(checker, statement) == name) {
            return true;
        }
    }
    return false;
}

/* The parent's statements without those that the variant says anew: kind, purpose, final volume, keeping, a use of the same
 * name. */
static void take_over(struct derivation *derivation)
{
    const struct declaration *own = derivation->variant->declaration;
    bool in_replaced_use = false;
    struct statement **end = &derivation->statements;
    for (const struct statement *statement = derivation->parent->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_USE) {
            in_replaced_use = has_use(derivation->checker, own, use_name(derivation->checker, statement));
        }
        bool of_use = statement_is_of_use(statement) || statement->kind == SAY_NOTE;
        bool once = statement->kind == SAY_KIND || statement->kind == SAY_FOR || statement->kind == SAY_MAKES ||
                    statement->kind == SAY_AFTER || statement->kind == SAY_KEEPS || statement->kind == SAY_MEASURES;
        if ((in_replaced_use && of_use) || (once && says(own, statement->kind))) {
            continue;
        }
        end = append(end, copy_statement(derivation->checker, statement));
    }
}

/* ---- the changes ---- */

static void change(struct derivation *derivation, const struct change_statement *statement)
{
    struct statement **at = derive_find_addition(derivation, statement->from, statement->part, derive_name_end(derivation, statement->from));
    if (at == NULL) {
        return;
    }
    struct addition_statement *addition = (struct addition_statement *)*at;
    bool making = derive_is_to_make(*at) && statement->amount->kind == AMOUNT_PLAIN; /* "change water to 2 L" of a "to make" */
    addition->amount = statement->amount;
    if (making) {
        addition->amount = ARENA_NEW(derivation->checker->arena, struct amount_words);
        *addition->amount = *statement->amount;
        addition->amount->kind = AMOUNT_TO_MAKE;
    }
    addition->base.span = statement->base.span;
    if (statement->from->form != NULL) {
        addition->material = statement->from;
    }
}

static void leave_out(struct derivation *derivation, const struct change_statement *statement)
{
    struct statement **at = derive_find_addition(derivation, statement->from, statement->part, derive_name_end(derivation, statement->from));
    if (at != NULL) {
        *at = (*at)->next;
    }
}

static void add(struct derivation *derivation, const struct statement *statement)
{
    struct addition_statement *addition =
        (struct addition_statement *)copy_statement(derivation->checker, statement);
    addition->base.kind = SAY_ADDITION;
    const struct tails *tails = addition->tails;
    const struct word *part = tails == NULL ? NULL : tails->part;
    bool placed = tails != NULL && tails->place != NULL;
    uint32_t amount_end = addition->amount->span.end;
    struct statement **place = placed ? derive_find_addition(derivation, tails->place, part, amount_end)
                                      : derive_usual_place(derivation, addition->material, part, amount_end);
    if (place == NULL) {
        return;
    }
    if (placed && !tails->before) {
        place = &(*place)->next;
    }
    addition->base.next = *place;
    *place = &addition->base;
}

const struct step *derive_reckon_step(struct derivation *derivation, const struct statement *wanted)
{
    struct checker *checker = derivation->checker;
    struct formula *scratch = ARENA_NEW(checker->arena, struct formula);
    *scratch = (struct formula){.title = derivation->variant->title,
                                .declaration = derivation->variant->declaration,
                                .statements = derivation->statements,
                                .scratch = true};
    check_statements(checker->formulary, scratch);
    for (const struct part *part = scratch->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            if (step->statement == wanted) {
                return step;
            }
        }
    }
    return NULL;
}

/* A remark of the variant before its uses is of the whole formula: at the end it would be of the parent's last part or use. */
static void put_first(struct derivation *derivation, const struct statement *statement)
{
    struct statement *copy = copy_statement(derivation->checker, statement);
    struct statement **place = derivation->last_remark == NULL ? &derivation->statements : &derivation->last_remark->next;
    copy->next = *place;
    *place = copy;
    derivation->last_remark = copy;
}

static void apply(struct derivation *derivation)
{
    struct statement **end = &derivation->statements; /* behind the variant's own lines, of which none is left out again */
    bool in_use = false;
    for (const struct statement *statement = derivation->variant->declaration->statements; statement != NULL;
         statement = statement->next) {
        switch (statement->kind) {
        case SAY_OF:
            break;
        case SAY_CHANGE:
            change(derivation, (const struct change_statement *)statement);
            break;
        case SAY_LEAVE_OUT:
            leave_out(derivation, (const struct change_statement *)statement);
            break;
        case SAY_ADD:
            add(derivation, statement);
            break;
        case SAY_SWAP:
            derive_swap(derivation, (const struct change_statement *)statement);
            break;
        default:
            in_use = in_use || statement->kind == SAY_USE;
            if (!in_use && (statement->kind == SAY_NOTE || statement->kind == SAY_KEEPS)) {
                put_first(derivation, statement);
            } else {
                end = append(end, copy_statement(derivation->checker, statement));
            }
            break;
        }
    }
}

static void say_unknown_parent(struct checker *checker, const struct text_statement *of, const struct formula *other)
{
    struct diagnostic *diagnostic = check_say(
        checker, DIAG_FORMULA_UNKNOWN, of->text_span,
        other == NULL ? "there is no formula \"%.*s\" in these files" : "\"%.*s\" would be a variant of itself",
        TEXT_ARGUMENTS(of->text));
    struct text near = formulary_near_title(checker->formulary, of->text);
    if (other == NULL && near.length > 0) {
        diagnostics_help(checker->diagnostics, diagnostic, "did you mean \"%.*s\"?", TEXT_ARGUMENTS(near));
        diagnostics_fix_writing(checker->diagnostics, diagnostic, of->text_span, "\"%.*s\"", TEXT_ARGUMENTS(near));
    } else {
        diagnostics_help(checker->diagnostics, diagnostic, "give the title as its heading has it, and its file as well");
    }
}

static void say_too_deep(struct checker *checker, const struct text_statement *of)
{
    diagnostics_help(checker->diagnostics,
                     check_say(checker, DIAG_FORMULA_UNKNOWN, of->text_span, "variants of variants are followed %d deep, and no deeper",
                               CHECK_DEEPEST),
                     "make it a variant of one of the formulas before");
}

bool check_derive(struct checker *checker, struct formula *variant)
{
    const struct text_statement *of = NULL;
    for (const struct statement *statement = variant->declaration->statements; statement != NULL;
         statement = statement->next) {
        if (statement->kind == SAY_OF) {
            of = (const struct text_statement *)statement;
        }
    }
    if (of == NULL) {
        if (!variant->faulty) {
            struct diagnostic *diagnostic = check_say(checker, DIAG_SYNTAX, variant->declaration->title_span,
                                                      "the variant does not say of which formula it is one");
            diagnostics_help(checker->diagnostics, diagnostic, "add a line such as: of \"Print developer\"");
        }
        variant->faulty = true;
        return false;
    }
    struct formula *parent = formulary_find(checker->formulary, of->text);
    if (parent == NULL || parent == variant || parent->being_checked) {
        say_unknown_parent(checker, of, parent);
        return false;
    }
    if (parent->parts == NULL) {
        if (checker->formulary->depth > CHECK_DEEPEST) {
            say_too_deep(checker, of);
            return false;
        }
        check_formula(checker->formulary, parent);
    }
    if (parent->declaration->kind == DECLARE_VARIANT && parent->variant_of == NULL) { /* it is said there what is wrong */
        variant->faulty = true;
        return false;
    }
    variant->level = parent->level + 1;
    if (variant->level > CHECK_DEEPEST) {
        say_too_deep(checker, of);
        return false;
    }
    variant->variant_of = parent;
    variant->faulty = variant->faulty || parent->faulty;
    variant->measures = parent->measures;
    struct derivation derivation = {.checker = checker, .variant = variant, .parent = parent};
    take_over(&derivation);
    apply(&derivation);
    variant->statements = derivation.statements;
    return true;
}
