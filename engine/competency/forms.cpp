#include "engine/competency/forms.h"

#include "engine/sha256.h"

#include <algorithm>
#include <cassert>
#include <numeric>
#include <utility>

namespace engine {

std::vector<int> quotas(int total, std::span<const long long> weights) {
    const long long sum = std::accumulate(weights.begin(), weights.end(), 0LL);
    assert(total >= 0 && sum > 0);
    std::vector<int> found(weights.size());
    std::vector<std::pair<long long, std::size_t>>
        rest;  // minus the remainder, so that sorting puts the largest first
    int left = total;
    for (std::size_t i = 0; i < weights.size(); ++i) {
        assert(weights[i] >= 0);
        found[i] = static_cast<int>(total * weights[i] / sum);
        left -= found[i];
        rest.push_back({-(total * weights[i] % sum), i});
    }
    std::sort(rest.begin(), rest.end());
    for (int i = 0; i < left; ++i) ++found[rest[static_cast<std::size_t>(i)].second];
    return found;
}

std::vector<std::string> drawing_order(const std::string& seed, const std::string& form,
                                       std::vector<std::string> ids) {
    std::vector<std::pair<std::string, std::string>> by;
    for (std::string& id : ids) {
        std::string digest = sha256_hex(seed + "|" + form + "|" + id);
        by.emplace_back(std::move(digest), std::move(id));
    }
    std::sort(by.begin(), by.end());
    for (std::size_t i = 0; i < by.size(); ++i) ids[i] = std::move(by[i].second);
    return ids;
}

Outcome<std::vector<std::string>> draw_form(const std::string& seed, const std::string& form,
                                            std::span<const Stratum> strata, std::span<const int> quota,
                                            int nth) {
    assert(strata.size() == quota.size() && nth >= 0);
    std::vector<std::string> drawn;
    std::vector<Fault> faults;
    for (std::size_t h = 0; h < strata.size(); ++h) {
        const auto wanted = static_cast<std::size_t>(quota[h]), from = wanted * static_cast<std::size_t>(nth);
        if (strata[h].ids.size() < from + wanted) {
            faults.push_back({"", 0, "stratum " + strata[h].name,
                              std::to_string(strata[h].ids.size()) + " items",
                              "at least " + std::to_string(from + wanted)});
            continue;
        }
        std::vector<std::string> order = drawing_order(seed, form, strata[h].ids);
        for (std::size_t i = from; i < from + wanted; ++i) drawn.push_back(std::move(order[i]));
    }
    if (!faults.empty()) return faults;
    return drawn;
}

}  // namespace engine
