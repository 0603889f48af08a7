#include "ui/paper/few_colours.h"

#include <png.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <vector>

namespace ui {
namespace {

constexpr std::size_t steps = 32, most_colours = 256;

std::size_t cell_of(std::uint32_t word) {
    return (word >> 19 & 31u) << 10 | (word >> 11 & 31u) << 5 | (word >> 3 & 31u);
}

struct Few {
    std::vector<std::uint32_t> colours;  // 0x00RRGGBB
    std::vector<std::uint8_t> nearest;   // for each cell of 8 x 8 x 8
};

int apart(std::uint32_t a, std::uint32_t b) {
    int sum = 0;
    for (const int shift : {16, 8, 0}) {
        const int d = static_cast<int>(a >> shift & 255u) - static_cast<int>(b >> shift & 255u);
        sum += d * d;
    }
    return sum;
}

Few few_colours(const Picture& picture) {
    struct Met {
        std::uint32_t word = 0;  // the first of its cell
        std::uint64_t times = 0;
    };
    std::vector<Met> cells(steps * steps * steps);
    for (int y = 0; y < picture.height(); ++y)
        for (int x = 0; x < picture.width(); ++x) {
            std::uint32_t word = 0;
            std::memcpy(
                &word, picture.pixels() + static_cast<std::ptrdiff_t>(y) * picture.stride_bytes() + x * 4, 4);
            Met& met = cells[cell_of(word)];
            if (met.times++ == 0) met.word = word & 0xFFFFFFu;
        }
    std::vector<std::size_t> order;
    for (std::size_t c = 0; c < cells.size(); ++c)
        if (cells[c].times > 0) order.push_back(c);
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return cells[a].times > cells[b].times; });
    Few few;
    few.nearest.resize(cells.size());
    for (std::size_t i = 0; i < std::min(order.size(), most_colours); ++i)
        few.colours.push_back(cells[order[i]].word);
    for (const std::size_t c : order) {
        std::size_t best = 0;
        for (std::size_t i = 1; i < few.colours.size(); ++i)
            if (apart(cells[c].word, few.colours[i]) < apart(cells[c].word, few.colours[best])) best = i;
        few.nearest[c] = static_cast<std::uint8_t>(best);
    }
    return few;
}

}  // namespace

engine::Outcome<engine::Done> write_png_few_colours(const Picture& picture, const std::string& path) {
    const Few few = few_colours(picture);
    std::vector<png_byte> rows;
    for (int y = 0; y < picture.height(); ++y)
        for (int x = 0; x < picture.width(); ++x) {
            std::uint32_t word = 0;
            std::memcpy(
                &word, picture.pixels() + static_cast<std::ptrdiff_t>(y) * picture.stride_bytes() + x * 4, 4);
            rows.push_back(few.nearest[cell_of(word)]);
        }
    std::vector<png_byte> colours;
    for (const std::uint32_t c : few.colours)
        for (const int shift : {16, 8, 0}) colours.push_back(static_cast<png_byte>(c >> shift & 255u));
    png_image image{};
    image.version = PNG_IMAGE_VERSION;
    image.width = static_cast<png_uint_32>(picture.width());
    image.height = static_cast<png_uint_32>(picture.height());
    image.format = PNG_FORMAT_RGB_COLORMAP;
    image.colormap_entries = static_cast<png_uint_32>(few.colours.size());
    errno = 0;
    if (png_image_write_to_file(&image, path.c_str(), 0, rows.data(), picture.width(), colours.data()) == 0)
        return engine::Fault{path, 0, "picture", errno != 0 ? std::strerror(errno) : image.message,
                             "a place that can be written"};
    return engine::Done{};
}

}  // namespace ui
