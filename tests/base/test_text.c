/* Views into text. */
#include "base/text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

static void the_article_that_is_spoken(void **state)
{
    (void)state;
    static const char *const with_an[] = {"area", "intensifier", "ounce", "8 %", "80", "800", "11", "18", "8.5"};
    static const char *const with_a[] = {"volume", "10 %", "1", "100", "110", "180", "0.1", "fl oz", "stop bath", ""};
    for (size_t i = 0; i < sizeof with_an / sizeof *with_an; i++) {
        assert_string_equal(text_article(text_from(with_an[i])), "an");
    }
    for (size_t i = 0; i < sizeof with_a / sizeof *with_a; i++) {
        assert_string_equal(text_article(text_from(with_a[i])), "a");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_article_that_is_spoken),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
