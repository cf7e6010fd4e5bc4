// How long the warmth of a dough takes to work out, and how exact it is: 48 hours of a loaf in a
// fridge, beside a reference of many nodes by Crank and Nicolson, all in one run.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <vector>

#include "heat/conduction.h"

namespace barm::bench {

namespace {

using heat::Body;
using Clock = std::chrono::steady_clock;

constexpr double hours = 48;
constexpr double from = 24;
constexpr double to = 4;

Body loaf() {
  const auto dough = heat::material({.water = 0.48,
                                     .protein = 0.07,
                                     .fat = 0.01,
                                     .carbohydrate = 0.41,
                                     .fibre = 0.02,
                                     .ash = 0.02},
                                    Temperature::from_celsius(14),
                                    0.4);
  return {dough, heat::loaf(0.9 * kilogram / dough.density, 0.5), 5};
}

// The mean temperature each hour.
using Means = std::vector<double>;

Means ours(const Body& body, int layers, double step) {
  const auto warmed = heat::warm(body,
                                 heat::even(Temperature::from_celsius(from)),
                                 {.settles = Temperature::from_celsius(to)},
                                 {},
                                 hours * hour,
                                 {layers, step * hour});
  Means means;
  const auto each = static_cast<std::size_t>(std::lround(1 / step));
  for (std::size_t i = 0; i < warmed.moments.size(); i += each)
    means.push_back(warmed.moments[i].mean);
  return means;
}

// Crank and Nicolson on nodes: r = 0 and r = R among them, by differences of second order.
//     T_rr + n/r T_r,  at r = 0 (n + 1) T_rr,  at r = R with a node beyond: T_r = -h/k (T -
//     T_place)
Means crank_nicolson(const Body& body, int nodes, double step) {
  const double a = body.material.diffusivity() * 3600;
  const double n = body.shape.exponent;
  const double radius = body.shape.radius.si();
  const double dr = radius / (nodes - 1);
  const double biot = body.transfer * dr / body.material.conductivity.si();
  const auto count = static_cast<std::size_t>(nodes);
  std::vector<double> low(count), middle(count), high(count), t(count, from - to), right(count),
      factor(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double c = a / (dr * dr);
    const double bend = i == 0 ? 0 : n / (2 * static_cast<double>(i));
    if (i == 0) {
      high[i] = 2 * (n + 1) * c;
      middle[i] = -high[i];
    } else if (i + 1 == count) {
      low[i] = 2 * c;
      middle[i] = -2 * c - 2 * biot * (1 + bend) * c;
    } else {
      low[i] = c * (1 - bend);
      high[i] = c * (1 + bend);
      middle[i] = -2 * c;
    }
  }
  const auto mean = [&] {
    double sum = 0;
    double all = 0;
    for (std::size_t i = 0; i < count; ++i) {
      const double r0 = std::max(0.0, static_cast<double>(i) - 0.5);
      const double r1 = std::min(static_cast<double>(count - 1), static_cast<double>(i) + 0.5);
      const double w = std::pow(r1, n + 1) - std::pow(r0, n + 1);
      sum += w * t[i];
      all += w;
    }
    return to + sum / all;
  };
  Means means{mean()};
  const int steps = static_cast<int>(std::lround(hours / step));
  const int each = static_cast<int>(std::lround(1 / step));
  for (int s = 1; s <= steps; ++s) {
    for (std::size_t i = 0; i < count; ++i) {
      right[i] = t[i] + 0.5 * step *
                            (middle[i] * t[i] + (i > 0 ? low[i] * t[i - 1] : 0) +
                             (i + 1 < count ? high[i] * t[i + 1] : 0));
    }
    double pivot = 1 - 0.5 * step * middle[0];
    right[0] /= pivot;
    for (std::size_t i = 1; i < count; ++i) {
      factor[i] = -0.5 * step * high[i - 1] / pivot;
      pivot = 1 - 0.5 * step * middle[i] + 0.5 * step * low[i] * factor[i];
      right[i] = (right[i] + 0.5 * step * low[i] * right[i - 1]) / pivot;
    }
    t[count - 1] = right[count - 1];
    for (std::size_t i = count - 1; i-- > 0;) t[i] = right[i] - factor[i + 1] * t[i + 1];
    if (s % each == 0) means.push_back(mean());
  }
  return means;
}

double worst(const Means& a, const Means& b) {
  double difference = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    difference = std::max(difference, std::abs(a[i] - b[i]));
  return difference;
}

template <class Work>
double microseconds(const Work& work) {
  std::vector<double> times;
  for (int i = 0; i < 15; ++i) {
    const auto begin = Clock::now();
    int count = 0;
    do {
      work();
      ++count;
    } while (Clock::now() - begin < std::chrono::milliseconds(20));
    const std::chrono::duration<double, std::micro> spent = Clock::now() - begin;
    times.push_back(spent.count() / count);
  }
  std::sort(times.begin(), times.end());
  return times[times.size() / 2];
}

}  // namespace

int run() {
  const Body body = loaf();
  const Means exact = ours(body, 400, 1.0 / 400);
  double sink = 0;
  const auto row = [&](const char* what, const auto& method) {
    const Means means = method();
    const double time = microseconds([&] { sink += method().back(); });
    std::printf("| %-44s | %8.0f | %8.4f |\n", what, time, worst(means, exact));
  };
  std::printf("| 48 h of a 0.9 kg loaf in a fridge            |  time us | worst K |\n");
  std::printf("| -------------------------------------------- | -------- | -------- |\n");
  row("ours: 16 layers, 6 min", [&] { return ours(body, 16, 0.1); });
  row("ours: 8 layers, 15 min", [&] { return ours(body, 8, 0.25); });
  row("ours: 64 layers, 1.5 min", [&] { return ours(body, 64, 0.025); });
  row("Crank-Nicolson: 200 nodes, 1 min", [&] { return crank_nicolson(body, 200, 1.0 / 60); });
  row("Crank-Nicolson: 17 nodes, 6 min", [&] { return crank_nicolson(body, 17, 0.1); });
  const auto warmed = heat::warm(body,
                                 heat::even(Temperature::from_celsius(from)),
                                 {.settles = Temperature::from_celsius(to)},
                                 {},
                                 hours * hour);
  const double track = microseconds([&] { sink += warmed.track().celsius_at(3); });
  std::printf("| %-44s | %8.0f |          |\n", "as a track in steps of half a degree", track);
  return std::isfinite(sink) ? 0 : 1;
}

}  // namespace barm::bench

int main() { return barm::bench::run(); }
