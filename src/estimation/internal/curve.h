#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <utility>

namespace barm::estimation::internal {

/// A curve at regular hours, between them by the cubic through four points.
class Curve {
 public:
  Curve(std::span<const float> points, double every) : points_(points), every_(every) {}

  /// Value and slope at `hours`; not a number where the curve has ended.
  [[nodiscard]] std::pair<double, double> at(double hours) const {
    const double position = std::max(0.0, hours / every_);
    const auto last = static_cast<std::ptrdiff_t>(points_.size()) - 2;
    const auto i = std::clamp<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(position), 0, last);
    const double s = std::min(1.0, position - static_cast<double>(i));
    const double b = point(i);
    const double c = point(i + 1);
    const double before = i > 0 ? point(i - 1) : 2 * b - c;
    const double after = i + 2 <= last + 1 ? point(i + 2) : 2 * c - b;
    const double m0 = 0.5 * (c - before);
    const double m1 = 0.5 * ((std::isnan(after) ? 2 * c - b : after) - b);
    const double c2 = 3 * (c - b) - 2 * m0 - m1;
    const double c3 = 2 * (b - c) + m0 + m1;
    return {b + s * (m0 + s * (c2 + s * c3)), (m0 + s * (2 * c2 + 3 * s * c3)) / every_};
  }

 private:
  [[nodiscard]] double point(std::ptrdiff_t i) const {
    return static_cast<double>(points_[static_cast<std::size_t>(i)]);
  }

  std::span<const float> points_;
  double every_;
};

}  // namespace barm::estimation::internal
