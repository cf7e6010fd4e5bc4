#pragma once
// How good a forecast was, once the truth is known; and three baselines it has to beat.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <vector>

#include "estimation/readings.h"
#include "numerics/random.h"

namespace barm::test {

/// Possible hours of an event, each with its weight (sum 1).
struct Guess {
  std::vector<double> hours, weight;
};

/// What never comes counts as this hour.
inline constexpr double late_as_can_be = 72;

/// Continuous ranked probability score: mean |X - y| - 1/2 mean |X - X'|, in hours; smaller is
/// better (Gneiting & Raftery 2007).
inline double crps(const Guess& guess, double truth) {
  std::vector<std::size_t> order(guess.hours.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto hours = [&](std::size_t i) { return std::min(late_as_can_be, guess.hours[i]); };
  std::sort(order.begin(), order.end(), [&](auto a, auto b) { return hours(a) < hours(b); });
  double to_truth = 0;
  double among = 0;
  double weight_below = 0;
  double sum_below = 0;
  for (const std::size_t i : order) {
    to_truth += guess.weight[i] * std::abs(hours(i) - truth);
    among += guess.weight[i] * (hours(i) * weight_below - sum_below);
    weight_below += guess.weight[i];
    sum_below += guess.weight[i] * hours(i);
  }
  return to_truth - among;
}

inline double quantile(const Guess& guess, double p) {
  std::vector<std::size_t> order(guess.hours.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(
      order.begin(), order.end(), [&](auto a, auto b) { return guess.hours[a] < guess.hours[b]; });
  double passed = 0;
  for (const std::size_t i : order) {
    passed += guess.weight[i];
    if (passed >= p) return guess.hours[i];
  }
  return guess.hours[order.back()];
}

/// Whether the range of 4 of 5 holds the truth.
inline bool covers(const Guess& guess, double truth) {
  return quantile(guess, 0.1) <= truth && truth <= quantile(guess, 0.9);
}

/// The same knowing that it has not happened yet; unchanged where that leaves nothing.
inline Guess not_before(Guess guess, double now) {
  double left = 0;
  for (std::size_t i = 0; i < guess.hours.size(); ++i) {
    if (guess.hours[i] > now) left += guess.weight[i];
  }
  if (left < 1e-9) {  // all are past: it will be any moment
    for (double& h : guess.hours) h = now * (1 + 0.05 * (h > 0 ? 1 : 1));
    return guess;
  }
  for (std::size_t i = 0; i < guess.hours.size(); ++i)
    guess.weight[i] = guess.hours[i] > now ? guess.weight[i] / left : 0;
  return guess;
}

/// Log-normal about an hour: 99 quantiles.
inline Guess around(double hours, double doubt) {
  Guess guess;
  for (int k = 1; k < 100; ++k) {
    guess.hours.push_back(hours * std::exp(doubt * numerics::normal_quantile(k / 100.0)));
    guess.weight.push_back(1.0 / 99);
  }
  return guess;
}

/// The rise above the start drawn on as an exponential through the last three heights that show
/// any; the time left is taken to be known to within a quarter. Empty when fewer than two show a
/// rise that grows.
inline Guess extrapolated(const estimation::Readings& readings, double now) {
  std::vector<double> t;
  std::vector<double> y;
  const double mark = readings.start_mark->in(millimetre);
  for (const auto& row : readings.rows) {
    const double rise = row.height->in(millimetre) / mark - 1;
    if (rise < 0.04) continue;
    t.push_back(row.at.in(hour));
    y.push_back(std::log(rise));
  }
  const std::size_t from = t.size() > 3 ? t.size() - 3 : 0;
  double n = 0;
  double st = 0;
  double sy = 0;
  for (std::size_t i = from; i < t.size(); ++i) {
    n += 1;
    st += t[i];
    sy += y[i];
  }
  if (n < 2) return {};
  double stt = 0;
  double sty = 0;
  for (std::size_t i = from; i < t.size(); ++i) {
    stt += (t[i] - st / n) * (t[i] - st / n);
    sty += (t[i] - st / n) * (y[i] - sy / n);
  }
  if (stt <= 0 || sty <= 0) return {};
  const double slope = sty / stt;
  const double ready = st / n - sy / n / slope;
  const double left = std::max(0.1, ready - now);
  Guess guess = around(left, 0.25);
  for (double& h : guess.hours) h += now;
  return guess;
}

/// Sums over many forecasts.
struct Score {
  double crps = 0;
  double off = 0;  // of the middle, in shares of the truth
  int held = 0, count = 0;

  void add(const Guess& guess, double truth) {
    crps += test::crps(guess, truth);
    held += covers(guess, truth) ? 1 : 0;
    off += std::min(late_as_can_be, quantile(guess, 0.5)) / truth - 1;
    ++count;
  }

  [[nodiscard]] double mean() const { return crps / count; }

  [[nodiscard]] double coverage() const { return static_cast<double>(held) / count; }
};

}  // namespace barm::test
