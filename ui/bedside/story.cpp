// Her story, what has been found so far, and her labour chart with the trainee's own lines.
#include "ui/bedside/bedside.h"
#include "ui/bedside/bedside_words.h"
#include "ui/window/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace ui {
namespace {

struct Line {
    std::string when, rate, pulse, around;
};

std::vector<Line> chart_lines(const Session& session) {
    std::vector<Line> lines;
    for (const engine::ChartLine& l : session.scenario().chart)
        lines.push_back({fmt::format(fmt::runtime(words("\xE2\x80\x93{:.0f} min")), l.minutes_ago),
                         l.bpm > 0 ? fmt::format("{:.0f}", l.bpm) : "",
                         l.pulse_bpm > 0 ? fmt::format("{:.0f}", l.pulse_bpm) : "", l.remark});
    for (const engine::Event& e : session.events()) {
        if (e.what != engine::Do::record) continue;
        std::string around = e.when.empty() ? "" : words(e.when);
        const auto also = [&around](const std::string& says) {
            if (!says.empty()) around += (around.empty() ? "" : ", ") + says;
        };
        also(e.slowing == "yes" ? words("it slowed") : e.slowing == "no" ? words("no slowing") : "");
        also(e.done);
        lines.push_back({clock_words(e.t.seconds()), e.bpm ? std::to_string(*e.bpm) : "",
                         e.pulse_bpm ? std::to_string(*e.pulse_bpm) : "", around});
    }
    return lines;
}

struct CameUp {
    std::string says;
    Tone tone;
};

std::vector<CameUp> what_came(const Session& session) {
    std::vector<std::pair<std::int64_t, CameUp>> all;
    for (const engine::CallOut& c : session.called_out())
        all.push_back({sim::labour_time(c.at).us,
                       {fmt::format("{}  {}", clock_words(c.at.value), c.says), Tone::attention}});
    for (const engine::Revealed& r : session.found()) {
        const engine::ActWords* act = session.protocol().act(r.act);
        const std::string what = act == nullptr ? r.act : act->words;
        all.push_back({r.at.us,
                       {fmt::format("{}  {}: {}", clock_words(r.at.seconds()), what,
                                    r.says.empty() ? words("nothing out of the ordinary") : r.says.c_str()),
                        Tone::ink}});
    }
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<CameUp> lines;
    for (auto& [at, s] : all) lines.push_back(std::move(s));
    for (const engine::TimedAct& a : session.under_way()) {
        const engine::ActWords* act = session.protocol().act(a.id);
        lines.insert(lines.begin(),
                     {fmt::format(fmt::runtime(words("Under way: {}")), act == nullptr ? a.id : act->words),
                      Tone::act});
    }
    return lines;
}

std::string protocol_words(const engine::Protocol& protocol) {
    return fmt::format(fmt::runtime(words("After {}: normal {:g} to {:g} a minute")),
                       protocol.title.empty() ? protocol.id : protocol.title, protocol.low.bpm.value,
                       protocol.high.bpm.value);
}

}  // namespace

float BedsideScreen::story_height(Frame& frame, float width, bool with_chart) {
    const engine::Scenario& s = session_->scenario();
    float h = frame.px(30) + frame.line_height(Type::note) + frame.px(12) +
              frame.height_of(protocol_words(session_->protocol()), Type::note, width) +
              frame.height_of(s.story, Type::text, width) + frame.px(16);
    for (const CameUp& one : what_came(*session_))
        h += frame.height_of(one.says, Type::text, width) + frame.px(8);
    if (with_chart) h += chart_height(frame) + frame.px(20) + frame.px(50);
    return h;
}

void BedsideScreen::story(Frame& frame, Area at, bool with_chart) {
    const engine::Scenario& s = session_->scenario();
    const float height = story_height(frame, at.w - frame.px(18), with_chart);
    frame.scroll("story", at, height, [&](Area inner) {
        if (with_chart) her_position(frame, inner.take_top(frame.px(38), frame.px(12)));
        frame.one_line(inner.take_top(frame.px(30)), words("Her story"), Type::card);
        frame.one_line(inner.take_top(frame.line_height(Type::note), frame.px(8)), s.place.name, Type::note,
                       Tone::soft);
        const std::vector<CameUp> came = what_came(*session_);
        for (const CameUp& one : came)
            inner.take_top(frame.words_in({inner.x, inner.y, inner.w, 0}, one.says, Type::text, one.tone),
                           frame.px(8));
        if (!came.empty()) {
            frame.line(inner.x, inner.y, inner.right(), inner.y, colour::rule);
            inner.take_top(frame.px(8));
        }
        inner.take_top(frame.words_in({inner.x, inner.y, inner.w, 0}, s.story), frame.px(8));
        inner.take_top(frame.words_in({inner.x, inner.y, inner.w, 0}, protocol_words(session_->protocol()),
                                      Type::note, Tone::soft),
                       frame.px(8));
        if (with_chart) chart(frame, inner);
    });
}

float BedsideScreen::chart_height(const Frame& frame) const {
    float rows = 0;
    const std::vector<Line> lines = chart_lines(*session_);
    for (const Line& l : lines) rows += frame.px(l.around.empty() ? 26 : 44);
    return frame.px(34) + frame.px(22) + std::max(rows, frame.px(24));
}

void BedsideScreen::chart(Frame& frame, Area at) {
    frame.one_line(at.take_top(frame.px(34)), words("Her labour chart"), Type::card);
    const std::vector<Line> lines = chart_lines(*session_);
    if (lines.empty()) {
        frame.words_in({at.x, at.y, at.w, 0}, words("Nothing written yet."), Type::text, Tone::soft);
        return;
    }
    const auto row = [&](Area r, const Line& l, Type type, Tone tone) {
        const float w = r.w;
        frame.one_line({r.x, r.y, w * 0.52f, r.h}, l.when, type, tone);
        frame.one_line({r.x + w * 0.54f, r.y, w * 0.2f, r.h}, l.rate,
                       type == Type::note ? type : Type::strong, tone);
        frame.one_line({r.x + w * 0.76f, r.y, w * 0.24f, r.h}, l.pulse, type, tone);
    };
    row(at.take_top(frame.px(22)), {words("from start"), words("baby"), words("pulse"), ""}, Type::note,
        Tone::soft);
    frame.line(at.x, at.y, at.right(), at.y, colour::rule);
    const float head = frame.px(56);
    frame.scroll("chart", at, chart_height(frame) - head, [&](Area inner) {
        for (auto it = lines.rbegin(); it != lines.rend(); ++it) {
            row(inner.take_top(frame.px(26)), *it, Type::text, Tone::ink);
            // What was written beside the number, on a line of its own: it is as long as its author liked.
            if (!it->around.empty())
                frame.one_line(inner.take_top(frame.px(18)), it->around, Type::note, Tone::soft);
        }
    });
}

}  // namespace ui
