// A search over many places: what is judged is what each place gives by itself.
#include "engine/scoring/heard.h"
#include "sim/body/abdomen.h"

#include <catch2/catch.hpp>

using namespace engine;

TEST_CASE("Forty places, four ways of holding, 2 s each: the mean over her beat is that of place after place",
          "[heard]") {
    Played played;
    played.patient.babies.add({});
    played.patient.surroundings.ladder = sim::Ladder::normal;
    played.patient.surroundings.ward = {-20};
    played.course = sim::course_over(played.patient, {1}, {}, sim::Seconds{120});
    Spell spell;
    double over_rival_db = 0, over_noise_db = 0;
    int seconds = 0;
    for (std::int64_t n = 0; n < 40; ++n) {
        sim::Hold hold;
        hold.instrument = sim::Instrument::horn;
        hold.placed = true;
        hold.x_cm = 9 - 0.3 * static_cast<double>(n);
        hold.y_cm = -9 + 0.2 * static_cast<double>(n);
        hold.press_n = n < 20 ? 6 : 12;
        hold.tilt_deg = n % 20 < 10 ? 0 : 15;
        spell.pieces.push_back({{n * 2'000'000}, {(n + 1) * 2'000'000}, hold});
        for (const std::int64_t at_us : {n * 2'000'000 + 500'000, n * 2'000'000 + 1'500'000}) {
            const sim::PlaceLevels levels = sim::levels_at(played.patient, tick_at(played, {at_us}), hold);
            over_rival_db += (levels.baby - levels.rival).value;
            over_noise_db += (levels.baby - levels.noise).value;
            ++seconds;
        }
    }
    spell.to = {80'000'000};
    played.spells.push_back(spell);
    const SiteHeard site = site_between(played, {0}, {80'000'000});
    CHECK(site.over_rival_db == Approx(over_rival_db / seconds).epsilon(0).margin(0.0051));  // kept to 0.01
    CHECK(site.over_noise_db == Approx(over_noise_db / seconds).epsilon(0).margin(0.0051));
}
