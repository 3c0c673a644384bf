/* From a sum's text to its answer. */
#include "reckoning/sums.h"

typedef bool sum_function(struct reckoner *reckoner, const struct sum *sum);

static sum_function *const functions[] = {
    [SUM_DILUTION] = sum_dilution,
    [SUM_EITHER] = sum_either,
    [SUM_SHARE] = sum_share,
    [SUM_RATIO] = sum_ratio,
    [SUM_COUNT] = sum_count,
    [SUM_SCALE] = sum_scale,
    [SUM_DOSE] = sum_dose,
    [SUM_CONTENT] = sum_content,
    [SUM_MAKE] = sum_make,
    [SUM_TAKE] = sum_take,
    [SUM_WEAKEN] = sum_weaken,
    [SUM_CONVERT] = sum_convert,
    [SUM_EQUIVALENT] = sum_equivalent,
    [SUM_REPLACEMENT] = sum_replacement,
    [SUM_PH] = sum_ph,
    [SUM_DISSOLVE] = sum_dissolve,
    [SUM_TIME] = sum_time,
};

/* How units are taken that differ or are unclear. */
struct way {
    enum measures measures;
    int unclear_choice;
};

static const struct answer *reckon(struct arena *arena, struct names *names, struct library *library,
                                   struct diagnostics *diagnostics, struct source_file *source, struct way way,
                                   bool *understood)
{
    struct reckoner *reckoner = ARENA_NEW(arena, struct reckoner);
    struct syntax_file *file = ARENA_NEW(arena, struct syntax_file);
    file->source = source;
    reckoner->arena = arena;
    reckoner->library = library;
    reckoner->builder = (struct builder){.arena = arena, .names = names, .diagnostics = diagnostics, .file = file};
    reckoner->formula.measures = way.measures;
    reckoner->unclear_choice = way.unclear_choice;
    reckoner->tried = way.measures != MEASURES_UNSTATED || way.unclear_choice >= 0;
    formulary_start(&reckoner->formulary, library);
    reckoner->formulary.diagnostics = diagnostics;
    reckoner->checker = (struct checker){.formulary = &reckoner->formulary,
                                         .library = library,
                                         .diagnostics = diagnostics,
                                         .arena = arena,
                                         .forms = arena,
                                         .formula = &reckoner->formula,
                                         .makes_volume = NAN,
                                         .makes_mass = NAN};
    reckoner->answer = ARENA_NEW(arena, struct answer);
    *understood = true;
    if (!sum_read_words(reckoner, source)) {
        return NULL;
    }
    const struct sum *sum = sum_parse(reckoner);
    *understood = sum != NULL;
    if (sum == NULL) {
        return NULL;
    }
    return functions[sum->kind](reckoner, sum) ? reckoner->answer : NULL;
}

/* What the sum comes to in one of the ways that an ambiguous unit can be taken; NULL when it cannot be reckoned so
 * either. */
static const char *answer_if(struct arena *arena, struct names *names, struct library *library,
                             struct source_file *source, struct way way)
{
    struct diagnostics unheard;
    diagnostics_start(&unheard, arena, library->sources);
    bool understood;
    const struct answer *answer = reckon(arena, names, library, &unheard, source, way, &understood);
    return answer == NULL ? NULL : answer->text;
}

/* An ambiguous unit is refused as the compiler refuses it, and both of its values are shown. */
static void show_both(struct arena *arena, struct names *names, struct library *library,
                      struct diagnostics *diagnostics, struct source_file *source, struct diagnostic *item)
{
    struct text unit = source_text(library->sources, item->span);
    const char *us = answer_if(arena, names, library, source, (struct way){MEASURES_US, -1});
    const char *imperial = answer_if(arena, names, library, source, (struct way){MEASURES_IMPERIAL, -1});
    if (us != NULL && imperial != NULL) {
        diagnostics_help(diagnostics, item, "name the measure on the spot; US %.*s: %s; imperial %.*s: %s",
                         TEXT_ARGUMENTS(unit), us, TEXT_ARGUMENTS(unit), imperial);
        return;
    }
    const char *first = answer_if(arena, names, library, source, (struct way){MEASURES_UNSTATED, 0});
    const char *second = answer_if(arena, names, library, source, (struct way){MEASURES_UNSTATED, 1});
    if (first != NULL && second != NULL && item->fixes != NULL && fix_next(item->fixes) != NULL) {
        diagnostics_help(diagnostics, item, "%s; with %s: %s; with %s: %s", item->help == NULL ? "" : words_string(arena, item->help),
                         item->fixes->text, first, fix_next(item->fixes)->text, second);
    }
}

const struct answer *reckoning_answer(struct arena *arena, struct names *names, struct library *library,
                                      struct diagnostics *diagnostics, struct source_file *source, bool *understood)
{
    size_t before = diagnostics->count;
    const struct answer *answer =
        reckon(arena, names, library, diagnostics, source, (struct way){MEASURES_UNSTATED, -1}, understood);
    for (size_t i = before; answer == NULL && i < diagnostics->count; i++) {
        if (diagnostics->items[i]->id == DIAG_UNIT_AMBIGUOUS) {
            show_both(arena, names, library, diagnostics, source, diagnostics->items[i]);
        }
    }
    return answer;
}
