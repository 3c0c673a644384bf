/* Published buffers: what is in them, and the pH that was published for them. */
#ifndef POTASH_TESTS_BUFFER_FIGURES_H
#define POTASH_TESTS_BUFFER_FIGURES_H

enum { MOST_COMPONENTS = 3, STANDARD_TEMPERATURES = 6 };

struct component {
    const char *material;
    double moles; /* in a litre */
};

struct standard {
    const char *name;
    struct component components[MOST_COMPONENTS];
    double pH[STANDARD_TEMPERATURES]; /* at standard_temperatures; 0: none is published */
    bool of_the_seven;                /* primary standards of the National Bureau of Standards, or its tetroxalate or lime */
};

struct recipe {
    double pH;
    double moles[MOST_COMPONENTS];
};

struct series {
    const char *name;
    const char *source;
    double temperature; /* °C */
    const char *materials[MOST_COMPONENTS];
    double worst; /* allowed deviation */
    const struct recipe *recipes;
    size_t count;
};

static const double standard_temperatures[STANDARD_TEMPERATURES] = {15, 20, 25, 30, 35, 40};

/* pH(S) of the National Bureau of Standards: Bates, J. Res. NBS 66A (1962) 179, doi:10.6028/jres.066A.016; Staples and Bates, J. Res.
 * NBS 73A (1969) 37, doi:10.6028/jres.073A.004 (dihydrogen citrate, carbonate); amounts: Lange's Handbook of Chemistry, 15th ed.,
 * Tables 8.15 and 8.16.  The last three: secondary and technical solutions, pH of a calibration table of soil probes; their
 * compositions from the manual of a pH transmitter (7.00) and from memory (acetate, hydrochloric acid). */
static const struct standard standards[] = {
    {"tetroxalate", {{"potassium tetroxalate", 0.04962}}, {1.672, 1.675, 1.679, 1.683, 1.688, 1.694}, true},
    {"tartrate", {{"potassium hydrogen tartrate", 0.034}}, {0, 0, 3.557, 3.552, 3.549, 3.547}, true},
    {"dihydrogen citrate", {{"potassium dihydrogen citrate", 0.04958}}, {3.803, 3.788, 3.776, 3.766, 3.759, 3.754}, true},
    {"phthalate", {{"potassium hydrogen phthalate", 0.04958}}, {3.998, 4.001, 4.005, 4.011, 4.018, 4.027}, true},
    {"phosphate 1 1", {{"monopotassium phosphate", 0.0249}, {"disodium phosphate (anhydrous)", 0.0249}}, {6.9, 6.881, 6.865, 6.853, 6.844, 6.838}, true},
    {"phosphate 1 3 5", {{"monopotassium phosphate", 0.008665}, {"disodium phosphate (anhydrous)", 0.03032}}, {7.448, 7.429, 7.413, 7.4, 7.389, 7.38}, true},
    {"borax", {{"borax (decahydrate)", 0.009971}}, {9.276, 9.225, 9.18, 9.139, 9.102, 9.068}, true},
    {"carbonate", {{"sodium bicarbonate", 0.02492}, {"sodium carbonate (anhydrous)", 0.02492}}, {10.118, 10.062, 10.012, 9.966, 9.925, 9.889}, true},
    {"calcium hydroxide", {{"calcium hydroxide", 0.0203}}, {12.81, 12.627, 12.454, 12.289, 12.133, 11.984}, true},
    {"phosphate 7 00", {{"disodium phosphate (anhydrous)", 0.041}, {"monopotassium phosphate", 0.026}}, {7.036, 7.016, 7, 6.987, 6.977, 6.97}, false},
    {"acetate 0.1 0.1", {{"acetic acid (glacial)", 0.1}, {"sodium acetate (anhydrous)", 0.1}}, {4.652, 4.65, 4.65, 4.652, 4.655, 4.659}, false},
    {"hcl 0.1", {{"hydrochloric acid (37 %)", 0.1}}, {1.089, 1.091, 1.094, 1.096, 1.098, 1.101}, false},
};

static const struct recipe recipes_1[] = {
    {2.6, {0.088989, 0.021779}},
    {2.8, {0.08423, 0.031831}},
    {3, {0.079472, 0.041046}},
    {3.2, {0.075189, 0.049422}},
    {3.4, {0.071382, 0.056961}},
    {3.6, {0.067575, 0.0645}},
    {3.8, {0.064719, 0.070923}},
    {4, {0.061388, 0.077065}},
    {4.2, {0.058533, 0.082929}},
    {4.4, {0.055678, 0.088234}},
    {4.6, {0.053298, 0.09354}},
    {4.8, {0.050919, 0.098566}},
    {5, {0.04854, 0.103033}},
    {5.2, {0.04616, 0.107221}},
    {5.4, {0.044257, 0.11141}},
    {5.6, {0.041877, 0.116157}},
    {5.8, {0.039498, 0.120903}},
    {6, {0.036643, 0.126209}},
    {6.2, {0.033787, 0.132351}},
    {6.4, {0.030932, 0.138494}},
    {6.6, {0.027125, 0.145475}},
    {6.8, {0.022842, 0.15441}},
    {7, {0.017607, 0.164741}},
    {7.2, {0.012849, 0.173956}},
    {7.4, {0.009042, 0.181774}},
    {7.6, {0.006186, 0.187358}},
};

static const struct recipe recipes_2[] = {
    {3.6, {0.0925, 0.0075}},
    {3.8, {0.088, 0.012}},
    {4, {0.082, 0.018}},
    {4.2, {0.0735, 0.0265}},
    {4.4, {0.063, 0.037}},
    {4.6, {0.051, 0.049}},
    {4.8, {0.04, 0.06}},
    {5, {0.0295, 0.0705}},
    {5.2, {0.021, 0.079}},
    {5.4, {0.0145, 0.0855}},
    {5.6, {0.0095, 0.0905}},
};

static const struct recipe recipes_3[] = {
    {9.2, {0.002, 0.023}},
    {9.4, {0.00475, 0.02025}},
    {9.6, {0.008, 0.017}},
    {9.8, {0.011, 0.014}},
    {10, {0.01375, 0.01125}},
    {10.2, {0.0165, 0.0085}},
    {10.4, {0.01925, 0.00575}},
    {10.6, {0.02125, 0.00375}},
};

static const struct recipe recipes_4[] = {
    {5.8, {0.05, 0.0036}},
    {6, {0.05, 0.0056}},
    {6.2, {0.05, 0.0081}},
    {6.4, {0.05, 0.0116}},
    {6.6, {0.05, 0.0164}},
    {6.8, {0.05, 0.0224}},
    {7, {0.05, 0.0291}},
    {7.2, {0.05, 0.0347}},
    {7.4, {0.05, 0.0391}},
    {7.6, {0.05, 0.0424}},
    {7.8, {0.05, 0.0445}},
    {8, {0.05, 0.0461}},
};

static const struct recipe recipes_5[] = {
    {8, {0.05, 0.05, 0.0039}},
    {8.2, {0.05, 0.05, 0.006}},
    {8.4, {0.05, 0.05, 0.0086}},
    {8.6, {0.05, 0.05, 0.0118}},
    {8.8, {0.05, 0.05, 0.0158}},
    {9, {0.05, 0.05, 0.0208}},
    {9.2, {0.05, 0.05, 0.0264}},
    {9.4, {0.05, 0.05, 0.0321}},
    {9.6, {0.05, 0.05, 0.0369}},
    {9.8, {0.05, 0.05, 0.0406}},
    {10, {0.05, 0.05, 0.0437}},
    {10.2, {0.05, 0.05, 0.0462}},
};

static const struct recipe recipes_6[] = {
    {9.2, {0.0125, 0.0009}},
    {9.3, {0.0125, 0.0036}},
    {9.4, {0.0125, 0.0062}},
    {9.5, {0.0125, 0.0088}},
    {9.6, {0.0125, 0.0111}},
    {9.7, {0.0125, 0.0131}},
    {9.8, {0.0125, 0.015}},
    {9.9, {0.0125, 0.0167}},
    {10, {0.0125, 0.0183}},
    {10.1, {0.0125, 0.0195}},
    {10.2, {0.0125, 0.0205}},
    {10.3, {0.0125, 0.0213}},
    {10.4, {0.0125, 0.0221}},
    {10.5, {0.0125, 0.0227}},
    {10.6, {0.0125, 0.0233}},
    {10.7, {0.0125, 0.0238}},
};

static const struct recipe recipes_7[] = {
    {9.6, {0.025, 0.005}},
    {9.7, {0.025, 0.0062}},
    {9.8, {0.025, 0.0076}},
    {9.9, {0.025, 0.0091}},
    {10, {0.025, 0.0107}},
    {10.1, {0.025, 0.0122}},
    {10.2, {0.025, 0.0138}},
    {10.3, {0.025, 0.0152}},
    {10.4, {0.025, 0.0165}},
    {10.5, {0.025, 0.0178}},
    {10.6, {0.025, 0.0191}},
    {10.7, {0.025, 0.0202}},
    {10.8, {0.025, 0.0212}},
    {10.9, {0.025, 0.022}},
    {11, {0.025, 0.0227}},
};

static const struct recipe recipes_8[] = {
    {12, {0.05, 0.012}},
    {12.1, {0.05, 0.016}},
    {12.2, {0.05, 0.0204}},
    {12.3, {0.05, 0.0256}},
    {12.4, {0.05, 0.0324}},
    {12.5, {0.05, 0.0408}},
    {12.6, {0.05, 0.0512}},
    {12.7, {0.05, 0.0644}},
    {12.8, {0.05, 0.0824}},
    {12.9, {0.05, 0.106}},
    {13, {0.05, 0.132}},
};

static const struct recipe recipes_9[] = {
    {6.8, {0.049998, 0.049981}},
    {6.9, {0.005, 0.004998}},
};

static const struct recipe recipes_10[] = {
    {3.1, {0.016703, 0.003298}},
    {4.6, {0.009993, 0.009997}},
};

static const struct recipe recipes_11[] = {
    {2.9, {0.007529, 0.002521}},
};

static const struct series series[] = {
    {"citric acid and phosphate, by weight", "table of citric acid and sodium phosphate buffers with weights for 100 mL, after McIlvaine, J. Biol. Chem. 49 (1921) 183", 25, {"citric acid (monohydrate)", "disodium phosphate (dodecahydrate)"}, 0.15, recipes_1, sizeof recipes_1 / sizeof *recipes_1},
    {"acetic acid and acetate", "Gomori, Methods in Enzymology 1 (1955) 138, and Pearse, Histochemistry (1980), after Walpole; temperature not stated, taken as 18 °C", 18, {"acetic acid (glacial)", "sodium acetate (anhydrous)"}, 0.15, recipes_2, sizeof recipes_2 / sizeof *recipes_2},
    {"carbonate and bicarbonate", "after Gomori, Methods in Enzymology 1 (1955) 138; the source is in doubt about the strength of its stocks, of which the original has twice as much; temperature not stated", 25, {"sodium carbonate (anhydrous)", "sodium bicarbonate"}, 0.17, recipes_3, sizeof recipes_3 / sizeof *recipes_3},
    {"phosphate and sodium hydroxide", "Bower and Bates, J. Res. NBS 55 (1955) 197; set down from memory", 25, {"monopotassium phosphate", "sodium hydroxide"}, 0.15, recipes_4, sizeof recipes_4 / sizeof *recipes_4},
    {"boric acid, potassium chloride and sodium hydroxide", "Bower and Bates, J. Res. NBS 55 (1955) 197; set down from memory", 25, {"boric acid (crystals)", "potassium chloride", "sodium hydroxide"}, 0.15, recipes_5, sizeof recipes_5 / sizeof *recipes_5},
    {"borax and sodium hydroxide", "Bates and Bower, Anal. Chem. 28 (1956) 1322; set down from memory", 25, {"borax (decahydrate)", "sodium hydroxide"}, 0.15, recipes_6, sizeof recipes_6 / sizeof *recipes_6},
    {"bicarbonate and sodium hydroxide", "Bates and Bower, Anal. Chem. 28 (1956) 1322; set down from memory", 25, {"sodium bicarbonate", "sodium hydroxide"}, 0.15, recipes_7, sizeof recipes_7 / sizeof *recipes_7},
    {"potassium chloride and sodium hydroxide", "Bates and Bower, Anal. Chem. 28 (1956) 1322; set down from memory", 25, {"potassium chloride", "sodium hydroxide"}, 0.15, recipes_8, sizeof recipes_8 / sizeof *recipes_8},
    {"buffers for chromatography", "a maker's note on buffers for chromatography; nominal pH, to be adjusted, within 0.2", 25, {"monosodium phosphate (dihydrate)", "disodium phosphate (dodecahydrate)"}, 0.2, recipes_9, sizeof recipes_9 / sizeof *recipes_9},
    {"buffers for chromatography", "a maker's note on buffers for chromatography; nominal pH, to be adjusted, within 0.2", 25, {"citric acid (monohydrate)", "sodium citrate (dihydrate)"}, 0.2, recipes_10, sizeof recipes_10 / sizeof *recipes_10},
    {"buffers for chromatography", "a maker's note on buffers for chromatography; nominal pH, to be adjusted, within 0.2", 25, {"tartaric acid", "sodium tartrate (dihydrate)"}, 0.2, recipes_11, sizeof recipes_11 / sizeof *recipes_11},
};

#endif
