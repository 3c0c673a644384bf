/* Requests that only look: what is known of a place, where names stand, how a text looks. */
#include "editor/serving.h"

#include <string.h>

static struct reply good(json_t *result)
{
    return (struct reply){result, POTASH_GOOD};
}

static struct reply failed(enum potash_status status)
{
    return (struct reply){NULL, status};
}

/* ---- hover ---- */

static struct reply answer_hover(const struct question *question)
{
    struct potash_hover hover;
    enum potash_status status = potash_snapshot_hover(question->snapshot, question->path, question->offset, &hover);
    if (status != POTASH_GOOD) {
        return failed(status);
    }
    return good(hover.text == NULL ? json_null()
                                   : json_pack("{s:{s:s, s:s}, s:o}", "contents", "kind", "markdown", "value", hover.text, "range",
                                               range_json(question->server, hover.range)));
}

/* ---- places of names ---- */

static struct reply locations(const struct question *question, enum potash_status status, const struct potash_locations *found)
{
    if (status != POTASH_GOOD) {
        return failed(status);
    }
    json_t *list = json_array();
    for (size_t i = 0; i < found->count; i++) {
        put_item(&list, location_json(question->server, &found->items[i]));
    }
    return good(list);
}

static struct reply answer_definition(const struct question *question)
{
    struct potash_locations found;
    enum potash_status status = potash_snapshot_definition(question->snapshot, question->path, question->offset, &found);
    return locations(question, status, &found);
}

static struct reply answer_references(const struct question *question)
{
    struct potash_locations found;
    bool declarations = json_is_true(json_object_get(json_object_get(question->parameters, "context"), "includeDeclaration"));
    enum potash_status status = potash_snapshot_references(question->snapshot, question->path, question->offset, declarations, &found);
    return locations(question, status, &found);
}

/* The same places in the text itself, for an editor that marks them. */
static struct reply answer_highlight(const struct question *question)
{
    struct potash_locations found;
    enum potash_status status = potash_snapshot_references(question->snapshot, question->path, question->offset, true, &found);
    if (status != POTASH_GOOD) {
        return failed(status);
    }
    json_t *list = json_array();
    for (size_t i = 0; i < found.count; i++) {
        if (strcmp(found.items[i].path, question->path) == 0) {
            put_item(&list, json_pack("{s:o}", "range", range_json(question->server, found.items[i].range)));
        }
    }
    return good(list);
}

/* ---- symbols ---- */

/* By the numbers of SymbolKind in the protocol. */
static int symbol_kind(enum potash_symbol_kind kind)
{
    enum { MODULE = 2, CLASS = 5, PROPERTY = 7, ENUM = 10, CONSTANT = 14, OBJECT = 19, KEY = 20, STRUCT = 23, EVENT = 24, OPERATOR = 25, FILE_KIND = 1 };
    static const int kinds[] = {
        [POTASH_FORMULA] = CLASS, [POTASH_VARIANT] = CLASS, [POTASH_STOCK] = STRUCT, [POTASH_MATERIAL] = CONSTANT, [POTASH_UNIT] = OPERATOR,
        [POTASH_RULE] = ENUM, [POTASH_SHELF] = OBJECT, [POTASH_BATCH] = EVENT, [POTASH_PROCESS] = EVENT, [POTASH_READ] = FILE_KIND,
        [POTASH_PART] = MODULE, [POTASH_USE] = PROPERTY, [POTASH_LOT] = KEY, [POTASH_DECLARATION] = ENUM};
    return kinds[kind];
}

static json_t *symbol_json(const struct question *question, const struct potash_symbol *symbol)
{
    const char *name = symbol->name[0] == '\0' ? "-" : symbol->name; /* the protocol has no empty names */
    return json_pack("{s:s, s:i, s:o, s:o, s:[]}", "name", name, "kind", symbol_kind(symbol->kind), "range", range_json(question->server, symbol->range),
                     "selectionRange", range_json(question->server, symbol->name_range), "children");
}

static struct reply answer_outline(const struct question *question)
{
    struct potash_symbols symbols;
    enum potash_status status = potash_snapshot_outline(question->snapshot, question->path, &symbols);
    if (status != POTASH_GOOD) {
        return failed(status);
    }
    json_t *list = json_array();
    for (size_t i = 0; i < symbols.count && list != NULL;) {
        json_t *symbol = symbol_json(question, &symbols.items[i++]);
        json_t *children = json_array();
        while (i < symbols.count && symbols.items[i].depth > 0) {
            put_item(&children, symbol_json(question, &symbols.items[i++]));
        }
        put_member(&symbol, "children", children);
        put_item(&list, symbol);
    }
    return good(list);
}

static struct reply answer_search(const struct question *question)
{
    const char *query = json_string_value(json_object_get(question->parameters, "query"));
    struct potash_symbols symbols;
    enum potash_status status = potash_snapshot_search(question->snapshot, query == NULL ? "" : query, &symbols);
    if (status != POTASH_GOOD) {
        return failed(status);
    }
    json_t *list = json_array();
    for (size_t i = 0; i < symbols.count; i++) {
        const struct potash_symbol *found = &symbols.items[i];
        const struct potash_location location = {found->path, found->name_range};
        json_t *symbol = json_pack("{s:s, s:i, s:o}", "name", found->name, "kind", symbol_kind(found->kind), "location", location_json(question->server, &location));
        if (found->container != NULL) {
            put_member(&symbol, "containerName", json_string(found->container));
        }
        put_item(&list, symbol);
    }
    return good(list);
}

/* ---- how a text looks ---- */

static const char *const highlight_types[POTASH_HIGHLIGHT_KINDS] = {
    [POTASH_HIGHLIGHT_KEYWORD] = "keyword", [POTASH_HIGHLIGHT_TITLE] = "class", [POTASH_HIGHLIGHT_MATERIAL] = "variable",
    [POTASH_HIGHLIGHT_FORM] = "enumMember", [POTASH_HIGHLIGHT_NUMBER] = "number", [POTASH_HIGHLIGHT_UNIT] = "type",
    [POTASH_HIGHLIGHT_TEXT] = "string",     [POTASH_HIGHLIGHT_COMMENT] = "comment", [POTASH_HIGHLIGHT_SIGN] = "operator",
    [POTASH_HIGHLIGHT_WORD] = "property"};

json_t *highlights_legend(void)
{
    json_t *types = json_array();
    for (size_t i = 0; i < POTASH_HIGHLIGHT_KINDS; i++) {
        put_item(&types, json_string(highlight_types[i]));
    }
    return json_pack("{s:o, s:[s]}", "tokenTypes", types, "tokenModifiers", "declaration");
}

/* Five numbers for each: lines and columns from the one before, length, type, modifiers. */
static struct reply answer_tokens(const struct question *question)
{
    struct potash_highlights highlights;
    enum potash_status status = potash_snapshot_highlights(question->snapshot, question->path, &highlights);
    if (status != POTASH_GOOD) {
        return failed(status);
    }
    json_t *data = json_array();
    size_t line = 0;
    size_t column = 0;
    for (size_t i = 0; i < highlights.count; i++) {
        const struct potash_highlight *token = &highlights.items[i];
        size_t begin = question->server->utf8 ? token->range.begin.column : token->range.begin.column_16;
        size_t end = question->server->utf8 ? token->range.end.column : token->range.end.column_16;
        bool same = token->range.begin.line == line;
        const size_t numbers[] = {token->range.begin.line - line, same ? begin - column : begin, end - begin, token->kind, token->declares};
        for (size_t k = 0; k < sizeof numbers / sizeof *numbers; k++) {
            put_item(&data, json_integer((json_int_t)numbers[k]));
        }
        line = token->range.begin.line;
        column = begin;
    }
    return good(json_pack("{s:o}", "data", data));
}

static struct reply answer_folds(const struct question *question)
{
    struct potash_folds folds;
    enum potash_status status = potash_snapshot_folds(question->snapshot, question->path, &folds);
    if (status != POTASH_GOOD) {
        return failed(status);
    }
    json_t *list = json_array();
    for (size_t i = 0; i < folds.count; i++) {
        put_item(&list, json_pack("{s:I, s:I, s:s}", "startLine", (json_int_t)folds.items[i].first_line, "endLine", (json_int_t)folds.items[i].last_line,
                                  "kind", folds.items[i].comment ? "comment" : "region"));
    }
    return good(list);
}

static struct reply answer_inlays(const struct question *question)
{
    struct potash_inlays inlays;
    enum potash_status status = potash_snapshot_inlays(question->snapshot, question->path, question->offset, question->end, &inlays);
    if (status != POTASH_GOOD) {
        return failed(status);
    }
    json_t *list = json_array();
    for (size_t i = 0; i < inlays.count; i++) {
        put_item(&list, json_pack("{s:o, s:s, s:b}", "position", position_json(question->server, inlays.items[i].at), "label", inlays.items[i].text,
                                  "paddingLeft", 1));
    }
    return good(list);
}

const struct method looking_methods[] = {
    {"textDocument/hover", ABOUT_PLACE, answer_hover},
    {"textDocument/definition", ABOUT_PLACE, answer_definition},
    {"textDocument/references", ABOUT_PLACE, answer_references},
    {"textDocument/documentHighlight", ABOUT_PLACE, answer_highlight},
    {"textDocument/documentSymbol", ABOUT_TEXT, answer_outline},
    {"workspace/symbol", ABOUT_NOTHING, answer_search},
    {"textDocument/semanticTokens/full", ABOUT_TEXT, answer_tokens},
    {"textDocument/foldingRange", ABOUT_TEXT, answer_folds},
    {"textDocument/inlayHint", ABOUT_RANGE, answer_inlays},
    {0},
};
