/* Expiry days as a calendar, after RFC 5545: one event of a whole day for each pack of which something is left, and for each bottle
 * of the diary that is not used up. */
#include "report/shelf.h"

#include "base/shown.h"
#include "base/version.h"

#include <ctype.h>
#include <math.h>
#include <stdint.h>

enum { LONGEST_LINE = 75 /* octets without the end of the line: RFC 5545, 3.1 */ };

/* A content line, folded: what is longer goes on behind CRLF and a blank, and no character is cut in two. */
static void put_line(struct buffer *out, const char *line)
{
    size_t used = 0;
    for (const char *at = line; *at != '\0';) {
        size_t length = 1;
        while (((unsigned char)at[length] & 0xC0) == 0x80) {
            length++;
        }
        if (used + length > LONGEST_LINE) {
            buffer_string(out, "\r\n ");
            used = 1;
        }
        buffer_add(out, at, length);
        used += length;
        at += length;
    }
    buffer_string(out, "\r\n");
}

/* TEXT of 3.3.11, which holds no control characters: backslash, semicolon and comma with a backslash before them. */
static void add_text(struct buffer *out, struct text text)
{
    text = shown_line(out->arena, text);
    for (size_t i = 0; i < text.length; i++) {
        if (strchr("\\;,", text.at[i]) != NULL) {
            buffer_character(out, '\\');
        }
        buffer_character(out, text.at[i]);
    }
}

static void put_text(struct buffer *out, const char *property, struct arena *arena, struct text text)
{
    struct buffer line;
    buffer_start(&line, arena);
    buffer_string(&line, property);
    add_text(&line, text);
    put_line(out, buffer_finish(&line));
}

/* "20260304". */
static const char *basic_day(struct arena *arena, long day)
{
    struct text extended = calendar_print(arena, day);
    char *basic = arena_copy(arena, extended.at, extended.length);
    size_t length = 0;
    for (size_t i = 0; i < extended.length; i++) {
        if (isdigit((unsigned char)extended.at[i])) {
            basic[length++] = extended.at[i];
        }
    }
    basic[length] = '\0';
    return basic;
}

/* FNV-1a, 64 bits (RFC 9923 has it): for identifiers that stay the same as long as the pack does. */
static uint64_t hash_text(uint64_t hash, struct text text)
{
    for (size_t i = 0; i < text.length; i++) {
        hash = (hash ^ (unsigned char)text.at[i]) * UINT64_C(1099511628211);
    }
    return (hash ^ '\n') * UINT64_C(1099511628211);
}

static bool is_like(const struct pack *a, const struct pack *b)
{
    return a->shelf == b->shelf && a->form == b->form && a->best_before == b->best_before && text_equal(a->lot, b->lot) && !a->sold;
}

/* The same calendar made again names the same events, so that a calendar program renews them instead of doubling them. */
static const char *event_id(const struct shelf_view *view, const struct pack *pack)
{
    unsigned like = 0;
    for (const struct pack *other = store_packs(view->store, pack->material); other != NULL && other != pack;
         other = other->next_of_material) {
        like += is_like(other, pack);
    }
    uint64_t hash = UINT64_C(14695981039346656037);
    hash = hash_text(hash, pack->shelf->title);
    hash = hash_text(hash, pack->material->name);
    hash = hash_text(hash, pack->form->label);
    hash = hash_text(hash, pack->lot);
    return arena_format(view->store->arena, "%016llx-%s-%u@shelf.potash.invalid", (unsigned long long)hash,
                        basic_day(view->store->arena, pack->best_before), like);
}

struct event {
    const char *id;
    const char *stamp;       /* the day on which the calendar is made */
    long day;
    struct text summary;
    struct text description;
};

static void put_event(struct arena *arena, const struct event *event, struct buffer *out)
{
    put_line(out, "BEGIN:VEVENT");
    put_line(out, arena_format(arena, "UID:%s", event->id));
    put_line(out, arena_format(arena, "DTSTAMP:%sT000000Z", event->stamp));
    put_line(out, arena_format(arena, "DTSTART;VALUE=DATE:%s", basic_day(arena, event->day)));
    put_text(out, "SUMMARY:", arena, event->summary);
    put_text(out, "DESCRIPTION:", arena, event->description);
    put_line(out, "TRANSP:TRANSPARENT");
    put_line(out, "END:VEVENT");
}

static void put_pack(const struct shelf_view *view, struct page *page, const struct pack *pack, const char *stamp, struct buffer *out)
{
    struct arena *arena = page->arena;
    struct text name = print_material(page, pack->material, pack->form);
    struct buffer about;
    buffer_start(&about, arena);
    buffer_format(&about, "%.*s left on the shelf \"%.*s\"", TEXT_ARGUMENTS(shelf_amount(view->context, page, pack, pack->left)),
                  TEXT_ARGUMENTS(pack->shelf->title));
    if (pack->lot.length > 0) {
        buffer_format(&about, ", lot %.*s", TEXT_ARGUMENTS(pack->lot));
    }
    if (pack->supplier.length > 0) {
        buffer_format(&about, ", from %.*s", TEXT_ARGUMENTS(pack->supplier));
    }
    struct event event = {event_id(view, pack), stamp, pack->best_before,
                          page_format(page, "Best before: %.*s", TEXT_ARGUMENTS(name)), text_from(buffer_finish(&about))};
    put_event(arena, &event, out);
}

/* The last day of a bottle that was mixed. */
static void put_batch(const struct shelf_view *view, struct page *page, const struct mixing *batch, const char *stamp, struct buffer *out)
{
    struct arena *arena = page->arena;
    struct mixing_standing standing = mixing_standing(batch, view->store->today, NULL);
    bool stands = standing.state == BATCH_IN_USE || standing.state == BATCH_TOO_OLD;
    if (!stands || standing.discard == CALENDAR_NO_DAY) {
        return;
    }
    uint64_t hash = hash_text(UINT64_C(14695981039346656037), batch->id);
    struct text left = isnan(standing.left) ? TEXT("some") : report_batch_amount(view->context, page, batch, standing.left);
    struct event event = {
        arena_format(arena, "%016llx@batch.potash.invalid", (unsigned long long)hash), stamp, standing.discard,
        page_format(page, "Keeps until today: batch %.*s, %.*s", TEXT_ARGUMENTS(batch->id), TEXT_ARGUMENTS(report_batch_of(page, batch))),
        page_format(page, "%.*s left, mixed on %.*s", TEXT_ARGUMENTS(left), TEXT_ARGUMENTS(calendar_print(arena, batch->mixed)))};
    put_event(arena, &event, out);
}

void report_shelf_ical(const struct shelf_view *view, struct buffer *out)
{
    const struct store *store = view->store;
    struct page *page = page_start(store->arena); /* for what is printed into it */
    const char *stamp = basic_day(store->arena, store->today);
    put_line(out, "BEGIN:VCALENDAR");
    put_line(out, "VERSION:2.0");
    put_line(out, "PRODID:-//Potash//Potash " POTASH_VERSION "//EN");
    for (const struct pack *pack = store->packs; pack != NULL; pack = pack->next) {
        if (!pack->sold && pack->left > 0 && pack->best_before != CALENDAR_NO_DAY) {
            put_pack(view, page, pack, stamp, out);
        }
    }
    for (const struct mixing *batch = view->batches->first; batch != NULL; batch = batch->next) {
        if (!batch->faulty && batch->formula != NULL) {
            put_batch(view, page, batch, stamp, out);
        }
    }
    put_line(out, "END:VCALENDAR");
}
