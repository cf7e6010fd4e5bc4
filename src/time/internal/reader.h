#pragma once
#include <cstddef>
#include <string_view>

namespace barm::time::internal {

/// Reads a text from the left; any miss makes it bad for good.
class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  int digits(std::size_t length) {
    int value = 0;
    if (text_.size() < length) return bad();
    for (std::size_t i = 0; i < length; ++i) {
      if (text_[i] < '0' || text_[i] > '9') return bad();
      value = 10 * value + (text_[i] - '0');
    }
    text_.remove_prefix(length);
    return value;
  }

  bool take(char c) {
    if (text_.empty() || text_.front() != c) return false;
    text_.remove_prefix(1);
    return true;
  }

  void need(char c) {
    if (!take(c)) bad();
  }

  void skip_digits() {
    while (!text_.empty() && text_.front() >= '0' && text_.front() <= '9') text_.remove_prefix(1);
  }

  [[nodiscard]] bool done() const { return good_ && text_.empty(); }

 private:
  int bad() {
    good_ = false;
    return 0;
  }

  std::string_view text_;
  bool good_ = true;
};

}  // namespace barm::time::internal
