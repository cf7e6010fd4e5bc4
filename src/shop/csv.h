#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace barm::shop {

/// Lines of a CSV as RFC 4180 has it, that a spreadsheet reads as words and numbers only: a text
/// that begins with = + - @, a tab or a carriage return gets an apostrophe before it, so that it is
/// never run as a formula. A plain number may begin with a minus.
class CsvText {
 public:
  void line(const std::vector<std::string>& cells);

  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  std::string text_;
};

/// One cell so written.
[[nodiscard]] std::string csv_cell(std::string_view text);

}  // namespace barm::shop
