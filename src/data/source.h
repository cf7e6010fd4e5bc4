#pragma once
// Where a number comes from, and how far it can be trusted.
#include <optional>
#include <string_view>

namespace barm::data {

/// How a value is known. The words are shown to the user as they stand.
enum class Standing { published, derived, common_practice, remembered, guess };

/// "published", "derived", "common practice", "remembered" or "a guess".
[[nodiscard]] std::string_view name(Standing standing);

/// One work, or one of the four words for values that no work stands behind.
struct Source {
  std::string_view key;
  std::string_view title;
  Standing standing = Standing::published;
};

/// A number with its unit, its doubt and its source. `T` is a quantity, a fraction or double.
template <class T>
struct Sourced {
  T value;
  double doubt = 0;  ///< prior standard deviation in ln(value); 0 when the source states no doubt
                     ///< worth carrying
  const Source* source = nullptr;
  std::string_view at;  ///< page, table, equation

  constexpr operator T() const { return value; }
};

/// One line of `barm source`: a value in the unit of its data file.
struct Entry {
  std::string_view name;
  double value = 0;
  std::string_view unit;
  double doubt = 0;
  const Source* source = nullptr;
  std::string_view at;
  std::string_view note;
  std::string_view file;  ///< the file of data/ it stands in
};

}  // namespace barm::data
