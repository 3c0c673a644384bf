/* The shelf less what was mixed since it was counted. */
#include "support/compiling.h"

#include <string.h>

static const char text[] = "shelf \"Shelf\"\n currency GBP\n holds sodium sulfite (anhydrous) 1 kg for 9.40 left 620 g opened 2026-01-02\n"
                           " holds metol 100 g for 18.50 left 5 g\n"
                           "formula \"Bath\"\n kind developer\n metol 2 g\n sodium sulfite (anhydrous) 75 g\n"
                           " sodium carbonate (anhydrous) 30 g\n water to make 1 L\n"
                           "batch \"A\" of \"Bath\"\n mixed 2026-01-31\n made 1 L\n"
                           "batch \"B\" of \"Bath\"\n mixed 2026-02-03\n made 1 L\n"
                           "batch \"C\" of \"Bath\"\n mixed 2026-02-10\n made 2 L\n";

static double left(const char *counted, size_t index)
{
    const struct potash_options options = {.date = "2026-03-01", .counted = counted};
    struct compiled compiled = compile_with(&options, text, sizeof text - 1);
    struct potash_output output;
    assert_int_equal(potash_shelf(compiled.potash, POTASH_JSON, &output), POTASH_GOOD);
    json_t *json = json_loadb(output.bytes, output.length, 0, NULL);
    double amount = json_number_of(json_array_get(json_object_get(json, "left"), index), "amount");
    json_decref(json);
    compiled_free(&compiled);
    return amount;
}

/* By hand: 1 L and 2 L were mixed after 1 February, at 75 g of sulfite a litre: 620 - 3 x 75 = 395 g.  Of metol 6 g were
 * wanted and 5 g were there: nothing is left, and not less. */
static void what_was_mixed_since_is_taken_off(void **state)
{
    (void)state;
    assert_near(left(NULL, 0), 620);
    assert_near(left("2026-02-01", 0), 395);
    assert_near(left("2026-02-03", 0), 620 - 2 * 75);
    assert_near(left("2026-02-28", 0), 620);
    assert_near(left("2026-02-01", 1), 0);
}

static void it_is_said(void **state)
{
    (void)state;
    const struct potash_options options = {.date = "2026-03-01", .counted = "2026-02-01"};
    struct compiled compiled = compile_with(&options, text, sizeof text - 1);
    struct potash_output output;
    assert_int_equal(potash_shelf(compiled.potash, POTASH_TEXT, &output), POTASH_GOOD);
    assert_non_null(strstr(output.bytes, "less what 2 batches mixed since took"));
    compiled_free(&compiled);
    const struct potash_options wrong = {.date = "2026-03-01", .counted = "2026-02-30"};
    compiled = compile_with(&wrong, text, sizeof text - 1);
    assert_int_equal(potash_shelf(compiled.potash, POTASH_TEXT, &output), POTASH_UNUSABLE);
    assert_non_null(strstr(potash_message(compiled.potash), "is no date"));
    compiled_free(&compiled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_was_mixed_since_is_taken_off),
        cmocka_unit_test(it_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
