/* The shelf as one table of comma-separated values, after RFC 4180: CRLF behind each record, every record with as many fields as
 * the header, a field in quotes where it holds a comma, a quote or the end of a line, quotes in it doubled. */
#include "report/shelf.h"

#include "base/number.h"
#include "base/shown.h"

/* The fields of a record, in the order of the header. */
struct record {
    struct text list;                /* "left", "mix", "buy", "expires" */
    struct text title;               /* of a formula, or of the shelf */
    struct text material;
    struct text form;
    struct text amount;              /* a plain number */
    struct text unit;
    struct text packs;
    struct text pack;                /* as it is written */
    struct text price;               /* of the packs: a plain number */
    struct text currency;
    struct text day;                 /* best before */
    struct text lot;
    struct text supplier;
    struct text remark;
    struct text counted;             /* what was left on the day of the count: a plain number */
    struct text counted_on;
};

static const char header[] = "list,title,material,form,amount,unit,packs,pack,price,currency,best before,lot,supplier,remark,as counted,counted on\r\n";

/* A plain number, such as -12.5, which a program reads as one. */
static bool is_number(struct text field)
{
    size_t at = field.length > 0 && (field.at[0] == '-' || field.at[0] == '+');
    size_t digits = 0;
    for (bool point = false; at < field.length && (text_is_digit(field.at[at]) || (field.at[at] == '.' && !point)); at++) {
        point = point || field.at[at] == '.';
        digits += text_is_digit(field.at[at]);
    }
    return digits > 0 && at == field.length;
}

/* Whether a spreadsheet would take the field for a formula to work out: behind blanks and quotes it begins with one of these signs, or
 * with one of their wide forms (U+FF1D, U+FF0B, U+FF0D, U+FF20).  An apostrophe counts with them, so that the one that is put before
 * such a field can be taken away again. */
static bool begins_as_formula(struct text field)
{
    static const char *const full_width[] = {"＝", "＋", "－", "＠"};
    while (field.length > 0 && strchr(" \"", field.at[0]) != NULL) {
        field = (struct text){field.at + 1, field.length - 1};
    }
    for (size_t i = 0; i < sizeof full_width / sizeof *full_width; i++) {
        if (field.length >= 3 && memcmp(field.at, full_width[i], 3) == 0) {
            return true;
        }
    }
    return field.length > 0 && strchr("=+-@'\t\r\n", field.at[0]) != NULL && !is_number(field);
}

/* A text that a spreadsheet would work out gets an apostrophe before it, by which these programs know a text; numbers stay numbers. */
static void put_field(struct buffer *out, struct text field, bool last)
{
    const bool defused = begins_as_formula(field);
    field = shown_line(out->arena, field);
    bool quoted = false;
    for (size_t i = 0; i < field.length; i++) {
        quoted = quoted || strchr(",\"\r\n", field.at[i]) != NULL;
    }
    buffer_string(out, quoted ? "\"" : "");
    buffer_string(out, defused ? "'" : "");
    for (size_t i = 0; i < field.length; i++) {
        if (field.at[i] == '"') {
            buffer_character(out, '"');
        }
        buffer_character(out, field.at[i]);
    }
    buffer_string(out, quoted ? "\"" : "");
    buffer_string(out, last ? "\r\n" : ",");
}

static void put_record(struct buffer *out, const struct record *record)
{
    const struct text fields[] = {record->list,  record->title, record->material, record->form, record->amount,
                                  record->unit,  record->packs, record->pack,     record->price, record->currency,
                                  record->day,   record->lot,   record->supplier, record->remark,
                                  record->counted, record->counted_on};
    const size_t count = sizeof fields / sizeof *fields;
    for (size_t i = 0; i < count; i++) {
        put_field(out, fields[i], i + 1 == count);
    }
}

static struct text number_text(struct arena *arena, double number)
{
    return text_from(number_print_significant(arena, number, 9));
}

/* Money as a plain number with the currency's decimals. */
static struct text money_number(struct arena *arena, struct money money, const struct unit *currency)
{
    struct text text = money_print(arena, money, currency);
    size_t length = 0;
    while (length < text.length && strchr("-0123456789.", text.at[length]) != NULL) {
        length++;
    }
    return (struct text){text.at, length};
}

static struct record pack_record(const struct shelf_view *view, const struct pack *pack, struct text list)
{
    struct arena *arena = view->store->arena;
    return (struct record){.list = list,
                           .title = pack->shelf->title,
                           .material = pack->material->name,
                           .form = pack->form->label,
                           .amount = number_text(arena, pack->left),
                           .unit = pack->by_volume ? TEXT("mL") : TEXT("g"),
                           .pack = source_text(view->store->formulary->sources, pack->statement->pack->span),
                           .price = pack->currency == NULL
                                        ? (struct text){0}
                                        : money_number(arena, money_of_coins(pack->price), pack->currency),
                           .currency = pack->currency == NULL ? (struct text){0} : pack->currency->name,
                           .day = calendar_print(arena, pack->best_before),
                           .lot = pack->lot,
                           .supplier = pack->supplier,
                           .remark = pack_is_old(view->store, pack) ? TEXT("too old") : (struct text){0},
                           .counted = pack->counted == CALENDAR_NO_DAY ? (struct text){0} : number_text(arena, pack->written_left),
                           .counted_on = calendar_print(arena, pack->counted)};
}

static void put_mixable(const struct shelf_view *view, struct page *page, const struct mixable *mixable, struct buffer *out)
{
    struct record record = {.list = TEXT("mix"), .title = mixable->batch->written->title, .remark = text_from(shelf_how(mixable))};
    bool any = false;
    for (const struct found *found = mixable->found; found != NULL; found = found->next) {
        struct text words = found_is_there(found) ? shelf_instead(view, page, found) : shelf_missing(view, page, found);
        if (words.length > 0) {
            record.material = found->need->material->name;
            record.form = found->need->form->label;
            record.amount = number_text(page->arena, found->need->grams);
            record.unit = TEXT("g");
            record.remark = page_format(page, "%s: %.*s", shelf_how(mixable), TEXT_ARGUMENTS(words));
            put_record(out, &record);
            any = true;
        }
    }
    if (!any) {
        put_record(out, &record);
    }
}

static void put_lack(const struct shelf_view *view, struct page *page, const struct lack *lack, struct buffer *out)
{
    struct arena *arena = page->arena;
    struct record record = {.list = TEXT("buy"),
                            .material = lack->material->name,
                            .form = lack->form->label,
                            .amount = number_text(arena, lack->lacking),
                            .unit = TEXT("g"),
                            .remark = shelf_purchase_remark(lack)};
    if (lack->purchases == NULL) {
        put_record(out, &record);
    }
    for (const struct purchase *purchase = lack->purchases; purchase != NULL; purchase = purchase->next) {
        const struct pack *pack = purchase->pack;
        record.form = pack->form->label;
        record.packs = page_format(page, "%lu", purchase->count);
        record.pack = source_text(view->store->formulary->sources, pack->statement->pack->span);
        record.supplier = pack->supplier;
        if (lack->currency != NULL) {
            record.price = money_number(arena, money_of_coins((long long)purchase->count * pack->price), lack->currency);
            record.currency = lack->currency->name;
        }
        put_record(out, &record);
    }
}

void report_shelf_csv(const struct shelf_view *view, struct buffer *out)
{
    struct page *page = page_start(view->store->arena); /* for what is printed into it */
    buffer_string(out, header);
    for (const struct pack *pack = view->store->packs; pack != NULL; pack = pack->next) {
        if (!pack->sold) {
            struct record record = pack_record(view, pack, TEXT("left"));
            put_record(out, &record);
        }
    }
    for (const struct mixable *mixable = view->mixables; mixable != NULL; mixable = mixable->next) {
        put_mixable(view, page, mixable, out);
    }
    for (const struct lack *lack = view->lacks; lack != NULL; lack = lack->next) {
        put_lack(view, page, lack, out);
    }
    const struct pack **expiring = shelf_expiring(view);
    for (size_t i = 0; expiring[i] != NULL; i++) {
        struct record record = pack_record(view, expiring[i], TEXT("expires"));
        put_record(out, &record);
    }
}
