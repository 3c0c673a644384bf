/* Amounts for the page. */
#include "report/printing.h"

#include "base/number.h"

#include <math.h>

double print_mass_step(const struct report_context *context, double grams)
{
    (void)grams;
    return context->balance;
}

double print_volume_step(const struct report_context *context, double millilitres)
{
    double step = millilitres <= 25 ? 0.1 : millilitres <= 100 ? 0.5 : millilitres < 1000 ? 1 : millilitres < 2000 ? 5 : 10;
    return fmax(step, context->graduate);
}

/* `value` to a multiple of `step`; what would vanish, or be falsified by a tenth, keeps two figures. */
static const char *rounded(struct page *page, double value, double step)
{
    double steps = round(value / step);
    if (steps == 0 || fabs(steps * step - value) > 0.1 * fabs(value)) {
        return number_print_significant(page->arena, value, 2);
    }
    return number_print(page->arena, steps * step, number_decimals_of_step(step));
}

struct text print_mass(const struct report_context *context, struct page *page, double grams)
{
    if (grams >= 10000) {
        return page_format(page, "%s\u00A0kg", rounded(page, grams / 1000, context->balance / 1000));
    }
    return page_format(page, "%s\u00A0g", rounded(page, grams, print_mass_step(context, grams)));
}

struct text print_share(struct page *page, double millilitres, double step)
{
    if (round(millilitres / step) * step >= 1000) {
        return page_format(page, "%s\u00A0L", rounded(page, millilitres / 1000, step / 1000));
    }
    return page_format(page, "%s\u00A0mL", rounded(page, millilitres, step));
}

struct text print_volume(const struct report_context *context, struct page *page, double millilitres)
{
    return print_share(page, millilitres, print_volume_step(context, millilitres));
}

/* A darkroom thermometer is read to half a degree (common practice, no source). */
static double to_half_degree(double celsius)
{
    return round(celsius * 2) / 2;
}

struct text print_temperature(struct page *page, double low, double high)
{
    const char *first = number_print(page->arena, to_half_degree(low), 1);
    if (isnan(high) || to_half_degree(high) <= to_half_degree(low)) {
        return page_format(page, "%s\u00A0°C", first);
    }
    return page_format(page, "%s to %s\u00A0°C", first, number_print(page->arena, to_half_degree(high), 1));
}

struct time_unit {
    double seconds;
    const char *one;
    const char *many;
};

/* Months and years as the library has them: the mean of the Gregorian calendar. */
static const struct time_unit time_units[] = {
    {31556952, "year", "years"}, {2629746, "month", "months"}, {604800, "week", "weeks"}, {86400, "day", "days"},
    {3600, "h", "h"},            {60, "min", "min"},           {1, "s", "s"},
};

static const struct time_unit *unit_for(double seconds)
{
    size_t count = sizeof time_units / sizeof *time_units;
    for (size_t i = 0; i < count; i++) {
        double figure = seconds / time_units[i].seconds;
        bool whole = fabs(figure * 2 - round(figure * 2)) < 1e-6; /* halves are read easily */
        /* Two minutes at least before seconds become minutes: 90 s stays as it is. */
        bool large = figure >= (time_units[i].seconds == 60 ? 2 : 1) - 1e-9;
        if (large && whole) {
            return &time_units[i];
        }
    }
    for (size_t i = 0; i < count; i++) {
        if (seconds / time_units[i].seconds >= 2) {
            return &time_units[i];
        }
    }
    return &time_units[count - 1];
}

struct text print_time(struct page *page, double seconds)
{
    const struct time_unit *unit = unit_for(seconds);
    double figure = seconds / unit->seconds;
    return page_format(page, "%s\u00A0%s", number_print(page->arena, figure, 1), figure > 1 ? unit->many : unit->one);
}

struct text print_time_range(struct page *page, double low, double high)
{
    if (high <= low) {
        return print_time(page, low);
    }
    const struct time_unit *unit = unit_for(low);
    const struct time_unit *other = unit_for(high);
    unit = other->seconds < unit->seconds ? other : unit;
    return page_format(page, "%s to %s\u00A0%s", number_print(page->arena, low / unit->seconds, 1),
                       number_print(page->arena, high / unit->seconds, 1), unit->many);
}

struct text print_keeping(struct page *page, const struct keeping *keeping)
{
    struct text time = print_time(page, keeping->duration);
    return keeping->in.length == 0
               ? time
               : page_format(page, "%.*s in %.*s", TEXT_ARGUMENTS(time), TEXT_ARGUMENTS(keeping->in));
}

struct text print_ratio(struct page *page, double stock, double water)
{
    return page_format(page, "%s+%s", number_print(page->arena, stock, 3), number_print(page->arena, water, 3));
}

struct text print_material(struct page *page, const struct material *material, const struct form *form)
{
    if (form == NULL || form->label.length == 0 || material->form_count < 2) {
        return page_format(page, "%.*s", TEXT_ARGUMENTS(material->name));
    }
    return page_format(page, "%.*s (%.*s)", TEXT_ARGUMENTS(material->name), TEXT_ARGUMENTS(form->label));
}
