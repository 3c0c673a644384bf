/* What an unfinished merge leaves in a file: both versions of some lines, between lines of <<<<<<<, ======= and >>>>>>>.
 *
 * One error stands for the stretch.  The first version is read, so that what the lines declare is known elsewhere; diagnostics_finish
 * leaves out whatever else is said inside it. */
#include "syntax/merge_conflict.h"

enum { MARK = 7 /* signs, as version control writes them */ };

static bool is_mark(const char *at, char sign)
{
    for (int i = 0; i < MARK; i++) {
        if (at[i] != sign) {
            return false;
        }
    }
    return at[MARK] == ' ' || at[MARK] == '\r' || at[MARK] == '\n' || at[MARK] == '\0';
}

static const char *next_line(const char *at)
{
    const char *newline = strchr(at, '\n');
    return newline == NULL ? at + strlen(at) : newline + 1;
}

/* The lines of marks of one stretch, each at its start; NULL for those that it lacks. */
struct conflict {
    const char *base;     /* ||||||| */
    const char *second;   /* ======= */
    const char *end;      /* >>>>>>> */
};

static struct conflict read_conflict(const char *at)
{
    struct conflict conflict = {0};
    for (at = next_line(at); *at != '\0' && !is_mark(at, '<'); at = next_line(at)) {
        if (is_mark(at, '>')) {
            conflict.end = at;
            break;
        }
        if (is_mark(at, '=') && conflict.second == NULL) {
            conflict.second = at;
        } else if (is_mark(at, '|') && conflict.base == NULL && conflict.second == NULL) {
            conflict.base = at;
        }
    }
    return conflict;
}

static struct span line_of(const struct lexer *lexer, const char *at)
{
    uint32_t begin = lexer->base + (uint32_t)(at - lexer->start);
    return span_make(begin, begin + (uint32_t)strcspn(at, "\r\n"));
}

/* Both versions, one after the other, without the marks and without what stood there before either: these lines are emptied. */
static void offer_both(struct builder *builder, struct diagnostic *diagnostic, const char *at, struct conflict conflict)
{
    const struct lexer *lexer = &builder->lexer;
    struct diagnostics *diagnostics = builder->diagnostics;
    diagnostics_fix(diagnostics, diagnostic, line_of(lexer, at), "", "keep both versions, one after the other");
    for (at = conflict.base != NULL ? conflict.base : conflict.second; at <= conflict.second; at = next_line(at)) {
        diagnostics_fix_also(diagnostics, diagnostic, line_of(lexer, at), "");
    }
    diagnostics_fix_also(diagnostics, diagnostic, line_of(lexer, conflict.end), "");
}

static void say_conflict(struct builder *builder, const char *at, struct conflict conflict)
{
    bool whole = conflict.second != NULL && conflict.end != NULL;
    struct diagnostic *diagnostic =
        diagnostics_add(builder->diagnostics, DIAG_MERGE_CONFLICT, line_of(&builder->lexer, at), "%s",
                        whole ? "a merge is unfinished: two versions of the same lines begin here" : "this line is left over from a merge");
    if (whole) {
        builder->diagnostics->conflict = true;
        diagnostics_help(builder->diagnostics, diagnostic, "keep the lines that hold, and delete those of <<<<<<<, ======= and >>>>>>>");
        offer_both(builder, diagnostic, at, conflict);
        diagnostics_relate(builder->diagnostics, diagnostic, line_of(&builder->lexer, conflict.end), "the second version ends here");
    } else {
        diagnostics_help(builder->diagnostics, diagnostic, "delete it, once the lines around it are those that hold");
    }
}

const char *merge_conflict_pass(struct builder *builder, const char *at)
{
    struct lexer *lexer = &builder->lexer;
    bool starts_line = at == lexer->start || at[-1] == '\n';
    if (!starts_line || !is_mark(at, *at)) {
        return NULL;
    }
    if (*at != '<' && lexer->conflict_end != NULL) { /* the first version has been read */
        at = lexer->conflict_end;
        lexer->conflict_end = NULL;
        return at;
    }
    struct conflict conflict = *at == '<' ? read_conflict(at) : (struct conflict){0};
    say_conflict(builder, at, conflict);
    if (conflict.second != NULL && conflict.end != NULL) {
        lexer->conflict_end = next_line(conflict.end);
    }
    return next_line(at);
}
