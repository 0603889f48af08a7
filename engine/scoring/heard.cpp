#include "engine/scoring/heard.h"

#include "engine/attempt/played_hands.h"
#include "engine/scoring/steps.h"
#include "sim/body/ear.h"

#include <algorithm>
#include <array>
#include <tuple>

namespace engine {

namespace {

constexpr std::int64_t look_every_us = 2'000'000;

// Everything of a hold but where it is.
auto how_held(const sim::Hold& hold) {
    const auto& [instrument, placed, x_cm, y_cm, press_n, tilt_deg, tilt_towards_deg, gel, left, right,
                 position] = hold;
    return std::tuple(instrument, placed, press_n, tilt_deg, tilt_towards_deg, gel, left, right, position);
}

// The ear for one hold after another: a search is many places, and an ear does not depend on the place.
class EarAsHeld {
public:
    explicit EarAsHeld(const sim::Patient& patient) : patient_(patient) {}

    const sim::Ear& of(const sim::Hold& hold) {
        if (!last_ || how_held(*last_) != how_held(hold)) ear_ = sim::ear_for(patient_, hold);
        last_ = hold;
        return ear_;
    }

private:
    const sim::Patient& patient_;
    std::optional<sim::Hold> last_;
    sim::Ear ear_;
};

// What one hold gives, moment by moment.
class HeldThere {
public:
    HeldThere(const Played& played, const sim::Hold& hold, const sim::Ear& ear)
        : played_(played),
          hold_(hold),
          ear_(ear),
          levels_(sim::levels_without_hearts(ear_, played.patient, hold)) {}

    sim::PlaceLevels at(sim::LabourTime t) {
        sim::hear_hearts(levels_, ear_, played_.patient, tick_at(played_, t), hold_);
        return sim::place_levels(levels_);
    }

private:
    const Played& played_;
    const sim::Hold& hold_;
    const sim::Ear& ear_;
    sim::EarLevels levels_;
};

HeardWhat heard_in(const Played& played, const sim::PlaceLevels& levels) {
    const bool baby_audible = heart_beats(played) && (levels.baby - levels.noise) >= sim::audible_over_noise;
    const bool rival_audible = (levels.rival - levels.noise) >= sim::audible_over_noise;
    if (baby_audible && sim::countable(levels) == sim::Countable::countable) return HeardWhat::baby;
    if (rival_audible && (!baby_audible || levels.rival > levels.baby)) return HeardWhat::mother;
    if (baby_audible) return HeardWhat::unclear;
    return HeardWhat::nothing;
}

}  // namespace

bool heart_beats(const Played& played) {
    return std::any_of(played.patient.babies.begin(), played.patient.babies.end(),
                       [](const sim::Baby& b) { return b.heart_beats; });
}

const sim::CourseTick& tick_at(const Played& played, sim::LabourTime t) {
    static const sim::CourseTick none;
    if (played.course.empty()) return none;
    const std::int64_t last = static_cast<std::int64_t>(played.course.size()) - 1;
    return played
        .course[static_cast<std::size_t>(std::clamp<std::int64_t>(t.us / sim::course_tick_us, 0, last))];
}

double settled_as_counted(const Played& played, int baby, sim::LabourTime t) {
    const double settled = tick_at(played, t).fhr_base_bpm[static_cast<std::size_t>(baby)];
    const int n = played.patient.babies[baby].rhythm.drop_every;
    return n > 1 ? settled * (n - 1) / n : settled;
}

std::span<const sim::Beat> heart_of(const Played& played, int baby) {
    return baby == 1 ? played.fetal2 : played.fetal;
}

std::vector<HeardPiece> what_was_heard(const Played& played) {
    std::vector<HeardPiece> heard;
    EarAsHeld ear(played.patient);
    for (std::size_t s = 0; s < played.spells.size(); ++s) {
        for (const Spell::Piece& piece : played.spells[s].pieces) {
            HeldThere held(played, piece.hold, ear.of(piece.hold));
            for (std::int64_t t = piece.from.us; t < piece.to.us; t += look_every_us) {
                const std::int64_t to = std::min(t + look_every_us, piece.to.us);
                const sim::PlaceLevels levels = held.at({(t + to) / 2});
                const HeardPiece next{
                    {t}, {to}, heard_in(played, levels), levels.which_baby, static_cast<int>(s)};
                if (!heard.empty() && heard.back().to == next.from && heard.back().what == next.what &&
                    heard.back().baby == next.baby && heard.back().spell == next.spell)
                    heard.back().to = next.to;
                else
                    heard.push_back(next);
            }
        }
    }
    return heard;
}

std::vector<HeardPiece> heard_throughout(const Played& played, sim::LabourTime from, sim::LabourTime to) {
    if (!heart_beats(played)) return {{from, to, HeardWhat::nothing, 0, 0}};
    std::vector<HeardPiece> heard;
    for (int baby = 0; baby < played.patient.babies.size; ++baby)
        if (played.patient.babies[baby].heart_beats) heard.push_back({from, to, HeardWhat::baby, baby, baby});
    return heard;
}

std::optional<HeardWhat> at_the_last_place(const Played& played, const std::vector<HeardPiece>& heard,
                                           sim::LabourTime from, sim::LabourTime to) {
    constexpr double another_place_cm = 3;  // [practice]
    constexpr std::int64_t listened_us = 5'000'000;
    for (auto spell = played.spells.rbegin(); spell != played.spells.rend(); ++spell) {
        const auto& pieces = spell->pieces;
        for (std::size_t last = pieces.size(); last > 0;) {
            std::size_t first = last - 1;  // back to where the instrument came to this place
            const auto here = [&](const sim::Hold& hold) {
                const double dx = hold.x_cm - pieces[last - 1].hold.x_cm,
                             dy = hold.y_cm - pieces[last - 1].hold.y_cm;
                return dx * dx + dy * dy < another_place_cm * another_place_cm;
            };
            while (first > 0 && here(pieces[first - 1].hold)) --first;
            const std::int64_t a = std::max(pieces[first].from.us, from.us),
                               z = std::min(pieces[last - 1].to.us, to.us);
            std::array<std::int64_t, 4> by_what{};
            for (const HeardPiece& h : heard)
                by_what[static_cast<std::size_t>(h.what)] +=
                    std::max<std::int64_t>(0, std::min(h.to.us, z) - std::max(h.from.us, a));
            const auto most = std::max_element(by_what.begin(), by_what.end());
            if (z - a >= listened_us && *most > 0) return static_cast<HeardWhat>(most - by_what.begin());
            last = first;
        }
    }
    return std::nullopt;
}

SiteHeard site_between(const Played& played, sim::LabourTime from, sim::LabourTime to) {
    SiteHeard site;
    std::array<std::int64_t, 3> at_verdict{};
    std::array<std::int64_t, 4> at_what{};
    std::int64_t looked = 0, second = 0;
    double over_rival = 0, over_noise = 0;
    EarAsHeld ear(played.patient);
    for (const Spell& spell : played.spells) {
        for (const Spell::Piece& piece : spell.pieces) {
            const std::int64_t a = std::max(piece.from.us, from.us), b = std::min(piece.to.us, to.us);
            if (a >= b) continue;
            HeldThere held(played, piece.hold, ear.of(piece.hold));
            for (std::int64_t t = a; t < b; t += look_every_us / 2) {
                const std::int64_t end = std::min(t + look_every_us / 2, b), part = end - t;
                const sim::PlaceLevels levels = held.at({(t + end) / 2});
                const HeardWhat what = heard_in(played, levels);
                const sim::Countable verdict =
                    what == HeardWhat::baby ? sim::Countable::countable
                    : heart_beats(played)   ? std::max(sim::countable(levels), sim::Countable::doubtful)
                                            : sim::Countable::not_countable;
                at_verdict[static_cast<std::size_t>(verdict)] += part;
                at_what[static_cast<std::size_t>(what)] += part;
                if (levels.which_baby == 1) second += part;
                over_rival += (levels.baby - levels.rival).value * static_cast<double>(part);
                over_noise += (levels.baby - levels.noise).value * static_cast<double>(part);
                looked += part;
            }
        }
    }
    if (looked == 0) return site;
    site.heard = true;
    if (at_verdict[0] * 5 >= looked * 4)
        site.countable = sim::Countable::countable;
    else if ((at_verdict[0] + at_verdict[1]) * 5 >= looked * 4)
        site.countable = sim::Countable::doubtful;
    site.what = static_cast<HeardWhat>(std::max_element(at_what.begin(), at_what.end()) - at_what.begin());
    site.baby = second * 2 > looked ? 1 : 0;
    site.over_rival_db = to_hundredth(over_rival / static_cast<double>(looked));
    site.over_noise_db = to_hundredth(over_noise / static_cast<double>(looked));
    return site;
}

double baby_heard_s(const std::vector<HeardPiece>& heard, sim::LabourTime from, sim::LabourTime to) {
    std::int64_t us = 0;
    for (const HeardPiece& h : heard)
        if (has_baby(h.what))
            us += std::max<std::int64_t>(0, std::min(h.to.us, to.us) - std::max(h.from.us, from.us));
    return static_cast<double>(us) / 1e6;
}

Played untouched(const Scenario& scenario, sim::Seed seed) {
    Played played;
    played.patient = scenario.patient(seed);
    played.course = sim::course_over(played.patient, seed, {}, scenario.length);
    played.fetal = sim::beats_over(played.patient, seed, sim::Who::fetal, played.course);
    if (played.patient.babies.size > 1)
        played.fetal2 = sim::beats_over(played.patient, seed, sim::Who::fetal2, played.course);
    played.maternal = sim::beats_over(played.patient, seed, sim::Who::maternal, played.course);
    played.contractions = contractions_in(played.course);
    played.end = sim::labour_time(scenario.length);
    return played;
}

}  // namespace engine
