/* Baths for tests/practice/test_reactions.c.  What is harmless is the trade's common practice (no source) or stands in
 * incompatible.tsv beside the pair. */

struct reaction_case {
    const char *reaction;
    const char *kind;
    const char *answered;
    const char *spared;
};

static const struct reaction_case reaction_cases[] = {
    {"sulfide-and-acid", "other", "sodium sulfide (nonahydrate) 30 g\nacetic acid (28 %) 20 mL", "sodium sulfide (nonahydrate) 30 g\nboric acid (crystals) 5 g"},
    {"sulfide-and-acid", "toner", "sodium sulfide (nonahydrate) 30 g\npotassium alum (dodecahydrate) 20 g", "sodium sulfide (nonahydrate) 30 g\nsodium hydroxide 10 g"},
    {"sulfide-and-acid", "toner", "sodium sulfide (nonahydrate) 30 g\nferric chloride (hexahydrate) 20 g", "ferric chloride (hexahydrate) 20 g\nhydrochloric acid (37 %) 10 mL"},
    {"bleach-and-acid", "other", "sodium hypochlorite (5 %) 50 mL\ncitric acid (anhydrous) 5 g", "sodium hypochlorite (5 %) 50 mL\nsodium carbonate (anhydrous) 5 g"},
    {"bleach-and-ammonia", "other", "sodium hypochlorite (5 %) 50 mL\nammonium chloride 5 g", "ammonium chloride 5 g\nsodium chloride 5 g"},
    {"bleach-and-cyanides", "other", "sodium hypochlorite (5 %) 50 mL\npotassium thiocyanate 5 g", "potassium thiocyanate 5 g\nsodium chloride 5 g"},
    {"bleach-and-peroxide", "other", "sodium hypochlorite (5 %) 50 mL\nsodium persulfate 5 g", "sodium persulfate 5 g\nsodium chloride 5 g"},
    {"prussiate-and-strong-acid", "other", "potassium ferricyanide 10 g\nsulfuric acid (concentrated) 12 mL", "potassium ferricyanide 10 g\nsulfuric acid (concentrated) 10 mL"},
    {"prussiate-and-hot-acid", "toner", "water 500 mL at 60 °C\npotassium ferricyanide 3 g\nferric ammonium citrate (green) 5 g\ncitric acid (anhydrous) 10 g\nwater to make 1 L",
     "water 500 mL at 50 °C\npotassium ferricyanide 3 g\nferric ammonium citrate (green) 5 g\ncitric acid (anhydrous) 10 g\nwater to make 1 L"},
    {"thiocyanate-and-strong-acid", "other", "potassium thiocyanate 10 g\nhydrochloric acid (37 %) 10 mL", "potassium thiocyanate 10 g\nhydrochloric acid (37 %) 2 mL"},
    {"ammonium-and-caustic", "other", "ammonium chloride 10 g\nsodium hydroxide 3 g", "ammonium chloride 10 g\nborax (decahydrate) 10 g"},
    {"permanganate-and-solvents", "other", "potassium permanganate 5 g\nglycerol 10 mL", "potassium permanganate 5 g\nsulfuric acid (concentrated) 10 mL"},
    {"permanganate-and-solvents", "other", "potassium permanganate 5 g\npropylene glycol 10 mL", "propylene glycol 10 mL\nglycerol 10 mL"},
    {"permanganate-and-hydrochloric-acid", "other", "potassium permanganate 5 g\nhydrochloric acid (37 %) 10 mL", "potassium permanganate 5 g\nsodium bisulfate (anhydrous) 10 g"},
    {"permanganate-and-sulfuric-acid", "other", "water 300 mL\npotassium permanganate 5 g\nsulfuric acid (concentrated) 300 mL\nwater to make 1 L", "water 300 mL\npotassium permanganate 5 g\nsulfuric acid (concentrated) 30 mL\nwater to make 1 L"},
    {"dichromate-and-solvents", "sensitizer", "potassium dichromate 60 g\nethanol (96 %) 100 mL", "potassium dichromate 20 g\nethanol (96 %) 300 mL"},
    {"dichromate-and-hydrochloric-acid", "intensifier", "potassium dichromate 20 g\nhydrochloric acid (37 %) 240 mL", "potassium dichromate 20 g\nhydrochloric acid (37 %) 30 mL"},
    {"chromic-acid-and-organics", "other", "chromium trioxide 20 g\nglycerol 50 mL", "chromium trioxide 20 g\nsulfuric acid (concentrated) 10 mL"},
    {"thiosulfate-and-strong-acid", "fixer", "sodium thiosulfate (pentahydrate) 200 g\nhydrochloric acid (37 %) 10 mL", "sodium thiosulfate (pentahydrate) 200 g\nsodium sulfite (anhydrous) 20 g\nsulfuric acid (concentrated) 3 mL"},
    {"thiosulfate-and-weak-acid", "fixer", "sodium thiosulfate (pentahydrate) 200 g\ncitric acid (anhydrous) 10 g", "sodium thiosulfate (pentahydrate) 200 g\nsodium sulfite (anhydrous) 15 g\ncitric acid (anhydrous) 10 g"},
    {"sulfite-and-strong-acid", "other", "sodium metabisulfite 20 g\nsulfuric acid (concentrated) 15 mL", "sodium metabisulfite 20 g\nsulfuric acid (concentrated) 5 mL"},
    {"peroxide-and-acetone", "other", "hydrogen peroxide (3 %) 50 mL\nacetone 50 mL", "hydrogen peroxide (3 %) 50 mL\npotassium bromide 5 g"},
    {"peroxide-and-acetic-acid", "other", "water 200 mL\nhydrogen peroxide (30 %) 300 mL\nacetic acid (glacial) 200 mL\nwater to make 1 L", "water 500 mL\nhydrogen peroxide (3 %) 300 mL\nacetic acid (glacial) 10 mL\ncopper sulfate (pentahydrate) 5 g\nwater to make 1 L"},
    {"iodine-and-ammonia", "other", "iodine 2 g\nammonia (25 %) 10 mL", "iodine 2 g\npotassium iodide 5 g"},
    {"chlorate-and-acid", "other", "potassium chlorate 5 g\nsulfuric acid (concentrated) 5 mL", "potassium chlorate 5 g\npotassium oxalate (monohydrate) 1 g"},
    {"oxidiser-and-powders", "other", "potassium chlorate 50 g\nsucrose 50 g\nmakes 100 g", "sodium carbonate (anhydrous) 50 g\nsucrose 50 g\nmakes 100 g"},
    {"nitrite-and-acid", "other", "sodium nitrite 5 g\nacetic acid (28 %) 10 mL", "sodium nitrite 5 g\nsodium carbonate (anhydrous) 10 g"},
    {"formaldehyde-and-hydrochloric-acid", "other", "formaldehyde (37 %) 10 mL\nhydrochloric acid (37 %) 5 mL", "formaldehyde (37 %) 10 mL\nacetic acid (28 %) 5 mL"},
    {"silver-and-ammonia", "sensitizer", "silver nitrate 50 g\nammonia (25 %) 30 mL", "silver nitrate 50 g\ncitric acid (anhydrous) 10 g"},
    {"silver-and-ammonia", "sensitizer", "silver nitrate 50 g\nammonia (25 %) as needed", "silver nitrate 50 g\nacetic acid (glacial) 30 mL"},
    {"gold-and-ammonia", "toner", "gold chloride (trihydrate) 1 g\nammonia (25 %) 5 mL", "gold chloride (trihydrate) 1 g\nammonium thiocyanate 10 g"},
    {"silver-and-oxalate", "sensitizer", "silver nitrate 50 g\npotassium oxalate (monohydrate) 20 g", "silver nitrate 50 g\nferric ammonium oxalate (trihydrate) 50 g"},
    {"silver-alcohol-and-acid", "other", "silver nitrate 50 g\nnitric acid (70 %) 5 mL\nisopropyl alcohol (99 %) 100 mL", "silver nitrate 50 g\nnitric acid (70 %) 5 mL"},
    {"nitric-acid-and-solvents", "other", "water 500 mL\nnitric acid (70 %) 50 mL\nethanol (96 %) 100 mL\nwater to make 1 L", "water 500 mL\nferrous sulfate (heptahydrate) 50 g\nnitric acid (70 %) 2 mL\nethanol (96 %) 50 mL\nwater to make 1 L"},
    {"nitric-acid-and-solvents", "other", "glycerol 50 mL\nnitric acid (70 %) 20 mL\nwater 930 mL", "water 930 mL\nnitric acid (70 %) 20 mL\nglycerol 50 mL"},
    {"cyanide-and-oxidisers", "reducer", "iodine 2 g\npotassium cyanide 10 g", "iodine 2 g\npotassium iodide 5 g"},
    {"dithionite-and-acid", "other", "sodium dithionite 10 g\nacetic acid (28 %) 10 mL", "sodium dithionite 10 g\nsodium carbonate (anhydrous) 10 g"},
    {"ether-and-warm-water", "other", "water 500 mL at 40 °C\nether 20 mL\nwater to make 1 L", "water 500 mL at 20 °C\nether 20 mL\nwater to make 1 L"},
    {"sulfuric-acid-and-hot-water", "other", "water 500 mL at 80 °C\nsulfuric acid (98 %) 20 mL\nwater to make 1 L", "water 500 mL at 20 °C\nsulfuric acid (98 %) 20 mL\nwater to make 1 L"},
    {"caustic-in-a-heap", "other", "water 700 mL\nsodium hydroxide 300 g\nwater to make 1 L", "water 700 mL\nsodium hydroxide 100 g\nwater to make 1 L"},

    {"lime-and-carbonate", "developer", "calcium chloride (dihydrate) 2 g\nsodium carbonate (anhydrous) 30 g\nmetol 2 g\nsodium sulfite (anhydrous) 30 g", "metol 2 g\nsodium sulfite (anhydrous) 30 g\nsodium carbonate (anhydrous) 30 g"},
    {"magnesium-and-carbonate", "other", "magnesium sulfate (heptahydrate) 50 g\nsodium carbonate (anhydrous) 30 g", "magnesium sulfate (heptahydrate) 2 g\nsodium carbonate (anhydrous) 30 g"},
    {"lime-and-sulfite", "other", "calcium chloride (dihydrate) 10 g\nsodium sulfite (anhydrous) 30 g", "calcium chloride (dihydrate) 2 g\nsodium sulfite (anhydrous) 30 g"},
    {"barium-and-sulfate", "other", "barium chloride (dihydrate) 10 g\nsodium sulfate (anhydrous) 10 g", "barium chloride (dihydrate) 10 g\nsodium chloride 10 g"},
    {"gold-and-reducers", "toner", "gold chloride (trihydrate) 1 g\nferrous sulfate (heptahydrate) 5 g", "gold chloride (trihydrate) 1 g\nborax (decahydrate) 5 g"},
    {"silver-and-tap-water", "sensitizer", "tap water 500 mL\nsilver nitrate 50 g\ndistilled water to make 1 L", "distilled water 500 mL\nsilver nitrate 50 g\nwater to make 1 L"},
    {"gold-and-tap-water", "toner", "well water 500 mL\ngold chloride (trihydrate) 1 g\nwater to make 1 L", "water 500 mL\ngold chloride (trihydrate) 1 g\nwater to make 1 L"},
    {"ferricyanide-and-sulfite", "bleach", "potassium ferricyanide 30 g\npotassium bromide 10 g\nsodium sulfite (anhydrous) 20 g", "potassium ferricyanide 30 g\npotassium bromide 10 g"},
    {"dichromate-and-sulfite", "bleach", "potassium dichromate 10 g\nsulfuric acid (concentrated) 10 mL\nsodium sulfite (anhydrous) 5 g", "potassium dichromate 10 g\nsulfuric acid (concentrated) 10 mL"},
    {"permanganate-and-sulfite", "bleach", "potassium permanganate 2 g\nsodium bisulfate (anhydrous) 10 g\nsodium sulfite (anhydrous) 5 g", "potassium permanganate 2 g\nsodium bisulfate (anhydrous) 10 g"},
    {"formaldehyde-and-ammonia", "hardener", "formaldehyde (37 %) 10 mL\nammonia (25 %) 5 mL", "formaldehyde (37 %) 10 mL\nsodium carbonate (anhydrous) 5 g"},

    {"amidol-keeps-hours", "developer", "sodium sulfite (anhydrous) 25 g\namidol 5 g\nkeeps 6 months in full bottle", "sodium sulfite (anhydrous) 25 g\namidol 5 g\nkeeps 3 days in full bottle"},
    {"ferricyanide-and-thiosulfate", "reducer", "sodium thiosulfate (pentahydrate) 100 g\npotassium ferricyanide 10 g\nkeeps 6 months", "sodium thiosulfate (pentahydrate) 100 g\npotassium ferricyanide 10 g\nkeeps 1 h"},
    {"acid-permanganate", "bleach", "potassium permanganate 2 g\nsulfuric acid (concentrated) 10 mL\nkeeps 2 years in dark bottle", "potassium permanganate 2 g\nsulfuric acid (concentrated) 10 mL\nkeeps 1 week in dark bottle"},
    {"alkaline-peroxide", "other", "hydrogen peroxide (3 %) 300 mL\nammonia (25 %) 5 mL\nkeeps 1 month in closed bottle", "hydrogen peroxide (3 %) 300 mL\nammonia (25 %) 5 mL\nkeeps 1 h in tray"},
    {"light-sensitive-in-clear-glass", "sensitizer", "silver nitrate 50 g\nkeeps 6 months in clear bottle", "silver nitrate 50 g\nkeeps 6 months in dark bottle"},
    {"light-sensitive-in-clear-glass", "sensitizer", "ferric citrate 50 g\nkeeps 6 months in clear bottle", "ferric citrate 50 g\nkeeps 6 months in brown bottle"},
    {"dichromated-colloid", "sensitizer", "potassium dichromate 30 g\ngum arabic 200 g\nkeeps 1 month in dark bottle", "potassium dichromate 30 g\ngum arabic 200 g\nkeeps 1 day in dark bottle"},
};

#define BATH(kind, lines) "kind " kind "\n" lines "\nwater to make 1 L\n"

static const char *const harmless_baths[] = {
    BATH("fixer", "sodium thiosulfate (pentahydrate) 250 g\nsodium metabisulfite 25 g"),
    BATH("fixer", "sodium thiosulfate (pentahydrate) 240 g\nsodium sulfite (anhydrous) 15 g\nacetic acid (28 %) 48 mL\nboric acid (crystals) 7.5 g\npotassium alum (dodecahydrate) 15 g"),
    BATH("fixer", "ammonium thiosulfate solution (60 %) 200 mL\nsodium sulfite (anhydrous) 15 g\nacetic acid (glacial) 10 mL"),
    BATH("fixer", "ammonium thiosulfate solution (60 %) 200 mL\nsodium sulfite (anhydrous) 20 g\nsodium metaborate (tetrahydrate) 5 g"),
    BATH("fixer", "chrome alum (dodecahydrate) 15 g\nsodium sulfite (anhydrous) 15 g\nsulfuric acid (concentrated) 2 mL\nsodium thiosulfate (pentahydrate) 250 g"),
    BATH("hardener", "sodium sulfite (anhydrous) 75 g\nacetic acid (28 %) 235 mL\npotassium alum (dodecahydrate) 75 g"),
    BATH("bleach", "potassium permanganate 2 g\nsulfuric acid (concentrated) 10 mL"),
    BATH("bleach", "potassium dichromate 9 g\nsulfuric acid (concentrated) 12 mL"),
    BATH("intensifier", "potassium dichromate 20 g\nhydrochloric acid (37 %) 10 mL"),
    BATH("bleach", "potassium ferricyanide 30 g\npotassium bromide 12 g"),
    BATH("bleach", "copper sulfate (pentahydrate) 50 g\npotassium bromide 50 g\nsulfuric acid (concentrated) 5 mL"),
    BATH("bleach", "copper sulfate (pentahydrate) 10 g\nacetic acid (glacial) 20 mL\nhydrogen peroxide (3 %) 500 mL"),
    BATH("toner", "ferric ammonium citrate (green) 4 g\npotassium ferricyanide 4 g\nacetic acid (glacial) 10 mL"),
    BATH("toner", "potassium citrate (monohydrate) 60 g\ncopper sulfate (pentahydrate) 7 g\npotassium ferricyanide 6 g"),
    BATH("toner", "gold chloride (trihydrate) 1 g\nammonium thiocyanate 10 g"),
    BATH("toner", "gold chloride (trihydrate) 1 g\nthiourea 10 g\nsodium chloride 10 g"),
    BATH("toner", "sodium sulfide (nonahydrate) 20 g\nsodium carbonate (anhydrous) 10 g"),
    BATH("sensitizer", "silver nitrate 100 g\ncitric acid (anhydrous) 40 g"),
    BATH("sensitizer", "ferric ammonium citrate (green) 90 g\ntartaric acid 15 g\nsilver nitrate 37 g"),
    BATH("sensitizer", "ferric oxalate 200 g\noxalic acid (dihydrate) 15 g\npotassium chlorate 1 g"),
    BATH("reducer", "ammonium persulfate 20 g\nsulfuric acid (concentrated) 2 mL"),
    BATH("developer", "sodium sulfite (anhydrous) 50 g\nhydroquinone 10 g\nsodium metabisulfite 5 g\nsodium carbonate (anhydrous) 50 g"),
    BATH("developer", "metol 2 g\nsodium sulfite (anhydrous) 50 g\nascorbic acid 10 g\nsodium carbonate (anhydrous) 30 g"),
    BATH("developer", "ferrous sulfate (heptahydrate) 50 g\nacetic acid (glacial) 40 mL\nethanol (96 %) 40 mL"),
    BATH("developer", "hydroquinone 15 g\nformaldehyde sodium bisulfite 45 g\nsodium sulfite (anhydrous) 2 g\nsodium carbonate (anhydrous) 80 g\nboric acid (crystals) 5 g"),
    BATH("stop bath", "acetic acid (28 %) 48 mL\nsodium sulfate (anhydrous) 45 g"),
    BATH("clearing bath", "potassium alum (dodecahydrate) 50 g\nhydrochloric acid (37 %) 20 mL"),
    BATH("clearing bath", "oxalic acid (dihydrate) 10 g"),
    "kind reducer\npart A\npotassium ferricyanide 10 g\nwater to make 100 mL\npart B\nsodium thiosulfate (pentahydrate) 100 g\n"
    "water to make 500 mL\nuse for film\nmix A 1 + B 5 + water 5\n",
    "kind toner\npart A\npotassium ferricyanide 30 g\npotassium bromide 12 g\nwater to make 1 L\npart B\n"
    "sodium sulfide (nonahydrate) 20 g\nwater to make 1 L\n",
    "kind sensitizer\npart A\nammonium dichromate 20 g\nwater 100 mL\npart B\ngum arabic 100 g\nwater to make 300 mL\n"
    "use for paper\nmix A 1 + B 1\n",
};
