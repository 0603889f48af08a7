#include "ui/canvas/surface.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>

#include <algorithm>
#include <cassert>
#include <cstring>
#include <utility>

namespace ui {
namespace {

constexpr int most_pixels = 32000;  // cairo's own limit is 32767

}  // namespace

Picture::Picture(int width, int height) : width_(width), height_(height) {
    assert(width >= 1 && width <= most_pixels && height >= 1 && height <= most_pixels);
    surface_ = cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height);
    context_ = cairo_create(surface_);
    canvas_ = std::make_unique<Canvas>(context_);
}

Picture::~Picture() {
    canvas_.reset();
    if (context_) cairo_destroy(context_);
    if (surface_) cairo_surface_destroy(surface_);
}

Picture::Picture(Picture&& other) noexcept
    : width_(other.width_),
      height_(other.height_),
      surface_(std::exchange(other.surface_, nullptr)),
      context_(std::exchange(other.context_, nullptr)),
      canvas_(std::move(other.canvas_)) {}

Picture& Picture::operator=(Picture&& other) noexcept {
    std::swap(width_, other.width_);
    std::swap(height_, other.height_);
    std::swap(surface_, other.surface_);
    std::swap(context_, other.context_);
    std::swap(canvas_, other.canvas_);
    return *this;
}

const std::uint8_t* Picture::pixels() const {
    cairo_surface_flush(surface_);
    return cairo_image_surface_get_data(surface_);
}

int Picture::stride_bytes() const { return cairo_image_surface_get_stride(surface_); }

Colour Picture::at(int x, int y) const {
    assert(x >= 0 && x < width_ && y >= 0 && y < height_);
    std::uint32_t word = 0;
    std::memcpy(&word, pixels() + y * stride_bytes() + x * 4, 4);
    return {static_cast<std::uint8_t>(word >> 16 & 255), static_cast<std::uint8_t>(word >> 8 & 255),
            static_cast<std::uint8_t>(word & 255)};
}

namespace {

engine::Fault not_written(const std::string& path, const std::string& why) {
    return {path, 0, "writing the page", why, "a file in a folder that can be written"};
}

engine::Outcome<engine::Done> png_of(cairo_surface_t* surface, const std::string& path) {
    const cairo_status_t status = cairo_surface_write_to_png(surface, path.c_str());
    if (status != CAIRO_STATUS_SUCCESS) return not_written(path, cairo_status_to_string(status));
    return engine::Done{};
}

bool ends_with(const std::string& text, const char* tail) { return text.ends_with(tail); }

// Fixed when the record has no date: a page of the same record has the same bytes.
constexpr const char* no_date = "2000-01-01T00:00:00Z";

}  // namespace

engine::Outcome<engine::Done> write_png(const Picture& picture, const std::string& path) {
    cairo_surface_flush(picture.surface_);
    return png_of(picture.surface_, path);
}

Sprite sprite(int width, int height, const std::function<void(Canvas&)>& draw) {
    assert(width >= 1 && width <= 4096 && height >= 1 && height <= 4096);
    cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_ARGB32, width, height);
    cairo_t* context = cairo_create(surface);
    {
        Canvas canvas(context);
        draw(canvas);
    }
    cairo_destroy(context);
    cairo_surface_flush(surface);
    Sprite made;
    made.width = width;
    made.height = height;
    made.rgba.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 4);
    const std::uint8_t* rows = cairo_image_surface_get_data(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    std::uint8_t* out = made.rgba.data();
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x, out += 4) {
            std::uint32_t word = 0;
            std::memcpy(&word, rows + y * stride + x * 4, 4);
            const std::uint32_t alpha = word >> 24;
            const auto plain = [alpha](std::uint32_t part) {
                const std::uint32_t value = alpha == 0 ? 0 : (part * 255 + alpha / 2) / alpha;
                return static_cast<std::uint8_t>(value > 255 ? 255 : value);
            };
            out[0] = plain(word >> 16 & 255);
            out[1] = plain(word >> 8 & 255);
            out[2] = plain(word & 255);
            out[3] = static_cast<std::uint8_t>(alpha);
        }
    }
    cairo_surface_destroy(surface);
    return made;
}

namespace {

engine::Outcome<engine::Done> finish(cairo_surface_t* surface, cairo_t* context, const std::string& path) {
    cairo_status_t status = cairo_status(context);
    cairo_destroy(context);
    cairo_surface_finish(surface);
    if (status == CAIRO_STATUS_SUCCESS) status = cairo_surface_status(surface);
    cairo_surface_destroy(surface);
    if (status != CAIRO_STATUS_SUCCESS) return not_written(path, cairo_status_to_string(status));
    return engine::Done{};
}

}  // namespace

engine::Outcome<engine::Done> write_pages(const std::string& path, const PageMade& made,
                                          const std::vector<std::function<void(Canvas&)>>& pages) {
    const double n = static_cast<double>(pages.size());
    if (ends_with(path, ".pdf")) {
        cairo_surface_t* surface = cairo_pdf_surface_create(path.c_str(), made.width, made.height);
        const char* date = made.made_utc.empty() ? no_date : made.made_utc.c_str();
        cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, made.title.c_str());
        cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_AUTHOR, made.author.c_str());
        cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, date);
        cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_MOD_DATE, date);
        cairo_t* context = cairo_create(surface);
        for (const auto& page : pages) {
            Canvas canvas(context);
            page(canvas);
            cairo_show_page(context);
        }
        return finish(surface, context, path);
    }
    if (ends_with(path, ".svg")) {
        cairo_surface_t* surface = cairo_svg_surface_create(path.c_str(), made.width, made.height * n);
        cairo_t* context = cairo_create(surface);
        for (const auto& page : pages) {
            Canvas canvas(context);
            page(canvas);
            cairo_translate(context, 0, made.height);
        }
        return finish(surface, context, path);
    }
    if (ends_with(path, ".png")) {
        const double dots = std::min(2.0, most_pixels / (made.height * n));
        Picture picture(static_cast<int>(made.width * dots + 0.5),
                        static_cast<int>(made.height * n * dots + 0.5));
        cairo_t* context = picture.canvas().context();
        cairo_set_source_rgb(context, 1, 1, 1);
        cairo_paint(context);
        cairo_scale(context, dots, dots);
        for (const auto& page : pages) {
            Canvas canvas(context);
            page(canvas);
            cairo_translate(context, 0, made.height);
        }
        return write_png(picture, path);
    }
    return engine::Fault{path, 0, "kind of page", path, "a name that ends in .pdf, .svg or .png"};
}

}  // namespace ui
