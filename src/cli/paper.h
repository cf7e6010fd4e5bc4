#pragma once
// A sheet of 80 columns: headings, wrapped lines, bars. Widths count characters as a terminal shows
// them.
#include <string>
#include <string_view>
#include <vector>

namespace barm::cli {

inline constexpr int sheet_width = 80;

/// Number of columns a UTF-8 text takes (one a character; no wide ones are used).
[[nodiscard]] int columns(std::string_view text);

/// The text with blanks behind it, `width` columns in all; longer text stays as it is.
[[nodiscard]] std::string padded(std::string_view text, int width);

/// The text in at most `width` columns, cut behind a … where it is longer.
[[nodiscard]] std::string fitted(std::string_view text, int width);

/// Blanks before the text.
[[nodiscard]] std::string right(std::string_view text, int width);

/// A bar of `length` columns, to an eighth of one; a dot for nothing.
[[nodiscard]] std::string bar(double length);

/// What is written on it is made visible first (base/visible.h): names cannot command a terminal.
class Paper {
 public:
  /// With colour, headings and the ready mark are set off; never the only sign of anything.
  explicit Paper(bool colour) : colour_(colour) {}

  void line(std::string_view text = "");

  /// A heading in capitals, with a remark at the right edge if there is one.
  void heading(std::string_view text, std::string_view remark = "");

  /// Wrapped text, every line indented.
  void wrapped(std::string_view text, int indent = 8);

  /// A label of the margin, then wrapped text.
  void item(std::string_view label, std::string_view text, int indent = 8);

  /// The text set off, when colour is on.
  [[nodiscard]] std::string strong(std::string_view text) const;

  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  bool colour_;
  std::string text_;
};

/// Colour only on a terminal, and not with NO_COLOR.
[[nodiscard]] bool colour_wanted();

}  // namespace barm::cli
