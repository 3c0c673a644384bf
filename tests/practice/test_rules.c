/* Every rule of practice on a faulty formula and on a right one; rules of the house; silencing by name. */
#define _GNU_SOURCE

#include "support/compiling.h"
#include "support/library_help.h"
#include "support/program.h"

#include "practice/rules/rules.h"

#include <stdio.h>
#include <string.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

/* The lines stand between the kind and, where they hold no water to make and no part, `water to make 1 L`. */
static const struct {
    const char *rule;
    const char *kind;
    const char *id;
    const char *faulty;
    const char *right;
} rules[] = {
/* Three that no class of baths knows: the rule, not a class, has to speak. */
#define OF_NO_CLASS "\nmagnesium sulfate (heptahydrate) 1 g\npolyvinyl alcohol 1 g\nsaponin 1 g"
#define MQ "metol 2 g\nsodium sulfite (anhydrous) 40 g\nhydroquinone 5 g\nsodium carbonate (anhydrous) 30 g\npotassium bromide 1 g\n"
    {"metol-before-sulfite", "developer", "order",
     "water 750 mL\nsodium sulfite (anhydrous) 40 g\nmetol 2 g\nsodium carbonate (anhydrous) 30 g",
     "water 750 mL\nmetol 2 g\nsodium sulfite (anhydrous) 40 g\nsodium carbonate (anhydrous) 30 g"},
    {"sulfite-before-agents", "developer", "order",
     "water 750 mL\nhydroquinone 5 g\nsodium sulfite (anhydrous) 40 g\nsodium carbonate (anhydrous) 30 g",
     "water 750 mL\nsodium sulfite (anhydrous) 40 g\nhydroquinone 5 g\nsodium carbonate (anhydrous) 30 g"},
    {"agent-before-alkali", "developer", "order",
     "water 750 mL\nsodium sulfite (anhydrous) 40 g\nsodium carbonate (anhydrous) 30 g\nhydroquinone 5 g",
     "water 750 mL\nsodium sulfite (anhydrous) 40 g\nhydroquinone 5 g\nsodium carbonate (anhydrous) 30 g"},
    {"hydroxide-last", "developer", "order",
     "water 750 mL\nsodium sulfite (anhydrous) 40 g\nhydroquinone 8 g\nsodium hydroxide 8 g\npotassium bromide 3 g",
     "water 750 mL\nsodium sulfite (anhydrous) 40 g\nhydroquinone 8 g\npotassium bromide 3 g\nsodium hydroxide 8 g"},
    {"acid-before-carbonate", "developer", "order",
     "water 750 mL\nsodium sulfite (anhydrous) 40 g\nhydroquinone 5 g\nsodium carbonate (anhydrous) 30 g\nsodium metabisulfite 5 g",
     "water 750 mL\nsodium sulfite (anhydrous) 40 g\nsodium metabisulfite 5 g\nhydroquinone 5 g\nsodium carbonate (anhydrous) 30 g"},
    {"glycin-after-sulfite", "developer", "order",
     "water 750 mL\nglycin 5 g\npotassium carbonate (anhydrous) 30 g\nascorbic acid 5 g",
     "water 750 mL\nsodium sulfite (anhydrous) 30 g\nglycin 5 g\npotassium carbonate (anhydrous) 30 g"},
    {"halide-after-silver", "sensitizer", "order", "silver nitrate 100 g\nsodium chloride 20 g", "sodium chloride 20 g"},

    {"developer-needs-agent", "developer", "role-missing",
     "sodium sulfite (anhydrous) 40 g\nsodium carbonate (anhydrous) 30 g",
     "metol 2 g\nsodium sulfite (anhydrous) 40 g\nsodium carbonate (anhydrous) 30 g"},
    {"developer-needs-alkali", "developer", "role-missing", "sodium sulfite (anhydrous) 40 g\nhydroquinone 5 g",
     "sodium sulfite (anhydrous) 40 g\nhydroquinone 5 g\nsodium carbonate (anhydrous) 30 g"},
    {"sulfite-developer-needs-alkali", "developer", "role-missing",
     "sodium sulfite (anhydrous) 40 g\nhydroquinone 8 g\ncitric acid (anhydrous) 2 g" OF_NO_CLASS,
     "sodium sulfite (anhydrous) 40 g\nhydroquinone 8 g\ncitric acid (anhydrous) 2 g\nsodium carbonate (anhydrous) 30 g"},
    {"metol-needs-alkali", "developer", "role-missing", "metol 5 g\nsodium sulfite (anhydrous) 30 g",
     "metol 7 g\nsodium sulfite (anhydrous) 90 g"},
    {"developer-needs-preservative", "developer", "role-missing", "metol 2 g\nhydroquinone 5 g\nsodium carbonate (anhydrous) 30 g" OF_NO_CLASS,
     MQ},
    {"pyro-needs-preservative", "developer", "role-missing", "pyrogallol 3 g\nsodium carbonate (anhydrous) 20 g",
     "part A\npyrogallol 3 g\nwater to make 500 mL\npart B\nsodium carbonate (anhydrous) 20 g\nwater to make 500 mL\n"
     "use for plates\nmix A 1 + B 1"},
    {"metol-needs-preservative", "developer", "role-missing",
     "part A\nmetol 10 g\nwater to make 1 L\npart B\nhydroquinone 10 g\ncitric acid (anhydrous) 3 g\nwater to make 1 L\npart C\n"
     "potassium carbonate (anhydrous) 60 g\nwater to make 1 L" OF_NO_CLASS,
     "metol 2 g\nsodium sulfite (anhydrous) 40 g\ncitric acid (anhydrous) 1 g\nhydroquinone 5 g\nsodium carbonate (anhydrous) 30 g\n"
     "potassium bromide 1 g"},
    {"amidol-needs-sulfite", "developer", "role-missing", "potassium metabisulfite 10 g\namidol 5 g\npotassium bromide 1 g",
     "sodium sulfite (anhydrous) 30 g\namidol 5 g\npotassium bromide 1 g"},
    {"ascorbate-needs-second-agent", "developer", "role-missing", "ascorbic acid 8 g\nsodium carbonate (anhydrous) 30 g" OF_NO_CLASS,
     "ascorbic acid 8 g\nsodium carbonate (anhydrous) 30 g\nphenidone 0.2 g from 1 % stock"},
    {"pyro-ammonia-needs-bromide", "developer", "role-missing",
     "sodium sulfite (anhydrous) 10 g\npyrogallol 3 g\nammonia (25 %) 8 mL" OF_NO_CLASS,
     "sodium sulfite (anhydrous) 10 g\npyrogallol 3 g\nammonium bromide 2 g\nammonia (25 %) 6 mL"},
    {"print-developer-needs-restrainer", "developer", "role-missing",
     "for paper\nmetol 2 g\nsodium sulfite (anhydrous) 40 g\nhydroquinone 5 g\nsodium carbonate (anhydrous) 30 g" OF_NO_CLASS, "for paper\n" MQ},
    {"caustic-developer-needs-restrainer", "developer", "role-missing",
     "sodium sulfite (anhydrous) 40 g\nhydroquinone 8 g\nsodium hydroxide 8 g" OF_NO_CLASS,
     "sodium sulfite (anhydrous) 40 g\nhydroquinone 8 g\npotassium bromide 3 g\nsodium hydroxide 8 g"},
    {"sulfate-for-sulfite", "developer", "look-alike",
     "pyrogallol 3 g\nsodium metabisulfite 3 g\nsodium sulfate (anhydrous) 30 g\nsodium carbonate (anhydrous) 20 g",
     "metol 3 g\nsodium sulfite (anhydrous) 30 g\nsodium sulfate (anhydrous) 30 g\nsodium carbonate (anhydrous) 20 g"},
    {"thiosulfate-for-sulfite", "clearing bath", "look-alike", "sodium metabisulfite 5 g\nsodium thiosulfate (anhydrous) 20 g",
     "sodium sulfite (anhydrous) 20 g\nsodium metabisulfite 5 g"},
    {"bisulfite-for-sulfite", "developer", "look-alike",
     "metol 2 g\nsodium bisulfite 18 g\nhydroquinone 5 g\nsodium carbonate (anhydrous) 30 g\npotassium bromide 1 g", MQ},
    {"much-bisulfite-for-sulfite", "developer", "look-alike",
     "metol 2 g\nsodium bisulfite 12 g\nhydroquinone 5 g\npotassium bromide 1 g\nsodium carbonate (anhydrous) 30 g", MQ},

    {"bicarbonate-for-carbonate", "developer", "look-alike",
     "sodium sulfite (anhydrous) 40 g\nhydroquinone 8 g\nsodium bicarbonate 30 g\npotassium bromide 2 g",
     "sodium sulfite (anhydrous) 40 g\nhydroquinone 8 g\nsodium carbonate (anhydrous) 30 g\npotassium bromide 2 g"},
    {"bicarbonate-for-bisulfite", "developer", "look-alike",
     "part A\npyrogallol 10 g\nsodium bicarbonate 5 g\nwater to make 1 L\npart B\nsodium sulfite (anhydrous) 50 g\n"
     "sodium carbonate (anhydrous) 40 g\nwater to make 1 L\nuse for plates\nmix A 1 + B 1 + water 2",
     "part A\npyrogallol 10 g\nsodium bisulfite 5 g\nwater to make 1 L\npart B\nsodium sulfite (anhydrous) 50 g\n"
     "sodium carbonate (anhydrous) 40 g\nwater to make 1 L\nuse for plates\nmix A 1 + B 1 + water 2"},
    {"bicarbonate-in-fixer", "fixer", "look-alike", "sodium thiosulfate (pentahydrate) 200 g\nsodium bicarbonate 25 g",
     "sodium thiosulfate (pentahydrate) 200 g\nsodium bicarbonate 3 g"},
    {"bisulfate-for-bisulfite", "clearing bath", "look-alike", "sodium sulfite (anhydrous) 20 g\nsodium bisulfate (anhydrous) 5 g",
     "sodium sulfite (anhydrous) 20 g\nsodium bisulfite 5 g"},
    {"bisulfate-in-stop-bath", "stop bath", "look-alike", "sodium bisulfate (anhydrous) 30 g", "sodium bisulfate (anhydrous) 12 g"},
    {"ferrocyanide-for-ferricyanide", "bleach", "look-alike",
     "potassium ferrocyanide (trihydrate) 30 g\npotassium bromide 15 g", "potassium ferricyanide 30 g\npotassium bromide 15 g"},
    {"sulfide-for-thiosulfate", "toner", "look-alike", "sodium sulfide (nonahydrate) 150 g\npotassium alum (dodecahydrate) 30 g",
     "sodium thiosulfate (pentahydrate) 150 g\npotassium alum (dodecahydrate) 30 g"},
    {"sulfide-in-fixer", "reducer", "look-alike", "potassium ferricyanide 5 g\nsodium sulfide (nonahydrate) 100 g",
     "potassium ferricyanide 5 g\nsodium thiosulfate (pentahydrate) 100 g"},
    {"sulfate-beside-agent", "developer", "look-alike",
     "part A\npyrogallol 10 g\nsodium sulfate (anhydrous) 60 g\nwater to make 1 L\npart B\nsodium sulfite (anhydrous) 20 g\n"
     "sodium carbonate (anhydrous) 40 g\nwater to make 1 L\nuse for plates\nmix A 1 + B 1",
     "part A\nsodium sulfite (anhydrous) 60 g\npyrogallol 10 g\nwater to make 1 L\npart B\n"
     "sodium carbonate (anhydrous) 40 g\nwater to make 1 L\nuse for plates\nmix A 1 + B 1"},
    {"thiosulfate-beside-agent", "developer", "look-alike",
     "part A\namidol 10 g\nsodium thiosulfate (pentahydrate) 60 g\nwater to make 1 L\npart B\nsodium sulfite (anhydrous) 40 g\n"
     "water to make 1 L",
     "sodium sulfite (anhydrous) 30 g\namidol 5 g\npotassium bromide 1 g"},
    {"bisulfite-beside-sulfuric-acid", "developer", "look-alike",
     "part A\npyrogallol 50 g\nsodium bisulfite 100 g\nsulfuric acid (concentrated) 2 mL\nwater to make 1 L\npart B\nsodium sulfite "
     "(anhydrous) 50 g\npotassium carbonate (anhydrous) 200 g\nwater to make 1 L\nuse for plates\nmix A 1 + B 1 + water 18",
     "part A\nsodium sulfite (anhydrous) 200 g\nsulfuric acid (concentrated) 4 mL\npyrogallol 50 g\nwater to make 1 L\npart B\n"
     "potassium carbonate (anhydrous) 200 g\nwater to make 1 L\nuse for plates\nmix A 1 + B 1 + water 18"},
    {"methylphenidone-for-phenidone", "developer", "look-alike",
     "sodium sulfite (anhydrous) 90 g\nhydroquinone 5 g\nborax (decahydrate) 4 g\nmethylphenidone 0.2 g from 1 % stock",
     "sodium sulfite (anhydrous) 90 g\nhydroquinone 5 g\nborax (decahydrate) 4 g\nphenidone 0.2 g from 1 % stock"},

    {"agent-in-hot-water", "developer", "temperature-unusual",
     "water 750 mL at 68 °C\nmetol 2 g\nsodium sulfite (anhydrous) 40 g\nsodium carbonate (anhydrous) 30 g",
     "water 750 mL at 50 °C\nmetol 2 g\nsodium sulfite (anhydrous) 40 g\nsodium carbonate (anhydrous) 30 g"},
    {"hydroxide-into-cold-water", "other", "temperature-unusual", "water 700 mL at 45 °C\nsodium hydroxide 40 g",
     "water 700 mL at 45 °C\nsodium hydroxide 10 g"},
    {"ascorbate-in-hot-water", "other", "temperature-unusual", "water 700 mL at 60 °C\nascorbic acid 10 g",
     "water 700 mL at 35 °C\nascorbic acid 10 g"},
    {"too-little-sulfite", "developer", "amount-unusual",
     "phenidone 0.3 g\nsodium sulfite (anhydrous) 0.9 g\nhydroquinone 1.1 g\nborax (decahydrate) 5 g", MQ},
    {"metol-beside-hydroquinone", "developer", "amount-unusual",
     "metol 10 g\nsodium sulfite (anhydrous) 40 g\nhydroquinone 4 g\nsodium carbonate (anhydrous) 30 g\npotassium bromide 1 g" OF_NO_CLASS, MQ},
    {"hydroquinone-beside-metol", "developer", "amount-unusual",
     "metol 0.5 g\nsodium sulfite (anhydrous) 40 g\nhydroquinone 12 g\nsodium carbonate (anhydrous) 30 g\npotassium bromide 1 g", MQ},
    {"phenidone-beside-hydroquinone", "developer", "amount-unusual",
     "phenidone 2 g\nsodium sulfite (anhydrous) 40 g\nhydroquinone 5 g\nborax (decahydrate) 5 g" OF_NO_CLASS,
     "phenidone 0.3 g\nsodium sulfite (anhydrous) 40 g\nhydroquinone 6 g\nborax (decahydrate) 5 g"},
    {"hydroquinone-beside-phenidone", "developer", "amount-unusual",
     "phenidone 0.03 g from 1 % stock\nsodium sulfite (anhydrous) 40 g\nhydroquinone 12 g\nborax (decahydrate) 5 g",
     "phenidone 0.3 g from 1 % stock\nsodium sulfite (anhydrous) 40 g\nhydroquinone 12 g\nborax (decahydrate) 5 g"},
    {"much-sulfite", "developer", "amount-unusual",
     "metol 1 g\nsodium sulfite (anhydrous) 100 g\nborax (decahydrate) 5 g" OF_NO_CLASS, "metol 2 g\nsodium sulfite (anhydrous) 100 g\nborax (decahydrate) 5 g"},
    {"little-sulfite", "developer", "amount-unusual",
     "metol 2 g\nsodium sulfite (anhydrous) 4 g\nhydroquinone 8 g\nsodium carbonate (anhydrous) 30 g" OF_NO_CLASS, MQ},
    {"little-sulfite-for-hydroquinone", "developer", "amount-unusual",
     "sodium sulfite (anhydrous) 8 g\nhydroquinone 8 g\nsodium carbonate (anhydrous) 30 g" OF_NO_CLASS,
     "sodium sulfite (anhydrous) 40 g\nhydroquinone 8 g\nsodium carbonate (anhydrous) 30 g"},
    {"much-citric-acid", "developer", "amount-unusual",
     "sodium sulfite (anhydrous) 40 g\ncitric acid (anhydrous) 20 g\nhydroquinone 8 g\nsodium carbonate (anhydrous) 30 g" OF_NO_CLASS,
     "sodium sulfite (anhydrous) 40 g\ncitric acid (anhydrous) 2 g\nhydroquinone 8 g\nsodium carbonate (anhydrous) 30 g"},
    {"much-bromide", "developer", "amount-unusual",
     "metol 1 g\nsodium sulfite (anhydrous) 30 g\nhydroquinone 3 g\nsodium carbonate (anhydrous) 30 g\npotassium bromide 10 g" OF_NO_CLASS, MQ},
    {"much-carbonate", "developer", "amount-unusual",
     "metol 1 g\nsodium sulfite (anhydrous) 30 g\nsodium carbonate (anhydrous) 90 g" OF_NO_CLASS, MQ},
    {"little-carbonate", "developer", "amount-unusual",
     "metol 2 g\nsodium sulfite (anhydrous) 40 g\nhydroquinone 8 g\nsodium carbonate (anhydrous) 4 g" OF_NO_CLASS, MQ},
    {"caustic-beside-hydroquinone", "developer", "amount-unusual",
     "sodium sulfite (anhydrous) 40 g\nhydroquinone 2 g\npotassium bromide 1 g\nsodium hydroxide 14 g" OF_NO_CLASS,
     "sodium sulfite (anhydrous) 40 g\nhydroquinone 8 g\npotassium bromide 1 g\nsodium hydroxide 8 g"},

    {"much-sulfite-in-fixer", "fixer", "amount-unusual", "sodium thiosulfate (pentahydrate) 120 g\nsodium sulfite (anhydrous) 78 g" OF_NO_CLASS,
     "sodium thiosulfate (anhydrous) 160 g\nsodium sulfite (anhydrous) 15 g"},
    {"little-sulfite-in-fixer", "fixer", "amount-unusual", "sodium thiosulfate (pentahydrate) 400 g\nsodium sulfite (anhydrous) 4 g" OF_NO_CLASS,
     "sodium thiosulfate (pentahydrate) 250 g\nsodium sulfite (anhydrous) 15 g"},
    {"much-bisulfite-in-fixer", "fixer", "amount-unusual", "sodium thiosulfate (pentahydrate) 120 g\nsodium metabisulfite 70 g" OF_NO_CLASS,
     "sodium thiosulfate (pentahydrate) 250 g\nsodium metabisulfite 25 g"},
    {"much-alum-in-fixer", "fixer", "amount-unusual",
     "sodium thiosulfate (pentahydrate) 85 g\nsodium sulfite (anhydrous) 10 g\nacetic acid (28 %) 40 mL\npotassium alum (dodecahydrate) 38 g",
     "sodium thiosulfate (pentahydrate) 250 g\nsodium sulfite (anhydrous) 15 g\nacetic acid (28 %) 48 mL\npotassium alum (dodecahydrate) 15 g"},
    {"fixer-needs-agent", "fixer", "role-missing", "sodium sulfite (anhydrous) 15 g", "sodium thiosulfate (pentahydrate) 250 g"},
    {"acid-fixer-needs-sulfite", "fixer", "role-missing", "sodium thiosulfate (pentahydrate) 250 g\nacetic acid (28 %) 40 mL",
     "sodium thiosulfate (pentahydrate) 250 g\nsodium sulfite (anhydrous) 15 g\nacetic acid (28 %) 40 mL"},
    {"ammonium-fixer-needs-sulfite", "fixer", "role-missing", "ammonium thiosulfate (crystals) 120 g",
     "ammonium thiosulfate (crystals) 120 g\nsodium sulfite (anhydrous) 15 g"},
    {"sulfite-before-acid", "fixer", "order",
     "water 600 mL\nsodium thiosulfate (pentahydrate) 250 g\nacetic acid (28 %) 40 mL\nsodium sulfite (anhydrous) 15 g",
     "water 600 mL\nsodium thiosulfate (pentahydrate) 250 g\nsodium sulfite (anhydrous) 15 g\nacetic acid (28 %) 40 mL"},
    {"sulfite-before-bisulfite", "fixer", "order",
     "water 600 mL\nsodium thiosulfate (pentahydrate) 250 g\nsodium metabisulfite 15 g\nsodium sulfite (anhydrous) 15 g",
     "water 600 mL\nsodium thiosulfate (pentahydrate) 250 g\nsodium sulfite (anhydrous) 15 g\nsodium metabisulfite 15 g"},
    {"thiosulfate-before-acid", "fixer", "order",
     "water 600 mL\nsodium metabisulfite 15 g\nsodium thiosulfate (pentahydrate) 250 g",
     "water 600 mL\nsodium thiosulfate (pentahydrate) 250 g\nsodium metabisulfite 15 g"},
    {"acid-before-alum", "fixer", "order",
     "water 600 mL\nsodium thiosulfate (pentahydrate) 250 g\nsodium sulfite (anhydrous) 15 g\npotassium alum (dodecahydrate) 15 g\nacetic acid (28 %) 48 mL",
     "water 600 mL\nsodium thiosulfate (pentahydrate) 250 g\nsodium sulfite (anhydrous) 15 g\nacetic acid (28 %) 48 mL\npotassium alum (dodecahydrate) 15 g"},
    {"alum-fixer-needs-acid", "fixer", "role-missing",
     "sodium thiosulfate (pentahydrate) 250 g\nsodium sulfite (anhydrous) 15 g\npotassium alum (dodecahydrate) 15 g" OF_NO_CLASS,
     "sodium thiosulfate (pentahydrate) 250 g\npotassium alum (dodecahydrate) 15 g"},
    {"acid-into-cooled-fixer", "fixer", "temperature-unusual",
     "water 600 mL at 60 °C\nsodium thiosulfate (pentahydrate) 250 g\nsodium metabisulfite 15 g",
     "water 600 mL at 50 °C\nsodium thiosulfate (pentahydrate) 250 g\nsodium metabisulfite 15 g"},
    {"no-alkali-in-acid-fixer", "fixer", "amount-unusual",
     "sodium thiosulfate (pentahydrate) 250 g\nsodium sulfite (anhydrous) 15 g\nacetic acid (28 %) 40 mL\nsodium metaborate (octahydrate) 10 g",
     "sodium thiosulfate (pentahydrate) 250 g\nsodium sulfite (anhydrous) 15 g\nsodium metaborate (octahydrate) 10 g"},

    {"crystals-are-weighed", "bleach", "form-unusual", "copper sulfate (anhydrous) 20 g\npotassium bromide 20 g",
     "copper sulfate (pentahydrate) 20 g\npotassium bromide 20 g"},
    {"borax-of-ten-waters", "developer", "form-unusual",
     "metol 2 g\nsodium sulfite (anhydrous) 100 g\nhydroquinone 5 g\nborax (pentahydrate) 3 g",
     "metol 2 g\nsodium sulfite (anhydrous) 100 g\nhydroquinone 5 g\nborax (decahydrate) 3 g"},
    {"potash-is-dry", "developer", "form-unusual",
     "metol 2 g\nsodium sulfite (anhydrous) 40 g\nhydroquinone 5 g\npotassium carbonate (sesquihydrate) 30 g\npotassium bromide 1 g",
     "metol 2 g\nsodium sulfite (anhydrous) 40 g\nhydroquinone 5 g\npotassium carbonate (anhydrous) 30 g\npotassium bromide 1 g"},
    {"much-dry-thiosulfate", "fixer", "form-unusual", "sodium thiosulfate (anhydrous) 240 g\nsodium sulfite (anhydrous) 15 g",
     "sodium thiosulfate (anhydrous) 180 g\nsodium sulfite (anhydrous) 15 g"},
    {"few-sulfite-crystals", "fixer", "form-unusual", "sodium thiosulfate (pentahydrate) 240 g\nsodium sulfite (heptahydrate) 15 g",
     "sodium thiosulfate (pentahydrate) 240 g\nsodium sulfite (heptahydrate) 30 g"},
    {"sulfite-as-the-carbonate", "developer", "form-unusual",
     "metol 2 g\nsodium sulfite (crystals) 40 g\nhydroquinone 5 g\nsodium carbonate (anhydrous) 30 g\npotassium bromide 1 g",
     "metol 2 g\nsodium sulfite (crystals) 60 g\nhydroquinone 5 g\nsodium carbonate (crystals) 60 g\npotassium bromide 1 g"},
    {"crystals-of-sulfite-beside-monohydrate", "developer", "form-unusual",
     "metol 2 g\nsodium sulfite (crystals) 40 g\nhydroquinone 5 g\nsodium carbonate (monohydrate) 30 g\npotassium bromide 1 g",
     "metol 2 g\nsodium sulfite (anhydrous) 40 g\nhydroquinone 5 g\nsodium carbonate (monohydrate) 30 g\npotassium bromide 1 g"},
    {"carbonate-as-the-sulfite", "developer", "form-unusual",
     "metol 2 g\nsodium sulfite (anhydrous) 40 g\nhydroquinone 5 g\nsodium carbonate (crystals) 30 g\npotassium bromide 1 g", MQ},
    {"crystals-of-sulfite-in-younger-baths", "developer", "form-unusual",
     "sodium sulfite (crystals) 90 g\nhydroquinone 5 g\nborax (decahydrate) 4 g\nphenidone 0.2 g from 1 % stock",
     "sodium sulfite (anhydrous) 90 g\nhydroquinone 5 g\nborax (decahydrate) 4 g\nphenidone 0.2 g from 1 % stock"},
    {"crystals-of-carbonate-in-younger-baths", "developer", "form-unusual",
     "sodium sulfite (crystals) 40 g\nhydroquinone 5 g\nsodium carbonate (crystals) 60 g\nphenidone 0.2 g from 1 % stock\n"
     "potassium bromide 1 g\nsilence crystals-of-sulfite-in-younger-baths",
     "sodium sulfite (anhydrous) 40 g\nhydroquinone 5 g\nsodium carbonate (monohydrate) 30 g\nphenidone 0.2 g from 1 % stock\n"
     "potassium bromide 1 g"},
    {"crystals-of-sulfite-beside-boric-acid", "fixer", "form-unusual",
     "sodium thiosulfate (pentahydrate) 240 g\nsodium sulfite (crystals) 25 g\nacetic acid (28 %) 48 mL\nboric acid (crystals) 7 g\npotassium alum (dodecahydrate) 15 g",
     "sodium thiosulfate (pentahydrate) 240 g\nsodium sulfite (anhydrous) 15 g\nacetic acid (28 %) 48 mL\nboric acid (crystals) 7 g\npotassium alum (dodecahydrate) 15 g"},

    {"acetic-acid-is-glacial", "sensitizer", "form-unusual", "silver nitrate 80 g\nacetic acid (28 %) 60 mL",
     "silver nitrate 80 g\nacetic acid (glacial) 60 mL"},

    {"stop-bath-needs-acid", "stop bath", "role-missing", "sodium chloride 10 g", "citric acid (anhydrous) 15 g"},
    {"stop-bath-not-alkaline", "stop bath", "amount-unusual", "sodium carbonate (anhydrous) 20 g\nsodium sulfite (anhydrous) 10 g",
     "citric acid (anhydrous) 15 g\nsodium sulfate (anhydrous) 40 g"},
    {"hardener-needs-hardener", "hardener", "role-missing", "sodium carbonate (anhydrous) 5 g", "formaldehyde (37 %) 10 mL\nsodium carbonate (anhydrous) 5 g"},
    {"chrome-alum-not-hot", "hardener", "temperature-unusual", "water 700 mL at 75 °C\nchrome alum (dodecahydrate) 20 g", "water 700 mL at 50 °C\nchrome alum (dodecahydrate) 20 g"},
    {"bleach-needs-oxidiser", "bleach", "role-missing", "potassium bromide 10 g", "potassium ferricyanide 20 g\npotassium bromide 10 g"},
    {"copper-bleach-needs-halide", "bleach", "role-missing", "copper sulfate (pentahydrate) 20 g", "copper sulfate (pentahydrate) 20 g\npotassium bromide 20 g"},
    {"copper-beside-bromide", "bleach", "amount-unusual", "copper sulfate (pentahydrate) 80 g\npotassium bromide 8 g" OF_NO_CLASS,
     "copper sulfate (pentahydrate) 30 g\npotassium bromide 20 g"},
    {"bromide-beside-copper", "bleach", "amount-unusual", "copper sulfate (pentahydrate) 8 g\npotassium bromide 80 g" OF_NO_CLASS,
     "copper sulfate (pentahydrate) 20 g\npotassium bromide 30 g"},
    {"ferricyanide-bleach-needs-halide", "bleach", "role-missing", "potassium ferricyanide 20 g", "potassium ferricyanide 20 g\npotassium bromide 10 g"},
    {"acid-bleach-needs-acid", "bleach", "role-missing", "potassium permanganate 2 g", "potassium permanganate 2 g\nsodium bisulfate (anhydrous) 20 g"},
    {"ferricyanide-reducer-needs-thiosulfate", "reducer", "role-missing", "potassium ferricyanide 5 g",
     "part A\nsodium thiosulfate (pentahydrate) 100 g\nwater to make 1 L\npart B\npotassium ferricyanide 20 g\nwater to make 1 L"},
    {"little-thiosulfate-for-reducer", "reducer", "amount-unusual", "sodium thiosulfate (anhydrous) 10 g\npotassium ferricyanide 60 g" OF_NO_CLASS,
     "sodium thiosulfate (pentahydrate) 50 g\npotassium ferricyanide 3 g"},
    {"intensifier-needs-agent", "intensifier", "role-missing", "potassium bromide 20 g", "potassium dichromate 10 g\nhydrochloric acid (37 %) 8 mL"},
    {"toner-needs-toner", "toner", "role-missing", "sodium chloride 5 g", "sodium sulfide (nonahydrate) 30 g"},
    {"thiourea-toner-needs-alkali", "toner", "role-missing", "thiourea 3 g\npotassium bromide 5 g", "thiourea 3 g\nsodium hydroxide 6 g"},
    {"sensitizer-not-hot", "sensitizer", "temperature-unusual", "water 700 mL at 60 °C\nsilver nitrate 100 g", "water 700 mL at 20 °C\nsilver nitrate 100 g"},
    {"gas-from-warm-water", "other", "temperature-unusual", "water 700 mL at 50 °C\nammonium persulfate 20 g", "water 700 mL at 20 °C\nammonium persulfate 20 g"},
    {"acid-into-water", "other", "order", "sulfuric acid (concentrated) 50 mL\nwater 700 mL", "water 700 mL\nsulfuric acid (concentrated) 50 mL"},
};

static char *text_of(const char *title, const char *kind, const char *lines, const char *more)
{
    char *text = NULL;
    bool whole = strstr(lines, "to make") != NULL;
    assert_true(asprintf(&text, "formula \"%s\"\nkind %s\n%s%s\n%s\n", title, kind, more, lines, whole ? "" : "water to make 1 L") > 0);
    return text;
}

/* Warnings of the rule: by the name in their help, or, where a look-alike answers in its stead, by id. */
static size_t warnings_of(const struct compiled *compiled, const char *rule, const char *id)
{
    char *named = NULL;
    assert_true(asprintf(&named, "(rule %s)", rule) > 0);
    size_t count = 0;
    size_t i;
    json_t *item;
    json_array_foreach(compiled->diagnostics, i, item) {
        const char *help = json_string_value(json_object_get(item, "help"));
        bool of_rule = help != NULL && strstr(help, named) != NULL;
        bool look_alike = strcmp(id, "look-alike") == 0 && strcmp(json_text_of(item, "id"), id) == 0;
        if (of_rule && strcmp(json_text_of(item, "id"), id) != 0) {
            fail_msg("%s gives %s", rule, json_text_of(item, "id"));
        }
        count += of_rule || look_alike;
    }
    free(named);
    return count;
}

static void print_all(const struct compiled *compiled)
{
    size_t i;
    json_t *item;
    json_array_foreach(compiled->diagnostics, i, item) {
        print_error("  %d: %s [%s]\n", (int)json_number_of(item, "line"), json_text_of(item, "message"), json_text_of(item, "id"));
    }
}

static void each_rule_on_a_faulty_and_a_right_formula(void **state)
{
    (void)state;
    int faults = 0;
    for (size_t i = 0; i < COUNT(rules); i++) {
        char *text = text_of("x", rules[i].kind, rules[i].faulty, "");
        struct compiled compiled = compile(text);
        size_t said = warnings_of(&compiled, rules[i].rule, rules[i].id);
        /* Of two amounts that do not go together either may be meant. */
        size_t most = strcmp(rules[i].id, "amount-unusual") == 0 ? 2 : 1;
        if (compiled.status != POTASH_GOOD || said == 0 || said > most) {
            print_error("%s: its faulty formula does not give it once\n", rules[i].rule);
            print_all(&compiled);
            faults++;
        }
        compiled_free(&compiled);
        free(text);
        text = text_of("x", rules[i].kind, rules[i].right, "");
        compiled = compile(text);
        if (compiled.status != POTASH_GOOD || compiled_count(&compiled, NULL) != 0) {
            print_error("%s: its right formula is not clean\n", rules[i].rule);
            print_all(&compiled);
            faults++;
        }
        compiled_free(&compiled);
        free(text);
    }
    assert_int_equal(faults, 0);
}

static void each_rule_is_silenced_by_its_name(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(rules); i++) {
        char silence[200];
        snprintf(silence, sizeof silence, "silence %s\n", rules[i].rule);
        char *text = text_of("x", rules[i].kind, rules[i].faulty, silence);
        struct compiled compiled = compile(text);
        if (strcmp(rules[i].id, "look-alike") != 0 && warnings_of(&compiled, rules[i].rule, rules[i].id) != 0) {
            fail_msg("%s is not silenced in the formula", rules[i].rule);
        }
        compiled_free(&compiled);
        free(text);
        const char *const silenced[] = {rules[i].rule, NULL};
        const struct potash_options options = {.silence = silenced};
        text = text_of("x", rules[i].kind, rules[i].faulty, "");
        compiled = compile_with(&options, text, strlen(text));
        if (compiled.status != POTASH_GOOD) {
            fail_msg("%s: %s", rules[i].rule, compiled.status == POTASH_UNUSABLE ? potash_message(compiled.potash) : "has errors");
        }
        if (strcmp(rules[i].id, "look-alike") != 0 && warnings_of(&compiled, rules[i].rule, rules[i].id) != 0) {
            fail_msg("%s is not silenced for the run", rules[i].rule);
        }
        compiled_free(&compiled);
        free(text);
    }
}

static void the_table_has_every_rule(void **state)
{
    (void)state;
    size_t length;
    char *text = file_bytes("stdlib/practice.bath", &length);
    assert_non_null(text);
    size_t count = 0;
    for (char *line = strtok(text, "\n"); line != NULL; line = strtok(NULL, "\n")) {
        if (strncmp(line, "rule ", 5) != 0) {
            continue;
        }
        size_t i = 0;
        while (i < COUNT(rules) && strcmp(rules[i].rule, line + 5) != 0) {
            i++;
        }
        if (i == COUNT(rules)) {
            fail_msg("%s is not tested", line + 5);
        }
        count++;
    }
    assert_int_equal(count, COUNT(rules));
    free(text);
}

struct role_search {
    struct text role;
    bool found;
};

static void look_for_role(void *context, const struct material *material)
{
    struct role_search *search = context;
    for (size_t i = 0; i < material->role_count; i++) {
        search->found = search->found || text_equal(material->roles[i], search->role);
    }
}

static void rules_speak_of_what_there_is(void **state)
{
    (void)state;
    static struct rules read;
    rules_start(&read, &library);
    assert_int_equal(diagnostics.count, 0);
    assert_true(read.subject_count > 40);
    for (size_t i = 0; i < read.subject_count; i++) {
        for (const struct rule_name *name = read.subjects[i].names; name != NULL; name = name->next) {
            struct role_search search = {name->role, name->entry != NO_MATERIAL};
            library_each_material(&library, look_for_role, &search);
            if (!search.found) {
                fail_msg("\"%.*s\" is neither a material nor a role", TEXT_ARGUMENTS(name->role));
            }
        }
    }
    assert_int_equal(read.list.count, COUNT(rules));
    for (size_t i = 0; i < read.list.count; i++) {
        const struct rule *rule = read.list.rules[i];
        assert_true(rule->warn.length > 20);
        assert_true(rule->advise.length > 0);
        assert_true(rule->source.length > 0);
    }
}

#define HOUSE "formula \"x\"\nkind fixer\nsodium thiosulfate (pentahydrate) 250 g\nammonium chloride 40 g\nwater to make 1 L\n"

static void rules_of_the_house(void **state)
{
    (void)state;
    expect_list(HOUSE, "");
    const char *rule = "rule no-chloride-in-the-fixer\n in fixer\n when ammonium chloride over 30 g/L\n"
                       " warn \"we keep chloride out of the fixer\"\n" HOUSE;
    expect_one(rule, "amount-unusual", 8, 0);
    expect_list("rule no-chloride-in-the-fixer\n in fixer\n when ammonium chloride over 50 g/L\n warn \"…\"\n" HOUSE, "");
    /* The id that it gives, the formulas that it is for, alternatives and exceptions. */
    expect_one("rule a\n in fixer\n when silver solvent except sodium sulfite meets ammonium chloride\n says order\n warn \"…\"\n" HOUSE, "order", 9, 0);
    expect_list("rule a\n in fixer\n when silver solvent except sodium thiosulfate meets ammonium chloride\n warn \"…\"\n" HOUSE, "");
    expect_list("rule a\n in fixer\n for paper\n when ammonium chloride\n warn \"…\"\n" HOUSE, "");
    expect_one("rule a\n when sodium sulfite or potassium alum is missing before ammonium chloride\n warn \"…\"\n" HOUSE, "order", 7, 0);
    expect_one("rule a\n when ammonium chloride over 0.1 times sodium thiosulfate\n warn \"…\"\n" HOUSE, "amount-unusual", 7, 0);
    expect_list("rule a\n when ammonium chloride over 0.2 times sodium thiosulfate\n warn \"…\"\n" HOUSE, "");
}

static void faults_in_rules(void **state)
{
    (void)state;
    expect_list("rule a\n when quicklime juice over 5 g/L\n warn \"…\"\n", "material-unknown:2");
    expect_list("rule a\n when metol over 5 mL\n warn \"…\"\n", "unit-mismatch:2");
    expect_list("rule a\n when metol at over 5 g\n warn \"…\"\n", "unit-mismatch:2");
    expect_list("rule a\n when metol\n says syntax\n warn \"…\"\n", "syntax:3");
    expect_list("rule a\n when metol\n", "syntax:1");
    expect_list("rule metol-before-sulfite\n when metol\n warn \"…\"\n", "declared-twice:1");
    expect_list("rule metol-before-sulfite, replacing the library's\n when metol over 900 g/L\n warn \"…\"\n"
                "formula \"x\"\nkind developer\nwater 700 mL\nsodium sulfite (anhydrous) 40 g\nmetol 2 g\n"
                "sodium carbonate (anhydrous) 30 g\nwater to make 1 L\n", "");
}

static void across_parts(void **state)
{
    (void)state;
    /* Two bottles may stand side by side; what a use mixes meets. */
    const char *two = "formula \"x\"\nkind toner\npart A\nsodium sulfide (nonahydrate) 30 g\nwater to make 1 L\n"
                      "part B\ncitric acid (anhydrous) 10 g\nwater to make 1 L\nuse for prints\n%s\n";
    char text[400];
    snprintf(text, sizeof text, two, "mix A 1 + B 1");
    struct compiled compiled = compile(text);
    assert_non_null(compiled_find(&compiled, "hazard-combination", 10));
    compiled_free(&compiled);
    snprintf(text, sizeof text, two, "mix A 1 + water 3");
    compiled = compile(text);
    assert_int_equal(compiled_count(&compiled, "hazard-combination"), 0);
    compiled_free(&compiled);
    /* A part that takes another in holds what that holds. */
    compiled = compile("formula \"x\"\nkind toner\npart A\nsodium sulfide (nonahydrate) 30 g\nwater to make 1 L\n"
                       "part B\nwater 500 mL\ncitric acid (anhydrous) 10 g\nsolution A 100 mL\nwater to make 1 L\n");
    assert_non_null(compiled_find(&compiled, "hazard-combination", 9));
    compiled_free(&compiled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_rule_on_a_faulty_and_a_right_formula),
        cmocka_unit_test(each_rule_is_silenced_by_its_name),
        cmocka_unit_test(the_table_has_every_rule),
        WITH_LIBRARY(rules_speak_of_what_there_is),
        cmocka_unit_test(rules_of_the_house),
        cmocka_unit_test(faults_in_rules),
        cmocka_unit_test(across_parts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
