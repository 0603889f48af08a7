#include "ui/plots/spectrogram.h"

#include "ui/plots/strip.h"

#include <cairo.h>
#include <fmt/format.h>
#include <kiss_fftr.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <memory>
#include <numbers>

namespace ui {
namespace {

constexpr double sample_rate = 48000;
constexpr int window_samples = 4096, step_samples = 1200;  // 85 ms, 25 ms

struct FreeTransform {
    void operator()(kiss_fftr_state* state) const { kiss_fftr_free(state); }
};

std::vector<float> hann() {
    std::vector<float> window(window_samples);
    for (int i = 0; i < window_samples; ++i)
        window[static_cast<std::size_t>(i)] =
            static_cast<float>(0.5 - 0.5 * std::cos(2 * std::numbers::pi * i / window_samples));
    return window;
}

// Okabe and Ito's sky blue and blue between paper and ink.
constexpr Colour sky_blue{0x56, 0xB4, 0xE9}, blue{0x00, 0x72, 0xB2};

std::uint32_t word_of(Colour c) {
    return 0xFF000000u | static_cast<std::uint32_t>(c.red) << 16 | static_cast<std::uint32_t>(c.green) << 8 |
           c.blue;
}

// Pitches are shown as the ear has them, octave by octave from 20 Hz, in bands of equal height.
constexpr double shown_from_hz = 20;
constexpr int bands = 40;

double hz_of(double share, double most_hz) {
    return shown_from_hz * std::pow(most_hz / shown_from_hz, share);
}
double share_of(double hz, double most_hz) {
    return std::log(hz / shown_from_hz) / std::log(most_hz / shown_from_hz);
}

// Mean power of the rows inside a band; between two rows where a band is narrower than they lie apart.
double band_db(const Spectrogram& s, int column, double from_hz, double to_hz) {
    const int first = static_cast<int>(std::ceil(from_hz / s.row_hz)),
              last = static_cast<int>(std::floor(to_hz / s.row_hz));
    if (first > last || last >= s.rows) {
        const double row = std::clamp((from_hz + to_hz) / 2 / s.row_hz, 0.0, s.rows - 1.001);
        const int low = static_cast<int>(row);
        const double u = row - low;
        return static_cast<double>(s.at(column, low)) * (1 - u) +
               static_cast<double>(s.at(column, low + 1)) * u;
    }
    double power = 0;
    for (int row = first; row <= last; ++row)
        power += std::pow(10.0, static_cast<double>(s.at(column, row)) / 10);
    return 10 * std::log10(power / (last - first + 1));
}

// One point a column and band; shades in steps of 4 dB, which the key shows.
void draw_shades(Canvas& canvas, Box box, const Spectrogram& s, const Theme& theme) {
    const double most_hz = (s.rows - 1) * s.row_hz;
    cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, s.columns, bands);
    cairo_surface_flush(surface);
    unsigned char* pixels = cairo_image_surface_get_data(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    std::vector<double> level(static_cast<std::size_t>(s.columns * bands));
    double loudest = -160;
    for (int x = 0; x < s.columns; ++x)
        for (int band = 0; band < bands; ++band) {
            const double db = band_db(s, x, hz_of(static_cast<double>(band) / bands, most_hz),
                                      hz_of(static_cast<double>(band + 1) / bands, most_hz));
            level[static_cast<std::size_t>(x * bands + band)] = db;
            loudest = std::max(loudest, db);
        }
    for (int x = 0; x < s.columns; ++x)
        for (int band = 0; band < bands; ++band) {
            const double under = loudest - level[static_cast<std::size_t>(x * bands + band)];
            const std::uint32_t word = word_of(shade_of(std::round(under / 4) * 4, theme));
            std::memcpy(pixels + (bands - 1 - band) * stride + x * 4, &word, 4);
        }
    cairo_surface_mark_dirty(surface);
    cairo_t* c = canvas.context();
    cairo_save(c);
    cairo_translate(c, box.x, box.y);
    cairo_scale(c, box.w / s.columns, box.h / bands);
    cairo_set_source_surface(c, surface, 0, 0);
    cairo_pattern_set_filter(cairo_get_source(c), CAIRO_FILTER_NEAREST);
    cairo_rectangle(c, 0, 0, s.columns, bands);
    cairo_fill(c);
    cairo_restore(c);
    cairo_surface_destroy(surface);
}

}  // namespace

float Spectrogram::loudest_db() const {
    float loudest = -160;
    for (const float db : level_db) loudest = std::max(loudest, db);
    return loudest;
}

Spectrogram::Strongest Spectrogram::strongest(double least_hz) const {
    Strongest best;
    for (int row = 0; row < rows; ++row) {
        if (row * row_hz < least_hz || columns == 0) continue;
        double power = 0;
        for (int c = 0; c < columns; ++c) power += std::pow(10.0, static_cast<double>(at(c, row)) / 10);
        const double db = 10 * std::log10(power / columns);
        if (db > best.db && db > -150) best = {row * row_hz, db};
    }
    return best;
}

Spectrogram spectrogram_of(std::span<const float> samples, double from_s, double most_hz) {
    Spectrogram s;
    s.step_s = step_samples / sample_rate;
    s.row_hz = sample_rate / window_samples;
    s.from_s = from_s + window_samples / sample_rate / 2;
    s.rows = static_cast<int>(std::floor(most_hz / s.row_hz)) + 1;
    const auto n = static_cast<int>(samples.size());
    s.columns = n < window_samples ? 0 : (n - window_samples) / step_samples + 1;
    const std::unique_ptr<kiss_fftr_state, FreeTransform> transform(
        kiss_fftr_alloc(window_samples, 0, nullptr, nullptr));
    const std::vector<float> window = hann();
    std::vector<float> piece(window_samples);
    std::vector<kiss_fft_cpx> pitches(window_samples / 2 + 1);
    constexpr double sine_of_one =
        window_samples / 4.0;  // what a sine of amplitude 1 gives under this window
    for (int c = 0; c < s.columns; ++c) {
        const auto first = static_cast<std::size_t>(c) * step_samples;
        for (std::size_t i = 0; i < window_samples; ++i) piece[i] = samples[first + i] * window[i];
        kiss_fftr(transform.get(), piece.data(), pitches.data());
        for (int row = 0; row < s.rows; ++row) {
            const kiss_fft_cpx& p = pitches[static_cast<std::size_t>(row)];
            const double size = std::hypot(static_cast<double>(p.r), static_cast<double>(p.i)) / sine_of_one;
            s.level_db.push_back(static_cast<float>(std::max(-160.0, 20 * std::log10(size + 1e-12))));
        }
    }
    return s;
}

Colour shade_of(double under_loudest_db, const Theme& theme) {
    const double k = std::clamp(1 - under_loudest_db / spectrogram_depth_db, 0.0, 1.0);
    const Palette& p = theme.colour;
    if (k < 0.40) return blended(sky_blue, p.card, k / 0.40);
    if (k < 0.75) return blended(blue, sky_blue, (k - 0.40) / 0.35);
    return blended(p.ink, blue, (k - 0.75) / 0.25);
}

void draw_spectrogram(Canvas& canvas, Box box, const Spectrogram& s, const SpectrogramMarks& marks,
                      const std::string& title, const std::string& says, const Theme& theme) {
    const Palette& p = theme.colour;
    const Words small{.size = theme.px(TypeScale::note), .colour = p.soft_ink};
    const double head = theme.px(20), foot = theme.px(17), left = theme.px(30);
    const double marks_h = theme.px(22);
    const double title_w = canvas.text({box.x, box.y + theme.px(14)}, title,
                                       {.size = theme.px(TypeScale::note), .colour = p.ink, .bold = true});
    canvas.short_text({box.x + title_w + theme.px(8), box.y + theme.px(14)}, says, small,
                      box.w - title_w - theme.px(8));
    const Box shades{box.x + left, box.y + head + marks_h, box.w - left, box.h - head - foot - marks_h};
    const double most_hz = (s.rows - 1) * s.row_hz;
    const double to_s = s.from_s + (s.columns - 1) * s.step_s;
    const auto x_of = [&](double t) { return shades.x + (t - s.from_s) / (to_s - s.from_s) * shades.w; };
    const auto y_of = [&](double hz) { return shades.bottom() - share_of(hz, most_hz) * shades.h; };
    if (s.columns < 2 || s.rows < 2) {
        canvas.text({shades.x, shades.y + theme.px(14)}, "no sound", small);
        return;
    }
    draw_shades(canvas, shades, s, theme);
    const Words hertz{.size = theme.px(TypeScale::key), .colour = p.soft_ink, .align = Align::right};
    double free_above = shades.bottom() + theme.px(20);
    for (const double hz : {20.0, 50.0, 100.0, 200.0, 400.0, 600.0}) {
        if (hz > most_hz * 1.02 || y_of(hz) > free_above - theme.px(13)) continue;
        const double y = std::max(y_of(hz), shades.y);
        canvas.line({shades.x - theme.px(3), y}, {shades.x, y}, p.soft_ink, theme.px(1));
        canvas.text({shades.x - theme.px(5), y + theme.px(4)}, fmt::format("{:g}", hz), hertz);
        free_above = y;
    }
    for (double t = std::ceil(s.from_s); t <= to_s; t += 1)
        canvas.line({x_of(t), shades.bottom()}, {x_of(t), shades.bottom() + theme.px(3)}, p.soft_ink,
                    theme.px(1));
    const Words seconds{.size = theme.px(TypeScale::key), .colour = p.soft_ink, .align = Align::centre};
    const double last = std::floor(to_s);
    for (const double t : {std::ceil(s.from_s), last})
        canvas.text({std::clamp(x_of(t), shades.x + theme.px(14), shades.right() - theme.px(14)),
                     box.bottom() - theme.px(3)},
                    minutes_and_seconds(t), seconds);
    const auto inside = [&](double t) { return t >= s.from_s && t <= to_s; };
    const double r = theme.px(3.6), high = shades.y - theme.px(15), low = shades.y - theme.px(5);
    const auto wedge = [&](double t, Colour colour, bool hollow) {
        const Point corners[] = {{x_of(t) - r, high - r}, {x_of(t) + r, high - r}, {x_of(t), high + r}};
        canvas.area(corners, colour);
        if (hollow) canvas.disc({x_of(t), high - r * 0.35}, r * 0.4, p.card);
    };
    for (const double t : marks.baby_s)
        if (inside(t)) wedge(t, p.ink, false);
    for (const double t : marks.second_baby_s)
        if (inside(t)) wedge(t, p.act, true);
    for (const double t : marks.mother_s)
        if (inside(t)) canvas.fill({x_of(t) - r * 0.7, low - r * 0.7, r * 1.4, r * 1.4}, p.ink);
}

void draw_spectrogram_key(Canvas& canvas, Box box, const Theme& theme) {
    const Words small{.size = theme.px(TypeScale::key), .colour = theme.colour.ink, .align = Align::centre};
    const double bar_h = theme.px(10);
    const int steps = static_cast<int>(spectrogram_depth_db / 4);
    for (int i = 0; i <= steps; ++i)
        canvas.fill({box.x + box.w * i / (steps + 1), box.y, box.w / (steps + 1) + 0.5, bar_h},
                    shade_of(spectrogram_depth_db - 4 * i, theme));
    canvas.round_edge({box.x, box.y, box.w, bar_h}, 0, theme.colour.rule, theme.px(1));
    for (const double under : {48.0, 36.0, 24.0, 12.0, 0.0})
        canvas.text({box.x + box.w * (1 - under / spectrogram_depth_db), box.y + bar_h + theme.px(12)},
                    under > 0 ? fmt::format("\u2212{:g}", under) : "0 dB", small);
}

}  // namespace ui
