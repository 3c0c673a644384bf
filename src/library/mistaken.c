/* Which materials are said to be taken for which.
 *
 * A mistake goes both ways but is declared once, so that "what may this have been?" asks every declaration of the library: of what is
 * built in, a table has the answers. */
#include "library/entries.h"
#include "library/tables.h"

static void add_mistake(struct library *library, struct library_entry *entry, struct library_entry *wanted)
{
    if (wanted == NULL || wanted == entry) {
        return;
    }
    struct mistaken **end = &wanted->mistaken;
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
        add_mistake(library, entry, library_find(library, DECLARE_MATERIAL, names_folded(library->names, word->name)->spelling));
    }
}

static void gather(struct library *library)
{
    for (struct library_entry *entry = NULL; (entry = library_next_entry(library, DECLARE_MATERIAL, entry)) != NULL;) {
        entry->mistaken = NULL;
    }
    for (size_t i = 0; library->tables != NULL && i < library->tables->mistake_count; i++) {
        const struct table_mistake *mistake = &library->tables->mistakes[i];
        if (!library->built[mistake->entry]->replaces) {
            add_mistake(library, library->built[mistake->entry], library->built[mistake->other]);
        }
    }
    for (struct library_entry *entry = NULL; (entry = library_next_entry(library, DECLARE_MATERIAL, entry)) != NULL;) {
        if (entry->replaces || !entry->of_library || library->tables == NULL) {
            add_declared(library, entry);
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
    for (const struct mistaken *mistaken = material->entry->mistaken; mistaken != NULL; mistaken = mistaken->next) {
        const struct material *other = library_make_material(library, mistaken->entry);
        if (other != NULL && visit(context, other)) {
            return true;
        }
    }
    return false;
}
