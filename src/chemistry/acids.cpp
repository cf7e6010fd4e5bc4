#include "chemistry/acids.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <string_view>

#include "base/require.h"
#include "chemistry/internal/increasing_root.h"
#include "generated/constants.h"
#include "generated/tables.h"
#include "units/units.h"

namespace barm::chemistry {

namespace {

constexpr std::size_t most_steps = 3;

struct Steps {
  std::array<double, most_steps> pka{};
  std::size_t count = 0;
};

constexpr std::array<std::string_view, acid_count> names = {
    "lactic", "acetic", "tartaric", "malic", "citric", "succinic", "gluconic", "carbonic"};

constexpr bool in_the_order_of_acid() {
  for (std::size_t i = 0; i < acid_count; ++i) {
    if (tables::acids[i].acid != names[i]) return false;
  }
  return std::size(tables::acids) == acid_count;
}

static_assert(in_the_order_of_acid(), "data/tables/acids.csv has the order of chemistry::Acid");

constexpr std::array<Steps, acid_count> steps_of_table() {
  std::array<Steps, acid_count> all{};
  for (std::size_t i = 0; i < acid_count; ++i) {
    for (const double pk : {tables::acids[i].pka1, tables::acids[i].pka2, tables::acids[i].pka3}) {
      if (pk == pk) all[i].pka[all[i].count++] = pk;  // an empty cell is NaN
    }
  }
  return all;
}

constexpr std::array<Steps, acid_count> table = steps_of_table();

constexpr std::size_t index(Acid acid) { return static_cast<std::size_t>(acid); }

// 0.509 ( sqrt(I)/(1+sqrt(I)) - 0.3 I ), what one unit of z^2 takes off log10 of an activity
// coefficient.
double davies(Molality ionic_strength) {
  const double root = std::sqrt(ionic_strength.si());
  return constants::ions::davies_slope.value *
         (root / (1 + root) - constants::ions::davies_linear.value * ionic_strength);
}

Steps shifted(Acid acid, double per_charge) {
  Steps steps = table[index(acid)];
  for (std::size_t i = 0; i < steps.count; ++i) {
    const double z = -static_cast<double>(i);
    steps.pka[i] += (2 * z - 1) * per_charge;
  }
  return steps;
}

// z(pH) and dz/dpH = ln 10 (<j^2> - <j>^2).
internal::ValueAndSlope charge(const Steps& steps, double ph) {
  double exponent = 0;
  double sum = 1;
  double first = 0;
  double second = 0;
  for (std::size_t i = 0; i < steps.count; ++i) {
    const auto j = static_cast<double>(i + 1);
    exponent += ph - steps.pka[i];
    const double weight = std::exp(std::numbers::ln10 * exponent);
    sum += weight;
    first += j * weight;
    second += j * j * weight;
  }
  const double mean = first / sum;
  return {mean, std::numbers::ln10 * (second / sum - mean * mean)};
}

// B(pH) per unit of buffering, and its slope.
internal::ValueAndSlope buffer(bool flour, double ph) {
  const double above = ph - constants::flour_buffer::bend.value.value();
  const double slope = flour && above < 0 ? constants::flour_buffer::steeper.value.si() : 1.0;
  return {slope * above, slope};
}

// w(pH) = [OH-] - [H+] per kilogram of water, and its slope.
internal::ValueAndSlope water(double ph) {
  const double hydroxide = std::pow(10.0, ph - constants::ions::water_pk.value.value());
  const double hydron = std::pow(10.0, -ph);
  return {hydroxide - hydron, std::numbers::ln10 * (hydroxide + hydron)};
}

// What a part, or a whole mixture, can give off or take up.
struct Contents {
  std::array<double, acid_count> acid{};  // [mol]
  double plain = 0;                       // buffering [mol/pH]
  double flour = 0;                       // buffering of flour [mol/pH]
  double mass = 0;                        // [kg]
};

Contents contents(const Buffered& part) {
  require(part.mass.si() >= 0 && part.buffering >= 0, "mass and buffering are not negative");
  require(std::isfinite(part.ph.value()), "a pH is a number");
  Contents c;
  for (std::size_t k = 0; k < acid_count; ++k) c.acid[k] = part.acid[k].si();
  (part.flour ? c.flour : c.plain) = part.buffering * part.mass.si();
  c.mass = part.mass.si();
  return c;
}

Contents& operator+=(Contents& sum, const Contents& c) {
  for (std::size_t k = 0; k < acid_count; ++k) sum.acid[k] += c.acid[k];
  sum.plain += c.plain;
  sum.flour += c.flour;
  sum.mass += c.mass;
  return sum;
}

bool buffers(const Contents& c) {
  const auto any = [](double amount) { return amount > 0; };
  return c.mass > 0 || std::any_of(c.acid.begin(), c.acid.end(), any);
}

using StepsOfAll = std::array<Steps, acid_count>;

StepsOfAll shifted_all(Molality ionic_strength) {
  const double per_charge = davies(ionic_strength);
  StepsOfAll all;
  for (std::size_t k = 0; k < acid_count; ++k) all[k] = shifted(static_cast<Acid>(k), per_charge);
  return all;
}

// Charge of the contents at this pH [mol], counted from acids undissociated and buffers at their
// bend.
internal::ValueAndSlope charge(const Contents& c, const StepsOfAll& steps, double ph) {
  internal::ValueAndSlope sum{0, 0};
  const auto add = [&sum](double amount, const internal::ValueAndSlope& each) {
    sum.value += amount * each.value;
    sum.slope += amount * each.slope;
  };
  for (std::size_t k = 0; k < acid_count; ++k) {
    if (c.acid[k] > 0) add(c.acid[k], charge(steps[k], ph));
  }
  add(c.plain, buffer(false, ph));
  add(c.flour, buffer(true, ph));
  add(c.mass, water(ph));
  return sum;
}

}  // namespace

std::span<const double> pka_at_zero(Acid acid) {
  const Steps& steps = table[index(acid)];
  return {steps.pka.data(), steps.count};
}

std::vector<double> pka(Acid acid, Molality ionic_strength) {
  const Steps steps = shifted(acid, davies(ionic_strength));
  return {steps.pka.begin(), steps.pka.begin() + static_cast<std::ptrdiff_t>(steps.count)};
}

MolarMass molar_mass(Acid acid) { return tables::acids[index(acid)].molar_mass * (gram / mole); }

double dissociated(Acid acid, Ph ph, Molality ionic_strength) {
  return charge(shifted(acid, davies(ionic_strength)), ph.value()).value;
}

Result<Ph> mixed_ph(std::span<const Buffered> parts, Molality ionic_strength) {
  const StepsOfAll steps = shifted_all(ionic_strength);
  Contents whole;
  double before = 0;
  double lowest = std::numeric_limits<double>::infinity();
  double highest = -lowest;
  for (const Buffered& part : parts) {
    const Contents c = contents(part);
    if (!buffers(c)) continue;
    whole += c;
    before += charge(c, steps, part.ph.value()).value;
    lowest = std::min(lowest, part.ph.value());
    highest = std::max(highest, part.ph.value());
  }
  if (!buffers(whole)) {
    return failure(ErrorCode::bad_input, "", "nothing in the mixture holds a pH");
  }
  const auto given_off = [&](double ph) {
    const auto [value, slope] = charge(whole, steps, ph);
    return internal::ValueAndSlope{value - before, slope};
  };
  return Ph(internal::increasing_root(given_off, lowest, highest, 1e-10));
}

}  // namespace barm::chemistry
