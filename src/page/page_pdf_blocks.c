/* Blocks of a page as pieces: running text, lists, facts, warnings, blanks, pictograms, codes. */
#include "page/page_pdf_columns.h"

#include <math.h>
#include <stdio.h>

/* Sizes of type, pt.  What is measured out stands in the largest (page_pdf_table.c); nothing is smaller than a printed ruler's
 * figures. */
#define TITLE 20
#define LONG_TITLE 16 /* that does not stand in one line */
#define LABEL_TITLE 14
#define SUBTITLE 11
#define HEADING_1 14
#define HEADING_2 11
#define BODY 9.5
#define LABEL 8.5
#define LEAST_PICTOGRAM 41 /* pt from point to point: sides of 1 cm (Regulation (EC) No 1272/2008, Annex I, 1.2.1.2) */
#define MOST_PICTOGRAM 52 /* pt, on a label */
#define KEPT_WHOLE 150 /* pt: lower blocks do not part */

/* ---- running text ---- */

static double space_before(const struct pdf_setter *setter, const struct page_block *previous, const struct page_block *block)
{
    if (previous == NULL) {
        return pdf_scaled(setter, setter->label ? 2 : 8);
    }
    if (block->kind == PAGE_HEADING) {
        return pdf_scaled(setter, setter->label ? 3 : previous->kind == PAGE_HEADING ? 4 : 11);
    }
    if (previous->kind == PAGE_HEADING) {
        return pdf_scaled(setter, 2);
    }
    return pdf_scaled(setter, setter->label ? 2 : 5);
}

static void set_heading(struct pdf_setter *setter, const struct page_heading *heading, double before)
{
    double size = setter->label ? BODY : heading->level == 1 ? HEADING_1 : HEADING_2;
    struct pdf_piece *piece = pdf_add_text(setter, pdf_font(setter, PDF_BOLD, size), 0, before, heading->text);
    for (; piece != NULL; piece = piece->next) {
        piece->keep_with_next = true;
    }
}

static void set_item(struct pdf_setter *setter, const struct page_list *list, const struct page_item *item, size_t number,
                     double before)
{
    struct pdf_font font = pdf_font(setter, PDF_REGULAR, BODY);
    double indent = pdf_scaled(setter, list->marks == PAGE_POINTS ? 9 : 16);
    struct pdf_piece *piece = pdf_add_text(setter, font, indent, before, item->text);
    double middle = font.size * 0.62; /* of small letters, from the top of the line */
    if (list->marks == PAGE_POINTS) {
        double size = pdf_scaled(setter, 2.6);
        pdf_add_mark(setter, piece, PDF_FILL, pdf_scaled(setter, 1), middle - size / 2, size, size);
    } else if (list->marks == PAGE_TICKS) {
        double size = pdf_scaled(setter, 8.5);
        pdf_add_mark(setter, piece, PDF_BOX, 0.5, middle - size / 2 - 0.2, size, size)->weight = 0.8;
    } else {
        char figures[24];
        struct text text = text_from(arena_copy(setter->arena, figures, (size_t)snprintf(figures, sizeof figures, "%zu.", number)));
        pdf_put_text(setter, piece, pdf_set(setter->type, font, 0, text), 0, 0);
    }
}

static void set_list(struct pdf_setter *setter, const struct page_list *list, double before)
{
    size_t number = 0;
    for (const struct page_item *item = list->first; item != NULL; item = item->next) {
        set_item(setter, list, item, number + 1, number == 0 ? before : pdf_scaled(setter, 2.5));
        number++;
    }
}

/* ---- facts ---- */

static double label_width(struct pdf_setter *setter, const struct page_facts *facts, struct pdf_font font)
{
    double widest = 0;
    for (const struct page_fact *fact = facts->first; fact != NULL; fact = fact->next) {
        widest = fmax(widest, pdf_set(setter->type, font, 0, fact->label)->width);
    }
    return fmin(widest, setter->width * 0.34);
}

static void set_fact(struct pdf_setter *setter, const struct page_fact *fact, double before, double indent, struct pdf_font label,
                     bool head)
{
    bool strong = head && (fact->value.given || setter->label);
    struct pdf_font font = strong ? pdf_font(setter, PDF_BOLD, setter->label ? BODY : 12) : pdf_font(setter, PDF_REGULAR, BODY);
    double gap = pdf_scaled(setter, 9);
    const struct pdf_text *name = pdf_set(setter->type, label, indent, fact->label);
    struct pdf_piece *first = pdf_add_text(setter, font, indent + gap, before, fact->text);
    double drop = first->first != NULL ? first->first->y - name->first->ascent : 0; /* both on one base line */
    double height = pdf_put_text(setter, first, name, 0, drop) + drop;
    /* A long label beside a short text needs more room than the text. */
    double text_height = 0;
    for (const struct pdf_piece *piece = first; piece != NULL; piece = piece->next) {
        text_height += piece->height;
    }
    if (height > text_height) {
        setter->out->last->height += height - text_height;
    }
}

void pdf_set_facts(struct pdf_setter *setter, const struct page_facts *facts, double before, bool head)
{
    struct pdf_font label = pdf_font(setter, PDF_REGULAR, LABEL);
    double indent = label_width(setter, facts, label);
    struct pdf_piece *last_before = setter->out->last;
    for (const struct page_fact *fact = facts->first; fact != NULL; fact = fact->next) {
        set_fact(setter, fact, fact == facts->first ? before : pdf_scaled(setter, head ? 1.5 : 1), indent, label, head);
    }
    /* A block that is read as one stays as one, where that costs little paper. */
    struct pdf_piece *first = last_before == NULL ? setter->out->first : last_before->next;
    double height = 0;
    for (const struct pdf_piece *piece = first; piece != NULL; piece = piece->next) {
        height += piece->before + piece->height;
    }
    for (struct pdf_piece *piece = first; piece != NULL && piece->next != NULL && height < KEPT_WHOLE; piece = piece->next) {
        piece->keep_with_next = true;
    }
}

/* ---- warnings ---- */

static void set_warning(struct pdf_setter *setter, const struct page_warning *warning, double before)
{
    bool caution = warning->severity == PAGE_CAUTION;
    double bar = caution ? 2.4 : 0.8;
    double indent = pdf_scaled(setter, setter->label ? 6 : caution ? 26 : 9);
    struct pdf_piece *last_before = setter->out->last;
    if (warning->title.length > 0) {
        struct pdf_piece *piece = pdf_add_text(setter, pdf_font(setter, PDF_BOLD, setter->label ? 11 : BODY), indent, before, warning->title);
        for (; piece != NULL; piece = piece->next) {
            piece->keep_with_next = true;
        }
        before = 0;
    }
    pdf_add_text(setter, pdf_font(setter, PDF_REGULAR, BODY), indent, before, warning->text);
    struct pdf_piece *first = last_before == NULL ? setter->out->first : last_before->next;
    size_t lines = 0;
    for (struct pdf_piece *piece = first; piece != NULL; piece = piece->next) {
        pdf_add_mark(setter, piece, PDF_FILL, 0, 0, bar, piece->height);
        piece->keep_with_next = piece->next != NULL && (piece->keep_with_next || lines < 8);
        lines++;
    }
    if (caution && first != NULL && !setter->label) { /* a label has the signs of the standard */
        double size = pdf_scaled(setter, 14);
        pdf_add_mark(setter, first, PDF_SIGN, pdf_scaled(setter, 7), pdf_scaled(setter, 0.8), size, size);
    }
}

/* ---- blanks ---- */

struct blank_row {
    double used;
    size_t count;
    const struct page_blank *first, *end;
};

static double room_of(const struct pdf_setter *setter, enum page_room room)
{
    static const double rooms[] = {44, 82, 120};
    return pdf_scaled(setter, rooms[room]);
}

static double words_of_blank(struct pdf_setter *setter, const struct page_blank *blank, struct pdf_font font)
{
    double label = fmin(pdf_set(setter->type, font, 0, blank->label)->width, setter->width / 2);
    double unit = blank->unit.length > 0 ? pdf_set(setter->type, font, 0, blank->unit)->width + 3 : 0;
    return label + pdf_scaled(setter, 4) + unit;
}

/* As many blanks as stand side by side; their lines are drawn out so that the row is full. */
static struct blank_row take_row(struct pdf_setter *setter, const struct page_blank *blank, struct pdf_font font)
{
    struct blank_row row = {0, 0, blank, blank};
    while (row.end != NULL) {
        double wanted = words_of_blank(setter, row.end, font) + room_of(setter, row.end->room);
        double gap = row.count > 0 ? pdf_scaled(setter, 12) : 0;
        bool own_line = row.end->room == PAGE_ROOM_LINE && row.count > 0 && row.used > setter->width * 0.4;
        if (row.count > 0 && (row.used + gap + wanted > setter->width || own_line)) {
            break;
        }
        row.used += gap + wanted;
        row.count++;
        row.end = row.end->next;
    }
    return row;
}

static void set_blanks(struct pdf_setter *setter, const struct page_blanks *blanks, double before)
{
    struct pdf_font font = pdf_font(setter, PDF_REGULAR, LABEL);
    double height = pdf_scaled(setter, setter->label ? 15.5 : 21); /* for handwriting */
    for (const struct page_blank *blank = blanks->first; blank != NULL;) {
        struct blank_row row = take_row(setter, blank, font);
        struct pdf_piece *piece = pdf_add_piece(setter, blank == blanks->first ? before : 0, height);
        piece->keep_with_next = row.end != NULL;
        double more = fmax(0, (setter->width - row.used) / (double)row.count);
        double x = 0;
        double line = height - pdf_scaled(setter, 4);
        for (; blank != row.end; blank = blank->next) {
            const struct pdf_text *label = pdf_set_short(setter->type, font, setter->width / 2, blank->label);
            pdf_put_text(setter, piece, label, x, line - label->first->ascent);
            double start = x + fmin(label->width, setter->width / 2) + pdf_scaled(setter, 4);
            double room = room_of(setter, blank->room) + more;
            pdf_add_mark(setter, piece, PDF_RULE, start, line + 1, room, 0)->weight = 0.5;
            x = start + room;
            if (blank->unit.length > 0) {
                const struct pdf_text *unit = pdf_set(setter->type, font, 0, blank->unit);
                pdf_put_text(setter, piece, unit, x + 3, line - unit->first->ascent);
                x += unit->width + 3;
            }
            x += pdf_scaled(setter, 12);
        }
    }
}

/* ---- pictograms and codes ---- */

static void set_pictograms(struct pdf_setter *setter, const struct page_pictograms *pictograms, double before)
{
    struct pdf_font font = pdf_font(setter, PDF_REGULAR, 7.5);
    /* On a label two go side by side, without their names: who reads a label knows them, and the words stand beside. */
    double across = setter->label ? fmin(fmax(setter->width / 2, LEAST_PICTOGRAM), MOST_PICTOGRAM) : pdf_scaled(setter, 66);
    double size = setter->label ? across - 2 : pdf_scaled(setter, 46);
    bool alone = setter->label && pictograms->first == pictograms->last;
    double x = alone ? (setter->width - across) / 2 : 0;
    struct pdf_piece *piece = NULL;
    for (const struct page_pictogram *one = pictograms->first; one != NULL; one = one->next) {
        if (piece == NULL || x + across > setter->width + 0.01) {
            piece = pdf_add_piece(setter, piece == NULL ? before : setter->label ? 1 : pdf_scaled(setter, 4), size);
            x = alone ? x : 0;
        }
        const struct pictogram *drawn = pictogram_find(one->code);
        if (drawn != NULL) {
            pdf_add_mark(setter, piece, PDF_PICTOGRAM, x + (across - size) / 2, 0, size, size)->as.pictogram = drawn;
        }
        double y = size;
        struct text lines[] = {drawn == NULL ? one->code : (struct text){0}, one->name};
        for (size_t i = 0; i < 2 && (drawn == NULL || !setter->label); i++) {
            const struct pdf_text *text = pdf_set(setter->type, font, across - 4, lines[i]);
            if (lines[i].length > 0) {
                y += pdf_put_text(setter, piece, text, x + (across - text->width) / 2, y);
            }
        }
        piece->height = fmax(piece->height, y);
        x += across;
    }
}

/* On a label: the code as wide as its strip, its words below; a module is half a millimetre or more. */
static void set_label_code(struct pdf_setter *setter, const struct page_code *code, const struct square_code *square, double before)
{
    double size = fmin(setter->width, 76);
    struct pdf_piece *piece = pdf_add_piece(setter, before, size);
    pdf_add_mark(setter, piece, PDF_CODE, (setter->width - size) / 2, 0, size, size)->as.code = square;
    struct pdf_font small = pdf_font(setter, PDF_REGULAR, 7);
    struct text lines[] = {code->label, code->content};
    size_t number = code->label.length > 0 ? 0 : 1; /* the batch is easier to tell than a fingerprint */
    const struct pdf_text *text = pdf_set(setter->type, small, setter->width, lines[number]);
    piece->height += pdf_put_text(setter, piece, text, fmax(0, (setter->width - text->width) / 2), size);
}

static void set_code(struct pdf_setter *setter, const struct page_code *code, double before)
{
    const struct square_code *square = square_code_make(setter->arena, code->content);
    if (setter->label && square != NULL) {
        set_label_code(setter, code, square, before);
        return;
    }
    double size = square == NULL ? 0 : pdf_scaled(setter, 76);
    double gap = square == NULL ? 0 : pdf_scaled(setter, 6);
    struct pdf_piece *piece = pdf_add_piece(setter, before, size);
    if (square != NULL) {
        pdf_add_mark(setter, piece, PDF_CODE, 0, 0, size, size)->as.code = square;
    }
    double room = fmax(setter->width - size - gap, 20);
    double y = square == NULL ? 0 : pdf_scaled(setter, 6);
    if (code->label.length > 0) {
        y += pdf_put_text(setter, piece, pdf_set(setter->type, pdf_font(setter, PDF_BOLD, BODY), room, code->label), size + gap, y);
    }
    y += pdf_put_text(setter, piece, pdf_set(setter->type, pdf_font(setter, PDF_REGULAR, 7.5), room, code->content), size + gap, y);
    piece->height = fmax(piece->height, y);
}

/* ---- all of them ---- */

static void set_block(struct pdf_setter *setter, const struct page_block *block, double before)
{
    struct pdf_piece *last_before = setter->out->last;
    switch (block->kind) {
    case PAGE_HEADING:
        set_heading(setter, block->as.heading, before);
        break;
    case PAGE_PARAGRAPH:
        pdf_add_text(setter, pdf_font(setter, PDF_REGULAR, BODY), 0, before, block->as.paragraph);
        break;
    case PAGE_LIST:
        set_list(setter, block->as.list, before);
        break;
    case PAGE_FACTS:
        pdf_set_facts(setter, block->as.facts, before, false);
        break;
    case PAGE_TABLE:
        pdf_set_table(setter, block->as.table);
        break;
    case PAGE_WARNING:
        set_warning(setter, block->as.warning, before);
        break;
    case PAGE_BLANKS:
        set_blanks(setter, block->as.blanks, before);
        break;
    case PAGE_PICTOGRAMS:
        set_pictograms(setter, block->as.pictograms, before);
        break;
    case PAGE_CODE:
        set_code(setter, block->as.code, before);
        break;
    case PAGE_TIMELINE:
        pdf_set_timeline(setter, block->as.timeline);
        break;
    case PAGE_CONTENTS:
        pdf_set_contents(setter, block->as.contents);
        break;
    case PAGE_RULE:
        pdf_add_mark(setter, pdf_add_piece(setter, before, 1), PDF_RULE, 0, 0.5, setter->width, 0)->weight = 0.5;
        break;
    case PAGE_BREAK:
        break; /* seen by the caller */
    }
    struct pdf_piece *first = last_before == NULL ? setter->out->first : last_before->next;
    if (first != NULL && first->before <= 0) {
        first->before = before;
    }
    if (block->keep_with_next && setter->out->last != NULL) {
        setter->out->last->keep_with_next = true;
    }
}

/* What takes the whole width wherever it stands. */
static bool takes_all(struct pdf_setter *setter, double column, const struct page_block *block)
{
    switch (block->kind) {
    case PAGE_HEADING:
        return block->as.heading->level == 1;
    case PAGE_TABLE:
        return !pdf_table_fits(setter, block->as.table, column);
    case PAGE_TIMELINE:
    case PAGE_CONTENTS:
    case PAGE_WARNING:
    case PAGE_RULE:
    case PAGE_BREAK:
        return true;
    case PAGE_PARAGRAPH:
    case PAGE_LIST:
    case PAGE_FACTS:
    case PAGE_BLANKS:
    case PAGE_PICTOGRAMS:
    case PAGE_CODE:
        break;
    }
    return false;
}

/* The same with what belongs to it: the heading above a table. */
static bool is_wide(struct pdf_setter *setter, double column, const struct page_block *block)
{
    bool wide = takes_all(setter, column, block);
    while (!wide && block->keep_with_next && block->next != NULL) {
        block = block->next;
        wide = takes_all(setter, column, block);
    }
    return wide;
}

/* Blocks from here on that may stand in two columns: at least two headings, so that there is something to stand side by side. */
static const struct page_block *end_of_columns(struct pdf_setter *setter, double column, const struct page_block *first)
{
    size_t headings = 0;
    const struct page_block *block = first;
    for (; block != NULL && !is_wide(setter, column, block); block = block->next) {
        headings += block->kind == PAGE_HEADING;
    }
    return headings >= 2 ? block : first;
}

void pdf_set_blocks(struct pdf_setter *setter, const struct page *page, double column, unsigned most)
{
    double width = setter->width;
    bool new_sheet = false;
    const struct page_block *previous = NULL;
    const struct page_block *columns_end = NULL;
    bool in_columns = false;
    for (const struct page_block *block = page->first; block != NULL; block = block->next) {
        if (in_columns && block == columns_end) {
            in_columns = false;
        }
        if (!in_columns && column > 0) {
            columns_end = end_of_columns(setter, column, block);
            in_columns = columns_end != block;
        }
        if (block->kind == PAGE_BREAK) {
            new_sheet = true;
            continue;
        }
        bool graphic = block->kind == PAGE_PICTOGRAMS || block->kind == PAGE_CODE;
        if (block->gives_way > most || (setter->blocks != PDF_BLOCKS_ALL && graphic != (setter->blocks == PDF_BLOCKS_GRAPHICS))) {
            continue;
        }
        setter->width = in_columns ? column : width;
        struct pdf_piece *last_before = setter->out->last;
        set_block(setter, block, space_before(setter, previous, block));
        struct pdf_piece *piece = last_before == NULL ? setter->out->first : last_before->next;
        if (piece != NULL) {
            piece->new_sheet = new_sheet;
            new_sheet = false;
        }
        for (; piece != NULL; piece = piece->next) {
            piece->wide = !in_columns;
        }
        previous = block;
    }
    setter->width = width;
}

void pdf_set_head(struct pdf_setter *setter, const struct page *page)
{
    struct pdf_piece *last_before = setter->out->last;
    if (page->title.length > 0) {
        struct pdf_font font = pdf_font(setter, PDF_BOLD, setter->label ? LABEL_TITLE : TITLE);
        if (!setter->label && pdf_set(setter->type, font, 0, page->title)->width > setter->width) {
            font = pdf_font(setter, PDF_BOLD, LONG_TITLE);
        }
        pdf_add_text(setter, font, 0, 0, page->title);
    }
    if (page->subtitle.length > 0) {
        pdf_add_text(setter, pdf_font(setter, PDF_REGULAR, setter->label ? BODY : SUBTITLE), 0, 0, page->subtitle);
    }
    double weight = setter->label ? 0.8 : 1.6;
    struct pdf_piece *rule = pdf_add_piece(setter, pdf_scaled(setter, setter->label ? 1 : 3), weight);
    pdf_add_mark(setter, rule, PDF_FILL, 0, 0, setter->width, weight);
    pdf_set_facts(setter, &page->facts, pdf_scaled(setter, setter->label ? 2 : 5), true);
    for (struct pdf_piece *piece = last_before == NULL ? setter->out->first : last_before->next; piece != NULL; piece = piece->next) {
        piece->wide = true;
    }
}
