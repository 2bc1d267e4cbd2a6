// SPDX-License-Identifier: MPL-2.0
#include "addin/text/worded_unit.hpp"

#include "addin/text/words.hpp"

namespace drysheet {
namespace {

constexpr std::string_view kAir[] = {"dry air",   "trockene Luft", "tr. Luft", "tr.L.", "air sec",
                                     "aire seco", "a.s.",          "da",       "Luft",  "air"};
constexpr std::string_view kDry[] = {
    "dry matter",   "dry solids",   "dry mass", "dry weight", "bone dry",
    "dry",          "solids",       "solid",    "DM",         "D.M.",
    "dm",           "d.m.",         "DS",       "ds",         "d.s.",
    "TS",           "TrS",          "TM",       "atro",       "i.Tr.",
    "i. Tr.",       "MS",           "m.s.",     "m.sèche",    "matière sèche",
    "ms",           "bs",           "b.s.",     "base sèche", "base seca",
    "BS",           "materia seca", "sólidos",  "d.b",        "Trockensubstanz",
    "Trockenmasse", "(dry basis)",  "solides"};
constexpr std::string_view kWet[] = {"bh",       "b.h.",        "base humide", "base húmeda", "BH",
                                     "FM",       "FW",          "FS",          "MH",          "m.h.",
                                     "w.b",      "Feuchtmasse", "Frischmasse", "fresh mass",  "fresh",
                                     "wet mass", "wet",         "as is",       "(wet basis)"};
constexpr std::string_view kWater[] = {"water", "H2O",      "H₂O",   "Wasser",     "eau",
                                       "agua",  "moisture", "d'eau", "RH",         "HR",
                                       "r.F.",  "rF",       "rel.",  "evaporated", "of"};

bool is_one_of(char c, std::string_view some) { return some.find(c) != std::string_view::npos; }

// Takes a noun out wherever it stands by itself; whether it was there.
bool drop(std::string& text, std::string_view noun) {
    bool found = false;
    for (std::size_t at = 0; (at = text.find(noun, at)) != std::string::npos;) {
        const std::size_t end = at + noun.size();
        if (is_one_of(at == 0 ? ' ' : text[at - 1], " /.%") &&
            (is_one_of(end < text.size() ? text[end] : ' ', " /)") || text.substr(end).starts_with("·"))) {
            text.erase(at, noun.size());
            found = true;
        } else {
            ++at;
        }
    }
    return found;
}

}  // namespace

WordedUnit without_nouns(std::string_view text, bool alone) {
    WordedUnit worded;
    std::string unit(text);
    const bool quotient = unit.find('/') != std::string::npos;
    const bool any = alone || quotient, with_basis = any || unit.find('%') != std::string::npos;
    if (any)
        for (const std::string_view noun : kAir) drop(unit, noun);
    if (with_basis) {
        for (const std::string_view noun : kDry)
            if (drop(unit, noun)) worded.basis = Basis::dry;
        for (const std::string_view noun : kWet)
            if (drop(unit, noun)) worded.basis = Basis::wet;
    }
    if (any)
        for (const std::string_view noun : kWater) drop(unit, noun);
    // no blank is left but before what stands behind the unit ("kg/kg db")
    std::string tight;
    for (const char c : unit)
        if (c != ' ' || (!tight.empty() && tight.back() != '/')) tight += c;
    while (!tight.empty() && is_one_of(tight.back(), " ,")) tight.pop_back();
    for (std::size_t at = 0; (at = tight.find(" /")) != std::string::npos;) tight.erase(at, 1);
    worded.unit = trimmed(tight);
    return worded;
}

}  // namespace drysheet
