/* How far words are apart. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/slips.h"

static int between(const char *a, const char *b)
{
    return text_slips(text_from(a), text_from(b), 100);
}

/* Counted by hand after the definition: two for a slip, one where the keys are neighbours on a row. */
static void slips_are_counted(void **state)
{
    (void)state;
    assert_int_equal(between("metol", "metol"), 0);
    assert_int_equal(between("metl", "metol"), 2);
    assert_int_equal(between("mettol", "metol"), 2);
    assert_int_equal(between("mteol", "metol"), 2);
    assert_int_equal(between("meyol", "metol"), 1); /* y stands beside t */
    assert_int_equal(between("mexol", "metol"), 2);
    assert_int_equal(between("", "abc"), 6);
    assert_true(text_slips(TEXT("aaaaaaaa"), TEXT("bbbbbbbb"), 4) > 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slips_are_counted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
