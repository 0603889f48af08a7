// Title and story, in the words of the trade. Made from what is told alone: what the heart does is not known
// here.
#include "engine/drawing/woman.h"

#include <fmt/format.h>

namespace engine {
namespace {

constexpr std::string_view place_words[] = {"Pellan Ford post", "Sirro Bridge", "Ambrel hospital"};

std::string_view time_of_day(int hour) {
    constexpr std::string_view words[] = {"deep in the night",   "before dawn", "early in the morning",
                                          "late in the morning", "at noon",     "in the afternoon",
                                          "towards evening",     "after dark"};
    return words[hour / 3];
}

std::string parity(const Told& t) {
    constexpr std::string_view words[] = {"first", "second", "third", "fourth", "fifth", "sixth", "seventh"};
    if (t.first_twin_born) return "twins";
    if (t.twins_known) return fmt::format("two babies by her card, {} pregnancy", words[t.births_before]);
    return fmt::format("{} baby", words[t.births_before]);
}

std::string_view with_what(const Told& t) {
    switch (t.instrument) {
        case instrument::horn: return "the horn";
        case instrument::stethoscope: return "the stethoscope, its flat and its cup side";
        case instrument::doppler: return "the Doppler";
        default: return "the horn and the Doppler";
    }
}

std::string came(const Told& t, Dice& dice) {
    if (t.first_twin_born)
        return "The first one was born ten minutes ago and cries in her sister's arms. The second is still "
               "inside, and "
               "the womb has begun to work again.";
    if (t.latent)
        return dice.one_of<const char*>({"Labour has just begun; she walks about between pains.",
                                         "The pains began this morning, short and not yet close."});
    if (t.second_stage) return "She has begun to push and holds on to the bar.";
    return dice.one_of<const char*>(
        {"She is in good labour and talks between contractions.",
         "Contractions are regular; she breathes with her eyes closed.",
         "She came on foot and has been in good labour for some hours.",
         "Labour goes on since yesterday evening; she is tired and in good spirits.",
         "She was brought by cart; the pains are strong and regular."});
}

std::string around_her(const Told& t, Dice& dice) {
    if (t.in_water) return "She sits in the warm tub to her waist and does not want to leave it.";
    if (t.on_her_back) return "She has just been examined and lies flat on her back.";
    return dice.one_of<const char*>({"Her sister rubs her back.", "Rain drums on the roof.",
                                     "Her mother sits at the window and counts beads.",
                                     "The kettle sings next door.",
                                     "Another woman sleeps behind the curtain.", "Her husband waits outside.",
                                     "The lamp is low, the room is warm.", "Somebody sings in the yard."});
}

std::string told_besides(const Told& t) {
    std::string says;
    if (t.weeks < 37) says += " By her card it is thirty-five weeks.";
    if (t.scar_known) says += " Her last baby was born by operation.";
    if (t.headache) says += " Her feet are swollen, and her head has ached since the morning.";
    if (t.drip) says += " A drip for the contractions runs into her arm.";
    if (t.generator) says += " The generator runs behind the wall.";
    if (t.interrupted)
        says += " The house is full today; people come and go, and no count is safe from being broken into.";
    return says;
}

std::string people(const Told& t) {
    switch (t.place) {
        case place::post:
            return fmt::format("You are alone, with {} and a watch; the road to Ambrel takes ninety minutes.",
                               with_what(t));
        case place::centre:
            return fmt::format("The other midwife is in the house. You have {}.", with_what(t));
        default: return fmt::format("Doctor and theatre are in the house. You have {}.", with_what(t));
    }
}

std::string asked_of(const Told& t, Dice& dice) {
    switch (t.task) {
        case Task::count:
            return dice.one_of<const char*>(
                {"Find the heart, feel her pulse, and count one whole minute by your own watch.",
                 "Count the heart over a whole minute, with her wrist under your fingers, and write it "
                 "down."});
        case Task::quick:
            return "Take short counts, several in a row, from one contraction into the next rest; then say "
                   "what they can "
                   "carry, and what you would do before you write.";
        case Task::find:
            return dice.one_of<const char*>(
                {"Feel how the baby lies, find the place where the heart is loudest, and count it there.",
                 "Hands first, then the instrument: say how the baby lies and find the heart."});
        case Task::tell_apart:
            return "Listen low and high, with a finger on her wrist, and say whose heart it is before you "
                   "count.";
        case Task::pattern:
            return "Listen from a contraction on and stay until well after it; do so through several.";
        case Task::labour: break;
    }
    return fmt::format("You stay with her for the next {} minutes.", t.length_min);
}

}  // namespace

std::string title_of(const Told& told) {
    return fmt::format("{}, {}, {}", told.code, time_of_day(told.hour), place_words[told.place]);
}

std::string story_of(const Told& told, Dice& dice) {
    std::string story = fmt::format("{} at {}, {}: {}. ", told.code, place_words[told.place],
                                    time_of_day(told.hour), parity(told));
    story += came(told, dice) + " " + around_her(told, dice) + told_besides(told) + " " + people(told) + " " +
             asked_of(told, dice);
    return story;
}

}  // namespace engine
