/* What there is to be typed of each kind: materials, units, titles. */
#ifndef POTASH_WORKSPACE_OFFERS_H
#define POTASH_WORKSPACE_OFFERS_H

#include "syntax/mentions.h"
#include "workspace/lines.h"
#include "workspace/text_tokens.h"

struct offers {
    struct potash_snapshot *snapshot;
    struct arena *arena;
    struct workspace_text *text;
    const struct checked *checked;
    struct line_at at;
    const struct material *material; /* that the line names before the place; or NULL */
    bool quoted;                     /* texts are written with their quotes */
    enum mention_kind wanted;        /* while mentions are gone through … */
    enum potash_completion_kind kind;
    struct potash_completion *items;
    size_t count;
    size_t room;
};

/* Whether a name is that of a material, so that it may be finished. */
bool is_known_name(const struct offers *offers, struct text name);

/* The material that the tokens of a line name before an offset; NULL when there is none. */
const struct material *material_before(const struct offers *offers, const struct source_file *source, const struct text_token *tokens,
                                       size_t count, size_t offset);

void offer_keyword(struct offers *offers, const char *words);
void offer_materials(struct offers *offers);
void offer_forms(struct offers *offers);        /* of offers->material */
void offer_amounts(struct offers *offers);      /* that are usual of it in this kind of bath */
void offer_units(struct offers *offers, unsigned dimensions);
void offer_kinds(struct offers *offers);
void offer_ids(struct offers *offers);          /* of warnings */
void offer_mentions(struct offers *offers, enum mention_kind wanted, enum potash_completion_kind kind);
void offer_files(struct offers *offers);

/* Words with a comma and a blank between them. */
void offer_list(struct offers *offers, const char *words);

#endif
