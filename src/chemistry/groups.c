/* Groups of materials that behave alike. */
#include "chemistry/groups.h"

bool material_has_role(const struct material *material, struct text role)
{
    for (size_t i = 0; i < material->role_count; i++) {
        if (text_equal(material->roles[i], role)) {
            return true;
        }
    }
    return false;
}

static bool is_named(struct library *library, const struct material *material, struct text name)
{
    return library_material_entry(library, name) == material->entry || material_has_role(material, name);
}

bool material_in_group(struct library *library, const struct material *material, struct text group)
{
    const struct declaration *declaration = library_group(library, group);
    for (const struct statement *statement = declaration == NULL ? NULL : declaration->statements; statement != NULL;
         statement = statement->next) {
        const struct word *word = statement->kind == SAY_HOLDS ? ((const struct words_statement *)statement)->words : NULL;
        for (; word != NULL; word = word->next) {
            if (is_named(library, material, names_folded(library->names, word->name)->spelling)) {
                return true;
            }
        }
    }
    return false;
}

bool material_answers_to(struct library *library, const struct material *material, struct text name)
{
    return is_named(library, material, name) || material_in_group(library, material, name);
}
