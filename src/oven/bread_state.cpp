#include <algorithm>
#include <cmath>

#include "oven/bread.h"
#include "oven/internal/of_bread.h"
#include "oven/internal/steam_table.h"

namespace barm::oven {

using namespace of_bread;

double Bread::water() const {
  double sum = 0;
  for (std::size_t i = 0; i < x_.size(); ++i) sum += density_ * volume_[i] * water_of(i);
  return sum / dry_;
}

double Bread::ethanol() const {
  double sum = 0;
  for (std::size_t i = 0; i < x_.size(); ++i)
    sum += density_ * volume_[i] * start_ethanol_ * kept_[i];
  return sum / dry_;
}

double Bread::ethanol_if_pumped(double times) const {
  double sum = 0;
  for (std::size_t i = 0; i < x_.size(); ++i) {
    sum +=
        density_ * volume_[i] * start_ethanol_ * kept_[i] * std::exp((times - 1) * ln_pumped_[i]);
  }
  return sum / dry_;
}

double Bread::ethanol_in_crust() const {
  double sum = 0;
  for (std::size_t i = 0; i < x_.size(); ++i) {
    if (dryness(i) > 0.5) sum += density_ * volume_[i] * start_ethanol_ * kept_[i];
  }
  return sum / dry_;
}

double Bread::heat() const {
  double sum = 0;
  for (std::size_t i = 0; i < x_.size(); ++i) sum += density_ * volume_[i] * x_[i];
  return sum / dry_;
}

double Bread::mean_celsius() const {
  double sum = 0;
  double all = 0;
  for (std::size_t i = 0; i < x_.size(); ++i) {
    sum += volume_[i] * celsius_[i];
    all += volume_[i];
  }
  return sum / all;
}

double Bread::crust() const {
  double depth = 0;
  for (std::size_t i = 0; i < x_.size(); ++i)
    depth += (before_[i] + behind_[i]) * std::max(0.0, (dryness(i) - 0.5) / 0.5);
  return depth;
}

double Bread::dry_through_crust(double seconds, double passes, double vapour_outside) {
  for (std::size_t i = x_.size(); i-- > 0;) {
    if (dryness(i) > 0.5) continue;
    const double over = water_pressure(celsius_[i]) - vapour_outside;
    if (over <= 0 || x_[i] > 0) return 0;
    // Straight-lined, so that a long step does not chill the layer below what drives it.
    const double mass = density_ * volume_[i];
    const double steep = water_pressure(celsius_[i] + 0.5) - water_pressure(celsius_[i] - 0.5);
    const double stiff = seconds * passes * latent * steep / (mass * (solid + w_[i] * liquid));
    const double gone =
        std::min(seconds * passes * over / (1 + stiff), 0.5 * mass * std::max(0.0, w_[i] - bound));
    const double carried = latent + vapour * (celsius_[i] - boils);
    x_[i] -= gone / mass * carried;
    w_[i] -= gone / mass;
    celsius_[i] = temperature(i, x_[i]);
    held_[i] = water_of(i);
    warm_through();
    return gone;
  }
  return 0;
}

void Bread::come_out() {
  for (std::size_t i = 0; i < x_.size(); ++i) {
    const double now = water_of(i);
    w_[i] = now;
    x_[i] = celsius_[i] < boils
                ? (solid + now * liquid) * (celsius_[i] - boils)
                : latent * std::max(0.0, now - bound) +
                      crust_capacity * std::max(0.0, celsius_[i] - boils - dries_over);
    if (celsius_[i] >= boils && now > bound + nearly_dry) x_[i] = 0;
    celsius_[i] = temperature(i, x_[i]);
    held_[i] = water_of(i);
  }
  warm_through();
}

}  // namespace barm::oven
