#include "ui/debrief/debrief_screen.h"

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

constexpr float edge = 24, gap = 16;

Theme theme_of(const Frame& frame) { return {light_palette, frame.scale()}; }

const char* title_of_card(int card) {
    static const std::array<const char*, 7> titles{
        "Strip",         "In words",    "Count", "Aspect by aspect", "Where it was loud",
        "What was done", "Keep in mind"};
    return titles[static_cast<std::size_t>(card)];
}

}  // namespace

// Three cards a view under the strip when there is room for them, else one a view and the strip a view by itself.
struct DebriefScreen::Layout {
    struct View {
        const char* name;
        std::vector<Card> cards;
    };
    std::vector<View> views;
    bool strip_always = true;
};

DebriefScreen::Layout DebriefScreen::layout(Frame& frame) const {
    using enum Card;
    if (frame.width() / frame.scale() >= 1000 && frame.height() / frame.scale() >= 620)
        return {{{"What to do next time", {words, count, aspects}}, {"Place and acts", {place, acts, notes}}},
                true};
    return {{{"Strip", {strip}},
             {"Words", {words}},
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

// --- Hearing again -------------------------------------------------------------------------------------------------

void DebriefScreen::play_from(double s) {
    stop();
    at_s_ = std::clamp(s, 0.0, strip_.length_s);
    if (at_s_ > strip_.length_s - 0.5) at_s_ = 0;
    wanted_s_ = at_s_;
}

void DebriefScreen::stop() {
    if (playing_) device_.stop();
    playing_ = false;
    wanted_s_.reset();
}

void DebriefScreen::go_to(double s) {
    const bool go_on = playing();
    stop();
    at_s_ = std::clamp(s, 0.0, strip_.length_s);
    if (go_on) play_from(at_s_);
}

void DebriefScreen::follow_sound(Frame& frame) {
    if (wanted_s_) {
        if (auto from = rehearing_.from(*wanted_s_)) {
            device_.begin(from->listening, from->script, false);
            playing_ = true;
            wanted_s_.reset();
            frame.again();
        }
    }
    if (playing_) {
        at_s_ = std::max(at_s_, device_.heard().seconds());
        if (at_s_ >= strip_.length_s) {
            stop();
            at_s_ = strip_.length_s;
        }
    }
    // The part shown moves on with the play line.
    const double shown = view_.to_s - view_.from_s;
    if (at_s_ < view_.from_s || at_s_ > view_.to_s) {
        const double most = std::max(0.0, whole(strip_).to_s - shown);
        view_.from_s = std::clamp(std::floor(at_s_ - shown * 0.1), 0.0, most);
        view_.to_s = view_.from_s + shown;
    }
}

void DebriefScreen::zoom(double by) {
    const StripView all = whole(strip_);
    const double shown = std::clamp((view_.to_s - view_.from_s) * by, std::min(20.0, all.to_s), all.to_s);
    view_.from_s = std::clamp(at_s_ - shown / 2, 0.0, all.to_s - shown);
    view_.to_s = view_.from_s + shown;
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

// --- Drawing -------------------------------------------------------------------------------------------------------

void DebriefScreen::draw(Frame& frame) {
    keys(frame);
    follow_sound(frame);
    const Layout lay = layout(frame);
    const int views = static_cast<int>(lay.views.size());
    if (frame.key('v')) shown_ = (shown_ + 1) % views;
    shown_ = std::clamp(shown_, 0, views - 1);

    Area rest{edge, 12, frame.width() - 2 * edge, frame.height() - 12 - gap};
    const Area head = rest.take_top(frame.px(40), 8);
    const float foot_h = frame.px(40);
    const Area foot{rest.x, rest.bottom() - foot_h, rest.w, foot_h};
    rest.h -= foot_h + 12;
    std::vector<Area> cards;
    if (lay.strip_always) cards.push_back(rest.take_top(std::round(rest.h * 0.50f), gap));
    const std::vector<Card>& shown = lay.views[static_cast<std::size_t>(shown_)].cards;
    const std::array<float, 3> shares{0.44f, 0.28f, 0.28f};
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

void DebriefScreen::header(Frame& frame, Area at, const Layout& lay) {
    const std::string& person = judged_.attempt.header.person;
    const float person_w = frame.width_of(person, Type::text);
    std::vector<float> widths;
    float all = 0;
    for (const auto& view : lay.views) {
        widths.push_back(frame.width_of(ui::words(view.name), Type::strong) + frame.px(36));
        all += widths.back() + frame.px(8);
    }
    // The views come first: with large letters they take the whole row.
    const char* title = ui::words("Debrief");
    const float title_w = frame.width_of(title, Type::title) + frame.px(20);
    const bool titled = title_w + all < at.w;
    if (titled) frame.one_line(at.take_left(title_w), title, Type::title);
    float right = at.right();
    if (all > at.w)
        for (std::size_t i = 0; i < widths.size(); ++i)
            widths[i] = (at.w + frame.px(8)) / static_cast<float>(widths.size()) - frame.px(8);
    all = std::min(all, at.w + frame.px(8));
    if (!person.empty() && all + person_w + frame.px(24) < at.w) {
        frame.one_line({right - person_w, at.y, person_w + 1, at.h}, person, Type::text, Tone::soft);
        right -= person_w + frame.px(20);
    }
    float x = right - all + frame.px(8);
    const std::string& says = judged_.scenario.title;
    const float says_w = frame.width_of(says, Type::text);
    const bool room = at.x + says_w + frame.px(16) < x;
    if (room) frame.one_line({at.x, at.y, says_w + 1, at.h}, says, Type::text, Tone::soft);
    for (std::size_t i = 0; i < lay.views.size(); ++i) {
        ButtonLook look;
        look.chosen = static_cast<int>(i) == shown_;
        if ((i + lay.views.size() - 1) % lay.views.size() == static_cast<std::size_t>(shown_)) look.key = "V";
        if (frame.button("view:" + std::to_string(i), {x, at.y, widths[i], at.h},
                         ui::words(lay.views[i].name), look))
            shown_ = static_cast<int>(i);
        x += widths[i] + frame.px(8);
    }
}

void DebriefScreen::strip_card(Frame& frame, Area at) {
    const Theme theme = theme_of(frame);
    Area inside{at.x + 12, at.y + frame.px(8), at.w - 28, at.h - frame.px(8) - 12};
    const float row_h = frame.px(40);
    const Area row{inside.x, inside.bottom() - row_h, inside.w, row_h};
    inside.h -= row_h + frame.px(6);
    const Box own{0, 0, inside.w, inside.h};
    const StripFrame own_frame = strip_frame(strip_, own, view_, theme.scale);
    frame.picture(fmt::format("strip {} {:.2f} {:.2f}", theme.scale, view_.from_s, view_.to_s), inside,
                  [&](Canvas& canvas) { draw_strip(canvas, strip_, own_frame, theme); });

    StripFrame on_page = own_frame;
    on_page.rates.x += inside.x;
    const float top = static_cast<float>(own_frame.rates.y);
    const Area curves{inside.x + static_cast<float>(own_frame.rates.x), inside.y + top,
                      static_cast<float>(own_frame.rates.w),
                      static_cast<float>(own_frame.listened.bottom()) - top};
    const Touch touch = frame.touch("strip", curves);
    if (touch.pressed || touch.held) go_to(on_page.s_at(touch.x));
    if (touch.wheel != 0) zoom(touch.wheel > 0 ? 0.8 : 1.25);
    if (touch.focused)
        frame.outline({curves.x - 4, curves.y - 6, curves.w + 8, curves.h + 10}, colour::act, 4, 2);

    const float x = static_cast<float>(on_page.x_of(at_s_)), r = frame.px(7);
    if (at_s_ >= view_.from_s && at_s_ <= view_.to_s) {
        frame.line(x, curves.y, x, curves.bottom(), colour::act, frame.px(2.4f));
        frame.triangle(x - r, curves.y - r, x + r, curves.y - r, x, curves.y + r * 0.6f, colour::act);
    }

    Area place = row;
    ButtonLook look{.key = "P", .main = true};
    const char* says = playing() ? ui::words("Stop") : ui::words("Play from here");
    const float play_w = std::max(frame.width_of(ui::words("Play from here"), Type::text),
                                  frame.width_of(ui::words("Stop"), Type::text)) +
                         frame.px(64);
    if (frame.button("play", place.take_left(play_w, frame.px(14)), says, look))
        playing() ? stop() : play_from(at_s_);
    const Area clock = place.take_left(frame.px(64), frame.px(10));
    frame.one_line(clock, minutes_and_seconds(at_s_), Type::number);
    beat_lane(frame, place);
}

// Three seconds before and after now: each beat comes from the right and is marked as it is heard.
void DebriefScreen::beat_lane(Frame& frame, Area at) const {
    const std::string silent =
        device_.state_words().empty()
            ? std::string()
            : std::string(device_.state() == DeviceState::lost
                              ? ui::words("Sound device gone: play again when it is back.")
                              : ui::words("No sound device: nothing can be heard."));
    if (wanted_s_) {
        frame.one_line(at, ui::words("Getting the sound ready ..."), Type::text, Tone::soft);
        return;
    }
    if (playing_ && !silent.empty()) {
        const float w = std::min(at.w * 0.4f, frame.width_of(silent, Type::note) + 4);
        frame.words_in({at.right() - w, at.y, w, at.h}, silent, Type::note, Tone::attention);
        at.w -= w + frame.px(12);
    }
    const float label_w = std::max(frame.width_of(ui::words("mother"), Type::note),
                                   frame.width_of(ui::words("baby"), Type::note)) +
                          frame.px(8);
    const Area label = at.take_left(label_w);
    const engine::WindowScore* counting = nullptr;
    for (const auto& window : judged_.sheet.windows)
        if (at_s_ >= window.from_s && at_s_ < window.to_s) counting = &window;
    const std::string tally =
        counting == nullptr
            ? std::string()
            : fmt::format("{} {}", ui::words("true beats in your count:"),
                          sim::beats_between(judged_.played.fetal, sim::labour_time({counting->from_s}),
                                             sim::labour_time({at_s_})));
    const float tally_w =
        frame.width_of(std::string(ui::words("true beats in your count:")) + " 000", Type::text) +
        frame.px(8);
    if (at.w > tally_w * 2.2f) {
        if (!tally.empty())
            frame.one_line({at.right() - tally_w, at.y, tally_w, at.h}, tally, Type::text, Tone::attention,
                           Align::right);
        at.w -= tally_w;
    }
    const float baby_y = at.y + at.h * 0.28f, mother_y = at.y + at.h * 0.76f, mid = at.middle_x();
    frame.one_line({label.x, baby_y - label.h * 0.22f, label.w, label.h * 0.44f}, ui::words("baby"),
                   Type::note);
    frame.one_line({label.x, mother_y - label.h * 0.22f, label.w, label.h * 0.44f}, ui::words("mother"),
                   Type::note, Tone::soft);
    frame.line(at.x, baby_y, at.right(), baby_y, colour::rule);
    frame.line(at.x, mother_y, at.right(), mother_y, colour::rule);
    frame.line(mid, at.y, mid, at.bottom(), colour::act, frame.px(2));
    constexpr double around_s = 3;
    const auto beats = [&](const std::vector<sim::Beat>& train, float y, bool filled) {
        const std::int64_t from = sim::labour_time({at_s_ - around_s}).us,
                           to = sim::labour_time({at_s_ + around_s}).us;
        auto beat = std::lower_bound(train.begin(), train.end(), from,
                                     [](const sim::Beat& b, std::int64_t us) { return b.at_us < us; });
        for (; beat != train.end() && beat->at_us < to; ++beat) {
            if (beat->kind == sim::BeatKind::dropped) continue;
            const double ago = at_s_ - static_cast<double>(beat->at_us) / 1e6;
            const float x = mid - static_cast<float>(ago / around_s) * at.w / 2;
            const bool heard_now = playing_ && ago >= 0 && ago < 0.14;
            if (filled)
                frame.disc(x, y, frame.px(heard_now ? 7.5f : 4), heard_now ? colour::act : colour::ink);
            else
                frame.circle(x, y, frame.px(heard_now ? 6.5f : 3.5f), heard_now ? colour::act : colour::soft,
                             frame.px(1.6f));
        }
    };
    beats(judged_.played.fetal, baby_y, true);
    if (!judged_.played.fetal2.empty()) beats(judged_.played.fetal2, baby_y, false);
    beats(judged_.played.maternal, mother_y, false);
}

void DebriefScreen::words_card(Frame& frame, Area at) {
    Area inside = at.inside(frame.px(16));
    frame.one_line(inside.take_top(frame.line_height(Type::card), frame.px(8)), ui::words("In words"),
                   Type::card);
    const auto& items = judged_.sheet.next_time;
    if (items.empty()) {
        frame.words_in(inside, ui::words("Nothing to change: do it like this again."), Type::text);
        return;
    }
    const float number_w = frame.px(36),
                button_w = frame.width_of(ui::words("Hear"), Type::text) + frame.px(44),
                between = frame.px(10);
    const auto height_at = [&](float w, std::size_t i) {
        return std::max(frame.px(36),
                        frame.height_of(items[i].says, Type::text, w - number_w - button_w - between));
    };
    float content = 0;
    const float measured_w = inside.w - frame.px(18);
    for (std::size_t i = 0; i < items.size(); ++i) content += height_at(measured_w, i) + frame.px(8);
    frame.scroll("words", inside, content, [&](Area box) {
        float y = box.y;
        for (std::size_t i = 0; i < items.size(); ++i) {
            const float h = height_at(measured_w, i), w = measured_w - number_w - button_w - between,
                        r = frame.px(12);
            const std::string number = std::to_string(i + 1);
            frame.disc(box.x + r, y + frame.px(18), r, colour::act);
            frame.one_line({box.x, y + frame.px(18) - r, 2 * r, 2 * r}, number, Type::note, Tone::on_act,
                           Align::centre);
            const float used = frame.height_of(items[i].says, Type::text, w);
            frame.words_in({box.x + number_w, y + std::max(0.0f, (frame.px(36) - used) / 2), w, 0},
                           items[i].says, Type::text);
            const Area button{box.x + measured_w - button_w, y, button_w, frame.px(36)};
            ButtonLook look;
            if (i < 9) look.key = number.c_str();
            if (frame.button("words/hear:" + std::to_string(i), button, ui::words("Hear"), look))
                play_from(items[i].at_s);
            y += h + frame.px(8);
        }
    });
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

void DebriefScreen::footer(Frame& frame, Area at) {
    const auto one = [&](const char* id, const char* key, const char* says, bool main) {
        const float w = frame.width_of(says, Type::text) + frame.px(52);
        ButtonLook look;
        look.key = key;
        look.main = main;
        return frame.button(id, at.take_left(w, frame.px(10)), says, look);
    };
    if (one("again", "A", ui::words("Same again"), false)) leave_ = Leave::same_again;
    if (one("another", "N", ui::words("Another labour"), true)) leave_ = Leave::another;
    if (one("save", "S", ui::words("Save as PDF"), false)) save();
    if (one("progress", "R", ui::words("Progress"), false)) leave_ = Leave::progress;
    at.take_left(frame.px(6));
    const Tone tone = said_.empty() ? Tone::soft : said_fault_ ? Tone::attention : Tone::ink;
    std::string says = said_.empty() ? std::string(ui::words(learning_only_short)) : said_;
    float h = frame.height_of(says, Type::note, at.w);
    if (h > at.h && said_.empty()) {  // the whole of it stands among the notes
        says = ui::words("For learning only.");
        h = frame.height_of(says, Type::note, at.w);
    }
    if (h > at.h)
        frame.one_line(at, says, Type::note, tone);
    else
        frame.words_in({at.x, at.y + (at.h - h) / 2, at.w, h}, says, Type::note, tone);
    if (leave_ != Leave::stay) stop();
}

}  // namespace ui
