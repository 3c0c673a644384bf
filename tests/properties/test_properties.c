/* What holds for every formula: tried on generated ones, always the same. */
#define _GNU_SOURCE

#include "support/program.h"
#include "support/reports.h"

#include "batch/batch.h"
#include "session/session.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static uint64_t seed;

/* Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8(14), 2003. */
static uint64_t below(uint64_t limit)
{
    seed ^= seed << 13;
    seed ^= seed >> 7;
    seed ^= seed << 17;
    return seed % limit;
}

/* Evenly between, to so many figures behind the point as print has. */
static double between(double low, double high)
{
    return low + (high - low) * (double)below(1001) / 1000;
}

/* g/mol by the standard atomic weights of IUPAC (2021, abridged to four figures): Na 22.990, K 39.098, S 32.06, C 12.011, H 1.008,
 * O 15.999, Br 79.904. */
static const struct salt {
    const char *material, *form, *other; /* of the other form, or NULL */
    double mass, other_mass;
} salts[] = {
    {"sodium sulfite", "anhydrous", "heptahydrate", 126.037, 252.142},
    {"sodium carbonate", "anhydrous", "monohydrate", 105.988, 124.003},
    {"sodium thiosulfate", "anhydrous", "pentahydrate", 158.095, 248.170},
    {"citric acid", "anhydrous", "monohydrate", 192.123, 210.138},
    {"potassium bromide", NULL, NULL, 119.002, 0},
    {"sodium chloride", NULL, NULL, 58.44, 0},
};
enum { SALTS = sizeof salts / sizeof *salts, MOST_LINES = 5 };

/* A formula of one or two parts, and the moles of each salt that all its parts together were given. */
struct made {
    char *text;
    size_t length;
    double moles[SALTS];
    double litres;     /* of the working solution that all of it makes */
    bool two_parts;
};

/* One salt, as it is or as another form, weighed, from a stock, or out of the other formula. */
static void write_line(FILE *out, struct made *made, size_t which)
{
    const struct salt *salt = &salts[which];
    bool other = salt->other != NULL && below(2) == 0;
    double grams = between(1, 9);
    made->moles[which] += grams / (other ? salt->other_mass : salt->mass);
    fprintf(out, " %s", salt->material);
    if (salt->form != NULL) {
        fprintf(out, " (%s)", other ? salt->other : salt->form);
    }
    if (below(4) == 0) {
        fprintf(out, " %.12g g from 10 %% stock\n", grams);
    } else {
        fprintf(out, " %.12g g\n", grams);
    }
}

static void write_part(FILE *out, struct made *made)
{
    size_t count = 1 + below(MOST_LINES);
    size_t first = below(SALTS);
    fputs(" water 400 mL\n", out);
    for (size_t i = 0; i < count; i++) {
        write_line(out, made, (first + i) % SALTS);
    }
    if (below(3) == 0) { /* a tenth of a litre of what holds 20 g of sodium chloride: 2 g */
        fputs(" solution \"Salt\" 100 mL\n", out);
        made->moles[SALTS - 1] += 2 / 58.44;
    }
    fputs(" water to make 1 L\n", out);
}

static struct made make_formula(void)
{
    struct made made = {.two_parts = below(2) == 0};
    FILE *out = open_memstream(&made.text, &made.length);
    double water = 1 + (double)below(9);
    fputs("formula \"Generated\"\n kind other\n", out);
    if (made.two_parts) {
        fputs("part A\n", out);
        write_part(out, &made);
        fputs("part B\n", out);
        write_part(out, &made);
        fprintf(out, "use for film\n mix A 1 + B 1 + water %.0f\n", water);
        made.litres = 2 + water;
    } else {
        write_part(out, &made);
        fprintf(out, "use for film\n dilute 1+%.0f\n", water);
        made.litres = 1 + water;
    }
    fputs("formula \"Salt\"\n kind other\n water 500 mL\n sodium chloride 20 g\n water to make 1 L\n", out);
    fclose(out);
    return made;
}

/* ---- sizes ---- */

static bool is_near(double a, double b)
{
    return (isnan(a) && isnan(b)) || fabs(a - b) <= 1e-12 * fabs(b);
}

static void same_batch(const struct batch *one, const struct batch *other)
{
    assert_int_equal(one->part_count, other->part_count);
    for (size_t p = 0; p < one->part_count; p++) {
        const struct batch_part *a = &one->parts[p];
        const struct batch_part *b = &other->parts[p];
        assert_int_equal(a->step_count, b->step_count);
        assert_true(is_near(part_volume(a->part), part_volume(b->part)));
        for (size_t i = 0; i < a->step_count; i++) {
            assert_true(is_near(a->steps[i].step->mass, b->steps[i].step->mass));
            assert_true(is_near(a->steps[i].step->volume, b->steps[i].step->volume));
            assert_true(is_near(a->steps[i].poured, b->steps[i].poured));
            assert_true(is_near(a->steps[i].grams_per_litre, b->steps[i].grams_per_litre));
            assert_true(is_near(a->steps[i].moles_per_litre, b->steps[i].moles_per_litre));
        }
    }
}

static void a_batch_of_a_batch_is_one_batch(void **state)
{
    (void)state;
    seed = 20261201;
    for (int i = 0; i < 200; i++) {
        struct made made = make_formula();
        struct compiled compiled = compile(made.text);
        struct potash *potash = compiled.potash;
        const struct formula *formula = potash->formulary.formulas;
        double a = between(0.05, 20);
        double b = between(0.05, 20);
        const struct scales *scales = &potash->context.scales;
        const struct batch *first = batch_make(&potash->arena, formula, a, NULL, scales);
        same_batch(batch_make(&potash->arena, first->formula, b, NULL, scales), batch_make(&potash->arena, formula, a * b, NULL, scales));
        same_batch(batch_make(&potash->arena, first->formula, 1 / a, NULL, scales), batch_make(&potash->arena, formula, 1, NULL, scales));
        compiled_free(&compiled);
        free(made.text);
    }
}

/* ---- mass ---- */

/* What went in by weight, as a stock, in another form, in a part or within another solution is in the working solution; the atomic
 * weights above have five figures. */
static void nothing_is_lost_on_the_way(void **state)
{
    (void)state;
    seed = 1848;
    size_t compared = 0;
    for (int i = 0; i < 300; i++) {
        struct made made = make_formula();
        struct compiled compiled = compile(made.text);
        const json_t *contents = json_object_get(compiled_use(&compiled, 0), "contents");
        size_t found = 0;
        for (size_t s = 0; s < SALTS; s++) {
            size_t at;
            const json_t *content;
            json_array_foreach(contents, at, content)
            {
                if (strcmp(json_text_of(content, "material"), salts[s].material) == 0) {
                    assert_within(json_number_of(content, "mol_per_L") * made.litres, made.moles[s], 1e-4);
                    found++;
                }
            }
            found += made.moles[s] == 0;
        }
        assert_int_equal(found, SALTS);
        compared += found;
        compiled_free(&compiled);
        free(made.text);
    }
    assert_true(compared > 1000);
}

/* ---- one figure in all outputs ---- */

/* Without blanks, those that do not break as well, and without what stands between < and > where those are marks. */
static char *squeezed(const char *text, bool marked)
{
    char *out = malloc(strlen(text) + 1);
    size_t length = 0;
    for (bool inside = false; *text != '\0'; text++) {
        inside = marked && (*text == '<' || (inside && *text != '>'));
        bool blank = strchr(" \t\r\n\f>", *text) != NULL;
        if (strncmp(text, "\u00A0", 2) == 0) {
            text++;
        } else if (marked && strncmp(text, "&quot;", 6) == 0) {
            out[length++] = '"';
            text += 5;
        } else if (!inside && !blank) {
            out[length++] = *text;
        }
    }
    out[length] = '\0';
    return out;
}

static void pass(const char **at, const char *words, const char *where, const char *formula)
{
    char *wanted = squeezed(words, false);
    const char *found = strstr(*at, wanted);
    if (found == NULL) {
        fail_msg("%s has no \"%s\" in its place:\n%s", where, words, formula);
    }
    *at = found + strlen(wanted);
    free(wanted);
}

/* The lines of all parts, one after the other: the name unless it may be set in several lines, and the amount behind it. */
static void follow_lines(const json_t *json, const char *printed, bool marked, bool named, const char *where, const char *formula)
{
    char *page = squeezed(printed, marked);
    const char *at = page;
    size_t p;
    const json_t *part;
    json_array_foreach(json_object_get(json_array_get(json_object_get(json, "sheets"), 0), "parts"), p, part)
    {
        size_t i;
        const json_t *line;
        json_array_foreach(json_object_get(part, "lines"), i, line)
        {
            if (named) {
                pass(&at, json_text_of(line, "what"), where, formula);
            }
            pass(&at, json_text_of(line, "amount"), where, formula);
        }
        const json_t *sum = json_object_get(part, "weighed_in_all");
        if (!json_is_null(sum)) {
            pass(&at, "weighed in all", where, formula);
            pass(&at, json_text_of(sum, "amount"), where, formula);
        }
    }
    free(page);
}

/* What is printed is what the numbers beside it round to: half a step of 0.01 g, or of the graduate. */
static void words_are_their_numbers(const json_t *json)
{
    size_t p;
    const json_t *part;
    json_array_foreach(json_object_get(json_array_get(json_object_get(json, "sheets"), 0), "parts"), p, part)
    {
        size_t i;
        const json_t *line;
        json_array_foreach(json_object_get(part, "lines"), i, line)
        {
            const char *words = json_text_of(line, "amount");
            const char *figure = words + strcspn(words, "0123456789");
            double unit = strstr(figure, "kg") != NULL || strstr(figure, " L") != NULL || strstr(figure, "\u00A0L") != NULL ? 1000 : 1;
            double value = json_number_of(line, "value");
            bool weighed = strcmp(json_text_of(line, "unit"), "g") == 0;
            double step = weighed ? 0.01 : value <= 25 ? 0.1 : value <= 100 ? 0.5 : value <= 1000 ? 1 : value <= 2000 ? 5 : 10;
            if (fabs(strtod(figure, NULL) * unit - value) > fmax(step / 2, value < 10 * step ? 0.05 * value : 0) * (1 + 1e-9)) {
                fail_msg("%s is printed for %.12g", words, value);
            }
        }
    }
}

static void every_output_has_one_figure(void **state)
{
    (void)state;
    seed = 1839;
    static const char *const sizes[] = {NULL, "333 mL", "2.5 L", "80 mL"};
    for (int i = 0; i < 40; i++) {
        struct made made = make_formula();
        struct potash_options options = {.make = sizes[below(4)], .title = "Generated", .columns = 400};
        json_t *json = report_json_of(potash_sheet, &options, made.text);
        words_are_their_numbers(json);
        char *text = report_text_of(potash_sheet, &options, made.text, POTASH_TEXT);
        follow_lines(json, text, false, true, "the text", made.text);
        free(text);
        char *html = report_text_of(potash_sheet, &options, made.text, POTASH_HTML);
        follow_lines(json, strstr(html, "<article"), true, true, "the HTML page", made.text);
        free(html);
        if (i % 8 == 0) {
            const char *path = scratch_text("generated.bath", made.text);
            const char *pdf = scratch_path("generated.pdf");
            const char *make[] = {"sheet", path, "--title", "Generated", "-o", pdf, options.make == NULL ? NULL : "--make", options.make, NULL};
            struct run run = run_program(program_under_test(), make, NULL, 0);
            assert_status(&run, 0);
            run_free(&run);
            run = run_program("/usr/bin/pdftotext", (const char *[]){"-layout", pdf, "-", NULL}, NULL, 0);
            assert_status(&run, 0);
            follow_lines(json, run.output, false, false, "the PDF", made.text);
            run_free(&run);
            scratch_remove();
        }
        json_decref(json);
        free(made.text);
    }
}

/* ---- tidying ---- */

/* The same text with blanks and leader dots as print has them. */
static char *untidy(const char *text)
{
    char *out = malloc(strlen(text) * 4 + 1);
    size_t length = 0;
    for (; *text != '\0'; text++) {
        bool gap = *text == ' ' && length > 0 && out[length - 1] != '\n';
        size_t more = gap ? below(3) : 0;
        out[length++] = *text;
        while (more-- > 0) {
            out[length++] = ' ';
        }
        if (*text == '\n' && below(6) == 0) {
            out[length++] = '\n';
        }
    }
    out[length] = '\0';
    return out;
}

static char *fingerprints(const char *text)
{
    char *all = NULL;
    size_t length;
    FILE *out = open_memstream(&all, &length);
    json_t *json = report_json_of(potash_label, NULL, text);
    size_t i;
    const json_t *label;
    json_array_foreach(json_object_get(json, "labels"), i, label)
    {
        fprintf(out, "%s ", json_text_of(label, "fingerprint"));
    }
    json_decref(json);
    fclose(out);
    return all;
}

static void tidying_keeps_the_meaning(void **state)
{
    (void)state;
    seed = 1871;
    for (int i = 0; i < 100; i++) {
        struct made made = make_formula();
        char *text = untidy(made.text);
        struct compiled compiled = compile(text);
        struct potash_output output;
        bool tidy;
        assert_int_equal(potash_tidy(compiled.potash, 0, &tidy, &output), POTASH_GOOD);
        char *tidied = strndup(output.bytes, output.length);
        char *before = fingerprints(text);
        char *after = fingerprints(tidied);
        char *at_first = fingerprints(made.text);
        assert_string_equal(after, before);
        assert_string_equal(after, at_first);
        free(at_first);
        free(before);
        free(after);
        free(tidied);
        compiled_free(&compiled);
        free(text);
        free(made.text);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_batch_of_a_batch_is_one_batch),
        cmocka_unit_test(nothing_is_lost_on_the_way),
        cmocka_unit_test(every_output_has_one_figure),
        cmocka_unit_test(tidying_keeps_the_meaning),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
