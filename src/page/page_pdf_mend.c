/* Free entries in a table of cross references; no date. */
#define _GNU_SOURCE /* memmem */

#include "page/page_pdf_mend.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ENTRY = 20 /* bytes of an entry: "0000000456 00000 n \n" */, TAIL = 64 };

/* Where the table starts; `length` when the document does not say it. */
static size_t find_table(const unsigned char *bytes, size_t length)
{
    static const char word[] = "startxref\n";
    char tail[TAIL + 1];
    size_t count = length < TAIL ? length : TAIL;
    memcpy(tail, bytes + length - count, count);
    tail[count] = '\0';
    const char *found = strstr(tail, word);
    unsigned long at = found == NULL ? length : strtoul(found + sizeof word - 1, NULL, 10);
    return at + 5 < length && memcmp(bytes + at, "xref\n", 5) == 0 ? at + 5 : length;
}

/* Whether object `number` begins at `offset`. */
static int begins_at(const unsigned char *bytes, size_t length, size_t offset, unsigned long number)
{
    char wanted[32];
    size_t size = (size_t)snprintf(wanted, sizeof wanted, "%lu 0 obj", number);
    return offset < length && length - offset >= size && memcmp(bytes + offset, wanted, size) == 0;
}

void pdf_mend_references(unsigned char *bytes, size_t length)
{
    size_t at = find_table(bytes, length);
    char head[48] = "";
    memcpy(head, bytes + at, length - at < sizeof head - 1 ? length - at : sizeof head - 1);
    char *end;
    unsigned long first = strtoul(head, &end, 10);
    unsigned long count = strtoul(end, &end, 10);
    if (end == head || *end != '\n') {
        return;
    }
    at += (size_t)(end + 1 - head);
    for (unsigned long number = first; number < first + count && length - at >= ENTRY; number++, at += ENTRY) {
        char entry[ENTRY + 1] = "";
        memcpy(entry, bytes + at, ENTRY);
        if (entry[17] == 'n' && !begins_at(bytes, length, strtoul(entry, NULL, 10), number)) {
            memcpy(bytes + at, "0000000000 65535 f", 18);
        }
    }
}

void pdf_mend_date(unsigned char *bytes, size_t length)
{
    /* In a text of ours the bracket would have a stroke before it. */
    static const char entry[] = "/CreationDate (";
    unsigned char *found = memmem(bytes, length, entry, sizeof entry - 1);
    if (found != NULL) {
        unsigned char *end = memchr(found, ')', length - (size_t)(found - bytes));
        memset(found, ' ', end == NULL ? 0 : (size_t)(end + 1 - found));
    }
}
