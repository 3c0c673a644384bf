/* The rules of practice and the classes of baths, as constant tables. */
#include "write_tables.h"

#include "library/entries.h"

#include <stdio.h>

static void write_names(const struct rule_name *name, size_t subject, size_t place)
{
    if (name == NULL) {
        return;
    }
    write_names(name->next, subject, place + 1);
    printf("static const struct rule_name name_%zu_%zu = {", subject, place);
    if (name->next != NULL) {
        printf(".next = &name_%zu_%zu, ", subject, place + 1);
    }
    printf(".entry = %ld, .excepted = %d, .form = ", name->entry, name->excepted);
    write_text(name->form);
    printf(" .role = ");
    write_text(name->role);
    puts("};");
}

static void write_subjects(const struct rules *rules)
{
    for (size_t i = 0; i < rules->subject_count; i++) {
        write_names(rules->subjects[i].names, i, 0);
    }
    puts("static const struct rule_subject subjects[] = {");
    for (size_t i = 0; i < rules->subject_count; i++) {
        printf("{.words = ");
        write_text(rules->subjects[i].words);
        printf(" .form = ");
        write_text(rules->subjects[i].form);
        printf(" .names = &name_%zu_0},\n", i);
    }
    puts("};");
}

static void write_texts(const char *name, size_t number, const struct text *texts, size_t count)
{
    printf("static const struct text %s_of_%zu[] = {", name, number);
    for (size_t i = 0; i < count; i++) {
        write_text(texts[i]);
    }
    puts("};");
}

static void write_conditions(const struct rule *rule, size_t number)
{
    printf("static const struct rule_condition conditions_of_%zu[] = {\n", number);
    for (size_t i = 0; i < rule->condition_count; i++) {
        const struct rule_condition *condition = &rule->conditions[i];
        printf("{.relation = %d, .subject = %zu, .object = %zu, .over = %d, .measured_by = %zu, .bound = ", (int)condition->relation,
               condition->subject, condition->object, condition->over, condition->measured_by);
        write_number(condition->bound);
        puts("},");
    }
    puts("};");
}

static void write_items(const struct rule *rule, size_t number)
{
    printf("static const struct class_item items_of_%zu[] = {\n", number);
    for (size_t i = 0; i < rule->item_count; i++) {
        const struct class_item *item = &rule->items[i];
        printf("{%zu, %d, %d, ", item->subject, item->optional, item->by_volume);
        write_number(item->low);
        write_number(item->high);
        write_number(item->middle);
        write_number(item->spread);
        write_number(item->precision);
        write_number(item->width);
        puts("},");
    }
    printf("};\nstatic const unsigned char item_of_subject_of_%zu[MOST_SUBJECTS] = {", number);
    for (size_t i = 0; i < MOST_SUBJECTS; i++) {
        if (rule->item_of_subject[i] > 0) {
            printf("[%zu] = %u,", i, rule->item_of_subject[i]);
        }
    }
    puts("};");
}

static void write_usuals(const struct rule *rule, size_t number)
{
    printf("static const struct usual_value usuals_of_%zu[] = {\n", number);
    for (size_t i = 0; i < rule->usual_count; i++) {
        const struct usual_value *value = &rule->usuals[i];
        printf("{%d, ", (int)value->what);
        write_number(value->low);
        write_number(value->high);
        printf("%d, ", value->by_sheets);
        write_text(value->in);
        puts("},");
    }
    puts("};");
}

static void write_set(const char *name, const struct subject_set *set)
{
    printf(" .%s = {", name);
    write_bits(set->bits, MOST_SUBJECTS / 64);
    printf("},");
}

static void write_rule(struct library *library, const struct rule *rule, size_t number)
{
    write_texts("kinds", number, rule->kinds, rule->kind_count);
    write_texts("purposes", number, rule->purposes, rule->purpose_count);
    write_conditions(rule, number);
    if (rule->item_count > 0) {
        write_items(rule, number);
    }
    if (rule->usual_count > 0) {
        write_usuals(rule, number);
    }
    printf("static const struct rule rule_%zu = {.entry = %zu, .name = ", number, library_find(library, DECLARE_RULE, rule->name)->number);
    write_text(rule->name);
    printf(" .shown = ");
    write_text(rule->shown);
    printf(" .kinds = kinds_of_%zu, .kind_count = %zu, .purposes = purposes_of_%zu, .purpose_count = %zu,\n    .conditions = conditions_of_%zu, "
           ".condition_count = %zu,",
           number, rule->kind_count, number, rule->purpose_count, number, rule->condition_count);
    write_set("needs", &rule->needs);
    write_set("lacks", &rule->lacks);
    write_set("knows", &rule->knows);
    printf("\n    .warn = ");
    write_text(rule->warn);
    printf(" .advise = ");
    write_text(rule->advise);
    printf(" .source = ");
    write_text(rule->source);
    printf(" .id = %d, .of_library = true,", (int)rule->id);
    if (rule->item_count > 0) {
        printf(" .items = items_of_%zu, .item_count = %zu, .item_of_subject = item_of_subject_of_%zu, .needed_items = UINT64_C(0x%llx)", number,
               rule->item_count, number, (unsigned long long)rule->needed_items);
    }
    if (rule->usual_count > 0) {
        printf(" .usuals = usuals_of_%zu, .usual_count = %zu", number, rule->usual_count);
    }
    puts("};");
}

static void write_list(const char *name, size_t from, size_t upto)
{
    printf("static const struct rule *const %s[] = {\n", name);
    for (size_t i = from; i < upto; i++) {
        printf("&rule_%zu,", i);
    }
    puts("};");
}

void write_rules(struct library *library, const struct rules *rules)
{
    const struct rule_list *const lists[] = {&rules->list, &rules->classes, &rules->usages};
    static const char *const names[] = {"rules", "classes", "usages"};
    write_subjects(rules);
    size_t number = 0;
    for (size_t l = 0; l < sizeof lists / sizeof *lists; l++) {
        size_t first = number;
        for (size_t i = 0; i < lists[l]->count; i++) {
            write_rule(library, lists[l]->rules[i], number++);
        }
        write_list(names[l], first, number);
    }
    printf("const struct built_in_rules built_in_rules = {{rules, %zu}, {classes, %zu}, {usages, %zu}, subjects, %zu};\n", rules->list.count,
           rules->classes.count, rules->usages.count, rules->subject_count);
}
