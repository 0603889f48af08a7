// Parts of a page, one below the other, broken over as many pages as they need.
#pragma once

#include "ui/canvas/canvas.h"

#include <functional>
#include <vector>

namespace ui {

// Draws itself from the top of the box and gives the height it used; called once before to be measured.
using Part = std::function<double(Canvas&, Box)>;

class Flow {
public:
    Flow(double width, double height, double margin, double foot);
    // `with_next`: never the last on its page (a heading).
    void add(Part part, double gap_below, bool with_next = false);
    // Drawn on each page, with its number from 1 and how many there are.
    void every_page(std::function<void(Canvas&, int page, int of)> draw);
    // The pages as functions that draw them.
    std::vector<std::function<void(Canvas&)>> pages() const;
    Box inside() const { return {margin_, margin_, width_ - 2 * margin_, height_ - margin_ - foot_}; }

private:
    struct Piece {
        Part part;
        double gap = 0;
        bool with_next = false;
    };
    double width_, height_, margin_, foot_;
    std::vector<Piece> pieces_;
    std::function<void(Canvas&, int, int)> every_page_;
};

}  // namespace ui
