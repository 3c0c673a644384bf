/* What must not come together. */
#include "chemistry/combination.h"

#include "chemistry/groups.h"

#include <math.h>

struct looking {
    struct arena *arena;
    struct library *library;
    const struct mixture *first;
    const struct mixture *second; /* NULL: any other bath */
    struct combination *found;
};

/* ---- names of a line: "sodium sulfide or sulfides except barium sulfide" ---- */

/* Takes the next name off; *excepted is set from the first `except` on. */
static struct text cut_name(struct text *rest, bool *excepted)
{
    static const struct {
        const char *word;
        bool except;
    } joints[] = {{" or ", false}, {" except ", true}};
    struct text all = *rest;
    for (size_t i = 0; i < all.length; i++) {
        for (size_t j = 0; j < 2; j++) {
            size_t length = strlen(joints[j].word);
            if (all.length - i > length && memcmp(all.at + i, joints[j].word, length) == 0) {
                *rest = (struct text){all.at + i + length, all.length - i - length};
                *excepted = *excepted || joints[j].except;
                return (struct text){all.at, i};
            }
        }
    }
    *rest = (struct text){0};
    return all;
}

static bool material_fits(struct library *library, const struct material *material, const struct material_words *words)
{
    bool fits = false;
    bool excepted = false;
    for (struct text rest = names_folded(library->names, words->name)->spelling; rest.length > 0;) {
        bool of_this = excepted;
        if (material_answers_to(library, material, cut_name(&rest, &excepted))) {
            if (of_this) {
                return false;
            }
            fits = true;
        }
    }
    return fits;
}

/* ---- conditions ---- */

static double bound_of(struct library *library, const struct bound *bound)
{
    const struct unit *unit =
        bound == NULL || bound->quantity->unit == NULL ? NULL : library_unit(library, bound->quantity->unit);
    return unit != NULL && unit->dimension == DIMENSION_CONCENTRATION ? bound->quantity->value * unit->factor : NAN;
}

/* The heaviest component that a name means, if there is more of it than the bound says (less, for `under`). */
static const struct component *find(const struct looking *looking, const struct mixture *mixture,
                                    const struct material_words *words, const struct bound *bound)
{
    double limit = bound_of(looking->library, bound);
    for (const struct component *component = mixture->components; component != NULL; component = component->next) {
        double litres = (mixture->dry ? mixture->grams : mixture->millilitres) / 1000;
        double amount = component->grams / litres;
        bool enough = isnan(limit) || (bound->over ? amount > limit : amount < limit);
        if (enough && material_fits(looking->library, component->material, words)) {
            return component;
        }
    }
    return NULL;
}

struct declared {
    const struct condition_statement *meets; /* the first; NULL where it is of another kind */
    struct text warn, advise, source;
    bool one_sided;  /* told to whoever has the subject, and not to all who have the object */
    bool only_meets; /* it names no kind of bath, and nothing that must be missing */
};

static struct declared read_declaration(const struct declaration *declaration)
{
    struct declared declared = {.only_meets = true};
    bool first = true;
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        const struct condition_statement *condition = (const struct condition_statement *)statement;
        const struct text_statement *text = (const struct text_statement *)statement;
        switch (statement->kind) {
        case SAY_WHEN:
            declared.meets = first && condition->relation == RELATION_MEETS ? condition : declared.meets;
            declared.only_meets = declared.only_meets &&
                                  (condition->relation == RELATION_MEETS || condition->relation == RELATION_THERE);
            first = false;
            break;
        case SAY_SAYS:
            declared.one_sided = text_is(((const struct words_statement *)statement)->words->name->spelling, "one-sided");
            declared.only_meets = declared.only_meets && declared.one_sided;
            break;
        case SAY_FOR:
        case SAY_PURPOSE:
            declared.only_meets = false;
            break;
        case SAY_WARN:
            declared.warn = text->text;
            break;
        case SAY_ADVISE:
            declared.advise = text->text;
            break;
        case SAY_SOURCE:
            declared.source = text->text;
            break;
        default:
            break;
        }
    }
    return declared;
}

/* Whether the bounds of the further lines hold in either bath. */
static bool others_hold(const struct looking *looking, const struct declaration *declaration)
{
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        const struct condition_statement *condition = (const struct condition_statement *)statement;
        if (statement->kind != SAY_WHEN || condition->relation != RELATION_THERE) {
            continue;
        }
        bool holds = find(looking, looking->first, condition->subject, condition->bound) != NULL ||
                     (looking->second != NULL && find(looking, looking->second, condition->subject, condition->bound) != NULL);
        /* Where the other bath is any, only what this one has can be asked for. */
        bool of_other = looking->second == NULL && find(looking, looking->first, condition->subject, NULL) == NULL;
        if (!holds && !of_other) {
            return false;
        }
    }
    return true;
}

static void add(struct looking *looking, const struct declaration *declaration, const struct declared *declared,
                const struct component *first, const struct component *second, const struct material_words *other)
{
    if (!others_hold(looking, declaration)) {
        return;
    }
    struct combination **at = &looking->found;
    while (*at != NULL) {
        at = &(*at)->next;
    }
    struct combination *combination = ARENA_NEW(looking->arena, struct combination);
    combination->name = declaration->name.name->spelling;
    combination->first = first->material;
    combination->second = second == NULL ? NULL : second->material;
    combination->other = other->name->spelling;
    combination->warn = declared->warn;
    combination->advise = declared->advise;
    combination->source = declared->source;
    *at = combination;
}

static void look_at(void *context, const struct declaration *declaration)
{
    struct looking *looking = context;
    struct declared declared = read_declaration(declaration);
    if (declared.meets == NULL || !declared.only_meets || declaration->name.name == NULL) {
        return;
    }
    const struct material_words *sides[] = {declared.meets->subject, declared.meets->object};
    const struct bound *bounds[] = {NULL, declared.meets->bound};
    for (int way = 0; way < 2; way++) {
        const struct component *here = find(looking, looking->first, sides[way], bounds[way]);
        const struct component *there =
            looking->second == NULL ? NULL : find(looking, looking->second, sides[1 - way], bounds[1 - way]);
        bool told = there != NULL || (looking->second == NULL && (way == 0 || !declared.one_sided));
        if (here != NULL && told) {
            add(looking, declaration, &declared, here, there, sides[1 - way]);
            return;
        }
    }
}

struct combination *combinations_between(struct arena *arena, struct library *library, const struct mixture *first,
                                         const struct mixture *second)
{
    struct looking looking = {.arena = arena, .library = library, .first = first, .second = second};
    library_each_declaration(library, DECLARE_COMBINATION, look_at, &looking);
    return looking.found;
}

struct combination *combinations_of(struct arena *arena, struct library *library, const struct mixture *mixture)
{
    struct looking looking = {.arena = arena, .library = library, .first = mixture};
    library_each_declaration(library, DECLARE_COMBINATION, look_at, &looking);
    return looking.found;
}

struct combination *combinations_within(struct arena *arena, struct library *library, const struct mixture *mixture)
{
    struct looking looking = {.arena = arena, .library = library, .first = mixture, .second = mixture};
    library_each_declaration(library, DECLARE_RULE, look_at, &looking);
    return looking.found;
}
