// What each act that looks, feels or asks would find: one line at any moment, and one that fits the trouble.
#include "engine/drawing/woman.h"

#include <fmt/format.h>

namespace engine {
namespace {

constexpr std::string_view fifth_words[] = {
    "no part of the head felt above the brim", "head one fifth above the brim",
    "head two fifths above the brim",          "head three fifths above the brim",
    "head four fifths above the brim",         "head five fifths above the brim, free"};

struct Finder {
    Woman& w;
    const Case& c;
    Dice& dice;
    int broke_s = 0;  // when the waters break while the trainee is there; 0 = they do not

    void find(std::string act, std::string says, std::string situation = "", int from_s = 0,
              int until_s = 0) {
        w.findings.push_back({std::move(act), std::move(says), std::move(situation), from_s, until_s});
    }
    // Two lines for one act: until a moment, and from it on.
    void change(const std::string& act, std::string before, std::string after, const std::string& situation,
                int at_s) {
        find(act, std::move(before), "", 0, at_s);
        find(act, std::move(after), situation, at_s);
    }
};

std::string waters_word(const Finder& f) {
    const std::string ago = f.w.waters_gone_h > 1 ? fmt::format("broke {} hours ago", f.w.waters_gone_h)
                                                  : std::string("broke an hour ago");
    if (f.w.waters == "clear") return "Clear, " + ago + ".";
    if (f.w.waters == "thin_green") return "Thin and light green, " + ago + ".";
    if (f.w.waters == "foul")
        return fmt::format("Yellow-green and foul on the cloth; broke about {} hours ago.",
                           f.w.waters_gone_h);
    return "Waters whole.";
}

std::string seen_at_vulva(const Finder& f) {
    if (f.w.head_visible) return "The head is seen with each push. Clear waters, no blood, no cord.";
    if (f.w.waters == "clear") return "Clear waters on the pad. No blood, no cord.";
    if (f.w.waters == "thin_green") return "Light green waters on the pad. No blood, no cord.";
    if (f.w.waters == "foul") return "Foul waters. No blood, no cord.";
    return "Nothing to be seen: no blood, no waters, no cord.";
}

void waters_and_cord(Finder& f) {
    const bool cord = f.w.trouble == "cord_prolapse";
    if (f.w.trouble == "bleeding" && f.w.heart) {
        const int at = f.w.trouble_at_s;
        f.change("look_for_cord", seen_at_vulva(f), "Dark blood on the pad, more than a show. No cord.",
                 "bleeding", at);
        f.find("check_waters", f.w.waters == "whole" ? "Waters whole." : waters_word(f));
        f.change("check_bleeding", "No blood. The womb rests soft between contractions.",
                 "Dark blood, more than a show. The womb stays hard and is sore.", "bleeding", at);
        return;
    }
    if (f.broke_s > 0) {
        f.change("look_for_cord", seen_at_vulva(f),
                 cord ? "A loop of cord lies in the opening. It pulses, slowly."
                      : "Clear waters on the pad. No blood, no cord.",
                 cord ? "cord_prolapse" : "", f.broke_s);
        f.change("check_waters", "Waters whole.",
                 cord ? "Clear waters, just gone. A loop of cord lies in the opening."
                      : "Clear waters, just gone.",
                 cord ? "cord_prolapse" : "", f.broke_s);
    } else {
        f.find("look_for_cord", seen_at_vulva(f));
        f.find("check_waters", waters_word(f), f.w.waters == "foul" ? "fever" : "");
    }
    if (f.w.trouble == "bleeding")
        f.find("check_bleeding", "A little dark blood. The womb stays as hard as wood, and is sore.",
               "bleeding");
    else if (f.w.trouble == "scar_gives_way")
        f.change("check_bleeding", "No blood. The womb rests soft between contractions.",
                 "Little blood. Her belly is sore all over, and parts of the baby are felt under the skin.",
                 "bleeding", f.w.trouble_at_s);
    else
        f.find("check_bleeding", "No blood. The womb rests soft between contractions.");
}

void her_state(Finder& f) {
    Woman& w = f.w;
    f.find("take_temperature", fmt::format("{:.1f} degrees.", w.temperature_c),
           w.temperature_c >= 38 ? "fever" : "");
    const auto pressure = [&](int high_from, int high_to, int low_from, int low_to) {
        return fmt::format("{} over {}", f.dice.whole(high_from, high_to), f.dice.whole(low_from, low_to));
    };
    if (f.c[Axis::variant] == variant::high_pressure)
        f.find("take_blood_pressure", pressure(162, 176, 108, 116) + "; her head aches.");
    else if (w.trouble == "lying_flat")
        f.find("take_blood_pressure", pressure(86, 94, 48, 56) + ", while she lies flat.");
    else if ((w.trouble == "bleeding" || w.trouble == "scar_gives_way") && w.trouble_at_s > 0)
        f.change("take_blood_pressure", pressure(108, 124, 66, 78) + ".", pressure(84, 94, 48, 58) + ".", "",
                 w.trouble_at_s);
    else if (w.trouble == "bleeding")
        f.find("take_blood_pressure", pressure(88, 96, 54, 60) + ".");
    else
        f.find("take_blood_pressure", pressure(104, 128, 62, 82) + ".");
    if (f.c[Axis::variant] == variant::injection)
        f.find("ask_what_was_given",
               "An injection in the thigh at home, \"to hurry\", two hours ago. Nobody wrote it down.");
    else if (w.trouble == "mothers_medicine")
        f.find("ask_what_was_given",
               f.dice.one_of<const char*>({"The spray for her chest, again and again since noon.",
                                           "Tablets for her asthma, and the spray twice this morning."}),
               "mothers_medicine");
    else
        f.find("ask_what_was_given",
               f.dice.one_of<const char*>(
                   {"Nothing but tea.", "Nothing given.", "Herbs for the pain, once, in the morning."}));
}

void inside(Finder& f) {
    const Woman& w = f.w;
    const int p = f.c[Axis::position];
    const std::string open = w.open_cm == 10 ? "Fully open" : fmt::format("{} cm open", w.open_cm);
    std::string lowest;
    if (p == position::breech)
        lowest = "what lies lowest is broad and soft, no hard round head";
    else if (p == position::across)
        lowest = "nothing lies lowest: no head, no bottom";
    else
        lowest = fifth_words[static_cast<std::size_t>(w.baby.fifths)];
    const std::string turned = p == position::breech ? "breech" : p == position::across ? "lying_across" : "";
    const std::string state = w.trouble == "fever" && w.temperature_c >= 38 ? ", hot to the glove" : "";
    if (w.head_visible) lowest = "the head at the outlet, no part of it above the brim";
    const std::string plain = open + ", " + lowest + state + ". No cord.";
    if (w.trouble == "cord_prolapse")
        f.change("examine_inside", open + ", " + lowest + ", waters bulging. No cord felt.",
                 open + ", " + lowest + ", and beside it a pulsing cord.", "cord_prolapse", f.broke_s);
    else
        f.find("examine_inside", plain, turned);
}

}  // namespace

void add_findings(Woman& woman, const AskedShare& asked, Dice& dice) {
    Finder f{woman, asked.what, dice, 0};
    for (const DrawnCall& call : woman.calls)
        if (call.kind == "waters_break") f.broke_s = call.at_s;
    waters_and_cord(f);
    her_state(f);
    inside(f);
}

}  // namespace engine
