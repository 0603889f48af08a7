#include "engine/scoring/situations.h"

#include "engine/scoring/steps.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace engine {

namespace {

constexpr double too_many_per_10min = 5;                        // more than this: NICHD 2008, WHO labour care guide 2020 [both second-hand]
constexpr int odd_beats_heard = 3;                              // [practice]
constexpr double contraction_end_slack_s = 3;                   // a hand notices the end this late [practice]

std::string bpm_word(double v) { return fmt::format("{:.1f}", v); }

// Walks the ticks somebody heard of one baby, spell by spell.
template <typename Visit>
void for_heard_ticks(const std::vector<HeardPiece>& heard, int baby, sim::LabourTime from, sim::LabourTime to,
                     Visit visit) {
    for (const HeardPiece& h : heard) {
        if (!has_baby(h.what) || h.baby != baby) continue;
        const std::int64_t a = std::max(h.from.us, from.us), b = std::min(h.to.us, to.us);
        const std::int64_t first = (a + sim::course_tick_us - 1) / sim::course_tick_us * sim::course_tick_us;
        for (std::int64_t t = first; t < b; t += sim::course_tick_us) visit(sim::LabourTime{t}, h.spell);
    }
}

// First moment at which `holds` was heard for `needed` in one spell.
template <typename Holds>
std::optional<sim::LabourTime> heard_for(const std::vector<HeardPiece>& heard, int baby, sim::LabourTime from,
                                         sim::LabourTime to, sim::Seconds needed, Holds holds) {
    std::optional<sim::LabourTime> at;
    std::int64_t sum = 0;
    int spell = -1;
    for_heard_ticks(heard, baby, from, to, [&](sim::LabourTime t, int s) {
        if (at) return;
        if (s != spell) sum = 0;
        spell = s;
        if (holds(t)) sum += sim::course_tick_us;
        if (sum >= sim::labour_time(needed).us) at = sim::LabourTime{t.us + sim::course_tick_us};
    });
    return at;
}

class Painter {
public:
    Painter(const Scenario& scenario, const Protocol& protocol, const Played& played, const Listened& listened,
            sim::LabourTime from, sim::LabourTime to)
        : scenario_(scenario), protocol_(protocol), played_(played), listened_(listened), from_(from), to_(to) {}

    Picture paint() {
        for (int b = 0; b < played_.patient.babies.size && b < 2; ++b) {
            falls_[static_cast<std::size_t>(b)] = slowings(protocol_, played_, b);
            if (played_.patient.babies[b].heart_beats) one_baby(b);
        }
        nobody_there();
        source();
        findings();
        contractions();
        story();
        position_and_birth();
        finish();
        return std::move(picture_);
    }

private:
    void know(std::string_view situation, sim::LabourTime at, std::string why) {
        for (Known& k : picture_.known)
            if (k.situation == situation) {
                if (at < k.from) k.from = at;
                return;
            }
        picture_.known.push_back({std::string(situation), at, std::move(why)});
    }

    double base(int baby, sim::LabourTime t) const {
        return tick_at(played_, t).fhr_base_bpm[static_cast<std::size_t>(baby)];
    }

    void one_baby(int b) {
        const auto i = static_cast<std::size_t>(b);
        const auto& falls = falls_[i];
        double sum = 0, sum_fallen = 0;
        int n = 0, fallen = 0;
        for_heard_ticks(listened_.heard, b, from_, to_, [&](sim::LabourTime t, int) {
            const bool down = lasting_fall_bpm(played_, b, t) >= protocol_.slowing_depth.value;
            (down ? sum_fallen : sum) += base(b, t);
            ++(down ? fallen : n);
        });
        picture_.heard_s[i] = static_cast<double>(n + fallen) * 0.25;
        if (n + fallen == 0) return;
        // A fall that lasts ten minutes is a change of baseline (NICHD 2008); a shorter one is a slowing.
        const bool changed = n == 0 || static_cast<double>(fallen) * 0.25 >= 600;
        picture_.baseline_bpm[i] = to_thousandth(changed ? sum_fallen / fallen : sum / n);
        recent(b, falls);
        rates(b);
        around(b, falls);
        rhythm(b);
    }

    void recent(int b, const std::vector<Slowing>& falls) {
        const auto i = static_cast<std::size_t>(b);
        std::vector<double> rates;
        std::vector<bool> down;
        for_heard_ticks(listened_.heard, b, from_, to_, [&](sim::LabourTime t, int) {
            rates.push_back(base(b, t));
            down.push_back(lasting_fall_bpm(played_, b, t) >= protocol_.slowing_depth.value ||
                           std::any_of(falls.begin(), falls.end(), [&](const Slowing& s) {
                               return s.contraction < 0 && s.from <= t && t <= s.deep_until;
                           }));
        });
        const auto wanted = static_cast<std::size_t>(protocol_.baseline_needs.value * 4);
        const std::size_t first = rates.size() > wanted ? rates.size() - wanted : 0;
        double sum = 0;
        int fallen = 0;
        for (std::size_t k = first; k < rates.size(); ++k) {
            sum += rates[k];
            if (down[k]) ++fallen;
        }
        picture_.recent_bpm[i] = to_thousandth(sum / static_cast<double>(rates.size() - first));
        picture_.down_at_end[i] = fallen >= 60;
    }

    // Neither falling nor coming back: within 2 bpm of half a minute before [practice].
    bool steady(int b, sim::LabourTime t) const {
        return t.us >= 30'000'000 && std::fabs(base(b, t) - base(b, {t.us - 30'000'000})) < 2;
    }

    void rates(int b) {
        const auto hears = [&](auto holds) {
            return heard_for(listened_.heard, b, from_, to_, protocol_.baseline_needs, holds);
        };
        const auto kind = [&](sim::LabourTime t) { return classify(protocol_, sim::Bpm{to_thousandth(base(b, t))}); };
        const double red = protocol_.red_below.value;
        if (const auto at = hears([&](sim::LabourTime t) { return kind(t) == BaselineClass::fast; }))
            know("fast", *at, fmt::format("The settled rate is {}, above {:.0f}.", bpm_word(base(b, {at->us - 1})),
                                          protocol_.high.bpm.value));
        if (const auto at = hears([&](sim::LabourTime t) { return kind(t) == BaselineClass::slow && base(b, t) < red; }))
            know("slow", *at, fmt::format("The settled rate is {}, below {:.0f}.", bpm_word(base(b, {at->us - 1})), red));
        else if (const auto low = hears([&](sim::LabourTime t) {
                     return kind(t) == BaselineClass::slow && steady(b, t);
                 }))
            know("slow_steady", *low, fmt::format("The settled rate is {}, below {:.0f}.",
                                                     bpm_word(base(b, {low->us - 1})), protocol_.low.bpm.value));
        // Held: heard outside at both ends of the protocol's persistence, or over its contractions.
        std::int64_t first_out = -1, last_out = -1;
        for_heard_ticks(listened_.heard, b, from_, to_, [&](sim::LabourTime t, int) {
            if (kind(t) == BaselineClass::normal) return;
            if (first_out < 0) first_out = t.us;
            last_out = t.us;
        });
        if (first_out >= 0 && last_out - first_out >= sim::labour_time(protocol_.persistence).us) rate_held_ = true;
        const double start = rate_at_start(b);
        if (const auto at = hears([&](sim::LabourTime t) {
                return kind(t) == BaselineClass::normal && base(b, t) - start >= protocol_.rising_by.value;
            }))
            know("rising", *at, fmt::format("The settled rate is {}, {:.1f} above {} when labour began.",
                                            bpm_word(base(b, {at->us - 1})), base(b, {at->us - 1}) - start, bpm_word(start)));
        if (const auto at = hears([&](sim::LabourTime) { return true; })) {
            if (!enough_ || *at < *enough_) enough_ = *at;
        }
    }

    double rate_at_start(int b) const {
        double start = played_.course.empty() ? 0 : played_.course.front().fhr_base_bpm[static_cast<std::size_t>(b)];
        double ago = 0;
        for (const ChartLine& line : scenario_.chart)
            if (line.bpm > 0 && line.minutes_ago > ago) {
                ago = line.minutes_ago;
                start = line.bpm;
            }
        return start;
    }

    bool covered(int b, sim::LabourTime a, sim::LabourTime z) const {
        std::int64_t us = 0;
        for (const HeardPiece& h : listened_.heard)
            if (has_baby(h.what) && h.baby == b)
                us += std::max<std::int64_t>(0, std::min(h.to.us, z.us) - std::max(h.from.us, a.us));
        return us + 2'000'000 >= z.us - a.us;
    }

    void around(int b, const std::vector<Slowing>& falls) {
        AroundHeard& around = picture_.around[static_cast<std::size_t>(b)];
        const std::int64_t on = sim::labour_time(protocol_.rule_for(scenario_.labour.stage).after_end).us;
        const std::int64_t slack = sim::labour_time(sim::Seconds{contraction_end_slack_s}).us;
        for (std::size_t c = 0; c < played_.contractions.size(); ++c) {
            const Contraction& womb = played_.contractions[c];
            const sim::LabourTime until{womb.to.us + on};
            if (!womb.ended || until > to_ || womb.to.us + slack < from_.us) continue;
            if (!covered(b, {womb.to.us + slack}, until)) continue;
            ++around.listened_through;
            bool in = false, after = false;
            for (const Slowing& s : falls) {
                if (s.contraction != static_cast<int>(c)) continue;
                (s.after ? after : in) = true;
            }
            if (after && around.slow_after++ == 0) around.slow_after_known = until;
            if (in && !after && covered(b, womb.peak, until)) ++around.slow_in;
        }
        if (around.slow_after > 0)
            know("slow_after_contraction", around.slow_after_known,
                 fmt::format("Still at least {:.0f} below the settled rate after the end of {} of {} contractions "
                             "listened through.", protocol_.slowing_depth.value, around.slow_after,
                             around.listened_through));
        picture_.over_half = picture_.over_half || around.over_half();
        stays_down(b, falls, around);
    }

    void stays_down(int b, const std::vector<Slowing>& falls, AroundHeard& around) {
        constexpr std::int64_t never = -1, lost_touch_us = 60'000'000;
        std::int64_t first = never, last = never;
        for_heard_ticks(listened_.heard, b, from_, to_, [&](sim::LabourTime t, int) {
            if (!fallen_at(protocol_, played_, falls, b, t)) {
                first = never;
                return;
            }
            if (first == never || t.us - last > lost_touch_us) first = t.us;
            last = t.us;
            if (!fall_heard_) fall_heard_ = t;
            if (!around.stays_down && t.us - first >= sim::labour_time(protocol_.stays_down).us) {
                around.stays_down = true;
                around.stays_down_known = t;
            }
        });
        if (const auto sure = heard_for(listened_.heard, b, from_, to_, protocol_.baseline_needs, [&](sim::LabourTime t) {
                return fallen_at(protocol_, played_, falls, b, t);
            }))
            fall_sure_ = *sure;
        if (around.stays_down)
            know("stays_down", around.stays_down_known,
                 fmt::format("A fall that had not come back after {:.0f} s.", protocol_.stays_down.value));
    }

    void rhythm(int b) {
        int odd = 0;
        sim::LabourTime third{};
        for (const sim::Beat& beat : heart_of(played_, b)) {
            if (beat.kind == sim::BeatKind::normal) continue;
            const sim::LabourTime t{beat.at_us};
            if (t < from_ || t >= to_) continue;
            for (const HeardPiece& h : listened_.heard)
                if (has_baby(h.what) && h.baby == b && h.from <= t && t < h.to) {
                    if (++odd == odd_beats_heard) third = t;
                    break;
                }
        }
        picture_.odd_beats[static_cast<std::size_t>(b)] = odd;
        if (odd >= odd_beats_heard)
            know("irregular", third, fmt::format("{} early or missing beats were to be heard.", odd));
    }

    void nobody_there() {
        if (heart_beats(played_)) return;
        for (const HeardPiece& h : listened_.heard)
            if (h.from < to_ && h.to > from_) {
                know("not_found", std::max(h.from, from_), "No fetal heart is to be heard anywhere.");
                return;
            }
    }

    void source() {
        const std::int64_t long_enough = sim::labour_time(protocol_.pulse_felt_for).us;
        for (const HeardPiece& h : listened_.heard) {
            const sim::LabourTime a = std::max(h.from, from_), z = std::min(h.to, to_);
            if (h.what == HeardWhat::mother && heart_beats(played_) && z.us - a.us >= long_enough)
                know("mothers_pulse", {a.us + long_enough},
                     fmt::format("At this place the mother's beat ({:.0f}) is louder than the baby's.",
                                 tick_at(played_, a).mhr_bpm));
        }
        for (int b = 0; b < played_.patient.babies.size && b < 2; ++b) {
            // A baby followed down past the mother's rate is still that baby.
            const auto near = [&](sim::LabourTime t) {
                return lasting_fall_bpm(played_, b, t) < protocol_.slowing_depth.value &&
                       std::fabs(base(b, t) - tick_at(played_, t).mhr_bpm) <= protocol_.near_pulse.value;
            };
            if (!played_.patient.babies[b].heart_beats) continue;
            if (const auto at = heard_for(listened_.heard, b, from_, to_, protocol_.baseline_needs, near))
                know("source_doubtful", *at, fmt::format("Baby and mother are within {:.0f} of each other.",
                                                         protocol_.near_pulse.value));
        }
    }

    void findings() {
        for (const Revealed& r : listened_.found)
            if (!r.situation.empty() && r.at < to_) {
                const auto before = std::find_if(picture_.known.begin(), picture_.known.end(),
                                                 [&](const Known& k) { return k.situation == r.situation; });
                if (before != picture_.known.end() && before->why.find(r.says) == std::string::npos)
                    before->why += " " + r.says;
                know(r.situation, r.at, "Found: " + r.says);
            }
        if (scenario_.labour.waters != Waters::thick_green) return;
        const bool hidden = std::any_of(scenario_.findings.begin(), scenario_.findings.end(),
                                        [](const Finding& f) { return f.situation == "thick_green_waters"; });
        if (!hidden) know("thick_green_waters", first_heard(), "The waters are thick and green.");
    }

    // Truth first (too many there are), then when this person could know it: hand on the womb, or their own report.
    void contractions() {
        double per_10min = 0;
        const double span_s = std::min(to_.seconds(), played_.end.seconds()) - from_.seconds();
        if (span_s < 300) return;
        int n = 0;
        for (const Contraction& c : played_.contractions)
            if (c.peak >= from_ && c.peak < to_) ++n;
        per_10min = n * 600.0 / span_s;
        if (per_10min <= too_many_per_10min) return;
        std::optional<sim::LabourTime> at;
        if (listened_.throughout) at = sim::LabourTime{from_.us + std::min<std::int64_t>(600'000'000, to_.us - from_.us)};
        for (const TimedAct& a : played_.acts)
            if (a.id == "count_contractions" && (!at || a.done_at < *at)) at = a.done_at;
        for (const Event& e : played_.notes)
            if (e.what == Do::report_contractions && e.per_10min.value_or(0) > too_many_per_10min && (!at || e.t < *at))
                at = e.t;
        if (at && *at < to_)
            know("too_many_contractions", *at, fmt::format("{:.1f} contractions in ten minutes.", to_tenth(per_10min)));
    }

    static bool is_rate(std::string_view s) { return s == "fast" || s == "slow_steady"; }

    sim::LabourTime first_heard() const {
        for (const HeardPiece& h : listened_.heard)
            if (h.to > from_) return std::max(h.from, from_);
        return from_;
    }

    void story() {
        const sim::LabourTime start = first_heard();
        const sim::Patient& p = played_.patient;
        if (p.babies.size > 1) know("twins", start, "There are two babies.");
        if (const auto at = not_head_down_known(start))
            know("not_head_down", *at, p.babies[0].presentation == sim::Presentation::breech
                                             ? "The baby lies bottom down."
                                             : "The baby lies across.");
        std::string why;
        sim::LabourTime since = start;
        if (p.gestation_weeks < 37) why = "before 37 weeks";
        else if (p.gestation_weeks > 41 + 3.0 / 7 + 1e-9) why = "past 41 weeks and 3 days";
        else if (p.babies.size > 1) why = "twins";
        else if (scenario_.labour.scar) why = "a scar on the womb";
        else if (p.labour.oxytocin_drip) why = "a drip that makes contractions";
        for (std::string_view s : {"thick_green_waters", "fever", "bleeding"})
            if (why.empty() && picture_.has(s)) {
                why = s == "fever" ? "fever" : s == "bleeding" ? "bleeding" : "thick green waters";
                since = picture_.find(s)->from;  // not before it was found
            }
        if (!why.empty())
            know("listening_alone_not_enough", since, "Listening now and then is not enough here: " + why + ".");
    }

    // A heart loudest above the navel at term means a bottom below it (A Book for Midwives 2010); lying across is felt.
    std::optional<sim::LabourTime> not_head_down_known(sim::LabourTime start) const {
        const sim::Patient& p = played_.patient;
        if (p.babies.size != 1 || p.babies[0].presentation == sim::Presentation::head) return std::nullopt;
        if (listened_.throughout || p.babies[0].presentation == sim::Presentation::across) return start;
        for (const HeardPiece& h : listened_.heard)
            if (has_baby(h.what) && h.to > from_ && h.from < to_ &&
                static_cast<std::size_t>(h.spell) < played_.spells.size())  // none: nothing was ever placed
                for (const Spell::Piece& piece : played_.spells[static_cast<std::size_t>(h.spell)].pieces)
                    if (piece.from <= h.from && h.from < piece.to && piece.hold.y_cm > 0) return std::max(h.from, from_);
        return std::nullopt;
    }

    void position_and_birth() {
        const Known* first = nullptr;
        for (std::string_view s : {"slow", "slow_steady", "stays_down", "slow_after_contraction"})
            if (const Known* k = picture_.find(s); k && (!first || k->from < first->from)) first = k;
        std::optional<sim::LabourTime> trouble;
        if (first) trouble = first->from;
        if (fall_sure_ && (!trouble || *fall_sure_ < *trouble)) trouble = fall_sure_;
        if (!trouble && fall_heard_)
            trouble = sim::LabourTime{fall_heard_->us + sim::labour_time(protocol_.baseline_needs).us};
        if (trouble && flat_at(played_, fall_heard_ ? std::min(*fall_heard_, *trouble) : *trouble))
            know("lying_flat", *trouble, "She lies flat on her back while the heart is down.");
        std::optional<sim::LabourTime> serious;
        for (const Known& k : picture_.known)
            if (k.situation != "always" && serious_enough(k) && (!serious || k.from < *serious)) serious = k.from;
        if (!serious || scenario_.task != Task::labour) return;
        if (birth_close(scenario_, played_)) know("close_to_birth", *serious, "The birth is close.");
        else know("not_close_to_birth", *serious, "The birth is not close.");
    }

    bool serious_enough(const Known& k) const {
        if (k.situation == "slow_after_contraction")
            return picture_.over_half || picture_.has("thick_green_waters") ||
                   level_of(protocol_, k.situation) >= Level::orange;
        if (k.situation == "fast" && picture_.has("fever")) return true;
        return level_of(protocol_, k.situation) >= Level::orange;
    }

    void finish() {
        const bool quiet = std::all_of(picture_.known.begin(), picture_.known.end(),
                                       [](const Known& k) {
                                           return k.situation == "mothers_pulse" || k.situation == "not_head_down";
                                       });
        if (quiet && enough_)
            know("normal", *enough_, fmt::format("The settled rate is {}, within {:.0f} to {:.0f}.", bpm_word(picture_.baseline_bpm[0]),
                                                 protocol_.low.bpm.value, protocol_.high.bpm.value));
        const bool slows = picture_.has("slow_after_contraction") || picture_.has("stays_down");
        for (const Known& k : picture_.known) {
            picture_.level = std::max(picture_.level, level_of(protocol_, k.situation));
            const bool worsened =
                ((k.situation == "too_many_contractions" || k.situation == "thick_green_waters") && slows) ||
                (k.situation == "slow_after_contraction" && picture_.over_half) ||
                (k.situation == "fast" && picture_.has("fever")) || (rate_held_ && is_rate(k.situation));
            const Situation* s = protocol_.situation(k.situation);
            if (worsened) picture_.level = std::max({picture_.level, Level::orange, s ? s->level_if_it_holds : Level::orange});
        }
        know("always", first_heard(), "");
        std::stable_sort(picture_.known.begin(), picture_.known.end(),
                         [](const Known& a, const Known& b) { return a.from < b.from; });
    }

    const Scenario& scenario_;
    const Protocol& protocol_;
    const Played& played_;
    const Listened& listened_;
    sim::LabourTime from_, to_;
    std::array<std::vector<Slowing>, 2> falls_;
    std::optional<sim::LabourTime> enough_, fall_heard_, fall_sure_;
    bool rate_held_ = false;
    Picture picture_;
};

}  // namespace

const Known* Picture::find(std::string_view situation) const {
    for (const Known& k : known)
        if (k.situation == situation) return &k;
    return nullptr;
}

Picture picture_of(const Scenario& scenario, const Protocol& protocol, const Played& played, const Listened& listened,
                   sim::LabourTime from, sim::LabourTime to) {
    return Painter(scenario, protocol, played, listened, from, to).paint();
}

Listened everything(const Scenario& scenario, const Played& played) {
    Listened all;
    all.throughout = true;
    all.heard = heard_throughout(played, {0}, played.end);
    for (const Finding& f : scenario.findings)
        if (sim::labour_time(f.from) < played.end)
            all.found.push_back({sim::labour_time(f.from), f.act, f.says, f.situation});
    return all;
}

Level level_of(const Protocol& protocol, std::string_view situation) {
    if (const Situation* s = protocol.situation(situation)) return s->level;
    static const std::map<std::string_view, Level> usual = {
        {"slow", Level::red}, {"stays_down", Level::red}, {"cord_prolapse", Level::red}, {"bleeding", Level::red},
        {"not_found", Level::red}, {"fever", Level::orange}, {"thick_green_waters", Level::yellow},
        {"fast", Level::yellow}, {"slow_steady", Level::yellow}, {"slow_after_contraction", Level::yellow},
        {"too_many_contractions", Level::yellow}, {"lying_flat", Level::yellow}, {"mothers_medicine", Level::yellow},
        {"twins", Level::yellow}, {"irregular", Level::yellow}, {"rising", Level::yellow},
        {"source_doubtful", Level::yellow}, {"not_head_down", Level::yellow}};
    const auto found = usual.find(situation);
    return found == usual.end() ? Level::green : found->second;
}

bool flat_at(const Played& played, sim::LabourTime t) {
    sim::Position now = played.patient.mother.position;
    sim::LabourTime since{-1};
    for (const Spell& spell : played.spells)
        for (const Spell::Piece& piece : spell.pieces)
            if (piece.from <= t && piece.from >= since) {
                now = piece.hold.position;
                since = piece.from;
            }
    for (const TimedAct& a : played.acts) {
        if (a.done_at > t || a.done_at < since) continue;
        if (a.id == "lay_flat") now = sim::Position::flat, since = a.done_at;
        if (a.id == "off_her_back" || a.id == "upright_to_push" || a.id == "knees_chest_hips_up")
            now = sim::Position::left_side, since = a.done_at;
    }
    return now == sim::Position::flat;
}

bool birth_close(const Scenario& scenario, const Played& played) {
    if (scenario.labour.head_visible) return true;
    return scenario.labour.open_cm >= 10 && played.patient.babies.size == 1 &&
           played.patient.babies[0].fifths_above_brim <= 0;
}

}  // namespace engine
