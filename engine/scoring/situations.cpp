#include "engine/scoring/key_of_picture.h"
#include "engine/scoring/painter.h"

#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <optional>

namespace engine {

namespace {

bool is_rate(std::string_view s) { return s == "fast" || s == "slow_steady"; }
bool is_lie(std::string_view s) { return s == "breech" || s == "lying_across"; }
std::optional<sim::LabourTime> sooner(std::optional<sim::LabourTime> a, std::optional<sim::LabourTime> b) {
    return a && b ? std::optional(std::min(*a, *b)) : a ? a : b;
}
bool is_closeness(std::string_view s) { return s == "close_to_birth" || s == "not_close_to_birth"; }

}  // namespace

Picture Painter::paint() {
    for (int b = 0; b < played_.patient.babies.size && b < 2; ++b)
        if (played_.patient.babies[b].heart_beats) one_baby(b);
    nobody_there();
    source();
    findings();
    contractions();
    mother();
    story();
    position_and_birth();
    finish();
    return std::move(picture_);
}

void Painter::know(std::string_view situation, sim::LabourTime at, std::string why) {
    for (Known& k : picture_.known)
        if (k.situation == situation) {
            if (at < k.from) k.from = at;
            return;
        }
    picture_.known.push_back({std::string(situation), at, std::move(why)});
}

double Painter::base(int baby, sim::LabourTime t) const { return settled_as_counted(played_, baby, t); }

sim::LabourTime Painter::first_heard() const {
    for (const HeardPiece& h : listened_.heard)
        if (h.to > from_) return std::max(h.from, from_);
    return from_;
}

void Painter::position_and_birth() {
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
        if (const auto at = serious_from(k); at && (!serious || *at < *serious)) serious = at;
    // Around contractions alone, how close the birth is matters once she is fully open.
    const bool matters = scenario_.task == Task::labour ||
                         (scenario_.task == Task::pattern && scenario_.labour.stage == Stage::second);
    if (!serious || !matters) return;
    if (birth_close(scenario_, played_))
        know("close_to_birth", *serious, "The birth is close.");
    else
        know("not_close_to_birth", *serious, "The birth is not close.");
}

// Since when it is more than a matter of looking again.
std::optional<sim::LabourTime> Painter::serious_from(const Known& k) const {
    if (k.situation == "always") return std::nullopt;
    if (level_of(protocol_, k.situation) >= Level::orange) return k.from;
    return is_rate(k.situation) || k.situation == "slow_after_contraction" ? worse_from(k) : std::nullopt;
}

// In or after a contraction, or a fall that stays.
std::optional<sim::LabourTime> Painter::any_slowing() const {
    std::optional<sim::LabourTime> first;
    for (std::string_view s : {"slow_after_contraction", "stays_down"})
        if (const Known* k = picture_.find(s)) first = sooner(first, k->from);
    for (const AroundHeard& around : picture_.around)
        if (around.slow_in > 0) first = sooner(first, around.slow_in_known);
    return first;
}

// Since when the level is the one it has if it holds: the row ORANGE of the ladder.
std::optional<sim::LabourTime> Painter::worse_from(const Known& k) const {
    const auto with = [&](std::optional<sim::LabourTime> other) {
        return other ? std::optional(std::max(k.from, *other)) : std::nullopt;
    };
    const auto together = [&](std::string_view situation) {
        const Known* other = picture_.find(situation);
        return other ? with(other->from) : std::nullopt;
    };
    const std::optional<sim::LabourTime> held =
        picture_.rate_held ? std::optional(picture_.rate_held_from) : std::nullopt;
    const std::optional<sim::LabourTime> over_half =
        picture_.over_half ? std::optional(picture_.over_half_from) : std::nullopt;
    if (k.situation == "fast") return sooner(with(held), together("fever"));
    if (k.situation == "slow_steady") return with(held);
    if (k.situation == "fever") return together("fast");
    if (k.situation == "too_many_contractions" || k.situation == "thick_green_waters")
        return with(any_slowing());
    if (k.situation == "slow_after_contraction")
        return sooner(with(over_half),
                      sooner(together("thick_green_waters"), together("too_many_contractions")));
    if (is_closeness(k.situation) && over_half && picture_.has("rising")) return k.from;
    return std::nullopt;
}

void Painter::finish() {
    const bool quiet = std::all_of(picture_.known.begin(), picture_.known.end(), [](const Known& k) {
        return k.situation == "mothers_pulse" || is_lie(k.situation);
    });
    if (quiet && enough_) {
        const std::size_t b = baby_in_question(protocol_, picture_);
        know("normal", *enough_,
             fmt::format("{} is {}, within {:.0f} to {:.0f}.", settled_rate_of(static_cast<int>(b)),
                         bpm_word(picture_.settled_bpm[b]), protocol_.low.bpm.value,
                         protocol_.high.bpm.value));
    }
    for (Known& k : picture_.known) {
        picture_.level = std::max(picture_.level, level_of(protocol_, k.situation));
        k.worse_from = worse_from(k);
        if (!k.worse_from) continue;
        const Situation* s = protocol_.situation(k.situation);
        picture_.level = std::max({picture_.level, Level::orange, s ? s->level_if_it_holds : Level::orange});
    }
    know("always", first_heard(), "");
    std::stable_sort(picture_.known.begin(), picture_.known.end(),
                     [](const Known& a, const Known& b) { return a.from < b.from; });
}

const Known* Picture::find(std::string_view situation) const {
    for (const Known& k : known)
        if (k.situation == situation) return &k;
    return nullptr;
}

Picture picture_of(const Scenario& scenario, const Protocol& protocol, const Played& played,
                   const Listened& listened, const LabourRun& run, sim::LabourTime from, sim::LabourTime to) {
    return Painter(scenario, protocol, played, listened, run, from, to).paint();
}

Picture picture_of(const Scenario& scenario, const Protocol& protocol, const Played& played,
                   const Listened& listened, sim::LabourTime from, sim::LabourTime to) {
    return picture_of(scenario, protocol, played, listened, labour_run(protocol, played), from, to);
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
    static const std::map<std::string_view, Level> usual = {{"slow", Level::red},
                                                            {"stays_down", Level::red},
                                                            {"cord_prolapse", Level::red},
                                                            {"bleeding", Level::red},
                                                            {"not_found", Level::red},
                                                            {"scar_gives_way", Level::red},
                                                            {"mother_collapses", Level::red},
                                                            {"fever", Level::yellow},
                                                            {"thick_green_waters", Level::yellow},
                                                            {"fast", Level::yellow},
                                                            {"slow_steady", Level::yellow},
                                                            {"slow_after_contraction", Level::yellow},
                                                            {"too_many_contractions", Level::yellow},
                                                            {"lying_flat", Level::yellow},
                                                            {"mothers_medicine", Level::yellow},
                                                            {"twins", Level::yellow},
                                                            {"irregular", Level::yellow},
                                                            {"rising", Level::yellow},
                                                            {"source_doubtful", Level::yellow},
                                                            {"breech", Level::yellow},
                                                            {"lying_across", Level::yellow},
                                                            {"her_pulse_fast", Level::yellow},
                                                            {"her_pulse_slow", Level::yellow},
                                                            {"temperature_raised", Level::yellow},
                                                            {"high_pressure", Level::yellow},
                                                            {"low_pressure", Level::yellow},
                                                            {"short_of_oxygen", Level::yellow}};
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
