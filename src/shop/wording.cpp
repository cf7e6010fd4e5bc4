#include "shop/wording.h"

#include <algorithm>
#include <cctype>
#include <iterator>
#include <utility>

#include "base/letters.h"
#include "base/parts.h"
#include "base/require.h"
#include "generated/tables.h"
#include "larder/allergens.h"

namespace barm::shop {

namespace {

template <class Row>
std::string_view of_tongue(const Row& row, Tongue tongue) {
  switch (tongue) {
    case Tongue::de:
      return row.de;
    case Tongue::fr:
      return row.fr;
    case Tongue::it:
      return row.it;
    case Tongue::es:
      return row.es;
    default:
      return row.en;
  }
}

/// A word by which an allergen is set off.
struct Stem {
  std::string text;
  std::string_view allergen;
};

/// The words of every allergen in that language, the longest first.
std::vector<Stem> stems_of(Tongue tongue) {
  std::vector<Stem> out;
  for (const auto& row : tables::allergens) {
    const std::string_view words = tongue == Tongue::us ? row.us_in_list : of_tongue(row, tongue);
    for (const std::string_view word : parts_of(words))
      out.push_back({small_letters(word), row.key});
  }
  std::stable_sort(out.begin(), out.end(), [](const Stem& a, const Stem& b) {
    return a.text.size() > b.text.size();
  });
  return out;
}

const std::vector<Stem>& stems(Tongue tongue) {
  static const std::vector<Stem> all[] = {stems_of(Tongue::en),
                                          stems_of(Tongue::us),
                                          stems_of(Tongue::de),
                                          stems_of(Tongue::fr),
                                          stems_of(Tongue::it),
                                          stems_of(Tongue::es)};
  return all[static_cast<std::size_t>(tongue)];
}

/// The allergen that a word in braces is; the word itself where it is none.
std::string allergen_in(std::string_view piece, Tongue tongue) {
  const std::string text = small_letters(piece);
  for (const Tongue one : {tongue, Tongue::en, Tongue::us}) {
    for (const Stem& stem : stems(one)) {
      if (text.find(stem.text) != std::string::npos) return std::string(stem.allergen);
    }
  }
  const larder::Allergen* other = larder::find_allergen(piece);
  return other == nullptr ? text : std::string(other->key);
}

/// Calls `see` with each piece of the text and whether it stands in braces.
template <class See>
void each_piece(std::string_view text, See see) {
  bool inside = false;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(inside ? '}' : '{'), text.size());
    if (end > 0) see(text.substr(0, end), inside);
    text.remove_prefix(std::min(end + 1, text.size()));
    inside = !inside;
  }
}

bool begins_word(const std::string& text, std::size_t at) {
  if (at == 0) return true;
  const auto before = static_cast<unsigned char>(text[at - 1]);
  return before < 0x80 && std::isalpha(before) == 0;
}

bool in_braces(const std::string& text, std::size_t at) {
  const std::size_t open = text.rfind('{', at);
  return open != std::string::npos && text.find('}', open) >= at;
}

/// Where a word of the allergen begins outside of braces; npos where none does.
std::pair<std::size_t, std::size_t> place_of(const std::string& text,
                                             const std::string& allergen,
                                             Tongue tongue) {
  const std::string small = small_letters(text);
  for (const Stem& stem : stems(tongue)) {
    if (stem.allergen != allergen) continue;
    std::size_t at = small.find(stem.text);
    while (at != std::string::npos && (!begins_word(small, at) || in_braces(small, at)))
      at = small.find(stem.text, at + 1);
    if (at != std::string::npos) return {at, stem.text.size()};
  }
  return {std::string::npos, 0};
}

std::string behind(std::string text, const std::string& word) {
  if (!text.ends_with(")")) return text + " (" + word + ")";
  text.pop_back();
  return text + ", " + word + ")";
}

}  // namespace

Tongue tongue_of(Law law, const formula::LabelFields& fields) {
  if (law == Law::us) return Tongue::us;
  if (law == Law::uk || fields.language.empty()) return Tongue::en;
  for (const Tongue tongue : {Tongue::de, Tongue::fr, Tongue::it, Tongue::es}) {
    if (code(tongue) == fields.language) return tongue;
  }
  return Tongue::en;
}

std::string_view code(Tongue tongue) {
  constexpr std::string_view codes[] = {"en", "en", "de", "fr", "it", "es"};
  return codes[static_cast<std::size_t>(tongue)];
}

std::string term(std::string_view key, Tongue tongue) {
  for (const auto& row : tables::label_terms) {
    if (row.key == key) return std::string(of_tongue(row, tongue));
  }
  require(false, "a term of data/tables/label_terms.csv");
  return {};
}

LabelWord label_word(std::string_view key, Tongue tongue) {
  for (const auto& row : tables::label_words) {
    if (row.key != key) continue;
    const std::string_view name = tongue == Tongue::us ? row.us : of_tongue(row, tongue);
    return {row.key, row.kind, std::string(name), parts_of(row.calls), parts_of(row.of)};
  }
  return {};
}

std::string listed_name(const LabelWord& word, Tongue tongue) {
  constexpr std::string_view of_additives[] = {
      "acid", "acidity_regulator", "preservative", "stabiliser"};
  const bool additive = std::find(std::begin(of_additives), std::end(of_additives), word.kind) !=
                        std::end(of_additives);
  if (!additive || tongue == Tongue::us) return word.name;
  return term(word.kind, tongue) + ": " + word.name;
}

std::set<std::string> set_off_in(std::string_view text, Tongue tongue) {
  std::set<std::string> out;
  each_piece(text, [&](std::string_view piece, bool inside) {
    if (inside) out.insert(allergen_in(piece, tongue));
  });
  return out;
}

std::string set_off(std::string text, const std::set<std::string>& wanted, Tongue tongue) {
  std::string plain;
  std::set<std::string> missing = wanted;
  each_piece(text, [&](std::string_view piece, bool inside) {
    const std::string allergen = inside ? allergen_in(piece, tongue) : "";
    const bool stays = inside && wanted.contains(allergen);
    missing.erase(allergen);
    plain += stays ? "{" + std::string(piece) + "}" : std::string(piece);
  });
  for (const std::string& allergen : missing) {
    const auto [at, length] = place_of(plain, allergen, tongue);
    if (at == std::string::npos) {
      plain = behind(plain, "{" + allergen_word(allergen, tongue) + "}");
    } else {
      plain.insert(at + length, "}");
      plain.insert(at, "{");
    }
  }
  return plain;
}

std::string allergen_word(const std::string& allergen, Tongue tongue) {
  for (const auto& row : tables::allergens) {
    if (row.key != allergen) continue;
    const auto words = parts_of(tongue == Tongue::us ? row.us_in_list : of_tongue(row, tongue));
    if (!words.empty()) return std::string(words.front());
  }
  return allergen;
}

std::string figure(std::string digits, Tongue tongue) {
  if (tongue == Tongue::en || tongue == Tongue::us) return digits;
  std::replace(digits.begin(), digits.end(), '.', ',');
  return digits;
}

}  // namespace barm::shop
