// What is typed and not written yet: nothing of it is lost when the program is killed.
#include "ui/bedside/bedside.h"
#include "ui/bedside/number_in.h"

#include <algorithm>
#include <cmath>

namespace ui {

namespace {
constexpr double between_s = 1;  // a second of typing is the most that can be lost

// A place on her belly, in hundredths of a centimetre: "600,-300".
std::string spot_text(double x_cm, double y_cm) {
    return std::to_string(std::lround(x_cm * 100)) + ',' + std::to_string(std::lround(y_cm * 100));
}

}  // namespace

std::map<std::string, std::string*> BedsideScreen::typed() {
    return {{"beats", &beats_},
            {"rate", &rate_},
            {"pulse", &pulse_},
            {"done", &done_},
            {"note", &note_},
            {"situation", &situation_},
            {"background", &background_},
            {"assessment", &assessment_},
            {"request", &request_},
            {"per_10min", &per_10min_},
            {"length_s", &length_s_}};
}

std::map<std::string, BedsideScreen::Pick> BedsideScreen::picked() {
    return {{"plan", {&plan_, plan_fresh_}}, {"strength", {&strength_, -1}}, {"rests", {&rests_, -1}},
            {"when", {&when_, -1}},         {"slowing", {&slowing_, -1}},   {"source", {&source_, -1}},
            {"baseline", {&baseline_, -1}}, {"around", {&around_, -1}},     {"rhythm", {&rhythm_, -1}}};
}

std::map<std::string, std::string> BedsideScreen::drafts_now() {
    std::map<std::string, std::string> now;
    for (const auto& [field, text] : typed()) now[field] = *text;
    for (const auto& [field, pick] : picked())
        now[field] = *pick.which == pick.fresh ? "" : std::to_string(*pick.which);
    now["tapping"] = tapping_ ? "1" : "";
    now["unsure"] = unsure_ ? "1" : "";
    now["left_spot"] = left_spot_ == left_fresh ? "" : spot_text(left_spot_.x_cm, left_spot_.y_cm);
    now["right_spot"] = right_spot_ == right_fresh ? "" : spot_text(right_spot_.x_cm, right_spot_.y_cm);
    return now;
}

// A damaged journal may hold anything: what is no place on her is left out.
void BedsideScreen::bring_back(Spot& spot, const std::string& kept) {
    const std::size_t comma = kept.find(',');
    if (comma == std::string::npos) return;
    const auto x = number_in(std::string_view(kept).substr(0, comma)),
               y = number_in(std::string_view(kept).substr(comma + 1));
    if (x && y) spot = {std::clamp(*x / 100.0, -16.0, 16.0), std::clamp(*y / 100.0, -18.0, 20.0)};
}

void BedsideScreen::bring_drafts_back() {
    const std::map<std::string, std::string>& found = session_->drafts();
    for (auto& [field, text] : typed())
        if (const auto kept = found.find(field); kept != found.end()) *text = kept->second;
    for (auto& [field, pick] : picked())
        if (const auto kept = found.find(field); kept != found.end())
            // a damaged journal may hold anything
            *pick.which = number_in(kept->second).value_or(pick.fresh);
    const auto text_of = [&found](const char* field) {
        const auto kept = found.find(field);
        return kept == found.end() ? std::string() : kept->second;
    };
    tapping_ = text_of("tapping") == "1";
    unsure_ = text_of("unsure") == "1";
    bring_back(left_spot_, text_of("left_spot"));
    bring_back(right_spot_, text_of("right_spot"));
    drafts_kept_ = found;
}

void BedsideScreen::keep_drafts(double now_s) {
    if (now_s < drafts_kept_s_ + between_s || session_->finished()) return;
    for (const auto& [field, text] : drafts_now()) {
        std::string& kept = drafts_kept_[field];
        if (kept == text) continue;
        kept = text;
        session_->keep_draft(field, kept);
        drafts_kept_s_ = now_s;
    }
}

}  // namespace ui
