/* What must not be in one bath, or not for long: the library's reactions, looked for in a formula. */
#include "practice/checks/meetings.h"

#include "chemistry/reactions.h"
#include "practice/rules/rules.h"

#include <math.h>

enum { DEEPEST = 8 }; /* solutions within solutions */

/* Of a day or a month that two people count unlike. */
static const double KEEPS_ABOUT = 1.05;

struct inspection {
    struct bench *bench;
    struct formula *formula;
    const struct reactions *relation;
    struct library *library;
    struct arena *arena;
    bool *told;                   /* for each reaction, that it was said of the formula; NULL: none was */
};

/* ---- which reactions there may be ---- */

static void gather(struct library *library, const struct part *part, struct group_set *groups, int depth)
{
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (!step_is_addition(step)) {
            continue;
        }
        if (step->material != NULL) {
            group_set_add(groups, step->material->groups);
        } else if (step->solution != NULL && depth < DEEPEST) {
            gather(library, step->solution, groups, depth + 1);
        }
    }
}

static bool is_of_kind(const struct inspection *inspection, const struct reaction *reaction)
{
    for (size_t i = 0; i < reaction->kind_count; i++) {
        if (text_equal(reaction->kinds[i], inspection->formula->kind)) {
            return true;
        }
    }
    return reaction->kind_count == 0;
}

/* The next reaction of a set, from *place on; false at its end. */
static bool next_of(const struct reactions *relation, const uint64_t *set, size_t *place)
{
    while (*place < relation->count && (set[*place / 64] >> *place % 64) == 0) {
        *place = (*place / 64 + 1) * 64;
    }
    if (*place >= relation->count) {
        return false;
    }
    *place += (size_t)__builtin_ctzll(set[*place / 64] >> *place % 64);
    return true;
}

/* ---- saying it ---- */

static struct diagnostic *say(struct inspection *inspection, size_t place, const struct meeting *meeting, enum diagnostic_id id,
                              struct span span)
{
    const struct reaction *reaction = meeting->reaction;
    struct diagnostics *diagnostics = inspection->bench->formulary->diagnostics;
    if (rule_is_silenced(inspection->bench, reaction->name) ||
        bench_said(inspection->bench, id, span)) {
        return NULL;
    }
    if (inspection->told == NULL) {
        inspection->told = ARENA_ARRAY(inspection->arena, bool, inspection->relation->count);
    }
    inspection->told[place] = true;
    const char *grave = reaction->harm == HARM_DEADLY ? "deadly: " : "";
    struct diagnostic *diagnostic =
        meeting->second == NULL
            ? bench_say(inspection->bench, id, span, "%s%.*s: %.*s", grave,
                           TEXT_ARGUMENTS(meeting->first->name), TEXT_ARGUMENTS(reaction->warn))
            : bench_say(inspection->bench, id, span, "%s%.*s with %.*s%s %.*s", grave,
                           TEXT_ARGUMENTS(meeting->first->name), TEXT_ARGUMENTS(meeting->second->name),
                           isnan(reaction->keeps) ? " gives" : ":",
                           TEXT_ARGUMENTS(reaction->warn));
    if (reaction->advise.length > 0) {
        diagnostics_help(diagnostics, diagnostic, "%.*s (reaction %.*s)", TEXT_ARGUMENTS(reaction->advise),
                         TEXT_ARGUMENTS(reaction->shown));
    }
    return diagnostic;
}

static enum diagnostic_id id_of(const struct reaction *reaction)
{
    return reaction->harm == HARM_SPOILS ? DIAG_BATH_SPOILS : DIAG_HAZARD_COMBINATION;
}

static bool holds_solvent(const struct inspection *inspection, const struct step *step, const struct material *material)
{
    const struct stock *stock = step->material == NULL ? NULL : formulary_stock(inspection->bench->formulary, step);
    const struct library_entry *entry =
        stock == NULL || stock->solvent.length == 0 ? NULL : library_material_entry(inspection->library, names_fold(inspection->arena, stock->solvent));
    return entry != NULL && entry == material->entry;
}

/* The line that brings a material into a part; NULL when none does. */
static const struct step *line_of(const struct inspection *inspection, const struct part *part, const struct material *material)
{
    const struct step *found = material == NULL ? NULL : part_find(part, material);
    for (const struct step *step = part->steps; found == NULL && material != NULL && step != NULL; step = step->next) {
        found = holds_solvent(inspection, step, material) ? step : NULL;
    }
    return found;
}

/* A bath that is spoilt by a material in another's place is mended by putting that right, which has been said. */
static bool is_doubted(const struct inspection *inspection, const struct step *step)
{
    return step != NULL && bench_said(inspection->bench, DIAG_LOOK_ALIKE, step->span);
}

/* The line that brings the two together is the later one. */
static void say_of_part(struct inspection *inspection, const struct part *part, size_t place, const struct meeting *meeting)
{
    const struct step *first = line_of(inspection, part, meeting->first);
    const struct step *second = line_of(inspection, part, meeting->second);
    const struct step *later = first == NULL || (second != NULL && rules_stands_after(second, first)) ? second : first;
    const struct step *earlier = later == first ? second : first;
    if (meeting->reaction->harm == HARM_SPOILS && (is_doubted(inspection, first) || is_doubted(inspection, second))) {
        return;
    }
    struct diagnostic *diagnostic =
        say(inspection, place, meeting, id_of(meeting->reaction), later == NULL ? part->span : later->span);
    if (diagnostic != NULL && earlier != NULL && earlier != later) {
        diagnostics_relate(inspection->bench->formulary->diagnostics, diagnostic, earlier->span, "the other is here");
    }
}

/* ---- what a part holds ---- */

static struct text written_name(const struct inspection *inspection, const struct step *step)
{
    enum statement_kind kind = step->statement == NULL ? SAY_DO : step->statement->kind;
    const struct material_words *words =
        kind == SAY_ADDITION || kind == SAY_ADD ? ((const struct addition_statement *)step->statement)->material : NULL;
    return words == NULL || words->name == NULL ? (struct text){0} : names_folded(inspection->library->names, words->name)->spelling;
}

/* What a mixture does not count: water, and what goes in as needed or in a bath whose size is not known. */
static void add_uncounted(const struct inspection *inspection, struct reactants *reactants, const struct part *part, bool counted)
{
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (!step_is_addition(step) || step->material == NULL) {
            continue;
        }
        bool water = step->material->is_water;
        if (water || step->how == ADD_AS_NEEDED || !counted) {
            reactants_add(inspection->arena, reactants, step->material, water ? 0 : INFINITY);
            reactants->items[reactants->count - 1].written = written_name(inspection, step);
        }
    }
}

static struct reactants *reactants_of_part(const struct inspection *inspection, const struct part *part)
{
    struct reactants *reactants = ARENA_NEW(inspection->arena, struct reactants);
    const struct mixture *mixture = mixture_of_part(inspection->arena, inspection->bench->formulary, part);
    if (mixture != NULL) {
        reactants_add_mixture(inspection->arena, reactants, mixture);
    }
    add_uncounted(inspection, reactants, part, mixture != NULL);
    for (size_t i = 0; i < reactants->count; i++) {
        const struct step *step = part_find(part, reactants->items[i].material);
        reactants->items[i].celsius = step == NULL ? NAN : rules_water_temperature(part, step);
    }
    return reactants;
}

/* ---- while it is mixed ---- */

/* A list that ends with "water to make" and measures none before does not say in which order liquids meet. */
static bool order_is_stated(const struct part *part)
{
    bool made_up = false;
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        bool water = step_is_addition(step) && step->material != NULL && step->material->is_water;
        if (water && step->how != ADD_TO_MAKE) {
            return true;
        }
        made_up = made_up || (water && step->how == ADD_TO_MAKE);
    }
    return !made_up;
}

/* What is in the vessel once `last` is in it, at the strength that it has then; false where no liquid is in it. */
static bool gather_so_far(const struct inspection *inspection, const struct part *part, const struct step *last,
                          struct reactants *reactants)
{
    double volume = 0;
    for (const struct step *step = part->steps; step != last->next; step = step->next) {
        volume += step_is_addition(step) && step->volume > 0 && step->how != ADD_TO_MAKE ? step->volume : 0;
    }
    for (const struct step *step = part->steps; step != last->next && volume > 0; step = step->next) {
        double grams = step_is_addition(step) && step->material != NULL && step->form != NULL ? step_substance(step) : NAN;
        if (grams > 0 && !step->material->is_water) {
            reactants_add(inspection->arena, reactants, step->material, grams / volume * 1000);
        }
    }
    return volume > 0;
}

static void try_while_mixing(struct inspection *inspection, const struct part *part, size_t place)
{
    const struct reaction *reaction = inspection->relation->reactions[place];
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        struct reactants reactants = {0};
        struct meeting meeting;
        if (step_is_addition(step) && step->material != NULL && !step->material->is_water &&
            gather_so_far(inspection, part, step, &reactants) && reaction_happens(reaction, &reactants, &reactants, &meeting)) {
            say_of_part(inspection, part, place, &meeting);
            return;
        }
    }
}

/* ---- how long it keeps ---- */

/* Cuts the first word off; both folded, with single blanks. */
static struct text cut_word(struct text *words)
{
    const char *blank = memchr(words->at, ' ', words->length);
    size_t length = blank == NULL ? words->length : (size_t)(blank - words->at);
    size_t skip = blank == NULL ? length : length + 1;
    struct text word = {words->at, length};
    *words = (struct text){words->at + skip, words->length - skip};
    return word;
}

static bool has_word(struct text words, struct text wanted)
{
    bool found = false;
    while (words.length > 0) {
        found = text_equal(cut_word(&words), wanted) || found;
    }
    return found;
}

/* Whether every word of a reaction's vessel is among those of the formula's: "closed bottle" of "small closed bottle". */
static bool is_vessel(struct text wanted, struct text said)
{
    bool all = true;
    while (wanted.length > 0) {
        all = has_word(said, cut_word(&wanted)) && all;
    }
    return all;
}

static void try_keeping(struct inspection *inspection, size_t place, const struct meeting *meeting, const struct keeping *keeping)
{
    const struct reaction *reaction = meeting->reaction;
    for (; keeping != NULL; keeping = keeping->next) {
        if (keeping->duration > reaction->keeps * KEEPS_ABOUT &&
            is_vessel(reaction->vessel, names_fold(inspection->arena, keeping->in))) {
            say(inspection, place, meeting, reaction->harm == HARM_SPOILS ? DIAG_KEEPS_TOO_LONG : DIAG_HAZARD_COMBINATION,
                keeping->span);
        }
    }
}

/* ---- parts and uses ---- */

static void check_part(struct inspection *inspection, const struct part *part)
{
    struct group_set groups = {0};
    struct reactants *reactants = NULL;
    bool dry = part->makes_mass > 0;
    unsigned places = dry ? MEET_DRY : MEET_DISSOLVED | MEET_CONCENTRATED;
    bool kept = part->keeps != NULL || inspection->formula->keeps != NULL;
    uint64_t candidates[MOST_REACTION_WORDS];
    gather(inspection->library, part, &groups, 0);
    reactions_among(inspection->relation, &groups, candidates);
    for (size_t i = 0; next_of(inspection->relation, candidates, &i); i++) {
        const struct reaction *reaction = inspection->relation->reactions[i];
        if (!is_of_kind(inspection, reaction) ||
            (isnan(reaction->keeps) ? (reaction->where & places) == 0 : !kept)) {
            continue;
        }
        struct meeting meeting;
        reactants = reactants == NULL ? reactants_of_part(inspection, part) : reactants;
        bool happens = reaction_happens(reaction, reactants, reactants, &meeting);
        if (happens && !isnan(reaction->keeps)) {
            try_keeping(inspection, i, &meeting, part->keeps);
            try_keeping(inspection, i, &meeting, inspection->formula->keeps);
        } else if (happens) {
            say_of_part(inspection, part, i, &meeting);
        } else if ((reaction->where & MEET_CONCENTRATED) != 0 && !dry && isnan(reaction->keeps) && order_is_stated(part)) {
            try_while_mixing(inspection, part, i);
        }
    }
}

/* The share of a use's mixture that brings the two together: the later one. */
static struct span place_in_use(const struct inspection *inspection, const struct use *use, const struct meeting *meeting)
{
    struct span place = use->span;
    for (const struct mix_share *share = use->mix; share != NULL; share = share->next) {
        bool holds = share->part == NULL ? share->material == meeting->first || share->material == meeting->second
                                         : line_of(inspection, share->part, meeting->first) != NULL ||
                                               line_of(inspection, share->part, meeting->second) != NULL;
        place = holds ? share->span : place;
    }
    return place;
}

static void check_use(struct inspection *inspection, const struct use *use)
{
    struct group_set groups = {0};
    struct reactants *reactants = NULL;
    for (const struct mix_share *share = use->mix; share != NULL; share = share->next) {
        if (share->part != NULL) {
            gather(inspection->library, share->part, &groups, 0);
        } else if (share->material != NULL) {
            group_set_add(&groups, share->material->groups);
        }
    }
    uint64_t candidates[MOST_REACTION_WORDS];
    reactions_among(inspection->relation, &groups, candidates);
    for (size_t i = 0; next_of(inspection->relation, candidates, &i); i++) {
        const struct reaction *reaction = inspection->relation->reactions[i];
        bool told = inspection->told != NULL && inspection->told[i];
        bool asked = isnan(reaction->keeps) ? (reaction->where & (MEET_DISSOLVED | MEET_CONCENTRATED)) != 0 : use->keeps != NULL;
        if (told || !asked || !is_of_kind(inspection, reaction)) {
            continue;
        }
        if (reactants == NULL) {
            const struct mixture *mixture =
                mixture_of_use(inspection->arena, inspection->bench->formulary, inspection->formula, use);
            if (mixture == NULL) {
                return;
            }
            reactants = ARENA_NEW(inspection->arena, struct reactants);
            reactants_add_mixture(inspection->arena, reactants, mixture);
        }
        struct meeting meeting;
        bool happens = reaction_happens(reaction, reactants, reactants, &meeting);
        if (happens && !isnan(reaction->keeps)) {
            try_keeping(inspection, i, &meeting, use->keeps);
        } else if (happens) {
            say(inspection, i, &meeting, id_of(reaction), place_in_use(inspection, use, &meeting));
        }
    }
}

void meetings_check(struct bench *bench)
{
    struct library *library = bench->formulary->library;
    struct inspection inspection = {.bench = bench,
                                    .formula = bench->formula,
                                    .relation = library_relation(library),
                                    .library = library,
                                    .arena = bench->formulary->forms};
    for (const struct part *part = bench->formula->parts; part != NULL; part = part->next) {
        check_part(&inspection, part);
    }
    for (const struct use *use = bench->formula->uses; use != NULL; use = use->next) {
        if (use->mix != NULL) {
            check_use(&inspection, use);
        }
    }
}
