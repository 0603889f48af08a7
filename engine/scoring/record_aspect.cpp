// The line on the labour chart and the referral note: judged for what they hold, never for how it is put.
#include "engine/scoring/aspects.h"
#include "engine/scoring/contractions_written.h"
#include "engine/scoring/referral_note.h"
#include "engine/scoring/which_count.h"
#include "engine/scoring/written_words.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

constexpr double look_s = 10;
constexpr int pulse_right_bpm = 8;  // two beats of a 15 s count

class RecordJudge {
public:
    RecordJudge(const Evidence& e, const ScoreSheet& so_far) : e_(e), so_far_(so_far) {}

    AspectScore judge() {
        if (e_.played.records.empty()) {
            a_.verdict = Verdict::missed;
            a_.why = "Nothing was written on the chart.";
            add_contractions(e_, a_);
            return std::move(a_);
        }
        a_.verdict = Verdict::met;
        const TimedRecord& last = e_.played.records.back();
        rate(last);
        two_rates();
        her_pulse(last.event);
        rest_of_line(last);
        if (e_.done_at("arrange_transfer").us >= 0) note();
        a_.figures["lines"] = static_cast<double>(e_.played.records.size());
        a_.figures["at_s"] = last.at.seconds();
        if (!there_.empty() && !lacking_.empty())
            say(Verdict::partly,
                fmt::format("On the chart stand {}; {} {} missing.", in_a_row(there_), in_a_row(lacking_),
                            lacking_.size() == 1 ? "is" : "are"),
                lacks_from_);
        else if (!lacking_.empty())
            say(Verdict::partly,
                fmt::format("On the chart {} {} missing.", in_a_row(lacking_),
                            lacking_.size() == 1 ? "is" : "are"),
                lacks_from_);
        if (a_.why.empty()) a_.why = "The line on the chart is complete: " + in_a_row(there_) + ".";
        if (!note_says_.empty()) a_.why += " " + note_says_;
        add_contractions(e_, a_);
        return std::move(a_);
    }

private:
    void say(Verdict v, const std::string& why, std::optional<Aspect> follows = std::nullopt) {
        if (worse(a_.verdict, v) != a_.verdict) a_.follows_from = follows;
        a_.verdict = worse(a_.verdict, v);
        a_.why += (a_.why.empty() ? "" : " ") + why;
    }
    std::optional<Aspect> if_faulty(Aspect aspect) const {
        return faulty(so_far_, aspect) ? std::optional<Aspect>(aspect) : std::nullopt;
    }
    bool whole_labour() const {
        return e_.scenario.task == Task::pattern || e_.scenario.task == Task::labour;
    }

    void hold(const char* what, bool is_there) { (is_there ? there_ : lacking_).emplace_back(what); }

    void rate(const TimedRecord& last) {
        const Event& line = last.event;
        if (!heart_beats(e_.played)) {
            if (line.bpm)
                say(Verdict::missed,
                    fmt::format("{} was written where no baby's heart was to be heard.", *line.bpm),
                    if_faulty(Aspect::whose));
            return;
        }
        if (!line.bpm) {
            if (!e_.scenario.place.watch) return;  // whose heart it was can be written; a rate cannot
            if (faulty(so_far_, Aspect::site) && e_.windows.empty()) lacks_from_ = Aspect::site;
            hold("the rate", false);
            return;
        }
        const CountedWindow* w = last_counted(e_, last.at);
        if (!w) {
            say(Verdict::partly, fmt::format("{} was written without a count.", *line.bpm),
                if_faulty(Aspect::window));
            return;
        }
        there_.emplace_back("the rate");
        const double own = *w->own_bpm();
        const double off = std::fabs(*line.bpm - own);
        if (w->score.plan_s < look_s)
            say(Verdict::missed,
                of_count(e_, *w) + fmt::format("A look of {:.0f} s is never a record.", w->score.plan_s),
                if_faulty(Aspect::window));
        else if (off > count_tolerance_bpm(*w) && is_her_pulse(*line.bpm))
            hers_written(*line.bpm, own, *w);
        else if (off > 1 && !matches_another_count(*line.bpm) && !matches_series(*line.bpm, last.at))
            say(Verdict::partly, fmt::format("You wrote {}; {} gave {:.0f}.", *line.bpm,
                                             which_count(e_, *w, "your count"), own));
        if (w->recognised)
            say(Verdict::missed, of_count(e_, *w) + "The mother's beat was written as the baby's.",
                Aspect::whose);
        else if (w->score.followed == "mother" && faulty(so_far_, Aspect::whose))
            say(Verdict::partly, of_count(e_, *w) + "The number written is the mother's.", Aspect::whose);
        else if (w->score.followed == "nobody" && faulty(so_far_, Aspect::site))
            say(Verdict::partly,
                of_count(e_, *w) + "That number was counted where the baby was not to be heard.",
                Aspect::site);
    }

    void hers_written(int bpm, double own, const CountedWindow& w) {
        a_.figures["her_pulse_written"] = bpm;
        say(Verdict::missed, fmt::format("{} is her pulse; {} gave {:.0f} for the baby.", bpm,
                                         which_count(e_, w, "your count"), own));
    }
    bool is_her_pulse(int bpm) const {
        return std::any_of(e_.played.pulse_reports.begin(), e_.played.pulse_reports.end(),
                           [&](const PulseReport& r) { return std::abs(r.bpm - bpm) <= 1; });
    }
    // Of short counts in a row, what they make together.
    bool matches_series(int bpm, sim::LabourTime by) const {
        return std::any_of(e_.series.begin(), e_.series.end(), [&](const SeriesScore& s) {
            return s.to_s <= by.seconds() && std::fabs(s.shown.per_minute_bpm - bpm) <= 1;
        });
    }
    // Of twins either may stand on the last line.
    bool matches_another_count(int bpm) const {
        return e_.played.patient.babies.size > 1 &&
               std::any_of(e_.windows.begin(), e_.windows.end(), [&](const CountedWindow& w) {
                   return w.own_bpm() && std::fabs(*w.own_bpm() - bpm) <= 1;
               });
    }

    // Twins, both counted: two rates belong on the chart, on a line each or told in one; never one for two,
    // nor a mean.
    void two_rates() {
        if (e_.played.patient.babies.size < 2) return;
        const CountedWindow* first = last_counted(e_, e_.played.end, 0);
        const CountedWindow* second = last_counted(e_, e_.played.end, 1);
        if (!first || !second) return;
        std::vector<double> written;
        for (const TimedRecord& r : e_.played.records) {
            if (r.event.bpm) written.push_back(*r.event.bpm);
            for (const WrittenNumber& n : rates_written(r.event.done)) written.push_back(n.value);
        }
        for (const Event& n : e_.played.notes)
            for (const WrittenNumber& number : rates_written(n.text)) written.push_back(number.value);
        const double one = *first->own_bpm(), two = *second->own_bpm(), mean = (one + two) / 2;
        // A number stands for the baby whose count it is nearer to, never for both.
        const auto stands = [&](double own, double other, double tolerance) {
            return std::any_of(written.begin(), written.end(), [&](double bpm) {
                return std::fabs(bpm - own) <= tolerance && std::fabs(bpm - own) < std::fabs(bpm - other);
            });
        };
        if (stands(one, two, count_tolerance_bpm(*first)) && stands(two, one, count_tolerance_bpm(*second))) {
            there_.emplace_back("two rates for two babies");
            return;
        }
        a_.figures["one_rate_for_two"] = 1;
        if (std::any_of(written.begin(), written.end(), [&](double bpm) {
                return std::fabs(bpm - mean) <= 2 && std::fabs(bpm - one) > 2 && std::fabs(bpm - two) > 2;
            })) {
            say(Verdict::missed,
                fmt::format("A mean of two hearts is nobody's rate: you counted {:.0f} and {:.0f}.", one,
                            two));
            return;
        }
        say(Verdict::partly,
            fmt::format("One rate was written for two babies: you counted {:.0f} and {:.0f}.", one, two));
    }

    void her_pulse(const Event& line) {
        if (line.pulse_bpm) {
            there_.emplace_back("her pulse");
            const auto& counted = e_.played.pulse_reports;
            if (!counted.empty() && std::none_of(counted.begin(), counted.end(), [&](const PulseReport& r) {
                    return std::abs(r.bpm - *line.pulse_bpm) <= pulse_right_bpm;
                }))
                say(Verdict::partly, fmt::format("Her pulse stands as {} on the chart; you counted {}.",
                                                 *line.pulse_bpm, counted.back().bpm));
            return;
        }
        if (e_.protocol.pulse_at_first_listening && (whole_labour() || !e_.played.pulse_reports.empty()))
            hold("her pulse", false);
    }

    void rest_of_line(const TimedRecord& last) {
        const Event& line = last.event;
        if (whole_labour() || !line.when.empty()) hold("when against the contraction", !line.when.empty());
        if (whole_labour() && heart_beats(e_.played)) hold("whether it slowed", !line.slowing.empty());
        slowing_as_decided(last);
        const bool saw_trouble = std::any_of(e_.own_situations.begin(), e_.own_situations.end(),
                                             [](const std::string& s) { return s != "normal"; });
        if (e_.scenario.task == Task::labour && e_.picture.level > Level::green && saw_trouble)
            hold("what was done", !line.done.empty());
        else if (!line.done.empty())
            there_.emplace_back("what was done");
    }

    // The chart says what was decided: whoever reads it next has nothing else.
    void slowing_as_decided(const TimedRecord& last) {
        const StandingDecision* before = nullptr;
        for (const StandingDecision& d : e_.decisions)
            if (d.said.at <= last.at) before = &d;
        if (!before || last.event.slowing != "no") return;
        const Around said = before->said.decision.around;
        if (said == Around::slow_after_contraction || said == Around::stays_down)
            say(Verdict::partly, "You decided that it slows, and wrote that it did not.");
    }

    void note() {
        const Event* handed = nullptr;
        for (const Event& n : e_.played.notes)
            if (n.what == Do::handover) handed = &n;
        if (!handed) {
            say(Verdict::partly, e_.done_at("write_referral_note").us >= 0
                                     ? "The referral note was named, and nothing stands in it."
                                     : "She goes without a referral note.");
            return;
        }
        ReferralNote note = referral_note(e_, *handed);
        const auto asked = static_cast<double>(note.there.size() + note.lacking.size());
        if (note.mothers_as_babys_bpm)
            say(Verdict::missed,
                fmt::format("The referral note gives her pulse, {:.0f}, as the baby's heart.",
                            *note.mothers_as_babys_bpm),
                if_faulty(Aspect::whose));
        else if (note.other_than_counted) {
            say(Verdict::partly,
                fmt::format("The referral note gives {:.0f} as the baby's heart; your count gave {:.0f}.",
                            note.other_than_counted->given_bpm, note.other_than_counted->counted_bpm));
            std::erase(note.lacking, "the rate");
        }
        if (!note.lacking.empty())
            say(Verdict::partly,
                note.there.empty()
                    ? fmt::format("In the referral note {} {} not found.", in_a_row(note.lacking),
                                  note.lacking.size() == 1 ? "was" : "were")
                    : fmt::format("In the referral note stand {}; {} {} not found in it.",
                                  in_a_row(note.there), in_a_row(note.lacking),
                                  note.lacking.size() == 1 ? "was" : "were"));
        else if (!note.mothers_as_babys_bpm && !note.other_than_counted)
            note_says_ = "The referral note has what the next hands need: " + in_a_row(note.there) + ".";
        a_.figures["note_has"] = static_cast<double>(note.there.size());
        a_.figures["note_asked"] = asked;
    }

    const Evidence& e_;
    const ScoreSheet& so_far_;
    AspectScore a_{Aspect::record, Verdict::not_asked, {}, {}, {}};
    std::vector<std::string> there_, lacking_;
    std::optional<Aspect> lacks_from_;
    std::string note_says_;
};

}  // namespace

AspectScore judge_record(const Evidence& e, const ScoreSheet& so_far) {
    return RecordJudge(e, so_far).judge();
}

}  // namespace engine
