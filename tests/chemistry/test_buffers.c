/* Estimated pH of published buffers, each written as a formula and asked for as a user would. */
#include "support/compiling.h"

#include "chemistry/buffer_figures.h"

#include <math.h>

enum { MOST_DEVIATIONS = 400 };

struct deviations {
    double of[MOST_DEVIATIONS]; /* without sign */
    size_t count;
    double worst;
};

static void note_deviation(struct deviations *deviations, double deviation)
{
    assert_true(deviations->count < MOST_DEVIATIONS);
    deviations->of[deviations->count++] = fabs(deviation);
    deviations->worst = fmax(deviations->worst, fabs(deviation));
}

static int by_size(const void *a, const void *b)
{
    double difference = *(const double *)a - *(const double *)b;
    return difference < 0 ? -1 : difference > 0;
}

static void print_deviations(const char *what, struct deviations *deviations)
{
    qsort(deviations->of, deviations->count, sizeof *deviations->of, by_size);
    print_message("%s: %zu, median %.3f, worst %.3f\n", what, deviations->count, deviations->of[deviations->count / 2],
                  deviations->worst);
}

/* Writes a buffer of those amounts in a litre, with a use at each temperature. */
static size_t write_buffer(char *text, size_t room, const char *const *materials, const double *moles, const double *temperatures,
                           size_t count)
{
    size_t length = (size_t)snprintf(text, room, "formula \"Buffer\"\n    kind buffer\n    water 500 mL\n");
    for (size_t i = 0; i < MOST_COMPONENTS && materials[i] != NULL; i++) {
        length += moles[i] == 0 ? 0 : (size_t)snprintf(text + length, room - length, "    %s %.8g mol\n", materials[i], moles[i]);
    }
    length += (size_t)snprintf(text + length, room - length, "    water to make 1 L\n");
    for (size_t i = 0; i < count; i++) {
        length += (size_t)snprintf(text + length, room - length, "    use for \"place %zu\"\n        temperature %g °C\n", i,
                                   temperatures[i]);
    }
    return length;
}

static double estimated(struct compiled *compiled, size_t use)
{
    const json_t *estimate = json_object_get(compiled_use(compiled, use), "estimate");
    if (!json_is_object(estimate)) {
        fail_msg("no estimate: %s", json_text_of(compiled_use(compiled, use), "estimate_missing"));
    }
    return json_number_of(estimate, "pH");
}

/* Asked for: 0.05 at 25 °C, 0.1 from 15 to 40 °C. */
static void standards_of_ph(void **state)
{
    (void)state;
    struct deviations at_25 = {0};
    struct deviations all = {0};
    for (size_t s = 0; s < sizeof standards / sizeof *standards; s++) {
        const char *materials[MOST_COMPONENTS];
        double moles[MOST_COMPONENTS];
        for (size_t i = 0; i < MOST_COMPONENTS; i++) {
            materials[i] = standards[s].components[i].material;
            moles[i] = standards[s].components[i].moles;
        }
        char text[2000];
        size_t length = write_buffer(text, sizeof text, materials, moles, standard_temperatures, STANDARD_TEMPERATURES);
        struct compiled compiled = compile_with(NULL, text, length);
        for (size_t t = 0; t < STANDARD_TEMPERATURES; t++) {
            if (standards[s].pH[t] == 0) {
                continue;
            }
            double deviation = estimated(&compiled, t) - standards[s].pH[t];
            double allowed = standard_temperatures[t] == 25 ? 0.05 : 0.1;
            if (!(fabs(deviation) < allowed)) {
                fail_msg("%s at %g °C: off by %+.3f", standards[s].name, standard_temperatures[t], deviation);
            }
            note_deviation(&all, deviation);
            if (standard_temperatures[t] == 25) {
                note_deviation(&at_25, deviation);
            }
        }
        compiled_free(&compiled);
    }
    print_deviations("standards at 25 °C", &at_25);
    print_deviations("standards from 15 to 40 °C", &all);
}

static void recipes_of_buffers(void **state)
{
    (void)state;
    struct deviations all = {0};
    for (size_t s = 0; s < sizeof series / sizeof *series; s++) {
        struct deviations own = {0};
        for (size_t r = 0; r < series[s].count; r++) {
            char text[1000];
            size_t length = write_buffer(text, sizeof text, series[s].materials, series[s].recipes[r].moles, &series[s].temperature, 1);
            struct compiled compiled = compile_with(NULL, text, length);
            double deviation = estimated(&compiled, 0) - series[s].recipes[r].pH;
            if (!(fabs(deviation) < series[s].worst)) {
                fail_msg("%s, pH %g: off by %+.3f", series[s].name, series[s].recipes[r].pH, deviation);
            }
            note_deviation(&own, deviation);
            note_deviation(&all, deviation);
            compiled_free(&compiled);
        }
        print_deviations(series[s].name, &own);
    }
    print_deviations("all recipes", &all);
}

/* 0.05 mol of a buffer is as good as its grams: potassium hydrogen phthalate, 204.22 g/mol (CIAAW 2021 weights). */
static void grams_and_moles_agree(void **state)
{
    (void)state;
    struct compiled moles = compile("formula \"B\"\n kind buffer\n water 500 mL\n potassium hydrogen phthalate 0.05 mol\n"
                                    " water to make 1 L\n use for x\n temperature 25 °C\n");
    struct compiled millimoles = compile("formula \"B\"\n kind buffer\n water 500 mL\n potassium hydrogen phthalate 50 mmol\n"
                                         " water to make 1 L\n use for x\n temperature 25 °C\n");
    struct compiled grams = compile("formula \"B\"\n kind buffer\n water 500 mL\n potassium hydrogen phthalate 10.211 g\n"
                                    " water to make 1 L\n use for x\n temperature 25 °C\n");
    assert_within(estimated(&moles, 0), estimated(&grams, 0), 1e-4);
    assert_within(estimated(&moles, 0), estimated(&millimoles, 0), 1e-9);
    compiled_free(&moles);
    compiled_free(&millimoles);
    compiled_free(&grams);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(standards_of_ph),
        cmocka_unit_test(recipes_of_buffers),
        cmocka_unit_test(grams_and_moles_agree),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
