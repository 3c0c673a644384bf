/* Chemical formulas as IUPAC prints them. */
#include "base/chemical.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>

#include <cmocka.h>

static void formulas_are_printed_with_figures_below_and_charges_above(void **state)
{
    (void)state;
    static const char *const pairs[][2] = {
        {"Na2SO3.7H2O", "Na₂SO₃·7H₂O"}, {"Na2CO3.10H2O", "Na₂CO₃·10H₂O"}, {"S2O3--", "S₂O₃²⁻"},
        {"Al+++", "Al³⁺"},              {"Na+", "Na⁺"},                   {"K3Fe(CN)6", "K₃Fe(CN)₆"},
        {"KAl(SO4)2.12H2O", "KAl(SO₄)₂·12H₂O"}, {"C6H4(OH)2", "C₆H₄(OH)₂"}, {"(C7H10NO)2SO4", "(C₇H₁₀NO)₂SO₄"},
        {"Fe(CN)6----", "Fe(CN)₆⁴⁻"},   {"", ""},                         {"H2O", "H₂O"},
    };
    struct arena arena;
    arena_start(&arena);
    jmp_buf failure;
    if (setjmp(failure) != 0) {
        fail();
    }
    arena.on_failure = &failure;
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        assert_string_equal(chemical_print(&arena, text_from(pairs[i][0])).at, pairs[i][1]);
    }
    arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(formulas_are_printed_with_figures_below_and_charges_above),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
