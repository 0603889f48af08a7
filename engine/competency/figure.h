// A figure that may not be known: the number, or in words why there is none. Never a made-up number.
#pragma once

#include <cassert>
#include <cmath>
#include <string>
#include <utility>

namespace engine {

class Figure {
public:
    // Not finite (sums beyond the range of numbers): absent.
    Figure(double value) : value_(value), known_(std::isfinite(value)) {
        if (!known_) why_ = "beyond the range of numbers";
    }
    static Figure absent(std::string why) { return Figure(std::move(why)); }

    bool known() const { return known_; }
    explicit operator bool() const { return known_; }
    double operator*() const {
        assert(known_);
        return value_;
    }
    const std::string& why() const { return why_; }  // empty when known

private:
    explicit Figure(std::string why) : why_(std::move(why)) { assert(!why_.empty()); }

    double value_ = 0;
    bool known_ = false;
    std::string why_;
};

struct Interval {
    Figure low, high;  // 95 %, two-sided, unless its function says otherwise

    static Interval absent(const std::string& why) { return {Figure::absent(why), Figure::absent(why)}; }
};

}  // namespace engine
