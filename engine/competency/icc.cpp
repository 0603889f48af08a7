#include "engine/competency/icc.h"

#include "engine/competency/distributions.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace engine {
namespace {

Intraclass no_intraclass(const std::string& why) {
    const Figure a = Figure::absent(why);
    const Interval i = Interval::absent(why);
    return {a, a, a, a, a, a, a, a, a, a, i, i, a, a};
}

Figure ratio(double above, double below) {
    if (below == 0) return Figure::absent("the windows do not differ: there is nothing to divide by");
    // Windows that differ less than chance makes them: the ratio would change its sign and pass 1.
    if (below < 0)
        return Figure::absent(
            "the windows differ less than the counts of one window: the ratio means nothing");
    return Figure(above / below);
}

}  // namespace

Intraclass intraclass(const std::vector<std::vector<double>>& rows) {
    if (rows.size() < 2) return no_intraclass("needs 2 windows");
    const std::size_t columns = rows.front().size();
    if (columns < 2) return no_intraclass("needs 2 trainees");
    const double n = static_cast<double>(rows.size()), k = static_cast<double>(columns);

    std::vector<double> row_mean(rows.size()), column_mean(columns);
    double mean = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        assert(rows[i].size() == columns);
        for (std::size_t j = 0; j < columns; ++j) {
            row_mean[i] += rows[i][j] / k;
            column_mean[j] += rows[i][j] / n;
            mean += rows[i][j] / (n * k);
        }
    }
    double msr = 0, msc = 0, mse = 0, msw = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        msr += k * (row_mean[i] - mean) * (row_mean[i] - mean) / (n - 1);
        for (std::size_t j = 0; j < columns; ++j) {
            const double left = rows[i][j] - row_mean[i] - column_mean[j] + mean;
            mse += left * left / ((n - 1) * (k - 1));
            msw += (rows[i][j] - row_mean[i]) * (rows[i][j] - row_mean[i]) / (n * (k - 1));
        }
    }
    for (double c : column_mean) msc += n * (c - mean) * (c - mean) / (k - 1);
    const double dust = 1e-24 * mean * mean;  // what rounding leaves of a zero mean square
    for (double* square : {&msr, &msc, &mse, &msw})
        if (*square <= dust) *square = 0;

    Intraclass icc = no_intraclass("all identical");
    icc.between_rows = msr;
    icc.between_columns = msc;
    icc.left_over = mse;
    icc.within_rows = msw;
    icc.agreement_error_bpm = std::sqrt(mse + std::max(0.0, (msc - mse) / n));
    if (msr == 0 && mse == 0) return icc;

    icc.one_way = ratio(msr - msw, msr + (k - 1) * msw);
    icc.one_way_mean = ratio(msr - msw, msr);
    icc.agreement = ratio(msr - mse, msr + (k - 1) * mse + k * (msc - mse) / n);
    icc.agreement_mean = ratio(msr - mse, msr + (msc - mse) / n);
    icc.consistency = ratio(msr - mse, msr + (k - 1) * mse);
    icc.consistency_mean = ratio(msr - mse, msr);

    icc.consistency_interval = Interval::absent("the trainees agree exactly in rank and distance");
    if (msr == 0)
        icc.consistency_interval = Interval::absent("the windows do not differ: no interval");
    else if (mse > 0) {
        const double f = msr / mse, d1 = n - 1, d2 = (n - 1) * (k - 1);
        const double low = f / f_quantile(0.975, d1, d2), high = f * f_quantile(0.975, d2, d1);
        icc.consistency_interval = {(low - 1) / (low + k - 1), (high - 1) / (high + k - 1)};
    }

    const auto without = [&](const std::string& why) {
        icc.agreement_interval = Interval::absent(why);
        icc.interval_degrees = Figure::absent(why);
        return icc;
    };
    if (!icc.agreement) return without(icc.agreement.why());
    const double rho = *icc.agreement;
    if (rho >= 1) return without("perfect agreement");
    const double a = k * rho / (n * (1 - rho)), b = 1 + k * rho * (n - 1) / (n * (1 - rho));
    const double top = a * msc + b * mse;
    const double below = (a * msc) * (a * msc) / (k - 1) + (b * mse) * (b * mse) / ((n - 1) * (k - 1));
    if (below <= 0 || top <= 0) return without("the agreement is not above chance: no interval");
    const double v = top * top / below;
    icc.interval_degrees = v;
    const double fl = f_quantile(0.975, n - 1, v), fu = f_quantile(0.975, v, n - 1), c = k * n - k - n;
    icc.agreement_interval = {n * (msr - fl * mse) / (fl * (k * msc + c * mse) + n * msr),
                              n * (fu * msr - mse) / (k * msc + c * mse + n * fu * msr)};
    return icc;
}

}  // namespace engine
