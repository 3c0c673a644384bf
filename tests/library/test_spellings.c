/* A unit means the same however it is spelt: every spelling that the library's declarations list gives the same repairs, the same sheet,
 * the same data, the same sums and the same options as the name of the unit itself. */
#include "support/compiling.h"
#include "support/library_help.h"

#include "library/measure.h"

#include <stdio.h>
#include <string.h>

/* Texts that hold a unit (%U) in every place where one of that kind may stand.  Some are faulty on purpose: the repairs are compared. */
static const struct {
    enum dimension dimension;
    const char *text;
} texts[] = {
    {DIMENSION_MASS,
     "formula \"A\"\n    kind developer\n    metol 2 %U\n    sodium sulfite (anhydrous) 2 %U\n    potassium bromide 0.2 %U from 10 % stock\n"
     "    acetic acid (glacial) 2 %U\n    hydroquinone 2 %U to 20 %U\n    borax 20 %U optional\n    water to make 1 L\n"
     "shelf \"S\"\n    currency GBP\n    balance 2 %U\n    holds metol 20 %U for 9.40 left 2 %U\n"},
    {DIMENSION_MASS, "formula \"A\"\n    kind developer\n    measures US\n    metol 200 %U\n    water 750 mL\n    water to make 2 %U\n"},
    {DIMENSION_MASS, "formula \"A\"\n    kind other\n    makes 2 %U\n    borax 2 %U\n    citric acid 0 %U\n"},
    {DIMENSION_VOLUME,
     "formula \"A\"\n    kind stop bath\n    measures imperial\n    acetic acid (glacial) 2 %U\n    potassium bromide 2 %U of 10 % stock\n"
     "    water to make 200 %U\n    use for film\n        needs 2 %U per roll\n        capacity 20 rolls per %U\n"
     "shelf \"S\"\n    currency GBP\n    graduate 20 %U within 2 %U\n    bottle 20 %U\n"
     "process \"P\"\n    tank 2 %U holds 2 rolls\n    bath \"A\" for film 2 min\n"},
    {DIMENSION_VOLUME, "formula \"A\"\n    kind developer\n    measures US\n    metol 2 %U\n    water 2000 %U\n    water to make 2 %U\n"},
    {DIMENSION_VOLUME, "formula \"A\"\n    kind developer\n    metol 2 g\n    acetic acid (glacial) 2 %U\n    water to make 1 L\n"},
    {DIMENSION_PARTS, "formula \"A\"\n    kind developer\n    metol 2 %U\n    sodium sulfite (anhydrous) 20 %U\n    water 200 %U\n"},
    {DIMENSION_SUBSTANCE, "formula \"A\"\n    kind developer\n    metol 2 %U\n    citric acid 0.2 %U from 10 % stock\n    water to make 1 L\n"},
    {DIMENSION_TIME,
     "formula \"A\"\n    kind developer\n    metol 2 g\n    lactic acid 20 %U\n    stand 2 %U\n    keeps 2 %U\n    water to make 1 L\n"
     "    use for film\n        time 2 to 20 %U\nprocess \"P\"\n    tank 500 mL holds 2 rolls\n    bath \"A\" for film 2 %U\n    wash 2 %U\n"},
    {DIMENSION_TEMPERATURE,
     "formula \"A\"\n    kind developer\n    water 750 mL at 200 %U\n    metol 2 g\n    cool to 20 %U\n    water to make 1 L\n"
     "    use for film\n        temperature 20 %U\n        coefficient 1.9 per 20 %U\n"},
    {DIMENSION_AREA, "formula \"A\"\n    kind fixer\n    sodium thiosulfate (pentahydrate) 200 g\n    water to make 1 L\n    use for film\n"
                     "        needs 20 mL per %U\n        capacity 20 %U per L\n"},
    {DIMENSION_COUNT, "formula \"A\"\n    kind fixer\n    sodium thiosulfate (pentahydrate) 200 g\n    water to make 1 L\n    use for paper\n"
                      "        capacity 20 %U 8x10 in per L\nprocess \"P\"\n    tray 1 L holds 2 %U 8x10 in\n    bath \"A\" for paper 5 min\n"},
    {DIMENSION_CONCENTRATION, "material marsh soda\n    form Na2CO3\n    typical developer 2 to 20 %U\n    density 2 %U\nrule \"soda-at-hand\"\n"
                              "    in developer\n    when metol over 2 %U\n    warn \"much\"\n    advise \"less\"\n    source \"ours\"\n"
                              "formula \"A\"\n    kind developer\n    metol 20 g\n    marsh soda 2 mL\n    water to make 1 L\n"},
};

/* The text with every %U replaced; to be freed. */
static char *with_unit(const char *text, const char *unit)
{
    size_t size = strlen(text) + 1;
    for (const char *at = text; (at = strstr(at, "%U")) != NULL; at += 2) {
        size += strlen(unit);
    }
    char *filled = calloc(1, size);
    assert_non_null(filled);
    for (const char *at; (at = strstr(text, "%U")) != NULL; text = at + 2) {
        strncat(filled, text, (size_t)(at - text));
        strcat(filled, unit);
    }
    return strcat(filled, text);
}

/* What was quoted as it was written, "2 grammes", with the unit's own name: all numbers of the texts end in 2 or 0.  Goods are called as
 * the text calls them wherever they are printed. */
static char *in_own_name(char *text, const char *unit, const char *name, bool goods)
{
    char *renamed = strdup("");
    const char *from = text;
    for (const char *at = text; *at != '\0'; at++) {
        bool number = at > text + 1 && at[-1] == ' ' && (at[-2] == '2' || at[-2] == '0');
        bool called = goods && at > text && strchr(" \"", at[-1]) != NULL;
        if ((number || called) && strncmp(at, unit, strlen(unit)) == 0 && strchr(" \"\n,;()\\", at[strlen(unit)]) != NULL) {
            size_t kept = strlen(renamed);
            renamed = realloc(renamed, kept + (size_t)(at - from) + strlen(name) + 1);
            assert_non_null(renamed);
            memcpy(renamed + kept, from, (size_t)(at - from));
            strcpy(renamed + kept + (at - from), name);
            at += strlen(unit) - 1;
            from = at + 1;
        }
    }
    size_t kept = strlen(renamed);
    renamed = realloc(renamed, kept + strlen(from) + 1);
    assert_non_null(renamed);
    strcpy(renamed + kept, from);
    free(text);
    return renamed;
}

/* All that is said, shown and printed, but where it stands on its line. */
static char *everything(const char *text)
{
    struct compiled compiled = compile(text);
    size_t index;
    json_t *item;
    json_array_foreach(compiled.diagnostics, index, item)
    {
        static const char *const places[] = {"column", "end_column"};
        for (size_t p = 0; p < 2; p++) {
            json_object_del(item, places[p]);
            size_t f;
            json_t *fix;
            json_array_foreach(json_object_get(item, "fixes"), f, fix)
            {
                json_object_del(fix, places[p]);
            }
        }
        json_object_del(item, "related");
    }
    char *said = json_dumps(compiled.diagnostics, JSON_INDENT(1) | JSON_SORT_KEYS);
    assert_non_null(said);
    enum { REPORTS = 5 };
    struct potash_output outputs[REPORTS] = {{0}};
    potash_show(compiled.potash, POTASH_JSON, &outputs[0]);
    potash_sheet(compiled.potash, POTASH_JSON, &outputs[1]);
    potash_cost(compiled.potash, POTASH_JSON, &outputs[2]);
    potash_shelf(compiled.potash, POTASH_JSON, &outputs[3]);
    potash_process(compiled.potash, POTASH_JSON, &outputs[4]);
    size_t length = strlen(said);
    for (size_t i = 0; i < REPORTS; i++) {
        said = realloc(said, length + outputs[i].length + 1);
        assert_non_null(said);
        memcpy(said + length, outputs[i].bytes == NULL ? "" : outputs[i].bytes, outputs[i].length);
        length += outputs[i].length;
    }
    said[length] = '\0';
    compiled_free(&compiled);
    return said;
}

static size_t compared;
static size_t differences;

static void compare_texts(enum dimension dimension, const char *unit, const char *name)
{
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        if (texts[i].dimension != dimension) {
            continue;
        }
        char *text = with_unit(texts[i].text, unit);
        char *own_text = with_unit(texts[i].text, name);
        bool goods = dimension == DIMENSION_AREA || dimension == DIMENSION_COUNT;
        char *got = in_own_name(everything(text), unit, name, goods);
        char *wanted = goods ? in_own_name(everything(own_text), unit, name, goods) : everything(own_text);
        if (strcmp(got, wanted) != 0) {
            size_t at = 0;
            while (got[at] == wanted[at]) {
                at++;
            }
            size_t from = at < 200 ? 0 : at - 200;
            print_error("\"%s\" is not read as \"%s\" in\n%s\nbut gives\n…%.400s\nin place of\n…%.400s\n", unit, name, text, got + from,
                        wanted + from);
            differences++;
        }
        free(text);
        free(own_text);
        free(got);
        free(wanted);
        compared++;
    }
}

/* The value of a sum, or of an option; NAN when there is none. */
static double value_of_sum(struct potash *potash, const char *unit, const char *into)
{
    char sum[300];
    snprintf(sum, sizeof sum, "2 %s in %s", unit, into);
    struct potash_output output;
    if (potash_reckon(potash, sum, POTASH_JSON, &output) != POTASH_GOOD) {
        return NAN;
    }
    json_t *root = json_loadb(output.bytes, output.length, 0, NULL);
    const json_t *first = json_array_get(json_object_get(root, "answers"), 0);
    double value = first == NULL ? NAN : json_number_value(json_object_get(first, "value"));
    json_decref(root);
    return value;
}

static double value_of_option(enum dimension dimension, const char *unit)
{
    char text[200];
    snprintf(text, sizeof text, "2 %s", unit);
    const struct measure_wanted wanted = {
        .dimensions = DIMENSION_BIT(dimension), .least = -1e9, .most = 1e12, .measures = MEASURES_US, .example = "it is"};
    return measure_read_text(&library, text, &wanted).value;
}

/* Words of the grammar end a unit's name in a line: "grams per litre", "in". */
static bool stands_in_lines(const char *unit)
{
    return strstr(unit, " per ") == NULL && strcmp(unit, "in") != 0 && strcmp(unit, "ins") != 0;
}

static void compare_spelling(const struct unit *unit, struct text spelling)
{
    char written[100];
    char name[100];
    char base[100];
    const struct unit *counted_in = library_base_unit(&library, unit->dimension);
    snprintf(written, sizeof written, "%.*s", TEXT_ARGUMENTS(spelling));
    snprintf(name, sizeof name, "%.*s", TEXT_ARGUMENTS(unit->name));
    snprintf(base, sizeof base, "%.*s", TEXT_ARGUMENTS(counted_in->name));
    if (!stands_in_lines(written)) {
        return;
    }
    compare_texts(unit->dimension, written, name);
    bool measured = unit->dimension == DIMENSION_MASS || unit->dimension == DIMENSION_VOLUME || unit->dimension == DIMENSION_TIME ||
                    unit->dimension == DIMENSION_TEMPERATURE;
    if (!measured) {
        return;
    }
    double option = value_of_option(unit->dimension, written);
    double own = value_of_option(unit->dimension, name);
    if (!(option == own)) {
        differences++;
        print_error("an option \"2 %s\" is %g %s, and \"2 %s\" is %g\n", written, option, base, name, own);
    }
    if (!isnan(unit->us_factor) || unit == counted_in) {
        return;
    }
    struct potash *potash = potash_open(NULL);
    double sum = value_of_sum(potash, written, base);
    if (!(fabs(sum - own) <= 1e-9 * fabs(own))) {
        differences++;
        print_error("the sum \"2 %s in %s\" gives %g, and \"2 %s\" is %g\n", written, base, sum, name, own);
    }
    potash_close(potash);
}

static void compare_unit(void *context, const struct declaration *declaration)
{
    (void)context;
    const struct unit *unit = library_unit(&library, declaration->name.name);
    if (unit->unclear != NULL || unit->dimension == DIMENSION_MONEY) {
        return;
    }
    for (const struct word *also = declaration->unit->also; also != NULL; also = also->next) {
        compare_spelling(unit, also->name->spelling);
    }
}

static void every_spelling(void **state)
{
    (void)state;
    library_each_declaration(&library, DECLARE_UNIT, compare_unit, NULL);
    assert_true(compared > 600); /* it went through them */
    assert_int_equal(differences, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_LIBRARY(every_spelling),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
