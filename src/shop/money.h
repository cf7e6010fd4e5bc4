#pragma once
// Money that never loses a cent: whole numbers, one rounding where it is said, parts that sum to
// the whole as shown.
#include <compare>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace barm::shop {

/// What a share is counted in: a ratio of whole numbers, so that money stays exact.
inline constexpr std::int64_t million = 1'000'000;

/// A whole number of 128 bits: 38 decimal digits.
__extension__ typedef __int128 Wide;  // NOLINT(modernize-use-using): __extension__ takes no using

/// A currency of ISO 4217 and the decimals it is counted to: 2 for EUR, 0 for JPY, 3 for KWD.
/// Source: data/tables/currencies.csv.
struct Currency {
  std::string code = "EUR";
  int digits = 2;

  friend bool operator==(const Currency&, const Currency&) = default;
};

/// By code or sign. Errors: bad_input (no such currency, with what would be right).
[[nodiscard]] Result<Currency> currency_of(std::string_view word);

/// An exact amount of money: a whole number of billionths of the minor unit (of a cent). Sums and
/// differences are exact; a product with a ratio is rounded once, half to even, at the billionth.
/// Range: up to 1e13 minor units from a file; `require` guards it.
/// Checked against: tests/shop/money_test.cpp, tests/laws/money_test.cpp.
class Cash {
 public:
  static constexpr std::int64_t billion = 1'000'000'000;

  constexpr Cash() = default;

  /// Of whole minor units: cents.
  static constexpr Cash from_minor(std::int64_t minor) { return Cash(Wide{minor} * billion); }

  /// Of billionths of a minor unit.
  static constexpr Cash from_billionths(Wide parts) { return Cash(parts); }

  /// Of a number in the currency's own unit, to the nearest billionth of its minor unit.
  static Cash from_number(double value, const Currency& currency);

  [[nodiscard]] constexpr Wide billionths() const { return parts_; }

  /// In whole minor units, halves away from zero: 0.125 EUR is 13 cents.
  [[nodiscard]] std::int64_t minor() const;

  /// In the currency's own unit, for a graph or a ratio; no longer exact.
  [[nodiscard]] double number(const Currency& currency) const;

  friend constexpr Cash operator+(Cash a, Cash b) { return Cash(a.parts_ + b.parts_); }

  friend constexpr Cash operator-(Cash a, Cash b) { return Cash(a.parts_ - b.parts_); }

  constexpr Cash& operator+=(Cash other) {
    parts_ += other.parts_;
    return *this;
  }

  friend constexpr auto operator<=>(Cash, Cash) = default;

  /// This amount times numerator / denominator, rounded once, half to even.
  [[nodiscard]] Cash times(std::int64_t numerator, std::int64_t denominator) const;

  /// This amount times a factor taken to its ninth decimal; 0 <= |factor| <= 1e9.
  [[nodiscard]] Cash scaled(double factor) const;

  /// This amount shared among so many.
  [[nodiscard]] Cash shared_by(std::int64_t count) const { return times(1, count); }

  /// The least multiple of `step` that is not below this; `step` above 0.
  [[nodiscard]] Cash raised_to(Cash step) const;

 private:
  constexpr explicit Cash(Wide parts) : parts_(parts) {}

  Wide parts_ = 0;
};

/// "4.17 EUR", rounded to the minor unit, with so many decimals more.
[[nodiscard]] std::string text(Cash cash, const Currency& currency, int more_digits = 0);

/// "4.17" alone.
[[nodiscard]] std::string digits_of(Cash cash, const Currency& currency, int more_digits = 0);

/// An amount as written: "31.50 EUR", "EUR 31.50", "31,50 €". Every digit counts. Errors: bad_input
/// (no number, no currency, over 1e13 minor units, more than nine decimals beyond the minor unit).
struct WrittenCash {
  Cash cash;
  Currency currency;
};

[[nodiscard]] Result<WrittenCash> parse_cash(std::string_view text);

/// How the parts of a whole are shown in minor units so that they sum to the whole as shown: each
/// is rounded down, and the cents that are missing go to those that lost most (largest remainder).
/// `whole` is what the sum is to be shown as; it may differ from the sum of the exact parts by less
/// than one minor unit a part. With no parts nothing is shown.
[[nodiscard]] std::vector<std::int64_t> shown_parts(std::span<const Cash> parts,
                                                    std::int64_t whole);

}  // namespace barm::shop
