/* Which materials are said to be taken for which.
 *
 * A mistake goes both ways but is declared once, so that "what may this have been?" asks every declaration of the library.  The
 * answers are gathered once, from the texts as they stand: making every material to ask it would cost more than the whole check
 * of a small file. */
#include "library/entries.h"

static void add_mistake(struct library *library, struct library_entry *entry, struct text folded)
{
    struct library_entry *wanted = library_find(library, DECLARE_MATERIAL, folded);
    if (wanted == NULL || wanted->main == entry) {
        return;
    }
    struct mistaken **end = &wanted->main->mistaken;
    while (*end != NULL) {
        if ((*end)->entry == entry) {
            return;
        }
        end = &(*end)->next;
    }
    *end = ARENA_NEW(library->arena, struct mistaken);
    (*end)->entry = entry;
}

static void add_declared(struct library *library, struct library_entry *entry)
{
    const struct statement *statement = entry->declaration->statements;
    while (statement != NULL && statement->kind != SAY_MISTAKEN) {
        statement = statement->next;
    }
    const struct word *word = statement == NULL ? NULL : ((const struct words_statement *)statement)->words;
    for (; word != NULL; word = word->next) {
        add_mistake(library, entry, names_folded(library->names, word->name)->spelling);
    }
}

static void add_indexed(struct library *library, struct library_entry *entry)
{
    struct text list = library_indexed_mistakes(entry);
    for (struct text name; (name = library_cut_name(&list)).length > 0;) {
        add_mistake(library, entry, names_fold(library->arena, name));
    }
}

static void gather(struct library *library)
{
    for (struct library_entry *entry = library->declared; entry != NULL; entry = entry->next) {
        entry->mistaken = NULL;
    }
    for (struct library_entry *entry = library->declared; entry != NULL; entry = entry->next) {
        if (entry->kind != DECLARE_MATERIAL) {
            continue;
        }
        if (entry->declaration != NULL) {
            add_declared(library, entry);
        } else {
            add_indexed(library, entry);
        }
    }
    library->mistakes_known = true;
}

bool library_each_mistaken(struct library *library, const struct material *material,
                           bool (*visit)(void *context, const struct material *other), void *context)
{
    if (!library->mistakes_known) {
        gather(library);
    }
    for (const struct mistaken *mistaken = material->entry->main->mistaken; mistaken != NULL; mistaken = mistaken->next) {
        const struct material *other = library_make_material(library, mistaken->entry);
        if (other != NULL && visit(context, other)) {
            return true;
        }
    }
    return false;
}
