/* Chains are appended to in order, however long they are. */
#include "base/chain.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

struct link {
    struct link *next;
    struct link *last;
};

static void keeps_the_order(void **state)
{
    (void)state;
    enum { MANY = 1000 };
    static struct link links[MANY];
    struct link *chain = NULL;
    for (int i = 0; i < MANY; i++) {
        CHAIN_APPEND(&chain, &links[i]);
        assert_ptr_equal(chain->last, &links[i]);
    }
    int count = 0;
    for (const struct link *link = chain; link != NULL; link = link->next) {
        assert_ptr_equal(link, &links[count++]);
    }
    assert_int_equal(count, MANY);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(keeps_the_order)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
