/* Classification of a mixture: the rules one after the other, and how their results stand in one list. */
#include "chemistry/hazard_rules.h"

#include "base/number.h"

#include <math.h>

static bool is_by_inhalation(struct text code)
{
    return text_is(code, "H350i");
}

bool hazard_same_subject(const struct hazard_result *result, const struct hazard_class *class, struct text code)
{
    return result->class->family == class->family && (class->family != FAMILY_SUPPLEMENT || result->class == class) &&
           is_by_inhalation(result->code) == is_by_inhalation(code);
}

struct hazard_result **hazard_place(struct hazard_result **list, const struct hazard_class *class, struct text code)
{
    for (struct hazard_result **at = list; *at != NULL; at = &(*at)->next) {
        if (hazard_same_subject(*at, class, code)) {
            if ((*at)->class->rank <= class->rank) {
                return NULL;
            }
            *at = (*at)->next; /* the less severe one goes */
            break;
        }
    }
    while (*list != NULL && (*list)->class < class) { /* the table's order */
        list = &(*list)->next;
    }
    return list;
}

struct hazard_result *hazard_add(struct classification *classification, const struct hazard_class *class, struct text code,
                                 const char *rule, ...)
{
    struct hazard_result **at = hazard_place(&classification->results, class, code);
    if (at == NULL) {
        return NULL;
    }
    struct hazard_result *result = ARENA_NEW(classification->arena, struct hazard_result);
    result->class = class;
    result->hazard = text_from(class->hazard);
    result->code = code.length > 0 ? code : text_from(class->code);
    result->next = *at;
    va_list arguments;
    va_start(arguments, rule);
    result->rule = text_from(arena_format_list(classification->arena, rule, arguments));
    va_end(arguments);
    *at = result;
    return result;
}

/* What the ingredient's part in a class rests on: its own class of that family or, for the eyes, of the skin; else its limit. */
static enum hazard_basis basis_for(const struct hazard_data *data, enum hazard_family family)
{
    const struct hazard_entry *entry = hazard_entry_of(data, family);
    entry = entry == NULL && family == FAMILY_EYE ? hazard_entry_of(data, FAMILY_SKIN) : entry;
    enum hazard_basis basis = entry == NULL ? BASIS_NONE : entry->basis;
    for (size_t i = 0; entry == NULL && i < data->limit_count; i++) {
        basis = data->limits[i].class->family == family ? data->limits[i].basis : basis;
    }
    return basis;
}

void hazard_blame(struct classification *classification, struct hazard_result *result, const struct ingredient *ingredient)
{
    if (result == NULL) {
        return;
    }
    struct hazard_cause **at = &result->because;
    while (*at != NULL && (*at)->percent >= ingredient->percent) {
        at = &(*at)->next;
    }
    struct hazard_cause *cause = ARENA_NEW(classification->arena, struct hazard_cause);
    cause->material = ingredient->data->name;
    cause->percent = ingredient->percent;
    cause->basis = basis_for(ingredient->data, result->class->family);
    cause->next = *at;
    *at = cause;
}

const struct hazard_entry *hazard_entry_of(const struct hazard_data *data, enum hazard_family family)
{
    const struct hazard_entry *found = NULL;
    for (size_t i = 0; i < data->entry_count; i++) {
        const struct hazard_entry *entry = &data->entries[i];
        if (entry->class->family == family && (found == NULL || entry->class->rank < found->class->rank)) {
            found = entry;
        }
    }
    return found;
}

double hazard_limit_of(const struct hazard_data *data, enum hazard_family family, int best, int worst)
{
    double found = NAN;
    for (size_t i = 0; i < data->limit_count; i++) {
        const struct hazard_limit *limit = &data->limits[i];
        bool fits = limit->class->family == family && limit->class->rank >= best && limit->class->rank <= worst;
        if (fits && !(limit->from >= found)) {
            found = limit->from;
        }
    }
    return found;
}

const char *hazard_percent(struct arena *arena, double percent)
{
    return number_print_significant(arena, percent, 3);
}

struct hazard_result *hazard_classify(struct arena *arena, const struct ingredient *ingredients, size_t count,
                                      struct hazard_acidity acidity, bool liquid)
{
    struct classification classification = {
        .arena = arena, .ingredients = ingredients, .count = count, .acidity = acidity, .liquid = liquid};
    hazard_acute(&classification);
    hazard_contact(&classification);
    hazard_single(&classification);
    hazard_organs(&classification);
    hazard_aquatic(&classification);
    hazard_supplement(&classification);
    return classification.results;
}
