/* What the compiler warns of, where it matters on the sheet: beside an addition, under a use, or at the head. */
#include "report/sheet/model.h"

static void warn_of_line(const struct sheet *sheet, struct sheet_note **list, struct span line)
{
    const struct diagnostics *diagnostics = sheet->context->formulary->diagnostics;
    for (size_t i = diagnostics_from(diagnostics, line.begin);
         i < diagnostics->count && diagnostics->items[i]->span.begin < line.end; i++) {
        const struct diagnostic *item = diagnostics->items[i];
        if (item->id != DIAG_RANGE_GIVEN) { /* the sheet prints the range */
            sheet_note(sheet, list, page_plain(text_from(diagnostic_message(sheet->page->arena, item))))->title = TEXT("Check first");
        }
    }
}

/* Lines that have a row among the additions, where their warnings stand. */
static bool has_row(const struct statement *statement)
{
    return statement->kind >= SAY_ADDITION && statement->kind <= SAY_DO;
}

void sheet_warn_of_bath(struct sheet *sheet)
{
    warn_of_line(sheet, &sheet->warnings, sheet->formula->declaration->span);
    for (const struct statement *statement = sheet->formula->statements; statement != NULL;
         statement = statement->next) {
        if (!has_row(statement) && !statement_is_of_use(statement)) {
            warn_of_line(sheet, &sheet->warnings, statement->span);
        }
    }
}

void sheet_warn_of_use(const struct sheet *sheet, struct sheet_use *use)
{
    bool inside = false;
    for (const struct statement *statement = sheet->formula->statements; statement != NULL;
         statement = statement->next) {
        inside = statement->kind == SAY_USE ? statement->span.begin == use->use->span.begin : inside;
        if (inside && statement_is_of_use(statement)) {
            warn_of_line(sheet, &use->warnings, statement->span);
        }
    }
}
