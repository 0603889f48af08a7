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
    double from_s = 20;
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
constexpr double for_s = 30;

// Mean rate of one heart's beats in the spell, from the answer key.
double key_rate(const std::string& csv, const std::string& who, double from_s) {
    double first = -1, last = -1;
    int beats = 0;
    for (const std::string& line : lines_of(csv)) {
        if (line.find("," + who + ",normal") == std::string::npos) continue;
        const double t = std::atof(line.c_str());
        if (t < from_s || t >= from_s + for_s) continue;
        if (first < 0) first = t;
        last = t;
        ++beats;
    }
    return beats < 2 ? 0 : 60.0 * (beats - 1) / (last - first);
}

}  // namespace

TEST_CASE("SciPy counts every shipped labour: baby at the best spot, mother at hers, each within 1 bpm",
          "[outside][sound]") {
    Folder folder;
    std::string sounds;
    for (std::size_t i = 0; i < listened.size(); ++i) {
        const Listened& one = listened[i];
        const std::string wav = "s" + std::to_string(i) + ".wav";
        const Run run = folder.run("sound " + one.scenario + " --with " + one.with + " --at=" + one.at + " --from " +
                                   std::to_string(one.from_s) + " --for " + std::to_string(for_s) + " --out " + wav);
        INFO(one.scenario << ": " << run.err);
        REQUIRE(run.exit == 0);
        sounds += " " + one.kind + ":" + (folder / wav).string();
    }
    const std::string command = "/usr/bin/python3 " FULLMINUTE_SOURCE_DIR
                                "/tests/outside/estimate_rate.py --from 0 --for 30" + sounds + " >" +
                                (folder / "rates").string();
    REQUIRE(std::system(command.c_str()) == 0);
    const auto rates = lines_of(text_of(folder / "rates"));
    REQUIRE(rates.size() == listened.size());
    for (std::size_t i = 0; i < listened.size(); ++i) {
        const Listened& one = listened[i];
        const Run beats = folder.run("beats " + one.scenario + " --out -");
        REQUIRE(beats.exit == 0);
        const double key = key_rate(beats.out, one.who, one.from_s);
        CAPTURE(one.scenario, one.with, one.at, one.who, key, rates[i]);
        REQUIRE(key > 40);
        CHECK(std::atof(rates[i].c_str()) == Approx(key).margin(1.0));
    }
}
