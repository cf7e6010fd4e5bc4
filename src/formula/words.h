#pragma once
#include <algorithm>
#include <cctype>
#include <numeric>
#include <string>
#include <string_view>
#include <vector>

namespace barm::formula {

inline bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

/// Without blanks at its ends.
[[nodiscard]] inline std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
  return text;
}

/// Trimmed, in small letters (ASCII only), each run of blanks one space.
[[nodiscard]] inline std::string folded(std::string_view text) {
  std::string out;
  for (const char c : trimmed(text)) {
    if (is_blank(c) && !out.empty() && out.back() == ' ') continue;
    out += is_blank(c) ? ' ' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return out;
}

/// Edits (one letter put in, left out or changed) from one word to the other: Levenshtein.
[[nodiscard]] inline std::size_t edits(std::string_view from, std::string_view to) {
  std::vector<std::size_t> row(to.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < from.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < to.size(); ++j) {
      const std::size_t changed = diagonal + (from[i] == to[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({changed, row[j] + 1, diagonal + 1});
    }
  }
  return row.back();
}

/// Up to three of the words that are nearest to what was written, nearest first; only those that
/// share more than half of their letters with it. Long nonsense has no near words.
[[nodiscard]] inline std::vector<std::string> near_words(std::string_view written,
                                                         const std::vector<std::string>& known) {
  constexpr std::size_t longest = 64;
  constexpr std::size_t most = 3;
  std::vector<std::pair<std::size_t, std::string>> ranked;
  if (written.size() > longest) return {};
  const std::string wanted = folded(written);
  for (const std::string& word : known) {
    const std::size_t distance = edits(wanted, folded(word));
    if (2 * distance < std::max(wanted.size(), word.size())) ranked.emplace_back(distance, word);
  }
  std::stable_sort(
      ranked.begin(), ranked.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> out;
  for (std::size_t i = 0; i < std::min(most, ranked.size()); ++i) out.push_back(ranked[i].second);
  return out;
}

/// "Near it: mead, dry mead.", or nothing.
[[nodiscard]] inline std::string near_it(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "Near it: " : ", ") + word;
  return out.empty() ? out : out + ".";
}

/// near_it() of what was written, or "There are: …" with all of them when nothing is near.
[[nodiscard]] inline std::string near_or_all(std::string_view written,
                                             const std::vector<std::string>& known) {
  const auto near = near_words(written, known);
  if (!near.empty()) return near_it(near);
  std::string out;
  for (const std::string& word : known) out += (out.empty() ? "There are: " : ", ") + word;
  return out + ".";
}

}  // namespace barm::formula
