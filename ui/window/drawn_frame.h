// What one frame drew, kept as shapes, so that the next one renders only the places where it differs: a
// second hand that moves must not cost a whole page five times a second. [window thread]
#pragma once

#include <SDL2/SDL.h>
#include <imgui.h>

#include <cstdint>
#include <optional>
#include <vector>

namespace ui {

class DrawnFrame {
public:
    // `page`: the ground under everything, as large as the window; null = the palette's page colour.
    void take(const ImDrawData& drawn, SDL_Texture* page, int w, int h);

    // Where this frame and the one before look different, in whole pixels, none lying over another; empty =
    // nowhere. Nothing when that is not worth knowing: another size, another ground, or most of the window.
    // Textures are told apart by their address: the caller asks only while none has been made or destroyed
    // between.
    std::optional<std::vector<SDL_Rect>> differs_from(const DrawnFrame& before) const;

    // Renders what lies in `part`, ground and all; the same pixels as rendering everything would put there.
    void render(SDL_Renderer* renderer, const SDL_Rect& part) const;

private:
    // Triangles that belong together: the renderer turns two that make a rectangle into a copy, so they are
    // never parted.
    struct Shape {
        int first = 0, count = 0;  // of indices_
        SDL_Rect box{};            // with the clip
        std::uint64_t looks = 0;   // a digest of all that decides its pixels
    };
    struct Command {
        SDL_Texture* texture = nullptr;
        SDL_Rect clip{};
        int from = 0, to = 0;                   // of shapes_
        int first_vertex = 0, last_vertex = 0;  // all that its shapes use
    };
    void take_shapes(Command& command, int first, int count);
    void add_shape(const Command& command, int first, int count);

    std::vector<ImDrawVert> vertices_;
    std::vector<int> indices_;
    std::vector<Shape> shapes_;
    std::vector<Command> commands_;
    SDL_Texture* page_ = nullptr;
    int w_ = 0, h_ = 0;
    mutable std::vector<int> picked_;  // indices of the shapes being rendered
};

}  // namespace ui
