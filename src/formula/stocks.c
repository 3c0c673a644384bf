/* Stock solutions that are kept on the shelf. */
#include "formula/checking.h"

/* A checker needs a formula to take note of what is wrong; a stock has one of its own for that. */
static struct checker stock_checker(struct formulary *formulary, struct formula *shell, const struct declaration *declaration)
{
    shell->declaration = declaration;
    return (struct checker){.formulary = formulary,
                            .library = formulary->library,
                            .diagnostics = formulary->diagnostics,
                            .arena = formulary->arena,
                            .forms = formulary->arena,
                            .formula = shell};
}

static void check_stock_strength(struct checker *checker, struct stock *stock)
{
    const struct strength *strength = &stock->declaration->strength;
    if (strength->saturated) {
        stock->percent = material_saturated_percent(stock->material, stock->form);
        if (isnan(stock->percent)) {
            diagnostics_help(checker->diagnostics,
                             check_say(checker, DIAG_STOCK_UNKNOWN, strength->span,
                                       "a saturated stock cannot be reckoned: the solubility of %.*s is not known",
                                       TEXT_ARGUMENTS(stock->material->name)),
                             "give its strength in place of saturated, such as 10 %%");
        }
        return;
    }
    stock->percent = strength->percent;
    if (!(strength->percent > 0) || (strength->percent > 100 && strength->basis == PERCENT_WEIGHT_IN_WEIGHT)) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, strength->span, "no stock has this strength"),
                         "write it as in: stock phenidone 1 %%");
    }
}

static void check_stock_statement(struct checker *checker, struct stock *stock, const struct statement *statement)
{
    struct keeping *keeping;
    struct remark *remark;
    switch (statement->kind) {
    case SAY_SOLVENT:
        stock->solvent = ((const struct words_statement *)statement)->words->name->spelling;
        if (library_material(checker->library, ((const struct words_statement *)statement)->words->name) == NULL) {
            diagnostics_help(checker->diagnostics,
                             check_say(checker, DIAG_MATERIAL_UNKNOWN,
                                       ((const struct words_statement *)statement)->words->span,
                                       "\"%.*s\" is not a known solvent", TEXT_ARGUMENTS(stock->solvent)),
                             "look it up with: potash materials; or declare it in a file of your own");
        }
        break;
    case SAY_KEEPS:
        keeping = check_keeping(checker, (const struct quantity_statement *)statement);
        if (keeping != NULL) {
            CHAIN_APPEND(&stock->keeps, keeping);
        }
        break;
    case SAY_NOTE:
        remark = ARENA_NEW(checker->arena, struct remark);
        remark->text = ((const struct text_statement *)statement)->text;
        CHAIN_APPEND(&stock->notes, remark);
        break;
    default:
        break;
    }
}

const struct stock *formulary_stock(const struct formulary *formulary, const struct step *step)
{
    for (const struct stock *stock = formulary->stocks; stock != NULL; stock = stock->next) {
        bool same = stock->material == step->material && stock->basis == step->basis &&
                    fabs(stock->percent - step->stock_percent) <= 1e-9 * stock->percent;
        if (same) {
            return stock;
        }
    }
    return NULL;
}

static void check_stock_twice(struct checker *checker, const struct stock *stock)
{
    for (const struct stock *other = checker->formulary->stocks; other != stock; other = other->next) {
        if (other->material == stock->material && other->form == stock->form && other->percent == stock->percent &&
            other->basis == stock->basis && text_equal(other->solvent, stock->solvent)) {
            struct diagnostic *diagnostic = check_say(checker, DIAG_DECLARED_TWICE, stock->declaration->name.span,
                                                      "this stock is declared already");
            diagnostics_relate(checker->diagnostics, diagnostic, other->declaration->name.span, "the other one is here");
            return;
        }
    }
}

void check_stock(struct formulary *formulary, struct stock *stock)
{
    struct formula shell = {0};
    struct checker checker = stock_checker(formulary, &shell, stock->declaration);
    double temperature;
    if (!check_material(&checker, &stock->declaration->name, &stock->material, &stock->form, &temperature)) {
        return;
    }
    if (stock->form == NULL) {
        stock->form = stock->material->usual;
    }
    stock->basis = stock->declaration->strength.basis;
    stock->saturated = stock->declaration->strength.saturated;
    check_stock_strength(&checker, stock);
    for (const struct statement *statement = stock->declaration->statements; statement != NULL;
         statement = statement->next) {
        check_stock_statement(&checker, stock, statement);
    }
    check_stock_twice(&checker, stock);
}
