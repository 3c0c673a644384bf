/* Uncertainty of readings, and time and temperature: against the documents that define them, and sums done by hand. */
#include "support/compiling.h"

#include "chemistry/measuring.h"
#include "chemistry/time_temperature.h"

#include <math.h>

/* JCGM 100:2008 (GUM), F.2.2.1: a digital indication of resolution dx has the standard uncertainty 0.29 dx, which is
 * dx / sqrt 12. */
static void a_digital_reading(void **state)
{
    (void)state;
    struct measured reading = measured_in_steps(1.5, 0.01);
    assert_within(reading.uncertainty, 0.29 * 0.01, 0.005);
    assert_within(reading.uncertainty, 0.01 / sqrt(12), 1e-12);
    assert_within(measured_share(reading), 0.01 / sqrt(12) / 1.5, 1e-12);
}

/* JCGM 100:2008, 4.3.7, example 2 (thermal expansion of copper): bounds of half-width 0.40e-6 give 0.23e-6.  A step of
 * twice the half-width is the same distribution. */
static void a_rectangular_distribution(void **state)
{
    (void)state;
    assert_within(measured_in_steps(16.52e-6, 0.80e-6).uncertainty, 0.23e-6, 0.01);
}

/* JCGM 100:2008, 5.1.2: independent inputs add by their squares. */
static void a_sum(void **state)
{
    (void)state;
    struct measured sum = {0, 0};
    for (int i = 0; i < 4; i++) {
        sum = measured_sum(sum, measured_in_steps(10, 0.1));
    }
    assert_near(sum.amount, 40);
    assert_within(sum.uncertainty, 2 * 0.1 / sqrt(12), 1e-12);
}

/* By hand: 0.15 g on a scale of 0.01 g is off by 0.00289 / 0.15 = 1.92 %.  1 g made up to 100 mL, read to 0.5 mL, of which
 * 15 mL are taken, read to 0.1 mL: sqrt(0.289^2 + 0.144^2 + 0.192^2) % = 0.376 %. */
static void a_stock_is_better(void **state)
{
    (void)state;
    assert_within(measured_share(measured_in_steps(0.15, 0.01)), 0.0192, 0.005);
    assert_within(measured_stock_share(0.15, 1, 0.01, 0.5, 0.1), 0.00376, 0.005);
}

/* By hand, from the definition of the coefficient: 10 °C warmer divides the time by it; halfway, by its root. */
static void time_follows_temperature(void **state)
{
    (void)state;
    assert_within(time_at_temperature(540, 20, 30, 1.9, 10), 540 / 1.9, 1e-12);
    assert_within(time_at_temperature(540, 20, 10, 1.9, 10), 540 * 1.9, 1e-12);
    assert_within(time_at_temperature(540, 20, 25, 1.9, 10), 540 / sqrt(1.9), 1e-12);
    assert_within(time_at_temperature(540, 20, 20, 1.9, 10), 540, 1e-12);
    assert_true(isnan(time_at_temperature(540, 20, 24, 0, 10)));
    assert_true(isnan(time_at_temperature(540, 20, 24, 1.9, 0)));
    assert_true(time_temperature_holds(20, 24));
    assert_true(time_temperature_holds(16, 27));
    assert_false(time_temperature_holds(20, 27.5));
    assert_false(time_temperature_holds(15, 20));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_digital_reading), cmocka_unit_test(a_rectangular_distribution), cmocka_unit_test(a_sum),
        cmocka_unit_test(a_stock_is_better), cmocka_unit_test(time_follows_temperature),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
