/* Writes a large darkroom: a shelf of many packs, formulas, and the diary of their batches; always the same.
 *
 *     make_shelf PACKS FORMULAS BATCHES FILE.bath */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

static const struct {
    const char *name;
    double grams; /* in a litre of a formula */
} materials[] = {
    {"metol", 2},
    {"hydroquinone", 6},
    {"phenidone", 0.3},
    {"glycin", 5},
    {"catechol", 3},
    {"sodium sulfite (anhydrous)", 45},
    {"sodium metabisulfite", 12},
    {"sodium carbonate (anhydrous)", 40},
    {"sodium carbonate (monohydrate)", 45},
    {"potassium carbonate (anhydrous)", 40},
    {"borax (decahydrate)", 5},
    {"boric acid (crystals)", 3},
    {"potassium bromide", 2},
    {"sodium thiosulfate (pentahydrate)", 220},
    {"sodium thiosulfate (anhydrous)", 140},
    {"citric acid (monohydrate)", 16},
    {"citric acid (anhydrous)", 15},
    {"potassium ferricyanide", 20},
    {"thiourea", 5},
    {"potassium alum (dodecahydrate)", 15},
    {"sodium chloride", 20},
    {"potassium iodide", 2},
    {"ascorbic acid", 8},
    {"sodium bicarbonate", 10},
};
enum { MATERIALS = sizeof materials / sizeof *materials };

/* xorshift (Marsaglia 2003): the same numbers everywhere. */
static uint32_t seed = 20260304;

static uint32_t next_number(uint32_t below)
{
    seed ^= seed << 13;
    seed ^= seed >> 17;
    seed ^= seed << 5;
    return seed % below;
}

static void write_pack(FILE *out, int number)
{
    static const int sizes[] = {25, 100, 250, 500, 1000};
    int size = sizes[next_number(5)];
    const char *name = materials[next_number(MATERIALS)].name;
    if (number % 5 == 0) {
        fprintf(out, "    sold     %s %d g for %u.%02u from \"Harbour Chemicals\"\n", name, size, 2 + next_number(60), next_number(100));
        return;
    }
    fprintf(out, "    holds    %s %d g for %u.%02u left %u g best before 20%02u-%02u-%02u lot \"L-%05d\" from \"Harbour Chemicals\"\n", name,
            size, 2 + next_number(60), next_number(100), next_number((uint32_t)size), 24 + next_number(6), 1 + next_number(12),
            1 + next_number(28), number);
}

static void write_formula(FILE *out, int number)
{
    fprintf(out, "\nformula \"Bath %04d\"\n    kind other\n\n    water 750 mL\n", number);
    uint32_t first = next_number(MATERIALS);
    for (uint32_t i = 0; i < 7; i++) {
        /* steps of 5 meet all 24 before they come round */
        size_t material = (first + 5 * i) % MATERIALS;
        fprintf(out, "    %s %g g\n", materials[material].name, materials[material].grams * (1 + next_number(4)) / 2);
    }
    fprintf(out, "    water to make 1 L\n\n    use for film\n        dilute 1+%u\n        capacity %u rolls per L\n\n    keeps %u months in full bottle\n",
            1 + next_number(9), 4 + next_number(12), 2 + next_number(10));
}

static void write_batch(FILE *out, int number, int formulas)
{
    unsigned month = 1 + next_number(10);
    fprintf(out, "\nbatch \"B-%05d\" of \"Bath %04u\"\n    mixed 2025-%02u-%02u\n    made  2 L\n    used  500 mL on 2025-%02u-%02u for 2 rolls\n"
                 "    used  250 mL on 2025-%02u-%02u for 1 roll\n",
            number, next_number((uint32_t)formulas), month, 1 + next_number(28), month + 1, 1 + next_number(14), month + 1,
            15 + next_number(14));
    if (number % 20 != 0) { /* the diary of years: most bottles have been poured away */
        fprintf(out, "    discarded 2025-12-%02u\n", 1 + next_number(28));
    }
}

int main(int count, char **arguments)
{
    int packs = count == 5 ? atoi(arguments[1]) : 0;
    int formulas = count == 5 ? atoi(arguments[2]) : 0;
    int batches = count == 5 ? atoi(arguments[3]) : 0;
    FILE *out = packs > 0 && formulas > 0 && batches >= 0 ? fopen(arguments[4], "w") : NULL;
    if (out == NULL) {
        fputs("usage: make_shelf PACKS FORMULAS BATCHES FILE.bath\n", stderr);
        return 2;
    }
    fputs("shelf \"Bench shelf\"\n    currency GBP\n    balance  0.1 g\n", out);
    for (int i = 0; i < packs; i++) {
        write_pack(out, i);
    }
    for (int i = 0; i < formulas; i++) {
        write_formula(out, i);
    }
    for (int i = 0; i < batches; i++) {
        write_batch(out, i, formulas);
    }
    return fclose(out) == 0 ? 0 : 2;
}
