#pragma once
// The words of a label in the language of the sale.
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "formula/label_fields.h"
#include "shop/label_rule.h"

namespace barm::shop {

/// The language of a label: English as in the Union and the United Kingdom or as in the United
/// States, German, French, Italian, Spanish.
enum class Tongue { en, us, de, fr, it, es };

/// That of the fields in the European Union; elsewhere English.
[[nodiscard]] Tongue tongue_of(Law law, const formula::LabelFields& fields);

/// "de"; "en" of both kinds of English.
[[nodiscard]] std::string_view code(Tongue tongue);

/// A term of the law: "best_before", "of which sugars". Source: data/tables/label_terms.csv.
[[nodiscard]] std::string term(std::string_view key, Tongue tongue);

/// What a label calls an ingredient, by its key. Source: data/tables/label_words.csv.
struct LabelWord {
  std::string_view key;
  std::string_view kind;  ///< plain, fortified, starter, compound, drink, part, or an additive's
  std::string name;       ///< what stands in braces is set off
  std::vector<std::string_view> calls;  ///< words by which a bread's name speaks of it, in English
  std::vector<std::string_view> of;     ///< keys of the usual list of such a product
};

/// Of a key that is none: nothing in its fields.
[[nodiscard]] LabelWord label_word(std::string_view key, Tongue tongue);

/// The words of that language for one of `calls`: "met" for mead. Source: data/tables/called.csv.
[[nodiscard]] std::vector<std::string_view> called(std::string_view call, Tongue tongue);

/// Its name with the category of an additive before it: "preservative: {sulphur dioxide}".
[[nodiscard]] std::string listed_name(const LabelWord& word, Tongue tongue);

/// The allergens whose words stand in braces; a word of no allergen stands for itself.
[[nodiscard]] std::set<std::string> set_off_in(std::string_view text, Tongue tongue);

/// The allergens whose words stand in the text, in braces or not, in that language or in English:
/// "Vollmilchpulver" speaks of milk, "noix de coco" of no walnuts.
[[nodiscard]] std::set<std::string> spoken_of_in(std::string_view text, Tongue tongue);

/// The text with each of `wanted` in braces, put behind it where no word of it stands there, and
/// nothing else in braces.
[[nodiscard]] std::string set_off(std::string text,
                                  const std::set<std::string>& wanted,
                                  Tongue tongue);

/// What an allergen is called when it stands alone, "milk", "Milch"; in the United States as it
/// stands behind "Contains".
[[nodiscard]] std::string allergen_word(const std::string& allergen, Tongue tongue);

/// A figure as that language writes it: "1,2" in German.
[[nodiscard]] std::string figure(std::string digits, Tongue tongue);

}  // namespace barm::shop
