/* What rules say once they are found to hold. */
#ifndef POTASH_PRACTICE_RULES_RULES_SAY_H
#define POTASH_PRACTICE_RULES_RULES_SAY_H

#include "practice/rules/rules.h"

/* Says the rule's warning of a place; NULL when it is silenced, or when that line is in doubt already. */
struct diagnostic *rules_say(struct bench *bench, const struct rule *rule, struct span span);

/* Says that two amounts do not go together, of the line that is further from the usual, or of both. */
void rules_say_ratio(struct bench *bench, const struct rule *rule, const struct rule_condition *condition);

/* Says that something is missing; `beside` is the line that the rule was found to hold on, or NULL. */
void rules_say_missing(struct bench *bench, const struct rule *rule, const struct step *beside);

/* Offers to exchange the line with the one that it is in the wrong order with. */
void rules_offer_order(struct bench *bench, struct diagnostic *diagnostic, const struct rule *rule, const struct part *part,
                       const struct step *step);

/* What the rules call for is missing: says so on the line of a material that is mistaken for it, which must be `only` when
 * that is not NULL.  False when there is none. */
bool look_alike_for_missing(struct bench *bench, size_t subject, const struct step *only);

#endif
