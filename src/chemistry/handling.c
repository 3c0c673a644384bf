/* Advice on handling. */
#include "chemistry/handling.h"

#include "library/groups.h"

#include <math.h>

void handling_start(struct handling *handling, struct arena *arena, struct library *library)
{
    *handling = (struct handling){.arena = arena, .library = library};
}

static void add_code(struct handling *handling, struct text code, bool of_solution)
{
    for (struct handled_code *known = handling->codes; known != NULL; known = known->next) {
        if (text_equal(known->code, code)) {
            known->of_solution = known->of_solution || of_solution;
            return;
        }
    }
    struct handled_code *item = ARENA_NEW(handling->arena, struct handled_code);
    *item = (struct handled_code){handling->codes, code, of_solution};
    handling->codes = item;
}

void handling_add_material(struct handling *handling, const struct material *material)
{
    struct handled_material **at = &handling->materials;
    while (*at != NULL) {
        if ((*at)->material == material) {
            return;
        }
        at = &(*at)->next;
    }
    *at = ARENA_NEW(handling->arena, struct handled_material);
    (*at)->material = material;
    (*at)->data = hazard_data_of(handling->arena, handling->library, material);
    handling->solids = handling->solids || !material->liquid;
    for (size_t i = 0; i < (*at)->data->entry_count; i++) {
        add_code(handling, (*at)->data->entries[i].code, false);
        add_code(handling, text_from((*at)->data->entries[i].class->code), false); /* H360 of H360FD */
    }
}

void handling_add(struct handling *handling, const struct mixture_safety *safety)
{
    if (safety == NULL) {
        return;
    }
    for (const struct component *component = safety->mixture == NULL ? NULL : safety->mixture->components; component != NULL;
         component = component->next) {
        handling_add_material(handling, component->material);
    }
    for (const struct hazard_result *result = safety->classes; result != NULL; result = result->next) {
        add_code(handling, result->code, true);
        add_code(handling, text_from(result->class->code), true);
    }
}

static bool is_handled(const struct handling *handling, struct name *name, bool solutions)
{
    struct text folded = names_folded(handling->library->names, name)->spelling;
    if (text_is(folded, "anything")) {
        return true;
    }
    if (text_is(folded, "solids")) {
        return handling->solids;
    }
    for (const struct handled_code *code = handling->codes; code != NULL; code = code->next) {
        if (text_equal(code->code, name->spelling) && (code->of_solution || !solutions)) {
            return true;
        }
    }
    for (const struct handled_material *item = handling->materials; item != NULL; item = item->next) {
        if (material_answers_to(handling->library, item->material, folded)) {
            return true;
        }
    }
    return false;
}

struct picking {
    const struct handling *handling;
    const char *topic;
    bool solutions;
    struct advice *first;
    struct advice **last;
};

static void pick(void *context, const struct declaration *declaration)
{
    struct picking *picking = context;
    struct text code = declaration->name.name == NULL ? (struct text){0} : declaration->name.name->spelling;
    size_t length = strlen(picking->topic);
    bool of_topic = code.length > length && code.at[length] == '-' && memcmp(code.at, picking->topic, length) == 0;
    if (!of_topic || declaration->phrase == NULL) {
        return;
    }
    for (const struct word *word = declaration->phrase->codes; word != NULL; word = word->next) {
        if (is_handled(picking->handling, word->name, picking->solutions)) {
            struct advice *advice = ARENA_NEW(picking->handling->arena, struct advice);
            *advice = (struct advice){NULL, declaration->title, declaration->source};
            *picking->last = advice;
            picking->last = &advice->next;
            return;
        }
    }
}

struct advice *handling_advice(const struct handling *handling, const char *topic, bool solutions)
{
    struct picking picking = {.handling = handling, .topic = topic, .solutions = solutions};
    picking.last = &picking.first;
    library_each_declaration(handling->library, DECLARE_PHRASE, pick, &picking);
    return picking.first;
}

struct stating {
    struct arena *arena;
    const struct mixture_safety *safety;
    const char *kind;
    struct safety_statement *first;
    struct safety_statement **last;
};

static void state(void *context, const struct declaration *declaration)
{
    struct stating *stating = context;
    struct text code = declaration->name.name == NULL ? (struct text){0} : declaration->name.name->spelling;
    size_t length = strlen(stating->kind);
    if (code.length <= length || memcmp(code.at, stating->kind, length) != 0 || !phrase_answers(declaration, stating->safety->classes)) {
        return;
    }
    struct safety_statement *statement = ARENA_NEW(stating->arena, struct safety_statement);
    statement->code = code;
    statement->text = phrase_words(declaration);
    *stating->last = statement;
    stating->last = &statement->next;
}

struct safety_statement *handling_statements(struct arena *arena, struct library *library,
                                             const struct mixture_safety *safety, const char *kind)
{
    struct stating stating = {.arena = arena, .safety = safety, .kind = kind};
    stating.last = &stating.first;
    library_each_declaration(library, DECLARE_PHRASE, state, &stating);
    return stating.first;
}

double handling_warming(const struct handling *handling, const struct mixture *mixture, const struct component *component)
{
    const double water_capacity = 4.18; /* J/g K */
    const double solid_capacity = 1;
    double heat = hazard_data_of(handling->arena, handling->library, component->material)->heat;
    double capacity = mixture->water * water_capacity + (mixture->grams - mixture->water) * solid_capacity;
    return component->grams / component->form->molar_mass * heat * 1000 / capacity;
}
