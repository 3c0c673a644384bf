/* Understands a material's name as books print it: the name itself, another of its names, or one of them with a form or a
 * word of quality before or behind it ("anhydrous sodium sulfite", "sodium carbonate, cryst.", "pure citric acid"). */
#include "library/entries.h"

/* Words that say nothing of what is weighed.  Common practice, no source. */
static const char *const quality_words[] = {"pure",     "chemically pure", "c.p",   "best",    "fresh",     "strong", "ground",
                                            "granulated", "granular",      "powdered", "commercial", "purified", "chem pure",
                                            "recrystallized", "photographic", "officinal", "good", "filtered", "puriss", "tech", "technical", "com", "comml", "gran",
                                            "powd", "pulv", "pulverized", "recryst", "about", "abt", "approximately", "ca", "circa"};

static const struct material *find_material(struct library *library, struct text key)
{
    struct library_entry *entry = library_find(library, DECLARE_MATERIAL, key);
    return entry == NULL ? NULL : library_make_material(library, entry);
}

bool library_is_quality(struct text words)
{
    for (size_t i = 0; i < sizeof quality_words / sizeof *quality_words; i++) {
        if (text_is(words, quality_words[i])) {
            return true;
        }
    }
    return false;
}

static bool read_name(struct library *library, struct text key, struct material_reading *reading);

/* `name` is a material and `words` one of its forms or a quality. */
static bool read_split(struct library *library, struct text name, struct text words, struct material_reading *reading)
{
    const struct material *material = find_material(library, name);
    const struct form *form = material == NULL ? NULL : library_form_named(library, material, names_find(library->names, words));
    if (form == NULL) { /* "sodium sulfite anhydrous pure" */
        return library_is_quality(words) && read_name(library, name, reading);
    }
    reading->material = material;
    reading->form = form;
    return true;
}

/* A name of the library may state a form as well ("glacial acetic acid", "hypo crystals"), so a known name is split too. */
enum { LONGEST_SPLIT = 200 /* bytes; no name with its form is longer, and trying every split takes its time */ };

static bool read_name(struct library *library, struct text key, struct material_reading *reading)
{
    reading->material = find_material(library, key);
    for (size_t i = 0; i < key.length && key.length <= LONGEST_SPLIT; i++) {
        if (key.at[i] != ' ') {
            continue;
        }
        struct text before = {key.at, i};
        struct text behind = {key.at + i + 1, key.length - i - 1};
        struct material_reading split = {0};
        bool read = read_split(library, before, behind, &split) || read_split(library, behind, before, &split);
        if (read && (reading->material == NULL || (split.material == reading->material && split.form != NULL))) {
            *reading = split;
            return true;
        }
    }
    if (reading->material != NULL) { /* "washing soda" is the name of a form */
        reading->form = library_form_named(library, reading->material, names_find(library->names, key));
    }
    return reading->material != NULL;
}

const struct material_reading *library_look_up_material(struct library *library, struct name *name)
{
    struct name *key = names_folded(library->names, name);
    struct material_reading reading = {0};
    if (key != name) {
        name->meaning[NAME_MATERIAL] = library_material(library, key);
    } else if (read_name(library, key->spelling, &reading)) {
        struct material_reading *kept = ARENA_NEW(library->arena, struct material_reading);
        *kept = reading;
        name->meaning[NAME_MATERIAL] = kept;
    }
    name->looked_up |= 1u << NAME_MATERIAL;
    return name->meaning[NAME_MATERIAL];
}

bool library_part_pair(struct library *library, struct material_words *first, struct material_words *second)
{
    if (first->name == NULL || first->form != NULL || library_material(library, first->name) != NULL) {
        return false;
    }
    const struct text whole = first->name->spelling;
    const struct text and = TEXT(" and ");
    for (size_t at = 1; at + and.length < whole.length; at++) {
        if (memcmp(whole.at + at, and.at, and.length) == 0) {
            struct text behind = {whole.at + at + and.length, whole.length - at - and.length};
            *second = (struct material_words){
                .name = names_find(library->names, behind),
                .span = {first->span.end - (uint32_t)behind.length, first->span.end},
            };
            first->name = names_find(library->names, (struct text){whole.at, at});
            first->span.end = first->span.begin + (uint32_t)at;
            return true;
        }
    }
    return false;
}
