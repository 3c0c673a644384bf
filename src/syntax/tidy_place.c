/* Where the lines of a tidy file stand: indentation, empty lines, and which lines share their columns. */
#include "syntax/tidy_lines.h"

enum { INDENT = 4 };

/* Widths of the keyword column in the blocks that the notation's examples show. */
enum {
    FORMULA_KEYWORD = 8 /* "measures" */,
    VARIANT_KEYWORD = 6 /* "change" */,
    MATERIAL_KEYWORD = 9 /* "dissolves" */
};

enum section { SECTION_HEAD, SECTION_BODY, SECTION_PART, SECTION_USE, SECTION_BATH };

/* Lines that are walked through, and what has been met. */
struct walk {
    struct tidy_document *document;
    const struct tidy_line *before; /* the last line that is no comment */
    bool blank;                     /* an empty line stands behind it */
    enum section section;
    size_t additions[2]; /* groups of the declaration's additions, outside and inside its parts, or 0 */
    size_t properties;   /* group of the open run of properties, or 0 */
    size_t properties_indent;
    size_t properties_least;
};

static bool is_one_line(const struct tidy_line *line)
{
    return line->class == TIDY_HEADING && line->declaration->statements == NULL;
}

static bool same_kind_of_one_line(const struct tidy_line *a, const struct tidy_line *b)
{
    return is_one_line(a) && is_one_line(b) && a->declaration->kind == b->declaration->kind;
}

static bool says_of_use(const struct statement *statement)
{
    return statement != NULL && statement->kind != SAY_USE &&
           (statement->kind == SAY_NOTE || statement_is_of_use(statement));
}

/* What is said of the whole formula wherever it stands. */
static bool says_of_formula(const struct statement *statement)
{
    switch (statement == NULL ? SAY_NOTE : statement->kind) {
    case SAY_KIND:
    case SAY_FOR:
    case SAY_MEASURES:
    case SAY_AFTER:
    case SAY_SILENCE:
        return true;
    default:
        return false;
    }
}

/* What is said of the bath above it in a process. */
static bool says_of_bath(const struct statement *statement)
{
    switch (statement == NULL ? SAY_BATH : statement->kind) {
    case SAY_DILUTE:
    case SAY_AGITATE:
    case SAY_ONCE:
    case SAY_REPLACE:
    case SAY_REPLENISH:
    case SAY_NOTE:
        return true;
    default:
        return false;
    }
}

static size_t indent_of(const struct walk *walk, const struct tidy_line *line)
{
    if (line->class == TIDY_HEADING) {
        return 0;
    }
    bool inside =
        line->class != TIDY_SECTION && ((walk->section == SECTION_PART && !says_of_formula(line->statement)) ||
                                        (walk->section == SECTION_USE && says_of_use(line->statement)) ||
                                        (walk->section == SECTION_BATH && says_of_bath(line->statement)));
    return inside ? 2 * INDENT : INDENT;
}

static void place_heading(struct walk *walk, struct tidy_line *line)
{
    walk->section = SECTION_HEAD;
    walk->additions[0] = walk->additions[1] = walk->properties = 0;
    /* Units, elements and phrases stand below each other like the lines of a table. */
    bool continues =
        walk->before != NULL && walk->before->group != 0 && same_kind_of_one_line(walk->before, line) && !walk->blank;
    if (is_one_line(line)) {
        line->group = continues ? walk->before->group : ++walk->document->groups;
    }
}

static void place_property(struct walk *walk, struct tidy_line *line)
{
    enum declaration_kind kind = line->declaration == NULL ? DECLARE_FORMULA : line->declaration->kind;
    if (kind == DECLARE_STOCK) { /* two or three short phrases, which read better without columns */
        return;
    }
    if (walk->properties == 0 || walk->properties_indent != line->indent) {
        walk->properties = ++walk->document->groups;
        walk->properties_indent = line->indent;
        walk->properties_least = kind == DECLARE_MATERIAL                                   ? MATERIAL_KEYWORD
                                 : kind == DECLARE_VARIANT && line->indent == INDENT        ? VARIANT_KEYWORD
                                 : kind == DECLARE_FORMULA && walk->section == SECTION_HEAD ? FORMULA_KEYWORD
                                                                                            : 0;
    }
    line->group = walk->properties;
    line->least = walk->properties_least;
    line->wide = kind == DECLARE_RULE || kind == DECLARE_REACTION || kind == DECLARE_GROUP || kind == DECLARE_KIND_OF_BATH || (walk->section == SECTION_USE && line->indent > INDENT);
}

static void place_line(struct walk *walk, struct tidy_line *line)
{
    if (line->class == TIDY_HEADING) {
        place_heading(walk, line);
        return;
    }
    if (line->class == TIDY_SECTION) {
        walk->section = line->statement->kind == SAY_PART ? SECTION_PART : SECTION_USE;
        walk->properties = 0;
    }
    line->indent = indent_of(walk, line);
    if (line->statement != NULL && (line->statement->kind == SAY_BATH || walk->section == SECTION_BATH)) {
        walk->section = line->indent > INDENT || line->statement->kind == SAY_BATH ? SECTION_BATH : SECTION_HEAD;
    }
    switch (line->class) {
    case TIDY_PROPERTY:
        place_property(walk, line);
        break;
    case TIDY_ADDITION:
    case TIDY_STEP:
        line->closes_head = walk->section == SECTION_HEAD && walk->properties != 0;
        walk->section = walk->section == SECTION_HEAD ? SECTION_BODY : walk->section;
        walk->properties = 0;
        if (line->class == TIDY_ADDITION) {
            size_t *group = &walk->additions[line->indent > INDENT];
            *group = *group == 0 ? ++walk->document->groups : *group;
            line->group = *group;
        }
        break;
    default:
        break;
    }
}

/* ---- comments and empty lines ---- */

/* The first line from `at` on that is no comment; the number of lines when there is none.  *touching: no empty line
 * stands before it. */
static size_t next_statement(const struct tidy_document *document, size_t at, bool *touching)
{
    *touching = true;
    for (size_t i = at; i < document->count; i++) {
        *touching = *touching && (i == at || !document->lines[i].blank_before);
        if (document->lines[i].class != TIDY_COMMENT) {
            return i;
        }
    }
    *touching = false;
    return document->count;
}

/* Where a comment behind `before` stands that speaks for no line below it. */
static size_t indent_behind(const struct tidy_line *before)
{
    if (before->class == TIDY_HEADING) {
        return is_one_line(before) ? 0 : INDENT;
    }
    return before->class == TIDY_SECTION ? 2 * INDENT : before->indent;
}

/* A block of comments goes with the line below it; with the one above when an empty line parts it from what follows. */
static void place_comments(struct tidy_document *document, size_t from, size_t upto, const struct tidy_line *before)
{
    bool touching;
    size_t next = next_statement(document, from, &touching);
    const struct tidy_line *after = next < document->count ? &document->lines[next] : NULL;
    bool within = after != NULL && after->class != TIDY_HEADING && after->class != TIDY_SECTION;
    bool opens = before != NULL && (before->class == TIDY_HEADING || before->class == TIDY_SECTION);
    size_t indent = after != NULL && touching ? after->indent
                    : before != NULL && !document->lines[from].blank_before && !(opens && within)
                        ? indent_behind(before)
                    : after != NULL ? after->indent
                                    : 0;
    for (size_t i = from; i < upto; i++) {
        document->lines[i].indent = indent;
    }
}

/* Whether an empty line must stand before `line`, whatever was typed. */
static bool wants_blank(const struct tidy_line *line, const struct tidy_line *before)
{
    if (before == NULL) {
        return false;
    }
    if (line->class == TIDY_HEADING) {
        return !same_kind_of_one_line(before, line);
    }
    return before->class != TIDY_HEADING && (line->class == TIDY_SECTION || line->closes_head);
}

/* Sets the empty lines before the lines [from, at], of which all but the last are comments: a block that touches its
 * line keeps to it, and what opens a declaration or a section has its first line right below. */
static void place_blanks(struct tidy_document *document, size_t from, size_t at, const struct tidy_line *before)
{
    const struct tidy_line *line = at < document->count ? &document->lines[at] : NULL;
    if (line == NULL || before == NULL) {
        return;
    }
    size_t block = at; /* the first of the comments that touch the line */
    while (block > from && !document->lines[block].blank_before) {
        block--;
    }
    if (wants_blank(line, before)) {
        document->lines[block].blank_before = true;
    }
    bool opens = before->class == TIDY_HEADING || before->class == TIDY_SECTION;
    if (opens && line->class != TIDY_HEADING && !wants_blank(line, before)) {
        document->lines[from].blank_before = false;
    }
}

void tidy_place(struct tidy_document *document)
{
    struct walk walk = {.document = document};
    for (size_t i = 0; i < document->count; i++) {
        struct tidy_line *line = &document->lines[i];
        walk.blank = walk.blank || line->blank_before;
        if (line->class != TIDY_COMMENT) {
            place_line(&walk, line);
            walk.before = line;
            walk.blank = false;
        }
    }
    const struct tidy_line *before = NULL;
    for (size_t from = 0; from < document->count;) {
        bool touching;
        size_t at = next_statement(document, from, &touching);
        for (size_t i = from; i < at;) { /* blocks of comments that empty lines part */
            size_t upto = i + 1;
            while (upto < at && !document->lines[upto].blank_before) {
                upto++;
            }
            place_comments(document, i, upto, i == from ? before : NULL);
            i = upto;
        }
        place_blanks(document, from, at, before);
        before = at < document->count ? &document->lines[at] : before;
        from = at + 1;
    }
}
