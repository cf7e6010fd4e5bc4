#include "oven/bread.h"

#include <algorithm>
#include <cmath>

#include "base/require.h"
#include "oven/internal/of_bread.h"
#include "oven/internal/steam_table.h"

namespace barm::oven {

using namespace of_bread;

Bread::Bread(const heat::Shape& shape,
             double dry_density,
             double water,
             double ethanol,
             double celsius,
             const Passing& passing,
             const Mesh& mesh)
    : passing_(passing),
      density_(dry_density),
      start_water_(water),
      exponent_(shape.exponent),
      radius_(shape.radius.si()),
      surface_(celsius),
      start_ethanol_(ethanol) {
  require(mesh.layers >= 4 && water > bound && celsius < boils && dry_density > 0,
          "a loaf has layers, water, and does not boil yet");
  const auto n = static_cast<std::size_t>(mesh.layers);
  const double power = exponent_ + 1;
  const auto face = [&](std::size_t j) {
    const double inwards = 1 - static_cast<double>(j) / static_cast<double>(n);
    return radius_ * (1 - std::pow(inwards, mesh.grading));
  };
  for (std::size_t i = 0; i < n; ++i) {
    const double inner = face(i);
    const double outer = face(i + 1);
    const double middle = 0.5 * (inner + outer);
    volume_.push_back((std::pow(outer, power) - std::pow(inner, power)) /
                      (power * std::pow(radius_, exponent_)));
    area_.push_back(std::pow(outer / radius_, exponent_));
    before_.push_back(middle - inner);
    behind_.push_back(outer - middle);
    in_skin_.push_back(std::clamp((outer - (radius_ - hot_skin())) / (outer - inner), 0.0, 1.0));
    dry_ += density_ * volume_.back();
  }
  const double x = (solid + water * liquid) * (celsius - boils);
  x_.assign(n, x);
  w_.assign(n, water);
  held_.assign(n, water);
  kept_.assign(n, 1);
  ln_pumped_.assign(n, 0);
  celsius_.assign(n, celsius);
  for (auto* scratch :
       {&active_, &between_, &slope_, &warms_, &boils_off_, &start_, &upper_, &right_})
    scratch->assign(n, 0);
  warm_through();
}

double Bread::temperature(std::size_t i, double x) const {
  if (x < 0) return boils + x / (solid + w_[i] * liquid);
  const double range = latent * std::max(0.0, w_[i] - bound);
  if (x < range) return boils + dries_over * x / range;
  return boils + dries_over + (x - range) / crust_capacity;
}

double Bread::water_of(std::size_t i) const {
  return std::max(std::min(w_[i], bound), w_[i] - std::max(0.0, x_[i]) / latent);
}

double Bread::dryness(std::size_t i) const {
  return std::clamp(1 - (held_[i] - bound) / (start_water_ - bound), 0.0, 1.0);
}

// How far the vapour of each layer moves, 0..1: 1/(1 + exp(-s (T - T_m))).
void Bread::warm_through() {
  for (std::size_t i = 0; i < x_.size(); ++i) {
    const double over = std::min(celsius_[i], boils) - passing_.gain_at;
    active_[i] = 1 / (1 + std::exp(-passing_.gain_slope * over));
  }
}

//  wet: cold + gain active; on its way to crust the dry part lies before the wet
//  one
double Bread::conductivity(std::size_t i) const {
  const double wet = passing_.cold + passing_.gain * active_[i];
  const double dry = dryness(i);
  return 1 / ((1 - dry) / wet + dry / passing_.crust);
}

void Bread::conductances() {
  const std::size_t n = x_.size();
  double k = conductivity(0);
  for (std::size_t i = 0; i + 1 < n; ++i) {
    const double next = conductivity(i + 1);
    between_[i] = area_[i] / (behind_[i] / k + before_[i + 1] / next);
    k = next;
  }
  outer_ = k / behind_[n - 1];
}

// T and its slope against X in every layer, whose water and so whose three straight lines hold for
// the step.
void Bread::lay_out() {
  for (std::size_t i = 0; i < x_.size(); ++i) {
    warms_[i] = 1 / (solid + w_[i] * liquid);
    boils_off_[i] = latent * std::max(0.0, w_[i] - bound);
  }
}

void Bread::look_up() {
  for (std::size_t i = 0; i < x_.size(); ++i) {
    const double x = x_[i];
    const double range = boils_off_[i];
    slope_[i] = x < 0 ? warms_[i] : x < range ? dries_over / range : 1 / crust_capacity;
    celsius_[i] = x < 0       ? boils + x * slope_[i]
                  : x < range ? boils + x * slope_[i]
                              : boils + dries_over + (x - range) * slope_[i];
  }
}

// Solves the step for X: backward Euler,
//     rho V (X - X_before)/dt = sum of conductance times difference + at the surface
// where the surface gives `offset` - `at_surface` T of the last layer. Temperatures are those of X
// then.
int Bread::solve(double seconds, double at_surface, double offset) {
  const std::size_t n = x_.size();
  const std::vector<double>& t = celsius_;
  constexpr int most_rounds = 40;
  start_ = x_;
  lay_out();
  for (int round = 1; round <= most_rounds; ++round) {
    look_up();
    double worst = 0;
    // Forward elimination of the tridiagonal system of the corrections. What flows outwards through
    // a face counts below zero in its inner layer.
    double from_within = 0;
    double inwards = 0;
    for (std::size_t i = 0; i < n; ++i) {
      const double mass = density_ * volume_[i] / seconds;
      const bool outermost = i + 1 == n;
      const double outwards = outermost ? at_surface : between_[i];
      const double flow = outermost ? offset - at_surface * t[i] : outwards * (t[i + 1] - t[i]);
      const double residual = flow - from_within - mass * (x_[i] - start_[i]);
      from_within = flow;
      worst = std::max(worst, std::abs(residual) * seconds);
      double diagonal = mass + (inwards + outwards) * slope_[i];
      double r = residual;
      if (i > 0) {
        const double below = -inwards * slope_[i - 1];
        diagonal -= below * upper_[i - 1];
        r -= below * right_[i - 1];
      }
      upper_[i] = outermost ? 0 : -outwards * slope_[i + 1] / diagonal;
      right_[i] = r / diagonal;
      inwards = outwards;
    }
    if (worst < 1e-11 * 1000 * dry_) return round;
    double correction = 0;
    for (std::size_t i = n; i-- > 0;) {
      correction = right_[i] - upper_[i] * correction;
      x_[i] += correction;
    }
  }
  look_up();
  return most_rounds;
}

// Takes water out of the skin (below zero: puts it there), each layer at its own temperature; the
// heat that this liquid held, against the boil [J/m2].
double Bread::draw_water(double mass) {
  // [kg/m2] for each [kg/kg] by which the layers' shares change
  double there = 0;
  for (std::size_t i = 0; i < x_.size(); ++i) there += in_skin(i) * (mass > 0 ? spare(i) : 1);
  if (there <= 0) return 0;
  double carried = 0;
  for (std::size_t i = 0; i < x_.size(); ++i) {
    const double whole = density_ * volume_[i];
    const double drawn = mass / there * in_skin(i) / whole * (mass > 0 ? spare(i) : 1);
    const double warmth = liquid * (celsius_[i] - boils);
    x_[i] -= drawn * warmth;
    w_[i] -= drawn;
    carried += whole * drawn * warmth;
  }
  return carried;
}

// Dry matter of a layer that lies in the skin and does not boil [kg/m2].
double Bread::in_skin(std::size_t i) const {
  return x_[i] < 0 ? in_skin_[i] * density_ * volume_[i] : 0;
}

// Water of a layer that can still dry [kg/kg dry].
double Bread::spare(std::size_t i) const { return std::max(0.0, w_[i] - bound); }

Through Bread::step(double seconds, const Around& around) {
  const std::size_t last = x_.size() - 1;
  conductances();
  // What reaches the surface by each way, against its temperature of the step's beginning.
  const double bare = 1 - around.on_stone;
  const double ts = surface_ + 273.15;
  const double tw = around.walls + 273.15;
  const double radiation = around.emissivity * stefan_boltzmann() * (ts * ts + tw * tw) * (ts + tw);
  double h = bare * (around.convection + radiation) + around.on_stone * around.contact;
  double from = bare * (around.convection * around.air + radiation * around.walls) +
                around.on_stone * around.contact * around.stone;
  const bool condenses = around.steam > 0 && surface_ < around.dew_point;
  if (condenses) {
    h += bare * around.steam;
    from += bare * around.steam * around.dew_point;
  }
  // Evaporation, straight-lined about the beginning: sink + rise (T_s - surface_) [W/m2].
  double sink = 0;
  double rise = 0;
  const double free = skin_water();
  if (around.drying > 0 && x_[last] < 0 && !condenses && free > 0) {
    const double share = bare * std::min(1.0, free / wet_skin);
    const double over = water_pressure(surface_) - around.vapour;
    if (over > 0) {
      sink = share * around.drying * latent * over;
      rise = share * around.drying * latent *
             (water_pressure(surface_ + 0.5) - water_pressure(surface_ - 0.5));
    }
  }
  //  h_all (T_e - T_s) = outer (T_s - T_N):  eliminated
  const double all = h + rise;
  const double pull = from - sink + rise * surface_;
  const double at_surface = outer_ * all / (outer_ + all);
  const double offset = outer_ * pull / (outer_ + all);
  Through through;
  through.rounds = solve(seconds, at_surface, offset);
  const double t_last = celsius_[last];
  const double was = surface_;
  surface_ = (outer_ * t_last + pull) / (outer_ + all);
  const double taken = seconds * (sink + rise * (surface_ - was));
  through.heat = seconds * (from - h * surface_);
  through.with_water = -taken;
  if (condenses) {
    const double heat = seconds * bare * around.steam * (around.dew_point - surface_);
    const double mass = std::max(0.0, heat / latent);
    through.with_water -= draw_water(-mass);
    through.water += mass;
  } else if (taken > 0) {
    const double mass = std::min(taken / (latent + (vapour - liquid) * (surface_ - boils)),
                                 0.999 * free * dry_in_skin());
    through.with_water -= draw_water(mass);
    through.water -= mass;
  }
  settle(seconds, through);
  return through;
}

// Books what the step boiled off, and the alcohol that went along.
void Bread::settle(double seconds, Through& through) {
  warm_through();
  for (std::size_t i = 0; i < x_.size(); ++i) {
    const double now = water_of(i);
    const double had = held_[i];
    const double before = start_ethanol_ * kept_[i];
    const double pumped = -passing_.pump * active_[i] * seconds;
    const double boiled = now < had ? relative_volatility(before, had) * std::log(now / had) : 0;
    kept_[i] *= std::exp(pumped + boiled);
    ln_pumped_[i] += pumped;
    through.ethanol += density_ * volume_[i] * (before - start_ethanol_ * kept_[i]);
    held_[i] = now;
  }
}

double Bread::skin_water() const {
  double free = 0;
  for (std::size_t i = 0; i < x_.size(); ++i) free += in_skin(i) * spare(i);
  return free / dry_in_skin();
}

double Bread::dry_in_skin() const {
  double mass = 0;
  for (std::size_t i = 0; i < x_.size(); ++i) mass += in_skin_[i] * density_ * volume_[i];
  return mass;
}

}  // namespace barm::oven
