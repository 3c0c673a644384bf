/* The hazard pictograms: all nine of the UN GHS, as outlines that a renderer can read, within their frame. */
#include "page/pictograms.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

static void all_nine_are_there(void **state)
{
    (void)state;
    /* Names as the standard's Annex 1 words them. */
    static const char *const names[] = {"exploding bomb", "flame", "flame over circle", "gas cylinder", "corrosion",
                                        "skull and crossbones", "exclamation mark", "health hazard", "environment"};
    for (size_t i = 0; i < 9; i++) {
        char code[] = "GHS00";
        code[4] = (char)('1' + i);
        const struct pictogram *pictogram = pictogram_find(text_from(code));
        assert_non_null(pictogram);
        assert_ptr_equal(pictogram, pictogram_at(i));
        assert_string_equal(pictogram->name, names[i]);
    }
    assert_null(pictogram_at(9));
    assert_null(pictogram_find(TEXT("GHS10")));
    assert_null(pictogram_find(TEXT("GHS0")));
}

/* Goes through an outline; every point must be no farther from the middle than `reach`, counted along both axes (what lies in
 * a square on its point). */
static void check_path(const char *path, double reach)
{
    const char *at = path;
    bool open = false;
    while (*at != '\0') {
        char command = *at++;
        int pairs = command == 'C' ? 3 : command == 'Z' ? 0 : 1;
        assert_true(command == 'M' || command == 'L' || command == 'C' || command == 'Z');
        assert_true(open == (command != 'M'));
        open = command != 'Z';
        for (int i = 0; i < pairs; i++) {
            char *end;
            double x = strtod(at, &end);
            assert_ptr_not_equal(end, at);
            at = end;
            double y = strtod(at, &end);
            assert_ptr_not_equal(end, at);
            at = end;
            assert_true(fabs(x - 50) + fabs(y - 50) <= reach);
        }
        while (*at == ' ') {
            at++;
        }
    }
    assert_false(open);
}

static void symbols_stay_inside_the_frame(void **state)
{
    (void)state;
    check_path(pictogram_frame_outside, 49 + 1e-9);
    check_path(pictogram_frame_inside, 41.5 + 1e-9);
    for (size_t i = 0; pictogram_at(i) != NULL; i++) {
        const struct pictogram_layer *layer = pictogram_at(i)->layers;
        assert_false(layer->white);
        for (; layer->path != NULL; layer++) {
            check_path(layer->path, layer->white ? 41.5 : 41);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_nine_are_there),
        cmocka_unit_test(symbols_stay_inside_the_frame),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
