#pragma once
// What people said they would pay, and what that tells.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "shop/money.h"
#include "shop/price_list.h"

namespace barm::shop {

/// One answer of one person.
struct Answer {
  std::string buyer;
  Cash price;  ///< on the shelf, tax included
  bool would_buy = false;
};

/// Reads "buyer,price,would buy" with a heading line: price as "6.50 EUR" or a bare number in
/// `currency`, yes or no. Errors: not_found (no such file), bad_input with file:line (a missing
/// column, a negative price, another currency, neither yes nor no, the same person twice at one
/// price).
[[nodiscard]] Result<std::vector<Answer>> read_answers(const std::string& path,
                                                       const Currency& currency);
[[nodiscard]] Result<std::vector<Answer>> parse_answers(std::string_view text,
                                                        const std::string& file,
                                                        const Currency& currency);

/// How many would buy at one price.
struct Share {
  Cash price;
  int asked = 0, yes = 0;
  double share = 0;          ///< yes / asked
  double low = 0, high = 1;  ///< holds the true share in 4 of 5 such askings (Wilson)
  double falling = 0;        ///< share when a higher price never sells more
  Cash profit;               ///< for each hundred people asked
};

/// What the answers tell.
struct Buyers {
  std::vector<Share> shares;  ///< by rising price
  int people = 0;
  std::size_t best = 0;                     ///< of `shares`: greatest profit
  std::size_t best_low = 0, best_high = 0;  ///< best price in 4 of 5 resamplings of the people
  std::size_t wide_low = 0, wide_high = 0;  ///< in 19 of 20
  bool at_the_edge = false;                 ///< the best is the dearest or the cheapest asked
  bool too_few = false;
  std::string word;  ///< what can be said, and what would make it better
};

/// Shares, their intervals and the price of greatest profit among those asked.
///
///     Wilson: (p + z2/2n +- z sqrt(p (1-p)/n + z2/4n2)) / (1 + z2/n),  z = 1.2816 for 4 of 5
///     falling share: pooled neighbours until it does not rise with the price
///     profit(price) = falling share * (price / (1 + tax) - cost)
///
/// The range is that of `draws` resamplings of whole people. Too few: under 20 people, a price with
/// under 10 answers, or a range that spans all prices asked. Equations 11 to 13 of
/// docs/model/shop.md. Checked against: tests/truth/buyers_test.cpp (R: prop.test, isoreg).
[[nodiscard]] Buyers judge(const std::vector<Answer>& answers,
                           Cash cost_of_a_loaf,
                           double tax_on_bread,
                           int draws = 2000,
                           unsigned long long seed = 1);

}  // namespace barm::shop
