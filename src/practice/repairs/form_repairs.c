/* Forms of a salt that hardly anybody weighs: which line is pointed at, and what may be meant. */
#include "practice/repairs/form_repairs.h"

#include "base/number.h"
#include "practice/repairs/repairs.h"

#include <math.h>

enum { MOST_FORMS_OFFERED = 3 };

const struct step *forms_odd_one(struct bench *bench, const struct step *one, const struct step *other)
{
    bool old = repairs_system_of(bench, one) == SYSTEM_OLD;
    bool one_is_dry = one->form->waters < other->form->waters;
    return one_is_dry == old ? one : other;
}

static const struct addition_statement *statement_of(const struct step *step)
{
    bool addition = step->statement != NULL && (step->statement->kind == SAY_ADDITION || step->statement->kind == SAY_ADD);
    return addition ? (const struct addition_statement *)step->statement : NULL;
}

struct span forms_span(const struct step *step)
{
    const struct addition_statement *addition = statement_of(step);
    return addition == NULL || addition->material->form == NULL ? step->span : addition->material->form->span;
}

/* The same substance as the usual form, rounded as a scale shows it. */
static void offer_equivalent(struct bench *bench, struct diagnostic *diagnostic, const struct step *step, struct span form)
{
    const struct form *usual = step->material->usual;
    double grams = form_equivalent(step->form, usual, step->mass);
    if (step->how != ADD_BY_MASS || isnan(grams) || repairs_system_of(bench, step) == SYSTEM_OLD || step->from_parts ||
        form.end > step->amount_span.begin) {
        return;
    }
    struct arena *arena = bench->formulary->arena;
    struct text between = source_text(bench->formulary->sources, span_make(form.end, step->amount_span.begin));
    const char *amount = number_print_significant(arena, grams, 3);
    diagnostics_fix(bench->formulary->diagnostics, diagnostic, span_make(form.begin, step->amount_span.end),
                    arena_format(arena, "%.*s%.*s%s g", TEXT_ARGUMENTS(usual->name->spelling), TEXT_ARGUMENTS(between), amount),
                    "as much in the usual form: %s g %.*s", amount, TEXT_ARGUMENTS(usual->name->spelling));
}

static void offer_form(struct bench *bench, struct diagnostic *diagnostic, const struct form *form, struct span span)
{
    diagnostics_fix_as(bench->formulary->diagnostics, diagnostic, span, "%s is meant", "%.*s", TEXT_ARGUMENTS(form->name->spelling));
}

void forms_offer(struct bench *bench, struct diagnostic *diagnostic, const struct step *step)
{
    const struct addition_statement *addition = statement_of(step);
    const struct material *material = step->material;
    if (!diagnostics_take_fixes(bench->formulary->diagnostics, diagnostic) || addition == NULL || addition->material->form == NULL || material->usual->name == NULL) {
        return;
    }
    struct span span = addition->material->form->span;
    size_t offered = 0;
    if (step->form != material->usual) {
        offer_form(bench, diagnostic, material->usual, span);
        offered++;
    }
    for (size_t i = 0; i < material->form_count && offered < MOST_FORMS_OFFERED; i++) {
        const struct form *form = &material->forms[i];
        if (form != step->form && form != material->usual && form->name != NULL) {
            offer_form(bench, diagnostic, form, span);
            offered++;
        }
    }
    if (step->form != material->usual) {
        offer_equivalent(bench, diagnostic, step, span);
    }
}
