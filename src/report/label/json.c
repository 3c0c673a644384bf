/* A bottle label for programs: docs/schema/label.schema.json. */
#include "report/label/model.h"

#include "report/json_values.h"
#include "report/safety.h"

static json_t *dilutions_json(const struct label *label)
{
    json_t *list = json_array();
    const struct text *mixture = label->mixtures;
    for (const struct use *use = label->use == NULL ? label->formula->uses : NULL; use != NULL; use = use->next, mixture++) {
        if (mixture->length > 0) {
            put_item(&list, json_pack("{s:o, s:o}", "for", text_json(use->name), "mixture", text_json(*mixture)));
        }
    }
    return list;
}

json_t *label_json(const struct label *label)
{
    const struct name *name = label->part == NULL ? NULL : label->part->name;
    return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "title", text_json(label->formula->title), "part",
                     name == NULL ? json_null() : text_json(name->spelling), "for",
                     label->use == NULL ? json_null() : text_json(label->use->name), "strength", text_json(label->strength), "volume_mL",
                     number_or_null(label->volume), "mass_g", number_or_null(label->mass), "batch",
                     label->batch == NULL ? json_null() : text_json(label->batch->id), "mixed_on", text_or_null(label->mixed), "discard_after",
                     text_or_null(label->discard), "keeps", text_or_null(label->keeps), "dilutions", dilutions_json(label), "fingerprint",
                     text_json(label->fingerprint), "safety", safety_json(label->safety));
}
