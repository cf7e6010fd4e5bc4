// Asks the program what others have measured, bakes the ordinary bakes and goes through the doses.
// tools/evidence writes docs/evidence.md from what this says.
//
//   evidence FOLDER [DRAWS SEED]   FOLDER: data/evidence
//
// Lines of tab-separated cells, the first of which says what the line is.
#include <fmt/format.h>

#include <cstdlib>
#include <iostream>

#include "support/evidence_bakes.h"
#include "support/evidence_doses.h"
#include "support/evidence_score.h"

namespace barm {

namespace {

void say_row(const std::string& of, const test::ScoredRow& row) {
  fmt::print("{}\t{}\t{}\t{}\t{}\t{:.6g}\t{:.6g}\t{:.6g}\t{:.6g}\t{}\t{:.6f}\t{}\n",
             of,
             row.id,
             row.source,
             row.kind,
             row.what,
             row.theirs,
             row.low,
             row.middle,
             row.high,
             row.inside() ? "yes" : "no",
             row.crps,
             row.time        ? "h"
             : row.logarithm ? "log"
                             : "");
}

void say_scores(const std::string& of, const std::vector<test::ScoredRow>& rows) {
  const auto crps = test::by_source(rows, [](const auto& row) { return row.crps; });
  const auto held = test::by_source(rows, [](const auto& row) { return row.inside() ? 1.0 : 0.0; });
  const auto crps_interval = test::bootstrap(crps);
  const auto held_interval = test::bootstrap(held);
  for (const auto& [source, value] : crps)
    fmt::print("{} of source\t{}\t{:.6f}\t{:.6f}\n", of, source, value, held.at(source));
  fmt::print("{} score\t{}\t{:.6f}\t{:.6f}\t{:.6f}\t{:.6f}\t{:.6f}\t{:.6f}\n",
             of,
             rows.size(),
             test::mean_of(crps),
             crps_interval.low,
             crps_interval.high,
             test::mean_of(held),
             held_interval.low,
             held_interval.high);
}

void say_evidence(const std::string& folder, const test::AnswerOptions& options) {
  const auto rows = test::evidence_rows(folder);
  const auto asks = test::evidence_asks(folder, rows);
  const auto scored = test::scored(asks, rows, options);
  for (const auto& row : scored) say_row("row", row);
  say_scores("all", scored);
  std::vector<test::ScoredRow> in_reach;
  for (const auto& row : scored) {
    if (test::TwoLines::speaks_of(row)) in_reach.push_back(row);
  }
  say_scores("times", in_reach);
  const auto rule = test::two_lines(scored);
  fmt::print("rule\t{:.6f}\t{:.6f}\t{:.6f}\n", std::exp(rule.ln_c), rule.p, rule.doubt);
  const auto ruled = test::by_rule(rule, scored);
  for (const auto& row : ruled) say_row("rule row", row);
  say_scores("rule", ruled);
}

void say_bakes(const std::string& folder) {
  test::OrdinaryBakes bakes(folder, 200);
  const auto all =
      test::expected_bakes(test::evidence_text(folder, "bakes.csv"), "bakes.csv", folder);
  for (const auto& expected : all) {
    const auto one = bakes.compare(expected);
    fmt::print("bake\t{}\t{}\t{:g}\t{:g}\t{}\t{:.4g}\t{:.4g}\t{:.4g}\t{}\t{}\t{}\n",
               expected.bake,
               expected.what,
               expected.least,
               expected.most,
               expected.unit,
               one.low,
               one.middle,
               one.high,
               one.fine() ? "yes" : "no",
               one.refused,
               expected.known_miss);
  }
}

void say_doses(const std::string& folder) {
  forecast::Options options;
  options.draws = 100;
  options.horizon = 168.0 * hour;
  for (const auto& sweep :
       test::dose_sweeps(test::evidence_text(folder, "doses.toml"), "doses.toml")) {
    const auto swept = test::swept(sweep, options);
    for (std::size_t i = 0; i < swept.hours.size(); ++i)
      fmt::print(
          "dose\t{}\t{}\t{:g}\t{:.4g}\n", sweep.what, sweep.unit, sweep.values[i], swept.hours[i]);
    for (const std::string& broken : swept.broken)
      fmt::print("broken\t{}\t{}\t{}\n", sweep.what, broken, sweep.known_miss);
  }
}

}  // namespace

}  // namespace barm

int main(int argc, char** argv) {
  try {
    barm::test::AnswerOptions options;
    if (argc > 2) options.draws = static_cast<std::size_t>(std::atoll(argv[2]));
    if (argc > 3) options.seed = static_cast<std::uint64_t>(std::atoll(argv[3]));
    barm::say_evidence(argc > 1 ? argv[1] : "data/evidence", options);
    barm::say_bakes(argc > 1 ? argv[1] : "data/evidence");
    barm::say_doses(argc > 1 ? argv[1] : "data/evidence");
    return 0;
  } catch (const std::exception& error) {
    std::cerr << error.what() << "\n";
    return 1;
  }
}
