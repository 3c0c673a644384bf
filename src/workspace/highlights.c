/* What each word of a text is, for an editor that colours them: the lexer's tokens, and what the tree knows of names. */
#include "syntax/builder.h"
#include "syntax/mentions.h"
#include "workspace/snapshots.h"
#include "workspace/text_tokens.h"

#include "notation.tab.h"

struct colourer {
    struct arena *arena;
    const struct workspace_text *text;
    const struct syntax_file *tree;
    struct mention *mentions;    /* in the order of the text */
    size_t mention_count;
    size_t mention_room;
    size_t next_mention;
    bool in_brackets;
    struct potash_highlight *items;
    size_t count;
    size_t room;
};

static void add(struct colourer *colourer, enum potash_highlight_kind kind, struct span span, bool declares)
{
    if (span.end > span.begin) {
        *SNAPSHOT_ADD(colourer->arena, struct potash_highlight, colourer->items, colourer->count, colourer->room) = (struct potash_highlight){
            text_range_of(colourer->text->file, colourer->tree->source, span), kind, declares};
    }
}

static void add_comment(struct colourer *colourer, struct span span)
{
    const char *bytes = colourer->tree->source->bytes - colourer->tree->source->base;
    while (span.end > span.begin && strchr("\r\n", bytes[span.end - 1]) != NULL) {
        span.end--;
    }
    add(colourer, POTASH_HIGHLIGHT_COMMENT, span, false);
}

static void keep_mention(void *context, const struct mention *mention)
{
    struct colourer *colourer = context;
    if (mention->kind == MENTION_STOCK) {
        return;
    }
    struct mention *added = SNAPSHOT_ADD(colourer->arena, struct mention, colourer->mentions, colourer->mention_count, colourer->mention_room);
    *added = *mention;
    while (added > colourer->mentions && added[-1].span.begin > mention->span.begin) { /* within its line, in any order */
        added[0] = added[-1];
        *--added = *mention;
    }
}

/* The name that a token is, or holds. */
static const struct mention *mention_in(struct colourer *colourer, struct span token)
{
    while (colourer->next_mention < colourer->mention_count && colourer->mentions[colourer->next_mention].span.end <= token.begin) {
        colourer->next_mention++;
    }
    const struct mention *mention = &colourer->mentions[colourer->next_mention];
    return colourer->next_mention < colourer->mention_count && mention->span.begin < token.end ? mention : NULL;
}

/* A number and its unit are one token. */
static void add_amount(struct colourer *colourer, const struct quantity *quantity, struct span token)
{
    bool parted = quantity->number_end > token.begin && quantity->number_end < token.end;
    uint32_t end = parted ? quantity->number_end : token.end;
    add(colourer, POTASH_HIGHLIGHT_NUMBER, span_make(token.begin, end), false);
    const char *bytes = colourer->tree->source->bytes - colourer->tree->source->base;
    while (end < token.end && strchr(" \t", bytes[end]) != NULL) {
        end++;
    }
    add(colourer, POTASH_HIGHLIGHT_UNIT, span_make(end, token.end), false);
}

static bool add_token(void *context, const struct text_token *token)
{
    struct colourer *colourer = context;
    struct span span = token->span;
    bool in_brackets = colourer->in_brackets;
    colourer->in_brackets = token->kind == T_OPEN || (in_brackets && token->kind != T_CLOSE && token->kind != T_NEWLINE);
    const struct mention *mention = mention_in(colourer, span);
    bool declares = mention != NULL && mention->declares;
    switch (token->kind) {
    case TEXT_COMMENT:
        add_comment(colourer, span);
        break;
    case T_NEWLINE:
        break;
    case T_STRING:
        add(colourer, mention == NULL ? POTASH_HIGHLIGHT_TEXT : POTASH_HIGHLIGHT_TITLE, span, declares);
        break;
    case T_WORDS:
        add(colourer,
            mention != NULL && mention->kind == MENTION_MATERIAL ? POTASH_HIGHLIGHT_MATERIAL
            : in_brackets                                        ? POTASH_HIGHLIGHT_FORM
                                                                 : POTASH_HIGHLIGHT_WORD,
            span, declares);
        break;
    case T_AMOUNT:
        add_amount(colourer, token->quantity, span);
        break;
    case T_NUMBER:
    case T_DATE:
    case T_CAS_NUMBER:
    case T_SIZE:
        add(colourer, POTASH_HIGHLIGHT_NUMBER, span, false);
        break;
    case T_PERCENT:
        add(colourer, POTASH_HIGHLIGHT_UNIT, span, false);
        break;
    case T_CHEMICAL:
    case T_LABEL:
        add(colourer, POTASH_HIGHLIGHT_WORD, span, false);
        break;
    case T_COMMA:
    case T_OPEN:
    case T_CLOSE:
    case T_PLUS:
    case T_COLON:
    case T_UNKNOWN:
        add(colourer, POTASH_HIGHLIGHT_SIGN, span, false);
        break;
    default:
        add(colourer, POTASH_HIGHLIGHT_KEYWORD, span, false);
        break;
    }
    return true;
}

enum potash_status potash_snapshot_highlights(struct potash_snapshot *snapshot, const char *path, struct potash_highlights *highlights)
{
    *highlights = (struct potash_highlights){0};
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        return workspace_out_of_memory(snapshot->workspace);
    }
    struct workspace_text *text = snapshot_begin(snapshot, path);
    if (text == NULL) {
        return POTASH_UNUSABLE;
    }
    struct colourer colourer = {.arena = &snapshot->arena, .text = text, .tree = text_tree(text->file)};
    mentions_visit(colourer.tree, keep_mention, &colourer);
    text_tokens(&snapshot->arena, colourer.tree->source, 0, add_token, &colourer);
    *highlights = (struct potash_highlights){colourer.items, colourer.count};
    return POTASH_GOOD;
}
