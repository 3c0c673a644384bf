/* Writes the text that speed is measured with: formulas in the notation, and the same content as JSON.
 *
 *     make_formulas COUNT FILE.bath FILE.json
 *
 * The same count gives the same files on every machine.  The formulas are invented, sound, and as varied as a club's
 * folder: baths of one and of two parts, stocks, notes, comments, leader dots, ranges of use. */
#include <inttypes.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

/* ---- chance, the same everywhere ---- */

static uint64_t seed = 20260304;

/* xorshift64* (S. Vigna, An experimental exploration of Marsaglia's xorshift generators, scrambled, 2016). */
static unsigned chance(unsigned below)
{
    seed ^= seed >> 12;
    seed ^= seed << 25;
    seed ^= seed >> 27;
    return (unsigned)((seed * 0x2545F4914F6CDD1Du) >> 33) % below;
}

#define COUNT(array) (sizeof(array) / sizeof *(array))
#define ONE_OF(array) ((array)[chance((unsigned)COUNT(array))])

/* ---- what the formulas are made of: amounts in a litre, within the library's usual ranges ---- */

struct ingredient {
    const char *name;    /* as a person writes it; more than one spelling is in use */
    const char *form;    /* or NULL where the material has one only */
    unsigned low;        /* tenths of a gram or millilitre */
    unsigned high;
    unsigned step;
    const char *unit;
};

static const struct ingredient metols[] = {{"metol", NULL, 10, 50, 5, "g"}, {"Metol", NULL, 10, 50, 5, "g"}};
static const struct ingredient agents[] = {
    {"Hydroquinone", NULL, 20, 120, 10, "g"},
    {"glycin", NULL, 10, 120, 10, "g"},        {"amidol", NULL, 30, 80, 5, "g"},
    {"pyrogallol", NULL, 20, 100, 10, "g"},
};
static const struct ingredient young_agents[] = {{"Hydroquinone", NULL, 20, 120, 10, "g"}, {"ascorbic acid", NULL, 50, 200, 10, "g"}};
/* A page gives its salts in one manner: the older ones in crystals. */
static const struct ingredient dry_sulfite = {"sodium sulfite", "anhydrous", 200, 900, 50, "g"};
static const struct ingredient crystal_sulfite = {"Sodium sulphite", "crystalline", 400, 1500, 100, "g"};
static const struct ingredient crystal_carbonate = {"Sodium carbonate", "crystals", 400, 1500, 50, "g"};
static const struct ingredient alkalis[] = {
    {"sodium carbonate", "anhydrous", 150, 700, 50, "g"},
    {"sodium carbonate", "monohydrate", 150, 800, 50, "g"},
    {"borax", "decahydrate", 20, 150, 10, "g"},
    {"sodium metaborate", "tetrahydrate", 50, 250, 10, "g"},
};
static const struct ingredient restrainers[] = {
    {"potassium bromide", NULL, 5, 25, 5, "g"},
    {"Bromide of potash", NULL, 5, 25, 5, "g"},
};
static const struct ingredient hypo[] = {
    {"sodium thiosulfate", "pentahydrate", 1500, 3000, 100, "g"},
    {"Hyposulphite of soda", "crystals", 1500, 3000, 100, "g"},
    {"ammonium thiosulfate", "crystals", 800, 1800, 100, "g"},
};
static const struct ingredient fixer_salts[] = {
    {"potassium metabisulfite", NULL, 100, 300, 10, "g"},
    {"sodium bisulfite", NULL, 100, 300, 10, "g"},
    {"boric acid", "crystals", 30, 100, 5, "g"},
};
static const struct ingredient fixer_acids[] = {{"acetic acid", "28 %", 150, 400, 10, "mL"}};
static const struct ingredient alums[] = {{"potassium alum", "dodecahydrate", 60, 200, 10, "g"}};
static const struct ingredient stop_acids[] = {
    {"acetic acid", "28 %", 300, 600, 10, "mL"},
    {"citric acid", "anhydrous", 100, 300, 10, "g"},
    {"acetic acid", "glacial", 100, 200, 10, "mL"},
};
static const struct ingredient bleach_salts[] = {{"potassium ferricyanide", NULL, 150, 500, 10, "g"}};
static const struct ingredient bleach_bromides[] = {{"potassium bromide", NULL, 250, 400, 10, "g"}};
static const struct ingredient sulfides[] = {{"sodium sulfide", "nonahydrate", 200, 400, 50, "g"}};

static const char *const moods[] = {"Warm", "Cold", "Soft", "Vigorous", "Fine-grain", "Slow", "Clear", "Harbour", "Marsh",
                                    "Winter", "Everyday", "Travelling", "Old club", "Second", "Tide-table", "Lantern"};
static const char *const notes[] = {
    "Mix in the order given; stir until each is dissolved.", "Filter before use.",
    "Invented for the Saltmarsh darkroom.",                  "Weigh the agent first, ten minutes before the rest.",
    "Keeps its strength best in small full bottles.",        "Use boiled water that has cooled down.",
    "Try it on a strip first; the tone depends on the paper — and on the light.",
};
static const char *const comments[] = {
    "copied from the notebook on the shelf", "asked for by the Tuesday group", "the bottle is the brown one",
    "see the log of last winter",            "agreed at the yearly meeting"};
static const char *const agitations[] = {"first 30 s, then 10 s each minute", "without pause",
                                         "turn the tank over four times each minute"};
static const char *const vessels[] = {"full bottle", "half-full bottle", "tray"};

/* ---- the two texts ---- */

static FILE *bath;
static FILE *json;
static const char *between;    /* what stands before the next member of the JSON list that is open */
static const char *indent = "    ";

static void put_line(const char *keyword, const char *bath_value, const char *json_value)
{
    fprintf(bath, "%s%s %s\n", indent, keyword, bath_value);
    fprintf(json, ",\"%s\":%s", keyword, json_value);
}

static void put_text(const char *keyword, const char *text)
{
    char quoted[256];
    snprintf(quoted, sizeof quoted, "\"%s\"", text);
    put_line(keyword, quoted, quoted);
}

static void put_words(const char *keyword, const char *words)
{
    char quoted[256];
    snprintf(quoted, sizeof quoted, "\"%s\"", words);
    put_line(keyword, words, quoted);
}

static void put_figure(const char *keyword, double number, const char *unit)
{
    char line[64];
    char members[96];
    snprintf(line, sizeof line, "%g %s", number, unit);
    snprintf(members, sizeof members, "[%g,\"%s\"]", number, unit);
    put_line(keyword, line, members);
}

static void open_list(const char *name)
{
    fprintf(json, ",\"%s\":[", name);
    between = "";
}

static void close_list(void)
{
    fputs("]", json);
}

/* One addition; `tail` is put behind it in words. */
static void put_addition(const char *name, const char *form, double amount, const char *unit, const char *tail, bool leaders)
{
    int column = fprintf(bath, "    %s", name);
    if (form != NULL) {
        column += fprintf(bath, " (%s)", form);
    }
    fputc(' ', bath);
    for (; column < 31; column++) {
        fputc(leaders ? '.' : ' ', bath);
    }
    fprintf(bath, " %g %s%s\n", amount, unit, tail);
    fprintf(json, "%s{\"material\":\"%s\"", between, name);
    if (form != NULL) {
        fprintf(json, ",\"form\":\"%s\"", form);
    }
    fprintf(json, ",\"amount\":[%g,\"%s\"]", amount, unit);
    if (tail[0] != '\0') {
        fprintf(json, ",\"tail\":\"%s\"", tail + 1);
    }
    fputs("}", json);
    between = ",";
}

static void put_ingredient(const struct ingredient *ingredient, double litres, bool leaders)
{
    unsigned steps = (ingredient->high - ingredient->low) / ingredient->step;
    unsigned tenths = ingredient->low + ingredient->step * chance(steps + 1);
    /* Now and then a form is left out, which is worth a warning. */
    const char *form = chance(200) == 0 ? NULL : ingredient->form;
    put_addition(ingredient->name, form, tenths / 10.0 * litres, ingredient->unit, "", leaders);
}

static void put_first_water(double litres, bool warm, bool leaders)
{
    static const char *const tails[] = {" at 45 °C", " at 50 °C", "", " at 125 °F"};
    put_addition("water", NULL, 700 * litres, chance(4) == 0 ? "cc" : "mL", warm ? ONE_OF(tails) : "", leaders);
}

static void put_to_make(double litres)
{
    static const char *const waters[] = {"water", "Water", "distilled water"};
    const char *water = ONE_OF(waters);
    fprintf(bath, "    %s to make %g L\n", water, litres);
    fprintf(json, "%s{\"material\":\"%s\",\"to make\":[%g,\"L\"]}", between, water, litres);
    between = ",";
}

static void put_keeps(const char *keyword)
{
    double number = 1 + chance(12);
    const char *unit = chance(2) == 0 ? "months" : "days";
    const char *vessel = ONE_OF(vessels);
    fprintf(bath, "    %s %g %s in %s\n", keyword, number, unit, vessel);
    fprintf(json, ",\"%s\":[%g,\"%s\",\"%s\"]", keyword, number, unit, vessel);
}

/* ---- baths ---- */

static void open_formula(unsigned number, const char *what, const char *kind, const char *purpose)
{
    const char *mood = ONE_OF(moods);
    fprintf(bath, "formula \"%s %s no. %u\"\n", mood, what, number);
    fprintf(json, "%s{\"title\":\"%s %s no. %u\"", number == 1 ? "" : ",\n", mood, what, number);
    put_words("kind", kind);
    if (purpose != NULL) {
        put_words("for", purpose);
    }
    if (chance(5) < 2) {
        put_text("note", ONE_OF(notes));
    }
}

static void put_film_use(void)
{
    put_figure("temperature", 18 + chance(7), "°C");
    put_figure("time", 4 + chance(12), "min");
    if (chance(3) == 0) {
        put_text("agitate", ONE_OF(agitations));
    }
    if (chance(2) == 0) {
        double rolls = 6 + chance(10);
        fprintf(bath, "        capacity %g rolls per L\n", rolls);
        fprintf(json, ",\"capacity\":[%g,\"rolls per L\"]", rolls);
    }
}

static void put_paper_use(void)
{
    put_figure("temperature", 18 + chance(5), "°C");
    put_figure("time", 60 + 30 * chance(5), "s");
    if (chance(2) == 0) {
        double sheets = 20 + 5 * chance(8);
        fprintf(bath, "        capacity %g sheets 8x10 in per L\n", sheets);
        fprintf(json, ",\"capacity\":[%g,\"sheets 8x10 in per L\"]", sheets);
    }
}

static void put_use(const char *purpose, unsigned water_parts)
{
    fprintf(bath, "    use for %s\n", purpose);
    fprintf(json, ",\"use\":{\"for\":\"%s\"", purpose);
    indent = "        ";
    if (water_parts > 0) {
        fprintf(bath, "        dilute 1+%u\n", water_parts);
        fprintf(json, ",\"dilute\":[1,%u]", water_parts);
    }
    if (purpose[0] == 'f') {
        put_film_use();
    } else {
        put_paper_use();
    }
    fputs("}", json);
    indent = "    ";
}

static void write_developer(unsigned number)
{
    bool film = chance(2) == 0;
    const char *purpose = film ? "film" : "paper";
    bool leaders = chance(6) == 0;
    double litres = chance(4) == 0 ? 0.5 : 1;
    open_formula(number, film ? "film developer" : "print developer", "developer", purpose);
    open_list("additions");
    put_first_water(litres, true, leaders);
    /* Metol dissolves before the sulfite, every other agent in its shelter. */
    bool metol = chance(3) < 2;
    bool old = chance(2) == 0;
    if (metol) {
        put_ingredient(&ONE_OF(metols), litres, leaders);
    }
    put_ingredient(old ? &crystal_sulfite : &dry_sulfite, litres, leaders);
    if (!metol || chance(2) == 0) {
        put_ingredient(old || chance(2) == 0 ? &ONE_OF(agents) : &ONE_OF(young_agents), litres, leaders);
    }
    put_ingredient(old ? &crystal_carbonate : &ONE_OF(alkalis), litres, leaders);
    if (!old && chance(2) == 0) {
        put_addition("benzotriazole", NULL, 0.1 * litres, "g", " from 1 % stock", leaders);
    } else {
        put_ingredient(&ONE_OF(restrainers), litres, leaders);
    }
    put_to_make(litres);
    close_list();
    put_use(purpose, chance(3) == 0 ? 1 : 0);
    put_keeps("keeps");
}

static void write_fixer(unsigned number)
{
    bool leaders = chance(6) == 0;
    open_formula(number, "fixing bath", "fixer", chance(2) == 0 ? "film, paper" : NULL);
    open_list("additions");
    put_first_water(1, false, leaders);
    put_ingredient(&ONE_OF(hypo), 1, leaders);
    put_ingredient(&dry_sulfite, 0.5, leaders);
    if (chance(4) == 0) {
        put_ingredient(fixer_acids, 1, leaders);
        put_ingredient(alums, 1, leaders);
    } else {
        put_ingredient(&ONE_OF(fixer_salts), 1, leaders);
    }
    put_to_make(1);
    close_list();
    put_use(chance(2) == 0 ? "film" : "paper", 0);
    put_keeps("keeps");
}

static void write_stop_bath(unsigned number)
{
    bool leaders = chance(6) == 0;
    open_formula(number, "stop bath", "stop bath", NULL);
    open_list("additions");
    put_first_water(1, false, leaders);
    put_ingredient(&ONE_OF(stop_acids), 1, leaders);
    put_to_make(1);
    close_list();
    put_use("paper", 0);
    put_keeps("keeps");
}

/* Two parts that are used one after the other or mixed. */
static void write_toner(unsigned number)
{
    bool leaders = chance(6) == 0;
    open_formula(number, "sulfide toner", "toner", "paper");
    fputs("    part A\n", bath);
    open_list("A");
    put_first_water(1, false, leaders);
    put_ingredient(bleach_salts, 1, leaders);
    put_ingredient(bleach_bromides, 1, leaders);
    put_to_make(1);
    close_list();
    put_keeps("keeps");
    fputs("    part B\n", bath);
    open_list("B");
    put_first_water(0.5, false, leaders);
    put_ingredient(sulfides, 0.5, leaders);
    put_to_make(0.5);
    close_list();
    unsigned water = 4 + chance(6);
    fprintf(bath, "    use for bleaching\n        mix A 1 + water %u\n    use for toning\n        mix B 1 + water %u\n", water,
            water / 2);
    fprintf(json, ",\"bleaching\":{\"mix\":[[1,\"A\"],[%u,\"water\"]]},\"toning\":{\"mix\":[[1,\"B\"],[%u,\"water\"]]}", water,
            water / 2);
}

static void write_formula(unsigned number)
{
    unsigned draw = chance(10);
    if (chance(6) == 0) {
        fprintf(bath, "# %s\n", ONE_OF(comments));
    }
    if (draw < 5) {
        write_developer(number);
    } else if (draw < 7) {
        write_fixer(number);
    } else if (draw < 8) {
        write_stop_bath(number);
    } else {
        write_toner(number);
    }
    fputs("\n", bath);
    fputs("}", json);
}

int main(int count, char **arguments)
{
    if (count != 4) {
        fputs("usage: make_formulas COUNT FILE.bath FILE.json\n", stderr);
        return 2;
    }
    bath = fopen(arguments[2], "w");
    json = fopen(arguments[3], "w");
    if (bath == NULL || json == NULL) {
        perror(arguments[bath == NULL ? 2 : 3]);
        return 2;
    }
    fputs("{\"formulas\":[\n", json);
    unsigned formulas = (unsigned)strtoul(arguments[1], NULL, 10);
    for (unsigned number = 1; number <= formulas; number++) {
        write_formula(number);
    }
    fputs("\n]}\n", json);
    bool written = fclose(bath) == 0;
    return fclose(json) == 0 && written ? 0 : 2;
}
