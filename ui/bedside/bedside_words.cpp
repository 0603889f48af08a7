#include "ui/bedside/bedside_words.h"

#include "ui/window/words.h"

#include <fmt/format.h>

namespace ui {

std::string instrument_words(sim::Instrument instrument) {
    switch (instrument) {
        case sim::Instrument::none: return words("Nothing");
        case sim::Instrument::horn: return words("Pinard horn");
        case sim::Instrument::bell: return words("Stethoscope, cup side");
        case sim::Instrument::diaphragm: return words("Stethoscope, flat side");
        case sim::Instrument::doppler: return words("Hand-held Doppler");
    }
    return "";
}

std::string position_words(sim::Position position) {
    switch (position) {
        case sim::Position::flat: return words("flat on her back");
        case sim::Position::half_sitting: return words("half sitting");
        case sim::Position::left_side: return words("on her left side");
        case sim::Position::right_side: return words("on her right side");
        case sim::Position::sitting: return words("sitting");
        case sim::Position::standing: return words("standing");
        case sim::Position::hands_and_knees: return words("on hands and knees");
        case sim::Position::knees_and_chest: return words("knees and chest down");
    }
    return "";
}

std::string felt_words(sim::Felt felt) {
    switch (felt) {
        case sim::Felt::nothing_clear: return words("nothing clear");
        case sim::Felt::smooth_back: return words("smooth and long");
        case sim::Felt::small_knobbly_limbs: return words("small, knobbly");
        case sim::Felt::hard_round_head: return words("hard and round");
        case sim::Felt::broad_soft_breech: return words("broad and soft");
        case sim::Felt::shoulder: return words("a small firm bump");
    }
    return "";
}

std::string firmness_words(sim::Firmness firmness) {
    switch (firmness) {
        case sim::Firmness::soft: return words("soft like a cheek");
        case sim::Firmness::firm: return words("firm like a chin");
        case sim::Firmness::hard: return words("hard like a forehead");
    }
    return "";
}

std::string press_words(double newtons) {
    if (newtons < 2) return words("barely touching");
    if (newtons < 5) return words("lightly");
    if (newtons < 10) return words("firmly");
    if (newtons < 18) return words("hard");
    return words("very hard");
}

std::string what_to_do(engine::Task task) {
    switch (task) {
        case engine::Task::count: return words("Listen until you are sure, then count one full minute.");
        case engine::Task::quick: return words("Take short counts; say what they can and cannot tell.");
        case engine::Task::find: return words("Find where the baby's heart is loudest, then count it.");
        case engine::Task::tell_apart: return words("Be sure whose heart you hear before you write it down.");
        case engine::Task::pattern: return words("Listen through the contractions and after them.");
        case engine::Task::labour: return words("Stay with her: listen when it is due, decide, act.");
    }
    return "";
}

std::string clock_words(double seconds) {
    const int s = seconds < 0 ? 0 : static_cast<int>(seconds);
    return fmt::format("{}:{:02}", s / 60, s % 60);
}

std::vector<std::string> source_choices() {
    return {words("The baby"), words("Her pulse"), words("Doubtful"), words("Not found"),
            words("Two babies")};
}

std::vector<std::string> baseline_choices() {
    return {words("Normal"), words("Too fast"), words("Too slow"), words("Rising"), words("Not checked")};
}

std::vector<std::string> around_choices() {
    return {words("No slowing"), words("Slows in it, is back when it ends"),
            words("Still slow after the contraction"), words("Stays down, 3 minutes or more"),
            words("Not listened for")};
}

std::vector<std::string> rhythm_choices() { return {words("Regular"), words("Irregular")}; }

}  // namespace ui
