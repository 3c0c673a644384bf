/* What the shelf's page, JSON and table have in common: words, amounts, order. */
#include "report/shelf.h"

#include "report/cost.h"

#include <math.h>
#include <stdlib.h>

const char *shelf_how(const struct mixable *mixable)
{
    return mixable->how == FOUND_AS_WRITTEN       ? "as written"
           : mixable->how <= FOUND_OTHER_MATERIAL ? "with other forms"
                                                  : "no";
}

static int compare_expiry(const void *left, const void *right)
{
    const struct pack *a = *(const struct pack *const *)left;
    const struct pack *b = *(const struct pack *const *)right;
    if (a->best_before != b->best_before) {
        return a->best_before < b->best_before ? -1 : 1;
    }
    uint32_t first = a->statement->base.span.begin;
    uint32_t second = b->statement->base.span.begin;
    return (first > second) - (first < second);
}

const struct pack **shelf_expiring(const struct shelf_view *view)
{
    const struct store *store = view->store;
    size_t count = 0;
    for (const struct pack *pack = store->packs; pack != NULL; pack = pack->next) {
        count++;
    }
    const struct pack **list = ARENA_ARRAY(store->arena, const struct pack *, count + 1);
    size_t kept = 0;
    for (const struct pack *pack = store->packs; pack != NULL; pack = pack->next) {
        bool dated = !pack->sold && pack->left > 0 && pack->best_before != CALENDAR_NO_DAY;
        if (dated && (store->today == CALENDAR_NO_DAY || pack->best_before - store->today <= view->horizon)) {
            list[kept++] = pack;
        }
    }
    qsort(list, kept, sizeof(const struct pack *), compare_expiry);
    return list;
}

struct text shelf_amount(const struct report_context *context, struct page *page, const struct pack *pack, double amount)
{
    return pack->by_volume ? print_volume(context, page, amount) : print_mass(context, page, amount);
}

struct text shelf_batch(const struct report_context *context, struct page *page, const struct batch *batch)
{
    const struct formula *formula = batch->formula;
    if (formula->part_count != 1) {
        return (struct text){0};
    }
    const struct part *part = formula->parts;
    if (!isnan(part->makes)) {
        return print_volume(context, page, part->makes);
    }
    return isnan(part->makes_mass) ? (struct text){0} : print_mass(context, page, part->makes_mass);
}

/* Grams, or mL where the pack counts so. */
static struct text drawn_amount(const struct shelf_view *view, struct page *page, const struct drawn *drawn)
{
    return shelf_amount(view->context, page, drawn->pack, pack_amount(drawn->pack, drawn->grams));
}

struct text shelf_instead(const struct shelf_view *view, struct page *page, const struct found *found)
{
    const struct need *need = found->need;
    if (found->how != FOUND_OTHER_FORM && found->how != FOUND_OTHER_MATERIAL) {
        return (struct text){0};
    }
    struct buffer out;
    buffer_start(&out, page->arena);
    for (const struct drawn *drawn = found->drawn; drawn != NULL; drawn = drawn->next) {
        /* One row for each form, not for each pack. */
        struct drawn all = *drawn;
        while (drawn->next != NULL && drawn->next->pack->form == drawn->pack->form) {
            drawn = drawn->next;
            all.grams += drawn->grams;
        }
        struct text amount = drawn_amount(view, page, &all);
        struct text name = print_material(page, all.pack->material, all.pack->form);
        buffer_format(&out, "%s%.*s of %.*s", out.length == 0 ? "" : " and ", TEXT_ARGUMENTS(amount), TEXT_ARGUMENTS(name));
    }
    struct text wanted = report_need_amount(view->context, page, need);
    struct text label = found->how == FOUND_OTHER_MATERIAL || need->form->label.length == 0
                            ? print_material(page, need->material, need->form)
                            : need->form->label;
    buffer_format(&out, " in place of %.*s %.*s", TEXT_ARGUMENTS(wanted), TEXT_ARGUMENTS(label));
    return text_from(buffer_finish(&out));
}

struct text shelf_missing(const struct shelf_view *view, struct page *page, const struct found *found)
{
    const struct need *need = found->need;
    struct text name = print_material(page, need->material, need->form);
    if (found->how == FOUND_TOO_LITTLE) {
        struct need rest = *need;
        rest.grams = found->short_of;
        return page_format(page, "%.*s, %.*s short", TEXT_ARGUMENTS(name),
                           TEXT_ARGUMENTS(report_need_amount(view->context, page, &rest)));
    }
    if (found->how == FOUND_ONLY_OLD) {
        return page_format(page, "%.*s: all of it is past its day", TEXT_ARGUMENTS(name));
    }
    return found_is_there(found)
               ? (struct text){0}
               : page_format(page, "%.*s, %.*s", TEXT_ARGUMENTS(name), TEXT_ARGUMENTS(report_need_amount(view->context, page, need)));
}

struct text shelf_left(const struct shelf_view *view, struct page *page, const struct pack *pack)
{
    double left = pack->left;
    if (pack->calculated > 0 && left > 0) {
        double step = pow(10, floor(log10(left)) - 2);
        left = round(left / step) * step;
    }
    return shelf_amount(view->context, page, pack, left);
}

struct text shelf_written_left(const struct shelf_view *view, const struct pack *pack)
{
    const struct holding_statement *statement = pack->statement;
    return source_text(view->store->formulary->sources, (statement->left != NULL ? statement->left : statement->pack)->span);
}

struct text shelf_as_counted(const struct shelf_view *view, struct page *page, const struct pack *pack)
{
    if (pack->batches == 0) {
        return (struct text){0};
    }
    struct text day = calendar_print(page->arena, pack->counted);
    struct text amount = shelf_written_left(view, pack);
    const char *batches = page_format(page, "%zu batch%s%s", pack->batches, pack->batches == 1 ? "" : "es",
                                      pack->calculated == 0               ? ""
                                      : pack->calculated == pack->batches ? " (calculated)"
                                                                          : page_format(page, " (%zu of them calculated)", pack->calculated).at)
                              .at;
    if (!(pack->left > 0)) {
        return page_format(page, "%.*s when counted on %.*s; used up by %s since", TEXT_ARGUMENTS(amount), TEXT_ARGUMENTS(day), batches);
    }
    return page_format(page, "%.*s when counted on %.*s; now %s%.*s, by what %s took", TEXT_ARGUMENTS(amount), TEXT_ARGUMENTS(day),
                       pack->calculated > 0 ? "about " : "", TEXT_ARGUMENTS(shelf_left(view, page, pack)), batches);
}

struct text shelf_purchase_remark(const struct lack *lack)
{
    switch (lack->fault) {
    case PURCHASE_NO_PACK:
        return TEXT("no pack of it is known; write down what shops sell with a sold line");
    case PURCHASE_NO_PRICE:
        return TEXT("no price is known; the fewest packs are taken");
    case PURCHASE_OTHER_CURRENCY:
        return TEXT("priced in another currency, and not in the sum");
    case PURCHASE_NOT_PROVED:
        return TEXT("there may be something a little cheaper: the search was broken off");
    case PURCHASE_GOOD:
    default:
        return (struct text){0};
    }
}

struct money shelf_total(const struct shelf_view *view, bool *complete)
{
    struct money total = money_of_coins(0);
    *complete = true;
    for (const struct lack *lack = view->lacks; lack != NULL; lack = lack->next) {
        bool counted = lack->fault == PURCHASE_GOOD || lack->fault == PURCHASE_NOT_PROVED;
        total = counted ? money_add(total, lack->cost) : total;
        *complete = *complete && counted;
    }
    return total;
}
