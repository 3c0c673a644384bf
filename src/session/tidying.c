/* Tidied text out of a session, with the safety net that it goes through before it is given out. */
#include "session/reports.h"

#include "formula/fingerprint.h"
#include "syntax/tidy.h"

#include <nettle/sha2.h>

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

/* What a checked text means: a digest of all that its formulas say, and how often each diagnostic was given. */
struct meaning {
    struct arena *arena;
    struct buffer text;              /* of one formula after the other */
    struct sha256_ctx formulas;
    uint8_t digest[SHA256_DIGEST_SIZE];
    size_t diagnostics[DIAGNOSTIC_IDS];
};

static void add_formula(void *context, const struct formula *formula)
{
    struct meaning *meaning = context;
    if (meaning->text.arena == NULL) {
        buffer_start(&meaning->text, meaning->arena);
    }
    meaning->text.length = 0;
    formula_meaning_text(&meaning->text, formula);
    sha256_update(&meaning->formulas, meaning->text.length, (const uint8_t *)meaning->text.bytes);
}

static enum potash_status read_text(struct potash *session, const struct syntax_list *item, struct text text)
{
    if (SESSION_GUARD(session)) {
        return session_out_of_memory(session);
    }
    return session_read_text(session, item->file->source->path, text, &item->root);
}

/* The meaning of a text that stands in for a file; false when it cannot be checked. */
static bool meaning_of(const struct potash *outer, bool no_reads, const struct syntax_list *item, struct text text, struct meaning *meaning)
{
    struct potash_options options = {.library = outer->options.library,
                                     .allow_reads = outer->options.allow_reads,
                                     .no_reads = no_reads,
                                     .diagnostics_only = true,
                                     .diagnostics_as_text = true};
    struct potash *session = potash_open(&options);
    if (session == NULL) {
        return false;
    }
    *meaning = (struct meaning){.arena = &session->arena};
    sha256_init(&meaning->formulas);
    session->whole = true; /* each formula is looked at once, in the order of the file */
    session->look_at = add_formula;
    session->look_at_context = meaning;
    bool good = session->message == NULL && read_text(session, item, text) == POTASH_GOOD && session->unread == 0 &&
                potash_check(session) != POTASH_UNUSABLE;
    sha256_digest(&meaning->formulas, sizeof meaning->digest, meaning->digest);
    for (size_t i = 0; i < session->diagnostics.count; i++) {
        meaning->diagnostics[session->diagnostics.items[i]->id]++;
    }
    potash_close(session);
    return good;
}

/* ---- lines in other words ---- */

static int by_place(const void *a, const void *b)
{
    const struct line_read *const *one = a;
    const struct line_read *const *other = b;
    return (*one)->typed.begin < (*other)->typed.begin ? -1 : 1;
}

/* The text with the lines of the notation in the place of those that a session has read by wordings; what was said of these is withdrawn. */
static struct text put_lines_in(struct potash *potash, const struct source_file *file, const struct potash *session)
{
    struct arena *arena = &potash->arena;
    uint32_t base = session->files->file->source->base;
    size_t count = 0;
    for (const struct line_read *line = session->formulary.read_lines; line != NULL; line = line->next) {
        count++;
    }
    const struct line_read **lines = ARENA_ARRAY(arena, const struct line_read *, count + 1);
    count = 0;
    for (const struct line_read *line = session->formulary.read_lines; line != NULL; line = line->next) {
        bool here = line->typed.begin >= base && line->typed.end <= base + file->length; /* of the files that it reads nothing is changed */
        lines[count] = line;
        count += here;
    }
    qsort(lines, count, sizeof *lines, by_place);
    struct buffer out;
    buffer_start(&out, arena);
    size_t at = 0;
    for (size_t i = 0; i < count; i++) {
        struct span typed = {lines[i]->typed.begin - base, lines[i]->typed.end - base};
        buffer_add(&out, file->bytes + at, typed.begin - at);
        buffer_string(&out, lines[i]->text);
        at = typed.end;
        diagnostics_withdraw(&potash->diagnostics, (struct span){file->base + typed.begin, file->base + typed.end + 1});
    }
    buffer_add(&out, file->bytes + at, file->length - at);
    return (struct text){buffer_finish(&out), out.length};
}

/* The file without lines in other words.  Which are some is known once it is checked. */
static struct text in_words_of_the_notation(struct potash *potash, const struct syntax_list *item)
{
    const struct source_file *file = item->file->source;
    struct text text = {file->bytes, file->length};
    struct potash_options options = {.library = potash->options.library, .allow_reads = potash->options.allow_reads, .diagnostics_only = true, .diagnostics_as_text = true};
    struct potash *const session = potash_open(&options);
    if (session == NULL) {
        return text;
    }
    session->whole = true;
    bool checked = session->message == NULL && read_text(session, item, text) == POTASH_GOOD && potash_check(session) != POTASH_UNUSABLE;
    if (!checked || session->formulary.read_lines == NULL) {
        potash_close(session);
        return text;
    }
    jmp_buf *outer = potash->arena.on_failure;
    jmp_buf here;
    if (setjmp(here) != 0) {
        potash->arena.on_failure = outer;
        potash_close(session);
        longjmp(*outer, 1);
    }
    potash->arena.on_failure = &here;
    struct text whole = put_lines_in(potash, file, session);
    potash->arena.on_failure = outer;
    potash_close(session);
    return whole;
}

static bool means_the_same(const struct potash *potash, const struct syntax_list *item, struct text before, struct text after)
{
    /* With what the file reads; without it where that cannot be found. */
    for (int no_reads = 0; no_reads < 2; no_reads++) {
        struct meaning one;
        struct meaning other;
        if (meaning_of(potash, no_reads, item, before, &one) && meaning_of(potash, no_reads, item, after, &other)) {
            return memcmp(one.digest, other.digest, sizeof one.digest) == 0 &&
                   memcmp(one.diagnostics, other.diagnostics, sizeof one.diagnostics) == 0;
        }
    }
    return false;
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
    struct text typed = {file->source->bytes, file->source->length};
    struct text before = in_words_of_the_notation(potash, item);
    if (file->source->faults > 0) {
        return POTASH_FAULTY;
    }
    if (before.at != typed.at) {
        file = parse_again(potash, name, before);
    }
    struct arena *scratch = &potash->forms; /* in which no form is kept between two calls */
    scratch->on_failure = potash->arena.on_failure;
    scratch->limit = potash->arena.limit;
    scratch->fail_after = potash->arena.fail_after;
    struct text after = file == NULL ? before : tidy_text(&potash->arena, scratch, &potash->names, file);
    const struct syntax_file *again = parse_again(potash, name, after);
    bool good = file != NULL && again != NULL && tidy_same(scratch, &potash->names, file, again) &&
                text_equal(after, tidy_text(&potash->arena, scratch, &potash->names, again));
    *tidy = text_equal(typed, after);
    if (!good || (!*tidy && !means_the_same(potash, item, typed, after))) {
        return session_unusable(potash,
                                "%s: internal error: the tidied text would not say the same, so it is held back", name);
    }
    *output = (struct potash_output){after.at, after.length};
    return POTASH_GOOD;
}
