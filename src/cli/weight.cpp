#include "cli/weight.h"

#include <fmt/format.h>

#include "formula/amount.h"

namespace barm::cli {

Result<Mass> mass_of(const char* option, const std::string& text, const char* example) {
  const auto amount = formula::parse_amount(text);
  if (amount && amount->kind == formula::WrittenAmount::Kind::mass) return amount->value * kilogram;
  return failure(
      ErrorCode::bad_input,
      option,
      fmt::format("'{}' is no weight: write it with its unit, such as {}", text, example));
}

}  // namespace barm::cli
