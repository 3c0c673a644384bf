/* "The complete grammar" in docs/notation.md is grammar/notation.y without what is for the parser alone: actions, error
 * recovery, and the lines that are understood only to be refused in better words.  Lists that the grammar writes by
 * left recursion are written as repetitions.  POTASH_ACCEPT=1 writes the block anew. */
#include "base/arena.h"
#include "base/buffer.h"
#include "support/accepted.h"
#include "support/program.h"

#include <ctype.h>
#include <string.h>

#define GRAMMAR_PATH "grammar/notation.y"
#define PAGE_PATH "docs/notation.md"

static const char block_begin[] = "<!-- the complete grammar, made by tests/docs/test_grammar.c -->\n```ebnf\n";
static const char block_end[] = "```\n<!-- the end of the complete grammar -->\n";

/* Actions that do nothing but say what is wrong. */
static const char *const refusals[] = {"build_amount_first", "build_part_as_solution", "build_ratio_with_colon",
                                       "build_ratio_in", "build_label"};

enum { MOST_TOKENS = 250, MOST_RULES = 150, MOST_ALTERNATIVES = 40, MOST_SYMBOLS = 16 };

struct word_list {
    struct text symbols[MOST_SYMBOLS];
    size_t count;
};

struct rule {
    struct text name;
    struct text heading; /* of the section that it begins, or empty */
    struct word_list alternatives[MOST_ALTERNATIVES];
    size_t count;
};

struct grammar {
    struct arena arena;
    jmp_buf failed;
    struct text token_names[MOST_TOKENS];
    struct text token_aliases[MOST_TOKENS]; /* with their quotes; empty for a class of tokens, which is known by its name */
    size_t token_count;
    struct rule rules[MOST_RULES];
    size_t rule_count;
};

/* ---- reading the tokens ---- */

static struct text next_word(const char **at)
{
    const char *from = *at + strspn(*at, " \t");
    const char *upto = from;
    if (*from == '"') {
        upto = strchr(from + 1, '"') + 1;
    } else if (*from == '<') {
        upto = strchr(from, '>') + 1;
    } else {
        upto += strcspn(from, " \t\n");
    }
    *at = upto;
    return (struct text){from, (size_t)(upto - from)};
}

/* `%token <type> NAME "alias" NAME "alias"` */
static void read_token_line(struct grammar *grammar, const char *at)
{
    bool class = false;
    for (struct text word = next_word(&at); word.length > 0; word = next_word(&at)) {
        if (word.at[0] == '<') {
            class = true;
        } else if (word.at[0] == '"') {
            assert_true(grammar->token_count > 0);
            bool line_end = text_is(grammar->token_names[grammar->token_count - 1], "NEWLINE");
            if (!class && !line_end) {
                grammar->token_aliases[grammar->token_count - 1] = word;
            }
        } else if (!isdigit((unsigned char)word.at[0])) {
            assert_true(grammar->token_count < MOST_TOKENS);
            grammar->token_names[grammar->token_count++] = word;
        }
    }
}

static void read_tokens(struct grammar *grammar, const char *text, const char *upto)
{
    static const char mark[] = "\n%token ";
    for (const char *at = strstr(text, mark); at != NULL && at < upto; at = strstr(at, mark)) {
        at += sizeof mark - 1;
        read_token_line(grammar, at);
    }
}

/* ---- reading the rules ---- */

/* Behind a `{ … }`, in which strings, characters and comments may hold braces. */
static const char *action_end(const char *at)
{
    int depth = 0;
    do {
        if (at[0] == '"' || at[0] == '\'') {
            char quote = *at++;
            while (*at != quote) {
                at += *at == '\\' ? 2 : 1;
            }
        } else if (at[0] == '/' && at[1] == '*') {
            at = strstr(at, "*/") + 1;
        }
        depth += *at == '{' ? 1 : *at == '}' ? -1 : 0;
        at++;
    } while (depth > 0);
    return at;
}

static bool refuses(const char *from, const char *upto)
{
    for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++) {
        const char *found = strstr(from, refusals[i]);
        if (found != NULL && found < upto) {
            return true;
        }
    }
    return false;
}

/* Adds the alternative unless it is empty by mistake of reading, serves recovery, or is there already. */
static void close_alternative(struct rule *rule, struct word_list *alternative, bool kept)
{
    for (size_t i = 0; i < alternative->count; i++) {
        kept = kept && !text_is(alternative->symbols[i], "error") && !text_is(alternative->symbols[i], "label");
    }
    for (size_t i = 0; kept && i < rule->count; i++) {
        bool same = rule->alternatives[i].count == alternative->count;
        for (size_t s = 0; same && s < alternative->count; s++) {
            same = text_equal(rule->alternatives[i].symbols[s], alternative->symbols[s]);
        }
        kept = !same;
    }
    if (kept) {
        assert_true(rule->count < MOST_ALTERNATIVES);
        rule->alternatives[rule->count++] = *alternative;
    }
    alternative->count = 0;
}

static struct text section_heading(const char *from, const char *upto)
{
    const char *dashes = strstr(from, "---- ");
    if (dashes == NULL || dashes > upto) {
        return (struct text){0};
    }
    const char *begin = dashes + 5;
    return (struct text){begin, (size_t)(strstr(begin, " ----") - begin)};
}

static void read_rules(struct grammar *grammar, const char *at, const char *upto)
{
    struct rule *rule = NULL;
    struct word_list alternative = {0};
    struct text heading = {0};
    bool kept = true;
    while (at < upto) {
        if (isspace((unsigned char)*at)) {
            at++;
        } else if (at[0] == '/' && at[1] == '*') {
            const char *end = strstr(at, "*/") + 2;
            struct text here = section_heading(at, end);
            heading = here.length > 0 ? here : heading;
            at = end;
        } else if (*at == '{') {
            const char *end = action_end(at);
            kept = kept && !refuses(at, end);
            at = end;
        } else if (*at == '|' || *at == ';') {
            assert_non_null(rule);
            close_alternative(rule, &alternative, kept);
            kept = true;
            rule = *at == ';' ? NULL : rule;
            at++;
        } else {
            size_t length = strcspn(at, " \t\n:;|{");
            struct text word = {at, length};
            at += length;
            if (rule == NULL) {
                assert_int_equal(*at, ':');
                assert_true(grammar->rule_count < MOST_RULES);
                rule = &grammar->rules[grammar->rule_count++];
                rule->name = word;
                rule->heading = heading;
                heading = (struct text){0};
                at++;
            } else if (text_is(word, "%prec")) {
                at += strspn(at, " ");
                at += strcspn(at, " \t\n");
            } else if (!text_is(word, "%empty")) {
                assert_true(alternative.count < MOST_SYMBOLS);
                alternative.symbols[alternative.count++] = word;
            }
        }
    }
}

static struct rule *rule_called(struct grammar *grammar, struct text name)
{
    for (size_t i = 0; i < grammar->rule_count; i++) {
        if (text_equal(grammar->rules[i].name, name)) {
            return &grammar->rules[i];
        }
    }
    return NULL;
}

/* A rule that can only be empty once recovery and refusals are left out says nothing. */
static bool says_nothing(const struct rule *rule)
{
    return rule->count == 0 || (rule->count == 1 && rule->alternatives[0].count == 0);
}

/* ---- writing ---- */

static void write_name(struct buffer *out, struct text name)
{
    for (size_t i = 0; i < name.length; i++) {
        buffer_character(out, name.at[i] == '_' ? '-' : name.at[i]);
    }
}

static void write_symbol(struct grammar *grammar, struct buffer *out, struct text symbol)
{
    if (rule_called(grammar, symbol) != NULL) {
        write_name(out, symbol);
        return;
    }
    for (size_t i = 0; i < grammar->token_count; i++) {
        if (text_equal(grammar->token_names[i], symbol)) {
            struct text alias = grammar->token_aliases[i];
            buffer_add(out, alias.length > 0 ? alias.at : symbol.at, alias.length > 0 ? alias.length : symbol.length);
            return;
        }
    }
    fail_msg("\"%.*s\" is neither a rule nor a token", TEXT_ARGUMENTS(symbol));
}

static void write_symbols(struct grammar *grammar, struct buffer *out, const struct word_list *alternative, size_t from)
{
    bool first = true;
    for (size_t i = from; i < alternative->count; i++) {
        const struct rule *rule = rule_called(grammar, alternative->symbols[i]);
        if (rule == NULL || !says_nothing(rule)) {
            buffer_string(out, first ? "" : " ");
            write_symbol(grammar, out, alternative->symbols[i]);
            first = false;
        }
    }
}

static bool is_recursive(const struct rule *rule, size_t index)
{
    const struct word_list *alternative = &rule->alternatives[index];
    return alternative->count > 0 && text_equal(alternative->symbols[0], rule->name);
}

struct kinds {
    size_t empty;
    size_t plain;     /* neither empty nor recursive */
    size_t recursive;
};

static struct kinds count_kinds(const struct rule *rule)
{
    struct kinds kinds = {0};
    for (size_t i = 0; i < rule->count; i++) {
        bool recursive = is_recursive(rule, i);
        kinds.recursive += recursive;
        kinds.empty += rule->alternatives[i].count == 0;
        kinds.plain += !recursive && rule->alternatives[i].count > 0;
    }
    return kinds;
}

/* The alternatives of one kind, with `between` them: a bar, or a bar on a new line. */
static void write_alternatives(struct grammar *grammar, struct buffer *out, const struct rule *rule, bool recursive,
                               const char *between)
{
    bool first = true;
    for (size_t i = 0; i < rule->count; i++) {
        if (is_recursive(rule, i) == recursive && rule->alternatives[i].count > 0) {
            buffer_string(out, first ? "" : between);
            write_symbols(grammar, out, &rule->alternatives[i], recursive ? 1 : 0);
            first = false;
        }
    }
}

static bool is_group(struct kinds kinds)
{
    return kinds.recursive > 0 && kinds.plain > 1;
}

/* `between`: what divides alternatives; `before_more`: what divides them from their repetition. */
static void write_meaning(struct grammar *grammar, struct buffer *out, const struct rule *rule, const char *between,
                          const char *before_more)
{
    struct kinds kinds = count_kinds(rule);
    bool option = kinds.empty > 0 && kinds.plain > 0;
    bool group = is_group(kinds);
    buffer_string(out, option ? "[ " : group ? "( " : "");
    write_alternatives(grammar, out, rule, false, between);
    buffer_string(out, option ? " ]" : group ? " )" : "");
    if (kinds.recursive > 0) {
        buffer_format(out, "%s{ ", kinds.plain > 0 ? before_more : "");
        write_alternatives(grammar, out, rule, true, between);
        buffer_string(out, " }");
    }
}

/* On one line where it fits; else an alternative a line. */
static void write_rule(struct grammar *grammar, struct buffer *out, const struct rule *rule)
{
    enum { LINE = 110 };
    struct buffer line;
    buffer_start(&line, &grammar->arena);
    write_meaning(grammar, &line, rule, " | ", " ");
    write_name(out, rule->name);
    if (line.length + rule->name.length + 5 <= LINE) {
        buffer_format(out, " = %s ;\n", buffer_finish(&line));
        return;
    }
    bool inside = count_kinds(rule).recursive > 0;
    buffer_string(out, " =\n    ");
    write_meaning(grammar, out, rule, inside ? "\n    | " : "\n  | ", "\n    ");
    buffer_string(out, " ;\n");
}

static void write_grammar(struct grammar *grammar, struct buffer *out)
{
    for (size_t i = 0; i < grammar->rule_count; i++) {
        const struct rule *rule = &grammar->rules[i];
        if (rule->heading.length > 0) {
            buffer_format(out, "\n(* %.*s *)\n\n", TEXT_ARGUMENTS(rule->heading));
        }
        if (!says_nothing(rule)) {
            write_rule(grammar, out, rule);
        }
    }
}

static void the_page_has_the_grammar(void **state)
{
    (void)state;
    static struct grammar grammar;
    arena_start(&grammar.arena);
    if (setjmp(grammar.failed) != 0) {
        fail_msg("out of memory");
    }
    grammar.arena.on_failure = &grammar.failed;

    char *text = file_bytes(GRAMMAR_PATH, NULL);
    assert_non_null(text);
    const char *rules = strstr(text, "\n%%\n");
    assert_non_null(rules);
    const char *rules_end = strstr(rules + 4, "\n%%\n");
    assert_non_null(rules_end);
    read_tokens(&grammar, text, rules);
    read_rules(&grammar, rules + 4, rules_end);
    assert_true(grammar.token_count > 50 && grammar.rule_count > 30);

    char *page = file_bytes(PAGE_PATH, NULL);
    assert_non_null(page);
    const char *begin = strstr(page, block_begin);
    assert_non_null(begin);
    begin += sizeof block_begin - 1;
    const char *end = strstr(begin, block_end);
    assert_non_null(end);

    struct buffer wanted;
    buffer_start(&wanted, &grammar.arena);
    buffer_add(&wanted, page, (size_t)(begin - page));
    write_grammar(&grammar, &wanted);
    buffer_string(&wanted, end);
    assert_accepted(PAGE_PATH, wanted.bytes, wanted.length);
    free(page);
    free(text);
    arena_release(&grammar.arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_page_has_the_grammar),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
