/* Safety in a book: what each bottle and each working solution bears, side by side. */
#include "report/book.h"

#include "report/notices.h"

struct columns {
    struct page_column *name, *signal, *codes, *pictograms;
};

/* "H302, H315", and the pictograms as their codes. */
static void fill_row(const struct columns *columns, struct page_row *row, struct page *page, const struct mixture_safety *safety)
{
    if (safety == NULL) {
        page_row_cell(row, columns->codes, TEXT("NOT ASSESSED: treat it as poisonous and corrosive"));
        return;
    }
    struct buffer codes;
    struct buffer signs;
    buffer_start(&codes, page->arena);
    buffer_start(&signs, page->arena);
    for (const struct safety_statement *statement = safety->hazards; statement != NULL; statement = statement->next) {
        buffer_format(&codes, "%s%.*s", codes.length > 0 ? ", " : "", TEXT_ARGUMENTS(statement->code));
    }
    for (size_t i = 0; i < safety->pictogram_count; i++) {
        buffer_format(&signs, "%s%.*s", signs.length > 0 ? ", " : "", TEXT_ARGUMENTS(safety->pictograms[i].name));
    }
    page_row_cell(row, columns->signal, safety->signal_word);
    struct text known = codes.length > 0 ? (struct text){codes.bytes, codes.length} : TEXT("none known");
    struct text names = notice_names(page->arena, safety->unassessed);
    page_row_cell(row, columns->codes,
                  safety->unassessed == NULL ? known
                                             : page_format(page, "NOT ASSESSED (%.*s)%s%.*s", TEXT_ARGUMENTS(names),
                                                           codes.length > 0 ? "; of the rest: " : "", (int)codes.length, codes.bytes));
    for (const struct hazard_stop *stop = safety->stops; stop != NULL; stop = stop->next) {
        page_row_remark(row, page_format(page, "STOP: %.*s: %.*s", TEXT_ARGUMENTS(stop->material), TEXT_ARGUMENTS(stop->words)));
    }
    page_row_cell(row, columns->pictograms, ((struct text){signs.bytes, signs.length}));
    if (safety->signal == SIGNAL_DANGER) {
        page_row_emphasize(row, columns->signal);
    }
}

static void add_formula(const struct book *book, const struct columns *columns, struct page_table *table, struct page *page,
                        const struct formula *formula)
{
    const struct solutions solutions = solutions_of_formula(book->context->formulary, formula);
    const struct mixture_safety *const *safety = solutions.parts;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        struct page_row *row = page_table_row(table);
        page_row_cell(row, columns->name,
                      part->name == NULL ? formula->title : page_format(page, "%.*s, part %.*s", TEXT_ARGUMENTS(formula->title),
                                                                        TEXT_ARGUMENTS(part->name->spelling)));
        fill_row(columns, row, page, *safety++);
    }
    safety = solutions.uses;
    for (const struct use *use = formula->uses; use != NULL; use = use->next, safety++) {
        if (use->mix == NULL && !(use->water_parts > 0)) {
            continue; /* used as it stands in the bottle */
        }
        struct page_row *row = page_table_row(table);
        page_row_cell(row, columns->name, page_format(page, "\u2013 diluted for %.*s", TEXT_ARGUMENTS(use->name)));
        fill_row(columns, row, page, *safety);
    }
}

void book_add_safety(const struct book *book)
{
    struct page *page = book_add_page(book, TEXT("safety"), TEXT("Safety"));
    page_set_subtitle(page, TEXT("Hazards of the mixtures, classified by calculation: an estimate"));
    page_add_paragraph(page, TEXT("What a label of the bottle or of the working solution bears: the signal word, the hazard statements by "
                                  "their codes, the pictograms. `potash safety` gives the reasons, and `potash label` the label."));
    page_keep_with_next(page);
    struct page_table *table = page_add_table(page);
    struct columns columns;
    columns.name = page_table_column(table, TEXT("mixture"), PAGE_COLUMN_TEXT, PAGE_LEFT, 2);
    columns.signal = page_table_column(table, TEXT("signal word"), PAGE_COLUMN_TEXT, PAGE_LEFT, 2);
    columns.codes = page_table_column(table, TEXT("statements"), PAGE_COLUMN_TEXT, PAGE_LEFT, 3);
    columns.pictograms = page_table_column(table, TEXT("pictograms"), PAGE_COLUMN_TEXT, PAGE_LEFT, 3);
    for (size_t i = 0; i < book->count; i++) {
        add_formula(book, &columns, table, page, book->chapters[i].formula);
    }
}
