/* Output on its way to a sink. */
#include "base/outlet.h"

enum { PIECE = 64 * 1024 /* bytes that are passed on at a time */ };

void outlet_finish(struct outlet *outlet)
{
    if (outlet->take == NULL) {
        return;
    }
    if (!outlet->refused && outlet->text.length > 0) {
        outlet->refused = !outlet->take(outlet->context, outlet->text.bytes, outlet->text.length);
    }
    outlet->text.length = 0;
}

void outlet_pass_on(struct outlet *outlet)
{
    if (outlet->text.length >= PIECE) {
        outlet_finish(outlet);
    }
}
