#include "ui/paper/flow.h"

#include "ui/canvas/surface.h"

#include <utility>

namespace ui {

Flow::Flow(double width, double height, double margin, double foot)
    : width_(width), height_(height), margin_(margin), foot_(foot) {}

void Flow::add(Part part, double gap_below, bool with_next) {
    pieces_.push_back({std::move(part), gap_below, with_next});
}

void Flow::every_page(std::function<void(Canvas&, int, int)> draw) { every_page_ = std::move(draw); }

std::vector<std::function<void(Canvas&)>> Flow::pages() const {
    struct Placed {
        Part part;
        Box box;
    };
    Picture scratch(1, 1);
    const Box whole = inside();
    std::vector<double> heights;
    for (const Piece& piece : pieces_) heights.push_back(piece.part(scratch.canvas(), whole));

    std::vector<std::vector<Placed>> laid(1);
    double y = whole.y;
    for (std::size_t i = 0; i < pieces_.size();) {
        // A heading and what follows it go together.
        std::size_t last = i;
        while (last + 1 < pieces_.size() && pieces_[last].with_next) ++last;
        double needed = 0;
        for (std::size_t k = i; k <= last; ++k) needed += heights[k] + (k < last ? pieces_[k].gap : 0);
        if (y + needed > whole.bottom() && !laid.back().empty()) {
            laid.emplace_back();
            y = whole.y;
        }
        for (; i <= last; ++i) {
            laid.back().push_back({pieces_[i].part, {whole.x, y, whole.w, heights[i]}});
            y += heights[i] + pieces_[i].gap;
        }
    }

    std::vector<std::function<void(Canvas&)>> made;
    const int of = static_cast<int>(laid.size());
    for (std::size_t n = 0; n < laid.size(); ++n)
        made.push_back([page = laid[n], every = every_page_, n, of](Canvas& canvas) {
            if (every) every(canvas, static_cast<int>(n) + 1, of);
            for (const Placed& placed : page) placed.part(canvas, placed.box);
        });
    return made;
}

}  // namespace ui
