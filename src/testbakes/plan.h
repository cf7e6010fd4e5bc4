#pragma once
// The plan of a test bake: days as blocks, jar places drawn at random, blind labels.
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "numerics/random.h"
#include "testbakes/test_bake.h"

namespace barm::testbakes {

/// One jar on one day.
struct Jar {
  std::size_t day = 0;    ///< index of TestBake::days
  int place = 1;          ///< on the shelf, from the left; also the order of mixing
  std::size_t dough = 0;  ///< index of TestBake::doughs
  int repeat = 1;         ///< of the same dough on the same day
  std::string label;      ///< three digits that tell nothing
};

/// Every dough in every block as often as the file says, each block in an order of its own. The
/// same seed gives the same plan on every machine. A test bake without a seed has no plan: a
/// contract is broken.
[[nodiscard]] std::vector<Jar> plan(const TestBake& test);

/// A seed for a test bake that has none, drawn by the machine's own chance: 1 to 999 999.
[[nodiscard]] unsigned long long drawn_seed();

/// The text of a test bake file with this seed kept in it, in a line before its first table.
[[nodiscard]] std::string with_seed(std::string_view text, unsigned long long seed);

/// `count` different labels of three digits, 101..999, none of which reads like a rank (no
/// repeated digits). Range: count to 500; beyond it a contract is broken.
[[nodiscard]] std::vector<std::string> blind_labels(std::size_t count, numerics::Random& random);

/// A random order: Fisher & Yates.
template <class T>
void shuffle(std::vector<T>& items, numerics::Random& random) {
  for (std::size_t i = items.size(); i > 1; --i) {
    const auto j = static_cast<std::size_t>(random.uniform() * static_cast<double>(i));
    std::swap(items[i - 1], items[j < i ? j : i - 1]);
  }
}

}  // namespace barm::testbakes
