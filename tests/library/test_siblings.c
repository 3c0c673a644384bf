/* What hangs on an ion is the same for all its salts with harmless partners: the classes of siblings, and what heavy metals do. */
#include "support/library_help.h"

#include "chemistry/hazard.h"

#include <stdio.h>
#include <string.h>

/* Codes that are not compared for one material, with the reason. */
static const struct {
    const char *material;
    const char *codes;
    const char *reason; /* for the reader */
} exceptions[] = {
    {"ammonium chloride", "H302 H319", "Annex VI, index 017-014-00-8: the ammonium"},
    {"ammonium carbonate", "H302 H319", "the ammonium; no entry, the carbonate is half gone as gas"},
    {"ammonium bicarbonate", "H302", "the ammonium"},
    {"ammonium chromate", "H272", "the ammonium burns"},
    {"ammonium perchlorate", "H201 H302", "Annex VI, index 017-009-00-0: the ammonium burns"},
    {"ammonium iodide", "H315", "suppliers class some iodides for the skin"},
    {"lithium iodide", "H315", "suppliers class some iodides for the skin"},
    {"sodium iodide", "H315 H400", "suppliers class the sodium salt alone"},
    {"lithium bromide", "H302 H315", "the lithium"},
    {"lithium chloride", "H302 H315 H319", "the lithium"},
    {"lithium carbonate", "H302", "the lithium"},
    {"potassium carbonate", "H315 H335", "suppliers class the potassium salt; Annex VI has sodium carbonate for the eyes alone"},
    {"sodium metabisulfite", "H318", "Annex VI, index 016-063-00-2: stronger than the solution of bisulfite"},
    {"potassium metabisulfite", "H318 H335", "as sodium metabisulfite; a supplier adds the airways"},
    {"ferric sulfate", "H302 H318 H319", "without ammonium sulfate it holds twice the iron, and is more acid"},
    {"aluminium sulfate", "H318 H319", "without an alkali sulfate it holds twice the aluminium, and is more acid"},
    {"6-nitrobenzimidazole nitrate", "H315 H319 H331 H314 EUH071", "its nitric acid is bound to a base whose ions the library has not"},
    {"cadmium iodide", "H350 H340 H360FD H351 H372 H373", "Annex VI, index 048-007-00-8, has an entry of its own"},
    {"zinc bromide", "H360FD H372", "the bromide"},
    {"lead chromate", "H350", "Annex VI, index 082-004-00-2: the chromate"},
};

static bool is_excepted(struct text material, struct text code)
{
    for (size_t i = 0; i < sizeof exceptions / sizeof *exceptions; i++) {
        const char *found = text_is(material, exceptions[i].material) ? strstr(exceptions[i].codes, arena_format(&arena, "%.*s", TEXT_ARGUMENTS(code))) : NULL;
        if (found != NULL && (found[code.length] == ' ' || found[code.length] == '\0')) {
            return true;
        }
    }
    return false;
}

static bool is_one_of(struct text formula, const char *const *list, size_t count)
{
    bool found = false;
    for (size_t i = 0; i < count; i++) {
        found = found || text_is(formula, list[i]);
    }
    return found;
}

static const char *const partners[] = {"Na+", "K+", "Li+", "H+", "NH3", "OH-"};
static const char *const acids_of_bases[] = {"Cl-", "SO4--", "NO3-"};
static const char *const bases[] = {"C6H6NO-", "C6H8N2", "NH2OH", "C7H8NO-", "C6H7N2O-", "C10H16N2"};
static const char *const heavy[] = {"Ag+", "Cd++", "Co++", "Cu++", "Ni++", "Pb++", "Zn++", "UO2++"};

#define IS_ONE_OF(formula, list) is_one_of((formula), (list), sizeof(list) / sizeof *(list))

/* A salt's family: its ions without harmless partners, and how many hydrogen ions it has more than its ammonia takes up; of the
 * salts of a base, the base alone.  Empty without ions. */
static const char *family_of(const struct material *material)
{
    bool known;
    const struct ion *ions = library_ions(material, &known);
    struct buffer key;
    buffer_start(&key, &arena);
    buffer_string(&key, "");
    double acid = 0;
    double acting = 0;
    bool of_base = false;
    for (const struct ion *ion = ions; ion != NULL; ion = ion->next) {
        of_base = of_base || IS_ONE_OF(ion->formula, bases);
    }
    for (const struct ion *ion = ions; ion != NULL; ion = ion->next) {
        acid += text_is(ion->formula, "H+") ? ion->count : text_is(ion->formula, "NH3") ? -ion->count : 0;
        bool counts = !IS_ONE_OF(ion->formula, partners) && !(of_base && IS_ONE_OF(ion->formula, acids_of_bases));
        if (counts) {
            acting += ion->count;
            buffer_format(&key, " %.*s", TEXT_ARGUMENTS(ion->formula));
        }
    }
    if (acting > 0) {
        buffer_format(&key, of_base ? " salts %d" : " %d", of_base ? acid > 1 : (int)(acid / acting * 60 + 0.5));
    }
    return buffer_finish(&key);
}

enum { MOST = 400 };

struct gathered {
    const struct material *materials[MOST];
    const char *keys[MOST];
    size_t count;
};

static void gather(void *context, const struct material *material)
{
    struct gathered *gathered = context;
    assert_true(gathered->count < MOST);
    gathered->materials[gathered->count++] = material;
}

static bool has_code(const struct material *material, struct text code)
{
    const struct hazard_data *data = hazard_data_of(&arena, &library, material);
    for (size_t i = 0; i < data->entry_count; i++) {
        if (text_equal(data->entries[i].code, code)) {
            return true;
        }
    }
    return false;
}

/* Whether `other` has all that `material` has and that is to be compared. */
static int count_missing(const struct material *material, const struct material *other, const char *key, const char *only)
{
    const struct hazard_data *data = hazard_data_of(&arena, &library, material);
    int missing = 0;
    for (size_t i = 0; i < data->entry_count; i++) {
        struct text code = data->entries[i].code;
        bool compared = only == NULL || strstr(only, data->entries[i].class->code) != NULL;
        if (compared && !is_excepted(material->name, code) && !is_excepted(other->name, code) && !has_code(other, code)) {
            print_error("%s: %.*s is %.*s, %.*s is not\n", key, TEXT_ARGUMENTS(material->name), TEXT_ARGUMENTS(code),
                        TEXT_ARGUMENTS(other->name));
            missing++;
        }
    }
    return missing;
}

static void salts_of_an_ion_are_classed_alike(void **state)
{
    (void)state;
    static struct gathered gathered;
    gathered.count = 0;
    library_each_material(&library, gather, &gathered);
    int wrong = 0;
    size_t pairs = 0;
    for (size_t i = 0; i < gathered.count; i++) {
        gathered.keys[i] = family_of(gathered.materials[i]);
    }
    for (size_t i = 0; i < gathered.count; i++) {
        for (size_t j = 0; j < gathered.count; j++) {
            if (i != j && gathered.keys[i][0] != '\0' && strcmp(gathered.keys[i], gathered.keys[j]) == 0) {
                wrong += count_missing(gathered.materials[i], gathered.materials[j], gathered.keys[i], NULL);
                pairs++;
            }
        }
    }
    assert_true(pairs > 120); /* sulfides, thiocyanates, iodides, bromides, sulfites, persulfates, dichromates … are among them */
    assert_int_equal(wrong, 0);
}

static bool gives(const struct material *material, const char *formula)
{
    return library_ion_count(material, text_from(formula)) > 0;
}

/* What a metal does to water life, genes, unborn children and organs, it does in each of its salts, as strongly. */
static void salts_of_a_heavy_metal_are_classed_alike(void **state)
{
    (void)state;
    static struct gathered gathered;
    gathered.count = 0;
    library_each_material(&library, gather, &gathered);
    int wrong = 0;
    for (size_t m = 0; m < sizeof heavy / sizeof *heavy; m++) {
        for (size_t i = 0; i < gathered.count; i++) {
            for (size_t j = 0; j < gathered.count; j++) {
                const struct material *one = gathered.materials[i];
                const struct material *other = gathered.materials[j];
                if (i == j || !gives(one, heavy[m]) || !gives(other, heavy[m])) {
                    continue;
                }
                wrong += count_missing(one, other, heavy[m], "H340 H341 H350 H351 H360 H361 H372 H373 H400 H410");
                const struct hazard_data *a = hazard_data_of(&arena, &library, one);
                const struct hazard_data *b = hazard_data_of(&arena, &library, other);
                if (a->m_acute != b->m_acute || a->m_chronic != b->m_chronic) {
                    print_error("%s: the M factors of %.*s and %.*s differ\n", heavy[m], TEXT_ARGUMENTS(one->name), TEXT_ARGUMENTS(other->name));
                    wrong++;
                }
            }
        }
    }
    assert_int_equal(wrong, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_LIBRARY(salts_of_an_ion_are_classed_alike),
        WITH_LIBRARY(salts_of_a_heavy_metal_are_classed_alike),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
