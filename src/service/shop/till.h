#pragma once
// The till: what a loaf costs, what to ask for it, whole bottles, what buyers say.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "formula/bake.h"
#include "shop/buyers.h"
#include "shop/cost.h"
#include "shop/drinks.h"
#include "shop/price.h"

namespace barm::service {

struct TillRequest {
  shop::PriceList prices;
  std::vector<shop::Answer> answers;     ///< of buyers; may be empty
  std::optional<shop::Cash> price_rise;  ///< each bottle; a tenth of its price when left out
  int most_loaves = 0;                   ///< of the bottle plans; 0: five batches
  bool open = false;                     ///< on paper: the cost down to its last part
};

struct TillAnswer {
  std::string name;
  shop::PriceList prices;
  shop::Costing costing;
  std::vector<shop::Effect> effects;
  std::vector<shop::Offer> offers;
  std::vector<shop::DrinkInBottles> bottles;
  std::vector<shop::PriceRise> price_rises;
  std::optional<shop::Buyers> buyers;
  std::vector<std::string> doubts;
  bool open = false;  ///< on paper: the cost down to its last part
};

/// What the options of a terminal or the fields of a page say beside the price file, as text; empty
/// for what the file says.
struct TillWords {
  std::string margin, mark_up, hourly_pay, asked, price_rise;
  std::string buyers;  ///< path of a CSV
  int most_loaves = 0;
  bool open = false;
};

/// Reads the price file and what is said beside it. Errors: those of read_prices() and
/// read_answers(); bad_input with the option's name.
[[nodiscard]] Result<TillRequest> till_request(const std::string& prices, const TillWords& words);

/// The same from prices and answers already read; words.buyers plays no part. Errors: bad_input
/// with the option's name.
[[nodiscard]] Result<TillRequest> till_request(shop::PriceList prices,
                                               std::vector<shop::Answer> answers,
                                               const TillWords& words);

/// Errors: those of shop::cost() and shop::in_bottles().
[[nodiscard]] Result<TillAnswer> till(const formula::Bake& bake, const TillRequest& request);

/// The whole answer as lines of a CSV that no spreadsheet runs as a formula.
[[nodiscard]] std::string to_csv(const TillAnswer& answer);

/// "barm.till/2".
[[nodiscard]] nlohmann::json to_json(const TillAnswer& answer);

}  // namespace barm::service
