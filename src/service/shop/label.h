#pragma once
// The label of a bake: a draft by the law of the European Union, the United Kingdom or the United
// States.
#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <utility>
#include <vector>

#include "formula/bake.h"
#include "service/shop/till.h"
#include "shop/label.h"
#include "shop/print.h"

namespace barm::service {

struct LabelRequest {
  shop::Law law = shop::Law::eu;
  Mass portion;     ///< zero: none in the Union, the serving of the law in the United States
  int draws = 200;  ///< loaves imagined for the ranges
  unsigned long long seed = 1;
  std::function<bool()> cancelled = nullptr;  ///< asked now and then; true stops the work
  std::vector<std::pair<std::string, std::string>> fields{};  ///< over the bake's [label], by key
};

struct LabelAnswer {
  shop::Label label;
  int draws = 0;
};

/// The loaf fermented by the model until it goes into the oven, then baked. Errors: those of the
/// bowl, no_convergence, cancelled, bad_input with a field's key.
[[nodiscard]] Result<LabelAnswer> label(const formula::Bake& bake, const LabelRequest& request);

/// "barm.label/1".
[[nodiscard]] nlohmann::json to_json(const LabelAnswer& answer);

/// Sheets to print, each a whole HTML page: the ingredient label; the shelf card with the price
/// sheet.
[[nodiscard]] std::string label_sheet(const LabelAnswer& answer, const shop::LabelSize& size);
[[nodiscard]] std::string price_sheet(const TillAnswer& answer, const LabelAnswer& label);

}  // namespace barm::service
