/* Writing constant tables in C, for make_library. */
#ifndef POTASH_TOOLS_WRITE_TABLES_H
#define POTASH_TOOLS_WRITE_TABLES_H

#include "library/relation.h"
#include "practice/rules/rules.h"

/* As a string literal. */
void write_string(struct text text);

/* As what a struct text, a number or a set is initialised with, and a comma. */
void write_text(struct text text);
void write_number(double number);
void write_bits(const uint64_t *bits, size_t count);

/* The definitions of built_in_reactions and built_in_rules. */
void write_reactions(const struct reactions *reactions);
void write_rules(struct library *library, const struct rules *rules);

#endif
