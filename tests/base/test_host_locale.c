/* Numbers in a program whose locale has a decimal comma.  The locale is made with localedef from the sources of the GNU C library,
 * into a folder of its own; where there are none, the test is left out, and says so. */
#define _GNU_SOURCE

#include "support/compiling.h"

#include "base/number.h"

#include <locale.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const char text[] = "formula \"A\"\n    kind developer\n    metol 2.25 g\n    sodium sulfite (anhydrous) 50.123456789012345678 g\n"
                           "    acetic acid (28 %) 3.5 mL\n    potassium bromide 0.5 to 0.75 g\n    water to make 1.5 L\n"
                           "    use for film\n        dilute 1+1.5\n        temperature 20.5 °C\n        time 6.5 min\n"
                           "shelf \"S\"\n    currency GBP\n    balance 0.05 g\n    holds metol 100 g for 9.45\n";

static bool decimal_comma(void)
{
    static char folder[] = "/tmp/locale-XXXXXX";
    char command[200];
    assert_non_null(mkdtemp(folder));
    snprintf(command, sizeof command, "localedef -i de_DE -f UTF-8 --no-archive %s/de_DE.UTF-8 2>/dev/null", folder);
    bool made = system(command) == 0;
    setenv("LOCPATH", folder, 1);
    made = made && setlocale(LC_ALL, "de_DE.UTF-8") != NULL;
    snprintf(command, sizeof command, "rm -rf %s", folder);
    assert_int_equal(system(command), 0);
    unsetenv("LOCPATH");
    if (made) {
        char number[10];
        snprintf(number, sizeof number, "%.1f", 0.5);
        assert_string_equal(number, "0,5"); /* the host prints so, and goes on doing it */
    }
    return made;
}

/* All that the library says and prints of a text with broken numbers. */
static char *everything(void)
{
    const struct potash_options options = {
        .make = "0.75 L", .balance = "0.05 g", .working = "300.5 mL", .temperature = "21.5 °C", .against = "4.85", .columns = 100};
    struct compiled compiled = compile_with(&options, text, strlen(text));
    struct potash *potash = compiled.potash;
    struct potash_output outputs[12] = {{0}};
    size_t count = 0;
    assert_int_equal(potash_diagnostics(potash, POTASH_TEXT, false, &outputs[count++]), POTASH_GOOD);
    assert_int_equal(potash_show(potash, POTASH_JSON, &outputs[count++]), POTASH_GOOD);
    assert_int_equal(potash_show(potash, POTASH_TEXT, &outputs[count++]), POTASH_GOOD);
    assert_int_equal(potash_sheet(potash, POTASH_TEXT, &outputs[count++]), POTASH_GOOD);
    assert_int_equal(potash_sheet(potash, POTASH_HTML, &outputs[count++]), POTASH_GOOD);
    assert_int_equal(potash_sheet(potash, POTASH_JSON, &outputs[count++]), POTASH_GOOD);
    assert_int_equal(potash_cost(potash, POTASH_TEXT, &outputs[count++]), POTASH_GOOD);
    assert_int_equal(potash_safety(potash, POTASH_TEXT, &outputs[count++]), POTASH_GOOD);
    assert_int_equal(potash_shelf(potash, POTASH_CSV, &outputs[count++]), POTASH_GOOD);
    assert_int_equal(potash_reckon(potash, "1+29.5 for 300.25 mL", POTASH_TEXT, &outputs[count++]), POTASH_GOOD);
    assert_int_equal(potash_reckon(potash, "10.5 mL acetic acid (28 %) in g", POTASH_JSON, &outputs[count++]), POTASH_GOOD);
    size_t length = 0;
    char *all = calloc(1, 1);
    for (size_t i = 0; i < count; i++) {
        all = realloc(all, length + outputs[i].length + 1);
        assert_non_null(all);
        memcpy(all + length, outputs[i].bytes, outputs[i].length);
        length += outputs[i].length;
        all[length] = '\0';
    }
    compiled_free(&compiled);
    return all;
}

static void numbers_keep_their_point(void **state)
{
    (void)state;
    char *plain = everything();
    if (!decimal_comma()) {
        print_message("left out: localedef, or the sources of its locales, are not here (Debian packages libc-bin and locales)\n");
        free(plain);
        skip();
    }
    char *abroad = everything();
    assert_true(number_read(text_from("0.12345678901234567890")) == 0x1.f9add3746f65fp-4); /* by the plain library: 0.12345678901234568 */
    setlocale(LC_ALL, "C");
    if (strcmp(plain, abroad) != 0) {
        size_t at = 0;
        while (plain[at] == abroad[at]) {
            at++;
        }
        fail_msg("it differs: \"%.40s\" and \"%.40s\"", plain + at, abroad + at);
    }
    free(plain);
    free(abroad);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(numbers_keep_their_point)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
