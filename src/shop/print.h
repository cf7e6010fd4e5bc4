#pragma once
// Sheets for the printer: one HTML page that needs nothing else, in millimetres.
#include <string>
#include <string_view>
#include <vector>

#include "shop/cost.h"
#include "shop/label.h"
#include "shop/price.h"

namespace barm::shop {

/// A label's size on paper.
struct LabelSize {
  Length width = 0.06 * metre;
  bool small_pack = false;  ///< largest side under 80 cm2: smaller letters may do
};

/// Height of a small x that this law asks for, and the one printed: a tenth more.
/// Source: data/shop.toml [letters].
[[nodiscard]] Length least_x_height(Law law, bool small_pack);
[[nodiscard]] Length printed_x_height(Law law, bool small_pack);

/// Height of the figures of the net weight: 2, 3, 4 or 6 mm by the weight of the loaf; in the
/// United States 3/16 inch. Source: data/shop.toml [weight_figures].
[[nodiscard]] Length weight_height(const Label& label);

/// What stands on a shelf beside the loaf.
struct ShelfCard {
  std::string name;
  Mass loaf;
  std::vector<std::string> allergens;  ///< in the words of its language
  std::string not_said;                ///< whose allergens nobody knows yet
  Tongue tongue = Tongue::en;
  std::optional<Cash> shelf;  ///< price, tax included
  Currency currency;
  std::string note;
};

/// Each is a block of HTML for page(). Every text is escaped.
[[nodiscard]] std::string card_block(const ShelfCard& card);
/// A label of which something is missing that could hurt, or without which it is none, is not
/// printed: what is missing stands in its place.
[[nodiscard]] std::string label_block(const Label& label, const LabelSize& size);
[[nodiscard]] std::string price_block(const std::string& name,
                                      const std::vector<Offer>& offers,
                                      const Costing& costing,
                                      const PriceList& prices);

/// The whole page. It loads nothing from anywhere.
[[nodiscard]] std::string page(std::string_view title, const std::vector<std::string>& blocks);

}  // namespace barm::shop
