// Words of a frame, and the frame's plain questions.
#include "ui/window/inside.h"

#include <algorithm>
#include <cmath>

namespace ui {
namespace {

ImVec2 measure(ImFont* font, std::string_view says, float wrap) {
    return font->CalcTextSizeA(font->FontSize, 1e9f, wrap, says.data(), says.data() + says.size());
}

// One character less, whole UTF-8 characters only.
std::string_view shorter(std::string_view s) {
    std::size_t n = s.size();
    do --n;
    while (n > 0 && (static_cast<unsigned char>(s[n]) & 0xC0) == 0x80);
    return s.substr(0, n);
}

}  // namespace

float Frame::width() const { return inside_.w; }
float Frame::height() const { return inside_.h; }
float Frame::scale() const { return inside_.scale; }
double Frame::now_s() const { return inside_.now; }
void Frame::inert(bool on) { inside_.inert = on; }
void Frame::above(bool on) { inside_.above = on; }
void Frame::again() { inside_.again = std::max(inside_.again, 1); }

float Frame::line_height(Type type) const { return std::round(inside_.font(type)->FontSize * 1.08f); }

float Frame::width_of(std::string_view says, Type type) const {
    return measure(inside_.font(type), says, 0).x;
}

float Frame::height_of(std::string_view says, Type type, float width) const {
    return says.empty() ? 0.0f : measure(inside_.font(type), says, width).y;
}

float Frame::words_in(Area at, std::string_view says, Type type, Tone tone, Align align) {
    if (says.empty()) return 0;
    ImFont* font = inside_.font(type);
    const ImU32 ink = ink_of(colour_of(tone));
    const float used = measure(font, says, at.w).y;
    if (at.h > 0 && used > at.h + 1.5f) inside_.note_overflow(says, used - at.h);
    if (!inside_.seen({at.x, at.y, at.w, used})) return used;
    if (align == Align::left) {
        inside_.list()->AddText(font, font->FontSize, ImVec2(std::round(at.x), std::round(at.y)), ink,
                                says.data(), says.data() + says.size(), at.w);
        return used;
    }
    const char* p = says.data();
    const char* end = p + says.size();
    float y = at.y;
    while (p < end) {
        const char* line_end = font->CalcWordWrapPositionA(1.0f, p, end, at.w);
        if (line_end == p) ++line_end;
        const std::string_view one(p, static_cast<std::size_t>(line_end - p));
        const float w = measure(font, one, 0).x;
        const float x = align == Align::right ? at.right() - w : at.x + (at.w - w) / 2;
        inside_.list()->AddText(font, font->FontSize, ImVec2(std::round(x), std::round(y)), ink, p, line_end);
        y += font->FontSize;
        p = line_end;
        while (p < end && (*p == ' ' || *p == '\n')) ++p;
    }
    return used;
}

void Frame::one_line(Area at, std::string_view says, Type type, Tone tone, Align align) {
    if (says.empty() || !inside_.seen(at)) return;
    ImFont* font = inside_.font(type);
    std::string cut;
    float w = measure(font, says, 0).x;
    if (w > at.w + 0.5f) {
        inside_.note_overflow(says, w - at.w);
        std::string_view rest = says;
        do {
            rest = shorter(rest);
            cut = std::string(rest) + "\xE2\x80\xA6";
            w = measure(font, cut, 0).x;
        } while (!rest.empty() && w > at.w);
        says = cut;
    }
    float x = at.x;
    if (align == Align::right) x = at.right() - w;
    if (align == Align::centre) x = at.x + (at.w - w) / 2;
    const float y = at.y + (at.h - font->FontSize) / 2 - font->FontSize * 0.04f;
    inside_.list()->AddText(font, font->FontSize, ImVec2(std::round(x), std::round(y)),
                            ink_of(colour_of(tone)), says.data(), says.data() + says.size());
}

bool Frame::Inside::seen(const Area& at) const {
    if (clips.empty()) return true;
    const Area& c = clips.back();
    return at.right() > c.x && at.x < c.right() && at.bottom() > c.y && at.y < c.bottom();
}

void Frame::Inside::placed(std::string_view id, const Area& at) {
    where[std::string(id)] = at;
    if (inert) return;
    const Area clip = clips.empty() ? Area{0, 0, w, h} : clips.back();
    const float x = std::max(at.x, clip.x), y = std::max(at.y, clip.y);
    controls.emplace_back(id, Area{x, y, std::max(0.0f, std::min(at.right(), clip.right()) - x),
                                   std::max(0.0f, std::min(at.bottom(), clip.bottom()) - y)});
}

void Frame::Inside::note_overflow(std::string_view what, float by) {
    overflows.push_back(std::string(what) + ": by " + std::to_string(std::lround(by)) + " px");
}

}  // namespace ui
