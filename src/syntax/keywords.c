/* The words that lines begin with: how a line with each looks, and which of them a misspelt one was meant to be. */
#include "syntax/keywords.h"

#include "base/slips.h"

#include "syntax/builder.h"

#include "notation.tab.h"

#define OF(KIND) (1u << DECLARE_##KIND)
#define BATHS (OF(FORMULA) | OF(VARIANT))

static const struct keyword keywords[] = {
    {"formula", T_FORMULA, KEYWORD_OPENS, "formula \"Print developer\""},
    {"variant", T_VARIANT, KEYWORD_OPENS, "variant \"Print developer, cold\""},
    {"stock", T_STOCK, KEYWORD_OPENS, "stock phenidone 1 %"},
    {"material", T_MATERIAL, KEYWORD_OPENS, "material marsh soda"},
    {"unit", T_UNIT, KEYWORD_OPENS, "unit scoop is 6 g"},
    {"element", T_ELEMENT, KEYWORD_OPENS, "element Xx is 100 also unobtainium"},
    {"phrase", T_PHRASE, KEYWORD_OPENS, "phrase P999 \"Rinse the tray.\""},
    {"read", T_READ, KEYWORD_OPENS, "read \"stocks.bath\""},
    {"rule", T_RULE, KEYWORD_OPENS, "rule hard-water"},
    {"reaction", T_REACTION, KEYWORD_OPENS, "reaction marsh-acids-and-bleach"},
    {"group", T_GROUP, KEYWORD_OPENS, "group marsh acids"},
    {"equilibrium", T_EQUILIBRIUM, KEYWORD_OPENS, "equilibrium marsh acid"},
    {"kind of bath", T_KIND_OF_BATH, KEYWORD_OPENS, "kind of bath marsh bath"},
    {"shelf", T_SHELF, KEYWORD_OPENS, "shelf \"Club shelf\""},
    {"batch", T_BATCH, KEYWORD_OPENS, "batch \"PD-014\" of \"Print developer\""},
    {"process", T_PROCESS, KEYWORD_OPENS, "process \"Roll film, one reel\""},
    {"wording", T_WORDING, KEYWORD_OPENS, "wording \"soak for {time}\""},

    {"kind", T_KIND, BATHS, "kind developer"},
    {"for", T_FOR, BATHS | OF(RULE), "for paper"},
    {"makes", T_MAKES, BATHS, "makes 1 L"},
    {"measures", T_MEASURES, BATHS, "measures imperial"},
    {"after", T_AFTER, BATHS, "after \"published source\""},
    {"note", T_NOTE,
     BATHS | OF(STOCK) | OF(MATERIAL) | OF(EQUILIBRIUM) | OF(REACTION) | OF(SHELF) | OF(BATCH) | OF(PROCESS),
     "note \"mixed by daylight\""},
    {"keeps", T_KEEPS, BATHS | OF(STOCK), "keeps 6 months in full bottle"},
    {"silence", T_SILENCE, BATHS, "silence form-unstated"},
    {"pinch of", T_PINCH_OF, OF(FORMULA), "pinch of sodium sulfite"},
    {"solution", T_SOLUTION, OF(FORMULA), "solution \"Gold stock\" 10 mL"},
    {"cool to", T_COOL_TO, OF(FORMULA), "cool to 24 °C"},
    {"warm to", T_WARM_TO, OF(FORMULA), "warm to 50 °C"},
    {"stand", T_STAND, OF(FORMULA), "stand 12 h"},
    {"filter", T_FILTER, OF(FORMULA), "filter"},
    {"do", T_DO, OF(FORMULA) | OF(PROCESS), "do \"stir until it is clear\""},
    {"part", T_PART, OF(FORMULA), "part A"},
    {"use for", T_USE_FOR, BATHS, "use for paper"},
    {"dilute", T_DILUTE, BATHS | OF(PROCESS), "dilute 1+3"},
    {"mix", T_MIX, BATHS, "mix A 1 + B 1 + water 8"},
    {"temperature", T_TEMPERATURE, BATHS, "temperature 20 °C"},
    {"time", T_TIME, BATHS, "time 90 s"},
    {"agitate", T_AGITATE, BATHS | OF(PROCESS), "agitate \"10 s in every minute\""},
    {"needs", T_NEEDS, BATHS, "needs 10 mL per roll"},
    {"capacity", T_CAPACITY, BATHS, "capacity 12 rolls per L"},
    {"coefficient", T_COEFFICIENT, BATHS, "coefficient 1.9 per 10 °C"},
    {"replenish", T_REPLENISH, BATHS, "replenish 30 mL of \"Film replenisher\" per roll"},
    {"bath", T_BATH, BATHS, "bath A 4 min at 20 °C"},

    {"of", T_OF, OF(VARIANT), "of \"Print developer\""},
    {"change", T_CHANGE, OF(VARIANT), "change potassium bromide to 0.8 g"},
    {"leave out", T_LEAVE_OUT, OF(VARIANT), "leave out metol"},
    {"add", T_ADD, OF(VARIANT), "add phenidone 0.15 g from 1 % stock, after hydroquinone"},
    {"swap", T_SWAP, OF(VARIANT), "swap sodium carbonate for potassium carbonate"},

    {"in", T_IN, OF(STOCK), "in isopropyl alcohol"},

    {"also", T_ALSO, OF(MATERIAL), "also soda of the marsh"},
    {"role", T_ROLE, OF(MATERIAL) | OF(KIND_OF_BATH), "role alkali"},
    {"form", T_FORM, OF(MATERIAL), "form anhydrous Na2CO3 usual"},
    {"ions", T_IONS, OF(MATERIAL), "ions 2 Na+, CO3--"},
    {"dissolves", T_DISSOLVES, OF(MATERIAL), "dissolves 21 g per 100 mL at 20 °C"},
    {"typical", T_TYPICAL, OF(MATERIAL) | OF(KIND_OF_BATH), "typical developer 5 to 100 g/L"},
    {"density", T_DENSITY, OF(MATERIAL), "density 0.9 g/mL"},
    {"hazard", T_HAZARD, OF(MATERIAL), "hazard \"Eye Irrit. 2\" H319"},
    {"limit", T_LIMIT, OF(MATERIAL), "limit \"Eye Irrit. 2\" H319 from 5 % to 25 %"},
    {"factor", T_FACTOR, OF(MATERIAL), "factor acute 10"},
    {"toxicity", T_TOXICITY, OF(MATERIAL), "toxicity oral 300 mg/kg"},
    {"counts as", T_COUNTS_AS, OF(MATERIAL), "counts as anhydrous"},
    {"caution", T_CAUTION, OF(MATERIAL), "caution \"do not breathe the dust\""},
    {"stop", T_STOP, OF(MATERIAL), "stop \"a breath of its gas kills\""},
    {"mistaken for", T_MISTAKEN_FOR, OF(MATERIAL) | OF(UNIT), "mistaken for sodium sulfate"},
    {"store", T_STORE, OF(MATERIAL), "store \"tightly closed and dry\""},
    {"source", T_SOURCE, OF(MATERIAL) | OF(RULE) | OF(REACTION) | OF(GROUP) | OF(EQUILIBRIUM) | OF(KIND_OF_BATH) | OF(WORDING), "source \"our own trial\""},

    {"pk", T_PK, OF(EQUILIBRIUM), "pk HCO3- 10.33 at 25 °C gives CO3--"},
    {"inert", T_INERT, OF(EQUILIBRIUM), "inert Na+, Cl-"},
    {"interaction", T_INTERACTION, OF(EQUILIBRIUM), "interaction CO3-- with Na+ -0.08"},

    {"in", T_IN, OF(RULE) | OF(REACTION), "in developer"},
    {"when", T_WHEN, OF(RULE), "when metol comes after sodium sulfite over 10 g/L"},
    {"warn", T_WARN, OF(RULE) | OF(REACTION), "warn \"it dissolves poorly\""},
    {"advise", T_ADVISE, OF(RULE) | OF(REACTION), "advise \"dissolve it first\""},
    {"says", T_SAYS, OF(RULE), "says amount-unusual"},
    {"usual", T_USUAL, OF(RULE), "usual time 2 to 30 min"},
    {"holds", T_HOLDS, OF(RULE), "holds metol 1.5 to 6 g/L"},
    {"holds", T_HOLDS, OF(GROUP), "holds citric acid, tartaric acid"},
    {"ions", T_IONS, OF(GROUP), "ions S--"},
    {"form", T_FORM, OF(GROUP), "form Hg"},
    {"hazard", T_HAZARD, OF(GROUP), "hazard H271, H272"},
    {"leave out", T_LEAVE_OUT, OF(GROUP), "leave out boric acid"},

    {"of", T_OF, OF(REACTION), "of sulfides over 1 g/L"},
    {"meets", T_MEETS, OF(REACTION), "meets acids except boric acid"},
    {"beside", T_BESIDE, OF(REACTION), "beside nitric acid over 1 g/L"},
    {"unless", T_UNLESS, OF(REACTION), "unless sulfites over 2 times strong acids"},
    {"where", T_WHERE, OF(REACTION), "where dissolved, dry"},
    {"harm", T_HARM, OF(REACTION), "harm deadly"},
    {"keeps", T_KEEPS, OF(REACTION), "keeps 3 days in closed bottle"},

    {"currency", T_CURRENCY, OF(SHELF), "currency GBP"},
    {"counted", T_COUNTED, OF(SHELF), "counted 2026-02-01"},
    {"balance", T_BALANCE, OF(SHELF), "balance 0.1 g"},
    {"graduate", T_GRADUATE, OF(SHELF), "graduate 100 mL within 1 mL"},
    {"holds", T_HOLDS, OF(SHELF), "holds metol 100 g for 9.40 left 60 g opened 2026-02-01"},
    {"sold", T_SOLD, OF(SHELF), "sold metol 100 g for 9.40 from \"the chemist\""},
    {"bottles", T_BOTTLE, OF(SHELF), "bottles 6 of 1 L"},
    {"bottle", T_BOTTLE, OF(SHELF), "bottle 5 L"},

    {"mixed", T_MIXED, OF(BATCH), "mixed 2026-03-04"},
    {"mixed as", T_MIXED_AS, OF(BATCH), "mixed as 56ff1cf6a0bb4440"},
    {"took", T_TOOK, OF(BATCH), "took metol 1.52 g of lot \"C-77\""},
    {"topped up", T_TOPPED_UP, OF(BATCH), "topped up 60 mL of batch \"2026-03-01 b\" on 2026-03-07"},
    {"made", T_MADE, OF(BATCH), "made 1 L"},
    {"used", T_USED, OF(BATCH), "used 250 mL on 2026-03-06 for 2 rolls"},
    {"discarded", T_DISCARDED, OF(BATCH), "discarded 2026-04-04"},
    {"trial", T_TRIAL, OF(BATCH), "trial 2026-03-05 film 8 min"},

    {"tank", T_TANK, OF(PROCESS), "tank 500 mL holds 2 rolls"},
    {"trays", T_TRAY, OF(PROCESS), "trays 1 L holds 1 sheet 8x10 in"},
    {"tray", T_TRAY, OF(PROCESS), "tray 1 L holds 1 sheet 8x10 in"},
    {"drain", T_DRAIN, OF(PROCESS), "drain 10 s"},
    {"use once", T_USE_ONCE, OF(PROCESS), "use once"},
    {"replace after", T_REPLACE_AFTER, OF(PROCESS), "replace after 20 rolls"},
    {"replenish", T_REPLENISH, OF(PROCESS), "replenish 20 mL per roll"},
    {"bath", T_BATH, OF(PROCESS), "bath \"Film developer\" for film at 20 °C 9 min"},
    {"wash", T_WASH, OF(PROCESS), "wash 10 min"},

    {"in", T_IN, OF(WORDING), "in use"},
    {"means", T_MEANS, OF(WORDING), "means time {time}"},
    {"offers", T_OFFERS, OF(WORDING), "offers time {time}"},
};

const struct keyword *syntax_keywords(size_t *count)
{
    *count = sizeof keywords / sizeof *keywords;
    return keywords;
}

/* The first `words` words of the line, a quote ending them; empty when there are fewer. */
static struct text first_words(struct text line, int words)
{
    size_t end = 0;
    for (int word = 0; word < words; word++) {
        while (word > 0 && end < line.length && (line.at[end] == ' ' || line.at[end] == '\t')) {
            end++;
        }
        size_t begin = end;
        while (end < line.length && strchr(" \t\"#:=", line.at[end]) == NULL) {
            end++;
        }
        if (end == begin) {
            return (struct text){line.at, 0};
        }
    }
    return (struct text){line.at, end};
}

/* In small letters and with single blanks, as keywords are written; empty when it is too long for one. */
static struct text plainly(struct text words, char room[SLIPS_LONGEST])
{
    size_t length = 0;
    for (size_t i = 0; i < words.length; i++) {
        char c = words.at[i] == '\t' ? ' ' : words.at[i];
        if (c == ' ' && length > 0 && room[length - 1] == ' ') {
            continue;
        }
        if (length == SLIPS_LONGEST) {
            return (struct text){room, 0};
        }
        room[length++] = c >= 'A' && c <= 'Z' ? (char)(c + ('a' - 'A')) : c;
    }
    return (struct text){room, length};
}

/* Of a word of six letters or more two slips are forgiven, of a shorter one a single slip, and of two letters none. */
static int forgiven(struct text keyword)
{
    return keyword.length >= 6 ? 4 : keyword.length >= 3 ? 2 : 0;
}

const struct keyword *syntax_keyword(struct text line, unsigned belongs_to, struct text *slip)
{
    enum { MOST_WORDS = 2 };
    const struct keyword *nearest = NULL;
    int least = 100;
    for (int words = MOST_WORDS; words >= 1; words--) {
        char room[SLIPS_LONGEST];
        struct text there = first_words(line, words);
        struct text plain = plainly(there, room);
        for (size_t i = 0; i < sizeof keywords / sizeof *keywords && plain.length > 0; i++) {
            struct text known = text_from(keywords[i].words);
            int limit = slip == NULL ? 0 : forgiven(known);
            int distance = (keywords[i].belongs_to & belongs_to) == 0 ? limit + 1 : text_slips(plain, known, limit);
            if (distance <= limit && distance < least) {
                nearest = &keywords[i];
                least = distance;
                if (slip != NULL) {
                    *slip = there;
                }
            }
        }
    }
    return nearest;
}
