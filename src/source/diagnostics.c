/* Collecting diagnostics as records. */
#include "source/diagnostics.h"

#include <stdarg.h>

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

const struct kept_words *diagnostics_words(struct diagnostics *diagnostics, const char *format, va_list arguments)
{
    return words_keep(diagnostics->arena, WORDS_SHOWN + 1, format, arguments);
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

static bool is_silenced(const struct diagnostics *diagnostics, enum diagnostic_id id)
{
    return diagnostics->silenced[id] && diagnostic_registry[id].severity == SEVERITY_WARNING;
}

struct diagnostic *diagnostics_add_list(struct diagnostics *diagnostics, enum diagnostic_id id, struct span span,
                                        const char *format, va_list arguments)
{
    if (is_silenced(diagnostics, id)) {
        return NULL;
    }
    return diagnostics_add_words(diagnostics, id, span, diagnostics_words(diagnostics, format, arguments));
}

struct diagnostic *diagnostics_add_words(struct diagnostics *diagnostics, enum diagnostic_id id, struct span span,
                                         const struct kept_words *message)
{
    if (is_silenced(diagnostics, id)) {
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
    diagnostic->id = (unsigned char)id;
    diagnostic->severity = (unsigned char)diagnostic_registry[id].severity;
    diagnostic->span = span;
    diagnostic->message = message;
    diagnostics->items[diagnostics->count++] = diagnostic;
    diagnostics_know_place(diagnostics);
    if (diagnostic->severity == SEVERITY_ERROR) {
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
    diagnostic->help = diagnostics_words(diagnostics, format, arguments);
    va_end(arguments);
}

bool diagnostics_take_fixes(const struct diagnostics *diagnostics, const struct diagnostic *diagnostic)
{
    return diagnostic != NULL && !diagnostic->without_fixes && !(diagnostics->text_only && diagnostic->help != NULL);
}

/* Unlike a message, what a fix writes is never cut. */
static __attribute__((format(printf, 4, 0))) struct fix *add_fix(struct diagnostics *diagnostics, struct diagnostic *diagnostic,
                                                                 struct span span, const char *format, va_list arguments)
{
    char few[128]; /* most are a figure and its unit: what it took to word them is given back */
    struct arena_mark mark = arena_mark(diagnostics->arena);
    struct buffer out;
    buffer_start(&out, diagnostics->arena);
    words_print(&out, words_keep(diagnostics->arena, SIZE_MAX, format, arguments));
    const char *text = out.length > 0 ? out.bytes : "";
    if (out.length < sizeof few) {
        text = memcpy(few, text, out.length + 1);
        arena_go_back(diagnostics->arena, mark);
    }
    struct fix *fix = arena_allocate(diagnostics->arena, offsetof(struct fix, text) + out.length + 1);
    memcpy(fix->text, text, out.length);
    fix->span = span;
    struct fix **end = &diagnostic->fixes;
    while (*end != NULL) {
        end = &(*end)->next;
    }
    *end = fix;
    return fix;
}

static __attribute__((format(printf, 4, 5))) struct fix *add_fix_of(struct diagnostics *diagnostics, struct diagnostic *diagnostic,
                                                                    struct span span, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    struct fix *fix = add_fix(diagnostics, diagnostic, span, format, arguments);
    va_end(arguments);
    return fix;
}

void diagnostics_fix(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *text,
                     const char *title_format, ...)
{
    if (!diagnostics_take_fixes(diagnostics, diagnostic)) {
        return;
    }
    struct fix *fix = add_fix_of(diagnostics, diagnostic, span, "%s", text);
    va_list arguments;
    va_start(arguments, title_format);
    fix->title = diagnostics_words(diagnostics, title_format, arguments);
    va_end(arguments);
}

static void title_by_text(struct fix *fix, const char *title)
{
    fix->title_of_text = title;
    fix->by_text = true;
}

void diagnostics_fix_writing(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *format, ...)
{
    if (!diagnostics_take_fixes(diagnostics, diagnostic)) {
        return;
    }
    va_list arguments;
    va_start(arguments, format);
    title_by_text(add_fix(diagnostics, diagnostic, span, format, arguments), "write %s");
    va_end(arguments);
}

void diagnostics_fix_as(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *title,
                        const char *format, ...)
{
    if (!diagnostics_take_fixes(diagnostics, diagnostic)) {
        return;
    }
    va_list arguments;
    va_start(arguments, format);
    title_by_text(add_fix(diagnostics, diagnostic, span, format, arguments), title);
    va_end(arguments);
}

void diagnostics_fix_also(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *text)
{
    if (diagnostic != NULL && diagnostic->fixes != NULL) {
        add_fix_of(diagnostics, diagnostic, span, "%s", text)->of_last = true;
    }
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

/* ---- what is made when somebody asks for it ---- */

struct diagnostic_explanation {
    diagnostic_explainer *explainer;
    max_align_t arguments[];
};

void diagnostics_explain_later(struct diagnostics *diagnostics, struct diagnostic *diagnostic, diagnostic_explainer *explainer,
                               const void *arguments, size_t size)
{
    if (diagnostic == NULL) {
        return;
    }
    struct diagnostic_explanation *explanation = arena_allocate(diagnostics->arena, sizeof *explanation + size);
    explanation->explainer = explainer;
    memcpy(explanation->arguments, arguments, size);
    diagnostic->explanation = explanation;
    diagnostic->explained_later = true;
}

struct diagnostic diagnostics_explained(const struct diagnostics *diagnostics, const struct diagnostic *diagnostic)
{
    struct diagnostic explained = *diagnostic;
    if (diagnostic->explained_later) {
        struct diagnostics aside = *diagnostics;
        if (aside.aside != NULL) {
            arena_start_over(aside.aside);
            aside.arena = aside.aside;
        }
        explained.explained_later = false;
        explained.fixes = NULL;
        diagnostic->explanation->explainer(&aside, &explained, diagnostic->explanation->arguments);
    }
    return explained;
}

const char *diagnostic_message(struct arena *arena, const struct diagnostic *diagnostic)
{
    return words_string(arena, diagnostic->message);
}

void diagnostic_print_title(struct buffer *out, const struct fix *fix)
{
    if (!fix->by_text) {
        words_print_short(out, fix->title);
        return;
    }
    const char *place = strstr(fix->title_of_text, "%s");
    if (place == NULL) {
        buffer_string(out, fix->title_of_text);
        return;
    }
    buffer_add(out, fix->title_of_text, (size_t)(place - fix->title_of_text));
    words_add_short(out, text_trim((struct text){fix->text, strlen(fix->text)}));
    buffer_string(out, place + 2);
}
