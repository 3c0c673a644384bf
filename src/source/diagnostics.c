/* Collecting diagnostics and putting them in order. */
#include "source/diagnostics.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

const struct diagnostic_entry diagnostic_registry[DIAGNOSTIC_IDS] = {
#define DIAGNOSTIC(symbol, name, severity, summary, why, wrong, right) {name, severity, summary, why, wrong, right},
#include "source/registry.def"
#undef DIAGNOSTIC
};

enum diagnostic_id diagnostic_find(struct text name)
{
    for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
        if (text_is(name, diagnostic_registry[id].name)) {
            return (enum diagnostic_id)id;
        }
    }
    return DIAGNOSTIC_IDS;
}

void diagnostics_start(struct diagnostics *diagnostics, struct arena *arena, const struct source_set *sources)
{
    *diagnostics = (struct diagnostics){.arena = arena, .sources = sources};
}

enum { LONGEST_MESSAGE = 600 /* bytes */ };

static char *format_text(struct arena *arena, const char *format, va_list arguments)
{
    char *text = arena_format_list(arena, format, arguments);
    /* A word of the text may be as long as the file; nobody reads that in a message. */
    if (strlen(text) > LONGEST_MESSAGE) {
        size_t end = LONGEST_MESSAGE;
        while (((unsigned char)text[end] & 0xC0) == 0x80) {
            end--;
        }
        strcpy(text + end, "…");
    }
    return text;
}

struct diagnostic *diagnostics_add(struct diagnostics *diagnostics, enum diagnostic_id id, struct span span,
                                   const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    struct diagnostic *diagnostic = diagnostics_add_list(diagnostics, id, span, format, arguments);
    va_end(arguments);
    return diagnostic;
}

struct diagnostic *diagnostics_add_list(struct diagnostics *diagnostics, enum diagnostic_id id, struct span span,
                                        const char *format, va_list arguments)
{
    enum severity severity = diagnostic_registry[id].severity;
    if (diagnostics->silenced[id] && severity == SEVERITY_WARNING) {
        return NULL;
    }
    if (diagnostics->count == diagnostics->capacity) {
        size_t capacity = diagnostics->capacity == 0 ? 32 : diagnostics->capacity * 2;
        struct diagnostic **items = ARENA_ARRAY(diagnostics->arena, struct diagnostic *, capacity);
        if (diagnostics->count > 0) {
            memcpy(items, diagnostics->items, diagnostics->count * sizeof *items);
        }
        diagnostics->items = items;
        diagnostics->capacity = capacity;
    }
    struct diagnostic *diagnostic = ARENA_NEW(diagnostics->arena, struct diagnostic);
    diagnostic->id = id;
    diagnostic->severity = severity;
    diagnostic->span = span;
    diagnostic->sequence = (uint32_t)diagnostics->count;
    diagnostic->message = format_text(diagnostics->arena, format, arguments);
    diagnostics->items[diagnostics->count++] = diagnostic;
    if (severity == SEVERITY_ERROR) {
        diagnostics->errors++;
    } else {
        diagnostics->warnings++;
    }
    return diagnostic;
}

void diagnostics_help(struct diagnostics *diagnostics, struct diagnostic *diagnostic, const char *format, ...)
{
    if (diagnostic == NULL) {
        return;
    }
    va_list arguments;
    va_start(arguments, format);
    diagnostic->help = format_text(diagnostics->arena, format, arguments);
    va_end(arguments);
}

void diagnostics_fix(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *text,
                     const char *title_format, ...)
{
    if (diagnostic == NULL || diagnostic->without_fixes) {
        return;
    }
    struct fix *fix = ARENA_NEW(diagnostics->arena, struct fix);
    va_list arguments;
    va_start(arguments, title_format);
    fix->title = format_text(diagnostics->arena, title_format, arguments);
    va_end(arguments);
    fix->span = span;
    fix->text = text;
    struct fix **end = &diagnostic->fixes;
    while (*end != NULL) {
        end = &(*end)->next;
    }
    *end = fix;
}

void diagnostics_fix_writing(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *text = format_text(diagnostics->arena, format, arguments);
    va_end(arguments);
    diagnostics_fix(diagnostics, diagnostic, span, text, "write %.*s", TEXT_ARGUMENTS(text_trim(text_from(text))));
}

void diagnostics_fix_also(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *text)
{
    struct fix *last = diagnostic == NULL ? NULL : diagnostic->fixes;
    if (last == NULL) {
        return;
    }
    while (last->next != NULL) {
        last = last->next;
    }
    while (last->also != NULL) {
        last = last->also;
    }
    last->also = ARENA_NEW(diagnostics->arena, struct fix);
    last->also->span = span;
    last->also->text = text;
}

void diagnostics_relate(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span,
                        const char *message)
{
    if (diagnostic == NULL) {
        return;
    }
    struct related *related = ARENA_NEW(diagnostics->arena, struct related);
    related->span = span;
    related->message = message;
    related->next = diagnostic->related;
    diagnostic->related = related;
}

void diagnostics_count_strictly(struct diagnostics *diagnostics)
{
    for (size_t i = 0; i < diagnostics->count; i++) {
        diagnostics->items[i]->severity = SEVERITY_ERROR;
    }
    diagnostics->errors += diagnostics->warnings;
    diagnostics->warnings = 0;
}

static int compare_places(const void *a, const void *b)
{
    const struct diagnostic *first = *(struct diagnostic *const *)a;
    const struct diagnostic *second = *(struct diagnostic *const *)b;
    if (first->span.begin != second->span.begin) {
        return first->span.begin < second->span.begin ? -1 : 1;
    }
    return first->sequence < second->sequence ? -1 : first->sequence > second->sequence;
}

/* It is not said after all. */
static void count_out(struct diagnostics *diagnostics, const struct diagnostic *item)
{
    if (item->severity == SEVERITY_ERROR) {
        diagnostics->errors--;
    } else {
        diagnostics->warnings--;
    }
}

void diagnostics_leave_out_unknown_names(struct diagnostics *diagnostics)
{
    size_t kept = 0;
    for (size_t i = 0; i < diagnostics->count; i++) {
        struct diagnostic *item = diagnostics->items[i];
        switch (item->id) {
        case DIAG_MATERIAL_UNKNOWN:
        case DIAG_FORM_UNKNOWN:
        case DIAG_UNIT_UNKNOWN:
        case DIAG_FORMULA_UNKNOWN:
            count_out(diagnostics, item);
            break;
        default:
            diagnostics->items[kept++] = item;
            break;
        }
    }
    diagnostics->count = kept;
}

/* A byte that is no text breaks its word, and with it whatever would be said of that word. */
static void keep_encoding_faults_alone(struct diagnostics *diagnostics)
{
    size_t kept = 0;
    struct place last_fault = {0};
    for (size_t i = 0; i < diagnostics->count; i++) {
        if (diagnostics->items[i]->id == DIAG_TEXT_ENCODING) {
            last_fault.line = 1;
        }
    }
    if (last_fault.line == 0) {
        return;
    }
    /* Lines with a fault, in order. */
    struct place *faults = ARENA_ARRAY(diagnostics->arena, struct place, diagnostics->count);
    size_t fault_count = 0;
    for (size_t i = 0; i < diagnostics->count; i++) {
        if (diagnostics->items[i]->id == DIAG_TEXT_ENCODING) {
            faults[fault_count++] = source_place(diagnostics->sources, diagnostics->items[i]->span.begin);
        }
    }
    size_t next = 0;
    for (size_t i = 0; i < diagnostics->count; i++) {
        struct diagnostic *item = diagnostics->items[i];
        struct place place = source_place(diagnostics->sources, item->span.begin);
        while (next < fault_count && (faults[next].file->base < place.file->base ||
                                      (faults[next].file == place.file && faults[next].line < place.line))) {
            next++;
        }
        bool on_fault_line = next < fault_count && faults[next].file == place.file && faults[next].line == place.line;
        if (on_fault_line && item->id != DIAG_TEXT_ENCODING) {
            count_out(diagnostics, item);
            continue;
        }
        diagnostics->items[kept++] = item;
    }
    diagnostics->count = kept;
}

void diagnostics_finish(struct diagnostics *diagnostics)
{
    if (diagnostics->count == 0) {
        return;
    }
    qsort(diagnostics->items, diagnostics->count, sizeof *diagnostics->items, compare_places);
    keep_encoding_faults_alone(diagnostics);
}
