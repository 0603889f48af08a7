// Pages: the right kind of file, the words in it, the right size, nothing cut off, the same bytes each time.
#include "tests/ui/canvas/trial_attempt.h"
#include "ui/canvas/surface.h"
#include "ui/paper/debrief_page.h"
#include "ui/paper/flow.h"
#include "ui/paper/map_page.h"
#include "ui/paper/verdict_words.h"

#include <catch2/catch.hpp>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

using namespace ui;

namespace {

std::string place(const std::string& name) {
    return (std::filesystem::temp_directory_path() / ("fullminute-pages-" + name)).string();
}

std::string bytes_of(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

// Width and height of a PNG: bytes 16..23, big endian (PNG specification, IHDR).
std::pair<unsigned, unsigned> size_of_png(const std::string& bytes) {
    const auto number = [&](std::size_t at) {
        unsigned n = 0;
        for (std::size_t i = 0; i < 4; ++i) n = n << 8 | static_cast<unsigned char>(bytes[at + i]);
        return n;
    };
    return {number(16), number(20)};
}

}  // namespace

TEST_CASE("Debrief: PDF, SVG and PNG begin with their magic; the PNG is A4 at 2 pixels a point, whole pages",
          "[pages]") {
    const auto judged = trial::judged();
    for (const char* kind : {".pdf", ".svg", ".png"}) REQUIRE(write_debrief(judged, place("a") + kind).ok());
    CHECK(bytes_of(place("a.pdf")).substr(0, 5) == "%PDF-");
    CHECK(bytes_of(place("a.svg")).find("<svg") < 200);
    const std::string png = bytes_of(place("a.png"));
    CHECK(png.substr(0, 8) == "\x89PNG\r\n\x1a\n");
    const auto [w, h] = size_of_png(png);
    CHECK(w == 1191);  // 595.276 points x 2
    CHECK(h == 3368);  // two pages of 841.89
}

TEST_CASE("Debrief: the same attempt gives the same PDF bytes, dated by no clock", "[pages]") {
    REQUIRE(write_debrief(trial::judged(), place("b1.pdf")).ok());
    REQUIRE(write_debrief(trial::judged(), place("b2.pdf")).ok());
    CHECK(bytes_of(place("b1.pdf")) == bytes_of(place("b2.pdf")));
}

TEST_CASE("Debrief: scenario, person, protocol, verdicts, cautions and the wording are words in the PDF",
          "[pages]") {
    REQUIRE(std::system("command -v pdftotext > /dev/null 2>&1") == 0);  // of poppler-utils
    REQUIRE(write_debrief(trial::judged(), place("c.pdf")).ok());
    REQUIRE(std::system(("pdftotext -layout " + place("c.pdf") + " " + place("c.txt")).c_str()) == 0);
    const std::string text = bytes_of(place("c.txt"));
    for (const char* part : {"Debrief", "A-014", "Bed 3, ten past two", "WHO 2018", "from memory", "you: 139",
                             "not done", "Call for help", "Guidance differs", "For learning only",
                             "page 1 of 2", "A normal count does not prove", "arithmetic: wrong factor"}) {
        INFO(part);
        CHECK(text.find(part) != std::string::npos);
    }
}

TEST_CASE("Debrief: what is from memory is said so in words, in cautions, origin and differing guidance",
          "[pages]") {
    REQUIRE(std::system("command -v pdftotext > /dev/null 2>&1") == 0);  // of poppler-utils
    auto judged = trial::judged();
    judged.protocol.origin = "Origin NICE 2022 (MEM): limits.";
    judged.protocol.cautions = {"Caution of FIGO 2015 (MEM)."};
    REQUIRE(judged.sheet.acts.size() > 1);
    for (auto& act : judged.sheet.acts) act.conflict = "Conflict with MCPC (CP).";
    REQUIRE(write_debrief(judged, place("mem.pdf")).ok());
    REQUIRE(std::system(("pdftotext -layout " + place("mem.pdf") + " " + place("mem.txt")).c_str()) == 0);
    const std::string text = bytes_of(place("mem.txt"));
    CHECK(text.find("Origin NICE 2022 (from memory): limits.") != std::string::npos);
    CHECK(text.find("Caution of FIGO 2015 (from memory).") != std::string::npos);
    CHECK(text.find("Conflict with MCPC") != std::string::npos);
    CHECK(text.find("(CP)") == std::string::npos);
    CHECK(text.find("MEM") == std::string::npos);
}

TEST_CASE("Debrief: a critical act that was missed stands before the advice", "[pages]") {
    REQUIRE(std::system("command -v pdftotext > /dev/null 2>&1") == 0);  // of poppler-utils
    auto judged = trial::judged();
    judged.sheet.critical_missed = {"not done: the first", "not done: the second"};
    judged.sheet.next_time = {{"Listen on.", 10}};
    REQUIRE(write_debrief(judged, place("grave.pdf")).ok());
    REQUIRE(std::system(("pdftotext -layout " + place("grave.pdf") + " " + place("grave.txt")).c_str()) == 0);
    const std::string text = bytes_of(place("grave.txt"));
    const auto grave = text.find("What mattered most, not done: the first; not done: the second");
    REQUIRE(grave != std::string::npos);
    CHECK(grave < text.find("Listen on."));
}

TEST_CASE("Debrief: long titles and long advice wrap and go over to more pages instead of being cut",
          "[pages]") {
    auto judged = trial::judged(true);
    for (int i = 0; i < 40; ++i) judged.sheet.acts.push_back(judged.sheet.acts[1]);
    REQUIRE(write_debrief(judged, place("d.png")).ok());
    const auto [w, h] = size_of_png(bytes_of(place("d.png")));
    CHECK(w == 1191);
    CHECK(h >= 3 * 1683);
}

TEST_CASE("Debrief: an attempt without windows, acts or a course is still a page", "[pages]") {
    engine::JudgedAttempt judged;
    judged.scenario.title = "Empty";
    CHECK(write_debrief(judged, place("e.pdf")).ok());
}

TEST_CASE("A page of another kind or in a folder that is not there is refused by name", "[pages]") {
    const auto other = write_debrief(trial::judged(), place("x.doc"));
    REQUIRE_FALSE(other.ok());
    CHECK(other.faults()[0].allowed.find(".pdf") != std::string::npos);
    for (const char* kind : {"pdf", "svg", "png"})
        CHECK_FALSE(write_debrief(trial::judged(), std::string("/no-such-folder/x.") + kind).ok());
    CHECK_FALSE(write_map_png({}, place("m.png")).ok());
}

TEST_CASE("Map: 900 by 1080 pixels", "[pages]") {
    REQUIRE(write_map_png({{0, 0, -3, -20}, {0.5, 0, -6, -20}, {0, 0.5, -9, -20}, {0.5, 0.5, -9, -20}},
                          place("m.png"))
                .ok());
    CHECK(size_of_png(bytes_of(place("m.png"))) == std::pair<unsigned, unsigned>{900, 1080});
}

TEST_CASE("Pages: parts go on in order, a heading never stands last, none reaches below the foot",
          "[pages]") {
    Flow flow(200, 300, 20, 30);  // inside: 20 .. 270
    std::vector<std::pair<int, double>> drawn;
    for (int i = 0; i < 12; ++i)
        flow.add(
            [i, &drawn](Canvas&, Box box) {
                drawn.push_back({i, box.y + 60});
                return 60.0;
            },
            10, i % 3 == 0);
    const auto made = flow.pages();
    Picture picture(200, 300);
    int expected = 0;
    for (const auto& page : made) {
        drawn.clear();
        page(picture.canvas());
        REQUIRE_FALSE(drawn.empty());
        for (const auto& [part, bottom] : drawn) {
            CHECK(part == expected++);
            CHECK(bottom <= 270);
        }
        CHECK(drawn.back().first % 3 != 0);  // not a heading
    }
    CHECK(expected == 12);
}

TEST_CASE("Each verdict has its own word and, where it judges, its own shape", "[pages]") {
    using engine::Verdict;
    std::set<std::string> words;
    std::set<Mark> marks;
    for (const Verdict verdict : {Verdict::met, Verdict::partly, Verdict::missed, Verdict::not_asked}) {
        words.insert(said(verdict, light_palette).says);
        marks.insert(said(verdict, light_palette).mark);
    }
    CHECK(words.size() == 4);
    CHECK(marks.size() == 4);
    CHECK(said_of_act("not_done", light_palette).mark != said_of_act("in_time", light_palette).mark);
    CHECK(said_of_act("late", light_palette).mark != said_of_act("in_time", light_palette).mark);
}
