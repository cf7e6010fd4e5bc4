#include "larder/allergens.h"

#include <algorithm>
#include <set>

#include "base/letters.h"
#include "base/parts.h"
#include "generated/tables.h"

namespace barm::larder {

namespace {

bool is_part_of_a_word(char c) {
  return (c >= 'a' && c <= 'z') || (static_cast<unsigned char>(c) & 0x80U) != 0;
}

bool stands_in(const std::string& text, std::string_view word, const Allergen& allergen) {
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const std::size_t end = at + word.size();
    const bool begins = at == 0 || !is_part_of_a_word(text[at - 1]);
    const bool whole = begins && (end == text.size() || !is_part_of_a_word(text[end]));
    if (whole && !is_another_thing(allergen, text, at)) return true;
  }
  return false;
}

}  // namespace

const std::vector<Allergen>& allergens() {
  static const std::vector<Allergen> list = [] {
    std::vector<Allergen> out;
    for (const auto& row : tables::allergens) {
      const bool listed = row.point > 0;
      out.push_back({row.key,
                     listed ? static_cast<int>(row.point) : 0,
                     row.us,
                     parts_of(row.also),
                     parts_of(row.but_not)});
    }
    return out;
  }();
  return list;
}

const Allergen* find_allergen(std::string_view words) {
  const std::string wanted = small_letters(words);
  for (const Allergen& one : allergens()) {
    const bool other = std::find(one.also.begin(), one.also.end(), wanted) != one.also.end();
    if (one.key == wanted || other) return &one;
  }
  return nullptr;
}

bool is_another_thing(const Allergen& allergen, std::string_view text, std::size_t at) {
  return std::any_of(allergen.but_not.begin(), allergen.but_not.end(), [&](std::string_view other) {
    std::size_t begin = text.find(other);
    while (begin < at && begin + other.size() <= at) begin = text.find(other, begin + 1);
    return begin <= at;
  });
}

std::vector<std::string> allergen_words() {
  std::vector<std::string> out;
  for (const Allergen& one : allergens()) {
    out.emplace_back(one.key);
    out.insert(out.end(), one.also.begin(), one.also.end());
  }
  return out;
}

std::vector<std::string> allergens_named_in(std::string_view text) {
  const std::string where = small_letters(text);
  std::set<std::string> found;
  for (const Allergen& one : allergens()) {
    const bool other = std::any_of(one.also.begin(), one.also.end(), [&](std::string_view word) {
      return stands_in(where, word, one);
    });
    if (stands_in(where, one.key, one) || other) found.emplace(one.key);
  }
  return {found.begin(), found.end()};
}

}  // namespace barm::larder
