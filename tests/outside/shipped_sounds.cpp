// Every shipped labour, rendered by the program's own command and counted by SciPy (estimate_rate.py, which shares
// no code with it), against the program's own answer key: the baby where it is loudest, the mother where she is.
// Method and tolerance: squared Hilbert envelope (Doppler: plain), 12 Hz low pass, autocorrelation; 1 bpm.
#include <catch2/catch.hpp>

#include "tests/ui/terminal/run_program.h"

#include <cstdlib>

namespace {

struct Listened {
    std::string scenario, with, at;  // "best" or "X,Y"
    std::string who;                 // whose rate the sound must carry
    std::string kind;                // how the estimator listens
};

// The labours that have a heart, through each instrument of their place; and the mother where the story puts her.
const std::vector<Listened> listened{
    {"c01", "doppler", "best", "fetal", "doppler"}, {"q01", "doppler", "best", "fetal", "doppler"},
    {"f03", "doppler", "best", "fetal", "doppler"}, {"t04", "horn", "best", "fetal", "tones"},
    {"p02", "doppler", "best", "fetal", "doppler"}, {"p03", "doppler", "best", "fetal", "doppler"},
    {"l03", "doppler", "best", "fetal", "doppler"}, {"l05", "horn", "best", "fetal", "tones"},
    {"l06", "doppler", "best", "fetal", "doppler"}, {"t04", "horn", "-3,-12", "maternal", "tones"},
    {"f10", "horn", "-9,-9", "maternal", "blow"},
};
constexpr double for_s = 15;

struct Spell {
    double from_s = 0, bpm = 0;
};

// The steadiest 15 s of the first two minutes by the answer key, and the mean rate in it. An autocorrelation names the
// rate that is there most of the time: where the rate runs from 130 to 150 it and a mean are two different things.
Spell steadiest(const std::string& csv, const std::string& who) {
    std::vector<double> beats;
    for (const std::string& line : lines_of(csv))
        if (line.find("," + who + ",normal") != std::string::npos) beats.push_back(std::atof(line.c_str()));
    Spell best;
    double least = 1e9;
    for (int from = 2; from <= 105; ++from) {
        std::vector<double> gaps;
        for (std::size_t i = 0; i + 1 < beats.size(); ++i)
            if (beats[i] >= from && beats[i + 1] < from + for_s) gaps.push_back(beats[i + 1] - beats[i]);
        if (gaps.size() < 8) continue;
        double mean = 0, spread = 0;
        for (const double gap : gaps) mean += gap / static_cast<double>(gaps.size());
        for (const double gap : gaps) spread += (gap / mean - 1) * (gap / mean - 1);
        if (spread / static_cast<double>(gaps.size()) >= least) continue;
        least = spread / static_cast<double>(gaps.size());
        best = {static_cast<double>(from), 60 / mean};
    }
    return best;
}

}  // namespace

TEST_CASE("SciPy counts every shipped labour: baby at the best spot, mother at hers, each within 1 bpm",
          "[outside][sound]") {
    Folder folder;
    std::string sounds;
    std::vector<Spell> spells;
    for (std::size_t i = 0; i < listened.size(); ++i) {
        const Listened& one = listened[i];
        INFO(one.scenario);
        const Run beats = folder.run("beats " + one.scenario + " --out -");
        REQUIRE(beats.exit == 0);
        spells.push_back(steadiest(beats.out, one.who));
        REQUIRE(spells.back().bpm > 40);
        const std::string wav = "s" + std::to_string(i) + ".wav";
        const Run run = folder.run("sound " + one.scenario + " --with " + one.with + " --at=" + one.at +
                                   " --from " + std::to_string(spells.back().from_s) + " --for " +
                                   std::to_string(for_s) + " --out " + wav);
        REQUIRE(run.err == "");
        REQUIRE(run.exit == 0);
        sounds += " " + one.kind + ":" + (folder / wav).string();
    }
    const std::string command = "/usr/bin/python3 " FULLMINUTE_SOURCE_DIR
                                "/tests/outside/estimate_rate.py --from 0 --for 15" +
                                sounds + " >" + (folder / "rates").string();
    REQUIRE(std::system(command.c_str()) == 0);
    const auto rates = lines_of(text_of(folder / "rates"));
    REQUIRE(rates.size() == listened.size());
    for (std::size_t i = 0; i < listened.size(); ++i) {
        const Listened& one = listened[i];
        CAPTURE(one.scenario, one.with, one.at, one.who, spells[i].from_s, rates[i]);
        CHECK(std::atof(rates[i].c_str()) == Approx(spells[i].bpm).margin(1.0));
    }
}
