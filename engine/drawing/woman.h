// One woman as she is drawn: every fact of her file before it is written. Rates in tenths, lengths in
// seconds.
#pragma once

#include "engine/drawing/dice.h"
#include "engine/drawing/plan.h"
#include "engine/protocol/protocol.h"
#include "engine/scenario/scenario.h"

#include <string>
#include <string_view>
#include <vector>

namespace engine {

struct DrawnEvent {
    std::string_view kind;
    int depth_bpm = 0, length_s = 0, back_after_s = 0, share_percent = 100, at_s = -1, shoulders_bpm = 0;
    double rate_per_10min = 0;  // above 0: by movement
};

struct DrawnBaby {
    double baseline_bpm = 138.4;
    std::string position = "LOA";
    int fifths = 4;
    double depth_cm = 7;
    std::string_view variability = "labour";
    double early_beat_percent = 0, dropped_beat_percent = 0;
    int early_every = 0, drop_every = 0;
    int movements_per_10min = 6;
    std::vector<DrawnEvent> events;
};

struct DrawnFinding {
    std::string act, says, situation;
    int from_s = 0, until_s = 0;  // until 0 = to the end
};
struct DrawnCall {
    std::string kind, says;
    int at_s = 0;
};
struct DrawnLine {
    int minutes_ago = 30, bpm = 0, pulse_bpm = 0;
    std::string remark;
};

// What the trainee is told. The story and the title are made from this alone: nothing here knows what the
// heart does.
struct Told {
    std::string code;  // "A-417"
    Task task = Task::count;
    int place = 0, instrument = 0;
    int births_before = 0;
    int weeks = 39;
    int hour = 9;  // 0..23
    int length_min = 10;
    bool second_stage = false, latent = false;
    bool twins_known = false, scar_known = false, first_twin_born = false, in_water = false,
         generator = false, interrupted = false, headache = false, on_her_back = false, drip = false;
};

struct Woman {
    Told told;
    int length_s = 360;
    int level = 1;
    bool boundary = false;
    bool heart = true;
    std::vector<std::string_view> instruments;
    int gestation_days = 276;
    double pulse_bpm = 84;
    int with_contraction_bpm = 5, with_push_bpm = 25, restless_percent = 100, breaths_per_min = 16;
    double temperature_c = 36.8, fat_cm = 2;
    std::string_view placenta = "back", position = "half_sitting";
    DrawnBaby baby, second;
    std::string_view stage = "active", waters = "whole";
    int open_cm = 5, waters_gone_h = 0, pushing_for_min = 0;
    double contractions_per_10min = 3, without_drip_per_10min = 3.5;
    int contraction_length_s = 60, strength_mmhg = 45, tone_mmhg = 10, first_contraction_s = 120;
    int contractions_stop_s = 0;  // 0 = they go on
    bool pushing = false, drip = false, head_visible = false;
    std::string_view trouble;  // "" = no cause
    int trouble_at_s = -1, falls_over_s = 0, recovers_over_s = 0;
    double falls_to_bpm = 0, pulse_to_bpm = 0;
    bool answers = true;
    std::string_view ladder = "easy";
    int ward_db = -60, souffle_db = -14, vessel_db = -10, knocks_per_min = 0;
    double souffle_x_cm = -8, souffle_y_cm = -9, vessel_x_cm = -5, vessel_y_cm = -13;
    std::vector<DrawnCall> calls;
    std::vector<DrawnFinding> findings;
    std::vector<DrawnLine> chart;
    std::string title, story, content_note;
    std::vector<std::string> notes;
};

// Facts of her body and her labour, with calls, findings and chart that fit. `again`: drawn so often before
// and not what was asked; each time the heart lies a little nearer and stands out more.
Woman woman_of(const AskedShare& asked, const Protocol& protocol, Dice& body, int again);
void add_findings(Woman& woman, const AskedShare& asked, Dice& dice);
// Title and story, from what is told alone.
std::string title_of(const Told& told);
std::string story_of(const Told& told, Dice& dice);
// For the debrief.
std::vector<std::string> notes_of(const AskedShare& asked, Dice& dice);
// The file.
std::string text_of(const Woman& woman, std::string_view id);

// A rate in tenths between both ends, never whole and never one that rounds to a decade: such rates flatter
// short counts (a 6 s count of 140 has no error, of 137.3 one of 4.4 [arithmetic]).
double rate_between(Dice& dice, double from, double to);

}  // namespace engine
