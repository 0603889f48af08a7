#include "engine/trial/counter.h"

#include "sim/exact_math.h"
#include "sim/random.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace engine {
namespace {

// the fourth word of the counter: no stream of the labours
constexpr std::uint32_t of_candidates = 0x7269616c;
constexpr std::uint32_t draw_start = 1, draw_stop = 2;
constexpr std::uint32_t draw_lost = 100, draw_labour = 101, draw_guesses = 102, draw_guess = 103,
                        draw_hers = 104, draw_misread = 105, draw_forgets = 106, draw_late = 107;
constexpr std::uint32_t each = 1000;  // draws of the nth window or act lie so far apart
constexpr double usual_bpm = 140;

std::array<std::uint32_t, 4> words_of(const CandidateDraws& d, std::uint32_t what) {
    return sim::philox(
        {d.candidate, d.station, what, of_candidates},
        {static_cast<std::uint32_t>(d.trial.value), static_cast<std::uint32_t>(d.trial.value >> 32)});
}

}  // namespace

double usually_lost(int beats, double window_s) {
    if (beats <= 20) return 0;
    const double gap_s = window_s / beats;
    return 0.12 * (beats - 20) / (1 + sim::exact_exp((gap_s - 0.36) / 0.04));
}

double CandidateDraws::uniform(std::uint32_t what) const {
    const auto w = words_of(*this, what);
    const double whole = (w[0] >> 5) * 67108864.0 + (w[1] >> 6);
    return (whole + 0.5) / 9007199254740992.0;
}

double CandidateDraws::gaussian(std::uint32_t what) const { return sim::normal_quantile(uniform(what)); }

int CandidateDraws::poisson(std::uint32_t what, double mean) const {
    assert(mean >= 0 && mean <= 500);
    const double u = uniform(what);
    double chance = sim::exact_exp(-mean), sum = chance;
    int n = 0;
    while (u > sum && n < 2000) {
        ++n;
        chance *= mean / n;
        sum += chance;
    }
    return n;
}

sim::Seed CandidateDraws::labour() const {
    const auto w = words_of(*this, draw_labour);
    return {(static_cast<std::uint64_t>(w[0]) << 21 | w[1] >> 11)};  // 53 bits, as a typed seed has at most
}

double CandidateDraws::edge_s(const SyntheticCounter& counter, std::uint32_t nth, bool stop) const {
    return std::clamp(counter.watch_sd_s * gaussian((stop ? draw_stop : draw_start) + each * nth), -3.0, 3.0);
}

bool CandidateDraws::takes_hers(const SyntheticCounter& counter) const {
    return uniform(draw_hers) < counter.takes_hers;
}

int CandidateDraws::misread(const SyntheticCounter& counter) const {
    const double u = uniform(draw_misread);
    return u < counter.misreads ? 1 + std::min(2, static_cast<int>(3 * u / counter.misreads)) : 0;
}

bool CandidateDraws::forgets(const SyntheticCounter& counter, std::uint32_t nth_act) const {
    return uniform(draw_forgets + each * nth_act) < counter.forgets;
}

bool CandidateDraws::late(const SyntheticCounter& counter, std::uint32_t nth_act) const {
    return uniform(draw_late + each * nth_act) < counter.late;
}

const char* fault_of(const SyntheticCounter& counter) {
    const auto share = [](double x) { return x >= 0 && x <= 1; };
    if (!(counter.lost >= 0 && counter.lost <= 10)) return "the loss must be 0 to 10 times the usual";
    if (!(counter.watch_sd_s >= 0 && counter.watch_sd_s <= 2)) return "the watch must be 0 to 2 s off";
    if (!share(counter.pull)) return "the pull must be a share, 0 to 1";
    if (!share(counter.guesses)) return "guesses must be a share, 0 to 1";
    if (!share(counter.misreads)) return "what is misread must be a share, 0 to 1";
    if (!share(counter.forgets)) return "what is forgotten must be a share, 0 to 1";
    if (!share(counter.late)) return "what comes late must be a share, 0 to 1";
    if (!share(counter.takes_hers)) return "her beat taken for the baby's must be a share, 0 to 1";
    return "";
}

int beats_counted(const SyntheticCounter& counter, int beats, double window_s, const CandidateDraws& draws,
                  std::uint32_t nth) {
    if (draws.uniform(draw_guesses) < counter.guesses)
        return static_cast<int>(
            std::floor((90 + 101 * draws.uniform(draw_guess + each * nth)) * window_s / 60));
    const double mean = std::min(500.0, counter.lost * usually_lost(beats, window_s));
    const double heard = beats - draws.poisson(draw_lost + each * nth, mean);
    const double usual = usual_bpm * window_s / 60;
    return static_cast<int>(std::max(0.0, std::floor(heard + counter.pull * (usual - heard) + 0.5)));
}

}  // namespace engine
