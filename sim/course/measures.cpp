#include "sim/course/measures.h"

#include <array>

namespace sim {

namespace {

// Direction from the named page; every size and time is [practice] unless it says otherwise.
constexpr std::string_view mcpc_distress = "WHO MCPC S-95 (fetal distress in labour); size [practice]";
constexpr std::string_view mcpc_cord = "WHO MCPC S-97 (prolapsed cord); size [practice]";
constexpr std::string_view rcog_cord = "RCOG Green-top 50, 2014 [second-hand]; size [practice]";
constexpr std::string_view half_life = "WHO MCPC S-95; leaves the blood by half in 3 to 6 min [memory]";
constexpr std::string_view practice = "[practice]";

// Off her back the great vein is free within seconds; a cord is freed as fast as she has turned. A drip's
// effect leaves over ten minutes, a medicine for the womb works in four, a filled bladder lifts the head as
// it fills.
constexpr std::array rows{
    Measure{Trouble::lying_flat, Done::not_flat, Act::none, 1.0, {10}, Needs::nothing, mcpc_distress},

    Measure{Trouble::cord_pressure, Done::lies_another, Act::none, 0.8, {15}, Needs::nothing, mcpc_distress},
    Measure{
        Trouble::cord_pressure, Done::by_act, Act::knees_chest_hips_up, 0.3, {30}, Needs::nothing, practice},
    Measure{Trouble::cord_pressure, Done::by_act, Act::pause_pushing, 0.3, {60}, Needs::pushing, practice},
    Measure{Trouble::cord_pressure,
            Done::by_act,
            Act::slow_contractions_medicine,
            0.4,
            {240},
            Needs::nothing,
            practice},
    Measure{
        Trouble::cord_pressure, Done::by_act, Act::stop_oxytocin, 0.3, {600}, Needs::drip_running, half_life},

    Measure{Trouble::cord_prolapse, Done::by_act, Act::lift_the_part, 0.9, {15}, Needs::nothing, mcpc_cord},
    Measure{Trouble::cord_prolapse, Done::by_act, Act::fill_bladder, 0.6, {120}, Needs::nothing, rcog_cord},
    Measure{
        Trouble::cord_prolapse, Done::by_act, Act::knees_chest_hips_up, 0.5, {30}, Needs::nothing, rcog_cord},
    Measure{Trouble::cord_prolapse,
            Done::by_act,
            Act::slow_contractions_medicine,
            0.3,
            {240},
            Needs::nothing,
            mcpc_cord},
    Measure{
        Trouble::cord_prolapse, Done::by_act, Act::stop_oxytocin, 0.2, {600}, Needs::drip_running, half_life},
    Measure{Trouble::cord_prolapse, Done::by_act, Act::pause_pushing, 0.2, {60}, Needs::pushing, practice},
    Measure{Trouble::cord_prolapse, Done::lies_another, Act::none, 0.2, {30}, Needs::nothing, practice},

    Measure{Trouble::too_many_contractions,
            Done::by_act,
            Act::stop_oxytocin,
            0.9,
            {600},
            Needs::drip_running,
            half_life},
    Measure{Trouble::too_many_contractions,
            Done::by_act,
            Act::slow_contractions_medicine,
            0.9,
            {240},
            Needs::nothing,
            "NICE NG229 [memory]; size [practice]"},
    Measure{Trouble::too_many_contractions,
            Done::lies_another,
            Act::none,
            0.3,
            {60},
            Needs::nothing,
            mcpc_distress},

    Measure{Trouble::fever, Done::by_act, Act::cool_her, 0.3, {3600}, Needs::nothing, practice},
    Measure{Trouble::fever, Done::by_act, Act::start_drip, 0.1, {1200}, Needs::nothing, practice},

    Measure{Trouble::bleeding, Done::by_act, Act::start_drip, 0.3, {600}, Needs::nothing, practice},
    Measure{Trouble::bleeding, Done::lies_another, Act::none, 0.2, {60}, Needs::nothing, practice},

    Measure{Trouble::mothers_medicine, Done::lies_another, Act::none, 0.2, {60}, Needs::nothing, practice},
    Measure{Trouble::mothers_medicine, Done::by_act, Act::start_drip, 0.1, {600}, Needs::nothing, practice},
};

constexpr std::array harm_rows{
    Harm{Trouble::cord_prolapse, Act::push_cord_back, 0.4, 0.2, rcog_cord},  // handling it: spasm
    Harm{Trouble::cord_prolapse, Act::push_with_contractions, 0.6, 0.1, practice},
    Harm{Trouble::cord_prolapse, Act::push_on_fundus, 0.6, 0.1, practice},
    Harm{Trouble::cord_pressure, Act::push_on_fundus, 0.6, 0.1, practice},
    Harm{Trouble::scar_gives_way, Act::push_on_fundus, 0.5, 0.2, practice},
    Harm{Trouble::bleeding, Act::lay_flat, 0.7, 0.1, practice},
    Harm{Trouble::too_many_contractions, Act::raise_oxytocin, 0.0, 0.1, half_life},
};

}  // namespace

std::span<const Measure> measures() { return rows; }
std::span<const Harm> harms() { return harm_rows; }

}  // namespace sim
