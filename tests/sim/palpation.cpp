#include "sim/body/palpation.h"

#include "tests/sim/scene.h"

#include <catch2/catch.hpp>

using namespace sim;

namespace {

Patient lying(Presentation presentation, Back back) {
    Patient p = scene::quiet_labour();
    p.babies[0].presentation = presentation;
    p.babies[0].back = back;
    return p;
}

CourseTick pressure(double tone, double above) {
    CourseTick t;
    t.uc_mmhg = tone + above;
    t.uc_above_tone_mmhg = above;
    return t;
}

}  // namespace

// The grips of abdominal palpation as every midwifery text teaches them (Leopold 1894): round and hard is the
// head, broad and soft the breech, long and smooth the back, small and knobbly the limbs.
TEST_CASE("LOA: back on her left, limbs on her right, hard round head below, broad soft breech above",
          "[palpation]") {
    const Patient p = lying(Presentation::head, Back::left_front);
    const CourseTick rest = pressure(10, 0);
    CHECK(felt_at(p, 6, -4, rest) == Felt::smooth_back);
    CHECK(felt_at(p, 6, 4, rest) == Felt::smooth_back);
    CHECK(felt_at(p, -6, 0, rest) == Felt::small_knobbly_limbs);
    CHECK(felt_at(p, 0, -13, rest) == Felt::hard_round_head);
    CHECK(felt_at(p, 0, 16, rest) == Felt::broad_soft_breech);
}

TEST_CASE("ROA is the mirror of LOA; a breech has the hard head at the top", "[palpation]") {
    const CourseTick rest = pressure(10, 0);
    CHECK(felt_at(lying(Presentation::head, Back::right_front), -6, 0, rest) == Felt::smooth_back);
    CHECK(felt_at(lying(Presentation::head, Back::right_front), 6, 0, rest) == Felt::small_knobbly_limbs);
    CHECK(felt_at(lying(Presentation::breech, Back::left_front), 0, 16, rest) == Felt::hard_round_head);
    CHECK(felt_at(lying(Presentation::breech, Back::left_front), 0, -13, rest) == Felt::broad_soft_breech);
}

TEST_CASE("Lying across: the head in the side it lies on, the breech in the other, nothing above the brim",
          "[palpation]") {
    const Patient p = lying(Presentation::across, Back::left_front);
    const CourseTick rest = pressure(10, 0);
    CHECK(felt_at(p, 12, 0, rest) == Felt::hard_round_head);
    CHECK(felt_at(p, -12, 0, rest) == Felt::broad_soft_breech);
    CHECK(felt_at(p, 0, -14, rest) == Felt::nothing_clear);
}

TEST_CASE("Back behind: limbs all over the front and no back to be felt there", "[palpation]") {
    const Patient p = lying(Presentation::head, Back::behind);
    for (double x : {-6.0, 0.0, 6.0}) CHECK(felt_at(p, x, 0, pressure(10, 0)) == Felt::small_knobbly_limbs);
}

// Palpable above 10 mmHg over tone, not to be indented above 40 [memory].
TEST_CASE("Soft at 9 mmHg over tone, firm at 11, hard at 41; a womb that never rests is hard all the time",
          "[palpation]") {
    CHECK(firmness(pressure(10, 9)) == Firmness::soft);
    CHECK(firmness(pressure(10, 11)) == Firmness::firm);
    CHECK(firmness(pressure(10, 41)) == Firmness::hard);
    CHECK(firmness(pressure(26, 0)) == Firmness::hard);
    CHECK(firmness(pressure(22, 0)) == Firmness::firm);
    CHECK(felt_at(lying(Presentation::head, Back::left_front), 6, 0, pressure(10, 45)) ==
          Felt::nothing_clear);
}

TEST_CASE("The hand is lifted from 0 at rest to 1 in a strong contraction", "[palpation]") {
    CHECK(swell(pressure(10, 0)) == 0);
    CHECK(swell(pressure(10, 90)) == 1);
    CHECK(swell(pressure(10, 20)) < swell(pressure(10, 40)));
}
