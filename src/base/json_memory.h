/* Watches over the memory of JSON values.
 *
 * jansson goes on without a word when it gets no memory: a member that could not be added, or a piece of text that could not
 * be written, is simply not there.  Reports are built of a hundred such calls, so what failed is counted here, in one place,
 * and asked for at the end.  The allocation functions of jansson are one for the whole process, and so is the watch. */
#ifndef POTASH_BASE_JSON_MEMORY_H
#define POTASH_BASE_JSON_MEMORY_H

/* Puts the watch before jansson's allocation functions, whichever they are; once is enough. */
void json_memory_watch(void);

/* How many allocations have failed in this thread so far. */
unsigned long json_memory_failures(void);

#endif
