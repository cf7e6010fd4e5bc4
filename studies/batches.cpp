// Simulated batches: scores of the estimator against three baselines. docs/model/estimation.md.
//
//   batches [COUNT DRAWS SEED THREADS [PACE_DOUBT TIME_DOUBT]]
//   batches rivals >data/evidence/rival_batches.csv
//
// The batches of the rival law are kept: drawn once, they are the same whatever becomes of the
// model.
//
// With other doubts than the usual ones only the scores are told, to see what hangs on them.
#include <fmt/format.h>

#include <cstdlib>

#include "study.h"
#include "support/calibration.h"
#include "support/kept_rivals.h"
#include "support/leave_future_out.h"

namespace barm {

namespace {

// One line of docs/validation.md; true when it agrees, or misses as is known.
bool line(const std::string& what,
          const std::string& target,
          double ours,
          const std::string& unit,
          bool agrees) {
  return row_of_validation(
      "Simulated batches", "studies/batches.cpp", what, target, ours, unit, agrees);
}

// A clear win: the score of the best baseline by a tenth, in the mean over all stages.
constexpr double clearly = 0.9;

bool report(const std::string& law, const test::Scores& s) {
  const std::string of = fmt::format("{}, {} forecasts: ", law, s.ours.count);
  const double best = std::min({s.prior.mean(), s.exponential.mean(), s.last_batch.mean()});
  bool good = line(of + "error of the time to ready (CRPS)",
                   fmt::format("prior {:.3f}, exponential {:.3f}, last batch {:.3f}; below {:.3f}",
                               s.prior.mean(),
                               s.exponential.mean(),
                               s.last_batch.mean(),
                               clearly * best),
                   s.ours.mean(),
                   "h",
                   s.ours.mean() < clearly * best);
  good &= line(of + "truths in the range of 4 of 5",
               "0.70 to 0.92",
               s.ours.coverage(),
               "of all",
               s.ours.coverage() >= 0.70 && s.ours.coverage() <= 0.92);
  return good;
}

void by_stage(const std::string& law, const std::array<test::Scores, test::stages.size()>& scores) {
  for (std::size_t s = 0; s < scores.size(); ++s) {
    const test::Scores& one = scores[s];
    fmt::print(stderr,
               "{:6} {:2.0f} %  ours {:.3f} h {:3.0f} % {:+.3f}  prior {:.3f} {:3.0f} %  "
               "exponential {:.3f} "
               "{:3.0f} %  last {:.3f} {:3.0f} %\n",
               law,
               100 * test::stages[s],
               one.ours.mean(),
               100 * one.ours.coverage(),
               one.ours.off / one.ours.count,
               one.prior.mean(),
               100 * one.prior.coverage(),
               one.exponential.mean(),
               100 * one.exponential.coverage(),
               one.last_batch.mean(),
               100 * one.last_batch.coverage());
  }
}

// The estimator's own belief: the places of the truth, 500 doughs, ten bins; chi-square above 27.9
// with nine degrees of freedom is one false alarm in a thousand.
bool calibration(int threads) {
  const auto& bake = test::simulated_bakes()[1];
  forecast::Options options;
  options.horizon = 72.0 * hour;
  const auto batch =
      estimation::prepare(bake, estimation::day_one_belief(), forecast::proving_of(bake, options));
  if (!batch) throw std::runtime_error(batch.error().text());
  estimation::LearnOptions learning;
  learning.draws = 1000;
  learning.threads = threads;
  bool good = true;
  for (const test::Places& places : test::calibrate(*batch, {2, 4, 6, 8}, 500, 5, learning)) {
    const double chi = places.chi_square(10);
    good &= line("places of the truth of its own doughs: " + places.of,
                 "chi-square of 10 bins below 27.9",
                 chi,
                 "",
                 chi < 27.9);
  }
  return good;
}

}  // namespace

}  // namespace barm

int main(int argc, char** argv) {
  using namespace barm;
  if (argc > 1 && std::string_view(argv[1]) == "rivals") {
    fmt::print("{}", test::rivals_as_table(test::BatchMaker(1)));
    return 0;
  }
  const auto argument = [&](int i, long long otherwise) {
    return argc > i ? std::atoll(argv[i]) : otherwise;
  };
  const auto count = static_cast<std::size_t>(argument(1, 400));
  const int threads = static_cast<int>(argument(4, 1));
  const bool otherwise = argc > 6;
  const auto adjust = [&](estimation::DoughToRead& batch) {
    if (!otherwise) return;
    batch.pace.doubt = std::atof(argv[5]);
    batch.sample.time_doubt = std::atof(argv[6]);
  };
  const auto table = test::leave_future_out(
      test::WithKeptRivals(static_cast<std::uint64_t>(argument(3, 1)),
                           test::rivals_of_file(BARM_ROOT "/data/evidence/rival_batches.csv")),
      count,
      test::by_learning(
          estimation::day_one_belief(), static_cast<int>(argument(2, 1000)), threads, adjust));
  fmt::print("# Written by tools/study_long: {} batches.\n", count);
  bool good = report("doughs of our law", test::Table::all(table.own));
  good &= report("doughs of a rival law", test::Table::all(table.rival));
  by_stage("own", table.own);
  by_stage("rival", table.rival);
  if (!otherwise) good &= calibration(threads);
  return good ? 0 : 1;
}
