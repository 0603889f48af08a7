// Pictures drawn by cairo once and kept as textures until their key or size changes.
#pragma once

#include "ui/canvas/canvas.h"

#include <SDL2/SDL.h>

#include <cstdint>
#include <functional>
#include <string>
#include <unordered_map>

namespace ui {

class Pictures {
public:
    explicit Pictures(SDL_Renderer* renderer) : renderer_(renderer) {}
    ~Pictures() { drop_all(); }
    Pictures(const Pictures&) = delete;
    Pictures& operator=(const Pictures&) = delete;

    using Draw = std::function<void(Canvas&)>;
    // Opaque on `behind` (0xRRGGBB), or with alpha. Null only when there is no room for the texture.
    SDL_Texture* get(const std::string& key, int w, int h, const Draw& draw, bool opaque,
                     std::uint32_t behind);
    // Textures not asked for in the last `frames` frames go.
    void end_frame();
    void drop_all();
    // Goes up with every texture made or destroyed: an address may since stand for another picture.
    std::uint64_t changes() const { return changes_; }

private:
    struct Kept {
        SDL_Texture* texture = nullptr;
        std::uint64_t used = 0;
    };
    SDL_Renderer* renderer_;
    std::unordered_map<std::string, Kept> kept_;
    std::uint64_t frame_ = 0, changes_ = 0;
};

}  // namespace ui
