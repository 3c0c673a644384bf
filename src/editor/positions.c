/* Positions, ranges and edits between the protocol and the workspace. */
#include "editor/serving.h"

#include <string.h>

json_t *position_json(const struct server *server, struct potash_place place)
{
    return json_pack("{s:I, s:I}", "line", (json_int_t)place.line, "character", (json_int_t)(server->utf8 ? place.column : place.column_16));
}

json_t *range_json(const struct server *server, struct potash_range range)
{
    return json_pack("{s:o, s:o}", "start", position_json(server, range.begin), "end", position_json(server, range.end));
}

json_t *location_json(const struct server *server, const struct potash_location *location)
{
    return json_pack("{s:o, s:o}", "uri", address_of(server, location->path), "range", range_json(server, location->range));
}

bool position_offset(struct server *server, const char *path, const json_t *position, size_t *offset)
{
    const json_t *line = json_object_get(position, "line");
    const json_t *column = json_object_get(position, "character");
    if (!json_is_integer(line) || !json_is_integer(column) || json_integer_value(line) < 0 || json_integer_value(column) < 0) {
        return false;
    }
    struct potash_snapshot *snapshot = server_snapshot(server);
    return snapshot != NULL && potash_snapshot_offset(snapshot, path, (size_t)json_integer_value(line), (size_t)json_integer_value(column),
                                                      !server->utf8, offset) == POTASH_GOOD;
}

static json_t *edit_json(const struct server *server, const struct potash_edit *edit)
{
    return json_pack("{s:o, s:s}", "range", range_json(server, edit->range), "newText", edit->text);
}

json_t *text_edits_json(const struct server *server, const struct potash_edits *edits)
{
    json_t *list = json_array();
    for (size_t i = 0; i < edits->count; i++) {
        put_item(&list, edit_json(server, &edits->items[i]));
    }
    return list;
}

/* Those of each text as a list of its own: they stand together. */
json_t *edits_json(const struct server *server, const struct potash_edits *edits)
{
    json_t *changes = server->edits_by_version ? json_array() : json_object();
    for (size_t i = 0; i < edits->count;) {
        size_t next = i;
        while (next < edits->count && strcmp(edits->items[next].path, edits->items[i].path) == 0) {
            next++;
        }
        const struct potash_edits of_text = {edits->items + i, next - i};
        const struct document *open = documents_find(server, edits->items[i].path);
        json_t *uri = address_of(server, edits->items[i].path);
        if (server->edits_by_version) {
            json_t *version = open != NULL ? json_integer(open->version) : json_null();
            put_item(&changes, json_pack("{s:{s:o, s:o}, s:o}", "textDocument", "uri", uri, "version", version, "edits", text_edits_json(server, &of_text)));
        } else {
            put_member(&changes, uri == NULL ? "" : json_string_value(uri), text_edits_json(server, &of_text));
            json_decref(uri);
        }
        i = next;
    }
    return json_pack("{s:o}", server->edits_by_version ? "documentChanges" : "changes", changes);
}
