/* The actions of the grammar: each makes a node of the tree, or adds one to the declaration that is open. */
#ifndef POTASH_SYNTAX_BUILDER_H
#define POTASH_SYNTAX_BUILDER_H

#include "syntax/parse.h"

#include <math.h>

/* Words, quantities and their kin. */
struct name *build_name(struct builder *builder, struct text spelling);
struct word *build_word(struct builder *builder, struct name *name, struct span span);
/* A part's name as one word: "A", "1", "No. 1"; a number that is not NAN follows the words, a title stands for them. */
struct word *build_part_word(struct builder *builder, struct name *words, double number, struct text title,
                             struct span span);
struct word *build_word_list(struct word *list, struct word *more);
/* A number, or the unit of one that nobody wrote ("per roll"): the lexer makes those with both. */
struct quantity *build_quantity(struct builder *builder, double value, struct name *unit, struct span span);
struct quantity *build_counted(struct quantity *quantity, const struct sheet_size *size, struct span span);
struct quantity *build_sum(struct quantity *first, struct quantity *more);
struct quantity *build_range(struct quantity *low, struct quantity *high);
struct strength *build_strength(struct builder *builder, double percent, enum percent_basis basis, bool saturated,
                                struct span number_span, struct span span);
struct form_words *build_form(struct builder *builder, struct name *words, double number, bool percent);
/* The first of "125 °F or 52 °C", with the unit cleared of the "or". */
struct form_words *build_form_or(struct builder *builder, const struct quantity *first, const struct quantity *second);
struct form_words *build_comma_form(struct builder *builder, struct name *words, struct span span);
struct material_words *build_figures_form(struct builder *builder, struct material_words *material, struct form_words *form);
struct form_list *build_form_list(struct builder *builder, struct form_list *list, struct form_words *form);
struct material_words *build_material(struct builder *builder, struct name *name, struct span span,
                                      struct form_words *form);
/* A number with its unit, and nothing else. */
struct amount_words *build_plain_amount(struct builder *builder, struct quantity *quantity);
struct amount_words *build_amount(struct builder *builder, enum amount_kind kind, struct quantity *quantity,
                                  const struct strength *strength, struct span span);
struct amount_words *build_as_needed(struct builder *builder, struct span span);
/* What may follow an amount; build_tails adds one to others. */
struct tails *build_tail_temperature(struct builder *builder, struct quantity *temperature);
struct tails *build_tail_optional(struct builder *builder);
struct tails *build_tail_other(struct builder *builder, struct quantity *other, struct span span);
struct tails *build_tail_form(struct builder *builder, struct form_words *form);
struct tails *build_tail_note(struct builder *builder, struct text note);
struct tails *build_tail_place(struct builder *builder, struct material_words *place, bool before);
struct tails *build_tails(struct tails *tails, const struct tails *tail);
/* `more_span`: of the number that is added. */
struct ratio *build_ratio(struct builder *builder, double first, double second, struct span second_span, struct span span);
struct ratio *build_ratio_more(struct builder *builder, struct ratio *ratio, double more, struct span more_span, struct span span);
struct ratio *build_ratio_words(struct builder *builder, struct name *words, struct span span);
struct ratio *build_ratio_with_colon(struct builder *builder, double first, double second, struct span second_span, struct span span);
struct mix_item *build_mix_item(struct builder *builder, struct material_words *what, double number, struct text title,
                                struct quantity *quantity, struct span span);
struct mix_item *build_mix_list(struct mix_item *list, struct mix_item *more);

/* The line of the text that the span begins in, without what stands around it, and where a piece of the text stands. */
struct text syntax_line_of(const struct builder *builder, struct span span);
struct span syntax_span_of(const struct builder *builder, struct text text);

/* misspelt.c.  Whether the line begins with a slip of a keyword, which is reported; the line is then read as if the
 * keyword stood there.  `token` and `span`: where reading came to a halt. */
bool builder_told_of_slip(struct builder *builder, int token, struct span span);
/* Whether the line begins with the word of a heading. */
bool builder_in_heading(const struct builder *builder, struct span span);
/* Help for a line for which nothing more particular is known: the word that was meant at `span`, or how such a line
 * looks. */
void builder_help_line(struct builder *builder, struct diagnostic *diagnostic, struct span span, struct text found,
                       const char *const *expected, int count);

/* Declarations: each opens one. */
void build_titled(struct builder *builder, enum declaration_kind kind, struct text title, struct span title_span,
                  struct span span);
struct declaration *build_named(struct builder *builder, enum declaration_kind kind, struct name *name,
                                struct span name_span, bool replacing, struct span span);
void build_stock(struct builder *builder, struct material_words *material, struct strength *strength, struct span span);
void build_unit(struct builder *builder, struct name *name, struct span name_span, struct unit_words *unit,
                struct span span);
void build_element(struct builder *builder, struct name *symbol, struct span symbol_span, double weight,
                   struct word *also, struct text source, struct span span);
struct name *build_code(struct builder *builder, struct span span);
struct phrase_words *build_phrase_words(struct builder *builder);
void build_phrase(struct builder *builder, struct name *code, struct span code_span, struct text text,
                  struct span text_span, const struct phrase_words *phrase, struct span span);

/* Statements: each is added to the open declaration. */
void build_statement(struct builder *builder, struct statement *statement, enum statement_kind kind, struct span span);
void build_words(struct builder *builder, enum statement_kind kind, struct word *words, struct span span);
void build_text(struct builder *builder, enum statement_kind kind, struct text text, struct span text_span,
                struct span span);
void build_text_from(struct builder *builder, enum statement_kind kind, struct text text, struct span text_span,
                     struct text source, struct span span);
void build_figures(struct builder *builder, enum statement_kind kind, struct quantity *quantity, struct quantity *per,
                    struct word *word, struct span span);
void build_part(struct builder *builder, struct name *words, double number, struct text title, struct span name_span,
                struct span span);
void build_addition(struct builder *builder, enum statement_kind kind, struct material_words *material,
                    struct amount_words *amount, const struct tails *tails, struct span span);
void build_gravity_addition(struct builder *builder, struct material_words *material, double gravity, struct span gravity_span,
                            struct quantity *quantity, const struct tails *tails, struct span span);
/* A line that the grammar does not know, in its place: `newline` is where it ends. */
void build_refused_line(struct builder *builder, struct span newline);
void build_for(struct builder *builder, struct word *words, struct span span);
void build_named_solution(struct builder *builder, struct strength *strength, struct name *words, struct span words_span,
                          struct quantity *quantity, const struct tails *tails, struct span span);
struct form_words *build_gravity_form(struct builder *builder, struct name *words, double gravity, struct span words_span);
/* "Water at 125 °F 16 oz", "Water, 125 °F (52 °C), 16 oz": the temperature stands before the amount. */
void build_warm_addition(struct builder *builder, struct material_words *material, const struct amount_words *warmth,
                         struct amount_words *amount, struct tails *tails, struct span span);
/* A part's name as print has it, "No. 1." or "A.—": told, and taken as what opens the part. */
void build_label(struct builder *builder, struct text label, struct span span);
void build_part_as_solution(struct builder *builder, struct span keyword_span, struct name *words, struct span words_span,
                            struct span span);
void build_solution(struct builder *builder, struct name *words, double number, struct text title, struct span what_span,
                    struct quantity *quantity, const struct tails *tails, struct span span);
void build_dilution(struct builder *builder, const struct ratio *ratio, const struct ratio *high, struct span span);
void build_volumes_dilution(struct builder *builder, struct quantity *taken, struct quantity *whole, struct span span);
void build_mix(struct builder *builder, struct mix_item *items, struct span span);
void build_mix_ratio(struct builder *builder, const struct ratio *ratio, struct span span);
void build_time(struct builder *builder, struct quantity *time, const struct conditions *conditions, struct span span);
void build_pour(struct builder *builder, struct name *words, double number, struct text title, struct span name_span,
                struct quantity *time, const struct conditions *conditions, struct span span);
/* Adds what `one` says to `all`, and reports what was said before. */
struct conditions *build_conditions(struct builder *builder, struct conditions *all, const struct conditions *one, struct span span);
/* Variants; `part` may be NULL. */
void build_change(struct builder *builder, enum statement_kind kind, struct material_words *from, struct word *part,
                  struct amount_words *amount, struct span span);
void build_swap(struct builder *builder, struct material_words *from, struct word *part, struct material_words *to,
                struct material_words *with, struct span span);
struct tails *build_tail_part(struct builder *builder, struct tails *tails, struct word *part);
/* The part of "in part A", "in part No. 1", "in part \"Bleach\""; NULL when the words name none, which is reported. */
struct word *build_in_part(struct builder *builder, struct name *words, struct span words_span, double number, struct text title,
                           struct span end);

/* Materials and units. */
void build_counts_as(struct builder *builder, struct form_words *form, struct span form_span, struct text source,
                     struct span span);
struct form_statement *build_form_line(struct builder *builder);
struct form_statement *build_form_name(struct builder *builder, struct form_statement *line, struct form_words *word,
                                       struct span span);
struct form_statement *build_form_chemical(struct builder *builder, struct form_statement *line, struct text chemical,
                                           struct span span);
void build_form_statement(struct builder *builder, struct form_statement *line, struct span span);
struct ion *build_ion(struct builder *builder, double count, struct text formula, struct span span);
struct ion *build_ion_list(struct ion *list, struct ion *more);
void build_ions(struct builder *builder, enum statement_kind kind, struct ion *ions, struct text source, struct span span);
void build_no_ions(struct builder *builder, const struct word *none, struct text source, struct span span);
struct pk_statement *build_acid(struct builder *builder, struct ion *acid, double pk, struct span pk_span);
void build_pk(struct builder *builder, struct pk_statement *pk, struct span span);
void build_interaction(struct builder *builder, struct text formula, struct span formula_span, struct ion *with,
                       struct text source, struct span span);
struct figure_statement *build_figure_of(struct builder *builder, struct word *word, struct quantity *quantity,
                                         struct quantity *temperature);
struct figure_statement *build_figure_for(struct builder *builder, struct word *word, struct quantity *quantity, struct word *holding);
struct figure_statement *build_class(struct builder *builder, struct text hazard, struct word *code);
struct figure_statement *build_limits(struct builder *builder, double from, double to);
struct figure_statement *build_limit(struct builder *builder, struct text hazard, struct word *code,
                                     struct figure_statement *limits);
struct figure_statement *build_dissolving(struct builder *builder, struct quantity *quantity, struct form_words *form,
                                          struct quantity *per, struct quantity *temperature,
                                          struct word *solvent);
void build_figure(struct builder *builder, enum statement_kind kind, struct figure_statement *figure, struct text source,
                  struct span span);
struct unit_words *build_unit_meaning(struct builder *builder);
struct unit_value *build_unit_value(struct builder *builder, struct quantity *quantity, struct word *measures,
                                    struct word *matter);
struct unit_value *build_unit_value_list(struct unit_value *list, struct unit_value *more);

/* Rules, shelves, batches, processes. */
struct bound *build_bound(struct builder *builder, struct quantity *quantity, bool over);
struct condition_statement *build_relation(struct builder *builder, struct material_words *subject, enum relation relation,
                                           struct material_words *object, struct bound *bound);
void build_condition(struct builder *builder, struct condition_statement *condition, struct span span);
void build_reagent(struct builder *builder, enum statement_kind kind, struct condition_statement *reagent, struct span span);
/* What is known of a pack is known once: `said` tells whether it was said before `span`. */
struct holding_statement *build_pack_once(struct holding_statement *holding, bool said, struct span span);
struct holding_statement *build_pack(struct builder *builder);
void build_usual(struct builder *builder, struct material_words *material, struct quantity *range, bool optional,
                 struct span span);
void build_usual_use(struct builder *builder, struct word *what, struct quantity *range, struct quantity *per, struct word *in,
                     struct span span);
void build_usual_dilution(struct builder *builder, struct word *what, const struct ratio *low, const struct ratio *high, struct span span);
void build_holding(struct builder *builder, enum statement_kind kind, struct material_words *material, struct quantity *pack,
                   struct holding_statement *holding, struct span span);
void build_bottles(struct builder *builder, double count, struct span count_span, struct quantity *volume, struct text note,
                   struct span span);
void build_batch(struct builder *builder, struct text title, struct span title_span, struct text of, struct span of_span,
                 struct span span);
/* A line of the open declaration could not be read. */
void build_broken(struct builder *builder);
void build_dated(struct builder *builder, enum statement_kind kind, struct text date, struct span date_span,
                 struct quantity *quantity, struct quantity *goods, struct span span);
void build_took(struct builder *builder, enum statement_kind kind, struct took_statement *took, struct quantity *quantity, struct span span);
struct trial_statement *build_trial_lines(struct builder *builder);
struct trial_statement *build_trial_time(struct trial_statement *trial, struct quantity *time);
void build_trial(struct builder *builder, struct trial_statement *trial, struct text date, struct span date_span,
                 struct span span);
struct wash_statement *build_washing(struct builder *builder, struct quantity *time, struct quantity *changes);
void build_wash(struct builder *builder, struct wash_statement *wash, struct span span);
void build_replenish(struct builder *builder, struct quantity *quantity, struct quantity *per, struct text title,
                     struct span title_span, struct span span);
void build_task(struct builder *builder, struct text text, struct span text_span, struct quantity *time, struct span span);
struct bath_statement *build_bath_use(struct builder *builder);
void build_bath(struct builder *builder, struct text title, struct span title_span, struct bath_statement *bath,
                struct span span);

/* Reports that a token is not what was expected; `expected` holds the tokens' descriptions. */
/* Mistakes in the lines of shelves and batches whose repair is known (record_errors.c).  True when it has been told. */
bool builder_record_error(struct builder *builder, int token, struct span span, struct text found);

/* Whether a day stands behind that token. */
bool builder_wants_date(int before);
void builder_syntax_error(struct builder *builder, int token, struct span span, const char *const *expected, int count);

#endif
