/* Which files were read, as a rule of Make (POSIX, make): what ninja takes as a depfile. */
#include "session/reports.h"

#include "base/shown.h"

/* Blanks, # and $ are escaped as both programs read them. */
static void put_name(struct buffer *out, const char *name)
{
    for (; *name != '\0'; name++) {
        if (*name == ' ' || *name == '#' || *name == '\\') {
            buffer_character(out, '\\');
        } else if (*name == '$') {
            buffer_character(out, '$');
        }
        buffer_character(out, *name);
    }
}

enum potash_status potash_depends(struct potash *potash, const char *target, struct potash_output *output)
{
    if (potash->message != NULL) {
        return POTASH_UNUSABLE;
    }
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    struct buffer out;
    buffer_start(&out, &potash->arena);
    put_name(&out, target);
    buffer_character(&out, ':');
    for (size_t i = 0; i < potash->sources.count; i++) {
        const struct source_file *file = potash->sources.files[i];
        if (file->on_disk) {
            buffer_string(&out, " \\\n  ");
            put_name(&out, file->path);
        }
    }
    buffer_character(&out, '\n');
    buffer_finish(&out);
    if (!shown_is_plain((struct text){out.bytes, out.length})) {
        return session_unusable(potash, "the name of a file holds a sign that no rule of Make can hold");
    }
    *output = (struct potash_output){out.bytes, out.length};
    return POTASH_GOOD;
}
