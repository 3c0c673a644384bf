/* What may stand in for a material: the others of its role, with what differs. */
#include "report/json_values.h"
#include "report/printing.h"

#include "base/number.h"
#include "library/groups.h"
#include "chemistry/handling.h"

#include <math.h>
#include <stdlib.h>

struct likeness {
    const struct material *material;
    const struct hazard_data *data;
    bool sensitises;
    size_t shared; /* roles, and kinds of bath that both are usual in */
};

struct looking {
    struct library *library;
    struct arena *arena;
    const struct material *wanted;
    const struct hazard_data *data;
    struct likeness *found;
    size_t count, capacity;
};

static bool sensitises(const struct hazard_data *data)
{
    for (size_t i = 0; i < data->entry_count; i++) {
        enum hazard_family family = data->entries[i].class->family;
        if (family == FAMILY_SKIN_SENSITISER || family == FAMILY_AIRWAYS_SENSITISER) {
            return true;
        }
    }
    return false;
}

/* A usual amount of `material` in a kind of bath that `other` is usual in as well; NULL when there is none. */
static const struct typical_range *shared_range(const struct material *material, const struct material *other)
{
    for (size_t i = 0; i < other->typical_count; i++) {
        for (size_t j = 0; j < material->typical_count; j++) {
            if (text_equal(other->typical[i].kind, material->typical[j].kind)) {
                return &material->typical[j];
            }
        }
    }
    return NULL;
}

static void look_at(void *context, const struct material *material)
{
    struct looking *looking = context;
    const struct material *wanted = looking->wanted;
    bool same_role = wanted->role_count > 0 && material_has_role(material, wanted->roles[0]);
    if (material == wanted || !same_role || material->stop.length > 0) { /* nobody is led to a poison */
        return;
    }
    if (looking->count == looking->capacity) {
        size_t capacity = looking->capacity == 0 ? 16 : looking->capacity * 2;
        struct likeness *more = ARENA_ARRAY(looking->arena, struct likeness, capacity);
        if (looking->count > 0) {
            memcpy(more, looking->found, looking->count * sizeof *more);
        }
        looking->found = more;
        looking->capacity = capacity;
    }
    struct likeness *likeness = &looking->found[looking->count++];
    *likeness = (struct likeness){.material = material, .data = hazard_data_of(looking->arena, looking->library, material)};
    likeness->sensitises = sensitises(likeness->data);
    for (size_t i = 0; i < wanted->role_count; i++) {
        likeness->shared += material_has_role(material, wanted->roles[i]);
    }
    likeness->shared += shared_range(material, wanted) != NULL;
}

/* Those that make nobody allergic first, then the likest, then by name. */
static int in_order(const void *one, const void *other)
{
    const struct likeness *a = one;
    const struct likeness *b = other;
    if (a->sensitises != b->sensitises) {
        return a->sensitises ? 1 : -1;
    }
    if (a->shared != b->shared) {
        return a->shared > b->shared ? -1 : 1;
    }
    size_t length = a->material->name.length < b->material->name.length ? a->material->name.length : b->material->name.length;
    int order = memcmp(a->material->name.at, b->material->name.at, length);
    return order != 0 ? order : a->material->name.length < b->material->name.length ? -1 : 1;
}

static struct looking find(struct library *library, const struct material *material)
{
    struct looking looking = {.library = library, .arena = library->arena, .wanted = material};
    looking.data = hazard_data_of(looking.arena, library, material);
    library_each_material(library, look_at, &looking);
    if (looking.count > 0) {
        qsort(looking.found, looking.count, sizeof *looking.found, in_order);
    }
    return looking;
}

static struct text codes_of(struct arena *arena, const struct hazard_data *data)
{
    struct buffer codes;
    buffer_start(&codes, arena);
    buffer_string(&codes, data->entry_count > 0 ? "" : data->stated ? "none known" : "NOT ASSESSED");
    for (size_t i = 0; i < data->entry_count; i++) {
        buffer_format(&codes, "%s%.*s", i == 0 ? "" : ", ", TEXT_ARGUMENTS(data->entries[i].code));
    }
    return text_from(buffer_finish(&codes));
}

static struct text print_range(struct page *page, const struct typical_range *range)
{
    return range == NULL ? TEXT("")
                         : page_format(page, "%.*s %s to %s %s", TEXT_ARGUMENTS(range->kind),
                                       number_print_significant(page->arena, range->low, 3),
                                       number_print_significant(page->arena, range->high, 3), range->by_volume ? "mL/L" : "g/L");
}

static struct text caution_of(const struct material *material)
{
    for (const struct statement *statement = material->declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_CAUTION) {
            return ((const struct text_statement *)statement)->text;
        }
    }
    return (struct text){0};
}

static void add_advice(struct library *library, const struct material *material, struct page *page)
{
    struct handling handling;
    handling_start(&handling, page->arena, library);
    handling_add_material(&handling, material);
    for (const struct advice *advice = handling_advice(&handling, "like", false); advice != NULL; advice = advice->next) {
        page_add_warning(page, PAGE_CAUTION, TEXT(""), advice->text);
    }
}

void report_materials_like(struct library *library, const struct material *material, struct page *page)
{
    struct looking looking = find(library, material);
    struct text role = material->role_count > 0 ? material->roles[0] : TEXT("none");
    page_set_title(page, page_format(page, "In place of %.*s", TEXT_ARGUMENTS(material->name)));
    page_add_fact(page, TEXT("role"), role);
    if (material->typical_count > 0) {
        page_add_fact(page, TEXT("usual"), print_range(page, &material->typical[0]));
    }
    page_add_fact(page, TEXT("classed"), codes_of(page->arena, looking.data));
    page_set_source(page, text_from(material->declaration->file->name));
    report_caution(page);
    if (looking.count == 0) {
        page_add_paragraph(page, TEXT("The library has no other material of this role."));
        return;
    }
    page_add_paragraph(page, TEXT("These have the same role, and may still give another result: the amounts are those that baths of "
                                  "the kind usually hold, not equal ones. Take a formula that was made for the other, and try it on "
                                  "what you can spare. Those that make nobody allergic, as far as is known, stand first."));
    add_advice(library, material, page);
    struct page_table *table = page_add_table(page);
    struct page_column *name = page_table_column(table, TEXT("material"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *usual = page_table_column(table, TEXT("usual"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *allergy = page_table_column(table, TEXT("allergy"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *classes = page_table_column(table, TEXT("classed"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    for (size_t i = 0; i < looking.count; i++) {
        const struct likeness *likeness = &looking.found[i];
        struct page_row *row = page_table_row(table);
        page_row_cell(row, name, likeness->material->name);
        page_row_cell(row, usual, print_range(page, shared_range(likeness->material, material)));
        page_row_cell(row, allergy, likeness->sensitises ? TEXT("yes") : TEXT("not known"));
        page_row_cell(row, classes, codes_of(page->arena, likeness->data));
        page_row_remark(row, caution_of(likeness->material));
    }
}

static json_t *like_json(const struct looking *looking, const struct likeness *likeness)
{
    json_t *codes = json_array();
    for (size_t i = 0; i < likeness->data->entry_count; i++) {
        put_item(&codes, text_json(likeness->data->entries[i].code));
    }
    const struct typical_range *range = shared_range(likeness->material, looking->wanted);
    json_t *usual = range == NULL ? json_null()
                                  : json_pack("{s:o, s:f, s:f, s:s}", "kind", text_json(range->kind), "low", range->low, "high",
                                              range->high, "unit", range->by_volume ? "mL/L" : "g/L");
    return json_pack("{s:o, s:b, s:o, s:o}", "material", text_json(likeness->material->name), "sensitises", likeness->sensitises,
                     "codes", codes, "usual", usual);
}

json_t *report_materials_like_json(struct library *library, const struct material *material)
{
    struct looking looking = find(library, material);
    json_t *list = json_array();
    for (size_t i = 0; i < looking.count; i++) {
        put_item(&list, like_json(&looking, &looking.found[i]));
    }
    return json_pack("{s:o, s:o, s:o}", "like", text_json(material->name), "role",
                     material->role_count > 0 ? text_json(material->roles[0]) : json_null(), "materials", list);
}
