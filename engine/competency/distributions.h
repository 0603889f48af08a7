// The distributions the figures of many attempts are judged by. Boost.Math, except where said.
#pragma once

namespace engine {

inline constexpr double z95 = 1.9599639845400545;  // normal quantile of 0.975

double normal_density(double z);
double normal_cdf(double z);
double normal_quantile(double p);  // 0 < p < 1
double t_quantile(double p, double degrees);
double f_quantile(double p, double above, double below);  // degrees of freedom
double chi_squared_at_least(double x, double degrees);
double chi_squared_quantile(double p, double degrees);
double beta_quantile(double p, double a, double b);
double log_gamma(double x);
double log_choose(double n, double k);
double log_beta(double a, double b);

double binomial_exactly(int successes, int trials, double p);
double binomial_at_least(int successes, int trials, double p);  // 1 at successes <= 0, 0 above trials
double hypergeometric_at_least(int common, int drawn, int marked, int all);

// Noncentral t. Above 300 degrees of freedom by direct integration over the scale (own; the series of the
// libraries lose digits as delta grows), below by Boost.Math.
double noncentral_t_quantile(double p, double degrees, double delta);

}  // namespace engine
