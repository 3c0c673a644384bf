/* Groups of materials that behave alike where it comes to safety, as the library declares them. */
#ifndef POTASH_CHEMISTRY_GROUPS_H
#define POTASH_CHEMISTRY_GROUPS_H

#include "library/library.h"

/* Whether the group with that folded name holds the material, by its name or by one of its roles; false for no such group. */
bool material_in_group(struct library *library, const struct material *material, struct text group);

bool material_has_role(const struct material *material, struct text role);

/* Whether a folded name means the material: one of its own, a role of it, or a group that it is in. */
bool material_answers_to(struct library *library, const struct material *material, struct text name);

#endif
