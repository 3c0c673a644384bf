/* From text to syntax tree. */
#ifndef POTASH_SYNTAX_PARSE_H
#define POTASH_SYNTAX_PARSE_H

#include "source/diagnostics.h"
#include "syntax/hidden_signs.h"
#include "syntax/tree.h"

/* Where the lexer stands on its line. */
enum lexer_mode {
    LEX_LINE_START,  /* keywords of statements are known here, and only here */
    LEX_REST,        /* the rest of the line */
    LEX_FORM,        /* the rest of a material's `form` or `ions` line: words one by one, chemical formulas */
    LEX_DECLARED,    /* the name that a `unit` or `element` line declares */
    LEX_EQUILIBRIUM, /* a `pk`, `inert` or `interaction` line */
    LEX_NAMES,       /* the rest of a line that lists names: whatever stands between the commas */
    LEX_CONDITIONS,  /* the rest of a `time` line, or of a batch's `trial` line */
    LEX_MEANING,     /* the rest of a wording's `means` line, or of a batch's `mixed as`, which is kept as it stands */
    LEX_REREAD,      /* lines that stand for one that was typed (reread.h) */
    LEX_BROKEN,      /* the line is at fault from its first word on: it ends here, and is read again … */
    LEX_MEANT        /* … as if it began with the keyword that was meant */
};

struct reread;

struct lexer {
    const char *cursor;
    const char *limit;
    const char *start;       /* the file's first byte */
    uint32_t base;           /* its offset */
    enum lexer_mode mode;
    struct span token;       /* where the last token stands */
    int previous;            /* which it was */
    int before;              /* and which the one before it */
    int line_tokens;         /* how many the line has given so far */
    struct name *unit;       /* the first of the line; NULL before it */
    bool commas;             /* a number with a decimal comma was met so far */
    struct name *unit_above; /* that of the last line that has one, which a ditto sign stands for; NULL at first */
    const struct keyword *meant; /* after a slip: the keyword, and what stands in its place */
    struct text meant_slip;
    struct reread *reread;   /* where the tokens were typed, in LEX_REREAD */
    const char *conflict_end; /* behind the merge conflict whose first version is being read; NULL outside any */
    bool line_told;          /* the line's form has been found fault with; once is enough */
};

/* Tokens that a line may hold.  Lists on a line are appended to from their start, and no person writes longer ones. */
enum { LINE_TOKENS_MOST = 1000 };

/* What the parser works on. */
struct builder {
    struct arena *arena;
    struct names *names;
    struct diagnostics *diagnostics;
    struct syntax_file *file;
    struct declaration *open;        /* the declaration that statements go to */
    struct declaration *spare;       /* declarations taken from the arena ahead */
    size_t spare_count;
    size_t spare_next;               /* how many are taken at a time */
    struct lexer lexer;
    struct hidden_signs hidden; /* without a source: its signs are not looked for */
    bool keep_comments;
    struct syntax_expected *expected; /* somebody asks what can stand at a place (expected.h); or NULL */
    bool told_of_missing_heading;
};

/* Parses a whole file.  Mistakes go to `diagnostics`; a bad line costs one and is left out of the tree. */
struct syntax_file *syntax_parse(struct arena *arena, struct names *names, struct diagnostics *diagnostics,
                                 struct source_file *source, bool keep_comments);

/* The same for a part of a file, from `begin` to `end` in bytes (a declaration of the library). */
struct syntax_file *syntax_parse_slice(struct arena *arena, struct names *names, struct diagnostics *diagnostics,
                                       struct source_file *source, uint32_t begin, uint32_t end);

/* Both in two steps, where more than the tree is kept of what the parser works on (syntax/pieces.h): what is no text is reported, and
 * the first byte that is parsed returned; then the text from one byte to another is parsed. */
uint32_t syntax_begin(struct builder *builder, struct arena *arena, struct names *names, struct diagnostics *diagnostics,
                      struct source_file *source);
struct syntax_file *syntax_parse_to(struct builder *builder, uint32_t begin, uint32_t end);

#endif
