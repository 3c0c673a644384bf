/* Chains of links that are appended to: the first link of a chain keeps the last, so that no append walks along the others.
 *
 * A link has the members `next` and `last`; only the first one's `last` counts. */
#ifndef POTASH_BASE_CHAIN_H
#define POTASH_BASE_CHAIN_H

#define CHAIN_APPEND(list, link)                                                                                       \
    do {                                                                                                               \
        if (*(list) == NULL) {                                                                                         \
            *(list) = (link);                                                                                          \
        } else {                                                                                                       \
            (*(list))->last->next = (link);                                                                            \
        }                                                                                                              \
        (*(list))->last = (link);                                                                                      \
    } while (0)

#endif
