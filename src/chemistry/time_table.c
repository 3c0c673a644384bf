/* A row of a use's table of times, or what lies between two. */
#include "chemistry/time_table.h"

#include "chemistry/time_temperature.h"

#include <math.h>

static const double degrees_alike = 0.05; /* °C; thermometers show no less */

enum axis { AXIS_SPEED, AXIS_CONTRAST, AXIS_GRADE, AXES };

static double on_axis(const struct time_row *row, enum axis axis)
{
    return axis == AXIS_SPEED ? row->speed : axis == AXIS_CONTRAST ? row->contrast : row->grade;
}

static bool alike(double a, double b)
{
    return (isnan(a) && isnan(b)) || fabs(a - b) <= 1e-6 * fmax(1, fabs(a));
}

static bool same_dilution(const struct time_row *a, const struct time_row *b)
{
    return alike(a->water_parts / a->stock_parts, b->water_parts / b->stock_parts);
}

static bool same_series(const struct time_row *a, const struct time_row *b)
{
    bool same = same_dilution(a, b);
    for (enum axis axis = 0; axis < AXES; axis++) {
        same = same && alike(on_axis(a, axis), on_axis(b, axis));
    }
    return same;
}

bool time_table_stands(const struct use *use)
{
    const struct time_row *first = use->times;
    return first != NULL && (first->next != NULL || !isnan(first->speed) || !isnan(first->contrast) || !isnan(first->grade));
}

/* ---- one series of rows: only their temperatures differ ---- */

static bool at_temperature(const struct time_row *row, double temperature)
{
    double high = isnan(row->temperature_high) ? row->temperature : row->temperature_high;
    return temperature >= row->temperature - degrees_alike && temperature <= high + degrees_alike;
}

/* The nearest row of the series on one side of a temperature; NULL when there is none. */
static const struct time_row *nearest(const struct time_row *head, double temperature, bool above, const struct time_row *but)
{
    const struct time_row *found = NULL;
    for (const struct time_row *row = head; row != NULL; row = row->next) {
        bool there = row != but && same_series(row, head) && !isnan(row->temperature) &&
                     (above ? row->temperature > temperature : row->temperature < temperature);
        if (there && (found == NULL || fabs(row->temperature - temperature) < fabs(found->temperature - temperature))) {
            found = row;
        }
    }
    return found;
}

/* By the coefficient that the times at two temperatures give. */
static double between_temperatures(const struct time_row *a, const struct time_row *b, int end, double temperature)
{
    bool warmer = b->temperature > a->temperature;
    const struct time_row *cold = warmer ? a : b;
    const struct time_row *warm = warmer ? b : a;
    return time_at_temperature(cold->time[end], cold->temperature, temperature, cold->time[end] / warm->time[end],
                               warm->temperature - cold->temperature);
}

static struct time_answer answer_of_series(const struct use *use, const struct time_row *head, double temperature)
{
    struct time_answer answer = {.row = *head, .source = TIME_OF_ROW};
    answer.row.next = NULL;
    if (isnan(temperature)) {
        return answer;
    }
    for (const struct time_row *row = head; row != NULL; row = row->next) {
        if (same_series(row, head) && at_temperature(row, temperature)) {
            answer.row = *row;
            answer.row.next = NULL;
            answer.row.temperature = answer.row.temperature_high = temperature;
            return answer;
        }
    }
    answer.row.temperature = answer.row.temperature_high = temperature;
    const struct time_row *cold = nearest(head, temperature, false, NULL);
    const struct time_row *warm = nearest(head, temperature, true, NULL);
    const struct time_row *near = cold != NULL ? cold : warm;
    const struct time_row *other = cold != NULL && warm != NULL ? warm
                                   : near == NULL               ? NULL
                                                                : nearest(head, temperature, cold == NULL, near);
    answer.beyond = cold == NULL || warm == NULL;
    bool by_coefficient = near != NULL && !isnan(use->coefficient) && answer.beyond;
    answer.source = by_coefficient ? TIME_BY_COEFFICIENT : near == NULL || other == NULL ? TIME_NOT_KNOWN : TIME_BETWEEN;
    for (int end = 0; end < 2; end++) {
        answer.row.time[end] = by_coefficient ? time_at_temperature(near->time[end], near->temperature, temperature, use->coefficient, use->coefficient_per)
                               : answer.source == TIME_BETWEEN ? between_temperatures(near, other, end, temperature)
                                                               : NAN;
    }
    if (by_coefficient && other == NULL) {
        answer.beyond = !time_temperature_holds(near->temperature, temperature);
    }
    return answer;
}

/* ---- the table ---- */

static bool is_head(const struct use *use, const struct time_row *row)
{
    for (const struct time_row *earlier = use->times; earlier != row; earlier = earlier->next) {
        if (same_series(earlier, row)) {
            return false;
        }
    }
    return true;
}

/* What is wanted of the axes that the table has. */
static struct time_row asked_of(const struct use *use, const struct time_row *wanted)
{
    struct time_row asked = *wanted;
    bool states[AXES] = {false};
    for (const struct time_row *row = use->times; row != NULL; row = row->next) {
        for (enum axis axis = 0; axis < AXES; axis++) {
            states[axis] = states[axis] || !isnan(on_axis(row, axis));
        }
    }
    asked.speed = states[AXIS_SPEED] ? asked.speed : NAN;
    asked.contrast = states[AXIS_CONTRAST] ? asked.contrast : NAN;
    asked.grade = states[AXIS_GRADE] ? asked.grade : NAN;
    return asked;
}

/* Whether a row is what is asked for, but for one axis (AXES: for none). */
static bool fits(const struct time_row *row, const struct time_row *asked, enum axis but)
{
    bool fit = isnan(asked->stock_parts) || same_dilution(row, asked);
    for (enum axis axis = 0; axis < AXES; axis++) {
        double wanted = on_axis(asked, axis);
        fit = fit && (axis == but || isnan(wanted) || alike(on_axis(row, axis), wanted));
    }
    return fit;
}

static void add_answer(struct arena *arena, struct time_answer **list, const struct time_answer *answer)
{
    while (*list != NULL) {
        list = &(*list)->next;
    }
    *list = ARENA_NEW(arena, struct time_answer);
    **list = *answer;
}

/* The two series nearest below and above what is asked for on an axis, at the dilution and grade of `like`. */
static void find_neighbours(const struct use *use, const struct time_row *asked, enum axis axis, const struct time_row *like,
                            const struct time_row *found[2])
{
    double wanted = on_axis(asked, axis);
    found[0] = found[1] = NULL;
    for (const struct time_row *row = use->times; row != NULL; row = row->next) {
        double here = on_axis(row, axis);
        if (!fits(row, asked, axis) || !same_dilution(row, like) || !alike(row->grade, like->grade) || isnan(here)) {
            continue;
        }
        int side = here > wanted;
        if (found[side] == NULL || fabs(here - wanted) < fabs(on_axis(found[side], axis) - wanted)) {
            found[side] = row;
        }
    }
}

static double along(double from, double to, double share)
{
    return from + (to - from) * share;
}

static void add_between(struct arena *arena, const struct use *use, const struct time_row *asked, enum axis axis,
                        const struct time_row *like, struct time_answer **list)
{
    const struct time_row *found[2];
    find_neighbours(use, asked, axis, like, found);
    if (found[0] == NULL || found[1] == NULL || found[0] != like) { /* once for each pair, with its lower row */
        return;
    }
    double temperature = isnan(asked->temperature) ? found[0]->temperature : asked->temperature;
    struct time_answer low = answer_of_series(use, found[0], temperature);
    struct time_answer high = answer_of_series(use, found[1], temperature);
    double from = on_axis(found[0], axis), to = on_axis(found[1], axis), wanted = on_axis(asked, axis);
    double share = axis == AXIS_SPEED ? log(wanted / from) / log(to / from) : (wanted - from) / (to - from);
    struct time_answer answer = low;
    answer.source = low.source == TIME_NOT_KNOWN || high.source == TIME_NOT_KNOWN ? TIME_NOT_KNOWN : TIME_BETWEEN;
    answer.beyond = low.beyond || high.beyond;
    answer.row.speed = along(low.row.speed, high.row.speed, share);
    answer.row.contrast = along(low.row.contrast, high.row.contrast, share);
    *(axis == AXIS_SPEED ? &answer.row.speed : &answer.row.contrast) = wanted;
    for (int end = 0; end < 2; end++) {
        answer.row.time[end] = exp(along(log(low.row.time[end]), log(high.row.time[end]), share));
    }
    add_answer(arena, list, &answer);
}

struct time_answer *time_table_find(struct arena *arena, const struct use *use, const struct time_row *wanted)
{
    struct time_row asked = asked_of(use, wanted);
    struct time_answer *list = NULL;
    for (const struct time_row *row = use->times; row != NULL; row = row->next) {
        if (is_head(use, row) && fits(row, &asked, AXES)) {
            struct time_answer answer = answer_of_series(use, row, asked.temperature);
            add_answer(arena, &list, &answer);
        }
    }
    for (enum axis axis = AXIS_SPEED; list == NULL && axis <= AXIS_CONTRAST; axis++) {
        for (const struct time_row *row = use->times; row != NULL && !isnan(on_axis(&asked, axis)); row = row->next) {
            if (is_head(use, row)) {
                add_between(arena, use, &asked, axis, row, &list);
            }
        }
    }
    return list;
}

bool time_row_tried(const struct time_row *row, const struct time_row *trial)
{
    const double reading = 0.02; /* a stop clock in the hand (common practice, no source) */
    bool in_time = trial->time[0] >= row->time[0] * (1 - reading) && trial->time[0] <= row->time[1] * (1 + reading);
    bool diluted = isnan(trial->stock_parts) ? row->ratio == NULL : same_dilution(trial, row);
    bool warm = isnan(trial->temperature) || isnan(row->temperature) || at_temperature(row, trial->temperature);
    return in_time && diluted && warm && alike(trial->speed, row->speed) && alike(trial->contrast, row->contrast) &&
           alike(trial->grade, row->grade);
}
