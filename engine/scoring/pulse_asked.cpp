#include "engine/scoring/pulse_asked.h"

#include "engine/scoring/beside_her_pulse.h"
#include "engine/scoring/steps.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace engine {

namespace {

constexpr std::int64_t same_minute_us = 60'000'000;  // felt this near to it: the same minute [practice]
constexpr double another_place_cm = 3;               // [practice]
constexpr std::int64_t pulse_count_us = 15'000'000;  // a pulse is counted for 15 s or more
constexpr double pulse_right_bpm = 8;                // two beats of such a count

// The spells a number, or a decision that there is a baby, rests on.
std::set<int> spells_that_count(const Evidence& e) {
    std::set<int> which;
    for (const CountedWindow& w : e.windows)
        if (w.score.judged && w.own_bpm() && w.window->spell >= 0) which.insert(w.window->spell);
    for (const StandingDecision& d : e.decisions) {
        const SourceIs said = d.said.decision.source;
        if (said == SourceIs::mother || said == SourceIs::not_found || said == SourceIs::doubtful) continue;
        int last = -1;
        for (std::size_t s = 0; s < e.played.spells.size(); ++s)
            if (e.played.spells[s].from < d.said.at && e.played.spells[s].to > d.from)
                last = static_cast<int>(s);
        if (last >= 0) which.insert(last);
    }
    return which;
}

bool another(const sim::Hold& a, const sim::Hold& b) {
    const double dx = a.x_cm - b.x_cm, dy = a.y_cm - b.y_cm;
    return dx * dx + dy * dy >= another_place_cm * another_place_cm;
}

// Since when the instrument has been where it was at `at`, as near as another place is not.
sim::LabourTime there_since(const Spell& spell, sim::LabourTime at, const sim::Hold& hold) {
    sim::LabourTime since = spell.from;
    for (const Spell::Piece& piece : spell.pieces)
        if (piece.from <= at && another(piece.hold, hold)) since = piece.to;
    return since;
}

// What was counted in this spell; none: it was only listened to.
const CountedWindow* counted_in(const Evidence& e, int s) {
    for (auto w = e.windows.rbegin(); w != e.windows.rend(); ++w)
        if (w->score.judged && w->window->spell == s) return &*w;
    return nullptr;
}

int baby_heard_in(const Evidence& e, int s) {
    std::int64_t second = 0, first = 0;
    for (const HeardPiece& h : e.listened.heard)
        if (h.spell == s && has_baby(h.what)) (h.baby == 1 ? second : first) += h.to.us - h.from.us;
    return second > first ? 1 : 0;
}

}  // namespace

std::vector<PulseAsked> pulse_asked(const Evidence& e) {
    std::vector<PulseAsked> asked;
    std::optional<sim::Hold> felt_at;  // the last place with her pulse under the fingers
    bool first = true;
    for (const int s : spells_that_count(e)) {
        const Spell& spell = e.played.spells[static_cast<std::size_t>(s)];
        const CountedWindow* counted = counted_in(e, s);
        const sim::LabourTime from = counted ? counted->window->from : spell.from;
        const sim::LabourTime to = counted ? counted->window->to : spell.to;
        const sim::Hold* hold = nullptr;
        for (const Spell::Piece& piece : spell.pieces)
            if (!hold || piece.from < to) hold = &piece.hold;
        if (!hold) continue;
        PulseAsked p;
        p.from_s = from.seconds();
        p.need_s = e.protocol.pulse_felt_for.value;
        const sim::LabourTime since = there_since(spell, to, *hold);
        p.felt_s = pulse_felt_s(e.played, {since.us - same_minute_us}, {spell.to.us + same_minute_us});
        const int baby_here = counted ? counted->site.baby : baby_heard_in(e, s);
        const double hers = sim::rate_between(e.played.maternal, from, to).value;
        const double rate = sim::rate_between(heart_of(e.played, baby_here), from, to).value;
        p.apart_bpm = std::fabs(rate - hers);
        const bool baby = heart_beats(e.played) && rate > 0;
        if (first && e.protocol.pulse_at_first_listening) p.reason = PulseAsked::first;
        if (felt_at && another(*felt_at, *hold)) {
            p.reason = PulseAsked::another_place;
            p.felt_s = pulse_felt_s(e.played, since, {spell.to.us + same_minute_us});
        }
        if (e.played.patient.labour.pushing) p.reason = PulseAsked::pushing;
        if (baby && classify(e.protocol, sim::Bpm{rate}) != BaselineClass::normal)
            p.reason = PulseAsked::outside;
        if (baby && p.apart_bpm <= e.protocol.near_pulse.value) {
            p.reason = PulseAsked::near;
            p.need_s = pulse_needed_s(e.protocol, p.apart_bpm);
            p.felt_s = pulse_felt_listening_s(e.played, since, spell.to);
        }
        if (p.reason != PulseAsked::nothing && p.enough()) felt_at = *hold;
        first = false;
        asked.push_back(p);
    }
    return asked;
}

double pulse_nearest_bpm(const Evidence& e, const PulseReport& written) {
    double nearest = 0;
    const std::int64_t first = std::max<std::int64_t>(0, written.at.us - same_minute_us);
    for (std::int64_t from = first; from == first || from + pulse_count_us <= written.at.us;
         from += 5'000'000) {
        const sim::LabourTime to{std::min(from + pulse_count_us, written.at.us)};
        const double rate = to_thousandth(sim::rate_between(e.played.maternal, {from}, to).value);
        if (nearest <= 0 || std::fabs(rate - written.bpm) < std::fabs(nearest - written.bpm)) nearest = rate;
    }
    return nearest;
}

bool pulse_misread(const Evidence& e, const PulseReport& written) {
    return std::fabs(written.bpm - pulse_nearest_bpm(e, written)) > pulse_right_bpm;
}

}  // namespace engine
