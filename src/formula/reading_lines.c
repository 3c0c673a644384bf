/* Reads the lines that the grammar does not know by the wordings of the library: what a line means takes its place in the tree, and what
 * had been said of it is withdrawn.  This stands here because a wording is matched by units, materials and parts, of which a tree knows
 * nothing; the grammar leaves such a line in its place (SAY_LINE), and files that have none are not looked through. */
#include "formula/checking.h"
#include "library/wordings.h"

/* The declaration whose lines are read. */
struct line_reader {
    struct formulary *formulary;
    struct declaration *declaration;
    struct wording_place place;
};

/* The statements that the pieces come to; NULL when one of their lines is none of the notation. */
static struct statement *parse(struct line_reader *reader, struct diagnostics *diagnostics, struct span span, const struct reread_piece *pieces,
                               size_t count, struct statement **last, bool *draws)
{
    struct formulary *formulary = reader->formulary;
    const struct reread reread = {.pieces = pieces, .count = count, .line = span};
    return syntax_reread(formulary->arena, formulary->names, diagnostics, reader->declaration, reread, last, draws);
}

/* The same with what is wrong in them left unsaid. */
static const struct statement *try_out(struct line_reader *reader, struct span span, const struct reread_piece *pieces, size_t count)
{
    struct diagnostics aside;
    diagnostics_start(&aside, reader->formulary->arena, reader->formulary->sources);
    struct statement *last;
    bool draws;
    return parse(reader, &aside, span, pieces, count, &last, &draws);
}

/* Lines of the notation stand for what was typed: they are chained behind `line`. */
static void put_in(struct line_reader *reader, struct statement *line, struct span span, const struct reread_piece *pieces, size_t count)
{
    struct formulary *formulary = reader->formulary;
    struct declaration *declaration = reader->declaration;
    struct statement *last;
    bool draws = false;
    struct statement *first = parse(reader, formulary->diagnostics, span, pieces, count, &last, &draws);
    formulary->draws_on_formulas = formulary->draws_on_formulas || draws;
    struct line_read *read = ARENA_NEW(formulary->arena, struct line_read);
    *read = (struct line_read){span, reread_text(formulary->arena, pieces, count), formulary->read_lines};
    formulary->read_lines = read;
    struct statement *behind = line->next; /* behind the others of the line: what was made of a keyword that was only meant */
    while (behind != NULL && behind->span.begin < span.end) {
        behind = behind->next;
    }
    line->kind = SAY_LINE;
    line->next = first;
    last->next = behind;
    declaration->last = behind == NULL ? last : declaration->last;
    for (struct statement *statement = first; statement != behind; statement = statement->next) {
        statement->stands_for_other = true;
        if (statement_is_property(statement->kind)) {
            declaration->last_property = declaration->last;
        }
    }
}

/* ---- a line that is several ---- */

enum { MOST_CLAUSES = 12 };

/* Where the next clause of a line begins: behind a semicolon, a comma, or a full stop with a blank. */
static size_t clause_length(struct text text)
{
    for (size_t at = 0; at < text.length; at++) {
        bool apart = at + 1 < text.length && text.at[at + 1] == ' ';
        bool stop = text.at[at] == '.' && apart && at + 2 < text.length && text.at[at + 2] >= 'A' && text.at[at + 2] <= 'Z';
        if (stop || (apart && (text.at[at] == ',' || text.at[at] == ';'))) {
            return at;
        }
    }
    return text.length;
}

/* Whether a clause is a line of the notation as it stands: of an addition the material is known. */
static bool is_plain_line(struct line_reader *reader, const struct reread_piece *piece, struct span span)
{
    const struct statement *statement = try_out(reader, span, piece, 1);
    bool addition = statement != NULL && statement->kind == SAY_ADDITION;
    struct library *library = reader->formulary->library;
    return statement != NULL && (!addition || library_material(library, ((const struct addition_statement *)statement)->material->name) != NULL);
}

/* The readings of a text; those that come to no lines of the notation are none. */
static size_t read_readings(struct line_reader *reader, const struct wording_place *place, struct text text, struct span span, uint32_t begin,
                            struct wording_reading readings[WORDING_READINGS])
{
    size_t found = wordings_read(reader->formulary->library, place, text, begin, readings);
    size_t kept = 0;
    for (size_t i = 0; i < found; i++) {
        if (try_out(reader, span, readings[i].pieces, readings[i].count) != NULL) {
            readings[kept++] = readings[i];
        }
    }
    return kept;
}

/* The readings of the clauses put together; 0 pieces when one of them has none, or more than one. */
static size_t read_clauses(struct line_reader *reader, struct text line, struct span span, struct reread_piece **pieces)
{
    struct wording_place place = reader->place;
    place.known_materials = true;
    size_t count = 0;
    size_t clauses = 0;
    *pieces = NULL;
    for (struct text rest = line; rest.length > 0 && clauses < MOST_CLAUSES; clauses++) {
        struct text clause = {rest.at, clause_length(rest)};
        size_t skip = clause.length < rest.length ? clause.length + 1 : clause.length;
        rest = text_trim((struct text){rest.at + skip, rest.length - skip});
        if (clause.length == line.length) {
            return 0; /* it is one */
        }
        uint32_t begin = span.begin + (uint32_t)(clause.at - line.at);
        struct wording_reading readings[WORDING_READINGS];
        struct reread_piece plain = {clause, {begin, begin + (uint32_t)clause.length}};
        size_t found = read_readings(reader, &place, clause, span, begin, readings);
        if (found == 0 && is_plain_line(reader, &plain, span)) {
            readings[found++] = (struct wording_reading){.pieces = &plain, .count = 1};
        }
        if (found != 1 || readings[0].offered) {
            return 0;
        }
        struct reread_piece *all = ARENA_ARRAY(reader->formulary->arena, struct reread_piece, count + readings[0].count + 1);
        if (count > 0) {
            memcpy(all, *pieces, count * sizeof *all);
            all[count++].text = TEXT("\n");
        }
        memcpy(all + count, readings[0].pieces, readings[0].count * sizeof *all);
        count += readings[0].count;
        *pieces = all;
        const char *text = reread_text(reader->formulary->arena, all, count);
        place.in_use = place.in_use || strncmp(text, "use for", 7) == 0 || strstr(text, "\nuse for") != NULL;
    }
    return clauses < MOST_CLAUSES ? count : 0;
}

/* ---- a line ---- */

/* Several lines as one, to be shown. */
static const char *on_one_line(struct arena *arena, const char *text)
{
    struct buffer out;
    buffer_start(&out, arena);
    for (; *text != '\0'; text++) {
        if (*text == '\n') {
            buffer_string(&out, "; ");
        } else {
            buffer_character(&out, *text);
        }
    }
    return buffer_finish(&out);
}

/* The readings are offered, where there are several or one that a person must choose. */
static void offer(struct line_reader *reader, struct span span, const struct wording_reading *readings, size_t count)
{
    struct diagnostics *diagnostics = reader->formulary->diagnostics;
    struct arena *arena = reader->formulary->arena;
    bool several = count > 1;
    struct diagnostic *diagnostic = diagnostics_add(diagnostics, DIAG_SYNTAX, span,
                                                    several ? "this line can be read in more than one way" : "this line is not read without being asked");
    struct buffer list;
    buffer_start(&list, arena);
    for (size_t i = 0; i < count; i++) {
        buffer_format(&list, "%s%s", i == 0 ? "" : ", or ", on_one_line(arena, readings[i].text));
    }
    diagnostics_help(diagnostics, diagnostic, "write it as: %s", buffer_finish(&list));
    for (size_t i = 0; i < count; i++) {
        diagnostics_fix(diagnostics, diagnostic, span, readings[i].text, "write %s", on_one_line(arena, readings[i].text));
    }
}

/* Up to the line's end, with a comment. */
static struct span whole_line(const struct formulary *formulary, struct span span)
{
    const struct source_file *file = source_file_at(formulary->sources, span.begin);
    const char *end = file->bytes + (span.end - file->base);
    return (struct span){span.begin, span.end + (uint32_t)strcspn(end, "\r\n") + 1};
}

/* Whether the line is read, or what it may mean is offered. */
static bool read_line(struct line_reader *reader, struct statement *line, struct span span)
{
    struct formulary *formulary = reader->formulary;
    struct text text = source_text(formulary->sources, span);
    struct wording_reading readings[WORDING_READINGS];
    struct wording_place known = reader->place;
    known.known_materials = true;
    size_t count = read_readings(reader, &known, text, span, span.begin, readings);
    struct reread_piece *pieces = NULL;
    bool doubtful = count != 1 || readings[0].offered;
    size_t clauses = doubtful ? read_clauses(reader, text, span, &pieces) : 0;
    if (clauses > 0 && try_out(reader, span, pieces, clauses) == NULL) {
        clauses = 0;
    }
    if (count == 0 && clauses == 0 && !reader->place.known_materials) { /* of a material that nobody knows, which will be said */
        count = read_readings(reader, &reader->place, text, span, span.begin, readings);
    }
    bool slip = line->next != NULL && line->next->span.begin < span.end; /* of a keyword, which is told with what was meant */
    if (clauses == 0 && (count == 0 || (slip && readings[0].offered))) {
        return false;
    }
    diagnostics_withdraw(formulary->diagnostics, whole_line(formulary, span));
    if (clauses > 0) {
        put_in(reader, line, span, pieces, clauses);
    } else if (count > 1 || readings[0].offered) {
        line->kind = SAY_LINE;
        offer(reader, span, readings, count);
    } else {
        put_in(reader, line, span, readings[0].pieces, readings[0].count);
    }
    return true;
}

/* ---- a declaration ---- */

static struct line_reader open_reader(struct formulary *formulary, struct declaration *declaration)
{
    struct line_reader reader = {.formulary = formulary, .declaration = declaration, .place.kind = declaration->kind};
    size_t parts = 0;
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        parts += statement->kind == SAY_PART;
    }
    struct name **names = ARENA_ARRAY(formulary->arena, struct name *, parts + 1);
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        const struct words_statement *words = (const struct words_statement *)statement;
        if (statement->kind == SAY_PART) {
            names[reader.place.part_count++] = names_folded(formulary->names, words->words->name);
        } else if (statement->kind == SAY_FOR && words->words->next == NULL) {
            struct text purpose = words->words->name->spelling;
            bool quoted = memchr(purpose.at, ' ', purpose.length) != NULL;
            reader.place.purpose = quoted ? text_from(arena_format(formulary->arena, "\"%.*s\"", TEXT_ARGUMENTS(purpose))) : purpose;
        }
    }
    reader.place.parts = names;
    return reader;
}

void formula_read_lines(struct formulary *formulary, struct declaration *declaration)
{
    if (!declaration->refused || !wordings_are_there(formulary->library)) {
        return;
    }
    declaration->refused = false;
    struct line_reader reader = open_reader(formulary, declaration);
    for (struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_LINE) {
            read_line(&reader, statement, statement->span);
        } else if (statement->kind == SAY_USE || statement->kind == SAY_PART) {
            reader.place.in_use = statement->kind == SAY_USE;
        }
    }
}

bool formula_read_addition(struct checker *checker, const struct addition_statement *addition)
{
    const struct declaration *declaration = checker->formula->declaration;
    if (!wordings_are_there(checker->library)) {
        return false;
    }
    if (checker->formula->statements != declaration->statements || addition->base.kind != SAY_ADDITION || addition->base.stands_for_other) {
        return false; /* a variant's line stands in its parent's text */
    }
    struct formulary *formulary = checker->formulary;
    struct line_reader reader = open_reader(formulary, (struct declaration *)declaration);
    reader.place.in_use = checker->use != NULL;
    reader.place.known_materials = true;
    struct place place = source_place(formulary->sources, addition->base.span.begin);
    struct text line = source_line(formulary->sources, place);
    const char *comment = memchr(line.at, '#', line.length);
    line.length = comment == NULL ? line.length : (size_t)(comment - line.at);
    struct text typed = text_trim(line);
    uint32_t begin = place.file->base + place.line_begin + (uint32_t)(typed.at - line.at);
    return read_line(&reader, (struct statement *)&addition->base, (struct span){begin, begin + (uint32_t)typed.length});
}
