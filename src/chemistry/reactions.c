/* What reacts with what. */
#include "chemistry/reactions.h"

#include <math.h>

static const double LEAST_SHARE = 10; /* g in a kg of a dry mix, below which powders are too thin to matter: common practice, no source */

/* ---- what is together ---- */

void reactants_add(struct arena *arena, struct reactants *reactants, const struct material *material,
                   double strength)
{
    if (reactants->count == reactants->room) {
        reactants->room = reactants->room == 0 ? 16 : reactants->room * 2;
        struct reactant *more = ARENA_ARRAY(arena, struct reactant, reactants->room);
        for (size_t i = 0; i < reactants->count; i++) {
            more[i] = reactants->items[i];
        }
        reactants->items = more;
    }
    const struct group_set *groups = material->groups;
    group_set_add(&reactants->groups, groups);
    reactants->items[reactants->count++] =
        (struct reactant){.material = material, .groups = groups, .strength = strength, .celsius = NAN};
}

void reactants_add_mixture(struct arena *arena, struct reactants *reactants, const struct mixture *mixture)
{
    double litres = (mixture->dry ? mixture->grams : mixture->millilitres) / 1000;
    for (const struct component *component = mixture->components; component != NULL; component = component->next) {
        double strength = component->grams / litres;
        if (!mixture->dry || strength >= LEAST_SHARE) {
            reactants_add(arena, reactants, component->material, strength);
        }
    }
}

/* ---- one line of a reaction ---- */

static bool fits(const struct reagent *reagent, const struct reactant *reactant)
{
    return reagent_fits(reagent, reactant->groups) &&
           reagent_is_written(reagent, reactant->written);
}

/* Of two vessels, or of one (b NULL). */
static double strength_of(const struct group_set *groups, const struct reactants *a, const struct reactants *b)
{
    double sum = 0;
    for (int vessel = 0; vessel < 2; vessel++) {
        const struct reactants *reactants = vessel == 0 ? a : b;
        for (size_t i = 0; reactants != NULL && i < reactants->count; i++) {
            sum += group_sets_meet(groups, reactants->items[i].groups) ? reactants->items[i].strength : 0;
        }
    }
    return sum;
}

/* Whether a strength is beyond the line's bound.  An unknown one is where a life may hang on it. */
static bool is_beyond(const struct reagent *reagent, double strength, double measure, bool if_unknown)
{
    if (isnan(reagent->bound)) {
        return true;
    }
    double bound = reagent->times ? reagent->bound * measure : reagent->bound;
    if (isinf(strength) || isinf(bound) || isnan(strength)) {
        return if_unknown;
    }
    return reagent->over ? strength > bound : strength < bound;
}

/* The strongest that the line speaks of in a vessel, if there is enough of all that it speaks of; NULL when there is not.  `but` is
 * what reacts with it already: nothing reacts with itself. */
static const struct reactant *find(const struct reagent *reagent, const struct reactants *reactants, const struct reactants *other,
                                   const struct material *but, bool if_unknown)
{
    const struct reactant *found = NULL;
    double sum = 0;
    if (!group_sets_meet(&reagent->in, &reactants->groups)) {
        return NULL;
    }
    for (size_t i = 0; i < reactants->count; i++) {
        const struct reactant *item = &reactants->items[i];
        if (item->material != but && fits(reagent, item)) {
            sum += item->strength;
            found = found == NULL || item->strength > found->strength ? item : found;
        }
    }
    double measure = reagent->times ? strength_of(&reagent->measure, reactants, other == reactants ? NULL : other) : 0;
    return found != NULL && is_beyond(reagent, sum, measure, if_unknown) ? found : NULL;
}

static bool holds(const struct reagent *reagent, const struct reactants *a, const struct reactants *b, bool if_unknown)
{
    return find(reagent, a, b, NULL, if_unknown) != NULL || (b != a && find(reagent, b, a, NULL, if_unknown) != NULL);
}

/* `celsius`: of the liquid in which the two meet. */
static bool circumstances_hold(const struct reaction *reaction, const struct reactants *a, const struct reactants *b, double celsius)
{
    for (const struct reagent *reagent = reaction->beside; reagent != NULL; reagent = reagent->next) {
        if (isnan(reagent->celsius) ? !holds(reagent, a, b, true) : !(celsius > reagent->celsius)) {
            return false;
        }
    }
    for (const struct reagent *reagent = reaction->unless; reagent != NULL; reagent = reagent->next) {
        if (holds(reagent, a, b, false)) {
            return false;
        }
    }
    return true;
}

/* ---- two vessels ---- */

/* Of what fits the first line each is tried: the strongest may be what the second speaks of too. */
static const struct reactant *find_partner(const struct reaction *reaction, const struct reagent *second, const struct reactants *a,
                                           const struct reactants *b, const struct reactant **first, bool if_unknown)
{
    const struct reactant *partner = find(second, b, a, (*first)->material, if_unknown);
    for (size_t i = 0; partner == NULL && i < a->count; i++) {
        if (fits(reaction->first, &a->items[i])) {
            *first = &a->items[i];
            partner = find(second, b, a, (*first)->material, if_unknown);
        }
    }
    bool warm = partner != NULL && (isnan(second->celsius) || (*first)->celsius > second->celsius);
    return warm ? partner : NULL;
}

static bool try_sides(const struct reaction *reaction, const struct reactants *a, const struct reactants *b, struct meeting *meeting)
{
    bool if_unknown = reaction->harm == HARM_DEADLY;
    const struct reactant *first = find(reaction->first, a, b, NULL, if_unknown);
    const struct reactant *second = NULL;
    for (const struct reagent *other = reaction->second; first != NULL && second == NULL && other != NULL; other = other->next) {
        second = find_partner(reaction, other, a, b, &first, if_unknown);
    }
    if (first == NULL || (second == NULL && reaction->second != NULL)) {
        return false;
    }
    *meeting = (struct meeting){.reaction = reaction, .first = first->material, .second = second == NULL ? NULL : second->material};
    return circumstances_hold(reaction, a, b, second == NULL ? first->celsius : fmax(first->celsius, second->celsius));
}

bool reaction_happens(const struct reaction *reaction, const struct reactants *a, const struct reactants *b, struct meeting *meeting)
{
    bool there = group_sets_meet(&reaction->first->in, &a->groups) || group_sets_meet(&reaction->first->in, &b->groups);
    if (!there || try_sides(reaction, a, b, meeting)) {
        return there;
    }
    bool other_way = a != b && try_sides(reaction, b, a, meeting);
    if (other_way) {
        const struct material *of_a = meeting->second;
        meeting->second = meeting->first;
        meeting->first = of_a;
    }
    return other_way;
}

/* Of two materials the worst that they do is enough. */
static void append(struct arena *arena, struct meeting **list, const struct meeting *meeting)
{
    for (; *list != NULL; list = &(*list)->next) {
        if ((*list)->first == meeting->first && (*list)->second == meeting->second && meeting->second != NULL) {
            return;
        }
    }
    *list = ARENA_NEW(arena, struct meeting);
    **list = *meeting;
}

struct meeting *meetings_between(struct arena *arena, struct library *library, const struct reactants *a, const struct reactants *b,
                                 unsigned places)
{
    const struct reactions *relation = library_relation(library);
    struct meeting *found = NULL;
    for (size_t i = 0; i < relation->count; i++) {
        const struct reaction *reaction = relation->reactions[i];
        struct meeting meeting;
        if ((reaction->where & places) != 0 && isnan(reaction->keeps) && reaction_happens(reaction, a, b, &meeting)) {
            append(arena, &found, &meeting);
        }
    }
    return found;
}

struct meeting *meetings_within(struct arena *arena, struct library *library, const struct mixture *mixture)
{
    struct reactants reactants = {0};
    reactants_add_mixture(arena, &reactants, mixture);
    return meetings_between(arena, library, &reactants, &reactants, mixture->dry ? MEET_DRY : MEET_DISSOLVED | MEET_CONCENTRATED);
}

/* What only spoils a bath is said of two where its declaration says that it is carried over. */
static bool is_between_baths(const struct reaction *reaction)
{
    unsigned places = MEET_CARRIED | (reaction->harm < HARM_SPOILS ? MEET_DISSOLVED | MEET_CONCENTRATED : 0);
    return (reaction->where & places) != 0 && isnan(reaction->keeps);
}

struct meeting *meetings_of_baths(struct arena *arena, struct library *library, const struct reactants *a, const struct reactants *b)
{
    const struct reactions *relation = library_relation(library);
    struct meeting *found = NULL;
    for (size_t i = 0; i < relation->count; i++) {
        struct meeting meeting;
        if (is_between_baths(relation->reactions[i]) && reaction_happens(relation->reactions[i], a, b, &meeting)) {
            append(arena, &found, &meeting);
        }
    }
    return found;
}

static struct text words_of(struct arena *arena, const struct reagent *reagent)
{
    struct text words = reagent->words;
    while ((reagent = reagent->next) != NULL) {
        words = text_from(arena_format(arena, "%.*s or %.*s", TEXT_ARGUMENTS(words), TEXT_ARGUMENTS(reagent->words)));
    }
    return words;
}

/* The strongest of a chain's in a bath; NULL when there is none, or not enough. */
static const struct reactant *find_any(const struct reagent *reagent, const struct reactants *here)
{
    const struct reactant *found = NULL;
    for (; found == NULL && reagent != NULL; reagent = reagent->next) {
        found = isnan(reagent->celsius) ? find(reagent, here, here, NULL, false) : NULL;
    }
    return found;
}

struct meeting *meetings_of(struct arena *arena, struct library *library, const struct mixture *mixture)
{
    const struct reactions *relation = library_relation(library);
    struct reactants here = {0};
    struct meeting *found = NULL;
    reactants_add_mixture(arena, &here, mixture);
    for (size_t i = 0; i < relation->count; i++) {
        const struct reaction *reaction = relation->reactions[i];
        bool told = reaction->harm < HARM_SPOILS && is_between_baths(reaction) && reaction->second != NULL &&
                    isnan(reaction->second->celsius) && circumstances_hold(reaction, &here, &here, NAN);
        const struct reagent *sides[] = {reaction->first, reaction->second};
        for (int side = 0; side < (told ? (reaction->where & MEET_DRAIN) != 0 ? 2 : 1 : 0); side++) {
            const struct reactant *item = find_any(sides[side], &here);
            if (item != NULL) {
                const struct meeting meeting = {
                    .reaction = reaction, .first = item->material, .other = words_of(arena, sides[1 - side])};
                append(arena, &found, &meeting);
                break;
            }
        }
    }
    return found;
}

static bool fits_any(const struct reagent *reagent, const struct group_set *groups)
{
    while (reagent != NULL && !reagent_fits(reagent, groups)) {
        reagent = reagent->next;
    }
    return reagent != NULL;
}

struct meeting *meetings_of_material(struct arena *arena, struct library *library, const struct material *material)
{
    const struct reactions *relation = library_relation(library);
    const struct group_set *groups = material->groups;
    struct meeting *found = NULL;
    for (size_t i = 0; i < relation->count; i++) {
        const struct reaction *reaction = relation->reactions[i];
        const struct reagent *sides[] = {reaction->first, reaction->second};
        bool told = reaction->second != NULL && isnan(reaction->second->celsius);
        int side = fits_any(reaction->first, groups) ? 0 : 1;
        if (!told || !fits_any(sides[side], groups)) {
            continue;
        }
        struct text other = words_of(arena, sides[1 - side]);
        if (reaction->beside != NULL) {
            other = text_from(arena_format(arena, "%.*s, with %.*s", TEXT_ARGUMENTS(other), TEXT_ARGUMENTS(reaction->beside->words)));
        }
        const struct meeting meeting = {.reaction = reaction, .first = material, .other = other};
        append(arena, &found, &meeting);
    }
    return found;
}
