#include "taste/tasting.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <sstream>

#include "generated/constants.h"
#include "numerics/ln_gamma.h"
#include "numerics/quantiles.h"

namespace barm::taste {

namespace {

constexpr double guessing = 1.0 / 3;
constexpr int most_tasters = 10000;

double below(double x) { return 0.5 * std::erfc(-x / std::numbers::sqrt2); }

double ln_binomial(int n, int k, double p) {
  const double choose =
      numerics::ln_gamma(n + 1.0) - numerics::ln_gamma(k + 1.0) - numerics::ln_gamma(n - k + 1.0);
  return choose + k * std::log(p) + (n - k) * std::log1p(-p);
}

/// Chance that a taster gives this word to a strength.
double chance_of(Level word, double strength) {
  const double spread = constants::mouth::noses.value.si();
  const double bounds[] = {constants::level::hint.value.si(),
                           constants::level::there.value.si(),
                           constants::level::loud.value.si()};
  if (strength <= 0) return word == Level::gone ? 1 : 0;
  const auto under = [&](int bound) {
    if (bound < 0) return 0.0;
    return bound > 2 ? 1.0 : below(std::log(bounds[bound] / strength) / spread);
  };
  const int at = static_cast<int>(word);
  return under(at) - under(at - 1);
}

/// One taster of a hundred says anything: so that no word rules a draw out.
double ln_word(Level word, double strength) {
  constexpr double careless = 0.01;
  constexpr double words = 4;
  return std::log((1 - careless) * chance_of(word, strength) + careless / words);
}

double ln_likelihood(const Tasting& one, double strength, double tells) {
  double sum = 0;
  constexpr double never_sure = 1e-6;
  const double p = std::min(guessing + (1 - guessing) * tells, 1 - never_sure);
  if (one.tasters > 0) sum += ln_binomial(one.tasters, one.right, p);
  for (const Level word : one.words) sum += ln_word(word, strength);
  return sum;
}

/// How unlikely the triangle test was to begin with: the chance of right answers no likelier.
double surprise_of(const Tasting& one, const std::vector<double>& tells) {
  std::vector<double> chance(static_cast<std::size_t>(one.tasters) + 1, 0.0);
  for (const double share : tells) {
    const double p = std::min(guessing + (1 - guessing) * share, 1 - 1e-6);
    for (int k = 0; k <= one.tasters; ++k)
      chance[static_cast<std::size_t>(k)] +=
          std::exp(ln_binomial(one.tasters, k, p)) / static_cast<double>(tells.size());
  }
  const double own = chance[static_cast<std::size_t>(one.right)];
  double sum = 0;
  for (const double other : chance) sum += other <= own * (1 + 1e-9) ? other : 0;
  return std::min(1.0, sum);
}

Range weighted(const std::vector<double>& values, const std::vector<double>& weights) {
  return {numerics::weighted_quantile(values, weights, 0.1),
          numerics::weighted_quantile(values, weights, 0.5),
          numerics::weighted_quantile(values, weights, 0.9)};
}

tl::unexpected<Error> no_tasting() {
  return failure(ErrorCode::bad_input,
                 "tasted",
                 "what a panel found: \"9 of 12 right\" of a triangle test, or the words tasters "
                 "gave: \"gone, a "
                 "hint, there, loud\"");
}

std::string trimmed(std::string text) {
  while (!text.empty() && text.front() == ' ') text.erase(text.begin());
  while (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

Result<Tasting> words_of(const std::string& text) {
  Tasting out;
  std::istringstream parts(text);
  for (std::string word; std::getline(parts, word, ',');) {
    word = trimmed(std::move(word));
    bool known = false;
    for (const Level level : {Level::gone, Level::hint, Level::there, Level::loud}) {
      if (word != name(level) && !(level == Level::hint && word == "hint")) continue;
      out.words.push_back(level);
      known = true;
    }
    if (!known) return no_tasting();
  }
  if (out.words.empty()) return no_tasting();
  return out;
}

}  // namespace

Result<Tasting> parse_tasting(const std::string& text) {
  const std::string trimmed_text = trimmed(text);
  if (trimmed_text.empty() || trimmed_text[0] < '0' || trimmed_text[0] > '9')
    return words_of(trimmed_text);
  std::istringstream in(trimmed_text);
  Tasting out;
  std::string of;
  std::string end;
  if (!(in >> out.right >> of >> out.tasters) || of != "of") return no_tasting();
  in >> end;
  if (!end.empty() && end != "right") return no_tasting();
  if (out.tasters < 1 || out.tasters > most_tasters || out.right > out.tasters) return no_tasting();
  return out;
}

Result<Judged> judged(const Tasted& tasted, const std::vector<Tasting>& tastings) {
  if (tastings.empty()) return no_tasting();
  Judged out;
  const std::size_t draws = tasted.strength.size();
  for (std::size_t d = 0; d < draws; ++d) {
    double ln = 0;
    for (const Tasting& one : tastings)
      ln += ln_likelihood(one, tasted.strength[d], tasted.tells[d]);
    out.weights.push_back(ln);
  }
  const double most = *std::max_element(out.weights.begin(), out.weights.end());
  for (double& weight : out.weights) weight = std::exp(weight - most);
  const double sum = std::accumulate(out.weights.begin(), out.weights.end(), 0.0);
  double squares = 0;
  for (double& weight : out.weights) {
    weight /= sum;
    squares += weight * weight;
  }
  out.effective = 1 / squares;
  const std::vector<double> even(draws, 1.0 / static_cast<double>(draws));
  out.strength_before = weighted(tasted.strength, even);
  out.strength_after = weighted(tasted.strength, out.weights);
  out.told_before =
      std::accumulate(tasted.tells.begin(), tasted.tells.end(), 0.0) / static_cast<double>(draws);
  for (std::size_t d = 0; d < draws; ++d) out.told_after += out.weights[d] * tasted.tells[d];
  out.surprise = 1;
  for (const Tasting& one : tastings) {
    if (one.tasters > 0) out.surprise = std::min(out.surprise, surprise_of(one, tasted.tells));
  }
  const double before = out.strength_before.p50;
  const double times = before > 0 ? out.strength_after.p50 / before : 1;
  if (before <= 0) {
    out.words = "nothing of the drink itself was forecast";
  } else if (times < 1.1 && times > 1 / 1.1) {
    out.words = "by this panel it is as strong as was forecast";
  } else {
    out.words = fmt::format("by this panel it is {:.1f} times as strong as was forecast", times);
  }
  out.words +=
      fmt::format("; {:.0f} of 100 would tell it from a loaf without, {:.0f} by the forecast",
                  100 * out.told_after,
                  100 * out.told_before);
  constexpr double strange = 0.05;
  if (out.surprise < strange)
    out.words += "; the model did not expect such a result: look at how it was served";
  return out;
}

}  // namespace barm::taste
