/* potash editor: the language server on standard input and output. */
#include "command/command.h"

#include "editor/editor.h"

#include <unistd.h>

int command_editor(const struct command_line *line)
{
    if (line->paths.count > 0) {
        command_refuse(line->arena, "editor takes no file: what is edited comes over standard input");
        return POTASH_UNUSABLE;
    }
    const struct potash_workspace_options options = {
        .allow_reads = line->options.allow_reads,
        .silence = line->options.silence,
        .balance = line->options.balance,
        .graduate = line->options.graduate,
    };
    char why[300] = "";
    int status = editor_serve(STDIN_FILENO, STDOUT_FILENO, &options, line->options.library, why, sizeof why);
    if (why[0] != '\0' && status == POTASH_UNUSABLE) {
        command_say("potash: %s", why);
    }
    return status;
}
