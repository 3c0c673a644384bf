/* Output on its way: a buffer that is emptied into a sink whenever enough has come together, or that keeps all of it. */
#ifndef POTASH_BASE_OUTLET_H
#define POTASH_BASE_OUTLET_H

#include "base/buffer.h"

struct outlet {
    struct buffer text;
    bool (*take)(void *context, const char *bytes, size_t length); /* false when it cannot; NULL: all of it stays in `text` */
    void *context;
    bool refused;                /* the sink could not take something: what follows is thrown away */
};

/* Passes on what has come together; to be called now and then, between texts. */
void outlet_pass_on(struct outlet *outlet);

/* The same with all that is left. */
void outlet_finish(struct outlet *outlet);

#endif
