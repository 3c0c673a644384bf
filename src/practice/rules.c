/* Rules from their declarations. */
#include "practice/rules.h"

#include <math.h>

static void put(struct subject_set *set, size_t subject)
{
    set->bits[subject / 64] |= (uint64_t)1 << subject % 64;
}

static size_t subject_index(struct rules *rules, const struct rule_subject *wanted)
{
    for (size_t i = 0; i < rules->subject_count; i++) {
        const struct rule_subject *subject = &rules->subjects[i];
        if (subject->entry == wanted->entry && text_equal(subject->form, wanted->form) &&
            text_equal(subject->role, wanted->role)) {
            return i;
        }
    }
    if (rules->subject_count == MOST_SUBJECTS) {
        return MOST_SUBJECTS;
    }
    rules->subjects[rules->subject_count] = *wanted;
    return rules->subject_count++;
}

struct role_search {
    struct text role;
    bool found;
};

static void look_for_role(void *context, const struct material *material)
{
    struct role_search *search = context;
    for (size_t i = 0; i < material->role_count; i++) {
        search->found = search->found || text_equal(material->roles[i], search->role);
    }
}

static bool role_exists(struct library *library, struct text role)
{
    struct role_search search = {role, false};
    library_each_material(library, look_for_role, &search);
    return search.found;
}

/* A role is named as such ("developing agent"), a material by any of its names.  MOST_SUBJECTS when it is neither. */
static size_t read_subject(struct rules *rules, const struct material_words *words)
{
    struct library *library = rules->library;
    struct rule_subject subject = {0};
    struct text folded = names_folded(library->names, words->name)->spelling;
    subject.entry = library_material_entry(library, folded);
    if (subject.entry != NULL) {
        if (words->form != NULL && words->form->words != NULL) {
            subject.form = names_folded(library->names, words->form->words)->spelling;
        }
        return subject_index(rules, &subject);
    }
    /* Roles of the library's own rules are tested (tests/practice); only a user's are worth the search. */
    const struct source_file *file = source_file_at(library->sources, words->span.begin);
    if (!file->of_library && !role_exists(library, folded)) {
        struct diagnostic *diagnostic =
            diagnostics_add(library->diagnostics, DIAG_MATERIAL_UNKNOWN, words->span, "\"%.*s\" is neither a material nor a role",
                            TEXT_ARGUMENTS(words->name->spelling));
        diagnostics_help(library->diagnostics, diagnostic, "roles are: developing agent, alkali, preservative, restrainer, acid …");
        return MOST_SUBJECTS;
    }
    subject.role = folded;
    return subject_index(rules, &subject);
}

static enum diagnostic_id id_of(enum relation relation)
{
    switch (relation) {
    case RELATION_AFTER:
    case RELATION_BEFORE:
        return DIAG_ORDER;
    case RELATION_MISSING:
        return DIAG_ROLE_MISSING;
    case RELATION_MEETS:
        return DIAG_HAZARD_COMBINATION;
    case RELATION_THERE:
    default:
        return DIAG_AMOUNT_UNUSUAL;
    }
}

/* The bound in g/L; false when it is no concentration, which is reported. */
static bool read_bound(struct rules *rules, struct rule_condition *condition, const struct bound *bound)
{
    condition->bound = NAN;
    if (bound == NULL) {
        return true;
    }
    const struct unit *unit =
        bound->quantity->unit == NULL ? NULL : library_unit(rules->library, bound->quantity->unit);
    if (unit == NULL || unit->dimension != DIMENSION_CONCENTRATION) {
        struct diagnostic *diagnostic = diagnostics_add(rules->library->diagnostics, DIAG_UNIT_MISMATCH, bound->quantity->span,
                                                        "a rule's limit is a concentration");
        diagnostics_help(rules->library->diagnostics, diagnostic, "write it as: over 10 g/L");
        return false;
    }
    condition->bound = bound->quantity->value * unit->factor;
    condition->over = bound->over;
    return true;
}

static bool read_condition(struct rules *rules, struct rule *rule, const struct condition_statement *statement)
{
    struct rule_condition *condition = &rule->conditions[rule->condition_count];
    condition->relation = statement->relation;
    condition->subject = read_subject(rules, statement->subject);
    condition->object = statement->object == NULL ? condition->subject : read_subject(rules, statement->object);
    if (condition->subject == MOST_SUBJECTS || condition->object == MOST_SUBJECTS ||
        !read_bound(rules, condition, statement->bound)) {
        return false;
    }
    if (rule->condition_count == 0) {
        rule->id = id_of(condition->relation);
    }
    rule->condition_count++;
    if (condition->relation == RELATION_MISSING) {
        put(&rule->lacks, condition->subject);
    } else {
        put(&rule->needs, condition->subject);
        put(&rule->needs, condition->object);
    }
    return true;
}

static void count(const struct declaration *declaration, size_t *conditions, size_t *kinds)
{
    *conditions = *kinds = 0;
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        *conditions += statement->kind == SAY_WHEN;
        const struct word *word = statement->kind == SAY_FOR ? ((const struct words_statement *)statement)->words : NULL;
        for (; word != NULL; word = word->next) {
            ++*kinds;
        }
    }
}

static void read_rule(void *context, const struct declaration *declaration)
{
    struct rules *rules = context;
    struct library *library = rules->library;
    struct rule *rule = ARENA_NEW(library->arena, struct rule);
    size_t conditions;
    size_t kinds;
    count(declaration, &conditions, &kinds);
    rule->name = declaration->name.name->spelling;
    rule->conditions = ARENA_ARRAY(library->arena, struct rule_condition, conditions);
    rule->kinds = ARENA_ARRAY(library->arena, struct text, kinds);
    bool good = true;
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        const struct text_statement *text = (const struct text_statement *)statement;
        switch (statement->kind) {
        case SAY_FOR:
            for (const struct word *word = ((const struct words_statement *)statement)->words; word != NULL; word = word->next) {
                rule->kinds[rule->kind_count++] = names_folded(library->names, word->name)->spelling;
            }
            break;
        case SAY_WHEN:
            good = read_condition(rules, rule, (const struct condition_statement *)statement) && good;
            break;
        case SAY_WARN:
            rule->warn = text->text;
            break;
        case SAY_ADVISE:
            rule->advise = text->text;
            break;
        case SAY_SOURCE:
            rule->source = text->text;
            break;
        default:
            break;
        }
    }
    if (rule->condition_count == 0 || rule->warn.length == 0) {
        if (good) {
            diagnostics_add(library->diagnostics, DIAG_SYNTAX, declaration->span,
                            "a rule needs a line \"when …\" and a line \"warn …\"");
        }
        return;
    }
    if (good) {
        struct rule **end = &rules->first;
        while (*end != NULL) {
            end = &(*end)->next;
        }
        *end = rule;
    }
}

void rules_start(struct rules *rules, struct library *library)
{
    *rules = (struct rules){.library = library};
    library_each_rule(library, read_rule, rules);
}
