/* For the files that read shelves. */
#ifndef POTASH_STORE_SHELVING_H
#define POTASH_STORE_SHELVING_H

#include "store/reading.h"
#include "store/store.h"

/* The shelf that is being read. */
struct shelving {
    struct store *store;
    struct checker checker;
    struct shelf *shelf;
};

/* The day of a count, which is reported when it is still to come; CALENDAR_NO_DAY when the calendar has none such. */
long shelving_read_count(struct shelving *shelving, struct text date, struct span span);

/* The currency of that code; NULL when there is none, which is reported. */
const struct unit *shelving_currency(struct shelving *shelving, struct name *name, struct span span);

/* A `holds` or `sold` line. */
void shelving_read_pack(struct shelving *shelving, const struct holding_statement *statement);

#endif
