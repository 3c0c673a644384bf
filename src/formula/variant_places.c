/* Which line of the parent a variant's change speaks of, and where a new one goes. */
#include "formula/deriving.h"

static const struct material *material_of(struct derivation *derivation, const struct statement *statement)
{
    const struct material_reading *reading =
        library_material(derivation->checker->library, ((const struct addition_statement *)statement)->material->name);
    return reading == NULL ? NULL : reading->material;
}

bool derive_is_to_make(const struct statement *statement)
{
    const struct addition_statement *addition = (const struct addition_statement *)statement;
    return statement->kind == SAY_ADDITION && addition->amount != NULL && addition->amount->kind == AMOUNT_TO_MAKE;
}

uint32_t derive_name_end(struct derivation *derivation, const struct material_words *words)
{
    if (words->form == NULL) {
        return words->span.end;
    }
    uint32_t end = words->form->span.end;
    struct text closing = source_text(derivation->checker->formulary->sources, (struct span){end, end + 1});
    return end + (text_is(closing, ")") ? 1 : 0);
}

/* ---- parts ---- */

/* The part that a line opens, by its folded name; NULL when it opens none. */
static const struct name *part_opened(struct derivation *derivation, const struct statement *statement)
{
    return statement->kind == SAY_PART ? names_folded(derivation->checker->library->names, ((const struct words_statement *)statement)->words->name)
                                       : NULL;
}

/* A repair for each part: its name in the place of `span`, or "in part A". */
static void offer_parts(struct derivation *derivation, struct diagnostic *diagnostic, struct span span, bool with_in)
{
    struct checker *checker = derivation->checker;
    for (const struct statement *at = derivation->statements; at != NULL; at = at->next) {
        if (at->kind == SAY_PART) {
            struct text name = ((const struct words_statement *)at)->words->name->spelling;
            diagnostics_fix_writing(checker->diagnostics, diagnostic, span, "%s%.*s", with_in ? " in part " : "", TEXT_ARGUMENTS(name));
        }
    }
}

static const char *list_parts(struct derivation *derivation)
{
    struct buffer list;
    buffer_start(&list, derivation->checker->arena);
    for (const struct statement *at = derivation->statements; at != NULL; at = at->next) {
        if (at->kind == SAY_PART) {
            buffer_format(&list, "%s%.*s", list.length == 0 ? "" : ", ",
                          TEXT_ARGUMENTS(((const struct words_statement *)at)->words->name->spelling));
        }
    }
    return buffer_finish(&list);
}

static size_t count_parts(const struct derivation *derivation)
{
    size_t count = 0;
    for (const struct statement *at = derivation->statements; at != NULL; at = at->next) {
        count += at->kind == SAY_PART;
    }
    return count;
}

/* The folded name of the part that is meant; false when the parent has none of that name, which is reported. */
static bool find_part(struct derivation *derivation, const struct word *part, const struct name **wanted)
{
    struct checker *checker = derivation->checker;
    *wanted = part == NULL ? NULL : names_folded(checker->library->names, part->name);
    for (const struct statement *at = derivation->statements; at != NULL && part != NULL; at = at->next) {
        if (part_opened(derivation, at) == *wanted) {
            return true;
        }
    }
    if (part == NULL) {
        return true;
    }
    struct diagnostic *diagnostic = check_say(checker, DIAG_PART_UNKNOWN, part->span, "\"%.*s\" has no part \"%.*s\"",
                                              TEXT_ARGUMENTS(derivation->parent->title), TEXT_ARGUMENTS(part->name->spelling));
    const char *parts = list_parts(derivation);
    if (parts[0] == '\0') {
        diagnostics_help(checker->diagnostics, diagnostic, "it is in one part: leave the name out");
    } else {
        diagnostics_help(checker->diagnostics, diagnostic, "its parts are: %s", parts);
    }
    offer_parts(derivation, diagnostic, part->span, false);
    return false;
}

/* Several bottles, and nothing says which. */
static void say_which_part(struct derivation *derivation, struct span span, uint32_t end, const char *what)
{
    struct checker *checker = derivation->checker;
    struct diagnostic *diagnostic = check_say(checker, DIAG_PART_UNKNOWN, span, "%s", what);
    const char *parts = list_parts(derivation);
    diagnostics_help(checker->diagnostics, diagnostic, "name one of %s, as in: in part %.*s", parts, (int)strcspn(parts, ","), parts);
    offer_parts(derivation, diagnostic, (struct span){end, end}, true);
}

/* ---- lines ---- */

static void say_not_there(struct derivation *derivation, const struct material_words *words, const struct material *material,
                          const struct word *part, const struct word *elsewhere)
{
    struct checker *checker = derivation->checker;
    struct text title = derivation->parent->title;
    if (part == NULL) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_MATERIAL_UNKNOWN, words->span, "\"%.*s\" has no %.*s",
                                                  TEXT_ARGUMENTS(title), TEXT_ARGUMENTS(material->name));
        diagnostics_help(checker->diagnostics, diagnostic, "a new material is put in with: add %.*s 1 g, after …",
                         TEXT_ARGUMENTS(material->name));
        return;
    }
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_MATERIAL_UNKNOWN, words->span, "part %.*s of \"%.*s\" has no %.*s", TEXT_ARGUMENTS(part->name->spelling),
                  TEXT_ARGUMENTS(title), TEXT_ARGUMENTS(material->name));
    if (elsewhere == NULL) {
        diagnostics_help(checker->diagnostics, diagnostic, "a new material is put in with: add %.*s 1 g in part %.*s",
                         TEXT_ARGUMENTS(material->name), TEXT_ARGUMENTS(part->name->spelling));
        return;
    }
    struct text other = elsewhere->name->spelling;
    diagnostics_help(checker->diagnostics, diagnostic, "it stands in part %.*s", TEXT_ARGUMENTS(other));
    diagnostics_fix_writing(checker->diagnostics, diagnostic, part->span, "%.*s", TEXT_ARGUMENTS(other));
}

struct statement **derive_find_addition(struct derivation *derivation, const struct material_words *words, const struct word *part,
                                        uint32_t part_goes)
{
    struct checker *checker = derivation->checker;
    const struct material *material;
    const struct form *form;
    double temperature;
    const struct name *wanted;
    if (!check_material(checker, words, &material, &form, &temperature) || !find_part(derivation, part, &wanted)) {
        return NULL;
    }
    struct statement **found = NULL;
    const struct name *found_in = NULL;
    const struct name *in = NULL;
    const struct word *opening = NULL;
    const struct word *elsewhere = NULL; /* the part that it stands in, when it is not the one that was named */
    bool in_several = false;
    for (struct statement **at = &derivation->statements; *at != NULL; at = &(*at)->next) {
        const struct name *opened = part_opened(derivation, *at);
        in = opened != NULL ? opened : in;
        opening = opened != NULL ? ((const struct words_statement *)*at)->words : opening;
        bool same = (*at)->kind == SAY_ADDITION && material_of(derivation, *at) == material;
        elsewhere = same && in != wanted ? opening : elsewhere;
        same = same && (wanted == NULL || in == wanted);
        in_several = in_several || (same && found != NULL && in != found_in);
        /* Water is changed where it is made up, if it is. */
        if (same && (found == NULL || (material->is_water && derive_is_to_make(*at)))) {
            found = at;
            found_in = in;
        }
    }
    if (in_several) {
        say_which_part(derivation, words->span, part_goes,
                       arena_format(checker->arena, "%.*s stands in more than one part of \"%.*s\"", TEXT_ARGUMENTS(material->name),
                                    TEXT_ARGUMENTS(derivation->parent->title)));
        return NULL;
    }
    if (found == NULL) {
        say_not_there(derivation, words, material, part, elsewhere);
    }
    return found;
}

struct statement **derive_usual_place(struct derivation *derivation, const struct material_words *words, const struct word *part,
                                      uint32_t part_goes)
{
    const struct name *wanted;
    if (!find_part(derivation, part, &wanted)) {
        return NULL;
    }
    if (wanted == NULL && count_parts(derivation) > 1) {
        say_which_part(derivation, words->span, part_goes, "this does not say into which part it goes");
        return NULL;
    }
    struct statement **place = &derivation->statements;
    const struct name *in = NULL;
    for (struct statement **at = &derivation->statements; *at != NULL; at = &(*at)->next) {
        const struct name *opened = part_opened(derivation, *at);
        in = opened != NULL ? opened : in;
        if (wanted != NULL && in != wanted) {
            continue;
        }
        if (derive_is_to_make(*at)) {
            return at;
        }
        if ((*at)->kind == SAY_ADDITION || (*at)->kind == SAY_SOLUTION || (wanted != NULL && opened == wanted)) {
            place = &(*at)->next;
        }
    }
    return place;
}
