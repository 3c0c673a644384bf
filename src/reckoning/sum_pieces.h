/* For the files that read sums: tokens, and the pieces that several kinds of sums are made of. */
#ifndef POTASH_RECKONING_SUM_PIECES_H
#define POTASH_RECKONING_SUM_PIECES_H

#include "reckoning/sums.h"

/* The token `ahead` of the next; the last stands for all behind it. */
const struct sum_token *piece_ahead(const struct reckoner *reckoner, size_t ahead);
const struct sum_token *piece_next(const struct reckoner *reckoner);
const struct sum_token *piece_take(struct reckoner *reckoner);
bool piece_take_if(struct reckoner *reckoner, int kind);
bool piece_is_word(const struct sum_token *token, const char *word);

/* Says that what stands there, or next, is not what is expected; returns false. */
bool piece_refuse_span(struct reckoner *reckoner, struct span span, const char *expected);
bool piece_refuse(struct reckoner *reckoner, const char *expected);

/* An amount, and the material behind it when `material` is not NULL.  NULL: reported. */
struct quantity *piece_measure(struct reckoner *reckoner, struct material_words **material);

/* A material if one stands next; *stock tells whether it was called a stock. */
bool piece_material_if(struct reckoner *reckoner, struct material_words **material, bool *stock);
bool piece_at_strength(const struct reckoner *reckoner);

/* "28 %", "28 % acetic acid", "glacial", "acetic acid (glacial)", "0.880". */
bool piece_solution(struct reckoner *reckoner, struct sum_solution *solution, struct material_words **material,
                    bool *stock);

/* What the answer is wanted in. */
bool piece_target(struct reckoner *reckoner, struct sum_target *target);
bool piece_at_target_unit(const struct reckoner *reckoner);
bool piece_is_text(struct text text, const char *word);

#endif
