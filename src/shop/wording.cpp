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

bool is_letter(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte >= 0x80 || std::isalpha(byte) != 0;
}

/// Short words stand by themselves, for "Ei" is not in "Eispulver"; others begin a word, or in
/// German stand anywhere in one: "Vollmilchpulver".
bool stands_at(const std::string& text, std::size_t at, const Stem& stem, Tongue tongue) {
  constexpr std::size_t short_word = 3;
  const std::size_t end = at + stem.text.size();
  constexpr std::string_view apostrophe = "’";
  const bool begins = at == 0 || !is_letter(text[at - 1]) ||
                      std::string_view(text).substr(0, at).ends_with(apostrophe);
  const bool ends = end == text.size() || !is_letter(text[end]);
  const bool is_word =
      stem.text.size() <= short_word ? begins && ends : begins || tongue == Tongue::de;
  const larder::Allergen* known = larder::find_allergen(stem.allergen);
  return is_word && (known == nullptr || !larder::is_another_thing(*known, text, at));
}

/// Where the stem stands from there on; npos where it does not.
std::size_t place_from(const std::string& text, std::size_t from, const Stem& stem, Tongue tongue) {
  std::size_t at = text.find(stem.text, from);
  while (at != std::string::npos && !stands_at(text, at, stem, tongue))
    at = text.find(stem.text, at + 1);
  return at;
}

/// The allergen that a word in braces is, in whatever language; the word itself where it is none.
/// There a word may stand within another, as within "Buttermilch".
std::string allergen_in(std::string_view piece, Tongue tongue) {
  std::string text = small_letters(piece);
  if (const larder::Allergen* known = larder::find_allergen(text)) return std::string(known->key);
  for (const Tongue one :
       {tongue, Tongue::en, Tongue::us, Tongue::de, Tongue::fr, Tongue::it, Tongue::es}) {
    for (const Stem& stem : stems(one)) {
      if (place_from(text, 0, stem, Tongue::de) != std::string::npos)
        return std::string(stem.allergen);
    }
  }
  return text;
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
    std::size_t at = place_from(small, 0, stem, tongue);
    while (at != std::string::npos && in_braces(small, at))
      at = place_from(small, at + 1, stem, tongue);
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

std::vector<std::string_view> called(std::string_view call, Tongue tongue) {
  for (const auto& row : tables::called) {
    if (row.word != call || tongue == Tongue::en || tongue == Tongue::us) continue;
    if (tongue == Tongue::de) return parts_of(row.de);
    if (tongue == Tongue::fr) return parts_of(row.fr);
    return parts_of(tongue == Tongue::it ? row.it : row.es);
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

std::set<std::string> spoken_of_in(std::string_view text, Tongue tongue) {
  const auto named = larder::allergens_named_in(text);
  std::set<std::string> out(named.begin(), named.end());
  const std::string small = small_letters(text);
  for (const Stem& stem : stems(tongue)) {
    if (place_from(small, 0, stem, tongue) != std::string::npos) out.emplace(stem.allergen);
  }
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
    if (tongue == Tongue::us && !row.us.empty()) return std::string(row.us);
  }
  return allergen;
}

std::string figure(std::string digits, Tongue tongue) {
  if (tongue == Tongue::en || tongue == Tongue::us) return digits;
  std::replace(digits.begin(), digits.end(), '.', ',');
  return digits;
}

}  // namespace barm::shop
