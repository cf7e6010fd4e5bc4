#include "shop/money.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/require.h"
#include "formula/amount.h"
#include "generated/tables.h"

namespace barm::shop {

namespace {

constexpr int digits_of_billion = 9;

Wide power_of_ten(int exponent) {
  Wide power = 1;
  for (int i = 0; i < exponent; ++i) power *= 10;
  return power;
}

/// floor(a / b), b > 0.
Wide floor_divided(Wide a, Wide b) { return a / b - (a % b < 0 ? 1 : 0); }

/// a / b to the nearest whole number, halves to even.
Wide half_even(Wide a, Wide b) {
  if (b < 0) return half_even(-a, -b);
  const Wide down = floor_divided(a, b);
  const Wide twice = 2 * (a - down * b);
  if (twice < b || (twice == b && down % 2 == 0)) return down;
  return down + 1;
}

/// a / b to the nearest whole number, halves away from zero; b > 0.
Wide half_away(Wide a, Wide b) { return a < 0 ? -half_away(-a, b) : (2 * a + b) / (2 * b); }

std::string decimal(Wide value) {
  std::string out;
  do {
    out.insert(out.begin(), static_cast<char>('0' + static_cast<int>(value % 10)));
    value /= 10;
  } while (value > 0);
  return out;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

bool starts_a_number(char c) { return (c >= '0' && c <= '9') || c == '.' || c == '-' || c == '+'; }

/// "EUR 31.50" as "31.50 EUR".
std::string number_first(std::string_view written) {
  const std::string_view text = trimmed(written);
  if (text.empty() || starts_a_number(text.front())) return std::string(text);
  const auto* digit = std::find_if(text.begin(), text.end(), starts_a_number);
  if (digit == text.end()) return std::string(text);
  const auto front = static_cast<std::size_t>(digit - text.begin());
  return std::string(text.substr(front)) + " " + std::string(text.substr(0, front));
}

constexpr std::string_view example = "write \"9.60 EUR\"";

/// The digits of a number that parse_number has already read, to the billionth of a minor unit.
Result<Cash> exact_digits(std::string_view number, const Currency& currency) {
  const int decimals = digits_of_billion + currency.digits;
  constexpr Wide most = Wide{10'000'000'000'000} * Cash::billion;
  Wide value = 0;
  int behind = -1;
  bool negative = false;
  for (const char c : number) {
    if (c == '-') negative = true;
    if (c == '.' || c == ',') behind = 0;
    if (c < '0' || c > '9') continue;
    if (behind >= 0) ++behind;
    if (behind > decimals) {
      return failure(ErrorCode::bad_input, "", "has more decimals than the currency has");
    }
    value = 10 * value + (c - '0');
    if (value > most)
      return failure(ErrorCode::bad_input, "", "is more money than can be counted here");
  }
  value *= power_of_ten(decimals - std::max(behind, 0));
  if (value > most)
    return failure(ErrorCode::bad_input, "", "is more money than can be counted here");
  return Cash::from_billionths(negative ? -value : value);
}

}  // namespace

Result<Currency> currency_of(std::string_view word) {
  const std::string_view wanted = trimmed(word);
  for (const auto& row : tables::currencies) {
    if (row.code == wanted || (!row.sign.empty() && row.sign == wanted)) {
      return Currency{std::string(row.code), static_cast<int>(row.minor_digits)};
    }
  }
  return failure(ErrorCode::bad_input,
                 "",
                 fmt::format("\"{:.20}\" is no currency: write its three capital letters, such as "
                             "EUR, GBP, USD, JPY",
                             wanted));
}

Cash Cash::from_number(double value, const Currency& currency) {
  const double parts = value * std::pow(10.0, currency.digits + digits_of_billion);
  require(std::abs(parts) < 1e22, "money within its range");
  const auto high = static_cast<Wide>(std::floor(parts));
  return Cash(high + static_cast<Wide>(std::llround(parts - std::floor(parts))));
}

std::int64_t Cash::minor() const { return static_cast<std::int64_t>(half_away(parts_, billion)); }

double Cash::number(const Currency& currency) const {
  return static_cast<double>(parts_) / std::pow(10.0, currency.digits + digits_of_billion);
}

Cash Cash::times(std::int64_t numerator, std::int64_t denominator) const {
  require(denominator != 0, "money is not divided by nothing");
  const std::int64_t common = std::max<std::int64_t>(1, std::gcd(numerator, denominator));
  const Wide n = numerator / common;
  const Wide d = denominator / common;
  constexpr Wide largest = (Wide{1} << 126);
  const Wide size = parts_ < 0 ? -parts_ : parts_;
  const Wide times = n < 0 ? -n : n;
  require(times == 0 || size <= largest / times, "money within its range");
  return Cash(half_even(parts_ * n, d));
}

Cash Cash::scaled(double factor) const {
  require(std::abs(factor) <= 1e9, "a factor within its range");
  return times(std::llround(factor * static_cast<double>(billion)), billion);
}

Cash Cash::raised_to(Cash step) const {
  require(step.parts_ > 0, "a step above nothing");
  return Cash(-floor_divided(-parts_, step.parts_) * step.parts_);
}

std::string digits_of(Cash cash, const Currency& currency, int more_digits) {
  const int digits = currency.digits + more_digits;
  require(more_digits >= 0 && more_digits <= digits_of_billion, "as many decimals as are kept");
  Wide value = half_away(cash.billionths(), power_of_ten(digits_of_billion - more_digits));
  const bool negative = value < 0;
  if (negative) value = -value;
  std::string out = decimal(value);
  const auto behind = static_cast<std::size_t>(digits);
  if (out.size() <= behind) out.insert(0, behind + 1 - out.size(), '0');
  if (behind > 0) out.insert(out.size() - behind, ".");
  return (negative ? "-" : "") + out;
}

std::string text(Cash cash, const Currency& currency, int more_digits) {
  return digits_of(cash, currency, more_digits) + " " + currency.code;
}

Result<WrittenCash> parse_cash(std::string_view written) {
  const std::string text = number_first(written);
  const auto number = formula::parse_number(text);
  if (!number) {
    return failure(
        ErrorCode::bad_input, "", fmt::format("{}: {}", number.error().message, example));
  }
  if (number->unit.empty()) {
    return failure(ErrorCode::bad_input,
                   "",
                   fmt::format("an amount of money names its currency: {}", example));
  }
  const auto currency = currency_of(number->unit);
  if (!currency) return failure(currency);
  const std::size_t end = text.find_first_not_of("0123456789.,+-");
  const auto cash = exact_digits(std::string_view(text).substr(0, end), *currency);
  if (!cash) return failure(cash);
  return WrittenCash{*cash, *currency};
}

std::vector<std::int64_t> shown_parts(std::span<const Cash> parts, std::int64_t whole) {
  std::vector<std::int64_t> shown;
  std::vector<Wide> lost;
  std::int64_t missing = whole;
  for (const Cash part : parts) {
    const Wide down = floor_divided(part.billionths(), Cash::billion);
    shown.push_back(static_cast<std::int64_t>(down));
    lost.push_back(part.billionths() - down * Cash::billion);
    missing -= shown.back();
  }
  std::vector<std::size_t> order(parts.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(
      order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return lost[a] > lost[b]; });
  if (order.empty()) return shown;
  for (std::size_t i = 0; missing > 0; ++i, --missing) ++shown[order[i % order.size()]];
  for (std::size_t i = order.size(); missing < 0; ++missing) {
    i = i == 0 ? order.size() - 1 : i - 1;
    --shown[order[i]];
  }
  return shown;
}

}  // namespace barm::shop
