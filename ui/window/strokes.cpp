// The page, pictures and strokes of a frame.
#include "ui/window/inside.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace ui {
namespace {

Colour paint_of(std::uint32_t rgb) {
    return {static_cast<std::uint8_t>(rgb >> 16 & 255), static_cast<std::uint8_t>(rgb >> 8 & 255),
            static_cast<std::uint8_t>(rgb & 255)};
}

// Round things are kept sprites: the software renderer makes corners of triangles.
std::string round_key(const char* what, float r, std::uint32_t colour, float thick) {
    return std::string(what) + ' ' + std::to_string(std::lround(r * 10)) + ' ' + std::to_string(colour) +
           ' ' + std::to_string(std::lround(thick * 10));
}

}  // namespace

void Frame::page(std::span<const Area> cards) {
    std::string key = "page";
    for (const Area& c : cards)
        for (float v : {c.x, c.y, c.w, c.h}) key += ' ' + std::to_string(std::lround(v));
    const std::vector<Area> copy(cards.begin(), cards.end());
    inside_.page = inside_.pictures.get(
        key, static_cast<int>(inside_.w), static_cast<int>(inside_.h),
        [&copy](Canvas& canvas) {
            for (const Area& c : copy)
                canvas.card({std::round(c.x), std::round(c.y), std::round(c.w), std::round(c.h)},
                            light_palette);
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
    if (x0 == x1 || y0 == y1) {  // as a rectangle of whole pixels: two thin triangles come out in steps
        const float half = std::max(1.0f, std::round(thick)) / 2;
        const float left = std::round(std::min(x0, x1) - (x0 == x1 ? half : 0.0f));
        const float top = std::round(std::min(y0, y1) - (y0 == y1 ? half : 0.0f));
        const float w = x0 == x1 ? 2 * half : std::round(std::fabs(x1 - x0));
        const float h = y0 == y1 ? 2 * half : std::round(std::fabs(y1 - y0));
        inside_.list()->AddRectFilled(ImVec2(left, top), ImVec2(left + w, top + h), ink_of(colour));
        return;
    }
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
    const float side = std::ceil(2 * (r + thick)) + 2;
    sprite(round_key("circle", r, colour, thick), {x - side / 2, y - side / 2, side, side},
           [&](Canvas& canvas) {
               const double middle = static_cast<double>(side) / 2, radius = static_cast<double>(r);
               canvas.round_edge({middle - radius, middle - radius, 2 * radius, 2 * radius}, radius,
                                 paint_of(colour), static_cast<double>(thick));
           });
}

void Frame::disc(float x, float y, float r, std::uint32_t colour) {
    const float side = std::ceil(2 * r) + 2;
    sprite(round_key("disc", r, colour, 0), {x - side / 2, y - side / 2, side, side}, [&](Canvas& canvas) {
        canvas.disc({static_cast<double>(side) / 2, static_cast<double>(side) / 2}, static_cast<double>(r),
                    paint_of(colour));
    });
}

void Frame::fill(Area at, std::uint32_t colour, float round) {
    inside_.list()->AddRectFilled(ImVec2(at.x, at.y), ImVec2(at.right(), at.bottom()), ink_of(colour), round);
}

void Frame::outline(Area at, std::uint32_t colour, float round, float thick) {
    inside_.list()->AddRect(ImVec2(at.x, at.y), ImVec2(at.right(), at.bottom()), ink_of(colour), round, 0,
                            thick);
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
