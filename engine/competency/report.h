// Figures under their names, in order, for the terminal and for screens: a tree of numbers, absent figures
// with their reason, words, lists and rows.
#pragma once

#include "engine/competency/figure.h"

#include <memory>
#include <string>
#include <variant>
#include <vector>

namespace engine {

class Report {
public:
    using Rows = std::vector<Report>;
    using Value = std::variant<Figure, std::string, std::vector<double>, std::vector<std::string>,
                               std::shared_ptr<Report>, Rows>;
    struct Line {
        std::string name;
        Value value;
    };

    Report& put(std::string name, const Figure& figure) { return line(std::move(name), figure); }
    Report& put(std::string name, double number) { return line(std::move(name), Figure(number)); }
    Report& put(std::string name, std::size_t number) {
        return put(std::move(name), static_cast<double>(number));
    }
    Report& put(std::string name, int number) { return put(std::move(name), static_cast<double>(number)); }
    Report& put(const std::string& name, const Interval& i) {
        has_interval_ = true;
        put(name + "_low", i.low);
        return put(name + "_high", i.high);
    }
    Report& words(std::string name, std::string text) { return line(std::move(name), std::move(text)); }
    Report& remark(const std::string& text) { return text.empty() ? *this : words("remark", text); }
    Report& numbers(std::string name, std::vector<double> all) {
        return line(std::move(name), std::move(all));
    }
    Report& names(std::string name, std::vector<std::string> all) {
        return line(std::move(name), std::move(all));
    }
    Report& part(std::string name, Report report) {
        has_interval_ = has_interval_ || report.has_interval_;
        return line(std::move(name), std::make_shared<Report>(std::move(report)));
    }
    Report& rows(std::string name, Rows all) {
        for (const Report& one : all) has_interval_ = has_interval_ || one.has_interval_;
        return line(std::move(name), std::move(all));
    }

    const std::vector<Line>& lines() const { return lines_; }
    bool has_interval() const { return has_interval_; }  // itself or a part of it

private:
    Report& line(std::string name, Value value) {
        lines_.push_back({std::move(name), std::move(value)});
        return *this;
    }

    std::vector<Line> lines_;
    bool has_interval_ = false;
};

// Said once for the whole of it.
inline Report with_level(Report report) {
    if (report.has_interval()) report.remark("intervals (_low, _high): 95 %, two-sided, unless said");
    return report;
}

}  // namespace engine
