#include "ui/terminal/report_print.h"

#include "ui/terminal/input_output.h"

#include <cmath>
#include <cstdint>
#include <fmt/format.h>
#include <memory>
#include <nlohmann/json.hpp>

namespace ui {
namespace {

using OrderedJson = nlohmann::ordered_json;

// A number of people is 8, not 8.0; JSON knows one kind of number.
OrderedJson number_json(double value) {
    constexpr double largest_exact = 9007199254740992.0;  // 2^53
    if (std::fabs(value) < largest_exact && value == std::floor(value))
        return static_cast<std::int64_t>(value);
    return value;
}

OrderedJson figures_json(const engine::Report& report) {
    OrderedJson out = OrderedJson::object(), absent = OrderedJson::object(), remarks = OrderedJson::array();
    for (const auto& [name, value] : report.lines()) {
        if (const auto* figure = std::get_if<engine::Figure>(&value)) {
            out[name] = figure->known() ? number_json(**figure) : OrderedJson();
            if (!figure->known()) absent[name] = figure->why();
        } else if (const auto* words = std::get_if<std::string>(&value)) {
            if (name == "remark")
                remarks.push_back(*words);
            else
                out[name] = *words;
        } else if (const auto* numbers = std::get_if<std::vector<double>>(&value)) {
            out[name] = OrderedJson::array();
            for (const double one : *numbers) out[name].push_back(number_json(one));
        } else if (const auto* names = std::get_if<std::vector<std::string>>(&value)) {
            out[name] = *names;
        } else if (const auto* part = std::get_if<std::shared_ptr<engine::Report>>(&value)) {
            out[name] = figures_json(**part);
        } else {
            OrderedJson rows = OrderedJson::array();
            for (const engine::Report& row : std::get<engine::Report::Rows>(value))
                rows.push_back(figures_json(row));
            out[name] = std::move(rows);
        }
    }
    if (!absent.empty()) out["absent"] = std::move(absent);
    if (!remarks.empty()) out["remarks"] = std::move(remarks);
    return out;
}

std::string figures_cell(const engine::Figure& figure) {
    return figure.known() ? fmt::format("{:.6g}", *figure) : "- (" + figure.why() + ")";
}

void figures_text(const engine::Report& report, const std::string& indent, std::string& out) {
    for (const auto& [name, value] : report.lines()) {
        const std::string lead = fmt::format("{}{:<28} ", indent, name);
        if (const auto* figure = std::get_if<engine::Figure>(&value)) {
            out += lead + figures_cell(*figure) + "\n";
        } else if (const auto* words = std::get_if<std::string>(&value)) {
            if (!words->empty()) out += lead + *words + "\n";
        } else if (const auto* numbers = std::get_if<std::vector<double>>(&value)) {
            out += lead;
            for (double x : *numbers) out += fmt::format("{:.4g} ", x);
            out.back() = '\n';
        } else if (const auto* names = std::get_if<std::vector<std::string>>(&value)) {
            out += lead;
            for (const std::string& one : *names) out += one + " ";
            out.back() = '\n';
        } else if (const auto* part = std::get_if<std::shared_ptr<engine::Report>>(&value)) {
            out += indent + name + "\n";
            figures_text(**part, indent + "  ", out);
        } else {
            out += indent + name + "\n";
            for (const engine::Report& row : std::get<engine::Report::Rows>(value)) {
                figures_text(row, indent + "  ", out);
                out += "\n";
            }
        }
    }
}

}  // namespace

std::string report_json(const engine::Report& report) { return figures_json(report).dump(2) + "\n"; }

std::string report_text(const engine::Report& report) {
    std::string out;
    figures_text(report, "", out);
    return out;
}

void print_report(const engine::Report& report, bool json) {
    write_out("-", json ? report_json(report) : report_text(report));
}

}  // namespace ui
