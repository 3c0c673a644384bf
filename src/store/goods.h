/* Counted goods: rolls, sheets of a size, areas; what one kind is worth in another. */
#ifndef POTASH_STORE_GOODS_H
#define POTASH_STORE_GOODS_H

#include "formula/checking.h"

struct goods {
    double count;                  /* 0 when none are meant */
    struct name *unit;             /* "rolls", "sheets"; NULL when none are meant */
    const struct sheet_size *size; /* of sheets, or NULL */
    double area;                   /* cm2 of one; NAN when unknown */
};

/* Reads "10 sheets 8x10 in", "2 rolls"; false when it is no count of goods, or of sheets without a size, which is reported.
 * `example` is shown as help. */
bool goods_read(struct checker *checker, const struct quantity *quantity, const char *example, struct goods *goods);

/* The goods that a use's capacity is counted in (as many as its capacity says), and those that its need of stock is (one). */
struct goods goods_of_capacity(const struct use *use);
struct goods goods_of_needs(const struct use *use);

/* How many of the kind `to` the goods `from` are, by area, or by name where both have none; NAN when they cannot be compared.  A
 * roll is 80 square inches (common practice, see stdlib/units.bath). */
double goods_in(const struct goods *from, const struct goods *to);

/* Whether both are of one kind: both rolls, or both sheets, whatever their sizes. */
bool goods_alike(const struct goods *a, const struct goods *b);

#endif
