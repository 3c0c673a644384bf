/* Requests that lead to edits: completion, actions, layout, renaming. */
#include "editor/serving.h"

#include <stdint.h>
#include <string.h>
#include <time.h>

static struct reply failed(enum potash_status status)
{
    return (struct reply){NULL, status};
}

static struct reply good(json_t *result)
{
    return (struct reply){result, POTASH_GOOD};
}

/* ---- completion ---- */

/* By the numbers of CompletionItemKind in the protocol. */
static int completion_kind(enum potash_completion_kind kind)
{
    enum { VARIABLE = 6, CLASS = 7, UNIT = 11, VALUE = 12, KEYWORD = 14, FILE_KIND = 17, REFERENCE = 18, ENUM_MEMBER = 20 };
    static const int kinds[] = {
        [POTASH_COMPLETE_KEYWORD] = KEYWORD, [POTASH_COMPLETE_MATERIAL] = VARIABLE, [POTASH_COMPLETE_FORM] = ENUM_MEMBER,
        [POTASH_COMPLETE_UNIT] = UNIT, [POTASH_COMPLETE_TITLE] = CLASS, [POTASH_COMPLETE_LOT] = REFERENCE, [POTASH_COMPLETE_AMOUNT] = VALUE,
        [POTASH_COMPLETE_FILE] = FILE_KIND, [POTASH_COMPLETE_VALUE] = VALUE};
    return kinds[kind];
}

static struct reply answer_completion(const struct question *question)
{
    struct potash_completions completions;
    enum potash_status status = potash_snapshot_complete(question->snapshot, question->path, question->offset, &completions);
    if (status != POTASH_GOOD) {
        return failed(status);
    }
    json_t *list = json_array();
    for (size_t i = 0; i < completions.count && list != NULL; i++) {
        const struct potash_completion *item = &completions.items[i];
        json_t *edit = json_pack("{s:o, s:s}", "range", range_json(question->server, completions.range), "newText", item->text);
        json_t *made = json_pack("{s:s, s:i, s:s, s:o, s:o}", "label", item->label, "kind", completion_kind(item->kind), "filterText", item->text,
                                 "sortText", json_sprintf("%06zu", i), "textEdit", edit);
        if (item->detail != NULL) {
            put_member(&made, "detail", json_string(item->detail));
        }
        put_item(&list, made);
    }
    return good(json_pack("{s:b, s:o}", "isIncomplete", 0, "items", list));
}

/* ---- actions ---- */

static const char *const action_kinds[] = {
    [POTASH_ACTION_REPAIR] = "quickfix", [POTASH_ACTION_REWRITE] = "refactor.rewrite", [POTASH_ACTION_EXTRACT] = "refactor.extract"};

/* Whether actions of a kind are asked for: "refactor" stands for all that begin with it. */
static bool is_wanted(const json_t *only, const char *kind)
{
    bool wanted = !json_is_array(only) || json_array_size(only) == 0;
    size_t index;
    json_t *one;
    json_array_foreach((json_t *)only, index, one)
    {
        const char *name = json_string_value(one);
        size_t length = name == NULL ? 0 : strlen(name);
        wanted = wanted || (name != NULL && strncmp(kind, name, length) == 0 && (length == 0 || kind[length] == '\0' || kind[length] == '.'));
    }
    return wanted;
}

/* Today where the server runs. */
static const char *today(char room[11])
{
    time_t now = time(NULL);
    struct tm day;
    return localtime_r(&now, &day) != NULL && strftime(room, 11, "%Y-%m-%d", &day) == 10 ? room : NULL;
}

static struct reply answer_actions(const struct question *question)
{
    char day[11];
    struct potash_actions actions;
    enum potash_status status =
        potash_snapshot_actions(question->snapshot, question->path, question->offset, question->end, today(day), &actions);
    if (status != POTASH_GOOD) {
        return failed(status);
    }
    const json_t *only = json_object_get(json_object_get(question->parameters, "context"), "only");
    json_t *list = json_array();
    for (size_t i = 0; i < actions.count && list != NULL; i++) {
        const struct potash_action *action = &actions.items[i];
        if (!is_wanted(only, action_kinds[action->kind])) {
            continue;
        }
        json_t *made = json_pack("{s:s, s:s, s:o}", "title", action->title, "kind", action_kinds[action->kind], "edit", edits_json(question->server, &action->edits));
        if (action->repairs != NULL) {
            put_member(&made, "diagnostics", json_pack("[o]", documents_diagnostic(question->server, action->repairs)));
            put_member(&made, "isPreferred", json_boolean(action->repairs->repair_count == 1));
        }
        put_item(&list, made);
    }
    return good(list);
}

/* ---- layout ---- */

static struct reply lay_out(const struct question *question, size_t first_line, size_t last_line)
{
    struct potash_edits edits;
    enum potash_status status = potash_snapshot_layout(question->snapshot, question->path, first_line, last_line, &edits);
    return status == POTASH_GOOD ? good(text_edits_json(question->server, &edits)) : failed(status);
}

static struct reply answer_layout(const struct question *question)
{
    return lay_out(question, 0, SIZE_MAX);
}

/* A range that ends at the start of a line does not hold that line. */
static struct reply answer_layout_of_range(const struct question *question)
{
    const json_t *range = json_object_get(question->parameters, "range");
    json_int_t first;
    json_int_t last;
    json_int_t column;
    if (json_unpack((json_t *)range, "{s:{s:I}, s:{s:I, s:I}}", "start", "line", &first, "end", "line", &last, "character", &column) != 0) {
        return failed(POTASH_UNUSABLE);
    }
    return lay_out(question, (size_t)first, (size_t)(last > first && column == 0 ? last - 1 : last));
}

/* ---- renaming ---- */

static struct reply answer_renamable(const struct question *question)
{
    struct potash_range range;
    const char *name;
    enum potash_status status = potash_snapshot_renamable(question->snapshot, question->path, question->offset, &range, &name);
    if (status != POTASH_GOOD) {
        return failed(status);
    }
    return good(json_pack("{s:o, s:s}", "range", range_json(question->server, range), "placeholder", name));
}

static struct reply answer_rename(const struct question *question)
{
    const char *name = json_string_value(json_object_get(question->parameters, "newName"));
    struct potash_edits edits;
    enum potash_status status = potash_snapshot_rename(question->snapshot, question->path, question->offset, name == NULL ? "" : name, &edits);
    return status == POTASH_GOOD ? good(edits_json(question->server, &edits)) : failed(status);
}

const struct method editing_methods[] = {
    {"textDocument/completion", ABOUT_PLACE, answer_completion},
    {"textDocument/codeAction", ABOUT_RANGE, answer_actions},
    {"textDocument/formatting", ABOUT_TEXT, answer_layout},
    {"textDocument/rangeFormatting", ABOUT_RANGE, answer_layout_of_range},
    {"textDocument/prepareRename", ABOUT_PLACE, answer_renamable},
    {"textDocument/rename", ABOUT_PLACE, answer_rename},
    {0},
};
