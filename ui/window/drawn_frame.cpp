#include "ui/window/drawn_frame.h"

#include "ui/window/frame.h"

#include <algorithm>
#include <cmath>
#include <cstring>

namespace ui {
namespace {

SDL_Rect both(const SDL_Rect& a, const SDL_Rect& b) {
    SDL_Rect common{};
    return SDL_IntersectRect(&a, &b, &common) == SDL_TRUE ? common : SDL_Rect{};
}

SDL_Rect around(const SDL_Rect& a, const SDL_Rect& b) {
    SDL_Rect whole{};
    SDL_UnionRect(&a, &b, &whole);
    return whole;
}

std::int64_t pixels_of(const SDL_Rect& r) { return std::int64_t{r.w} * r.h; }

void stir(std::uint64_t& looks, std::uint64_t more) {
    looks = (looks ^ more) * 0x9E3779B97F4A7C15u;
    looks ^= looks >> 29;
}

void stir(std::uint64_t& looks, const ImDrawVert& v) {
    static_assert(sizeof(ImDrawVert) == 20);
    std::uint64_t pos = 0, uv = 0;
    std::memcpy(&pos, &v.pos, 8);
    std::memcpy(&uv, &v.uv, 8);
    stir(looks, pos);
    stir(looks, uv);
    stir(looks, v.col);
}

// Adds a place, joined with those it touches; what is joined may touch others in its turn.
void add_place(std::vector<SDL_Rect>& places, SDL_Rect place) {
    if (pixels_of(place) == 0) return;
    for (std::size_t i = 0; i < places.size();) {
        const SDL_Rect joined = around(places[i], place);
        const bool touch = SDL_HasIntersection(&places[i], &place) == SDL_TRUE;
        if (touch || pixels_of(joined) <= (pixels_of(places[i]) + pixels_of(place)) * 5 / 4) {
            place = joined;
            places.erase(places.begin() + static_cast<std::ptrdiff_t>(i));
            i = 0;
        } else {
            ++i;
        }
    }
    places.push_back(place);
}

}  // namespace

void DrawnFrame::take(const ImDrawData& drawn, SDL_Texture* page, int w, int h) {
    vertices_.clear();
    indices_.clear();
    shapes_.clear();
    commands_.clear();
    page_ = page;
    w_ = w;
    h_ = h;
    for (int n = 0; n < drawn.CmdListsCount; ++n) {
        const ImDrawList& list = *drawn.CmdLists[n];
        const int base = static_cast<int>(vertices_.size());
        vertices_.insert(vertices_.end(), list.VtxBuffer.begin(), list.VtxBuffer.end());
        for (const ImDrawCmd& cmd : list.CmdBuffer) {
            Command command;
            command.texture = static_cast<SDL_Texture*>(cmd.GetTexID());
            const float left = std::max(cmd.ClipRect.x, 0.0f), top = std::max(cmd.ClipRect.y, 0.0f),
                        right = std::min(cmd.ClipRect.z, static_cast<float>(w)),
                        bottom = std::min(cmd.ClipRect.w, static_cast<float>(h));
            if (cmd.ElemCount == 0 || right <= left || bottom <= top) continue;
            command.clip = {static_cast<int>(left), static_cast<int>(top), static_cast<int>(right - left),
                            static_cast<int>(bottom - top)};
            const int first = static_cast<int>(indices_.size()), count = static_cast<int>(cmd.ElemCount);
            for (int i = 0; i < count; ++i)
                indices_.push_back(base + static_cast<int>(cmd.VtxOffset) +
                                   static_cast<int>(list.IdxBuffer[static_cast<int>(cmd.IdxOffset) + i]));
            take_shapes(command, first, count);
            commands_.push_back(command);
        }
    }
}

void DrawnFrame::take_shapes(Command& command, int first, int count) {
    command.from = static_cast<int>(shapes_.size());
    const auto [least, most] =
        std::minmax_element(indices_.begin() + first, indices_.begin() + first + count);
    command.first_vertex = *least;
    command.last_vertex = *most;
    const auto index = [this](int i) { return indices_[static_cast<std::size_t>(i)]; };
    const auto joined = [&](int a, int b) {  // two triangles that share a corner
        for (int i = 0; i < 3; ++i)
            for (int j = 0; j < 3; ++j)
                if (index(a + i) == index(b + j)) return true;
        return false;
    };
    int start = first;
    for (int t = first + 3; t < first + count; t += 3)
        if (!joined(t - 3, t)) {
            add_shape(command, start, t - start);
            start = t;
        }
    add_shape(command, start, first + count - start);
    command.to = static_cast<int>(shapes_.size());
}

void DrawnFrame::add_shape(const Command& command, int first, int count) {
    Shape shape{first, count, {}, 0};
    stir(shape.looks, static_cast<std::uint64_t>(reinterpret_cast<std::uintptr_t>(command.texture)));
    std::uint64_t clip[2];
    std::memcpy(clip, &command.clip, sizeof clip);
    stir(shape.looks, clip[0]);
    stir(shape.looks, clip[1]);
    stir(shape.looks, static_cast<std::uint64_t>(count));
    float left = 1e9f, top = 1e9f, right = -1e9f, bottom = -1e9f;
    for (int i = first; i < first + count; ++i) {
        const ImDrawVert& v = vertices_[static_cast<std::size_t>(indices_[static_cast<std::size_t>(i)])];
        stir(shape.looks, v);
        left = std::min(left, v.pos.x);
        top = std::min(top, v.pos.y);
        right = std::max(right, v.pos.x);
        bottom = std::max(bottom, v.pos.y);
    }
    // A pixel more on every side, for the rounding of the renderer.
    const int x = static_cast<int>(std::floor(left)) - 1, y = static_cast<int>(std::floor(top)) - 1;
    shape.box =
        both({x, y, static_cast<int>(std::ceil(right)) + 1 - x, static_cast<int>(std::ceil(bottom)) + 1 - y},
             command.clip);
    shapes_.push_back(shape);
}

std::optional<std::vector<SDL_Rect>> DrawnFrame::differs_from(const DrawnFrame& before) const {
    if (before.w_ != w_ || before.h_ != h_ || before.page_ != page_) return std::nullopt;
    // The shapes common to both, in their order; whatever is in one alone makes its place different. Looking
    // a little ahead finds what came or went; where that fails more is rendered than need be, never less.
    constexpr std::size_t ahead = 300;
    std::vector<SDL_Rect> places;
    const auto& old = before.shapes_;
    std::size_t i = 0, j = 0;
    while (i < old.size() || j < shapes_.size()) {
        if (i < old.size() && j < shapes_.size() && old[i].looks == shapes_[j].looks) {
            ++i;
            ++j;
            continue;
        }
        std::size_t skip_old = i < old.size() ? 1 : 0, skip_new = j < shapes_.size() ? 1 : 0;
        for (std::size_t d = 1; d < ahead; ++d) {
            const bool in_old = i + d < old.size(), in_new = j + d < shapes_.size();
            if (in_old && in_new && old[i + d].looks == shapes_[j + d].looks) {
                skip_old = skip_new = d;
                break;
            }
            if (in_new && i < old.size() && old[i].looks == shapes_[j + d].looks) {
                skip_old = 0;
                skip_new = d;
                break;
            }
            if (in_old && j < shapes_.size() && old[i + d].looks == shapes_[j].looks) {
                skip_old = d;
                skip_new = 0;
                break;
            }
        }
        for (std::size_t d = 0; d < skip_old; ++d) add_place(places, old[i++].box);
        for (std::size_t d = 0; d < skip_new; ++d) add_place(places, shapes_[j++].box);
        if (places.size() > 16) return std::nullopt;
    }
    std::int64_t all = 0;
    for (const SDL_Rect& place : places) all += pixels_of(place);
    if (all * 2 > std::int64_t{w_} * h_) return std::nullopt;
    return places;
}

void DrawnFrame::render(SDL_Renderer* renderer, const SDL_Rect& part) const {
    SDL_RenderSetClipRect(renderer, &part);
    if (page_ != nullptr) {
        SDL_RenderCopy(renderer, page_, &part, &part);
    } else {
        SDL_SetRenderDrawBlendMode(renderer, SDL_BLENDMODE_NONE);
        SDL_SetRenderDrawColor(renderer, colour::page >> 16 & 255, colour::page >> 8 & 255,
                               colour::page & 255, 255);
        SDL_RenderFillRect(renderer, &part);
    }
    for (const Command& command : commands_) {
        const SDL_Rect clip = both(command.clip, part);
        if (pixels_of(clip) == 0) continue;
        picked_.clear();
        for (int s = command.from; s < command.to; ++s) {
            const Shape& shape = shapes_[static_cast<std::size_t>(s)];
            if (SDL_HasIntersection(&shape.box, &part) == SDL_FALSE) continue;
            for (int i = shape.first; i < shape.first + shape.count; ++i)
                picked_.push_back(indices_[static_cast<std::size_t>(i)] - command.first_vertex);
        }
        if (picked_.empty()) continue;
        SDL_RenderSetClipRect(renderer, &clip);
        const ImDrawVert& v = vertices_[static_cast<std::size_t>(command.first_vertex)];
        SDL_RenderGeometryRaw(renderer, command.texture, &v.pos.x, static_cast<int>(sizeof v),
                              reinterpret_cast<const SDL_Color*>(&v.col), static_cast<int>(sizeof v), &v.uv.x,
                              static_cast<int>(sizeof v), command.last_vertex - command.first_vertex + 1,
                              picked_.data(), static_cast<int>(picked_.size()),
                              static_cast<int>(sizeof(int)));
    }
    SDL_RenderSetClipRect(renderer, nullptr);
}

}  // namespace ui
