/* Which rules are worth a trial: those for the kind of bath and its purpose, and of these the ones that speak of what a formula
 * holds. */
#include "practice/rules/rules.h"

#include "library/bath_kinds.h"

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
    for (size_t w = 0; w < MOST_SUBJECTS / 64; w++) {
        for (uint64_t bits = rule->needs.bits[w]; bits != 0; bits &= bits - 1) {
            size_t subject = w * 64 + (size_t)__builtin_ctzll(bits);
            rarest = rarest == MOST_SUBJECTS || shared[subject] < shared[rarest] ? subject : rarest;
        }
    }
    return rarest;
}

static void sort_by_need(struct rules_of_kind *picked, struct arena *arena)
{
    size_t shared[MOST_SUBJECTS] = {0};
    for (size_t i = 0; i < picked->count; i++) {
        for (size_t w = 0; w < MOST_SUBJECTS / 64; w++) {
            for (uint64_t bits = picked->rules[i]->needs.bits[w]; bits != 0; bits &= bits - 1) {
                shared[w * 64 + (size_t)__builtin_ctzll(bits)]++;
            }
        }
    }
    size_t words = (picked->count + 63) / 64;
    picked->words = words;
    picked->without_need = ARENA_ARRAY(arena, uint64_t, words);
    picked->by_need = ARENA_ARRAY(arena, uint64_t, words * MOST_SUBJECTS);
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
    picked->kind = kind.at;
    picked->kept_as_stock = library_bath_role(rules->library, kind, BATH_KEPT_AS_STOCK);
    picked->many_classes = library_bath_role(rules->library, kind, BATH_OF_MANY_CLASSES);
    picked->rules = ARENA_ARRAY(arena, const struct rule *, rules->list.count);
    for (size_t i = 0; i < rules->list.count; i++) {
        if (rule_is_for_kind(rules->list.rules[i], kind)) {
            picked->rules[picked->count++] = rules->list.rules[i];
        }
    }
    sort_by_need(picked, arena);
    picked->classes = ARENA_ARRAY(arena, const struct rule *, rules->classes.count);
    for (size_t i = 0; i < rules->classes.count; i++) {
        if (rule_is_for_kind(rules->classes.rules[i], kind)) {
            picked->classes[picked->class_count++] = rules->classes.rules[i];
        }
    }
    *place = picked;
    return picked;
}

/* ---- the rules that may speak of a formula ---- */

void rules_gather_all(struct bench *bench)
{
    struct contents *contents = &bench->contents;
    for (const struct part *part = bench->formula->parts; part != NULL; part = part->next) {
        rules_gather(bench->rules, part, &contents->there, 0);
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            contents->pinches = contents->pinches || step->kind == STEP_PINCH;
        }
    }
}

bool rule_may_hold(const struct rule *rule, const struct contents *contents)
{
    for (size_t i = 0; i < MOST_SUBJECTS / 64; i++) {
        uint64_t there = contents->there.bits[i];
        if ((rule->needs.bits[i] & ~there) != 0 || (!contents->pinches && (rule->lacks.bits[i] & there) != 0)) {
            return false;
        }
    }
    return true;
}

uint64_t rules_candidates(const struct rules_of_kind *picked, const struct subject_set *there, size_t word)
{
    uint64_t candidates = picked->without_need[word];
    for (size_t i = 0; i < MOST_SUBJECTS / 64; i++) {
        for (uint64_t bits = there->bits[i] & picked->looked_for.bits[i]; bits != 0; bits &= bits - 1) {
            size_t subject = i * 64 + (size_t)__builtin_ctzll(bits);
            candidates |= picked->by_need[subject * picked->words + word];
        }
    }
    return candidates;
}
