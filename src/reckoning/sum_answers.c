/* Answers: figures, words and what is said beside them. */
#include "reckoning/sums.h"

#include "base/number.h"

#include <stdarg.h>
#include <stdio.h>

void answer_add(struct reckoner *reckoner, double value, const char *unit, const char *what)
{
    struct answer_item *item = ARENA_NEW(reckoner->arena, struct answer_item);
    *item = (struct answer_item){.value = value, .unit = unit, .what = what};
    struct answer *answer = reckoner->answer;
    if (answer->last == NULL) {
        answer->items = item;
    } else {
        answer->last->next = item;
    }
    answer->last = item;
}

void answer_add_amount(struct reckoner *reckoner, double value, enum dimension dimension, const char *what)
{
    answer_add(reckoner, value, dimension == DIMENSION_MASS ? "g" : "mL", what);
}

const char *answer_format(struct reckoner *reckoner, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *text = arena_format_list(reckoner->arena, format, arguments);
    va_end(arguments);
    return text;
}

void answer_note(struct reckoner *reckoner, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *text = arena_format_list(reckoner->arena, format, arguments);
    va_end(arguments);
    struct answer *answer = reckoner->answer;
    for (const struct answer_note *note = answer->notes; note != NULL; note = note->next) {
        if (strcmp(note->text, text) == 0) {
            return;
        }
    }
    struct answer_note *note = ARENA_NEW(reckoner->arena, struct answer_note);
    note->text = text;
    if (answer->last_note == NULL) {
        answer->notes = note;
    } else {
        answer->last_note->next = note;
    }
    answer->last_note = note;
}

const char *answer_number(struct reckoner *reckoner, double value)
{
    return number_print_significant(reckoner->arena, value, 4);
}

/* To `decimals` places of the bench and four figures at most; three figures where that would falsify it. */
static const char *bench_number(struct reckoner *reckoner, double value, int decimals)
{
    double size = fabs(value);
    int figures = size > 0 ? 3 - (int)floor(log10(size)) : decimals;
    int places = figures < decimals ? (figures < 0 ? 0 : figures) : decimals;
    double scale = pow(10, places);
    if (fabs(round(value * scale) / scale - value) > 0.01 * size) {
        return number_print_significant(reckoner->arena, value, 3);
    }
    return number_print(reckoner->arena, value, places);
}

const char *answer_amount(struct reckoner *reckoner, double value, enum dimension dimension)
{
    bool mass = dimension == DIMENSION_MASS;
    double large = mass ? 10000 : 1000; /* g are read up to 10 kg, mL up to 1 L */
    if (value >= large * (1 - 1e-9)) {
        return arena_format(reckoner->arena, "%s %s", answer_number(reckoner, value / 1000), mass ? "kg" : "L");
    }
    return arena_format(reckoner->arena, "%s %s", bench_number(reckoner, value, mass ? 2 : 1), mass ? "g" : "mL");
}

const char *answer_own_amount(struct reckoner *reckoner, double value, enum dimension dimension)
{
    const char *metric = answer_amount(reckoner, value, dimension);
    const struct own_unit *own = dimension == DIMENSION_MASS ? &reckoner->own_mass : &reckoner->own_volume;
    if (own->factor == 0) {
        return metric;
    }
    return arena_format(reckoner->arena, "%s (%s %s)", metric, answer_number(reckoner, value / own->factor), own->name);
}

const char *answer_material(struct reckoner *reckoner, const struct material *material, const struct form *form)
{
    if (form == NULL || form->label.length == 0 || material->form_count < 2) {
        return arena_format(reckoner->arena, "%.*s", TEXT_ARGUMENTS(material->name));
    }
    return arena_format(reckoner->arena, "%.*s (%.*s)", TEXT_ARGUMENTS(material->name), TEXT_ARGUMENTS(form->label));
}

const char *answer_percent(struct reckoner *reckoner, const struct strength *strength)
{
    static const char *const bases[] = {"", " w/v", " w/w", " v/v"};
    return answer_format(reckoner, "%s %%%s", number_print_significant(reckoner->arena, strength->percent, 6),
                         bases[strength->basis]);
}
