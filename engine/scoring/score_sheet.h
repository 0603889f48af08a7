// The score sheet: the attempt judged, aspect by aspect, with the evidence in words and numbers.
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/protocol/protocol.h"
#include "engine/scenario/scenario.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace engine {

enum class Aspect : std::uint8_t { site, whose, window, count, arithmetic, decision, action, record, care };
enum class Verdict : std::uint8_t { met, partly, missed, not_asked };
std::string_view name_of(Aspect);
std::string_view name_of(Verdict);

struct AspectScore {
    Aspect aspect = Aspect::site;
    Verdict verdict = Verdict::not_asked;
    std::string why;                        // one or two plain sentences
    std::map<std::string, double> figures;  // rounded to their step before they are kept
    // partly or missed only because of that aspect's fault: no cause of its own
    std::optional<Aspect> follows_from;
};

// The error of one count taken apart. The terms sum to reported - true rate exactly (in their stated step).
struct Breakdown {
    double true_bpm = 0;  // R*, the baby's rate in the nominal window without rounding
    // rate of the heart that was followed less the baby's; 0 when the baby's
    double source = 0;
    double method = 0;  // whole beats only (quantisation)
    double watch = 0;   // own start and stop
    // first or last beat counted in or out; 0 unless known: then in the ear
    double fencepost = 0;
    double ear = 0;          // beats missed or extra; without taps the tally too
    double tally = 0;        // counted against tapped; 0 without taps
    double arithmetic = 0;   // written against counted x factor
    double unexplained = 0;  // when no count of beats was given: all of the rest
    double reported_bpm = 0;
    // arithmetic class: "", "forgot to multiply", "wrong factor", "other"
    std::string slip;
};

// The taps of one count laid on the beats that were followed. Only who taps every beat can be told this.
struct TapScore {
    int taps = 0;                            // bounce taken out
    int bounced = 0;                         // second taps within 60 ms of one, dropped
    std::vector<double> caught_s, missed_s;  // times of beats, labour time
    std::vector<double> extra_s;             // times of taps
    double missed_bpm = 0, extra_bpm = 0;    // the ear's term, in its two parts
    double distance = 0;                     // 0: each beat tapped exactly; beats + taps: none
    double shift_s = 0;                      // the lag at which taps and beats agree best, up to a whole beat
    std::optional<double> lag_s;             // middle of tap - beat over the caught; absent without any
    std::optional<double> jitter_s;          // root mean square about that middle; absent under two caught
    std::string follows;                     // whose beats they keep: "baby", "mother", "unclear"
};

struct WindowScore {
    double from_s = 0, to_s = 0;
    double plan_s = 60;
    int true_beats = 0;  // in the trainee's own window
    std::optional<int> counted;
    double true_bpm = 0;
    std::optional<int> reported_bpm;
    Breakdown terms;
    std::optional<TapScore> taps;  // when they tapped along
    // "", "both sounds" (of each beat), "every second beat": from the taps when there are any, else from the
    // ratio alone; of a rate without a count of beats "half the beats" or "double the beats", as a display
    // shows them
    std::string pattern;
    // the true rate is too near a limit for this method to settle the class
    bool boundary = false;
    std::string followed;  // whose beats these were: "baby", "mother", "nobody"
    // false: corrected or repeated later in the same listening, shown only
    bool judged = true;
};

// Why a term of this count cannot be known, in plain words; empty: it is known. The struct holds 0 there, the
// file nothing. Terms as named in `terms_in_order` (breakdown.h).
std::string_view term_absent(const WindowScore&, std::string_view term);

// Short counts one after another in one listening, judged together: indices into `windows`, both included.
struct SeriesScore {
    std::size_t first = 0, last = 0;
    double from_s = 0, to_s = 0;
    double plan_s = 0;         // of each count
    double own_s = 0;          // seconds counted in all, by their own starts and stops
    double longest_gap_s = 0;  // between two counts
    // count by count: as counted, and the beats of the same seconds
    std::vector<double> rates_bpm, true_rates_bpm;
    double error_beats = 0;          // counted less true, all together; whole when beats were written
    double largest_error_beats = 0;  // of one count, without its sign
    struct Shows {
        double per_minute_bpm = 0;  // the counts together
        double base_bpm = 0;        // what the fall is measured from
        double lowest_bpm = 0, highest_bpm = 0;
        double slowing_s = 0;  // from the first low count to the last; 0: no slowing
        bool after = false;    // it goes on after the contraction
    } shown, there;            // their numbers; the rates of the beats in the same seconds
    // each beat counted, by their own watch: a count run long reads high
    Shows faultless;
    bool fell = false;   // a slowing of the heart lay in these seconds, shown or not
    bool judged = true;  // false: not the baby's, or a later count stands
    std::size_t counts() const { return last - first + 1; }
};

// an expected act has one line, however many situations ask for it
struct ActScore {
    std::string act;                      // or the any-of group, joined by " or "
    std::string situation;                // the one whose time binds
    std::vector<std::string> situations;  // all that ask for it
    // in_time, late, not_done, unsafe, not_needed, out_of_scope, allowed; too_soon: done before there was
    // anything to answer; not_reached: its time had not run out at the end
    std::string verdict;
    bool critical = false;  // for one of them at least
    double known_from_s = 0, done_s = -1, within_s = 0;
    std::string source, conflict;
    // what answered it: "" = the act itself, chosen; "seen"; or another act's id
    std::string by{};
};

struct NextTime {  // one plain sentence each, the gravest first, at most five
    std::string says;
    double at_s = 0;  // place on the strip that can be heard again
};

struct ScoreSheet {
    std::vector<AspectScore> aspects;  // all nine, in the order of the enum
    std::vector<WindowScore> windows;
    std::vector<SeriesScore> series;
    std::vector<ActScore> acts;
    std::vector<std::string> critical_missed;
    std::vector<NextTime> next_time;
    std::optional<Aspect> primary;  // the aspect that names the cause, when something was missed
    bool finished = true;
    bool boundary = false;  // the scenario sits on a limit where protocols differ: never for pass marks
};

// What must not be missed and was, for the line above the advice: all but the unsafe acts, which the advice
// names one by one.
std::vector<std::string> critical_told_apart(const ScoreSheet&);

ScoreSheet judge(const Scenario&, const Protocol&, const Played&);

std::string to_json(const ScoreSheet&);  // canonical order, figures rounded; equal text = equal score

}  // namespace engine
