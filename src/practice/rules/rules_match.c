/* Which of the things that rules speak of a line holds. */
#include "practice/rules/rules.h"

enum { DEEPEST = 8 }; /* solutions within solutions */

/* ---- subjects ---- */

/* `form` NULL: any will do. */
static bool name_fits(const struct rule_name *name, const struct material *material, const struct form *form)
{
    if (name->entry != NO_MATERIAL) {
        bool form_fits = form == NULL || name->form.length == 0 ||
                         (form->name != NULL && text_equal(form->name->spelling, name->form)) || text_equal(form->label, name->form);
        return (long)library_entry_number(material->entry) == name->entry && form_fits;
    }
    for (size_t i = 0; i < material->role_count; i++) {
        if (text_equal(material->roles[i], name->role)) {
            return true;
        }
    }
    return false;
}

static bool subject_fits(const struct rule_subject *subject, const struct material *material, const struct form *form)
{
    bool fits = false;
    for (const struct rule_name *name = subject->names; name != NULL; name = name->next) {
        if (name_fits(name, material, form)) {
            if (name->excepted) {
                return false;
            }
            fits = true;
        }
    }
    return fits;
}

/* The sets of a material: of any form of it, and of each. */
static const struct subject_set *find_subjects(const struct rules *rules, const struct material *material)
{
    struct subject_set *sets = ARENA_ARRAY(rules->library->arena, struct subject_set, 1 + material->form_count);
    for (size_t i = 0; i < rules->subject_count; i++) {
        const struct rule_subject *subject = &rules->subjects[i];
        if (!subject_fits(subject, material, NULL)) {
            continue;
        }
        subject_set_put(&sets[0], i);
        for (size_t form = 0; form < material->form_count; form++) {
            if (subject->form.length == 0 || subject_fits(subject, material, &material->forms[form])) {
                subject_set_put(&sets[1 + form], i);
            }
        }
    }
    rules->of_material[material->number] = sets;
    return sets;
}

const struct subject_set *rules_subjects_of(const struct rules *rules, const struct material *material, const struct form *form)
{
    const struct subject_set *sets = rules->of_material[material->number];
    sets = sets != NULL ? sets : find_subjects(rules, material);
    return form == NULL ? sets : &sets[1 + (form - material->forms)];
}

bool rules_material_is(const struct rules *rules, const struct material *material, size_t subject)
{
    return subject_set_has(rules_subjects_of(rules, material, NULL), subject);
}

/* The same, or a solution that holds some. */
bool rules_step_holds(const struct rules *rules, const struct step *step, size_t subject, int depth)
{
    if (rules_step_is(rules, step, subject)) {
        return true;
    }
    if (step->how != ADD_SOLUTION || step->solution == NULL || depth == DEEPEST) {
        return false;
    }
    for (const struct step *inner = step->solution->steps; inner != NULL; inner = inner->next) {
        if (rules_step_holds(rules, inner, subject, depth + 1)) {
            return true;
        }
    }
    return false;
}

void rules_gather(const struct rules *rules, const struct part *part, struct subject_set *there, int depth)
{
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (rules_step_counts(step)) {
            const struct subject_set *set = rules_subjects_of(rules, step->material, step->form);
            for (size_t i = 0; i < MOST_SUBJECTS / 64; i++) {
                there->bits[i] |= set->bits[i];
            }
        } else if (step->how == ADD_SOLUTION && step->solution != NULL && depth < DEEPEST) {
            rules_gather(rules, step->solution, there, depth + 1);
        }
    }
}

/* ---- lines ---- */

const struct step *rules_find(const struct rules *rules, size_t subject, const struct step *from, const struct step *upto)
{
    for (const struct step *step = from; step != upto && step != NULL; step = step->next) {
        if (rules_step_is(rules, step, subject)) {
            return step;
        }
    }
    return NULL;
}

/* The first addition behind `from` and before `upto` that fits. */
const struct step *rules_next_addition(const struct rules *rules, size_t subject, const struct step *from, const struct step *upto)
{
    const struct step *step = rules_find(rules, subject, from, upto);
    while (step != NULL && !step_is_addition(step)) {
        step = rules_find(rules, subject, step->next, upto);
    }
    return step;
}

bool rules_stands_after(const struct step *step, const struct step *other)
{
    for (const struct step *next = other->next; next != NULL; next = next->next) {
        if (next == step) {
            return true;
        }
    }
    return false;
}
