// Elementary functions from + - * / and sqrt only: the library's own differ in their last bits between
// machines (with and without fused multiply-add), and then beats differ. Tested to 1e-14 (relative, or
// absolute below 1) against libm. Nothing in sim/ or engine/scoring may call the library's exp, log, pow,
// sin, cos or tanh.
#pragma once

namespace sim {

double exact_exp2(double x);  // -1000..1000
double exact_exp(double x);   // -690..690
double exact_log2(double x);  // x > 0
double exact_log(double x);   // x > 0
double exact_sin(double x);   // |x| below 1e6
double exact_cos(double x);
double exact_tanh(double x);
double exact_pow10(double x);  // 10^x, |x| below 300: decibels / 20 to a gain

inline constexpr double pi = 3.141592653589793238462643383279502884;

}  // namespace sim
