#include "engine/drawing/quota_table.h"
#include "engine/sha256.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace engine {
namespace {

constexpr Axis written_axes[] = {Axis::task,       Axis::level, Axis::calm,     Axis::trouble, Axis::cause,
                                 Axis::instrument, Axis::place, Axis::position, Axis::variant};

// Shares named in one section: together 100 %, or at most that where a rest is allowed.
void check_sum(const Quota& quota, Axis axis, FaultList& faults) {
    const Shares& shares = quota.of(axis);
    if (!shares.given) return;
    double sum = 0;
    for (const double percent : shares.percent) sum += std::max(0.0, percent);
    const bool rest = axis == Axis::variant;
    if (sum > 100 + 1e-9 || (!rest && sum < 100 - 1e-9))
        faults.add(shares.line, std::string(words_of(axis).section),
                   in_words(sum, Unit::percent) + " together",
                   rest ? "at most 100 % together" : "100 % together");
}

// Narrower, and a labour whose rate wanders by a beat or two never settles inside.
void check_rates(const Quota& quota, FaultList& faults) {
    constexpr double least_width_bpm = 4;
    for (const auto& [key, rate] :
         {std::pair{"rates.normal", &quota.normal_rate}, std::pair{"rates.slow", &quota.slow_rate},
          std::pair{"rates.fast", &quota.fast_rate}})
        if (rate->asked() && rate->to_bpm - rate->from_bpm < least_width_bpm)
            faults.add(rate->line, key,
                       in_words(rate->from_bpm, Unit::bpm) + " to " + in_words(rate->to_bpm, Unit::bpm),
                       "a range 4 bpm wide or more");
}

}  // namespace

Outcome<Quota> read_quota(std::string_view text, const std::string& file) {
    auto written = read_toml(text, file);
    if (!written.ok()) return written.faults();
    const Written& top = written.value();
    FaultList faults(file);
    Quota quota;
    quota.file = file;
    QuotaLanding landing{&quota};
    check_format(top, "quota", faults);
    check_id(top, file, faults);
    const auto none = [](const FieldShape&, const FieldValue&) {};
    read_section(quota_table(), "", top, "",
                 {"tasks", "levels", "when_normal", "when_not_normal", "causes", "instruments", "places",
                  "positions", "variants", "rates"},
                 landing, faults, none);
    for (const Axis axis : written_axes) {
        const std::string section(words_of(axis).section);
        const Written* table = top.part(section);
        if (table == nullptr) continue;
        read_section(quota_table(), section, *table, section, {}, landing, faults, none);
        if (table->kind == Written::Kind::table) quota.of(axis).line = table->line;
        check_sum(quota, axis, faults);
    }
    if (const Written* table = top.part("rates")) {
        read_section(quota_table(), "rates", *table, "rates", {}, landing, faults, none);
        check_rates(quota, faults);
    }
    if (!faults.empty()) return faults.by_line();
    quota.text = std::string(text);
    quota.sha256 = sha256_hex(text);
    return quota;
}

Outcome<Quota> read_quota_file(const std::string& path) {
    auto bytes = bytes_of(path);
    if (!bytes.ok()) return bytes.faults();
    return read_quota(bytes.value(), path);
}

std::vector<int> in_whole_numbers(const std::vector<double>& percent, int all) {
    std::vector<int> whole(percent.size());
    std::vector<double> left(percent.size());
    int given = 0;
    for (std::size_t i = 0; i < percent.size(); ++i) {
        const double exact = percent[i] / 100 * all;
        whole[i] = static_cast<int>(std::floor(exact + 1e-9));
        left[i] = exact - whole[i];
        given += whole[i];
    }
    std::vector<std::size_t> order(percent.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return left[a] > left[b] + 1e-9; });
    for (std::size_t i = 0; given < all; ++i, ++given) ++whole[order[i % order.size()]];
    return whole;
}

}  // namespace engine
