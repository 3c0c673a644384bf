/* Materials that are mistaken for another. */
#include "practice/repairs/look_alikes.h"

#include <math.h>
#include <string.h>

static const struct words_statement *mistaken_for(const struct material *material)
{
    for (const struct statement *statement = material->declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_MISTAKEN) {
            return (const struct words_statement *)statement;
        }
    }
    return NULL;
}

/* The others of a pair are declared once, on either side. */
struct others {
    struct library *library;
    const struct material *material;
    bool (*visit)(void *context, const struct material *other);
    void *context;
};

/* Nobody is led to what is gravely dangerous. */
static bool visit_other(const struct others *others, const struct material *other)
{
    return other->stop.length == 0 && others->visit(others->context, other);
}

static bool visit_unless_named(void *context, const struct material *other)
{
    const struct others *others = context;
    const struct words_statement *list = mistaken_for(others->material);
    for (const struct word *word = list == NULL ? NULL : list->words; word != NULL; word = word->next) {
        const struct material_reading *reading = library_material(others->library, word->name);
        if (reading != NULL && reading->material->entry == other->entry) {
            return false;
        }
    }
    return visit_other(others, other);
}

bool look_alike_each(struct bench *bench, const struct material *material, bool (*visit)(void *context, const struct material *other),
                     void *context)
{
    struct others others = {bench->formulary->library, material, visit, context};
    const struct words_statement *list = mistaken_for(material);
    for (const struct word *word = list == NULL ? NULL : list->words; word != NULL; word = word->next) {
        const struct material_reading *reading = library_material(others.library, word->name);
        if (reading != NULL && visit_other(&others, reading->material)) {
            return true;
        }
    }
    return library_each_mistaken(others.library, material, visit_unless_named, &others);
}

enum { LONGEST_NAME = 48, MOST_EDITS = 5, MOST_EDITS_OF_A_WORD = 3 };

/* Letters to change, leave out or put in (Levenshtein 1966); MOST_EDITS + 1 for names too long to be compared. */
static size_t edits(struct text a, struct text b)
{
    size_t row[LONGEST_NAME + 1];
    if (a.length > LONGEST_NAME || b.length > LONGEST_NAME) {
        return MOST_EDITS + 1;
    }
    for (size_t k = 0; k <= b.length; k++) {
        row[k] = k;
    }
    for (size_t i = 1; i <= a.length; i++) {
        size_t diagonal = row[0];
        row[0] = i;
        for (size_t k = 1; k <= b.length; k++) {
            size_t kept = diagonal + (a.at[i - 1] != b.at[k - 1]);
            diagonal = row[k];
            size_t moved = (row[k] < row[k - 1] ? row[k] : row[k - 1]) + 1;
            row[k] = kept < moved ? kept : moved;
        }
    }
    return row[b.length];
}

static size_t words_of(struct text name)
{
    size_t words = 1;
    for (size_t i = 0; i < name.length; i++) {
        words += name.at[i] == ' ';
    }
    return words;
}

/* Bytes of the whole words among the first `shared` bytes. */
static size_t shared_words(struct text name, size_t shared)
{
    while (shared > 0 && name.at[shared - 1] != ' ') {
        shared--;
    }
    return shared;
}

/* A letter or so apart, as sulfite, sulfate, sulfide and thiosulfate are; what merely looks alike in the jar is not meant. */
bool look_alike_by_name(const struct material *a, const struct material *b)
{
    if (words_of(a->name) != words_of(b->name)) {
        return false;
    }
    size_t shared = 0;
    while (shared < a->name.length && shared < b->name.length && a->name.at[shared] == b->name.at[shared]) {
        shared++;
    }
    bool same_metal = memchr(a->name.at, ' ', shared) != NULL; /* sodium sulfite, sodium thiosulfate */
    size_t longer = a->name.length > b->name.length ? a->name.length : b->name.length;
    size_t apart = edits(a->name, b->name);
    /* Less than half of the rest differs. */
    return apart <= (same_metal ? MOST_EDITS : MOST_EDITS_OF_A_WORD) && apart * 2 < longer - (same_metal ? shared_words(a->name, shared) : 0);
}

/* The name in an addition; the whole line where it has none. */
static struct span name_span(const struct step *step)
{
    if (step->statement != NULL && (step->statement->kind == SAY_ADDITION || step->statement->kind == SAY_ADD)) {
        return ((const struct addition_statement *)step->statement)->material->span;
    }
    return step->span;
}

struct span look_alike_name_span(struct bench *bench, const struct addition_statement *addition, const struct material *other)
{
    const struct material_words *words = addition->material;
    struct span span = words->span;
    if (words->form == NULL || words->form->span.end <= span.end ||
        library_form(bench->formulary->library, other, words->form) != NULL) {
        return span;
    }
    struct span behind = {words->form->span.end, words->form->span.end + 1};
    span.end = text_is(source_text(bench->formulary->sources, behind), ")") ? behind.end : behind.begin;
    return span;
}

void look_alike_say(struct bench *bench, const struct step *step, const struct material *expected)
{
    struct diagnostics *diagnostics = bench->formulary->diagnostics;
    struct span span = name_span(step);
    struct diagnostic *diagnostic =
        bench_say(bench, DIAG_LOOK_ALIKE, span, "%.*s stands where %.*s is expected in %s %.*s",
                     TEXT_ARGUMENTS(step->material->name), TEXT_ARGUMENTS(expected->name), text_article(bench->formula->kind),
                     TEXT_ARGUMENTS(bench->formula->kind));
    diagnostics_help(diagnostics, diagnostic, "one is easily taken for the other: look at the source and at the bottle");
    if (span.end < step->span.end) {
        struct span name = look_alike_name_span(bench, (const struct addition_statement *)step->statement, expected);
        diagnostics_fix_as(diagnostics, diagnostic, name, "%s is meant", "%.*s", TEXT_ARGUMENTS(expected->name));
    }
}
