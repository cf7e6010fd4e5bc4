#pragma once
// The closed list of what a label has to set off.
#include <string>
#include <string_view>
#include <vector>

namespace barm::larder {

/// An allergen of the list. Source: data/tables/allergens.csv.
struct Allergen {
  std::string_view key;  ///< "wheat", "almonds": as the larder and a bake file name it
  int point = 0;         ///< of Annex II of Regulation (EU) No 1169/2011; 0: not in it
  std::string_view us;   ///< behind "Contains" in the United States; empty: not in their list
  std::vector<std::string_view> also;
  std::vector<std::string_view> but_not;  ///< "coconut milk": holds a word of it, is another thing
};

[[nodiscard]] const std::vector<Allergen>& allergens();

/// By its key or another word of it, in any case: "Walnut" is walnuts. nullptr: not on the list.
[[nodiscard]] const Allergen* find_allergen(std::string_view words);

/// Every key and other word, for names near a wrong one.
[[nodiscard]] std::vector<std::string> allergen_words();

/// Whether what stands at that place of a text in small letters is of another thing's name: the
/// "milk" of "coconut milk".
[[nodiscard]] bool is_another_thing(const Allergen& allergen,
                                    std::string_view text,
                                    std::size_t at);

/// The keys of the allergens whose words stand in the text, each word by itself: "walnut paste"
/// names walnuts, "buckwheat" does not name wheat, nor "coconut milk" milk.
[[nodiscard]] std::vector<std::string> allergens_named_in(std::string_view text);

}  // namespace barm::larder
