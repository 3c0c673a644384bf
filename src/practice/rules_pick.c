/* Which rules are worth a look: those for the kind of bath, and of these the ones that speak of what a formula holds. */
#include "practice/rules.h"

#include <string.h>

bool rule_is_for_kind(const struct rule *rule, struct text kind)
{
    for (size_t i = 0; i < rule->kind_count; i++) {
        if (text_equal(rule->kinds[i], kind)) {
            return true;
        }
    }
    return rule->kind_count == 0;
}

/* The need of the rule that fewest rules share; MOST_SUBJECTS when it needs nothing. */
static size_t rarest_need(const struct rule *rule, const size_t *shared)
{
    size_t rarest = MOST_SUBJECTS;
    for (size_t i = 0; i < MOST_SUBJECTS; i++) {
        if (subject_set_has(&rule->needs, i) && (rarest == MOST_SUBJECTS || shared[i] < shared[rarest])) {
            rarest = i;
        }
    }
    return rarest;
}

static void sort_by_need(struct rules_of_kind *picked, struct arena *arena)
{
    size_t shared[MOST_SUBJECTS] = {0};
    for (size_t i = 0; i < picked->count; i++) {
        for (size_t subject = 0; subject < MOST_SUBJECTS; subject++) {
            shared[subject] += subject_set_has(&picked->rules[i]->needs, subject);
        }
    }
    size_t words = (picked->count + 63) / 64;
    picked->words = words;
    picked->without_need = ARENA_ARRAY(arena, uint64_t, words);
    picked->by_need = ARENA_ARRAY(arena, uint64_t, words * MOST_SUBJECTS);
    picked->candidates = ARENA_ARRAY(arena, uint64_t, words);
    for (size_t i = 0; i < picked->count; i++) {
        size_t need = rarest_need(picked->rules[i], shared);
        uint64_t *set = need == MOST_SUBJECTS ? picked->without_need : picked->by_need + need * words;
        set[i / 64] |= (uint64_t)1 << i % 64;
        if (need != MOST_SUBJECTS) {
            subject_set_put(&picked->looked_for, need);
        }
    }
}

const struct rules_of_kind *rules_pick(struct rules *rules, struct text kind)
{
    struct rules_of_kind **place = &rules->by_kind;
    while (*place != NULL && (*place)->kind != kind.at) {
        place = &(*place)->next;
    }
    if (*place != NULL) {
        return *place;
    }
    struct arena *arena = rules->library->arena;
    struct rules_of_kind *picked = ARENA_NEW(arena, struct rules_of_kind);
    size_t all = 0;
    for (const struct rule *rule = rules->first; rule != NULL; rule = rule->next) {
        all++;
    }
    picked->kind = kind.at;
    picked->rules = ARENA_ARRAY(arena, const struct rule *, all);
    for (const struct rule *rule = rules->first; rule != NULL; rule = rule->next) {
        if (rule_is_for_kind(rule, kind)) {
            picked->rules[picked->count++] = rule;
        }
    }
    sort_by_need(picked, arena);
    all = 0;
    for (const struct rule *rule = rules->first_class; rule != NULL; rule = rule->next) {
        all++;
    }
    picked->classes = ARENA_ARRAY(arena, const struct rule *, all);
    for (const struct rule *rule = rules->first_class; rule != NULL; rule = rule->next) {
        if (rule_is_for_kind(rule, kind)) {
            picked->classes[picked->class_count++] = rule;
        }
    }
    *place = picked;
    return picked;
}

void rules_find_candidates(const struct rules_of_kind *picked, const struct subject_set *there)
{
    memcpy(picked->candidates, picked->without_need, picked->words * sizeof *picked->candidates);
    for (size_t i = 0; i < MOST_SUBJECTS / 64; i++) {
        for (uint64_t bits = there->bits[i] & picked->looked_for.bits[i]; bits != 0; bits &= bits - 1) {
            size_t subject = i * 64 + (size_t)__builtin_ctzll(bits);
            const uint64_t *needing = picked->by_need + subject * picked->words;
            for (size_t w = 0; w < picked->words; w++) {
                picked->candidates[w] |= needing[w];
            }
        }
    }
}
