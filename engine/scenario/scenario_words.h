// Words a scenario file may use, in the order of the enumerations they stand for; and who adds which rows.
#pragma once

#include "engine/scenario/scenario_table.h"

namespace engine::scenario_words {

using Words = std::vector<std::string_view>;

inline const Words task_words{"count", "quick", "find", "tell_apart", "pattern", "labour"};
inline const Words stage_words{"latent", "active", "second"};
inline const Words licence_words{"any", "trained", "licensed"};
inline const Words waters_words{"whole", "clear", "thin_green", "thick_green", "bloody", "foul"};
inline const Words call_words{"waters_break",  "pain_changes", "bleeding",
                              "wants_to_push", "feels_unwell", "interrupted"};
inline const Words instrument_words{"horn", "bell", "diaphragm", "doppler"};
inline const Words placenta_words{"back", "front", "left", "right", "low"};
inline const Words standing_words{"flat",    "half_sitting", "left_side",       "right_side",
                                  "sitting", "standing",     "hands_and_knees", "knees_and_chest"};
inline const Words variability_words{"quiet", "active", "awake", "labour", "minimal", "by_state"};
inline const Words beam_words{"whole_heart", "walls_only"};
inline const Words event_words{"acceleration", "early", "late", "variable", "prolonged"};
inline const Words by_words{"contraction", "movement", "time"};
inline const Words trouble_words{
    "none",  "lying_flat", "cord_pressure",    "cord_prolapse",  "too_many_contractions",
    "fever", "bleeding",   "mothers_medicine", "scar_gives_way", "unknown"};
// Acts that can find something, as the shipped protocols have them.
inline const Words finding_acts{"take_temperature", "take_blood_pressure", "ask_what_was_given",
                                "check_waters",     "check_bleeding",      "look_for_cord",
                                "examine_inside",   "count_contractions"};
inline const Words ladder_words{"easy", "normal", "hard", "very_hard"};
inline const Words lie_words{"LOA",
                             "LOT",
                             "LOP",
                             "ROA",
                             "ROT",
                             "ROP",
                             "OA",
                             "OP",
                             "LSA",
                             "LST",
                             "LSP",
                             "RSA",
                             "RST",
                             "RSP",
                             "SA",
                             "SP",
                             "across head left",
                             "across head left, back behind",
                             "across head right",
                             "across head right, back behind"};

}  // namespace engine::scenario_words

namespace engine {

using ScenarioRows = std::vector<Field<ScenarioLanding>>;

void add_top_rows(ScenarioRows& rows);
void add_mother_rows(ScenarioRows& rows);
void add_baby_heart_rows(ScenarioRows& rows);
void add_baby_lie_rows(ScenarioRows& rows);
void add_baby_event_rows(ScenarioRows& rows);
void add_labour_rows(ScenarioRows& rows);
void add_finding_rows(ScenarioRows& rows);
void add_sound_rows(ScenarioRows& rows);

}  // namespace engine
