#include "engine/scoring/contractions_written.h"

#include "engine/scoring/aspects.h"
#include "engine/scoring/steps.h"
#include "engine/scoring/which_count.h"
#include "sim/body/palpation.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

constexpr std::int64_t ten_minutes_us = 600'000'000, half_hour_us = 1'800'000'000;
constexpr double right_per_10min = 1, right_length_s = 15, right_length_share = 0.25;  // [practice]

sim::LabourTime course_end(const Played& played) {
    return {static_cast<std::int64_t>(played.course.size()) * sim::course_tick_us};
}

double came_per_10min(const Played& played, std::int64_t from_us, std::int64_t to_us) {
    const auto n =
        std::count_if(played.contractions.begin(), played.contractions.end(),
                      [&](const Contraction& c) { return c.peak.us >= from_us && c.peak.us < to_us; });
    return to_us > from_us ? static_cast<double>(n) * 6e8 / static_cast<double>(to_us - from_us) : 0;
}

// Hard between contractions too, at a moment when none runs.
bool never_soft(const Played& played, sim::LabourTime t) {
    const sim::CourseTick* rest = nullptr;
    for (std::int64_t us = t.us; us >= 0 && !rest; us -= sim::course_tick_us)
        if (const sim::CourseTick& tick = tick_at(played, {us}); !tick.in_contraction) rest = &tick;
    return rest && sim::firmness(*rest) == sim::Firmness::hard;
}

class WombReader {
public:
    WombReader(const Evidence& e, const Event& written) : e_(e), w_(written) {
        out_.written = &written;
        out_.at_s = written.t.seconds();
        to_us_ = std::min(std::max(written.t.us, ten_minutes_us), course_end(e.played).us);
        from_us_ = std::max<std::int64_t>(0, to_us_ - ten_minutes_us);
        out_.per_10min = to_tenth(came_per_10min(e.played, from_us_, to_us_));
        double sum = 0;
        int n = 0;
        for (const Contraction& c : e.played.contractions)
            if (c.ended && c.peak.us >= from_us_ && c.peak.us < to_us_) {
                sum += c.to.seconds() - c.from.seconds();
                ++n;
            }
        out_.length_s = n > 0 ? to_tenth(sum / n) : 0;
    }

    ContractionsWritten read() {
        if (std::none_of(e_.played.womb_felt.begin(), e_.played.womb_felt.end(),
                         [&](const auto& felt) { return felt.first < w_.t; })) {
            wrong("Contractions were written, and no hand had lain on the womb.");
            return std::move(out_);
        }
        often();
        lasting();
        if (w_.rests == "soft" && never_soft(e_.played, w_.t))
            wrong("You wrote that the womb goes soft between; it stayed hard.");
        if (w_.rests == "stays_hard" && !never_soft(e_.played, w_.t))
            wrong("You wrote that the womb stays hard between; it went soft.");
        return std::move(out_);
    }

private:
    void say(const std::string& sentence) { out_.why += (out_.why.empty() ? "" : " ") + sentence; }
    void wrong(const std::string& sentence) {
        out_.verdict = Verdict::partly;
        say(sentence);
    }

    // Short of five minutes nobody can tell how many come in ten.
    void often() {
        if (!w_.per_10min || to_us_ - from_us_ < ten_minutes_us / 2) return;
        const int said = *w_.per_10min;
        const bool many = too_many_contractions(e_.protocol, said);
        const std::int64_t long_from = std::max<std::int64_t>(0, to_us_ - half_hour_us);
        const bool were_many = too_many_contractions(e_.protocol, out_.per_10min),
                   still_many =
                       too_many_contractions(e_.protocol, came_per_10min(e_.played, long_from, to_us_));
        const double off = std::fabs(said - out_.per_10min);
        if (off > right_per_10min + 1e-9 || (off > 0.5 && many != were_many && many != still_many)) {
            wrong(fmt::format("You wrote {} contraction{} in ten minutes; {:g} came{}.", said,
                              said == 1 ? "" : "s", out_.per_10min,
                              were_many ? ", " + too_many_in_words(e_.protocol) : ""));
            return;
        }
        if (many)
            say(fmt::format("{} contractions in ten minutes: {}.", said, too_many_in_words(e_.protocol)));
        else if (alerts_at_contractions(e_.protocol, said))
            say(fmt::format(
                "{} contraction{} in ten minutes {} few: an alert in this protocol's other column.", said,
                said == 1 ? "" : "s", said == 1 ? "is" : "are"));
    }

    void lasting() {
        if (!w_.length_s || out_.length_s <= 0) return;
        if (std::fabs(*w_.length_s - out_.length_s) >
            std::max(right_length_s, right_length_share * out_.length_s)) {
            wrong(fmt::format("You wrote {} s long; a hand could feel them for {:.0f} s.", *w_.length_s,
                              out_.length_s));
            return;
        }
        const ContractionAlerts& alerts = e_.protocol.contraction_alerts;
        if (alerts_at_contraction_length(e_.protocol, sim::Seconds{static_cast<double>(*w_.length_s)}))
            say(*w_.length_s > alerts.long_above.value
                    ? fmt::format("{} s is longer than {:.0f} s: an alert in this protocol's other column.",
                                  *w_.length_s, alerts.long_above.value)
                    : fmt::format("{} s is shorter than {:.0f} s: an alert in this protocol's other column.",
                                  *w_.length_s, alerts.short_below.value));
    }

    const Evidence& e_;
    const Event& w_;
    std::int64_t from_us_ = 0, to_us_ = 0;
    ContractionsWritten out_;
};

}  // namespace

std::vector<ContractionsWritten> contractions_written(const Evidence& e) {
    std::vector<ContractionsWritten> all;
    for (const Event& n : e.played.notes)
        if (n.what == Do::report_contractions) all.push_back(WombReader(e, n).read());
    return all;
}

std::string too_many_in_words(const Protocol& protocol) {
    const ContractionLimit& most = protocol.too_many;
    return most.limit_is_normal ? fmt::format("more than the {:g} this protocol allows", most.per_10min)
                                : fmt::format("{:g} and more are too many in this protocol", most.per_10min);
}

void add_contractions(const Evidence& e, AspectScore& record) {
    const std::vector<ContractionsWritten> all = contractions_written(e);
    if (all.empty()) return;
    const ContractionsWritten* told = &all.back();
    for (const ContractionsWritten& w : all)
        if (w.verdict > told->verdict) told = &w;
    record.figures["contractions_per_10min"] = told->per_10min;
    if (told->length_s > 0) record.figures["contraction_length_s"] = told->length_s;
    if (told->why.empty()) return;
    record.why += (record.why.empty() ? "" : " ") + told->why;
    if (worse(record.verdict, told->verdict) != record.verdict) record.follows_from = std::nullopt;
    record.verdict = worse(record.verdict, told->verdict);
}

std::optional<NextTime> advice_on_contractions(const Evidence& e) {
    for (const ContractionsWritten& w : contractions_written(e))
        if (w.verdict != Verdict::met)
            return NextTime{
                fmt::format("Lay a hand on the womb for ten minutes by the clock and count each time it "
                            "hardens: {:g} came here, {}.",
                            w.per_10min,
                            too_many_contractions(e.protocol, w.per_10min)
                                ? too_many_in_words(e.protocol)
                                : fmt::format("each about {:.0f} s", w.length_s)),
                w.at_s};
    return std::nullopt;
}

}  // namespace engine
