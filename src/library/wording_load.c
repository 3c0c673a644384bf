/* Compiles `wording` declarations: patterns into one graph whose edges are words and captures, meanings into pieces.  What a wording
 * captures must all be in what it means, and that must be lines of the notation. */
#include "library/entries.h"
#include "library/tables.h"
#include "library/wording_parts.h"

/* Each kind of capture, with an example of it, and a line that shows whether a wording in the kind means one (%s). */
static const struct {
    const char *name;
    const char *example;
    const char *line;
} kinds[CAPTURE_KINDS] = {
    [CAPTURE_NUMBER] = {"number", "2", "part %s"},
    [CAPTURE_AMOUNT] = {"amount", "5 g", "borax %s"},
    [CAPTURE_VOLUME] = {"volume", "5 mL", "borax %s"},
    [CAPTURE_RATIO] = {"ratio", "1+2", "dilute %s"},
    [CAPTURE_TIME] = {"time", "5 min", "time %s"},
    [CAPTURE_TEMPERATURE] = {"temperature", "20 °C", "temperature %s"},
    [CAPTURE_MATERIAL] = {"material", "borax", "%s 5 g"},
    [CAPTURE_FORM] = {"form", "dry", "borax (%s) 5 g"},
    [CAPTURE_PART] = {"part", "A", "part %s"},
    [CAPTURE_GOODS] = {"goods", "5 rolls", "capacity %s per L"},
    [CAPTURE_SIZE] = {"size", "8x10 in", "capacity 1 sheet %s per L"},
    [CAPTURE_ROMAN] = {"roman", "2", "part %s"},
    [CAPTURE_PURPOSE] = {"purpose", "film", "use for %s"},
    [CAPTURE_VESSEL] = {"vessel", "tray", "keeps 1 h in %s"},
    [CAPTURE_DILUTION] = {"dilution", "1+2", "dilute %s"},
    [CAPTURE_SHARE] = {"share", "A 1", "mix %s + B 1"},
    [CAPTURE_WORDS] = {"words", "words", "note \"%s\""},
    [CAPTURE_TEXT] = {"text", "words", "note \"%s\""},
    [CAPTURE_LINE] = {"line", "words", "note \"%s\""},
};

/* ---- a pattern ---- */

struct compiler {
    struct library *library;
    struct wording_set *set;
    const struct declaration *declaration;
    struct wording *wording;
    struct text rest;                /* of the pattern, or of a meaning */
    const struct name *captures[16]; /* those of the pattern */
    size_t capture_count;
    bool check;                      /* mistakes are reported */
    bool faulty;
};

static void say(struct compiler *compiler, struct span span, const char *what, struct text which)
{
    if (!compiler->faulty && compiler->check) {
        struct diagnostic *diagnostic = diagnostics_add(compiler->library->diagnostics, DIAG_SYNTAX, span, "%s: \"%.*s\"", what, TEXT_ARGUMENTS(which));
        diagnostics_help(compiler->library->diagnostics, diagnostic, "a wording is as in: wording \"soak for {time}\", and below it: means time {time}");
    }
    compiler->faulty = true;
}

static struct wording_node *new_node(struct compiler *compiler)
{
    struct wording_node *node = ARENA_NEW(compiler->library->arena, struct wording_node);
    node->number = compiler->set->nodes++;
    return node;
}

static struct wording_edge *add_edge(struct compiler *compiler, struct wording_node *from, struct wording_node *to)
{
    struct wording_edge *edge = ARENA_NEW(compiler->library->arena, struct wording_edge);
    edge->to = to;
    struct wording_edge **end = &from->edges;
    while (*end != NULL) {
        end = &(*end)->next;
    }
    *end = edge;
    return edge;
}

/* The edge with a word or a capture that leads on from a node: the same for all patterns that begin alike. */
static struct wording_node *step(struct compiler *compiler, struct wording_node *from, const struct name *word, struct capture capture)
{
    for (struct wording_edge *edge = from->edges; edge != NULL; edge = edge->next) {
        bool same = edge->word == word && edge->capture.name == capture.name && edge->capture.kind == capture.kind;
        if (same && (word != NULL || capture.name != NULL)) {
            return edge->to;
        }
    }
    struct wording_edge *edge = add_edge(compiler, from, new_node(compiler));
    edge->word = word;
    edge->capture = capture;
    return edge->to;
}

static bool take(struct compiler *compiler, char c)
{
    struct text *rest = &compiler->rest;
    while (rest->length > 0 && rest->at[0] == ' ') {
        rest->at++;
        rest->length--;
    }
    bool there = rest->length > 0 && rest->at[0] == c;
    rest->at += there;
    rest->length -= there;
    return there;
}

/* `{time low}`, behind its brace. */
static struct capture read_capture(struct compiler *compiler)
{
    struct capture capture = {.kind = CAPTURE_KINDS};
    const char *close = memchr(compiler->rest.at, '}', compiler->rest.length);
    struct text name = {compiler->rest.at, close == NULL ? compiler->rest.length : (size_t)(close - compiler->rest.at)};
    size_t length = close == NULL ? name.length : name.length + 1;
    compiler->rest = (struct text){name.at + length, compiler->rest.length - length};
    const char *blank = memchr(name.at, ' ', name.length);
    struct text kind = {name.at, blank == NULL ? name.length : (size_t)(blank - name.at)};
    if (blank != NULL) { /* however wide the gap is */
        struct text other = text_trim((struct text){blank, name.length - kind.length});
        name = text_from(arena_format(compiler->library->arena, "%.*s %.*s", TEXT_ARGUMENTS(kind), TEXT_ARGUMENTS(other)));
    }
    for (enum capture_kind i = 0; i < CAPTURE_KINDS; i++) {
        if (text_is(kind, kinds[i].name)) {
            capture = (struct capture){i, names_find(compiler->library->names, name)};
        }
    }
    if (capture.kind == CAPTURE_KINDS) {
        say(compiler, compiler->declaration->title_span, "no kind of capture is called so", kind);
    }
    return capture;
}

static void note_capture(struct compiler *compiler, struct capture capture)
{
    const size_t most = sizeof compiler->captures / sizeof *compiler->captures;
    for (size_t i = 0; i < compiler->capture_count; i++) {
        if (compiler->captures[i] == capture.name) {
            return; /* in another branch of a choice */
        }
    }
    if (compiler->capture_count == most || capture.name == NULL || capture.kind == CAPTURE_LINE) {
        say(compiler, compiler->declaration->title_span, "this cannot be captured", compiler->declaration->title);
        return;
    }
    compiler->captures[compiler->capture_count++] = capture.name;
    compiler->wording->texts += capture.kind == CAPTURE_TEXT || capture.kind == CAPTURE_WORDS;
}

static struct wording_node *compile_sequence(struct compiler *compiler, struct wording_node *from);

/* A word, a capture, `[…]` or `(…)`. */
static struct wording_node *compile_one(struct compiler *compiler, struct wording_node *from)
{
    if (take(compiler, '{')) {
        struct capture capture = read_capture(compiler);
        note_capture(compiler, capture);
        return step(compiler, from, NULL, capture);
    }
    if (take(compiler, '(')) {
        struct wording_node *end = compile_sequence(compiler, from);
        take(compiler, ')');
        return end;
    }
    if (take(compiler, '[')) {
        struct wording_node *end = compile_sequence(compiler, from);
        take(compiler, ']');
        struct wording_node *behind = new_node(compiler);
        add_edge(compiler, end, behind);
        add_edge(compiler, from, behind);
        return behind;
    }
    struct text *rest = &compiler->rest;
    size_t length = 0;
    while (length < rest->length && strchr(" {}[]()|", rest->at[length]) == NULL) {
        length++;
    }
    struct item *items;
    size_t count = wording_items(compiler->library, (struct text){rest->at, length}, &items);
    length = length == 0 ? 1 : length; /* a sign without its fellow */
    *rest = (struct text){rest->at + length, rest->length - length};
    for (size_t i = 0; i < count; i++) {
        bool said = items[i].kind != ITEM_SOFT || !items[i].ends_clause || text_is(items[i].text, ":");
        if (said) {
            from = step(compiler, from, items[i].word, (struct capture){0});
        }
    }
    return from;
}

static struct wording_node *compile_sequence(struct compiler *compiler, struct wording_node *from)
{
    while (!compiler->faulty && !take(compiler, '\0') && compiler->rest.length > 0 && strchr(")]", compiler->rest.at[0]) == NULL) {
        struct wording_node *end = compile_one(compiler, from);
        struct wording_node *behind = NULL;
        while (take(compiler, '|')) {
            if (behind == NULL) {
                behind = new_node(compiler);
                add_edge(compiler, end, behind);
            }
            add_edge(compiler, compile_one(compiler, from), behind);
        }
        from = behind == NULL ? end : behind;
    }
    return from;
}

/* ---- what it means ---- */

static struct meaning *read_meaning(struct compiler *compiler)
{
    struct meaning *first = NULL;
    struct meaning **end = &first;
    while (!compiler->faulty && compiler->rest.length > 0 && compiler->rest.at[0] != ']') {
        struct meaning *piece = *end = ARENA_NEW(compiler->library->arena, struct meaning);
        end = &piece->next;
        struct text *rest = &compiler->rest;
        if (rest->at[0] == '{') {
            take(compiler, '{');
            piece->capture = read_capture(compiler);
        } else if (rest->at[0] == '[') {
            take(compiler, '[');
            piece->within = read_meaning(compiler);
            take(compiler, ']');
        } else {
            size_t length = 0;
            while (length < rest->length && strchr("{[]", rest->at[length]) == NULL) {
                length++;
            }
            piece->text = (struct text){rest->at, length};
            *rest = (struct text){rest->at + length, rest->length - length};
        }
    }
    return first;
}

static bool uses(const struct meaning *piece, const struct name *capture)
{
    for (; piece != NULL; piece = piece->next) {
        if (piece->capture.name == capture || piece->capture.kind == CAPTURE_LINE || uses(piece->within, capture)) {
            return true;
        }
    }
    return false;
}

/* Whether every capture of a meaning is one of the pattern's; a purpose may be the formula's own. */
static void check_captures(struct compiler *compiler, const struct meaning *piece, struct span span)
{
    for (; piece != NULL; piece = piece->next) {
        bool known = piece->capture.name == NULL || piece->capture.kind == CAPTURE_LINE || piece->capture.kind == CAPTURE_PURPOSE;
        for (size_t i = 0; i < compiler->capture_count; i++) {
            known = known || compiler->captures[i] == piece->capture.name;
        }
        if (!known) {
            say(compiler, span, "the wording does not capture this", piece->capture.name->spelling);
        }
        check_captures(compiler, piece->within, span);
    }
}

static void put_example(struct buffer *out, const struct meaning *piece)
{
    for (; piece != NULL; piece = piece->next) {
        buffer_text(out, piece->text);
        buffer_string(out, piece->capture.name == NULL ? "" : kinds[piece->capture.kind].example);
        put_example(out, piece->within);
    }
}

/* `1:2` is a line of the notation, of which both readings are offered. */
static bool is_faulty(const struct diagnostics *diagnostics)
{
    for (size_t i = 0; i < diagnostics->count; i++) {
        if (diagnostics->items[i]->id != DIAG_RATIO_WITH_COLON) {
            return true;
        }
    }
    return false;
}

/* Whether it is a line of the notation, with an example for each capture. */
static void check_line(struct compiler *compiler, const struct meaning *pieces, enum capture_kind in, struct span span)
{
    struct library *library = compiler->library;
    struct buffer out;
    buffer_start(&out, library->arena);
    const char *carrier = in == WHOLE_LINE ? "%s" : kinds[in].line;
    const char *place = strstr(carrier, "%s");
    buffer_add(&out, carrier, (size_t)(place - carrier));
    put_example(&out, pieces);
    buffer_string(&out, place + 2);
    struct diagnostics aside;
    diagnostics_start(&aside, library->arena, library->sources);
    const struct reread_piece piece = {.text = text_from(buffer_finish(&out))};
    struct declaration open = {.kind = DECLARE_FORMULA, .file = compiler->declaration->file};
    struct statement *last;
    bool draws;
    struct reread reread = {.pieces = &piece, .count = 1, .line = span};
    const struct statement *statement = syntax_reread(library->arena, library->names, &aside, &open, reread, &last, &draws);
    bool addition = statement != NULL && statement->kind == SAY_ADDITION; /* any words before an amount look like one */
    bool known = !addition || library_material(library, ((const struct addition_statement *)statement)->material->name) != NULL;
    if (statement == NULL || !known || is_faulty(&aside)) {
        say(compiler, span, "this is no line of the notation", text_from(out.bytes));
    }
}

static void read_meanings(struct compiler *compiler, enum capture_kind in)
{
    struct meaning_line **end = &compiler->wording->lines;
    for (const struct statement *statement = compiler->declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind != SAY_MEANS && statement->kind != SAY_OFFERS) {
            continue;
        }
        const struct text_statement *means = (const struct text_statement *)statement;
        compiler->wording->offers = compiler->wording->offers || statement->kind == SAY_OFFERS;
        struct meaning_line *line = *end = ARENA_NEW(compiler->library->arena, struct meaning_line);
        end = &line->next;
        compiler->rest = means->text;
        line->pieces = read_meaning(compiler);
        check_captures(compiler, line->pieces, means->text_span);
        if (compiler->check && !compiler->faulty) {
            check_line(compiler, line->pieces, in, means->text_span);
        }
    }
    for (size_t i = 0; i < compiler->capture_count; i++) {
        bool used = false;
        for (const struct meaning_line *line = compiler->wording->lines; line != NULL; line = line->next) {
            used = used || uses(line->pieces, compiler->captures[i]);
        }
        if (!used) {
            say(compiler, compiler->declaration->title_span, "what is captured must stand in what it means", compiler->captures[i]->spelling);
        }
    }
    if (compiler->wording->lines == NULL) {
        say(compiler, compiler->declaration->title_span, "it does not say what it means", compiler->declaration->title);
    }
}

/* Where it holds: places of a line, or the one kind of capture that it is a way to write. */
static enum capture_kind read_places(struct compiler *compiler)
{
    static const char *const places[] = {"formula", "part", "use", "variant", "stock"};
    enum capture_kind in = WHOLE_LINE;
    for (const struct statement *statement = compiler->declaration->statements; statement != NULL; statement = statement->next) {
        const struct word *word = statement->kind == SAY_FOR ? ((const struct words_statement *)statement)->words : NULL;
        for (; word != NULL; word = word->next) {
            bool known = false;
            for (unsigned i = 0; i < sizeof places / sizeof *places; i++) {
                bool here = text_is(word->name->spelling, places[i]);
                compiler->wording->places |= here ? 1u << i : 0;
                known = known || here;
            }
            for (enum capture_kind i = 0; i < CAPTURE_WORDS && !known; i++) {
                if (text_is(word->name->spelling, kinds[i].name)) {
                    in = i;
                    known = true;
                }
            }
            if (!known) {
                say(compiler, word->span, "a wording is of a formula, a part, a use, a variant, a stock, or a kind of capture", word->name->spelling);
            }
        }
    }
    bool of_part = in == WHOLE_LINE || (compiler->wording->places & PLACE_PART) == 0; /* `part` is a place and a capture: the place is meant */
    return of_part ? in : WHOLE_LINE;
}

/* Whether a pattern can be gone through without a word. */
static bool needs_nothing(const struct wording_node *from, const struct wording_node *end)
{
    if (from == end) {
        return true;
    }
    for (const struct wording_edge *edge = from->edges; edge != NULL; edge = edge->next) {
        if (edge->word == NULL && edge->capture.name == NULL && needs_nothing(edge->to, end)) {
            return true;
        }
    }
    return false;
}

static void compile(struct library *library, struct wording_set *set, const struct declaration *declaration, bool check)
{
    if (declaration->kind != DECLARE_WORDING || declaration->title.at == NULL) {
        return;
    }
    struct compiler compiler = {.library = library, .set = set, .declaration = declaration, .rest = declaration->title, .check = check};
    struct wording *wording = compiler.wording = ARENA_NEW(library->arena, struct wording);
    wording->declaration = declaration;
    enum capture_kind in = read_places(&compiler);
    if (set->roots[in] == NULL) {
        set->roots[in] = new_node(&compiler);
    }
    struct wording_node *end = compile_sequence(&compiler, set->roots[in]);
    if (needs_nothing(set->roots[in], end)) {
        say(&compiler, declaration->title_span, "a wording that needs no word fits every line", declaration->title);
    }
    if (compiler.rest.length > 0) {
        say(&compiler, declaration->title_span, "a bracket stands without its fellow", compiler.rest);
    }
    read_meanings(&compiler, in);
    if (!compiler.faulty) {
        wording->next = end->ends;
        end->ends = wording;
    }
}

/* What is built in was looked at when the program was built. */
static void compile_file(struct library *library, struct wording_set *set, struct source_file *source)
{
    const struct syntax_file *file = syntax_parse_slice(library->arena, library->names, library->diagnostics, source, 0, source->length);
    for (const struct declaration *declaration = file->declarations; declaration != NULL; declaration = declaration->next) {
        compile(library, set, declaration, false);
    }
}

static struct wording_set *compile_all(struct library *library, bool check)
{
    struct wording_set *set = ARENA_NEW(library->arena, struct wording_set);
    for (size_t i = 0; library->tables != NULL && stdlib_files[i].name != NULL; i++) {
        if (strstr(stdlib_files[i].name, "/wordings-") != NULL) {
            compile_file(library, set, library->built_files[i]);
        }
    }
    for (const struct wording_source *source = library->wording_sources; source != NULL; source = source->next) {
        compile(library, set, source->declaration, check);
    }
    return set;
}

const struct wording_set *wordings_compiled(struct library *library)
{
    if (library->wordings == NULL) {
        library->wordings = compile_all(library, false);
    }
    return library->wordings;
}

bool wordings_are_there(struct library *library)
{
    return library->tables != NULL || library->wording_sources != NULL;
}

void wordings_add(struct library *library, const struct declaration *declaration)
{
    struct wording_source **end = &library->wording_sources;
    while (*end != NULL) {
        end = &(*end)->next;
    }
    *end = ARENA_NEW(library->arena, struct wording_source);
    (*end)->declaration = declaration;
    library->wordings = NULL;
}

void wordings_make_all(struct library *library, bool only_of_users)
{
    const struct wording_source *source = library->wording_sources;
    while (source != NULL && only_of_users && source->declaration->file->of_library) {
        source = source->next;
    }
    if (source != NULL) {
        library->wordings = compile_all(library, true);
    }
}
