/* The language server: the Language Server Protocol 3.17 over two streams, in front of a workspace.
 *
 * Nothing outside this folder knows of JSON-RPC, and nothing in it of formulas. */
#ifndef POTASH_EDITOR_EDITOR_H
#define POTASH_EDITOR_EDITOR_H

#include "workspace.h"

/* Serves until the other side says `exit` or closes `in`.  The exit status of the process, as the protocol has it: 0 after `shutdown`, else 1;
 * and 2, with the reason in `why`, where it cannot begin. */
int editor_serve(int in, int out, const struct potash_workspace_options *options, const char *library, char *why, size_t room);

#endif
