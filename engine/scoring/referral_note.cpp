#include "engine/scoring/referral_note.h"

#include "engine/scoring/written_words.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <string_view>

namespace engine {

namespace {

using std::string_view;
using Stems = std::initializer_list<string_view>;
using Of = WrittenNumber::Of;

constexpr double count_right_beats = 2, count_right_bpm = 5;  // [practice]
constexpr double pulse_right_bpm = 8;                         // two beats of a 15 s count
constexpr double same_number_bpm = 2;

bool names(const std::string& text, Stems stems) { return names_one(text, {stems.begin(), stems.size()}); }

// How an act is told in a note, besides the words on its button.
struct ActTold {
    string_view act;
    Stems stems;
};
// Measures: what was tried, not who was called.
const ActTold measures[] = {
    {"off_her_back", {"turn", "left", "right side", "side", "off her back", "propped", "hands and knees"}},
    {"upright_to_push", {"upright", "squat", "stand"}},
    {"knees_chest_hips_up", {"knee", "hips up", "hips raised"}},
    {"stop_oxytocin", {"drip", "oxytocin", "stopped"}},
    {"lift_the_part", {"lift", "held", "hold", "fingers", "off the cord"}},
    {"look_for_cord", {"cord", "looked", "vulva"}},
    {"check_waters", {"water", "liquor", "membrane", "meconium", "green", "clear"}},
    {"check_bleeding", {"blood", "bleed", "pad"}},
    {"take_temperature", {"temp", "degree", "fever", "hot"}},
    {"take_blood_pressure", {"pressure", "bp"}},
    {"start_drip", {"drip", "fluid", "iv", "line"}},
    {"give_oxygen", {"oxygen", "mask", "o2"}},
    {"cool_her", {"cool", "cover", "fever medicine"}},
    {"give_antibiotics_by_protocol", {"antibiotic"}},
    {"pause_pushing", {"push", "breath"}},
    {"push_with_contractions", {"push"}},
    {"assist_birth_now", {"vacuum", "forceps", "birth"}},
    {"prepare_newborn_help", {"bag", "newborn", "warm"}},
    {"hold_and_ask_prescriber", {"dose", "medicine", "tablet", "held"}},
    {"ask_what_was_given", {"given", "medicine", "tablet", "herb", "injection", "taken"}},
    {"examine_inside", {"cm", "open", "examin", "dilat", "head"}},
    {"empty_bladder", {"bladder", "urine"}},
    {"fill_bladder", {"bladder"}},
    {"offer_drink", {"drink", "drank"}},
    {"second_listener", {"colleague", "second", "both of us", "together"}},
    {"listen_more_often", {"every contraction", "each contraction", "listen"}},
};

// The next hands ask what was tried; any one measure that is told will do, for the chart has the rest.
bool tells_what_was_tried(const Evidence& e, sim::LabourTime until, const std::string& text,
                          bool& anything_done) {
    bool told = false;
    const std::string done_by_it = without_denials(text);
    constexpr std::array<string_view, 8> looks = {
        "look_for_cord",       "check_waters",       "check_bleeding", "take_temperature",
        "take_blood_pressure", "ask_what_was_given", "examine_inside", "second_listener"};
    for (const ActTold& m : measures) {
        const sim::LabourTime done = e.done_at(m.act);
        if (done.us < 0 || done > until) continue;
        anything_done = true;
        // "No cord" tells that somebody looked; "not turned" tells of nothing.
        const bool look = std::find(looks.begin(), looks.end(), m.act) != looks.end();
        told = told || names(look ? text : done_by_it, m.stems);
    }
    return told;
}

bool holds_rate(const std::vector<WrittenNumber>& numbers, double bpm, double tolerance) {
    return std::any_of(numbers.begin(), numbers.end(), [&](const WrittenNumber& n) {
        return n.of != Of::mother && n.to - n.value <= 20 && bpm >= n.value - tolerance &&
               bpm <= n.to + tolerance;
    });
}

class NoteReader {
public:
    NoteReader(const Evidence& e, const Event& note) : e_(e), note_(note) {
        for (const std::string* part : {&note.situation, &note.background, &note.assessment, &note.request}) {
            text_ += *part + ".\n";
        }
        numbers_ = rates_written(text_);
    }

    ReferralNote read() {
        rates();
        want("when it was heard against the contraction",
             names(text_, {"contr", "ctx", "pain", "push", "tighten", "between", "peak"}) ||
                 names_time_of_day(text_));
        pulse();
        want("for how long", names_length_of_time(text_) || names_time_of_day(text_));
        bool anything_done = false;
        const bool tried = tells_what_was_tried(e_, note_.t, text_, anything_done);
        if (anything_done) want("what was tried", tried);
        want("what is asked for",
             (!note_.request.empty() && !without_denials(note_.request).empty()) ||
                 names(without_denials(text_),
                       {"please", "ask", "need", "request", "want", "send", "come", "advise", "be ready"}));
        return std::move(holds_);
    }

private:
    void want(const char* what, bool is_there) {
        (is_there ? holds_.there : holds_.lacking).emplace_back(what);
    }

    void rates() {
        if (!heart_beats(e_.played)) {
            want("that the heart was not found",
                 names(text_, {"not found", "no heart", "cannot", "can not", "could not", "not hear",
                               "no fetal", "no fh", "absent", "lost"}));
            return;
        }
        const bool twins = e_.played.patient.babies.size > 1;
        const CountedWindow* first = last_counted(e_, note_.t, 0);
        const CountedWindow* second = twins ? last_counted(e_, note_.t, 1) : nullptr;
        const CountedWindow* last = last_counted(e_, note_.t);
        if (!last) return;  // without a count there is no rate to pass on
        if (twins && first && second) {
            want("both rates", holds_rate(numbers_, *first->own_bpm(), count_tolerance_bpm(*first)) &&
                                   holds_rate(numbers_, *second->own_bpm(), count_tolerance_bpm(*second)));
        } else {
            want("the rate", holds_rate(numbers_, *last->own_bpm(), count_tolerance_bpm(*last)));
        }
        wrong_number(*last);
    }

    // A number called the baby's that is hers, or that nobody counted.
    void wrong_number(const CountedWindow& last) {
        const double hers = to_pulse();
        for (const WrittenNumber& n : numbers_) {
            if (n.of != Of::baby || n.fall || n.to > n.value) continue;
            const bool is_hers = hers > 0 && std::fabs(n.value - hers) <= same_number_bpm;
            const bool counted =
                std::any_of(e_.windows.begin(), e_.windows.end(), [&](const CountedWindow& w) {
                    return w.own_bpm() && w.score.followed != "mother" &&
                           std::fabs(n.value - *w.own_bpm()) <= count_tolerance_bpm(w);
                });
            if (counted) continue;
            if (is_hers)
                holds_.mothers_as_babys_bpm = n.value;
            else if (e_.played.patient.babies.size == 1 &&
                     !holds_rate(numbers_, *last.own_bpm(), count_tolerance_bpm(last)))
                holds_.other_than_counted = {n.value, *last.own_bpm()};
        }
        const bool baby_named = std::any_of(numbers_.begin(), numbers_.end(), [](const WrittenNumber& n) {
            return n.of == Of::baby && !n.fall;
        });
        if (last.score.followed == "mother" &&
            std::any_of(numbers_.begin(), numbers_.end(), [&](const WrittenNumber& n) {
                return (n.of == Of::baby || (n.of == Of::nobody && !baby_named)) && !n.fall &&
                       std::fabs(n.value - *last.own_bpm()) <= same_number_bpm;
            }))
            holds_.mothers_as_babys_bpm = *last.own_bpm();
    }

    // Her pulse as she counted it, else as it was; 0: never felt.
    double to_pulse() const {
        for (auto r = e_.played.pulse_reports.rbegin(); r != e_.played.pulse_reports.rend(); ++r)
            if (r->at <= note_.t) return r->bpm;
        for (auto r = e_.played.records.rbegin(); r != e_.played.records.rend(); ++r)
            if (r->at <= note_.t && r->event.pulse_bpm) return *r->event.pulse_bpm;
        return 0;
    }

    void pulse() {
        const double hers = to_pulse();
        if (hers <= 0) return;
        want("her pulse", std::any_of(numbers_.begin(), numbers_.end(), [&](const WrittenNumber& n) {
                 return n.of != Of::baby && !n.fall && std::fabs(n.value - hers) <= pulse_right_bpm;
             }));
    }

    const Evidence& e_;
    const Event& note_;
    std::string text_;
    std::vector<WrittenNumber> numbers_;
    ReferralNote holds_;
};

}  // namespace

ReferralNote referral_note(const Evidence& e, const Event& note) { return NoteReader(e, note).read(); }

std::string in_a_row(const std::vector<std::string>& words) {
    std::string s;
    for (std::size_t i = 0; i < words.size(); ++i)
        s += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
    return s;
}

double count_tolerance_bpm(const CountedWindow& w) {
    return std::max(count_right_beats * w.factor, count_right_bpm);
}

const CountedWindow* last_counted(const Evidence& e, sim::LabourTime t, std::optional<int> baby) {
    const CountedWindow* last = nullptr;
    for (const CountedWindow& w : e.windows)
        if (w.window->to <= t && w.own_bpm() && (!baby || w.site.baby == *baby)) last = &w;
    return last;
}

}  // namespace engine
