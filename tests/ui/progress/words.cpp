// What the progress screen and page say of one person's counts, true to the counts.
#include "tests/engine/competency/made_counts.h"

#include "ui/plots/progress_words.h"

#include <catch2/catch.hpp>

#include <string>

namespace {

// Twelve counts at 90 to 178 bpm, each off by a line through 0 at 135 and what is added to it.
engine::Progress read_off(double added_bpm) {
    engine::CountColumns c;
    for (int i = 0; i < 12; ++i) {
        const double rate = 90 + 8 * i;
        made_counts::add(c, {.truth_bpm = rate,
                             .written_bpm = rate - 0.2 * (rate - 135) + added_bpm + (i % 2 ? 0.5 : -0.5)});
    }
    return engine::progress_of(c);
}
bool says(const engine::Progress& p, const char* part) {
    return ui::agreement_words(p).find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("slow read high and fast low is pulled towards normal; slow read low too is only lower the faster",
          "[progress]") {
    CHECK(says(read_off(0), "fast ones read low, slow ones high"));
    const engine::Progress all_low = read_off(-12);  // 90 bpm: 3 low
    CHECK(all_low.pulled_to_normal);
    CHECK_FALSE(says(all_low, "slow ones high"));
    CHECK(says(all_low, "The faster the heart, the lower it was read."));
}

// Limits are the mean with 1.96 standard deviations: of such counts, not of the next [Bland and Altman 1986].
TEST_CASE("the limits are said of 19 in 20 such counts, never of the next one", "[progress]") {
    CHECK(says(read_off(0), "About 19 in 20 of such counts lie"));
    CHECK_FALSE(says(read_off(0), "next"));
}

TEST_CASE("a labour with a wrong count costs 4.4 times what a right one brings: ln 3 over ln (9 / 7)",
          "[progress]") {
    CHECK(ui::learning_words(read_off(0)).find("4.4 times as much") != std::string::npos);
}
