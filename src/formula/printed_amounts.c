/* Amounts as print has them, turned into what the notation says in its own order: the warmth of the water before its volume, and a word
 * in brackets that belongs to the unit. */
#include "formula/checking.h"

static struct addition_statement *copy_with(struct checker *checker, const struct addition_statement *statement, const struct quantity *quantity,
                                            struct tails **tails)
{
    struct addition_statement *copy = ARENA_NEW(checker->arena, struct addition_statement);
    *copy = *statement;
    copy->amount = ARENA_NEW(checker->arena, struct amount_words);
    *copy->amount = *statement->amount;
    copy->amount->quantity = ARENA_NEW(checker->arena, struct quantity);
    *copy->amount->quantity = *quantity;
    *tails = ARENA_NEW(checker->arena, struct tails);
    if (statement->tails != NULL) {
        **tails = *statement->tails;
    }
    copy->tails = *tails;
    return copy;
}

/* "Water, 52 °C, 20 oz" */
static const struct addition_statement *warmth_first(struct checker *checker, const struct addition_statement *statement)
{
    const struct quantity *quantity = statement->amount->quantity;
    const struct unit *unit = library_unit(checker->library, quantity->unit);
    bool said = statement->tails != NULL && statement->tails->temperature != NULL;
    if (unit == NULL || unit->dimension != DIMENSION_TEMPERATURE || quantity->more == NULL || said) {
        return statement;
    }
    struct tails *tails;
    struct addition_statement *copy = copy_with(checker, statement, quantity->more, &tails);
    tails->temperature = ARENA_NEW(checker->arena, struct quantity);
    *tails->temperature = *quantity;
    tails->temperature->more = tails->temperature->high = NULL;
    copy->amount->quantity->high = quantity->high;
    copy->amount->quantity->span.end = quantity->span.end;
    copy->amount->span.begin = copy->amount->quantity->span.begin;
    return copy;
}

/* "1 pint (imp.)", "2 oz (by weight)": the words in brackets name the unit, and no form. */
static const struct addition_statement *unit_in_brackets(struct checker *checker, const struct addition_statement *statement)
{
    const struct quantity *quantity = statement->amount->quantity;
    const struct form_words *words = statement->tails == NULL ? NULL : statement->tails->form;
    if (words == NULL || words->words == NULL || words->percent || quantity->more != NULL) {
        return statement;
    }
    struct names *names = checker->library->names;
    struct text qualifier = names_folded(names, words->words)->spelling;
    struct text unit = names_folded(names, quantity->unit)->spelling;
    struct name *meant = NULL;
    for (int turned = 0; turned < 2 && meant == NULL; turned++) {
        struct text first = turned ? qualifier : unit;
        struct text second = turned ? unit : qualifier;
        const char *both = arena_format(checker->arena, "%.*s %.*s", TEXT_ARGUMENTS(first), TEXT_ARGUMENTS(second));
        struct name *name = names_find(names, text_from(both));
        meant = library_unit(checker->library, name) != NULL ? name : NULL;
    }
    if (meant == NULL) {
        return statement;
    }
    struct tails *tails;
    struct addition_statement *copy = copy_with(checker, statement, quantity, &tails);
    copy->amount->quantity->unit = meant;
    tails->form = NULL;
    return copy;
}

const struct addition_statement *check_as_printed(struct checker *checker, const struct addition_statement *statement)
{
    const struct quantity *quantity = statement->amount == NULL ? NULL : statement->amount->quantity;
    bool plain = quantity == NULL || quantity->unit == NULL || (quantity->more == NULL && (statement->tails == NULL || statement->tails->form == NULL));
    return plain ? statement : unit_in_brackets(checker, warmth_first(checker, statement));
}
