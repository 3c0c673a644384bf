/* The built-in library in an arena, for tests of the floors that have no public face of their own. */
#ifndef POTASH_TESTS_LIBRARY_HELP_H
#define POTASH_TESTS_LIBRARY_HELP_H

#include "arena_help.h"

#include "formula/formula.h"

static struct names names;
static struct source_set sources;
static struct diagnostics diagnostics;
static struct library library;

static inline int set_up_library(void **state)
{
    set_up_arena(state);
    names_start(&names, &arena);
    source_start(&sources, &arena);
    diagnostics_start(&diagnostics, &arena, &sources);
    library_start(&library, &arena, &names, &sources, &diagnostics);
    return 0;
}

static inline const struct material *material_called(const char *name)
{
    const struct material_reading *reading = library_material(&library, names_find(&names, text_from(name)));
    if (reading == NULL) {
        fail_msg("%s is not in the library", name);
    }
    return reading->material;
}

static inline const struct form *form_called(const char *material, const char *form)
{
    const struct form *found =
        library_form_named(&library, material_called(material), names_find(&names, text_from(form)));
    if (found == NULL) {
        fail_msg("%s has no form %s", material, form);
    }
    return found;
}

#define WITH_LIBRARY(test) cmocka_unit_test_setup_teardown(test, set_up_library, tear_down_arena)

#endif
