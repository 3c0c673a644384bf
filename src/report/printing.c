/* Amounts for the page. */
#include "report/printing.h"

#include "base/calendar.h"
#include "base/number.h"
#include "chemistry/measuring.h"

#include <math.h>

/* `value` to a multiple of `step`; what would vanish, or be falsified by a tenth, keeps two figures. */
static const char *rounded(struct page *page, double value, double step)
{
    double steps = round(value / step * (1 + 1e-12)); /* halves go up whatever the sum that gave them */
    if (steps == 0 || fabs(steps * step - value) > 0.1 * fabs(value)) {
        return number_print_significant(page->arena, value, 2);
    }
    return number_print(page->arena, steps * step, number_decimals_of_step(step));
}

struct text print_mass(const struct report_context *context, struct page *page, double grams)
{
    if (grams >= PRINT_HEAVY) {
        return page_format(page, "%s\u00A0kg", rounded(page, grams / 1000, context->scales.balance / 1000));
    }
    return page_format(page, "%s\u00A0g", rounded(page, grams, context->scales.balance));
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
    return print_share(page, millilitres, scales_volume_step(&context->scales, millilitres));
}

/* What stands behind the figure, the space before it included. */
static struct text unit_of(struct text amount)
{
    size_t figure = strspn(amount.at, "0123456789.");
    return (struct text){amount.at + figure, amount.length - figure};
}

/* "6.5 to 7.8 g", "900 mL to 1.1 L". */
static struct text range(struct page *page, struct text low, struct text high)
{
    struct text unit = unit_of(low);
    if (text_equal(unit, unit_of(high))) {
        low.length -= unit.length;
    }
    return page_format(page, "%.*s to %.*s", TEXT_ARGUMENTS(low), TEXT_ARGUMENTS(high));
}

double print_reading_bound(double standard)
{
    return standard * sqrt(3);
}

static struct text print_error(struct page *page, double share)
{
    const char *figure = number_print_significant(page->arena, share * 100, share < 0.01 ? 1 : 2);
    return share < 0.001 ? TEXT("<0.1\u00A0%") : page_format(page, "±%s\u00A0%%", figure);
}

static struct text print_way(const struct report_context *context, struct page *page, enum page_figure_way way, double value)
{
    switch (way) {
    case PAGE_FIGURE_MASS:
        return print_mass(context, page, value);
    case PAGE_FIGURE_VOLUME:
        return print_volume(context, page, value);
    case PAGE_FIGURE_COUNT: /* half a sheet is none */
        return text_from(number_print(page->arena, floor(value + 1e-9), 0));
    case PAGE_FIGURE_MASS_ERROR:
        return print_error(page, reading_bound(value, context->scales.balance));
    case PAGE_FIGURE_VOLUME_ERROR:
        return print_error(page, reading_bound(value, scales_volume_step(&context->scales, value)));
    case PAGE_FIGURE_ADDEND:
    case PAGE_FIGURE_SUM:
    case PAGE_FIGURE_TIMES:
    default:
        return text_from(number_print_significant(page->arena, value, 4));
    }
}

struct page_words print_figure(const struct report_context *context, struct page *page, enum page_figure_way way, double number,
                         double high, double scale)
{
    struct text printed = print_way(context, page, way, number * scale);
    if (high > number) {
        printed = range(page, printed, print_way(context, page, way, high * scale));
    } else {
        high = 0;
    }
    return page_figure(page->arena, way, number, high, printed);
}

/* What a printed weight says, g, and to how many decimal places of a gram. */
static double printed_grams(struct text printed, int *decimals)
{
    double digits = 0;
    int places = 0;
    bool behind = false;
    size_t at = 0;
    for (; at < printed.length && strchr("0123456789.", printed.at[at]) != NULL; at++) {
        behind = behind || printed.at[at] == '.';
        places += behind && printed.at[at] != '.';
        digits = printed.at[at] == '.' ? digits : digits * 10 + (printed.at[at] - '0');
    }
    bool heavy = printed.at[printed.length - 2] == 'k'; /* kg */
    *decimals = heavy ? places - 3 : places;
    return digits / pow(10, places) * (heavy ? 1000 : 1);
}

void print_sum_add(const struct report_context *context, struct page *page, struct print_sum *sum, double number, double high, double scale)
{
    int decimals;
    double low = printed_grams(print_mass(context, page, number * scale), &decimals);
    sum->low += low;
    sum->decimals = decimals > sum->decimals ? decimals : sum->decimals;
    sum->high += high > number ? printed_grams(print_mass(context, page, high * scale), &decimals) : low;
    sum->decimals = decimals > sum->decimals ? decimals : sum->decimals;
    sum->words = page_compose(page, "{}{}", sum->words, page_figure(page->arena, PAGE_FIGURE_ADDEND, number, high > number ? high : 0, TEXT("")));
}

static struct text sum_in_words(struct page *page, double grams, int decimals)
{
    return grams >= PRINT_HEAVY ? page_format(page, "%s\u00A0kg", number_print(page->arena, grams / 1000, decimals + 3))
                                : page_format(page, "%s\u00A0g", number_print(page->arena, grams, decimals));
}

struct page_words print_sum(struct page *page, struct print_sum *sum)
{
    struct text printed = sum_in_words(page, sum->low, sum->decimals);
    if (sum->high > sum->low) {
        printed = range(page, printed, sum_in_words(page, sum->high, sum->decimals));
    }
    return page_compose(page, "{}{}", sum->words, page_figure(page->arena, PAGE_FIGURE_SUM, 0, 0, printed));
}

/* A darkroom thermometer is read to half a degree (common practice, no source). */
static double to_half_degree(double celsius)
{
    return round(celsius * 2) / 2;
}

struct text print_written(struct page *page, struct text written)
{
    struct buffer out;
    buffer_start(&out, page->arena);
    bool blank = true; /* also before the first character */
    for (size_t at = 0; at < written.length; at++) {
        bool leader = written.at[at] == '.' && ((at + 1 < written.length && written.at[at + 1] == '.') ||
                                                (at > 0 && written.at[at - 1] == '.'));
        char shown = leader || written.at[at] == '\t' ? ' ' : written.at[at];
        if (shown != ' ' || !blank) {
            buffer_character(&out, shown);
        }
        blank = shown == ' ';
    }
    return text_trim(text_from(buffer_finish(&out)));
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

static const struct time_unit time_units[] = {
    {12 * CALENDAR_MEAN_MONTH, "year", "years"}, {CALENDAR_MEAN_MONTH, "month", "months"}, {604800, "week", "weeks"}, {86400, "day", "days"},
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

struct text print_minutes(struct page *page, double seconds)
{
    if (seconds < 120) {
        return page_format(page, "%s\u00A0s", number_print(page->arena, seconds, 0));
    }
    long whole = lround(seconds / 5) * 5;
    return whole % 60 == 0 ? page_format(page, "%ld\u00A0min", whole / 60)
                           : page_format(page, "%ld\u00A0min %ld\u00A0s", whole / 60, whole % 60);
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

void print_conditions(struct page *page, const struct time_row *row, bool dilution, struct buffer *out)
{
    const char *const names[] = {"speed", "contrast", "grade"};
    const double figures[] = {row->speed, row->contrast, row->grade};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        if (!isnan(figures[i])) {
            buffer_format(out, "%s%s\u00A0%s", out->length == 0 ? "" : ", ", names[i], number_print(page->arena, figures[i], 2));
        }
    }
    if (dilution && !isnan(row->stock_parts)) {
        buffer_format(out, "%sdiluted %.*s", out->length == 0 ? "" : ", ",
                      TEXT_ARGUMENTS(print_ratio(page, row->stock_parts, row->water_parts)));
    }
}

struct text print_time_row(struct page *page, const struct time_row *row)
{
    struct buffer out;
    buffer_start(&out, page->arena);
    if (!isnan(row->time[0])) {
        buffer_text(&out, print_time_range(page, row->time[0], row->time[1]));
    }
    if (!isnan(row->temperature)) {
        buffer_format(&out, "%sat %.*s", out.length == 0 ? "" : " ", TEXT_ARGUMENTS(print_temperature(page, row->temperature, row->temperature_high)));
    }
    print_conditions(page, row, row->ratio != NULL, &out);
    return (struct text){buffer_finish(&out), out.length};
}

struct text print_material(struct page *page, const struct material *material, const struct form *form)
{
    if (form == NULL || form->label.length == 0 || material->form_count < 2) {
        return page_format(page, "%.*s", TEXT_ARGUMENTS(material->name));
    }
    return page_format(page, "%.*s (%.*s)", TEXT_ARGUMENTS(material->name), TEXT_ARGUMENTS(form->label));
}

void report_caution(struct page *page)
{
    page_set_caution(page, TEXT("Check the supplier's safety data sheet before you open a bottle. Local rules and licensed "
                                "professionals come first. Figures marked estimate are estimates."));
}
