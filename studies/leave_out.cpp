// The prior of the first day made anew without one source of what it has learnt from, and then
// asked that source, and all the world's measurements. docs/model/prior.md.
//
//   leave_out FOLDER [CHAINS ROUNDS SEED THREADS]   FOLDER: data/evidence
//
// Fails where the measurements of a source that was left out, or of all sources together, are
// answered much worse than by the prior that has seen them.
#include <fmt/format.h>

#include <cstdlib>
#include <iostream>
#include <set>

#include "support/evidence_score.h"
#include "support/practice_prior.h"

namespace barm {

namespace {

constexpr double much_worse = 1.25;

struct Asker {
  test::EvidenceRows rows;
  std::vector<test::Ask> asks;

  explicit Asker(const std::string& folder)
      : rows(test::evidence_rows(folder)), asks(test::evidence_asks(folder, rows)) {}

  [[nodiscard]] std::map<std::string, double> scores(const kinetics::JointPrior& prior) const {
    test::AnswerOptions options;
    options.prior = &prior;
    return test::by_source(test::scored(asks, rows, options),
                           [](const auto& row) { return row.crps; });
  }
};

// What the prior learns from: the bases of the rows that the chains weigh.
std::set<std::string_view> bases(const test::PracticeDoughs& doughs) {
  std::set<std::string_view> found;
  const std::vector<kinetics::Parameters<double>> book{kinetics::book()};
  const auto outcomes = doughs.outcomes(book);
  for (const auto& outcome : outcomes.front()) found.insert(outcome.row->basis);
  return found;
}

// How a prior answers the rows of practice of one basis: of the middle doughs, how many lie within
// the range, and of all draws.
void say_practice(const test::PracticeDoughs& doughs,
                  const kinetics::JointPrior& prior,
                  std::string_view basis) {
  std::vector<kinetics::Parameters<double>> sets{kinetics::middle(prior)};
  for (std::uint64_t i = 0; i < 200; ++i) {
    numerics::Random random(7, i);
    sets.push_back(kinetics::drawn(random, prior));
  }
  int rows = 0;
  int middle = 0;
  double all = 0;
  const auto outcomes = doughs.outcomes(sets);
  for (std::size_t s = 0; s < outcomes.size(); ++s) {
    for (const auto& outcome : outcomes[s]) {
      if (outcome.row->basis != basis) continue;
      const bool inside = test::outside(outcome) == 0;
      if (s == 0) ++rows;
      if (s == 0 && inside) ++middle;
      if (s > 0 && inside) all += 1.0 / static_cast<double>(sets.size() - 1);
    }
  }
  fmt::print(
      "practice without '{}': {} of its {} rows met by the middle dough, {:.1f} by a drawn one\n",
      basis,
      middle,
      rows,
      all);
}

bool leave_out(const Asker& asker,
               const test::PracticeDoughs& doughs,
               std::string_view basis,
               const std::map<std::string, double>& seen,
               std::size_t chains,
               int rounds,
               std::uint64_t seed,
               int threads) {
  const auto refit = test::practice_prior(chains, rounds, seed, threads, nullptr, basis);
  const kinetics::JointPrior prior = test::joint_prior(refit);
  say_practice(doughs, prior, basis);
  const auto scores = asker.scores(prior);
  const double mean = test::mean_of(scores);
  fmt::print("measurements without '{}': score {:.3f} against {:.3f}; worth {:.0f} draws\n",
             basis,
             mean,
             test::mean_of(seen),
             refit.effective);
  bool good = mean < much_worse * test::mean_of(seen);
  const auto own = scores.find(std::string(basis));
  if (own != scores.end()) {
    fmt::print("measurements of '{}' itself: score {:.3f} against {:.3f}\n",
               basis,
               own->second,
               seen.at(own->first));
    good = good && own->second < much_worse * seen.at(own->first);
  }
  return good;
}

}  // namespace

}  // namespace barm

int main(int argc, char** argv) {
  using namespace barm;
  const auto argument = [&](int i, long long otherwise) {
    return argc > i ? std::atoll(argv[i]) : otherwise;
  };
  try {
    const Asker asker(argc > 1 ? argv[1] : "data/evidence");
    const int threads = static_cast<int>(argument(5, 1));
    const test::PracticeDoughs doughs(threads);
    const auto seen = asker.scores(kinetics::day_one());
    bool good = true;
    const auto all = bases(doughs);
    for (const std::string_view basis : all)
      good &= leave_out(asker,
                        doughs,
                        basis,
                        seen,
                        static_cast<std::size_t>(argument(2, 64)),
                        static_cast<int>(argument(3, 2000)),
                        static_cast<std::uint64_t>(argument(4, 1)),
                        threads);
    for (const auto& [source, score] : seen) {
      if (!all.contains(source))
        fmt::print("'{}': never learnt from; score {:.3f}\n", source, score);
    }
    fmt::print("{} sources left out, {}\n", all.size(), good ? "all well" : "some much worse");
    return good ? 0 : 1;
  } catch (const std::exception& error) {
    std::cerr << error.what() << "\n";
    return 1;
  }
}
