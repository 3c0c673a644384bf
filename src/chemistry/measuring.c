/* Uncertainty of weighing and measuring. */
#include "chemistry/measuring.h"

#include <math.h>
#include <stddef.h>

const struct measuring_step graduates[GRADUATES] = {{25, 0.1}, {100, 0.5}, {1000, 1}, {2000, 5}, {INFINITY, 10}};

double scales_volume_step(const struct scales *scales, double millilitres)
{
    size_t i = 0;
    while (i + 1 < GRADUATES && millilitres > graduates[i].up_to) {
        i++;
    }
    return fmax(graduates[i].step, scales->graduate);
}

double reading_bound(double amount, double step)
{
    return step / 2 / amount; /* pages that show other sizes do this sum */
}

struct measured measured_in_steps(double amount, double step)
{
    return (struct measured){amount, step / 2 / sqrt(3)};
}

struct measured measured_sum(struct measured one, struct measured other)
{
    return (struct measured){one.amount + other.amount, hypot(one.uncertainty, other.uncertainty)};
}

double measured_share(struct measured reading)
{
    return reading.uncertainty / reading.amount;
}

double measured_stock_share(double grams, double percent, double balance, double vessel, double graduate)
{
    double weighed = measured_share(measured_in_steps(percent, balance));
    double made_up = measured_share(measured_in_steps(100, vessel));
    double taken = measured_share(measured_in_steps(grams * 100 / percent, graduate));
    return sqrt(weighed * weighed + made_up * made_up + taken * taken);
}
