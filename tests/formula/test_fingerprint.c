/* Fingerprints: the digest of the text that docs/pages.md defines, the same for the same formula. */
#include "support/program.h"

#include <stdio.h>
#include <string.h>

/* The fingerprint that the label of a text bears. */
static void fingerprint_of(const char *text, char *fingerprint)
{
    const char *path = scratch_text("one.bath", text);
    struct run run = run_potash("label", path, "--of", "stock", NULL);
    assert_status(&run, 0);
    const char *at = strstr(run.output, "formula ");
    assert_non_null(at);
    assert_int_equal(sscanf(at, "formula %16[0-9a-f]", fingerprint), 1);
    assert_int_equal(strlen(fingerprint), 16);
    run_free(&run);
}

static const char plain[] = "formula \"Plain stop\"\n kind stop bath\n water 900 mL at 30 °C\n citric acid (anhydrous) 15 g\n cool to 20 °C\n"
                            " water to make 1 L\n use for paper\n dilute 1+3\n temperature 20 °C\n time 30 s\n";

/* Written by hand after docs/pages.md, and digested by another program. */
static void it_is_the_digest_of_the_canonical_text(void **state)
{
    (void)state;
    static const char canonical[] = "formula 1 kind \"stop bath\"\n"
                                    "part mL 1000\n"
                                    "add by water of \"water\" mL 900 C 30\n"
                                    "add by mass of \"citric acid\" form \"anhydrous\" g 15\n"
                                    "cool C 20\n"
                                    "add by make of \"water\" mL 1000\n"
                                    "use for \"paper\" stock 1 water 3 C 20 to 20 s 30 to 30\n";
    char got[17];
    fingerprint_of(plain, got);
    const char *arguments[] = {NULL};
    struct run digest = run_program("/usr/bin/sha256sum", arguments, canonical, sizeof canonical - 1);
    assert_status(&digest, 0);
    digest.output[16] = '\0';
    assert_string_equal(got, digest.output);
    run_free(&digest);
    scratch_remove();
}

static void layout_and_wording_do_not_change_it(void **state)
{
    (void)state;
    /* 15 g is 231.485 grains (1 grain = 64.79891 mg, NIST Handbook 44), 900 mL is 0.9 L, 30 °C is 86 °F. */
    static const char other[] = "# a comment\nformula \"Another title\"\n\tnote \"said in passing\"\n\tkind   Stop Bath\n\n"
                                "Water ........ 0.9 L at 86 °F   # warm\n  Citric acid (anhydrous) .... 15000 mg\n  cool to 20 C\n"
                                "  water to make 1000 cc\n keeps 6 months in full bottle\nuse for paper\n dilute 1+3\n temperature 68 °F\n"
                                " time 1/2 min\n agitate \"rock it\"\n";
    char first[17];
    char second[17];
    fingerprint_of(plain, first);
    fingerprint_of(other, second);
    assert_string_equal(first, second);
    scratch_remove();
}

static void what_is_mixed_changes_it(void **state)
{
    (void)state;
    static const char *const changes[][2] = {
        {"15 g", "15.5 g"}, {"(anhydrous)", "(monohydrate)"}, {"1+3", "1+4"}, {"900 mL", "800 mL"}, {"cool to 20", "cool to 21"}, {"stop bath", "fixer"}};
    char first[17];
    fingerprint_of(plain, first);
    for (size_t i = 0; i < sizeof changes / sizeof *changes; i++) {
        char text[1024];
        const char *at = strstr(plain, changes[i][0]);
        snprintf(text, sizeof text, "%.*s%s%s", (int)(at - plain), plain, changes[i][1], at + strlen(changes[i][0]));
        char other[17];
        fingerprint_of(text, other);
        assert_string_not_equal(first, other);
    }
    scratch_remove();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_is_the_digest_of_the_canonical_text),
        cmocka_unit_test(layout_and_wording_do_not_change_it),
        cmocka_unit_test(what_is_mixed_changes_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
