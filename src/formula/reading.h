#pragma once
// What the readers of a baker's files share. A reader stops by throwing; the function that was
// asked for the file catches it, so that a mistake found deep in a table needs no plumbing.
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "formula/amount.h"
#include "formula/document.h"

namespace barm::formula {

/// A mistake in a file, on its way to whoever reads it.
struct Stopped {
  Error error;
};

[[noreturn]] void stop(const FilePlace& place, std::string message);

/// The value, or a stop at that place with the result's own message.
template <class T>
[[nodiscard]] T at_place(Result<T> result, const FilePlace& place) {
  if (!result) stop(place, result.error().message);
  return *std::move(result);
}

/// In double quotes; long words are cut.
[[nodiscard]] std::string in_quotes(std::string_view word);

/// `"meade" is not in the bowl. Near it: …`.
[[nodiscard]] std::string not_in_the_bowl(std::string_view word, const Bake& bake);

/// Stops at the first key that is not allowed, with near names.
void check_keys(const Node& table,
                std::string_view what,
                std::initializer_list<std::string_view> allowed);

/// Stops unless the value is a table.
void check_table(const Entry& entry, std::string_view example);

/// The text, or a stop that shows what would be right: `write "24 C"`.
[[nodiscard]] const std::string& text_of(const Node& value, std::string_view example);

/// An amount with its unit; a bare number stops.
[[nodiscard]] WrittenAmount amount_of(const Node& value);

/// A percentage as a fraction from least to most.
[[nodiscard]] double share_of(const Node& value,
                              std::string_view example,
                              double least,
                              double most);

[[nodiscard]] Mass mass_of(const Node& value, std::string_view example);

/// A time to 60 days.
[[nodiscard]] Time time_of(const Node& value);

}  // namespace barm::formula
