// Writes data/day_one_prior.toml: the published priors conditioned on the rows of practice.
// docs/model/prior.md.
//
//   day_one_prior [CHAINS ROUNDS SEED THREADS DATE] >data/day_one_prior.toml
#include <fmt/format.h>

#include <cstdlib>

#include "support/practice_prior.h"

namespace barm {

namespace {

// A parameter of which practice says nothing worth writing down keeps its prior of the published
// figures: what the rows leave of its doubt, and how far they move it.
constexpr double most_left = 0.97;
constexpr double least_moved = 0.15;  // of its doubt

bool taught(const test::PracticePrior& prior, std::size_t i) {
  return std::sqrt(prior.covariance[i][i]) < most_left || std::abs(prior.centre[i]) > least_moved;
}

void write(const test::PracticePrior& prior,
           std::size_t chains,
           int rounds,
           std::uint64_t seed,
           const std::string& date) {
  const auto priors = kinetics::priors();
  std::vector<std::size_t> kept;
  for (std::size_t i = 0; i < prior.centre.size(); ++i) {
    if (taught(prior, i)) kept.push_back(i);
  }
  std::vector<std::vector<double>> covariance(kept.size(), std::vector<double>(kept.size()));
  for (std::size_t a = 0; a < kept.size(); ++a) {
    for (std::size_t b = 0; b < kept.size(); ++b) {
      covariance[a][b] =
          prior.covariance[kept[a]][kept[b]] * priors[kept[a]].doubt * priors[kept[b]].doubt;
    }
  }
  const auto factor = test::lower_triangle(covariance);
  fmt::print(
      "# Written by tools/day_one_prior; do not edit. The priors of data/*.toml given the rows of "
      "practice of\n"
      "# tests/support/practice.h (common practice, derived, remembered; none of what is "
      "measured): "
      "what a forecast starts\n"
      "# from before any reading. ln(value/book) = centre + factor z; a parameter that is not here "
      "keeps the doubt of\n"
      "# the published figures. docs/model/prior.md.\n"
      "# {} chains, {} rounds, seed {}; {} draws, worth {:.0f} independent ones. left: what "
      "practice leaves of the\n"
      "# book's doubt. Dated {}.\n",
      chains,
      rounds,
      seed,
      prior.draws,
      prior.effective,
      date);
  for (std::size_t a = 0; a < kept.size(); ++a) {
    fmt::print("\n[[parameter]]  # left {:.2f}\nname = \"{}\"\ncentre = {:.4f}\nfactor = [",
               std::sqrt(prior.covariance[kept[a]][kept[a]]),
               priors[kept[a]].name,
               prior.centre[kept[a]] * priors[kept[a]].doubt);
    for (std::size_t b = 0; b <= a; ++b) fmt::print("{}{:.4f}", b > 0 ? ", " : "", factor[a][b]);
    fmt::print("]\n");
  }
}

}  // namespace

}  // namespace barm

int main(int argc, char** argv) {
  const auto argument = [&](int i, long long otherwise) {
    return argc > i ? std::atoll(argv[i]) : otherwise;
  };
  const auto chains = static_cast<std::size_t>(argument(1, 64));
  const int rounds = static_cast<int>(argument(2, 1500));
  const auto seed = static_cast<std::uint64_t>(argument(3, 1));
  const auto prior = barm::test::practice_prior(
      chains, rounds, seed, static_cast<int>(argument(4, 1)), [&](int r) {
        if (r % 50 == 0) fmt::print(stderr, "round {} of {}\n", r, rounds);
      });
  barm::write(prior, chains, rounds, seed, argc > 5 ? argv[5] : "");
}
