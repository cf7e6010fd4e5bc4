#include "forecast/rests_on.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "forecast/draw.h"

namespace barm::forecast {

namespace {

// Sums over the draws of one parameter's ln and of the answer's.
struct SumsTogether {
  double x = 0, xx = 0, xy = 0;

  [[nodiscard]] double share(double y, double yy, double n) const {
    const double of_x = xx - x * x / n;
    const double of_y = yy - y * y / n;
    const double both = xy - x * y / n;
    return of_x > 0 && of_y > 0 ? both * both / (of_x * of_y) : 0;
  }
};

}  // namespace

Result<std::vector<Resting>> rests_on(const formula::Bake& bake,
                                      const Options& options,
                                      std::span<const double> hours) {
  const double horizon = options.horizon.in(hour);
  std::array<SumsTogether, kinetics::parameter_count> all{};
  double y = 0;
  double yy = 0;
  for (std::size_t d = 0; d < hours.size(); ++d) {
    const auto p = parameters_of(bake, options.seed, static_cast<int>(d), *options.prior);
    if (!p) return failure(p);
    const double answer = std::log(std::clamp(hours[d], 1e-3, horizon));
    y += answer;
    yy += answer * answer;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const double x = std::log(p->value[i] / kinetics::priors()[i].book);
      all[i].x += x;
      all[i].xx += x * x;
      all[i].xy += x * answer;
    }
  }
  std::vector<Resting> resting;
  for (std::size_t i = 0; i < all.size(); ++i)
    resting.push_back(
        {&kinetics::priors()[i], all[i].share(y, yy, static_cast<double>(hours.size()))});
  std::stable_sort(resting.begin(), resting.end(), [](const Resting& a, const Resting& b) {
    return a.share > b.share;
  });
  return resting;
}

std::optional<std::string> guess_that_decides(std::span<const Resting> resting) {
  constexpr double decides = 0.25;
  if (resting.empty() || resting.front().share < decides) return std::nullopt;
  const kinetics::Prior& number = *resting.front().number;
  if (number.source == nullptr || number.source->key != "guess") return std::nullopt;
  return fmt::format("{:.0f} % of the doubt in this time comes from one guess, {} (barm source {})",
                     100 * resting.front().share,
                     number.name,
                     number.name);
}

}  // namespace barm::forecast
