/* What rules say once they are found to hold. */
#ifndef POTASH_PRACTICE_RULES_RULES_SAY_H
#define POTASH_PRACTICE_RULES_RULES_SAY_H

#include "practice/rules/rules.h"

/* Says the rule's warning of a place; NULL when it is silenced, or when that line is in doubt already. */
struct diagnostic *rules_say(const struct practice *practice, struct formula *formula, const struct rule *rule, struct span span);

/* Says that two amounts do not go together, of the line that is further from the usual, or of both. */
void rules_say_ratio(const struct rules *rules, const struct practice *practice, struct formula *formula, const struct rule *rule,
                     const struct rule_condition *condition);

/* Says that something is missing; `beside` is the line that the rule was found to hold on, or NULL. */
void rules_say_missing(const struct rules *rules, const struct practice *practice, struct formula *formula, const struct rule *rule,
                       const struct step *beside);

/* Offers to exchange the line with the one that it is in the wrong order with. */
void rules_offer_order(const struct rules *rules, const struct practice *practice, struct diagnostic *diagnostic, const struct rule *rule,
                       const struct part *part, const struct step *step);

#endif
