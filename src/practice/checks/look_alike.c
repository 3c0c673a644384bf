/* Materials that are mistaken for another. */
#include "practice/checks/look_alike.h"

#include "practice/checks/unusual_amounts.h"
#include "practice/classes/classes.h"

#include <math.h>
#include <string.h>

static const struct words_statement *mistaken_for(const struct material *material)
{
    for (const struct statement *statement = material->declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_MISTAKEN) {
            return (const struct words_statement *)statement;
        }
    }
    return NULL;
}

/* All materials that one is mistaken for. */
struct look_alikes {
    size_t count;
    const struct material *materials[];
};

struct look_alike_gathering {
    const struct material **materials; /* NULL while they are counted */
    size_t count;
};

static bool gather(void *context, const struct material *other)
{
    struct look_alike_gathering *gathering = context;
    for (size_t i = 0; gathering->materials != NULL && i < gathering->count; i++) {
        if (gathering->materials[i]->entry == other->entry) { /* declared by both */
            return false;
        }
    }
    if (other->stop.length > 0) { /* nobody is led to it */
        return false;
    }
    if (gathering->materials != NULL) {
        gathering->materials[gathering->count] = other;
    }
    gathering->count++;
    return false;
}

static void gather_all(struct library *library, const struct material *material, struct look_alike_gathering *gathering)
{
    gathering->count = 0;
    const struct words_statement *list = mistaken_for(material);
    for (const struct word *word = list == NULL ? NULL : list->words; word != NULL; word = word->next) {
        const struct material_reading *reading = library_material(library, word->name);
        if (reading != NULL) {
            gather(gathering, reading->material);
        }
    }
    /* The mistake goes both ways, but is declared once. */
    library_each_mistaken(library, material, gather, gathering);
}

static const struct look_alikes *look_alikes_of(struct library *library, const struct material *material)
{
    if (material->marks->look_alikes == NULL) {
        struct look_alike_gathering gathering = {0};
        gather_all(library, material, &gathering);
        size_t size = sizeof(struct look_alikes) + gathering.count * sizeof(const struct material *);
        struct look_alikes *look_alikes = arena_allocate(library->arena, size);
        gathering.materials = look_alikes->materials;
        gather_all(library, material, &gathering);
        look_alikes->count = gathering.count;
        material->marks->look_alikes = look_alikes;
    }
    return material->marks->look_alikes;
}

bool look_alike_each(const struct practice *practice, const struct material *material,
                     bool (*visit)(void *context, const struct material *other), void *context)
{
    const struct look_alikes *look_alikes = look_alikes_of(practice->formulary->library, material);
    for (size_t i = 0; i < look_alikes->count; i++) {
        if (visit(context, look_alikes->materials[i])) {
            return true;
        }
    }
    return false;
}

enum { LONGEST_NAME = 48, MOST_EDITS = 5, MOST_EDITS_OF_A_WORD = 3 };

/* Letters to change, leave out or put in (Levenshtein 1966); MOST_EDITS + 1 for names too long to be compared. */
static size_t edits(struct text a, struct text b)
{
    size_t row[LONGEST_NAME + 1];
    if (a.length > LONGEST_NAME || b.length > LONGEST_NAME) {
        return MOST_EDITS + 1;
    }
    for (size_t k = 0; k <= b.length; k++) {
        row[k] = k;
    }
    for (size_t i = 1; i <= a.length; i++) {
        size_t diagonal = row[0];
        row[0] = i;
        for (size_t k = 1; k <= b.length; k++) {
            size_t kept = diagonal + (a.at[i - 1] != b.at[k - 1]);
            diagonal = row[k];
            size_t moved = (row[k] < row[k - 1] ? row[k] : row[k - 1]) + 1;
            row[k] = kept < moved ? kept : moved;
        }
    }
    return row[b.length];
}

static size_t words_of(struct text name)
{
    size_t words = 1;
    for (size_t i = 0; i < name.length; i++) {
        words += name.at[i] == ' ';
    }
    return words;
}

/* Bytes of the whole words among the first `shared` bytes. */
static size_t shared_words(struct text name, size_t shared)
{
    while (shared > 0 && name.at[shared - 1] != ' ') {
        shared--;
    }
    return shared;
}

/* A letter or so apart, as sulfite, sulfate, sulfide and thiosulfate are; what merely looks alike in the jar is not meant. */
bool look_alike_by_name(const struct material *a, const struct material *b)
{
    if (words_of(a->name) != words_of(b->name)) {
        return false;
    }
    size_t shared = 0;
    while (shared < a->name.length && shared < b->name.length && a->name.at[shared] == b->name.at[shared]) {
        shared++;
    }
    bool same_metal = memchr(a->name.at, ' ', shared) != NULL; /* sodium sulfite, sodium thiosulfate */
    size_t longer = a->name.length > b->name.length ? a->name.length : b->name.length;
    size_t apart = edits(a->name, b->name);
    /* Less than half of the rest differs. */
    return apart <= (same_metal ? MOST_EDITS : MOST_EDITS_OF_A_WORD) && apart * 2 < longer - (same_metal ? shared_words(a->name, shared) : 0);
}

static bool share_first_role(const struct material *a, const struct material *b)
{
    return a->role_count > 0 && b->role_count > 0 && text_equal(a->roles[0], b->roles[0]);
}

/* The name in an addition; the whole line where it has none. */
static struct span name_span(const struct step *step)
{
    if (step->statement != NULL && (step->statement->kind == SAY_ADDITION || step->statement->kind == SAY_ADD)) {
        return ((const struct addition_statement *)step->statement)->material->span;
    }
    return step->span;
}

struct span look_alike_name_span(const struct practice *practice, const struct addition_statement *addition,
                                 const struct material *other)
{
    const struct material_words *words = addition->material;
    struct span span = words->span;
    if (words->form == NULL || words->form->span.end <= span.end ||
        library_form(practice->formulary->library, other, words->form) != NULL) {
        return span;
    }
    struct span behind = {words->form->span.end, words->form->span.end + 1};
    span.end = text_is(source_text(practice->formulary->sources, behind), ")") ? behind.end : behind.begin;
    return span;
}

void look_alike_say(const struct practice *practice, struct formula *formula, const struct step *step,
                           const struct material *expected)
{
    struct diagnostics *diagnostics = practice->formulary->diagnostics;
    struct span span = name_span(step);
    struct diagnostic *diagnostic =
        practice_say(practice, formula, DIAG_LOOK_ALIKE, span, "%.*s stands where %.*s is expected in %s %.*s",
                     TEXT_ARGUMENTS(step->material->name), TEXT_ARGUMENTS(expected->name), text_article(formula->kind),
                     TEXT_ARGUMENTS(formula->kind));
    diagnostics_help(diagnostics, diagnostic, "one is easily taken for the other: look at the source and at the bottle");
    if (span.end < step->span.end) {
        struct span name = look_alike_name_span(practice, (const struct addition_statement *)step->statement, expected);
        diagnostics_fix_as(diagnostics, diagnostic, name, "%s is meant", "%.*s", TEXT_ARGUMENTS(expected->name));
    }
}

static bool holds_material(const struct part *part, const struct material *material)
{
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (step->material == material) {
            return true;
        }
    }
    return false;
}

struct search {
    const struct rules *rules;
    const struct practice *practice;
    const struct formula *formula;
    const struct part *part;
    const struct step *step;
    size_t subject;
    const struct material *found;
};

/* ---- what is missing ---- */

/* Whether some rule would miss the material itself if it were taken out. */
static bool is_wanted(const struct rules *rules, const struct formula *formula, const struct material *material)
{
    for (size_t r = 0; r < rules->list.count; r++) {
        const struct rule *rule = rules->list.rules[r];
        for (size_t i = 0; i < rule->condition_count && rule_is_for_kind(rule, formula->kind); i++) {
            const struct rule_condition *condition = &rule->conditions[i];
            if (rule->id == DIAG_ROLE_MISSING && condition->relation == RELATION_MISSING &&
                rules_material_is(rules, material, condition->subject)) {
                return true;
            }
        }
    }
    return false;
}

static bool fills_the_gap(void *context, const struct material *other)
{
    struct search *search = context;
    if (look_alike_by_name(search->step->material, other) && rules_material_is(search->rules, other, search->subject) &&
        amount_is_known(other, search->formula->kind)) {
        search->found = other;
    }
    return search->found != NULL;
}

bool look_alike_for_missing(const struct rules *rules, const struct practice *practice, struct formula *formula,
                            size_t subject, const struct step *only)
{
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            struct search search = {rules, practice, formula, part, step, subject, NULL};
            if (!step_is_addition(step) || step->material == NULL || step->material->is_water ||
                (only != NULL && step != only) || (only == NULL && is_wanted(rules, formula, step->material)) ||
                !look_alike_each(practice, step->material, fills_the_gap, &search)) {
                continue;
            }
            if (!practice_said(practice, DIAG_LOOK_ALIKE, step->span)) {
                look_alike_say(practice, formula, step, search.found);
            }
            return true;
        }
    }
    return false;
}

/* ---- what does not belong ---- */

static bool belongs(void *context, const struct material *other)
{
    struct search *search = context;
    if (look_alike_by_name(search->step->material, other) && !share_first_role(search->step->material, other) &&
        amount_is_known(other, search->formula->kind) && !holds_material(search->part, other)) {
        bool fits = amount_would_fit(search->formula, search->part, search->step, other);
        search->found = fits || search->found == NULL ? other : search->found;
        return fits;
    }
    return false;
}

void look_alike_check(const struct practice *practice, struct formula *formula)
{
    if (formula->kind.length == 0 || text_is(formula->kind, "other")) {
        return;
    }
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            if (!step_is_addition(step) || step->material == NULL || step->material->is_water || isnan(step->mass) ||
                amount_is_known(step->material, formula->kind) || class_vouches(practice, step) || practice_said(practice, DIAG_LOOK_ALIKE, step->span)) {
                continue;
            }
            struct search search = {NULL, practice, formula, part, step, 0, NULL};
            look_alike_each(practice, step->material, belongs, &search);
            if (search.found != NULL) {
                look_alike_say(practice, formula, step, search.found);
            }
        }
    }
}
