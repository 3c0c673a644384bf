/* The formulas and stocks that are compiled together, by title. */
#include "formula/checking.h"

#include <ctype.h>
#include <limits.h>

#pragma GCC diagnostic ignored "-Wconversion" /* uthash's macros */

void formulary_start(struct formulary *formulary, struct library *library)
{
    *formulary = (struct formulary){.arena = library->arena,
                                    .forms = library->arena,
                                    .names = library->names,
                                    .sources = library->sources,
                                    .diagnostics = library->diagnostics,
                                    .library = library};
}

static const struct title_entry *find_title(const struct formulary *formulary, struct text title, uint32_t hash)
{
    struct title_entry *entry = NULL;
    HASH_FIND_BYHASHVALUE(hh, formulary->titles, title.at, title.length, hash, entry);
    return entry;
}

struct formula *formulary_find(struct formulary *formulary, struct text title)
{
    title = text_trim(title);
    const struct title_entry *entry = find_title(formulary, title, table_hash(title.at, title.length));
    return entry == NULL ? NULL : entry->formula;
}

uint32_t declaration_end(const struct declaration *declaration)
{
    return declaration->next != NULL ? declaration->next->span.begin : declaration->file->base + declaration->file->length + 1;
}

static bool owns(const struct formula *formula, struct span span)
{
    return formula->variant_of == NULL ||
           (span.begin >= formula->declaration->span.begin && span.begin < declaration_end(formula->declaration));
}

/* What has been said of one place of a formula. */
struct said_key {
    uint32_t begin;                 /* of its span */
    uint32_t id;
};

struct said {
    struct said_key key;
    const struct kept_words *message;
    struct said *next;              /* more of the same id and place */
    UT_hash_handle hh;
};

static struct said *find_said(const struct formula *formula, enum diagnostic_id id, uint32_t begin)
{
    struct said_key key = {begin, id};
    struct said *said = NULL;
    HASH_FIND(hh, formula->said, &key, sizeof key, said);
    return said;
}

static void keep_said(struct arena *table_arena, struct formula *formula, enum diagnostic_id id, uint32_t begin, const struct kept_words *message)
{
    struct said *said = ARENA_NEW(table_arena, struct said);
    *said = (struct said){.key = {begin, id}, .message = message};
    struct said *first = find_said(formula, id, begin);
    if (first != NULL) {
        said->next = first->next;
        first->next = said;
    } else {
        HASH_ADD(hh, formula->said, key, sizeof said->key, said);
    }
}

/* Several things may be missing of a bath, and all of it is said where its kind stands. */
static bool same_message(enum diagnostic_id id, const struct kept_words *a, const struct kept_words *b)
{
    return (id != DIAG_ROLE_MISSING && id != DIAG_HAZARD_COMBINATION) || words_equal(a, b);
}

/* Whether a formula that this one is a variant of has been told the same of the same line; or this one itself, of a
 * bath that lacks something. */
static bool said_before(const struct formula *formula, enum diagnostic_id id, struct span span, const struct kept_words *message)
{
    if (id == DIAG_ROLE_MISSING && find_said(formula, id, span.begin) != NULL) {
        return true;
    }
    for (const struct formula *parent = formula->variant_of; parent != NULL; parent = parent->variant_of) {
        for (const struct said *said = find_said(parent, id, span.begin); said != NULL; said = said->next) {
            if (same_message(id, said->message, message)) {
                return true;
            }
        }
        if (parent->silenced[id]) {
            return true;
        }
    }
    return false;
}

struct diagnostic *formula_say(struct diagnostics *diagnostics, struct formula *formula, enum diagnostic_id id,
                               struct span span, const char *format, va_list arguments)
{
    if (diagnostic_registry[id].severity == SEVERITY_ERROR) {
        formula->faulty = true;
    } else if (formula->silenced[id]) {
        return NULL;
    }
    if (formula->scratch) {
        return NULL;
    }
    bool own = owns(formula, span);
    const struct kept_words *message = diagnostics_words(diagnostics, format, arguments);
    if (!own && said_before(formula, id, span, message)) {
        return NULL;
    }
    struct span place = own ? span : formula->declaration->title_span;
    struct diagnostic *diagnostic = diagnostics_add_words(diagnostics, id, place, message);
    if (diagnostic != NULL) {
        diagnostic->without_fixes = !own;
        if (!own) {
            diagnostics_relate(diagnostics, diagnostic, span, "the line is here");
        }
        if (formula->said_is_kept) {
            keep_said(diagnostics->arena, formula, id, span.begin, message);
        }
    }
    return diagnostic;
}

static bool same_letters(struct text a, struct text b)
{
    /* Titles that differ in case, spaces or signs only. */
    size_t i = 0;
    size_t j = 0;
    while (i < a.length && j < b.length) {
        if (!isalnum((unsigned char)a.at[i])) {
            i++;
        } else if (!isalnum((unsigned char)b.at[j])) {
            j++;
        } else if (tolower((unsigned char)a.at[i++]) != tolower((unsigned char)b.at[j++])) {
            return false;
        }
    }
    while (i < a.length && !isalnum((unsigned char)a.at[i])) {
        i++;
    }
    while (j < b.length && !isalnum((unsigned char)b.at[j])) {
        j++;
    }
    return i == a.length && j == b.length;
}

struct text formulary_near_title(const struct formulary *formulary, struct text title)
{
    for (const struct formula *formula = formulary->formulas; formula != NULL; formula = formula->next) {
        if (same_letters(formula->title, title)) {
            return formula->title;
        }
    }
    struct text nearest = {0};
    int least = INT_MAX;
    formulary->library->near_searches++;
    for (const struct formula *formula = formulary->formulas; formula != NULL; formula = formula->next) {
        int distance;
        if (library_near_text(formulary->library, title, formula->title, &distance) && distance < least) {
            least = distance;
            nearest = formula->title;
        }
    }
    return nearest;
}

static void remember_title(struct formulary *formulary, struct formula *formula, bool kept)
{
    struct arena *table_arena = formulary->arena;
    uint32_t hash = formula->declaration->title_hash;
    const struct title_entry *before = find_title(formulary, formula->title, hash);
    if (before != NULL) {
        struct diagnostic *diagnostic =
            diagnostics_add(formulary->diagnostics, DIAG_DECLARED_TWICE, formula->declaration->title_span,
                            "a formula \"%.*s\" is there already", TEXT_ARGUMENTS(formula->title));
        diagnostics_relate(formulary->diagnostics, diagnostic, before->title_span, "the other one is here");
        diagnostics_help(formulary->diagnostics, diagnostic, "give one of them another title");
        formula->faulty = true;
        return;
    }
    struct title_entry *entry = ARENA_NEW(formulary->arena, struct title_entry);
    entry->formula = kept ? formula : NULL;
    entry->title_span = formula->declaration->title_span;
    HASH_ADD_KEYPTR_BYHASHVALUE(hh, formulary->titles, formula->title.at, formula->title.length, hash, entry);
}

static struct formula *new_formula(struct formulary *formulary, struct arena *arena, const struct declaration *declaration)
{
    struct formula *formula = ARENA_NEW(arena, struct formula);
    formula->title = declaration->title;
    formula->declaration = declaration;
    formulary->formula_count++;
    if (declaration->title.at == NULL) { /* the heading is broken, which has been reported */
        formula->faulty = true;
    } else {
        remember_title(formulary, formula, arena == formulary->arena);
    }
    return formula;
}

static void add_formula(struct formulary *formulary, const struct declaration *declaration)
{
    struct formula *formula = new_formula(formulary, formulary->arena, declaration);
    *(formulary->last == NULL ? &formulary->formulas : &formulary->last->next) = formula;
    formulary->last = formula;
}

static void add_stock(struct formulary *formulary, const struct declaration *declaration)
{
    if (declaration->name.name == NULL) {
        return;
    }
    struct stock *stock = ARENA_NEW(formulary->arena, struct stock);
    stock->declaration = declaration;
    CHAIN_APPEND(&formulary->stocks, stock);
}

void formulary_add_file(struct formulary *formulary, const struct syntax_file *file)
{
    for (struct declaration *declaration = file->declarations; declaration != NULL; declaration = declaration->next) {
        formula_read_lines(formulary, declaration);
        if (declaration->kind == DECLARE_FORMULA || declaration->kind == DECLARE_VARIANT) {
            add_formula(formulary, declaration);
        } else if (declaration->kind == DECLARE_STOCK) {
            add_stock(formulary, declaration);
        }
    }
}

/* Nothing may ask for the form again; what has been found out about the formula stays. */
static void forget_form(struct formulary *formulary, struct formula *formula)
{
    formula->parts = NULL;
    formula->part_count = 0;
    formula->uses = NULL;
    formula->notes = NULL;
    formula->keeps = NULL;
    formula->scratch = true; /* who asks for the form again hears nothing twice */
    arena_start_over(formulary->forms);
}

static bool has_variants(const struct formulary *formulary)
{
    const struct formula *formula = formulary->formulas;
    while (formula != NULL && formula->declaration->kind != DECLARE_VARIANT) {
        formula = formula->next;
    }
    return formula != NULL;
}

static void check_one(struct formulary *formulary, struct formula *formula, void (*then)(void *context, struct formula *formula), void *context)
{
    if (formula->parts == NULL) { /* another formula may have asked for it already */
        check_formula(formulary, formula);
    }
    if (then != NULL) {
        then(context, formula);
    }
    if (formulary->forms != formulary->arena && !formulary->draws_on_formulas) {
        forget_form(formulary, formula);
    }
}

void formulary_check(struct formulary *formulary, void (*then)(void *context, struct formula *formula), void *context)
{
    bool keep_said = has_variants(formulary);
    for (struct formula *formula = formulary->formulas; keep_said && formula != NULL; formula = formula->next) {
        formula->said_is_kept = true;
    }
    for (struct stock *stock = formulary->stocks; stock != NULL; stock = stock->next) {
        check_stock(formulary, stock);
    }
    for (struct formula *formula = formulary->formulas; formula != NULL; formula = formula->next) {
        check_one(formulary, formula, then, context);
    }
}

void formulary_check_piece(struct formulary *formulary, struct declaration *declaration, struct arena *arena,
                           void (*then)(void *context, struct formula *formula), void *context)
{
    for (; declaration != NULL && declaration->kind == DECLARE_FORMULA; declaration = declaration->next) {
        formula_read_lines(formulary, declaration);
        check_one(formulary, new_formula(formulary, arena, declaration), then, context);
    }
}
