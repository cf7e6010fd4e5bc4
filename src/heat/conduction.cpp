#include "heat/conduction.h"

#include <algorithm>
#include <cmath>

#include "base/require.h"
#include "generated/constants.h"

namespace barm::heat {

namespace {

// Volumes of the layers, as shares of the whole.
std::vector<double> shares(std::size_t layers, double exponent) {
  std::vector<double> share(layers);
  double inside = 0;
  for (std::size_t i = 0; i < layers; ++i) {
    const double outside =
        std::pow(static_cast<double>(i + 1) / static_cast<double>(layers), exponent + 1);
    share[i] = outside - inside;
    inside = outside;
  }
  return share;
}

double interpolated(const std::vector<Warming>& warming, std::size_t& hint, double hours) {
  if (warming.empty()) return 0;
  while (hint + 1 < warming.size() && warming[hint + 1].from <= hours) ++hint;
  const Warming& before = warming[hint];
  if (hours <= before.from || hint + 1 == warming.size()) return before.per_mass;
  const Warming& after = warming[hint + 1];
  const double part = (hours - before.from) / (after.from - before.from);
  return before.per_mass + part * (after.per_mass - before.per_mass);
}

// C dT/dt = -K T + b,  per kilogram of the body: C [J/(kg K)], K [W/(kg K)], b [W/kg]. A step of
// TR-BDF2 with gamma = 2 - sqrt 2 solves twice with the same matrix C + (gamma h/2) K:
//     (C + gamma h/2 K) T_g = (C - gamma h/2 K) T_0 + gamma h/2 (b_0 + b_g)
//     (C + gamma h/2 K) T_1 = C ( T_g/(gamma (2 - gamma)) - T_0 (1-gamma)^2/(gamma (2-gamma)) )
//                             + gamma h/2 b_1
class Layers {
 public:
  Layers(const Body& body, const Profile& start, const Method& method)
      : n_(static_cast<std::size_t>(method.layers)),
        share_(shares(n_, body.shape.exponent)),
        between_(n_, 0.0),
        capacity_(n_),
        celsius_(n_),
        middle_(n_),
        right_(n_) {
    const double radius = body.shape.radius.si();
    const double thick = radius / static_cast<double>(n_);
    const double k = body.material.conductivity.si();
    const double n = body.shape.exponent;
    // Area over mass at the surface: A/(rho V) = (n + 1)/(rho R).
    const double area = (n + 1) / (body.material.density.si() * radius);
    for (std::size_t i = 0; i + 1 < n_; ++i) {
      const double part = std::pow(static_cast<double>(i + 1) / static_cast<double>(n_), n);
      between_[i] = area * part * k / thick;
    }
    const double half_layer = thick / (2 * k);
    outer_ = area / (half_layer + 1 / body.transfer);
    surface_weight_ = half_layer / (half_layer + 1 / body.transfer);
    for (std::size_t i = 0; i < n_; ++i) capacity_[i] = share_[i] * body.material.capacity.si();
    for (std::size_t i = 0; i < n_; ++i) {
      const std::size_t from = start.size() == 1 ? 0 : i;
      celsius_[i] = start[from];
    }
  }

  // From here on by steps of that length.
  void go_by(Time step) {
    half_ = 0.5 * gamma * step.si();
    factor();
  }

  // From the air and source at the begin, at gamma of the step, and at its end. Returns the heat
  // through the surface [J/kg].
  double step(const double (&air)[3], const double (&source)[3]) {
    const double flux_begin = flux(celsius_, air[0]);
    for (std::size_t i = 0; i < n_; ++i) {
      right_[i] = capacity_[i] * celsius_[i] +
                  half_ * (conducted(celsius_, i, air[0]) + share_[i] * (source[0] + source[1]));
    }
    right_[n_ - 1] += half_ * outer_ * air[1];
    solve(middle_);
    const double flux_middle = flux(middle_, air[1]);
    for (std::size_t i = 0; i < n_; ++i) {
      right_[i] = capacity_[i] * (of_middle * middle_[i] - of_begin * celsius_[i]) +
                  half_ * share_[i] * source[2];
    }
    right_[n_ - 1] += half_ * outer_ * air[2];
    solve(celsius_);
    return half_ * (of_middle * (flux_begin + flux_middle) + flux(celsius_, air[2]));
  }

  // What the sources give in a step [J/kg], worked out as step() does.
  [[nodiscard]] double made(const double (&source)[3]) const {
    return half_ * (of_middle * (source[0] + source[1]) + source[2]);
  }

  [[nodiscard]] WarmthAt moment(double hours, double air) const {
    constexpr double bend = constants::dough_heat::sensitivity.value.si();
    WarmthAt now;
    now.hours = hours;
    now.middle = celsius_[0] - (celsius_[1] - celsius_[0]) / 8;  // flat at r = 0
    now.surface = celsius_.back() + surface_weight_ * (air - celsius_.back());
    double square = 0;
    for (std::size_t i = 0; i < n_; ++i) now.mean += share_[i] * celsius_[i];
    for (std::size_t i = 0; i < n_; ++i) {
      square += share_[i] * (celsius_[i] - now.mean) * (celsius_[i] - now.mean);
    }
    // ln(mean exp(b T))/b to the second order
    now.working = now.mean + 0.5 * bend * square;
    return now;
  }

  [[nodiscard]] const Profile& celsius() const { return celsius_; }

 private:
  static constexpr double gamma = 0.5857864376269049;                        // 2 - sqrt 2
  static constexpr double of_middle = 1 / (gamma * (2 - gamma));             // T_g
  static constexpr double of_begin = (1 - gamma) * (1 - gamma) * of_middle;  // T_0

  [[nodiscard]] double flux(const Profile& t, double air) const {
    return outer_ * (air - t.back());
  }

  // -K T + what comes from the air, of one layer
  [[nodiscard]] double conducted(const Profile& t, std::size_t i, double air) const {
    double in = i + 1 < n_ ? between_[i] * (t[i + 1] - t[i]) : flux(t, air);
    if (i > 0) in -= between_[i - 1] * (t[i] - t[i - 1]);
    return in;
  }

  // The matrix is symmetric and has three diagonals: L D L' once, then two sweeps a solution.
  void factor() {
    pivot_.resize(n_);
    below_.resize(n_);
    for (std::size_t i = 0; i < n_; ++i) {
      const double outward = i + 1 < n_ ? between_[i] : outer_;
      const double inward = i > 0 ? between_[i - 1] : 0;
      pivot_[i] = capacity_[i] + half_ * (outward + inward);
      if (i == 0) continue;
      below_[i] = -half_ * inward / pivot_[i - 1];
      pivot_[i] += below_[i] * half_ * inward;
    }
    for (double& pivot : pivot_) pivot = 1 / pivot;
  }

  void solve(Profile& out) {
    for (std::size_t i = 1; i < n_; ++i) right_[i] -= below_[i] * right_[i - 1];
    out[n_ - 1] = right_[n_ - 1] * pivot_[n_ - 1];
    for (std::size_t i = n_ - 1; i-- > 0;)
      out[i] = right_[i] * pivot_[i] - below_[i + 1] * out[i + 1];
  }

  std::size_t n_;
  double half_ = 0;  // gamma h/2 [s]
  double outer_ = 0, surface_weight_ = 0;
  std::vector<double> share_, between_, capacity_, pivot_, below_;
  Profile celsius_, middle_, right_;
};

// So many steps of one length.
struct Stretch {
  int count = 0;
  Time step;
};

// Stretches that end where they should.
std::vector<Stretch> stretches_of(Time lasts, const Method& method) {
  constexpr int most_doublings = 4;
  std::vector<Stretch> out;
  Time left = lasts;
  Time step = method.step;
  for (int i = 0; method.doubles_after > 0 && i < most_doublings; ++i) {
    const Time stretch = method.doubles_after * step;
    if (stretch >= left) break;
    out.push_back({method.doubles_after, step});
    left -= stretch;
    step = 2.0 * step;
  }
  const double count = std::max(1.0, std::ceil(left / step - 1e-9));
  out.push_back({static_cast<int>(count), left / count});
  return out;
}

}  // namespace

std::vector<ProbeReading> Warmed::readings() const {
  std::vector<ProbeReading> out;
  out.reserve(moments.size());
  for (const WarmthAt& moment : moments)
    out.push_back({moment.hours * hour, Temperature::from_celsius(moment.working)});
  return out;
}

Track Warmed::track(double step) const { return Track::through(readings(), step); }

Warmed warm(const Body& body,
            const Profile& start,
            const Place& place,
            const std::vector<Warming>& warming,
            Time lasts,
            const Method& method) {
  require(method.layers >= 2 && method.step.si() > 0 && lasts.si() > 0, "layers, steps and time");
  require(start.size() == 1 || start.size() == static_cast<std::size_t>(method.layers),
          "a profile has one temperature or one a layer");
  require(body.transfer > 0 && body.shape.radius.si() > 0, "a body has a surface");
  const std::vector<Stretch> stretches = stretches_of(lasts, method);
  Layers layers(body, start, method);
  constexpr double gamma = 0.5857864376269049;
  Warmed warmed;
  std::size_t hint = 0;
  double air = place.celsius_at(0);
  double source = interpolated(warming, hint, 0);
  warmed.moments.push_back(layers.moment(0, air));
  double begin = 0;
  for (const Stretch& stretch : stretches) {
    const double step = stretch.step.in(hour);
    layers.go_by(stretch.step);
    for (int i = 0; i < stretch.count; ++i) {
      const double t = begin + i * step;
      const double airs[3] = {air, place.celsius_at(t + gamma * step), place.celsius_at(t + step)};
      const double sources[3] = {source,
                                 interpolated(warming, hint, t + gamma * step),
                                 interpolated(warming, hint, t + step)};
      warmed.through_surface += layers.step(airs, sources);
      warmed.made += layers.made(sources);
      air = airs[2];
      source = sources[2];
      warmed.moments.push_back(layers.moment(t + step, air));
    }
    begin += stretch.count * step;
  }
  warmed.end = layers.celsius();
  return warmed;
}

double mean_celsius(const Profile& profile, const Shape& shape) {
  if (profile.size() == 1) return profile.front();
  const auto share = shares(profile.size(), shape.exponent);
  double mean = 0;
  for (std::size_t i = 0; i < profile.size(); ++i) mean += share[i] * profile[i];
  return mean;
}

}  // namespace barm::heat
