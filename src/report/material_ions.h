/* What a material is in solution, on its page and as data. */
#ifndef POTASH_REPORT_MATERIAL_IONS_H
#define POTASH_REPORT_MATERIAL_IONS_H

#include "library/library.h"

#include <jansson.h>

struct page;

/* Its ions and the constants of the acids and bases among them; nothing where the library does not say. */
void material_add_ions(struct library *library, const struct material *material, struct page *page);

/* The constants as an array; empty where there are none. */
json_t *material_constants_json(struct library *library, const struct material *material);

#endif
