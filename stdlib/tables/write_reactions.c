/* The relation of what must not meet, as constant tables. */
#include "write_tables.h"

#include <stdio.h>

/* Each line of a list points to the next, so the last is written first. */
static void write_list(const struct reagent *reagent, const char *list, size_t reaction, size_t place)
{
    if (reagent == NULL) {
        return;
    }
    write_list(reagent->next, list, reaction, place + 1);
    printf("static const struct reagent %s_%zu_%zu = {", list, reaction, place);
    if (reagent->next != NULL) {
        printf(".next = &%s_%zu_%zu, ", list, reaction, place + 1);
    }
    printf(".words = ");
    write_text(reagent->words);
    printf(" .also = ");
    write_text(reagent->also);
    printf(" .in = {");
    write_bits(reagent->in.bits, MOST_GROUPS / 64);
    printf("}, .out = {");
    write_bits(reagent->out.bits, MOST_GROUPS / 64);
    printf("}, .measure = {");
    write_bits(reagent->measure.bits, MOST_GROUPS / 64);
    printf("}, .over = %d, .times = %d, .bound = ", reagent->over, reagent->times);
    write_number(reagent->bound);
    printf(" .celsius = ");
    write_number(reagent->celsius);
    puts("};");
}

static void name_list(const struct reagent *reagent, const char *list, size_t reaction)
{
    if (reagent != NULL) {
        printf(" .%s = &%s_%zu_0,", list, list, reaction);
    }
}

static void write_reaction(const struct reaction *reaction, size_t number)
{
    write_list(reaction->first, "first", number, 0);
    write_list(reaction->second, "second", number, 0);
    write_list(reaction->beside, "beside", number, 0);
    write_list(reaction->unless, "unless", number, 0);
    if (reaction->kind_count > 0) {
        printf("static const struct text kinds_%zu[] = {", number);
        for (size_t i = 0; i < reaction->kind_count; i++) {
            write_text(reaction->kinds[i]);
        }
        puts("};");
    }
    printf("static const struct reaction reaction_%zu = {.name = ", number);
    write_text(reaction->name);
    printf(" .shown = ");
    write_text(reaction->shown);
    printf(" .harm = %d, .where = %u,", (int)reaction->harm, reaction->where);
    name_list(reaction->first, "first", number);
    name_list(reaction->second, "second", number);
    name_list(reaction->beside, "beside", number);
    name_list(reaction->unless, "unless", number);
    if (reaction->kind_count > 0) {
        printf(" .kinds = kinds_%zu, .kind_count = %zu,", number, reaction->kind_count);
    }
    printf(" .keeps = ");
    write_number(reaction->keeps);
    printf(" .vessel = ");
    write_text(reaction->vessel);
    printf(" .warn = ");
    write_text(reaction->warn);
    printf(" .advise = ");
    write_text(reaction->advise);
    printf(" .source = ");
    write_text(reaction->source);
    puts("};");
}

static void write_groups(const struct groups *groups)
{
    puts("static const struct group_key group_keys[] = {");
    for (size_t i = 0; i < groups->key_count; i++) {
        putchar('{');
        write_text(groups->keys[i].text);
        putchar('{');
        write_bits(groups->keys[i].in.bits, MOST_GROUPS / 64);
        printf("},{");
        write_bits(groups->keys[i].out.bits, MOST_GROUPS / 64);
        puts("}},");
    }
    puts("};\nstatic const uint16_t group_slots[] = {");
    for (size_t i = 0; i <= groups->mask; i++) {
        printf("%u,", groups->slots[i]);
    }
    puts("};");
}

static void write_set(const char *name, const uint64_t *bits, size_t count)
{
    printf("static const uint64_t %s[] = {", name);
    for (size_t i = 0; i < count; i++) {
        printf("UINT64_C(0x%llx),", (unsigned long long)bits[i]);
    }
    puts("};");
}

void write_reactions(const struct reactions *reactions)
{
    for (size_t i = 0; i < reactions->count; i++) {
        write_reaction(reactions->reactions[i], i);
    }
    write_groups(&reactions->groups);
    puts("static const struct reaction *const reactions[] = {");
    for (size_t i = 0; i < reactions->count; i++) {
        printf("&reaction_%zu,\n", i);
    }
    puts("};");
    write_set("by_first", reactions->by_first, MOST_GROUPS * reactions->words);
    write_set("by_second", reactions->by_second, MOST_GROUPS * reactions->words);
    write_set("alone", reactions->alone, reactions->words);
    printf("const struct reactions built_in_reactions = {\n"
           "    .reactions = reactions, .count = %zu, .words = %zu, .by_first = by_first, .by_second = by_second, .alone = alone,\n"
           "    .groups = {.keys = group_keys, .key_count = %zu, .slots = group_slots, .mask = %u, .count = %zu,\n    .names = {",
           reactions->count, reactions->words, reactions->groups.key_count, reactions->groups.mask, reactions->groups.count);
    for (size_t i = 0; i < reactions->groups.count; i++) {
        write_text(reactions->groups.names[i]);
    }
    puts("},\n    .holds = {");
    for (size_t i = 0; i < reactions->groups.count; i++) {
        putchar('{');
        write_bits(reactions->groups.holds[i].bits, MOST_GROUPS / 64);
        puts("},");
    }
    puts("}}};");
}
