/* The lines that an unfinished merge leaves in a file. */
#ifndef POTASH_SYNTAX_MERGE_CONFLICT_H
#define POTASH_SYNTAX_MERGE_CONFLICT_H

#include "syntax/builder.h"

/* At one of the signs < | = >: when a line of marks begins there, reports it and returns where reading goes on; otherwise NULL. */
const char *merge_conflict_pass(struct builder *builder, const char *at);

#endif
