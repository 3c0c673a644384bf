/* The columns of a tidy file: each line is split into cells, and the cells of a group stand below each other. */
#include "base/utf8.h"
#include "syntax/builder.h"
#include "syntax/tidy_lines.h"

#include "notation.tab.h"

/* Gaps, in blanks, as the notation's examples show them. */
enum {
    GAP = 1,      /* behind a name or a keyword */
    GAP_WIDE = 2, /* behind the keywords of a use or a rule, between the cells of a form or a unit */
    GAP_CAS = 3,  /* between a chemical formula and its CAS number */
    GAP_ASIDE = 4 /* before a note or a source, which stand apart from what they are about */
};

/* Wider than this a cell goes its own way, and the rest of the block keeps its column. */
enum {
    LIMIT_NAME = 44,
    LIMIT_HEADING = 24,
    LIMIT_MEANING = 28,
    LIMIT_NAMES = 48,
    LIMIT_BODY = 60,
    LIMIT_LINE = 76,
    NO_LIMIT = 1 << 30
};

static struct tidy_cell *open_cell(struct tidy_line *line, enum tidy_column column, size_t first, size_t gap,
                                   size_t limit)
{
    if (line->cell_count > 0) {
        struct tidy_cell *last = &line->cells[line->cell_count - 1];
        if (line->cell_count == TIDY_CELLS || last->first == first) {
            return last;
        }
        last->upto = first;
        if (column <= last->column) { /* out of the usual order */
            column = COLUMN_LOOSE;
        }
    }
    struct tidy_cell *cell = &line->cells[line->cell_count++];
    *cell = (struct tidy_cell){.column = column, .first = first, .upto = line->token_count, .gap = gap, .limit = limit};
    return cell;
}

/* ---- splitting ---- */

/* The token where the amount of an addition starts. */
static size_t amount_token(const struct tidy_line *line)
{
    uint32_t begin = UINT32_MAX;
    if (line->statement->kind == SAY_ADDITION) {
        begin = ((const struct addition_statement *)line->statement)->amount->span.begin;
    } else {
        const struct quantity *quantity = ((const struct solution_statement *)line->statement)->quantity;
        begin = quantity == NULL ? UINT32_MAX : quantity->span.begin;
    }
    for (size_t i = 1; i < line->token_count; i++) {
        if (line->tokens[i].begin >= begin || line->tokens[i].kind == T_AS_NEEDED) {
            return i;
        }
    }
    return line->token_count;
}

static void split_addition(struct tidy_line *line)
{
    open_cell(line, COLUMN_FIRST, 0, 0, LIMIT_NAME);
    size_t amount = amount_token(line);
    if (amount < line->token_count) {
        open_cell(line, COLUMN_BODY, amount, GAP, NO_LIMIT);
    }
}

/* `form NAME FORMULA cas N strength … density … usual also … source "…"` */
static void split_form(struct tidy_line *line)
{
    for (size_t i = 1; i < line->token_count; i++) {
        switch (line->tokens[i].kind) {
        case T_CHEMICAL:
            open_cell(line, COLUMN_CHEMICAL, i, i == 1 ? GAP : GAP_WIDE, NO_LIMIT);
            break;
        case T_CAS:
            open_cell(line, COLUMN_CAS, i, i == 1 ? GAP : GAP_CAS, NO_LIMIT);
            break;
        case T_STRENGTH:
            open_cell(line, COLUMN_STRENGTH, i, GAP_WIDE, NO_LIMIT);
            break;
        case T_DENSITY:
            open_cell(line, COLUMN_DENSITY, i, GAP_WIDE, NO_LIMIT);
            break;
        case T_USUAL:
        case T_ALSO:
        case T_SOURCE: {
            const struct tidy_cell *last = &line->cells[line->cell_count - 1];
            bool more = last->column == COLUMN_REST || last->column == COLUMN_LOOSE;
            open_cell(line, more ? COLUMN_LOOSE : COLUMN_REST, i, GAP_WIDE, NO_LIMIT);
            break;
        }
        default:
            if (i == 1) {
                open_cell(line, COLUMN_BODY, 1, GAP, NO_LIMIT);
            }
        }
    }
}

/* The length of a keyword whose last word leads on to the value, up to that word: "mistaken" of "mistaken for"; 0 for
 * others. */
static size_t keyword_stem(struct text keyword)
{
    const char *blank = memchr(keyword.at, ' ', keyword.length);
    size_t stem = blank == NULL ? 0 : (size_t)(blank - keyword.at);
    struct text last = {keyword.at + stem + 1, blank == NULL ? 0 : keyword.length - stem - 1};
    return text_is(last, "for") ? stem : 0;
}

static void split_property(struct tidy_line *line)
{
    struct text keyword = line->tokens[0].text;
    bool whole = memchr(keyword.at, ' ', keyword.length) == NULL;
    open_cell(line, COLUMN_FIRST, 0, 0, NO_LIMIT);
    if (line->token_count == 1 || (!whole && keyword_stem(keyword) == 0)) {
        return;
    }
    if (line->tokens[0].kind == T_FORM) {
        split_form(line);
        return;
    }
    open_cell(line, COLUMN_BODY, 1, line->wide ? GAP_WIDE : GAP, LIMIT_BODY);
    for (size_t i = 2; i < line->token_count; i++) {
        if (line->tokens[i].kind == T_SOURCE) {
            open_cell(line, COLUMN_SOURCE, i, GAP_ASIDE, NO_LIMIT);
        }
    }
}

/* A declaration that is one line: `unit NAME is … also … source "…"`. */
static void split_one_line(struct tidy_line *line)
{
    open_cell(line, COLUMN_FIRST, 0, 0, LIMIT_HEADING);
    for (size_t i = 2; i < line->token_count; i++) {
        switch (line->tokens[i].kind) {
        case T_IS:
        case T_IS_ABOUT:
        case T_IS_UNCLEAR:
        case T_MEASURES:
            open_cell(line, COLUMN_BODY, i, GAP_WIDE, LIMIT_MEANING);
            break;
        case T_STRING:
            if (line->tokens[0].kind == T_PHRASE && i == 2) {
                open_cell(line, COLUMN_BODY, i, GAP_WIDE, LIMIT_BODY);
            }
            break;
        case T_ALSO:
            open_cell(line, COLUMN_REST, i, GAP_WIDE, LIMIT_NAMES);
            break;
        case T_FOR:
        case T_SAYS:
            if (line->tokens[0].kind == T_PHRASE && i > 2) { /* which hazards it answers to; what is said of a choice */
                open_cell(line, COLUMN_LOOSE, i, GAP_WIDE, NO_LIMIT);
            }
            break;
        case T_SOURCE:
            open_cell(line, COLUMN_SOURCE, i, GAP_WIDE, NO_LIMIT);
            break;
        default:
            break;
        }
    }
}

/* A note behind a statement stands off from it. */
static void split_note(struct tidy_line *line)
{
    for (size_t i = 1; i < line->token_count; i++) {
        bool loose = line->tokens[i].kind == T_NOTE && i >= line->cells[line->cell_count - 1].first;
        if (loose) {
            open_cell(line, COLUMN_LOOSE, i, GAP_ASIDE, NO_LIMIT);
        }
    }
}

static struct text cell_text(struct arena *arena, const struct tidy_line *line, const struct tidy_cell *cell)
{
    size_t length = 0;
    for (size_t i = cell->first; i < cell->upto; i++) {
        length += line->tokens[i].text.length + 1;
    }
    char *out = arena_allocate(arena, length + 1);
    length = 0;
    for (size_t i = cell->first; i < cell->upto; i++) {
        if (i > cell->first && !tidy_joined(line->tokens[0].kind, line->tokens, i, line->token_count)) {
            out[length++] = ' ';
        }
        memcpy(out + length, line->tokens[i].text.at, line->tokens[i].text.length);
        length += line->tokens[i].text.length;
    }
    return (struct text){out, length};
}

/* "mistaken for" gives its second word to the cell of the value. */
static void move_preposition(struct arena *arena, struct tidy_line *line)
{
    size_t stem = line->cell_count < 2 ? 0 : keyword_stem(line->cells[0].text);
    if (stem == 0) {
        return;
    }
    struct text keyword = line->cells[0].text;
    struct text value = line->cells[1].text;
    line->cells[1].text = text_from(arena_format(arena, "%.*s %.*s", (int)(keyword.length - stem - 1),
                                                 keyword.at + stem + 1, TEXT_ARGUMENTS(value)));
    line->cells[0].text.length = stem;
}

static void split_line(struct arena *arena, struct tidy_line *line)
{
    struct tidy_cell room[TIDY_CELLS];
    if (line->class == TIDY_COMMENT) {
        return;
    }
    line->cells = room;
    if (line->class == TIDY_ADDITION) {
        split_addition(line);
    } else if (line->class == TIDY_PROPERTY && line->group != 0) {
        split_property(line);
    } else if (line->class == TIDY_HEADING && line->group != 0) {
        split_one_line(line);
    } else {
        open_cell(line, COLUMN_FIRST, 0, 0, NO_LIMIT);
    }
    split_note(line);
    for (size_t i = 0; i < line->cell_count; i++) {
        line->cells[i].text = cell_text(arena, line, &line->cells[i]);
    }
    if (line->class == TIDY_PROPERTY) {
        move_preposition(arena, line);
    }
    for (size_t i = 0; i < line->cell_count; i++) {
        line->cells[i].width = utf8_width(line->cells[i].text);
    }
    line->cells = ARENA_ARRAY(arena, struct tidy_cell, line->cell_count);
    memcpy(line->cells, room, line->cell_count * sizeof *room);
}

/* ---- aligning ---- */

/* The columns of a group of lines. */
struct columns {
    size_t first; /* lines of the document */
    size_t upto;
    size_t at[COLUMNS];
};

/* The cell of a column, its place put right behind the one before. */
static struct tidy_cell *cell_in(struct tidy_line *line, enum tidy_column column)
{
    for (size_t i = 1; i < line->cell_count; i++) {
        if (line->cells[i].column == column) {
            const struct tidy_cell *before = &line->cells[i - 1];
            line->cells[i].at = before->at + before->width + line->cells[i].gap;
            return &line->cells[i];
        }
    }
    return NULL;
}

static void align_column(struct tidy_document *document, struct columns *columns, size_t group, enum tidy_column column)
{
    size_t at = columns->at[COLUMN_BODY];
    for (size_t i = columns->first; i < columns->upto; i++) {
        struct tidy_line *line = &document->lines[i];
        const struct tidy_cell *cell = line->group == group ? cell_in(line, column) : NULL;
        if (cell != NULL && cell[-1].width <= cell[-1].limit && cell->at > at) {
            at = cell->at;
        }
        bool keyword = cell != NULL && column == COLUMN_BODY && line->least > 0;
        if (keyword && line->least + cell->gap > at) {
            at = line->least + cell->gap;
        }
    }
    columns->at[column] = at;
    for (size_t i = columns->first; i < columns->upto; i++) {
        struct tidy_line *line = &document->lines[i];
        struct tidy_cell *cell = line->group == group ? cell_in(line, column) : NULL;
        if (cell != NULL && cell->at < at) {
            cell->at = at;
        }
    }
}

/* Behind all columns: what stands loose, and how wide the line is. */
static void close_line(struct tidy_line *line)
{
    for (size_t i = 1; i < line->cell_count; i++) {
        const struct tidy_cell *before = &line->cells[i - 1];
        if (line->cells[i].column == COLUMN_LOOSE) {
            line->cells[i].at = before->at + before->width + line->cells[i].gap;
        }
    }
    if (line->cell_count > 0) {
        const struct tidy_cell *last = &line->cells[line->cell_count - 1];
        line->width = last->at + last->width;
    }
}

void tidy_columns(struct tidy_document *document)
{
    struct columns *groups = ARENA_ARRAY(document->arena, struct columns, document->groups + 1);
    for (size_t i = 0; i < document->count; i++) {
        struct tidy_line *line = &document->lines[i];
        split_line(document->arena, line);
        struct columns *columns = &groups[line->group];
        columns->first = columns->upto == 0 ? i : columns->first;
        columns->upto = i + 1;
    }
    for (size_t group = 1; group <= document->groups; group++) {
        for (enum tidy_column column = COLUMN_BODY; column < COLUMNS; column++) {
            align_column(document, &groups[group], group, column);
        }
    }
    for (size_t i = 0; i < document->count; i++) {
        close_line(&document->lines[i]);
    }
}
