/* Which declaration a diagnostic is about: what makes a formula faulty, and what is left out when one formula is asked for. */
#include "session/session.h"

#include "formula/checking.h"

const struct declaration *session_titled(const struct potash *potash, struct text title)
{
    for (const struct syntax_list *item = potash->files; item != NULL; item = item->next) {
        for (const struct declaration *at = item->file->declarations; at != NULL; at = at->next) {
            bool formula = at->kind == DECLARE_FORMULA || at->kind == DECLARE_VARIANT;
            if (formula && text_equal(at->title, title)) {
                return at;
            }
        }
    }
    return NULL;
}

const struct declaration *session_parent(const struct potash *potash, const struct declaration *variant)
{
    const struct text_statement *of = NULL;
    for (const struct statement *statement = variant->statements; statement != NULL; statement = statement->next) {
        of = statement->kind == SAY_OF ? (const struct text_statement *)statement : of;
    }
    return of == NULL ? NULL : session_titled(potash, of->text);
}

/* Walks through the declarations of all files, in the order of the text. */
struct declaration_walk {
    const struct syntax_list *file;
    const struct declaration *next;
    const struct declaration *at;
};

static void walk_on(struct declaration_walk *walk, const struct declaration *next)
{
    walk->next = next;
    while (walk->next == NULL && walk->file != NULL) {
        walk->file = walk->file->next;
        walk->next = walk->file == NULL ? NULL : walk->file->file->declarations;
    }
}

static struct declaration_walk walk_from(const struct potash *potash)
{
    struct declaration_walk walk = {.file = potash->files};
    if (walk.file != NULL) {
        walk_on(&walk, walk.file->file->declarations);
    }
    return walk;
}

/* The declaration that `begin` lies in, or NULL; to be asked for places in ascending order. */
static const struct declaration *walk_to(struct declaration_walk *walk, uint32_t begin)
{
    while (walk->next != NULL && walk->next->span.begin <= begin) {
        walk->at = walk->next;
        walk_on(walk, walk->at->next);
    }
    return walk->at != NULL && begin < declaration_end(walk->at) ? walk->at : NULL;
}

/* What is wrong in a batch, a process or a shelf is wrong with nothing else: it says nothing, and the rest goes on. */
static bool stands_alone(const struct declaration *declaration)
{
    return declaration != NULL && (declaration->kind == DECLARE_BATCH || declaration->kind == DECLARE_PROCESS ||
                                   declaration->kind == DECLARE_SHELF);
}

void session_attribute_errors(struct potash *potash)
{
    struct formula *formula = potash->formulary.formulas;
    struct declaration_walk walk = walk_from(potash);
    for (size_t i = 0; i < potash->diagnostics.count; i++) {
        const struct diagnostic *item = potash->diagnostics.items[i];
        if (item->severity != SEVERITY_ERROR) {
            continue;
        }
        while (formula != NULL && formula->next != NULL &&
               formula->next->declaration->span.begin <= item->span.begin) {
            formula = formula->next;
        }
        bool inside = formula != NULL && formula->declaration->span.begin <= item->span.begin;
        if (inside) { /* it ends where the next declaration of its file, of whatever kind, begins */
            inside = item->span.begin < declaration_end(formula->declaration);
        }
        if (item->id == DIAG_MERGE_CONFLICT) { /* whose lines may be about anything */
            potash->loose_errors++;
        } else if (inside) {
            formula->faulty = true;
        } else if (!stands_alone(walk_to(&walk, item->span.begin))) {
            potash->loose_errors++;
        }
    }
}

/* The formula that is asked for, and those that it is a variant of, whose lines are its own. */
struct asked {
    const struct declaration *at[CHECK_DEEPEST + 1];
    int count;
};

static bool is_about(const struct asked *asked, const struct declaration *declaration)
{
    bool formula = declaration != NULL && (declaration->kind == DECLARE_FORMULA || declaration->kind == DECLARE_VARIANT);
    for (int i = 0; formula && i < asked->count; i++) {
        if (asked->at[i] == declaration) {
            return true;
        }
    }
    return !formula && !stands_alone(declaration);
}

enum potash_status session_leave_out_others(struct potash *potash)
{
    struct asked asked = {.count = 0};
    const struct declaration *at = session_titled(potash, text_from(potash->options.title));
    for (; at != NULL && asked.count <= CHECK_DEEPEST; at = session_parent(potash, at)) {
        asked.at[asked.count++] = at;
    }
    if (asked.count == 0 && session_next_stock(potash, NULL) == NULL) {
        return session_unusable(potash, "there is no formula \"%.200s\" in these files", potash->options.title);
    }
    struct declaration_walk walk = walk_from(potash);
    size_t kept = 0;
    for (size_t i = 0; i < potash->diagnostics.count; i++) {
        struct diagnostic *item = potash->diagnostics.items[i];
        if (item->id == DIAG_MERGE_CONFLICT || is_about(&asked, walk_to(&walk, item->span.begin))) {
            potash->diagnostics.items[kept++] = item;
        } else {
            diagnostics_count_out(&potash->diagnostics, item);
        }
    }
    potash->diagnostics.count = kept;
    return POTASH_GOOD;
}
