#include "engine/drawing/goes_together.h"

#include <initializer_list>

namespace engine {
namespace {

constexpr std::uint32_t of(std::initializer_list<int> values) {
    std::uint32_t set = 0;
    for (const int value : values) set |= 1u << value;
    return set;
}
constexpr std::uint32_t but(std::initializer_list<int> values) { return ~of(values); }
// Levels from one up to the fifth: level 1 has the value 0.
constexpr std::uint32_t from_level(int level) { return ~0u << (level - 1); }

// What may be behind which trouble, and where a cause can be met.
void add_causes(std::vector<GoesWith>& r) {
    using A = Axis;
    using namespace engine;
    const auto behind = [&](int trouble_value, std::uint32_t causes, std::string_view why) {
        r.push_back({A::trouble, of({trouble_value}), A::cause, causes, why});
    };
    behind(trouble::late, of({cause::lying_flat, cause::too_many, cause::none_found}),
           "slow after contractions: she lies flat, there are too many, or none is found");
    behind(trouble::variable, of({cause::cord_pressure}),
           "sudden falls of changing shape: the cord is pressed");
    behind(trouble::prolonged,
           of({cause::lying_flat, cause::cord_prolapse, cause::bleeding, cause::scar, cause::none_found}),
           "a fall that stays: she lies flat, the cord, bleeding, a scar, or none is found");
    behind(trouble::fast, of({cause::fever, cause::medicine, cause::none_found}),
           "a fast heart: fever, a medicine, or none is found");
    behind(trouble::absent, of({cause::bleeding, cause::none_found}),
           "a lost heart: bleeding, or none is found");
    r.push_back({A::trouble, of({trouble::rising, trouble::slow, trouble::irregular, trouble::twins}),
                 A::cause, of({cause::none_found}), "nothing behind it that could be found at the bedside"});
    r.push_back({A::cause, of({cause::cord_prolapse, cause::bleeding, cause::scar}), A::task,
                 of({task::labour}), "it is looked for and acted on"});
    r.push_back({A::cause, of({cause::too_many}), A::task, of({task::pattern, task::labour}),
                 "contractions are counted by one who stays"});
    r.push_back({A::cause, of({cause::scar}), A::level, from_level(4), "too hard below level 4"});
    r.push_back({A::cause, of({cause::fever}), A::level, from_level(2), "too hard for level 1"});
    r.push_back({A::cause, of({cause::medicine}), A::level, from_level(3), "too hard below level 3"});
    r.push_back({A::cause, of({cause::lying_flat, cause::bleeding, cause::scar}), A::position,
                 but({position::across}), "with a baby lying across one thing hard at a time"});
    r.push_back({A::cause, of({cause::lying_flat, cause::bleeding, cause::scar}), A::variant,
                 but({variant::second_twin}), "with the second twin one thing hard at a time"});
    r.push_back({A::cause, of({cause::cord_prolapse}), A::variant, but({variant::thin_green}),
                 "the cord comes down with waters just gone"});
    r.push_back({A::cause, of({cause::too_many}), A::variant, of({variant::none, variant::injection}),
                 "one thing hard at a time"});
    r.push_back({A::variant, of({variant::injection}), A::cause, of({cause::too_many}),
                 "an injection to hurry gives too many contractions"});
    r.push_back({A::variant, of({variant::high_pressure}), A::cause, of({cause::none_found}),
                 "high pressure or a fit is behind it already"});
    r.push_back({A::variant, of({variant::in_water}), A::cause, of({cause::none, cause::none_found}),
                 "women in trouble leave the water"});
}

std::vector<GoesWith> all() {
    using A = Axis;
    using namespace engine;
    std::vector<GoesWith> r;
    // A normal one has a calm heart, the others have their trouble.
    r.push_back({A::normal, of({normal::yes}), A::calm, but({calm::none}), "a normal heart does something"});
    r.push_back(
        {A::normal, of({normal::yes}), A::trouble, of({trouble::none}), "a normal heart has no trouble"});
    r.push_back(
        {A::normal, of({normal::no}), A::calm, of({calm::none}), "a heart that is not normal is not calm"});
    r.push_back({A::normal, of({normal::no}), A::trouble, but({trouble::none}),
                 "what is not normal has its trouble"});
    r.push_back(
        {A::normal, of({normal::yes}), A::cause, of({cause::none}), "nothing is behind a normal heart"});
    r.push_back({A::normal, of({normal::no}), A::cause, but({cause::none}),
                 "what is not normal has a cause, or none is found"});
    add_causes(r);
    // Places and what is at hand there.
    r.push_back({A::place, of({place::post}), A::instrument, of({instrument::horn, instrument::stethoscope}),
                 "the post has a horn and a stethoscope, no Doppler"});
    // What a task can show.
    r.push_back({A::calm, of({calm::early}), A::task, of({task::pattern, task::labour}),
                 "slowing in contractions shows only to one who listens through them"});
    r.push_back({A::trouble, of({trouble::late}), A::task, of({task::quick, task::pattern, task::labour}),
                 "slowing after contractions shows only to one who listens through them"});
    r.push_back({A::trouble, of({trouble::variable, trouble::prolonged}), A::task,
                 of({task::pattern, task::labour}), "falls need time: contractions or a labour"});
    r.push_back({A::trouble, of({trouble::rising}), A::task, of({task::count, task::labour}),
                 "a rise shows against her chart"});
    r.push_back({A::trouble, of({trouble::fast}), A::task, but({task::pattern}),
                 "contractions are listened through for slowing"});
    r.push_back({A::trouble, of({trouble::slow}), A::task, of({task::count, task::tell_apart, task::labour}),
                 "a slow heart is counted, told from the mother's, or acted on"});
    r.push_back({A::trouble, of({trouble::irregular}), A::task, of({task::count, task::quick, task::pattern}),
                 "missing beats show in counts"});
    r.push_back({A::trouble, of({trouble::twins}), A::task, of({task::find, task::labour}),
                 "two hearts are found or followed"});
    r.push_back({A::trouble, of({trouble::absent}), A::task, of({task::find, task::tell_apart, task::labour}),
                 "what is not there is searched for, not counted"});
    // Twins and two instruments.
    r.push_back({A::trouble, of({trouble::twins}), A::place, but({place::post}),
                 "twins are born at a centre or hospital"});
    r.push_back({A::trouble, of({trouble::twins}), A::instrument, of({instrument::doppler, instrument::both}),
                 "two hearts in the same minute need a Doppler"});
    r.push_back({A::trouble, of({trouble::twins}), A::position,
                 of({position::back_front, position::back_side}), "the first of twins lies head down here"});
    // How hard it is.
    r.push_back(
        {A::trouble, of({trouble::late, trouble::slow}), A::level, from_level(2), "too hard for level 1"});
    r.push_back({A::calm, of({calm::early}), A::level, from_level(2), "too hard for level 1"});
    r.push_back({A::trouble, of({trouble::prolonged}), A::level, from_level(2), "too hard for level 1"});
    r.push_back({A::trouble, of({trouble::variable, trouble::rising, trouble::irregular}), A::level,
                 from_level(3), "too hard below level 3"});
    r.push_back({A::trouble, of({trouble::twins, trouble::absent}), A::level, from_level(4),
                 "too hard below level 4"});
    r.push_back({A::position, of({position::breech}), A::level, from_level(2), "too hard for level 1"});
    r.push_back({A::position, of({position::back_behind, position::across}), A::level, from_level(3),
                 "too hard below level 3"});
    r.push_back({A::boundary, of({boundary::yes}), A::level, from_level(2), "too hard for level 1"});
    // Lying across.
    r.push_back({A::position, of({position::across}), A::task, of({task::count, task::find, task::labour}),
                 "a baby lying across is found, counted, and told of"});
    r.push_back({A::position, of({position::across}), A::trouble,
                 of({trouble::none, trouble::fast, trouble::prolonged, trouble::absent}),
                 "with a baby lying across there is no labour to go through"});
    r.push_back({A::position, of({position::across}), A::calm, but({calm::early}),
                 "slowing with a head deep in the pelvis needs a head there"});
    r.push_back({A::position, of({position::breech}), A::calm, but({calm::early}),
                 "slowing with a head deep in the pelvis needs a head there"});
    // On a limit.
    r.push_back(
        {A::boundary, of({boundary::yes}), A::normal, of({normal::yes}), "a limit has no trouble beside it"});
    r.push_back(
        {A::boundary, of({boundary::yes}), A::calm, but({calm::early}), "a limit has no slowing beside it"});
    r.push_back({A::boundary, of({boundary::yes}), A::task, of({task::count, task::quick, task::tell_apart}),
                 "limits are counted, and like rates told apart"});
    r.push_back({A::boundary, of({boundary::yes}), A::position,
                 of({position::back_front, position::back_side}), "one thing hard at a time"});
    r.push_back({A::boundary, of({boundary::yes}), A::variant, of({variant::none, variant::generator}),
                 "one thing hard at a time"});
    // What else is the matter.
    r.push_back({A::variant, of({variant::injection}), A::trouble, of({trouble::late}),
                 "an injection to hurry gives too many contractions and slowing after them"});
    r.push_back({A::variant, of({variant::injection, variant::high_pressure}), A::task,
                 of({task::pattern, task::labour}), "it is asked for and acted on"});
    r.push_back({A::variant, of({variant::high_pressure}), A::trouble,
                 of({trouble::late, trouble::prolonged}), "high pressure or a fit slows the heart"});
    r.push_back({A::variant, of({variant::high_pressure}), A::task, of({task::labour}),
                 "it is measured and acted on"});
    r.push_back({A::variant, of({variant::in_water}), A::instrument, of({instrument::doppler}),
                 "in water only a Doppler can be used"});
    r.push_back({A::variant, of({variant::in_water}), A::trouble,
                 of({trouble::none, trouble::late, trouble::fast}), "women in trouble leave the water"});
    r.push_back({A::variant, of({variant::in_water}), A::position,
                 of({position::back_front, position::back_side, position::back_behind}),
                 "only with the head down she goes into water"});
    r.push_back({A::variant, of({variant::interrupted}), A::task,
                 of({task::count, task::tell_apart, task::pattern}), "a count is broken into"});
    r.push_back({A::variant, of({variant::second_twin}), A::trouble,
                 of({trouble::none, trouble::fast, trouble::slow, trouble::prolonged}),
                 "the second twin is alone by now and soon born"});
    r.push_back({A::variant, of({variant::second_twin}), A::task, of({task::count, task::find, task::labour}),
                 "the second twin is found, counted and followed"});
    r.push_back({A::variant, of({variant::second_twin}), A::place, but({place::post}),
                 "twins are born at a centre or hospital"});
    r.push_back({A::variant, of({variant::second_twin}), A::calm, but({calm::early}), "no head is deep yet"});
    r.push_back({A::variant, of({variant::second_twin}), A::level, from_level(3), "too hard below level 3"});
    r.push_back({A::trouble, of({trouble::twins}), A::variant,
                 of({variant::none, variant::preterm, variant::thin_green, variant::generator}),
                 "one thing hard at a time"});
    r.push_back({A::trouble, of({trouble::absent}), A::variant,
                 of({variant::none, variant::preterm, variant::generator}), "one thing hard at a time"});
    return r;
}

}  // namespace

const std::vector<GoesWith>& what_goes_together() {
    static const std::vector<GoesWith> rules = all();
    return rules;
}

int broken(const Case& c) {
    int n = 0;
    for (const GoesWith& rule : what_goes_together()) n += rule.holds(c) ? 0 : 1;
    return n;
}

const GoesWith* apart(Axis a, int value_a, Axis b, int value_b) {
    for (const GoesWith& rule : what_goes_together()) {
        if (rule.of == a && rule.needs == b && (rule.values >> value_a & 1u) &&
            !(rule.allowed >> value_b & 1u))
            return &rule;
        if (rule.of == b && rule.needs == a && (rule.values >> value_b & 1u) &&
            !(rule.allowed >> value_a & 1u))
            return &rule;
    }
    return nullptr;
}

}  // namespace engine
