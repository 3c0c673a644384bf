/* What the mixing sheet says of an addition that was rewritten to what is on the shelf. */
#include "report/sheet/model.h"

#include "base/number.h"
#include "store/taking.h"

#include <math.h>

static struct page_words written_amount(const struct sheet *sheet, const struct step *written)
{
    return isnan(written->volume) ? sheet_mass(sheet, written->mass) : sheet_volume(sheet, written->volume);
}

/* "12 g of sodium carbonate (anhydrous)". */
static void add_drawn(const struct sheet *sheet, struct buffer *out, const struct drawn *drawn)
{
    struct page *page = sheet->page;
    const struct pack *pack = drawn->pack;
    double amount = pack_amount(pack, drawn->grams);
    struct text text = pack->by_volume ? print_volume(sheet->context, page, amount) : print_mass(sheet->context, page, amount);
    buffer_format(out, "%s%.*s of %.*s", out->length == 0 ? "" : " and ", TEXT_ARGUMENTS(text),
                  TEXT_ARGUMENTS(print_material(page, pack->material, pack->form)));
    if (pack->purity < 1) {
        buffer_format(out, ", %s\u00A0%% pure", number_print(page->arena, pack->purity * 100, 2));
    }
}

static struct page_words taken_words(const struct sheet *sheet, const struct batch_step *step)
{
    struct page *page = sheet->page;
    const struct taking *taking = step->taking;
    struct page_words written = written_amount(sheet, step->written);
    struct page_words name = page_plain(print_material(page, step->written->material, step->written->form));
    bool other = step->one->form != step->written->form;
    struct page_words percent = page_plain(text_from(number_print(page->arena, taking->purity * 100, 2)));
    if (other && taking->purity < 1) {
        return page_compose(page, "in place of {} {}; it is {}\u00A0% pure", written, name, percent);
    }
    if (other) {
        return page_compose(page, "in place of {} {}", written, name);
    }
    return taking->purity < 1 ? page_compose(page, "{} as written; the bottle's is {}\u00A0% pure", written, percent)
                              : page_plain((struct text){0});
}

/* The shelf was asked for one size of batch; what it says of its bottles holds for that. */
static void note_for_batch(const struct sheet *sheet, struct sheet_line *line, struct text text)
{
    sheet_note_when(sheet, &line->notes, sheet->scale * (1 - SHEET_AS_WRITTEN), sheet->scale * (1 + SHEET_AS_WRITTEN), page_plain(text));
}

struct text sheet_lots(const struct sheet *sheet, const struct batch_step *step)
{
    struct buffer out;
    buffer_start(&out, sheet->page->arena);
    for (const struct drawn *drawn = step->taking == NULL ? NULL : step->taking->drawn; drawn != NULL; drawn = drawn->next) {
        if (drawn->pack->lot.length > 0) {
            buffer_format(&out, "%s%.*s", out.length == 0 ? "" : ", ", TEXT_ARGUMENTS(drawn->pack->lot));
        }
    }
    return out.length == 0 ? (struct text){0} : text_from(buffer_finish(&out));
}

void sheet_note_shelf(const struct sheet *sheet)
{
    if (!sheet->batch->asked_shelf) {
        return;
    }
    struct page *page = sheet->page;
    bool dry;
    double size = formula_makes(sheet->batch->formula, &dry);
    struct text asked = dry ? print_mass(sheet->context, page, size) : print_volume(sheet->context, page, size);
    struct text text = page_format(page, "it was asked for a batch of %.*s and may not have enough for this one: make the sheet anew",
                                   TEXT_ARGUMENTS(asked));
    page_add_fact_when(page, 0, sheet->scale * (1 - SHEET_AS_WRITTEN), TEXT("shelf"), text);
    page_add_fact_when(page, sheet->scale * (1 + SHEET_AS_WRITTEN), INFINITY, TEXT("shelf"), text);
}

void sheet_note_taking(const struct sheet *sheet, struct sheet_line *line)
{
    const struct taking *taking = line->at->taking;
    if (taking == NULL) {
        return;
    }
    struct page *page = sheet->page;
    if (taking->several) {
        struct buffer out;
        buffer_start(&out, page->arena);
        for (const struct drawn *drawn = taking->drawn; drawn != NULL; drawn = drawn->next) {
            add_drawn(sheet, &out, drawn);
        }
        note_for_batch(sheet, line, page_format(page, "no bottle has enough: take %s", buffer_finish(&out)));
        return;
    }
    if (taking->too_little) {
        note_for_batch(sheet, line,
                       page_format(page, "the shelf is %.*s short", TEXT_ARGUMENTS(print_mass(sheet->context, page, taking->short_of))));
        return;
    }
    struct page_words words = taken_words(sheet, line->at);
    if (words.text.length > 0) {
        sheet_note(sheet, &line->notes, words)->remark = true;
    }
}
