/* Finds the line of a checked formula. */
#include "workspace/lines.h"

const struct formula *line_formula(const struct checked *checked, const struct declaration *declaration)
{
    const struct formula *formula = checked->session->formulary.formulas;
    while (formula != NULL && formula->declaration != declaration) {
        formula = formula->next;
    }
    return formula;
}

bool line_is_own(const struct formula *formula, struct span span)
{
    const struct declaration *declaration = formula->declaration;
    return span.begin >= declaration->span.begin && span.begin < declaration_end(declaration);
}

struct line_at line_find(const struct checked *checked, size_t offset)
{
    const struct syntax_file *tree = checked->session->files->file;
    struct line_at at = {.checked = checked, .declaration = tree_declaration_at(tree, offset)};
    at.statement = tree_statement_at(tree, at.declaration, offset);
    at.formula = at.declaration == NULL ? NULL : line_formula(checked, at.declaration);
    for (const struct part *part = at.formula == NULL ? NULL : at.formula->parts; part != NULL && at.statement != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            if (step->statement == at.statement || (step->span.begin == at.statement->span.begin && line_is_own(at.formula, step->span))) {
                at.part = part;
                at.step = step;
            }
        }
    }
    return at;
}
