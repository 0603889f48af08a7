// FORMAT.md, "How the body answers", says what the rows of the body say.
#include "sim/course/course.h"
#include "sim/course/measures.h"
#include "tests/engine/scenario/lines_of.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>

namespace {

std::string in_time(sim::Seconds time) {
    const long s = std::lround(time.value);
    return s >= 120 && s % 60 == 0 ? std::to_string(s / 60) + " min" : std::to_string(s) + " s";
}

std::string percent(double part) { return std::to_string(std::lround(part * 100)) + " %"; }

std::string word(sim::Trouble trouble) {
    using sim::Trouble;
    switch (trouble) {
        case Trouble::none: return "none";
        case Trouble::lying_flat: return "lying_flat";
        case Trouble::cord_pressure: return "cord_pressure";
        case Trouble::cord_prolapse: return "cord_prolapse";
        case Trouble::too_many_contractions: return "too_many_contractions";
        case Trouble::fever: return "fever";
        case Trouble::bleeding: return "bleeding";
        case Trouble::mothers_medicine: return "mothers_medicine";
        case Trouble::scar_gives_way: return "scar_gives_way";
        case Trouble::unknown: return "unknown";
    }
    return "";
}

std::string act(sim::Act a) { return "`" + std::string(sim::name_of(a)) + "`"; }

std::string words(const sim::Measure& m) {
    std::string text;
    switch (m.done) {
        case sim::Done::by_act: text = act(m.act); break;
        case sim::Done::lies_another: text = "lies otherwise than before, not flat"; break;
        case sim::Done::not_flat: text = "any position but flat"; break;
    }
    if (m.needs == sim::Needs::drip_running) text += ", where a drip ran";
    if (m.needs == sim::Needs::pushing) text += ", if she pushed";
    return text;
}

std::string table_of_measures() {
    std::string table =
        "| trouble | measure | takes away | until it is done | then nine tenths over | source |\n"
        "| --- | --- | --- | --- | --- | --- |\n";
    for (const sim::Measure& m : sim::measures())
        table += "| `" + word(m.trouble) + "` | " + words(m) + " | " + percent(m.takes_away) + " | " +
                 in_time(sim::act_takes(m.act)) + " | " + in_time(m.works_over) + " | " +
                 std::string(m.source) + " |\n";
    return table;
}

std::string table_of_harms() {
    std::string table =
        "| trouble | act | what help leaves is cut to | and the fall grows by | source |\n"
        "| --- | --- | --- | --- | --- |\n";
    for (const sim::Harm& h : sim::harms())
        table += "| `" + word(h.trouble) + "` | " + act(h.act) + " | " + percent(h.leaves_of_relief) + " | " +
                 percent(h.deepens) + " | " + std::string(h.source) + " |\n";
    return table;
}

std::string table_of_times() {
    std::string table =
        "| act | until it is done |\n"
        "| --- | --- |\n";
    for (int a = 1; a < static_cast<int>(sim::Act::count_); ++a) {
        const auto which = static_cast<sim::Act>(a);
        table += "| " + act(which) + " | " + in_time(sim::act_takes(which)) + " |\n";
    }
    return table;
}

constexpr std::string_view section = "## How the body answers";

}  // namespace

// Writes the tables into the page again after a row was changed: test_engine_scenario
// "[.write-body-answers]".
TEST_CASE("The tables of the body's answers are written again", "[.write-body-answers]") {
    std::string page = bytes_at("scenarios/FORMAT.md");
    for (const std::string& table : {table_of_measures(), table_of_harms(), table_of_times()}) {
        const std::string heading = table.substr(0, table.find('\n') + 1);
        const std::size_t from = page.find(heading, page.find(section));
        REQUIRE(from != std::string::npos);
        page.replace(from, page.find("\n\n", from) + 1 - from, table);
    }
    std::ofstream(FULLMINUTE_SOURCE_DIR "/scenarios/FORMAT.md", std::ios::binary) << page;
}

TEST_CASE("FORMAT.md holds every measure, harm and time of the body, as its rows have them",
          "[format page]") {
    const std::string page = bytes_at("scenarios/FORMAT.md");
    REQUIRE(page.find(section) != std::string::npos);
    CHECK(page.find("\n\n" + table_of_measures() + "\n") != std::string::npos);
    CHECK(page.find("\n\n" + table_of_harms() + "\n") != std::string::npos);
    CHECK(page.find("\n\n" + table_of_times() + "\n") != std::string::npos);
}

TEST_CASE("The page says which troubles answer to nothing: those without a row", "[format page]") {
    const std::string page = bytes_at("scenarios/FORMAT.md");
    std::string silent;
    for (int t = 1; t <= static_cast<int>(sim::Trouble::unknown); ++t) {
        const auto trouble = static_cast<sim::Trouble>(t);
        bool answers = false;
        for (const sim::Measure& m : sim::measures()) answers = answers || m.trouble == trouble;
        if (!answers) silent += (silent.empty() ? "`" : " and `") + word(trouble) + "`";
    }
    CHECK(page.find(silent + " answer to nothing.") != std::string::npos);
}
