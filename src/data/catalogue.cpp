#include "data/catalogue.h"

#include <algorithm>
#include <cctype>
#include <string>

#include "generated/constants.h"
#include "generated/sources.h"

namespace barm::data {

namespace {

std::string folded(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    if (c == '_' || c == '.') c = ' ';
  }
  return out;
}

bool holds_every_word(const std::string& text, const std::string& words) {
  std::size_t begin = 0;
  while (begin < words.size()) {
    const std::size_t end = std::min(words.find(' ', begin), words.size());
    if (text.find(words.substr(begin, end - begin)) == std::string::npos) return false;
    begin = end + 1;
  }
  return true;
}

}  // namespace

std::string_view name(Standing standing) {
  switch (standing) {
    case Standing::published:
      return "published";
    case Standing::derived:
      return "derived";
    case Standing::common_practice:
      return "common practice";
    case Standing::remembered:
      return "remembered";
    case Standing::guess:
      return "a guess";
  }
  return "unknown";
}

std::span<const Entry> catalogue() { return constants::catalogue; }

std::span<const Source* const> sources() { return source::all; }

std::vector<Entry> search(std::string_view text) {
  const std::string words = folded(text);
  std::vector<Entry> found;
  for (const Entry& entry : catalogue()) {
    const std::string where =
        folded(entry.name) + " " + folded(entry.file) + " " + folded(entry.source->key);
    if (holds_every_word(where, words)) found.push_back(entry);
  }
  return found;
}

}  // namespace barm::data
