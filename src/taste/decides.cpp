#include <fmt/format.h>

#include <algorithm>

#include "data/catalogue.h"
#include "taste/internal/mouthful.h"

namespace barm::taste::internal {

namespace {

double square(double x) { return x * x; }

double correlation_squared(const std::vector<double>& x, const std::vector<double>& y) {
  const auto n = static_cast<double>(x.size());
  double mx = 0;
  double my = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    mx += x[i] / n;
    my += y[i] / n;
  }
  double xy = 0;
  double xx = 0;
  double yy = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    xy += (x[i] - mx) * (y[i] - my);
    xx += square(x[i] - mx);
    yy += square(y[i] - my);
  }
  return xx > 0 && yy > 0 ? square(xy) / (xx * yy) : 0;
}

std::string standing_of(std::string_view key) {
  for (const data::Source* source : data::sources()) {
    if (source->key != key) continue;
    const std::string name(data::name(source->standing));
    return name == "remembered" ? "from memory" : name;
  }
  return std::string(key);
}

}  // namespace

std::vector<std::string> deciders(const Sum& sum,
                                  const std::vector<double>& log_activity,
                                  Luck& luck) {
  struct Candidate {
    std::string words;
    double weight;
  };

  const Scent& scent = scents()[sum.scent];
  const auto own = [&](Own what) {
    std::vector<double> column;
    for (const auto& draw : luck.of(sum.scent)) column.push_back(z(draw, what));
    return correlation_squared(column, log_activity);
  };
  const auto common = [&](Common what) {
    std::vector<double> column;
    for (const auto& draw : luck.common()) column.push_back(z(draw, what));
    return correlation_squared(column, log_activity);
  };
  const Brought& first = sum.brought.empty() ? *sum.applied.front().second : *sum.brought.front();
  const std::string known =
      first.kinship == Kinship::near ? "a guess from a drink near it" : standing_of(first.source);
  std::vector<Candidate> all = {
      {fmt::format("how much {} it takes to be noticed ({})",
                   scent.name,
                   standing_of(scent.threshold_source)),
       own(Own::threshold)},
      {fmt::format("the amount of it in the drink ({})", known), own(Own::content)},
      {"what yeast and bacteria leave of it (a guess)", own(Own::microbes)},
      {"what the steam takes of it (a guess)",
       own(Own::volatility) + own(Own::solubility) + common(Common::vented)},
      {"how chewing thins it (a guess)", common(Common::dilution)},
      {"what fat and flour hold of it (a guess)", common(Common::fat) + common(Common::flour)},
      {"what stays of what is put on (a guess)", own(Own::kept)},
  };
  std::stable_sort(
      all.begin(), all.end(), [](const auto& a, const auto& b) { return a.weight > b.weight; });
  std::vector<std::string> out;
  constexpr double worth_saying = 0.1;
  for (const Candidate& one : all) {
    if (one.weight >= worth_saying && out.size() < 2) out.push_back(one.words);
  }
  return out;
}

}  // namespace barm::taste::internal
