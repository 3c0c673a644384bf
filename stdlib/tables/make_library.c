/* make_library: writes the constant tables of the built-in library (src/library/tables.h) to standard output.
 *
 * The build runs it once, with the same reading of the texts that --library has; what is wrong in stdlib/ fails the build. */
#include "library/entries.h"
#include "library/tables.h"
#include "syntax/parse.h"
#include "write_tables.h"

#include <stdio.h>
#include <stdlib.h>

/* What this makes is not there yet. */
const struct library_tables library_tables;
const struct reactions built_in_reactions;
const struct built_in_rules built_in_rules;

enum { MOST = 65535 /* of anything: places are kept in 16 bits */ };

struct maker {
    struct arena arena;
    jmp_buf failure;
    struct names names;
    struct source_set sources;
    struct diagnostics diagnostics;
    struct library library;
    struct library_entry *entries[MOST];
    struct text keys[MOST];
    size_t entry_of_key[MOST];
    size_t key_of_entry[MOST];
    size_t entry_count;
    size_t key_count;
    size_t first_entry[TABLE_KINDS + 1];
    size_t first_key[TABLE_KINDS + 1];
};

static void fail(const char *why)
{
    fprintf(stderr, "make_library: %s\n", why);
    exit(1);
}

static size_t file_number(const struct source_file *file)
{
    size_t number = 0;
    while (strcmp(stdlib_files[number].name, file->path) != 0) {
        number++;
    }
    return number;
}

/* The tables hold entries by kind, and what is counted with them; the number of an entry becomes its place there. */
static void collect(struct maker *maker)
{
    for (unsigned kind = 0; kind < TABLE_KINDS; kind++) {
        maker->first_entry[kind] = maker->entry_count;
        maker->first_key[kind] = maker->key_count;
        for (struct library_entry *entry = maker->library.declared; entry != NULL; entry = entry->next) {
            if (entry->kind == kind) {
                entry->number = maker->entry_count;
                maker->entries[maker->entry_count++] = entry;
            }
        }
        struct library_key_walk walk = {.library = &maker->library, .kind = (enum declaration_kind)kind};
        while (library_next_key(&walk)) {
            size_t entry = library_walked_entry(&walk)->number;
            if (maker->key_count == MOST || maker->entry_count == MOST) {
                fail("there are too many names");
            }
            if (text_equal(walk.key, maker->entries[entry]->key)) {
                maker->key_of_entry[entry] = maker->key_count;
            }
            maker->entry_of_key[maker->key_count] = entry;
            maker->keys[maker->key_count++] = walk.key;
        }
    }
    maker->first_entry[TABLE_KINDS] = maker->entry_count;
    maker->first_key[TABLE_KINDS] = maker->key_count;
}

/* ---- writing ---- */

static void write_keys(const struct maker *maker)
{
    puts("static const char letters[] =");
    for (size_t i = 0; i < maker->key_count; i++) {
        write_string(maker->keys[i]);
        putchar('\n');
    }
    puts(";\nstatic const struct table_key keys[] = {");
    size_t at = 0;
    for (size_t i = 0; i < maker->key_count; i++) {
        printf("{%zu, %zu, %zu},\n", at, maker->keys[i].length, maker->entry_of_key[i]);
        at += maker->keys[i].length;
    }
    puts("};");
}

static void write_entries(struct maker *maker)
{
    puts("static const struct table_entry entries[] = {");
    for (size_t i = 0; i < maker->entry_count; i++) {
        struct library_entry *entry = maker->entries[i];
        const struct declaration *next = entry->declaration->next;
        const uint32_t base = entry->file->base;
        /* Currencies are never offered: half of all words of three letters are near to one. */
        const struct unit_words *unit = entry->declaration->unit;
        bool money = unit != NULL && unit->dimension != NULL && text_is(unit->dimension->name->spelling, "money");
        printf("{%u, %u, %zu, %zu, %d},\n", entry->declaration->span.begin - base,
               next == NULL ? entry->file->length : next->span.begin - base, file_number(entry->file), maker->key_of_entry[i],
               entry->offered && !money);
    }
    puts("};");
}

static void write_slots(const struct maker *maker)
{
    static uint16_t slots[2 * (MOST + 1)];
    uint32_t mask = 1;
    while (mask < 2 * maker->key_count) {
        mask *= 2;
    }
    mask--;
    for (unsigned kind = 0; kind < TABLE_KINDS; kind++) {
        for (size_t i = maker->first_key[kind]; i < maker->first_key[kind + 1]; i++) {
            uint32_t at = table_key_hash((enum declaration_kind)kind, maker->keys[i]) & mask;
            while (slots[at] != 0) {
                at = (at + 1) & mask;
            }
            slots[at] = (uint16_t)(i + 1);
        }
    }
    printf("enum { MASK = %u };\nstatic const uint16_t slots[MASK + 1] = {", mask);
    for (size_t i = 0; i <= mask; i++) {
        printf("%s%u,", i % 32 == 0 ? "\n" : "", slots[i]);
    }
    puts("\n};");
}

static size_t write_mistakes(struct maker *maker)
{
    size_t count = 0;
    puts("static const struct table_mistake mistakes[] = {");
    for (size_t i = maker->first_entry[DECLARE_MATERIAL]; i < maker->first_entry[DECLARE_MATERIAL + 1]; i++) {
        const struct statement *statement = maker->entries[i]->declaration->statements;
        for (; statement != NULL; statement = statement->next) {
            const struct word *word = statement->kind == SAY_MISTAKEN ? ((const struct words_statement *)statement)->words : NULL;
            for (; word != NULL; word = word->next) {
                struct text name = names_folded(&maker->names, word->name)->spelling;
                const struct library_entry *other = library_find(&maker->library, DECLARE_MATERIAL, name);
                if (other != NULL) {
                    printf("{%zu, %zu},\n", i, other->number);
                    count++;
                }
            }
        }
    }
    puts("};");
    return count;
}

static void write_firsts(const char *name, const size_t firsts[TABLE_KINDS + 1])
{
    printf("    .%s = {", name);
    for (size_t i = 0; i <= TABLE_KINDS; i++) {
        printf("%zu,", firsts[i]);
    }
    puts("},");
}

static void write_tables(struct maker *maker)
{
    puts("/* made from stdlib/ by tools/make_library.c */\n"
         "#include \"library/relation.h\"\n#include \"library/tables.h\"\n#include \"practice/rules/rules.h\"\n#include <math.h>");
    write_keys(maker);
    write_entries(maker);
    write_slots(maker);
    size_t mistakes = write_mistakes(maker);
    printf("const struct library_tables library_tables = {\n"
           "    .letters = letters, .entries = entries, .keys = keys, .slots = slots, .mask = MASK,\n"
           "    .mistakes = mistakes, .mistake_count = %zu,\n",
           mistakes);
    write_firsts("first_entry", maker->first_entry);
    write_firsts("first_key", maker->first_key);
    puts("};");
}

static void read_texts(struct maker *maker)
{
    arena_start(&maker->arena);
    maker->arena.on_failure = &maker->failure;
    names_start(&maker->names, &maker->arena);
    source_start(&maker->sources, &maker->arena);
    diagnostics_start(&maker->diagnostics, &maker->arena, &maker->sources);
    library_start_empty(&maker->library, &maker->arena, &maker->names, &maker->sources, &maker->diagnostics);
    for (const struct stdlib_file *file = stdlib_files; file->name != NULL; file++) {
        struct source_file *source = source_add(&maker->sources, file->name, file->text, file->length, true);
        library_add_file(&maker->library, syntax_parse(&maker->arena, &maker->names, &maker->diagnostics, source, false));
    }
    library_make_all(&maker->library, false);
}

int main(void)
{
    static struct maker maker;
    if (setjmp(maker.failure) != 0) {
        fail("out of memory");
    }
    read_texts(&maker);
    collect(&maker);
    static struct rules rules;
    rules_start(&rules, &maker.library);
    const struct reactions *reactions = library_relation(&maker.library);
    if (maker.diagnostics.count > 0) {
        struct outlet said = {0};
        buffer_start(&said.text, &maker.arena);
        diagnostics_finish(&maker.diagnostics);
        diagnostics_print(&maker.diagnostics, &said, false, SIZE_MAX);
        fprintf(stderr, "%.*s\n", (int)said.text.length, said.text.bytes);
        fail("stdlib/ has mistakes");
    }
    write_tables(&maker);
    write_reactions(reactions);
    write_rules(&maker.library, &rules);
    return ferror(stdout) != 0 || fclose(stdout) != 0;
}
