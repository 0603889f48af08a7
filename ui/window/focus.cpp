#include "ui/window/focus.h"

#include <cmath>

namespace ui {

void Focus::stop(std::string_view id, Area at, Kind kind) {
    drawing_.push_back({std::string(id), at, kind, part});
}

void Focus::end_frame() {
    order_.swap(drawing_);
    drawing_.clear();
}

const Focus::Stop* Focus::now() const {
    for (const Stop& s : order_)
        if (s.id == id_) return &s;
    return nullptr;
}

void Focus::put(std::string_view id, bool with_ring) {
    id_ = id;
    ring_ = with_ring && !id_.empty();
    moved = with_ring;
}

void Focus::step(int by) {
    if (order_.empty()) return;
    const int n = static_cast<int>(order_.size());
    int at = -1;
    for (int i = 0; i < n; ++i)
        if (order_[static_cast<std::size_t>(i)].id == id_) at = i;
    const int next = at < 0 ? (by > 0 ? 0 : n - 1) : (at + by + n) % n;
    put(order_[static_cast<std::size_t>(next)].id, true);
}

bool Focus::move(int dx, int dy) {
    const Stop* from = now();
    if (from == nullptr) return false;
    const Stop* best = nullptr;
    float best_way = 1e9f;
    for (const Stop& s : order_) {
        if (s.id == from->id) continue;
        const float x = s.at.middle_x() - from->at.middle_x(), y = s.at.middle_y() - from->at.middle_y();
        const float along = x * static_cast<float>(dx) + y * static_cast<float>(dy);
        const float across = std::fabs(x * static_cast<float>(dy)) + std::fabs(y * static_cast<float>(dx));
        if (along < 4 || across > along * 2.5f) continue;
        const float way = along + 2 * across;
        if (way < best_way) {
            best_way = way;
            best = &s;
        }
    }
    if (best == nullptr) return false;
    put(std::string(best->id), true);
    return true;
}

}  // namespace ui
