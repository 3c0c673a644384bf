/* Tidied text out of a session, with the safety net that it goes through before it is given out. */
#include "session/reports.h"

#include "syntax/tidy.h"

#include <stdlib.h>

static const struct syntax_list *next_named(const struct syntax_list *item)
{
    while (item != NULL && !item->file->source->named) {
        item = item->next;
    }
    return item;
}

/* They are asked for one after the other: each is looked for from the last one on. */
static const struct syntax_list *named_file(struct potash *potash, size_t index)
{
    if (potash->named_item == NULL || index < potash->named_index) {
        potash->named_item = next_named(potash->files);
        potash->named_index = 0;
    }
    while (potash->named_item != NULL && potash->named_index < index) {
        potash->named_item = next_named(potash->named_item->next);
        potash->named_index++;
    }
    return potash->named_item;
}

const char *potash_file_name(struct potash *potash, size_t index)
{
    const struct syntax_list *item = named_file(potash, index);
    return item == NULL ? NULL : item->file->source->path;
}

struct potash_output potash_file_text(struct potash *potash, size_t index)
{
    const struct syntax_list *item = named_file(potash, index);
    return item == NULL ? (struct potash_output){0} : (struct potash_output){item->file->source->bytes, item->file->source->length};
}

/* ---- the safety net ---- */

/* A name is kept as it was typed, with the gaps inside it: "full .... bottle". */
static void forget_gaps(json_t *string)
{
    char *text = strdup(json_string_value(string));
    if (text == NULL) {
        return;
    }
    size_t kept = 0;
    for (size_t i = 0; text[i] != '\0'; i++) {
        bool no_break = strncmp(text + i, "\u00A0", 2) == 0;
        bool leader = strncmp(text + i, "\u2026", 3) == 0;
        i += no_break ? 1 : leader ? 2 : 0;
        if (!no_break && !leader && strchr(" \t.", text[i]) == NULL) {
            text[kept++] = text[i];
        }
    }
    text[kept] = '\0';
    json_string_set(string, text);
    free(text);
}

/* Where things stand and how they were spaced may differ; the rest may not. */
static void forget_layout(json_t *json)
{
    if (json_is_string(json)) {
        forget_gaps(json);
        return;
    }
    const char *key;
    json_t *member;
    size_t index;
    if (json_is_object(json)) {
        json_object_del(json, "line");
        json_object_del(json, "as_written");
        json_object_foreach(json, key, member)
        {
            forget_layout(member);
        }
    }
    json_array_foreach(json, index, member)
    {
        forget_layout(member);
    }
}

/* What a checked text means: the formulas that have no errors, and how often each diagnostic was given. */
static json_t *meaning(struct potash *session)
{
    if (SESSION_GUARD(session)) {
        session_out_of_memory(session);
        return NULL;
    }
    session->building = json_array();
    for (const struct formula *formula = session_next(session, NULL); formula != NULL;
         formula = session_next(session, formula)) {
        const struct reckoned_formula *reckoned =
            formula->faulty ? NULL : report_formula_reckon(&session->context, formula, false);
        put_item(&session->building, formula->faulty ? json_null() : report_formula_json(&session->context, report_batch(&session->context, formula), reckoned));
    }
    json_t *counts = json_object();
    for (size_t i = 0; i < session->diagnostics.count; i++) {
        const char *id = diagnostic_registry[session->diagnostics.items[i]->id].name;
        put_member(&counts, id, json_integer(json_integer_value(json_object_get(counts, id)) + 1));
    }
    json_t *json = json_pack("{s:o, s:o}", "formulas", session_built(session), "diagnostics", counts);
    forget_layout(json);
    return json;
}

static enum potash_status read_text(struct potash *session, const struct syntax_list *item, struct text text)
{
    if (SESSION_GUARD(session)) {
        return session_out_of_memory(session);
    }
    return session_read_text(session, item->file->source->path, text, &item->root);
}

/* The meaning of a text that stands in for a file; NULL when it cannot be checked. */
static json_t *meaning_of(const struct potash *outer, bool no_reads, const struct syntax_list *item, struct text text)
{
    struct potash_options options = {
        .library = outer->options.library, .allow_reads = outer->options.allow_reads, .no_reads = no_reads};
    struct potash *session = potash_open(&options);
    if (session == NULL) {
        return NULL;
    }
    bool good = session->message == NULL && read_text(session, item, text) == POTASH_GOOD && session->unread == 0 &&
                potash_check(session) != POTASH_UNUSABLE;
    json_t *json = good ? meaning(session) : NULL;
    potash_close(session);
    return json;
}

static bool means_the_same(const struct potash *potash, const struct syntax_list *item, struct text before, struct text after)
{
    bool same = false;
    /* With what the file reads; without it where that cannot be found. */
    for (int no_reads = 0; no_reads < 2; no_reads++) {
        json_t *one = meaning_of(potash, no_reads, item, before);
        json_t *other = meaning_of(potash, no_reads, item, after);
        same = one != NULL && other != NULL && json_equal(one, other);
        bool compared = one != NULL && other != NULL;
        json_decref(one);
        json_decref(other);
        if (compared) {
            break;
        }
    }
    return same;
}

/* Parses tidied text; NULL when it has errors of syntax. */
static struct syntax_file *parse_again(struct potash *potash, const char *name, struct text text)
{
    struct source_set *sources = ARENA_NEW(&potash->arena, struct source_set);
    source_start(sources, &potash->arena);
    struct diagnostics aside;
    diagnostics_start(&aside, &potash->arena, sources);
    char *bytes = arena_copy(&potash->arena, text.at, text.length);
    struct source_file *source = source_add(sources, name, bytes, text.length, false);
    struct syntax_file *file =
        source == NULL ? NULL : syntax_parse(&potash->arena, &potash->names, &aside, source, false);
    for (size_t i = 0; i < aside.count; i++) {
        if (aside.items[i]->id == DIAG_SYNTAX || aside.items[i]->id == DIAG_TEXT_ENCODING) {
            return NULL;
        }
    }
    return file;
}

enum potash_status potash_tidy(struct potash *potash, size_t index, bool *tidy, struct potash_output *output)
{
    if (potash->message != NULL) {
        return POTASH_UNUSABLE;
    }
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    const struct syntax_list *item = named_file(potash, index);
    if (item == NULL) {
        return session_unusable(potash, "there are not so many files to tidy");
    }
    const struct syntax_file *file = item->file;
    const char *name = file->source->name;
    if (file->source->faults > 0) {
        return POTASH_FAULTY;
    }
    struct text before = {file->source->bytes, file->source->length};
    struct text after = tidy_text(&potash->arena, &potash->names, file);
    const struct syntax_file *again = parse_again(potash, name, after);
    bool good = again != NULL && tidy_same(&potash->arena, &potash->names, file, again) &&
                text_equal(after, tidy_text(&potash->arena, &potash->names, again));
    *tidy = text_equal(before, after);
    if (!good || (!*tidy && !means_the_same(potash, item, before, after))) {
        return session_unusable(potash,
                                "%s: internal error: the tidied text would not say the same, so it is held back", name);
    }
    *output = (struct potash_output){after.at, after.length};
    return POTASH_GOOD;
}
