// The page, pictures and strokes of a frame.
#include "ui/window/inside.h"

#include <cmath>

namespace ui {
void Frame::page(std::span<const Area> cards) {
    std::string key = "page";
    for (const Area& c : cards)
        for (float v : {c.x, c.y, c.w, c.h}) key += ' ' + std::to_string(std::lround(v));
    const std::vector<Area> copy(cards.begin(), cards.end());
    inside_.page = inside_.pictures.get(
        key, static_cast<int>(inside_.w), static_cast<int>(inside_.h),
        [&copy](Canvas& canvas) {
            for (const Area& c : copy)
                canvas.card({std::round(c.x), std::round(c.y), std::round(c.w), std::round(c.h)}, light_palette);
        },
        true, colour::page);
}

void Frame::picture(std::string_view key, Area at, const std::function<void(Canvas&)>& draw,
                    std::uint32_t behind) {
    SDL_Texture* texture = inside_.pictures.get(std::string(key), static_cast<int>(std::lround(at.w)),
                                                static_cast<int>(std::lround(at.h)), draw, true, behind);
    const ImVec2 from(std::round(at.x), std::round(at.y));
    inside_.list()->AddImage(texture, from, ImVec2(from.x + std::round(at.w), from.y + std::round(at.h)));
}

void Frame::sprite(std::string_view key, Area at, const std::function<void(Canvas&)>& draw) {
    SDL_Texture* texture = inside_.pictures.get(std::string(key), static_cast<int>(std::lround(at.w)),
                                                static_cast<int>(std::lround(at.h)), draw, false, 0);
    const ImVec2 from(std::round(at.x), std::round(at.y));
    inside_.list()->AddImage(texture, from, ImVec2(from.x + std::round(at.w), from.y + std::round(at.h)));
}

void Frame::line(float x0, float y0, float x1, float y1, std::uint32_t colour, float thick) {
    inside_.list()->AddLine(ImVec2(x0, y0), ImVec2(x1, y1), ink_of(colour), thick);
}

void Frame::dashes(std::span<const float> xy, std::uint32_t colour, float thick) {
    float left = 0;  // of the present dash or gap
    bool on = true;
    constexpr float dash = 4, gap = 5;
    left = dash;
    for (std::size_t i = 3; i < xy.size(); i += 2) {
        float x = xy[i - 3], y = xy[i - 2];
        const float tx = xy[i - 1], ty = xy[i];
        float length = std::hypot(tx - x, ty - y);
        while (length > 0) {
            const float go = std::min(length, left);
            const float nx = x + (tx - x) * go / length, ny = y + (ty - y) * go / length;
            if (on) line(x, y, nx, ny, colour, thick);
            x = nx;
            y = ny;
            length -= go;
            left -= go;
            if (left <= 0) {
                on = !on;
                left = on ? dash : gap;
            }
        }
    }
}

void Frame::circle(float x, float y, float r, std::uint32_t colour, float thick) {
    inside_.list()->AddCircle(ImVec2(x, y), r, ink_of(colour), 0, thick);
}

void Frame::disc(float x, float y, float r, std::uint32_t colour) {
    inside_.list()->AddCircleFilled(ImVec2(x, y), r, ink_of(colour));
}

void Frame::fill(Area at, std::uint32_t colour, float round) {
    inside_.list()->AddRectFilled(ImVec2(at.x, at.y), ImVec2(at.right(), at.bottom()), ink_of(colour), round);
}

void Frame::outline(Area at, std::uint32_t colour, float round, float thick) {
    inside_.list()->AddRect(ImVec2(at.x, at.y), ImVec2(at.right(), at.bottom()), ink_of(colour), round, 0, thick);
}

void Frame::triangle(float x0, float y0, float x1, float y1, float x2, float y2, std::uint32_t colour) {
    inside_.list()->AddTriangleFilled(ImVec2(x0, y0), ImVec2(x1, y1), ImVec2(x2, y2), ink_of(colour));
}

std::uint32_t Frame::colour_of(Tone tone) const {
    switch (tone) {
        case Tone::ink: return colour::ink;
        case Tone::soft: return colour::soft;
        case Tone::act: return colour::act;
        case Tone::attention: return colour::attention;
        case Tone::fine: return colour::fine;
        case Tone::on_act: return colour::on_act;
    }
    return colour::ink;
}

}  // namespace ui
