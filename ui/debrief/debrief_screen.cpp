#include "ui/debrief/debrief_layout.h"

#include "ui/canvas/surface.h"
#include "ui/paper/debrief_page.h"
#include "ui/paper/verdict_words.h"
#include "ui/window/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <utility>
#include <vector>

namespace ui {
namespace {

Theme theme_of(const Frame& frame) { return {light_palette, frame.scale()}; }

const char* title_of_card(int card) {
    static const std::array<const char*, 7> titles{
        "Strip",         "In words",    "Count", "Aspect by aspect", "Where it was loud",
        "What was done", "Keep in mind"};
    return titles[static_cast<std::size_t>(card)];
}

}  // namespace

DebriefScreen::Layout DebriefScreen::layout(Frame& frame) const {
    using enum Card;
    if (frame.width() / frame.scale() >= 1000 && frame.height() / frame.scale() >= 620)
        return {{{"What to do next time", {words, count, aspects}}, {"Place and acts", {place, acts, notes}}},
                true};
    return {{{"Words", {words}},
             {"Strip", {strip}},
             {"Count", {count}},
             {"Aspects", {aspects}},
             {"Place", {place}},
             {"Acts", {acts}},
             {"Notes", {notes}}},
            false};
}

DebriefScreen::DebriefScreen(const engine::JudgedAttempt& judged, SoundDevice& device,
                             std::string save_folder)
    : judged_(judged),
      device_(device),
      save_folder_(std::move(save_folder)),
      strip_(strip_of(judged)),
      map_(map_of(judged)),
      rehearing_(judged),
      view_(whole(strip_)) {
    if (!judged_.sheet.windows.empty()) count_ = judged_.sheet.windows.size() - 1;
    if (!judged_.sheet.next_time.empty())
        at_s_ = std::clamp(judged_.sheet.next_time.front().at_s, 0.0, strip_.length_s);
    if (save_folder_.empty()) {
        const char* home = std::getenv("HOME");
        save_folder_ = home != nullptr && *home != '\0' ? home : ".";
    }
    device_.stop();
}

DebriefScreen::~DebriefScreen() { device_.stop(); }

void DebriefScreen::hidden(bool is_hidden) {
    if (is_hidden) stop();
}

double DebriefScreen::draw_again_in_s() const {
    if (playing_) return 1.0 / 30;
    return wanted_s_ ? 0.05 : 60;
}

void DebriefScreen::save() {
    const std::string id = judged_.attempt.header.id.substr(0, 8);
    const std::string path =
        save_folder_ + "/debrief-" + judged_.scenario.id + (id.empty() ? "" : "-") + id + ".pdf";
    const auto outcome = write_debrief(judged_, path);
    said_fault_ = !outcome.ok();
    said_ = outcome.ok()
                ? std::string(ui::words("Saved as")) + " " + path
                : std::string(ui::words("Not saved")) + ": " + engine::in_one_line(outcome.faults().front());
}

void DebriefScreen::keys(Frame& frame) {
    if (frame.key('p')) playing() ? stop() : play_from(at_s_);
    if (frame.key('a')) leave_ = Leave::same_again;
    if (frame.key('n')) leave_ = Leave::another;
    if (frame.key('s')) save();
    if (frame.key('r')) leave_ = Leave::progress;
    if (frame.key(Key::escape)) leave_ = Leave::back;
    if (frame.key(Key::plus)) zoom(0.5);
    if (frame.key(Key::minus)) zoom(2.0);
    const auto& next = judged_.sheet.next_time;
    for (std::size_t i = 0; i < next.size() && i < 9; ++i)
        if (frame.key(static_cast<char>('1' + i))) play_from(next[i].at_s);
    const std::string has = frame.focused();
    if (has.empty() || has == "strip") {
        const double step = frame.shift() ? 10 : 1;
        if (frame.key(Key::left)) go_to(at_s_ - step);
        if (frame.key(Key::right)) go_to(at_s_ + step);
        if (frame.key(Key::home)) go_to(0);
        if (frame.key(Key::end)) go_to(strip_.length_s);
        if (has == "strip" && (frame.key(Key::space) || frame.key(Key::enter)))
            playing() ? stop() : play_from(at_s_);
    }
    if (leave_ != Leave::stay) stop();
}

// --- Drawing
// -------------------------------------------------------------------------------------------------------

void DebriefScreen::draw(Frame& frame) {
    keys(frame);
    follow_sound(frame);
    constexpr float edge = debrief_edge, gap = debrief_gap;
    const Layout lay = layout(frame);
    const int views = static_cast<int>(lay.views.size());
    if (frame.key('v')) shown_ = (shown_ + 1) % views;
    shown_ = std::clamp(shown_, 0, views - 1);

    Area rest{edge, 12, frame.width() - 2 * edge, frame.height() - 12 - gap};
    const Area head = rest.take_top(frame.px(40), 8);
    const float foot_h = frame.px(40) + note_row_height(frame, rest.w);
    const Area foot{rest.x, rest.bottom() - foot_h, rest.w, foot_h};
    rest.h -= foot_h + 12;
    std::vector<Area> cards;
    if (lay.strip_always) cards.push_back(rest.take_top(std::round(rest.h * 0.43f), gap));
    const std::vector<Card>& shown = lay.views[static_cast<std::size_t>(shown_)].cards;
    const std::array<float, 3> shares{0.46f, 0.27f, 0.27f};
    float x = rest.x;
    const float wide = rest.w - gap * static_cast<float>(shown.size() - 1);
    for (std::size_t i = 0; i < shown.size(); ++i) {
        const float w = shown.size() == 1 ? rest.w : std::round(wide * shares[i]);
        cards.push_back({x, rest.y, w, rest.h});
        x += w + gap;
    }
    frame.page(cards);
    header(frame, head, lay);
    std::size_t next = 0;
    if (lay.strip_always) strip_card(frame, cards[next++]);
    for (const Card card : shown) {
        const Area at = cards[next++];
        if (card == Card::strip)
            strip_card(frame, at);
        else if (card == Card::words)
            words_card(frame, at);
        else if (card == Card::count)
            count_card(frame, at);
        else
            picture_card(frame, at, card);
    }
    footer(frame, foot);
}

void DebriefScreen::count_card(Frame& frame, Area at) {
    Area inside = at.inside(frame.px(16));
    const auto& windows = judged_.sheet.windows;
    const std::string title =
        windows.empty() ? std::string(ui::words("No count")) : count_title(count_, windows.size());
    const float title_h = frame.height_of(title, Type::card, inside.w);
    frame.words_in(inside.take_top(title_h, frame.px(6)), title, Type::card);
    if (windows.empty()) {
        frame.words_in(inside, ui::words("No seconds were counted over in this labour."), Type::text);
        return;
    }
    if (windows.size() > 1) {
        std::vector<std::string> numbers;
        for (std::size_t i = 0; i < windows.size(); ++i) numbers.push_back(std::to_string(i + 1));
        const int columns = std::max(
            1, std::min(static_cast<int>(windows.size()), static_cast<int>(inside.w / frame.px(52))));
        const int rows = (static_cast<int>(windows.size()) + columns - 1) / columns;
        const float h = frame.px(36) * static_cast<float>(rows) + frame.px(8) * static_cast<float>(rows - 1);
        if (const auto chosen = frame.choice("count", inside.take_top(h, frame.px(8)), numbers,
                                             static_cast<int>(count_), columns))
            count_ = static_cast<std::size_t>(*chosen);
    }
    picture_card(frame, {inside.x, inside.y, inside.w, inside.h}, Card::count);
}

void DebriefScreen::picture_card(Frame& frame, Area at, Card card) {
    const Theme theme = theme_of(frame);
    Area inside = at;
    if (card != Card::count) {
        inside = at.inside(frame.px(16));
        frame.one_line(inside.take_top(frame.line_height(Type::card), frame.px(8)),
                       ui::words(title_of_card(static_cast<int>(card))), Type::card);
    }
    const auto draw_it = [&](Canvas& canvas, Box box) {
        switch (card) {
            case Card::count: return draw_count_card(canvas, box, judged_.sheet, count_, theme);
            case Card::aspects: return draw_aspects_card(canvas, box, judged_.sheet, theme);
            case Card::place: return draw_place_card(canvas, box, map_, theme);
            case Card::acts: return draw_acts_card(canvas, box, judged_, theme);
            default: return draw_notes_card(canvas, box, judged_, theme);
        }
    };
    const std::string key = fmt::format("debrief {} {} {}", static_cast<int>(card), count_, theme.scale);
    if (card == Card::place) {
        frame.picture(key, inside, [&](Canvas& canvas) { draw_it(canvas, {0, 0, inside.w, inside.h}); });
        return;
    }
    // Measured with the scroll bar's width left free, so that its coming changes nothing.
    const float w = inside.w - frame.px(18);
    const auto [measured, is_new] = heights_.try_emplace(fmt::format("{} {}", key, std::lround(w)), 0.0f);
    if (is_new) {
        Picture scratch(1, 1);
        measured->second = static_cast<float>(std::ceil(draw_it(scratch.canvas(), {0, 0, w, 1e5})));
    }
    const float content = measured->second;
    frame.scroll("card:" + std::to_string(static_cast<int>(card)), inside, content, [&](Area box) {
        frame.picture(key, {box.x, box.y, w, content}, [&](Canvas& canvas) {
            draw_it(canvas, {0, 0, w, content});
        });
    });
}

}  // namespace ui
