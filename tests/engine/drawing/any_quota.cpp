// Any quota at all: what it draws is read without a fault, or it says which shares cannot be.
#include "engine/drawing/drawing.h"
#include "engine/drawing/goes_together.h"
#include "tests/engine/scenario/lines_of.h"

#include <catch2/catch.hpp>
#include <rapidcheck.h>

#include <numeric>

using namespace engine;

namespace {

// Shares of some of an axis's words, whole percents that sum to 100.
std::string random_section(Axis axis) {
    const AxisWords& words = words_of(axis);
    const std::size_t first = words.words.front() == "-" ? 1 : 0;
    std::vector<int> weights;
    int sum = 0;
    for (std::size_t i = first; i < words.words.size(); ++i) {
        weights.push_back(*rc::gen::weightedElement<int>({{1, 0}, {2, 1}, {1, 3}}));
        sum += weights.back();
    }
    if (sum == 0) return "";
    std::string text = "[" + std::string(words.section) + "]\n";
    int left = 100;
    std::size_t last = 0;
    for (std::size_t i = 0; i < weights.size(); ++i)
        if (weights[i] > 0) last = i;
    for (std::size_t i = 0; i < weights.size(); ++i) {
        if (weights[i] == 0) continue;
        const int part = i == last ? left : weights[i] * 100 / sum;
        left -= part;
        text += std::string(words.words[first + i]) + " = \"" + std::to_string(part) + " %\"\n";
    }
    return text;
}

}  // namespace

TEST_CASE("Any quota: its drawings are read without a fault, or the shares that do not fit are named",
          "[quota]") {
    const Protocol who = shipped_protocol("who-2018");
    int drew = 0, refused = 0;
    const bool held = rc::check("any quota", [&] {
        std::string text = "format = \"fullminute-quota/1\"\nid = \"any\"\ntitle = \"Any\"\nscenarios = " +
                           std::to_string(*rc::gen::inRange(1, 9)) + "\nnormal = \"" +
                           std::to_string(*rc::gen::inRange(0, 101)) + " %\"\n";
        if (*rc::gen::weightedElement<bool>({{1, true}, {3, false}}))
            text += "to_nothing = \"" + std::to_string(*rc::gen::inRange(0, 101)) + " %\"\n";
        if (*rc::gen::weightedElement<bool>({{1, true}, {3, false}}))
            text += "boundary = \"" + std::to_string(*rc::gen::inRange(0, 51)) + " %\"\n";
        for (const Axis axis : {Axis::task, Axis::level, Axis::calm, Axis::trouble, Axis::instrument,
                                Axis::place, Axis::position})
            if (*rc::gen::weightedElement<bool>({{1, true}, {2, false}})) text += random_section(axis);
        for (const Axis axis : {Axis::cause, Axis::variant})
            if (*rc::gen::weightedElement<bool>({{1, true}, {5, false}})) text += random_section(axis);
        const auto quota = read_quota(text, "any.toml");
        RC_LOG() << text;
        RC_ASSERT(quota.ok());
        const auto drawn = draw(quota.value(), who, {*rc::gen::inRange<std::uint64_t>(0, 1000000)});
        if (!drawn.ok()) {
            ++refused;
            for (const Fault& fault : drawn.faults()) {
                RC_LOG() << in_one_line(fault);
                RC_ASSERT(fault.line > 0);
                RC_ASSERT(!fault.allowed.empty());
                RC_ASSERT((fault.what.find('.') != std::string::npos || fault.what == "to_nothing" ||
                           fault.what == "boundary" || fault.what == "normal"));
            }
            return;
        }
        ++drew;
        RC_ASSERT(static_cast<int>(drawn->size()) == quota->scenarios);
        for (const DrawnScenario& one : drawn.value()) {
            RC_ASSERT(broken(one.asked.what) == 0);
            const auto read = read_scenario(one.text, one.id + ".toml");
            for (const std::string& line : lines_of(read.ok() ? std::vector<Fault>{} : read.faults()))
                RC_LOG() << line;
            RC_ASSERT(read.ok());
        }
    });
    CHECK(held);
    CHECK(drew >= 20);  // of a hundred: the property is not empty on either side
    CHECK(refused >= 5);
}
