// What a culture's batches have taught, as a baker says it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "estimation/culture.h"
#include "estimation/internal/doubt.h"
#include "forecast/levain.h"
#include "numerics/quantiles.h"
#include "numerics/random.h"

namespace barm::estimation {

namespace {

using kinetics::Parameter;

constexpr int cultures_drawn = 2000;

std::string words_of(Parameter parameter) {
  switch (parameter) {
    case Parameter::wild_growth:
      return "speed";
    case Parameter::wild_ethanol_half:
      return "alcohol";
    case Parameter::wild_salt_half:
      return "salt";
    case Parameter::wild_acetic_half:
      return "vinegar";
    case Parameter::wild_gas_of_upkeep:
      return "gas at rest";
    case Parameter::bacteria_growth:
      return "souring";
    case Parameter::bacteria_ethanol_half:
      return "souring in alcohol";
    case Parameter::bacteria_upkeep:
      return "acid at rest";
    case Parameter::warm_toxicity:
      return "heat";
    case Parameter::lag_scale:
      return "waking up";
    case Parameter::rise_limit:
      return "gas held";
    default:
      return "";
  }
}

struct Saying {
  const char* more;
  const char* less;
};

Saying saying(Parameter parameter) {
  switch (parameter) {
    case Parameter::wild_growth:
      return {"grows faster", "grows slower"};
    case Parameter::wild_ethanol_half:
      return {"copes with more alcohol", "copes with less alcohol"};
    case Parameter::wild_salt_half:
      return {"copes with more salt", "copes with less salt"};
    case Parameter::wild_acetic_half:
      return {"copes with more vinegar", "copes with less vinegar"};
    case Parameter::bacteria_growth:
      return {"sours faster", "sours slower"};
    case Parameter::warm_toxicity:
      return {"is slowed more by alcohol when warm", "is slowed less by alcohol when warm"};
    case Parameter::lag_scale:
      return {"takes longer to wake up", "wakes up sooner"};
    case Parameter::rise_limit:
      return {"holds more gas", "holds less gas"};
    default:
      return {"more than a typical starter", "less than a typical starter"};
  }
}

std::string unit_of(Parameter parameter, double factor, double low, double high) {
  const double book = kinetics::priors()[static_cast<std::size_t>(parameter)].book;
  if (parameter == Parameter::wild_ethanol_half || parameter == Parameter::wild_salt_half) {
    return fmt::format("; half speed at {:.0f} g/L ({:.0f} to {:.0f}; typical {:.0f})",
                       factor * book,
                       low * book,
                       high * book,
                       book);
  }
  return "";
}

std::size_t place(Parameter parameter) {
  return static_cast<std::size_t>(
      std::find(culture_parameters.begin(), culture_parameters.end(), parameter) -
      culture_parameters.begin());
}

// "2 h 30", to a quarter.
std::string quarters(Time time) {
  const auto n = static_cast<int>(std::lround(4 * std::abs(time.in(hour))));
  if (n < 4) return fmt::format("{} min", 15 * n);
  if (n % 4 == 0) return fmt::format("{} h", n / 4);
  return fmt::format("{} h {:02d}", n / 4, 15 * (n % 4));
}

std::string shifted(Time time) { return quarters(time) + (time < Time{} ? " sooner" : " later"); }

std::string in_words(const LaterByAge& age) {
  const std::string range = age.low < Time{} ? shifted(age.low) + " to " + shifted(age.high)
                                             : quarters(age.low) + " to " + quarters(age.high);
  const std::string text = fmt::format("after {:.0f} h past its peak it starts about {}, {}",
                                       age.past.in(hour),
                                       shifted(age.later),
                                       range);
  if (age.left > internal::nothing_yet)
    return text + ", as in a typical starter: its batches do not differ enough in age";
  return text + fmt::format("; a typical starter {}", shifted(age.typical));
}

}  // namespace

std::vector<Difference> differences(const Culture& culture) {
  const CultureBelief belief = belief_of(culture);
  std::vector<Difference> out;
  for (std::size_t i = 0; i < culture_size; ++i) {
    const Parameter parameter = culture_parameters[i];
    Difference d;
    d.about = words_of(parameter);
    d.factor = std::exp(belief.mean[i]);
    d.low = std::exp(belief.mean[i] - internal::four_of_five * belief.sd[i]);
    d.high = std::exp(belief.mean[i] + internal::four_of_five * belief.sd[i]);
    const double culture_before =
        std::sqrt(std::pow(belief.before[i], 2) - std::pow(belief.between[i], 2));
    d.left = belief.sd[i] / culture_before;
    d.between = belief.between[i];
    d.known = d.left <= internal::nothing_yet;
    if (!d.known) {
      d.words = "nothing known yet";
    } else if (std::abs(belief.mean[i]) < 0.06) {
      d.words = "about as in a typical starter" + unit_of(parameter, d.factor, d.low, d.high);
    } else {
      const Saying say = saying(parameter);
      d.words = fmt::format("{} by about {:.0f} %{}",
                            belief.mean[i] > 0 ? say.more : say.less,
                            100 * std::abs(std::expm1(belief.mean[i])),
                            unit_of(parameter, d.factor, d.low, d.high));
    }
    out.push_back(std::move(d));
  }
  return out;
}

LaterByAge later_by_age(const Culture& culture, Time past) {
  const CultureBelief belief = belief_of(culture);
  const std::size_t lag = place(Parameter::lag_scale);
  const double book_rate =
      kinetics::priors()[static_cast<std::size_t>(Parameter::wild_growth)].book;
  const double rate = book_rate * std::exp(belief.mean[place(Parameter::wild_growth)]);
  const double tied = belief.slope_with_lag / (belief.sd[lag] * belief.slope_sd);
  // Hours of lag with a levain so old, by the culture's scale and slope.
  const auto lasts = [&](double scale, double slope, Time age) {
    return forecast::lag_past_peak(age) *
           std::exp(scale + slope * (age - belief.middle_age).in(hour)) / rate;
  };
  const auto later = [&](double z_scale, double z_slope) {
    const double scale = belief.mean[lag] + belief.sd[lag] * z_scale;
    const double own = tied * z_scale + std::sqrt(1 - tied * tied) * z_slope;
    const double slope = belief.slope + belief.slope_sd * own;
    return lasts(scale, slope, past) - lasts(scale, slope, Time{});
  };
  std::vector<double> drawn;
  numerics::Random random(1, 12);
  for (int i = 0; i < cultures_drawn; ++i) {
    const double z_scale = random.normal();
    drawn.push_back(later(z_scale, random.normal()));
  }
  const auto sample = numerics::sorted(std::move(drawn));
  LaterByAge out;
  out.past = past;
  out.later = later(0, 0) * hour;
  out.low = numerics::quantile(sample, 0.1) * hour;
  out.high = numerics::quantile(sample, 0.9) * hour;
  out.typical =
      (forecast::lag_past_peak(past) - forecast::lag_past_peak(Time{})) / book_rate * hour;
  out.left = belief.slope_sd / belief.slope_before;
  out.words = in_words(out);
  return out;
}

}  // namespace barm::estimation
