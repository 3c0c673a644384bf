/* Variants: a material taken in place of another, in the amount that does as much. */
#include "formula/deriving.h"

#include "base/number.h"
#include "library/replacement.h"

#include <math.h>

/* The form that is written, or the usual one. */
static bool read_formed(struct derivation *derivation, const struct material_words *words, struct formed_material *formed)
{
    double temperature;
    if (!check_material(derivation->checker, words, &formed->material, &formed->form, &temperature)) {
        return false;
    }
    formed->form = formed->form == NULL ? formed->material->usual : formed->form;
    return true;
}

/* Says why it cannot be reckoned. */
static void refuse(struct derivation *derivation, const struct replacement *answer, const struct step *step,
                   const struct formed_material *to, const struct material_words *at, const struct material_words *with)
{
    struct checker *checker = derivation->checker;
    struct diagnostic *diagnostic = NULL;
    switch (answer->fault) {
    case REPLACEMENT_NO_NEUTRALIZER:
        diagnostic = check_say(checker, DIAG_UNIT_MISMATCH, with->span, "%.*s is neither a hydroxide, ammonia nor a plain acid",
                               TEXT_ARGUMENTS(with->name->spelling));
        diagnostics_help(checker->diagnostics, diagnostic, "what stands behind + makes up for acid or alkali, such as sodium hydroxide");
        break;
    case REPLACEMENT_NOT_NEEDED:
        diagnostic = check_say(checker, DIAG_UNIT_MISMATCH, with->span, "%.*s takes the place of %.*s by itself",
                               TEXT_ARGUMENTS(to->material->name), TEXT_ARGUMENTS(step->material->name));
        diagnostics_help(checker->diagnostics, diagnostic, "leave %.*s out", TEXT_ARGUMENTS(with->name->spelling));
        break;
    case REPLACEMENT_WRONG_WAY:
        diagnostic = check_say(checker, DIAG_UNIT_MISMATCH, with->span, "%.*s is more %s than %.*s already",
                               TEXT_ARGUMENTS(to->material->name), answer->acidity > 0 ? "acid" : "alkaline",
                               TEXT_ARGUMENTS(step->material->name));
        diagnostics_help(checker->diagnostics, diagnostic, "%s is wanted with it",
                         answer->acidity > 0 ? "a hydroxide" : "an acid");
        break;
    case REPLACEMENT_NO_FORMULA:
    case REPLACEMENT_NO_ION:
    case REPLACEMENT_GOOD:
    default:
        diagnostic = check_say(checker, DIAG_UNIT_MISMATCH, at->span, "%.*s and %.*s share no ion to reckon equal amounts by",
                               TEXT_ARGUMENTS(step->material->name), TEXT_ARGUMENTS(to->material->name));
        diagnostics_help(checker->diagnostics, diagnostic, "leave one out and add the other with an amount");
        break;
    }
}

/* An amount of a form as it would be written: mL of what is measured. */
static struct amount_words *amount_of(struct derivation *derivation, const struct form *form, double grams, struct span span)
{
    struct checker *checker = derivation->checker;
    bool liquid = !isnan(form->density);
    struct quantity *quantity = ARENA_NEW(checker->arena, struct quantity);
    quantity->value = liquid ? grams / form->density : grams;
    quantity->unit = names_find(checker->library->names, liquid ? TEXT("mL") : TEXT("g"));
    quantity->span = span;
    struct amount_words *amount = ARENA_NEW(checker->arena, struct amount_words);
    *amount = (struct amount_words){AMOUNT_PLAIN, quantity, NULL, span};
    return amount;
}

static void put(struct derivation *derivation, struct addition_statement *addition, const struct material_words *words,
                const struct form *form, double grams, struct text note, struct span span)
{
    struct arena *arena = derivation->checker->arena;
    struct material_words *copy = ARENA_NEW(arena, struct material_words);
    *copy = *words;
    struct tails *tails = ARENA_NEW(arena, struct tails);
    if (addition->tails != NULL) {
        *tails = *addition->tails;
    }
    tails->note = note;
    addition->material = copy;
    addition->amount = amount_of(derivation, form, grams, span);
    addition->tails = tails;
    addition->base.span = span;
}

static const char *original(struct arena *arena, const struct step *step)
{
    bool formed = step->form->label.length > 0;
    return arena_format(arena, "%s g of %.*s%s%.*s%s", number_print_significant(arena, step->mass, 4),
                        TEXT_ARGUMENTS(step->material->name), formed ? " (" : "", TEXT_ARGUMENTS(step->form->label),
                        formed ? ")" : "");
}

void derive_swap(struct derivation *derivation, const struct change_statement *statement)
{
    struct checker *checker = derivation->checker;
    struct arena *arena = checker->arena;
    struct statement **at = derive_find_addition(derivation, statement->from, statement->part, derive_name_end(derivation, statement->from));
    struct material_words to_words = *statement->to;
    struct material_words with_words = statement->with == NULL ? (struct material_words){0} : *statement->with;
    if (statement->with == NULL) {
        library_part_pair(checker->library, &to_words, &with_words);
    }
    struct formed_material to;
    struct formed_material with;
    bool paired = with_words.name != NULL;
    if (at == NULL || !read_formed(derivation, &to_words, &to) || (paired && !read_formed(derivation, &with_words, &with))) {
        return;
    }
    const struct step *step = derive_reckon_step(derivation, *at);
    if (step == NULL || isnan(step->mass)) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_UNIT_MISMATCH, statement->from->span,
                                   "the amount of %.*s is not known, so it cannot be swapped",
                                   TEXT_ARGUMENTS(statement->from->name->spelling)),
                         "leave it out and add the other with its amount");
        return;
    }
    struct formed_material from = {step->material, step->form};
    struct replacement answer = material_replacement(&from, step->mass, &to, paired ? &with : NULL);
    if (answer.fault != REPLACEMENT_GOOD) {
        refuse(derivation, &answer, step, &to, &to_words, &with_words);
        return;
    }
    struct text of = answer.ion.length > 0 ? answer.ion : TEXT("the substance");
    struct text note = text_from(arena_format(arena, "in place of %s: %s mol of %.*s in both", original(arena, step),
                                              number_print_significant(arena, answer.moles, 4), TEXT_ARGUMENTS(of)));
    struct addition_statement *addition = (struct addition_statement *)*at;
    if (paired) {
        struct addition_statement *second = ARENA_NEW(arena, struct addition_statement);
        second->base.kind = SAY_ADDITION;
        second->base.next = addition->base.next;
        addition->base.next = &second->base;
        struct text why = text_from(arena_format(arena, "with the %.*s, in place of %s: as much alkali or acid as that brings",
                                                 TEXT_ARGUMENTS(to.material->name), original(arena, step)));
        put(derivation, second, &with_words, with.form, answer.companion_grams, why, statement->base.span);
    }
    put(derivation, addition, &to_words, to.form, answer.grams, note, statement->base.span);
}
