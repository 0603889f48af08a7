// What a canvas draws on: an opaque picture for the screen, a sprite with a see-through ground, or a file.
#pragma once

#include "engine/outcome.h"
#include "ui/canvas/canvas.h"

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

typedef struct _cairo_surface cairo_surface_t;  // NOLINT: cairo's own name

namespace ui {

// An opaque picture in memory, one 32-bit word 0x00RRGGBB a pixel in the machine's byte order: the same as
// SDL_PIXELFORMAT_RGB888, so it is copied to a texture without change (blend NONE).
class Picture {
public:
    Picture(int width, int height);  // 1..32000 each
    ~Picture();
    Picture(Picture&&) noexcept;
    Picture& operator=(Picture&&) noexcept;

    int width() const { return width_; }
    int height() const { return height_; }
    Canvas& canvas() { return *canvas_; }
    // Rows from the top, `stride_bytes()` apart. Drawing is finished before the pixels are given.
    const std::uint8_t* pixels() const;
    int stride_bytes() const;
    Colour at(int x, int y) const;  // for tests

private:
    friend engine::Outcome<engine::Done> write_png(const Picture&, const std::string&);
    int width_, height_;
    cairo_surface_t* surface_ = nullptr;
    cairo_t* context_ = nullptr;
    std::unique_ptr<Canvas> canvas_;
};

// Fault when the file cannot be written.
engine::Outcome<engine::Done> write_png(const Picture& picture, const std::string& path);

// A small picture with a see-through ground, bytes R, G, B, A, not premultiplied (SDL_PIXELFORMAT_RGBA32):
// SDL's software renderer refuses premultiplied blending. Rows follow each other without gaps.
struct Sprite {
    int width = 0, height = 0;
    std::vector<std::uint8_t> rgba;
};
Sprite sprite(int width, int height, const std::function<void(Canvas&)>& draw);

// --- Files
// ---------------------------------------------------------------------------------------------------------

struct PageMade {
    double width = 595.276, height = 841.89;  // points; A4 upright
    std::string title, author;                // kept in a PDF
    std::string made_utc;                     // RFC 3339; a PDF's date. Empty = a fixed date, never the clock
};
// Draws pages one after another on a file whose kind is its suffix: .pdf (all pages), .svg and .png (one
// below the other, pixels = points x 2 for a PNG). Each function gets a canvas of the page's size. Fault:
// another suffix, or a file that cannot be written.
engine::Outcome<engine::Done> write_pages(const std::string& path, const PageMade& made,
                                          const std::vector<std::function<void(Canvas&)>>& pages);

}  // namespace ui
