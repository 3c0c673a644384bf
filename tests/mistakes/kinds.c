/* The sorts of mistakes that people make when they type a formula. */
#include "mistakes/places.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))

const struct mistake_kind mistake_kinds[] = {
    {"decimal point moved", mistake_point_moved},
    {"g and mg exchanged", mistake_grams_milligrams},
    {"g and mL exchanged", mistake_grams_millilitres},
    {"mL and L exchanged", mistake_millilitres_litres},
    {"grains and grams exchanged, or gr", mistake_grains_grams},
    {"oz and fl oz exchanged", mistake_ounces_fluid},
    {"stock wrong by ten", mistake_stock_percent},
    {"ratio with a colon", mistake_colon_ratio},
    {"form dropped", mistake_form_dropped},
    {"form exchanged", mistake_form_exchanged},
    {"two lines swapped, order matters", mistake_swapped},
    {"line dropped, the only one of its role", mistake_dropped_only},
    {"line dropped, one of several", mistake_dropped_of_several},
    {"line doubled", mistake_doubled},
    {"look-alike material", mistake_look_alike},
    {"name misspelt", mistake_misspelt},
    {"°F taken for °C", mistake_fahrenheit},
    {"final volume of another batch", mistake_final_volume},
    {"dilution with a figure too many", mistake_dilution_digit},
};
const size_t mistake_kind_count = COUNT(mistake_kinds);
