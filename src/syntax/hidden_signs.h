/* Signs in a file that are not seen (base/shown.h): one warning for a line, with a repair that takes them out. */
#ifndef POTASH_SYNTAX_HIDDEN_SIGNS_H
#define POTASH_SYNTAX_HIDDEN_SIGNS_H

#include "source/diagnostics.h"

/* Looks for signs beyond ASCII while a file is walked through. */
struct hidden_signs {
    struct diagnostics *diagnostics;
    const struct source_file *source;
    size_t told_upto; /* end of the last line that was remarked on */
};

/* For utf8_walk: the character at `at`; `context` is a struct hidden_signs. */
void hidden_signs_meet(void *context, size_t at, int32_t code);

/* For the lexer, which alone looks at every sign of ASCII: control signs in a text from `from` to `upto`, unless the line has been
 * remarked on. */
void hidden_signs_in_text(struct hidden_signs *signs, size_t from, size_t upto);

#endif
