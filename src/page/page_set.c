/* Pages that go out together. */
#include "page/page_set.h"

void page_set_start(struct page_set *set, struct arena *arena)
{
    *set = (struct page_set){.arena = arena};
}

struct page *page_set_add(struct page_set *set)
{
    struct page_set_item *item = ARENA_NEW(set->arena, struct page_set_item);
    item->page = page_start(set->arena);
    if (set->last == NULL) {
        set->first = item;
    } else {
        set->last->next = item;
    }
    set->last = item;
    set->count++;
    return item->page;
}
