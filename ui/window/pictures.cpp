#include "ui/window/pictures.h"

#include <cairo.h>

#include <algorithm>

namespace ui {
namespace {

// SDL's software renderer knows no premultiplied blending.
void unpremultiply(unsigned char* bytes, int w, int h, int stride) {
    for (int y = 0; y < h; ++y) {
        auto* row = reinterpret_cast<std::uint32_t*>(bytes + static_cast<std::ptrdiff_t>(y) * stride);
        for (int x = 0; x < w; ++x) {
            const std::uint32_t p = row[x], a = p >> 24;
            if (a == 0 || a == 255) continue;
            const auto part = [&](int shift) {
                return std::min<std::uint32_t>(255, ((p >> shift) & 255) * 255 / a);
            };
            row[x] = a << 24 | part(16) << 16 | part(8) << 8 | part(0);
        }
    }
}

}  // namespace

SDL_Texture* Pictures::get(const std::string& key, int w, int h, const Draw& draw, bool opaque,
                           std::uint32_t behind) {
    w = std::clamp(w, 1, 8192);
    h = std::clamp(h, 1, 8192);
    const std::string full = key + '|' + std::to_string(w) + 'x' + std::to_string(h);
    Kept& kept = kept_[full];
    kept.used = frame_;
    if (kept.texture != nullptr) return kept.texture;
    ++changes_;

    cairo_surface_t* surface =
        cairo_image_surface_create(opaque ? CAIRO_FORMAT_RGB24 : CAIRO_FORMAT_ARGB32, w, h);
    cairo_t* cr = cairo_create(surface);
    if (opaque) {
        cairo_set_source_rgb(cr, (behind >> 16 & 255) / 255.0, (behind >> 8 & 255) / 255.0,
                             (behind & 255) / 255.0);
        cairo_paint(cr);
    }
    {
        Canvas canvas(cr);
        draw(canvas);
    }
    cairo_destroy(cr);
    cairo_surface_flush(surface);
    if (!opaque)
        unpremultiply(cairo_image_surface_get_data(surface), w, h, cairo_image_surface_get_stride(surface));
    kept.texture = SDL_CreateTexture(renderer_, opaque ? SDL_PIXELFORMAT_RGB888 : SDL_PIXELFORMAT_ARGB8888,
                                     SDL_TEXTUREACCESS_STATIC, w, h);
    if (kept.texture != nullptr) {
        SDL_SetTextureBlendMode(kept.texture, opaque ? SDL_BLENDMODE_NONE : SDL_BLENDMODE_BLEND);
        SDL_UpdateTexture(kept.texture, nullptr, cairo_image_surface_get_data(surface),
                          cairo_image_surface_get_stride(surface));
    }
    cairo_surface_destroy(surface);
    return kept.texture;
}

void Pictures::end_frame() {
    ++frame_;
    constexpr std::uint64_t keep_frames = 90;
    for (auto it = kept_.begin(); it != kept_.end();) {
        if (frame_ - it->second.used > keep_frames) {
            if (it->second.texture != nullptr) SDL_DestroyTexture(it->second.texture);
            it = kept_.erase(it);
            ++changes_;
        } else {
            ++it;
        }
    }
}

void Pictures::drop_all() {
    for (auto& [key, kept] : kept_)
        if (kept.texture != nullptr) SDL_DestroyTexture(kept.texture);
    kept_.clear();
    ++changes_;
}

}  // namespace ui
