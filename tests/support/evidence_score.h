#pragma once
// How well forecasts meet what was measured: CRPS of ln(value), coverage, and a rule of two lines
// that any baker could keep in mind.
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>
#include <string>
#include <vector>

#include "numerics/random.h"
#include "support/evidence_answers.h"

namespace barm::test {

/// One askable row beside the answer to it.
struct ScoredRow {
  std::string id, source, kind, what;
  double theirs = 0;
  double low = 0, middle = 0, high = 0;  ///< of four of five
  double crps = 0;
  bool logarithm = false;
  bool time = false;
  std::optional<double> share;
  double celsius = 24;

  [[nodiscard]] bool inside() const { return low <= theirs && theirs <= high; }
};

/// Mean |X - y| - 1/2 mean |X - X'| of equal draws (Gneiting & Raftery 2007).
inline double crps_of(std::vector<double> draws, double truth) {
  std::sort(draws.begin(), draws.end());
  const auto n = static_cast<double>(draws.size());
  double to_truth = 0;
  double among = 0;
  for (std::size_t i = 0; i < draws.size(); ++i) {
    to_truth += std::abs(draws[i] - truth);
    among += draws[i] * (2 * static_cast<double>(i) + 1 - n);
  }
  return to_truth / n - among / (n * n);
}

/// The CRPS of a normal number.
inline double crps_of_normal(double mean, double sd, double truth) {
  const double z = (truth - mean) / sd;
  const double density = std::exp(-0.5 * z * z) / std::sqrt(2 * std::numbers::pi);
  const double below = 0.5 * std::erfc(-z / std::numbers::sqrt2);
  return sd * (z * (2 * below - 1) + 2 * density - 1 / std::sqrt(std::numbers::pi));
}

inline double quantile_of(std::vector<double> sorted, double p) {
  return sorted[static_cast<std::size_t>(p * static_cast<double>(sorted.size() - 1) + 0.5)];
}

/// What never comes counts as the horizon; what is nearly nothing as a thousandth.
inline double on_the_scale(double value, bool logarithm, double horizon, bool time) {
  if (logarithm) return value;
  return std::log(std::max(1e-3, time ? std::min(value, horizon) : value));
}

inline void score(const Ask& ask,
                  const EvidenceRows& rows,
                  const std::vector<std::vector<double>>& all,
                  std::vector<ScoredRow>& out) {
  for (std::size_t a = 0; a < ask.answers.size(); ++a) {
    const Asked& asked = ask.answers[a];
    std::vector<double> sorted = all[a];
    std::sort(sorted.begin(), sorted.end());
    std::vector<double> scale;
    for (const double x : sorted)
      scale.push_back(on_the_scale(x, asked.is_logarithm(), ask.horizon, asked.is_time()));
    for (const std::string& id : asked.rows) {
      const EvidenceRow& row = *row_of(rows, id);
      ScoredRow one;
      one.id = id;
      one.source = ask.source;
      one.kind = ask.kind;
      one.what = ask.what;
      one.theirs = asked.is_time() ? *row.hours : *row.value;
      one.low = quantile_of(sorted, 0.1);
      one.middle = quantile_of(sorted, 0.5);
      one.high = quantile_of(sorted, 0.9);
      one.logarithm = asked.is_logarithm();
      one.time = asked.is_time();
      one.share = ask.share;
      one.celsius = ask.celsius;
      one.crps = crps_of(scale, on_the_scale(one.theirs, one.logarithm, ask.horizon, one.time));
      out.push_back(std::move(one));
    }
  }
}

/// Every row of every ask.
inline std::vector<ScoredRow> scored(const std::vector<Ask>& asks,
                                     const EvidenceRows& rows,
                                     const AnswerOptions& options) {
  std::vector<ScoredRow> out;
  for (const Ask& ask : asks) score(ask, rows, answers(ask, options), out);
  return out;
}

/// A number a row, averaged within each source and then over the sources.
template <class Of>
std::map<std::string, double> by_source(const std::vector<ScoredRow>& rows, const Of& of) {
  std::map<std::string, double> sum;
  std::map<std::string, double> count;
  for (const ScoredRow& row : rows) {
    sum[row.source] += of(row);
    count[row.source] += 1;
  }
  for (auto& [source, value] : sum) value /= count[source];
  return sum;
}

inline double mean_of(const std::map<std::string, double>& sources) {
  double sum = 0;
  for (const auto& [source, value] : sources) sum += value;
  return sum / static_cast<double>(sources.size());
}

inline double score_of(const std::vector<ScoredRow>& rows) {
  return mean_of(by_source(rows, [](const ScoredRow& row) { return row.crps; }));
}

inline double coverage_of(const std::vector<ScoredRow>& rows) {
  return mean_of(by_source(rows, [](const ScoredRow& row) { return row.inside() ? 1.0 : 0.0; }));
}

struct Interval {
  double low = 0, high = 0;
};

/// Nine of ten means of as many sources, drawn with putting back: what hangs on which sources there
/// happen to be.
inline Interval bootstrap(const std::map<std::string, double>& sources) {
  std::vector<double> values;
  for (const auto& [source, value] : sources) values.push_back(value);
  numerics::Random random(1, 0);
  std::vector<double> means;
  for (int round = 0; round < 4000; ++round) {
    double sum = 0;
    for (std::size_t i = 0; i < values.size(); ++i)
      sum += values[std::min(
          values.size() - 1,
          static_cast<std::size_t>(random.uniform() * static_cast<double>(values.size())))];
    means.push_back(sum / static_cast<double>(values.size()));
  }
  std::sort(means.begin(), means.end());
  return {quantile_of(means, 0.05), quantile_of(means, 0.95)};
}

/// time = c / share of levain ^ p, doubling for every 8 C less: fitted to the rows that tell hours
/// and a share, each source as heavy as the other.
struct TwoLines {
  double ln_c = 0, p = 0, doubt = 1;

  static bool speaks_of(const ScoredRow& row) { return row.time && row.share.has_value(); }

  [[nodiscard]] double ln_hours(const ScoredRow& row) const {
    return ln_c - p * std::log(*row.share) - warmth(row);
  }

  static double warmth(const ScoredRow& row) { return (row.celsius - 24) / 8 * std::numbers::ln2; }
};

inline TwoLines two_lines(const std::vector<ScoredRow>& all) {
  std::vector<ScoredRow> rows;
  std::copy_if(all.begin(), all.end(), std::back_inserter(rows), TwoLines::speaks_of);
  std::map<std::string, double> count;
  for (const ScoredRow& row : rows) count[row.source] += 1;
  const auto weight = [&](const ScoredRow& row) {
    return 1 / count.at(row.source) / static_cast<double>(count.size());
  };
  double x = 0, y = 0, xx = 0, xy = 0;
  for (const ScoredRow& row : rows) {
    const double ln_share = std::log(*row.share);
    const double ln_time = std::log(row.theirs) + TwoLines::warmth(row);
    x += weight(row) * ln_share;
    y += weight(row) * ln_time;
    xx += weight(row) * ln_share * ln_share;
    xy += weight(row) * ln_share * ln_time;
  }
  TwoLines rule;
  rule.p = -(xy - x * y) / (xx - x * x);
  rule.ln_c = y + rule.p * x;
  double off = 0;
  for (const ScoredRow& row : rows)
    off += weight(row) * std::pow(std::log(row.theirs) - rule.ln_hours(row), 2);
  rule.doubt = std::sqrt(off);
  return rule;
}

/// The rows the rule speaks of, as it answers them.
inline std::vector<ScoredRow> by_rule(const TwoLines& rule, const std::vector<ScoredRow>& all) {
  constexpr double four_of_five = 1.2816;
  std::vector<ScoredRow> out;
  for (ScoredRow row : all) {
    if (!TwoLines::speaks_of(row)) continue;
    const double ln = rule.ln_hours(row);
    row.low = std::exp(ln - four_of_five * rule.doubt);
    row.middle = std::exp(ln);
    row.high = std::exp(ln + four_of_five * rule.doubt);
    row.crps = crps_of_normal(ln, rule.doubt, std::log(row.theirs));
    out.push_back(std::move(row));
  }
  return out;
}

}  // namespace barm::test
