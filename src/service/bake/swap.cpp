#include "service/bake/swap.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "larder/larder.h"
#include "service/bake/form.h"
#include "service/words.h"

namespace barm::service {

using Json = nlohmann::ordered_json;

namespace {

constexpr const char* file = "bake";

std::string percent(double fraction) { return fmt::format("{:.4g} %", 100 * fraction); }

// A tenth of a gram in a kilogram of flour.
std::string exact_percent(double fraction) { return fmt::format("{:.2f} %", 100 * fraction); }

// On the flour that percent is of.
double real_water(const formula::Bowl& bowl) { return bowl.added_water / bowl.percent_of; }

/// The bake as an object whose drink and water are baker's percentages of our choosing.
class Bowl {
 public:
  Bowl(Json form, std::string water, std::string drink)
      : form_(std::move(form)), water_(std::move(water)), drink_(std::move(drink)) {
    place_drink();
    before_ = form_;
  }

  /// Pours `liquid` of flour, `share` of it the drink.
  void pour(double liquid, double share) {
    form_ = before_;
    Json& bowl = form_["bowl"];
    put(bowl, water_, (1 - share) * liquid);
    put(bowl, drink_, share * liquid);
  }

  /// Lets the drink meet the dough where the water did, and leaves out what is not poured.
  void order_mixing(const formula::Bake& bake, std::size_t water) {
    if (!form_.contains("stage")) return;
    for (Json& stage : form_["stage"]) {
      if (!stage.is_object() || !stage.contains("order")) continue;
      Json order = Json::array();
      for (const Json& name : stage["order"]) {
        const auto at = bake.find(name.get<std::string>());
        if (at == water) {
          if (form_["bowl"].contains(drink_)) order.push_back(drink_);
          if (form_["bowl"].contains(water_)) order.push_back(name);
        } else if (at != bake.find(drink_)) {
          order.push_back(name);
        }
      }
      stage["order"] = std::move(order);
    }
  }

  [[nodiscard]] Result<WrittenBake> text() const { return bake_text(form_); }

  [[nodiscard]] Result<formula::Bowl> weighed() const {
    const auto written = text();
    if (!written) return failure(written);
    const auto bake = formula::parse_bake(written->text, file);
    if (!bake) return failure(bake);
    return formula::in_the_bowl(*bake);
  }

 private:
  // What is not poured has no line.
  static void put(Json& bowl, const std::string& key, double share) {
    if (share > 0) {
      bowl[key] = exact_percent(share);
    } else {
      bowl.erase(key);
    }
  }

  // A new drink stands beside the water, not after the levain.
  void place_drink() {
    Json& bowl = form_["bowl"];
    if (bowl.contains(drink_)) return;
    Json placed = Json::object();
    for (const auto& [key, value] : bowl.items()) {
      if (key == water_) placed[drink_] = "0 %";
      placed[key] = value;
    }
    bowl = std::move(placed);
  }

  Json form_;
  Json before_;
  std::string water_, drink_;
};

// The key by which the bowl's table calls a portion.
std::string key_of(const Json& bowl, const formula::Bake& bake, std::size_t portion) {
  for (const auto& [key, value] : bowl.items()) {
    if (key != "liquid" && bake.find(key) == portion) return key;
  }
  return bake.bowl[portion].ingredient.name;
}

// Shares of the liquid as baker's percentages: the liquid's total is about to change.
void free_of_liquid(Json& form, const formula::Bake& bake, const formula::Bowl& bowl) {
  for (std::size_t i = 0; i < bake.bowl.size(); ++i) {
    const auto measure = bake.bowl[i].measure;
    if (measure != formula::Measure::of_liquid && measure != formula::Measure::rest_of_liquid)
      continue;
    form["bowl"][key_of(form["bowl"], bake, i)] =
        exact_percent(bowl.lines[i].plan / bowl.percent_of);
  }
  form["bowl"].erase("liquid");
}

}  // namespace

Result<SwapAnswer> swap_drink(std::string_view text, const std::string& drink, double share) {
  const auto before = formula::parse_bake(text, file);
  if (!before) return failure(before);
  const auto weighed = formula::in_the_bowl(*before);
  if (!weighed) return failure(weighed);
  const auto water_at = before->find("water");
  if (!water_at)
    return failure(ErrorCode::cannot_be_met, file, "there is no water in this bowl to take from");
  if (!(share >= 0 && share <= 1))
    return failure(ErrorCode::bad_input, "share", "a share lies between 0 and 1, such as 0.5");
  const auto drink_at = before->find(drink);
  if (drink_at == water_at)
    return failure(ErrorCode::bad_input, "drink", "water for water is no swap: name a drink");

  auto form = bake_form(text, file);
  if (!form) return failure(form);
  form->erase("weighed");
  free_of_liquid(*form, *before, *weighed);
  const std::string water_key = key_of((*form)["bowl"], *before, *water_at);
  const std::string drink_key = drink_at ? key_of((*form)["bowl"], *before, *drink_at) : drink;
  Bowl bowl(std::move(*form), water_key, drink_key);

  // The real water is a straight line over what is poured: two points give it.
  const double wanted = real_water(*weighed);
  const double low = 0.2;
  const double high = 1.0;
  const auto pour = [&](double liquid) {
    bowl.pour(liquid, share);
    bowl.order_mixing(*before, *water_at);
  };
  const auto real = [&](double liquid) -> Result<double> {
    pour(liquid);
    const auto now = bowl.weighed();
    if (!now) return failure(now);
    return real_water(*now);
  };
  const auto at_low = real(low);
  if (!at_low) return failure(at_low);
  const auto at_high = real(high);
  if (!at_high) return failure(at_high);
  const double slope = (*at_high - *at_low) / (high - low);
  const double liquid = low + (wanted - *at_low) / slope;
  if (!(slope > 0.05) || !(liquid > 0) || !(liquid < 10)) {
    return failure(
        ErrorCode::cannot_be_met,
        "drink",
        fmt::format("no weight of {} holds the real water at {}", drink, percent(wanted)));
  }
  pour(liquid);
  const auto written = bowl.text();
  if (!written) return failure(written);
  const auto after = formula::parse_bake(written->text, file);
  if (!after) return failure(after);
  auto in_bowl = service::bowl(*after);
  if (!in_bowl) return failure(in_bowl);
  const auto drink_now = after->find(drink_key);
  if (drink_now && !in_bowl->bowl.lines[*drink_now].liquid)
    return failure(
        ErrorCode::bad_input, "drink", "'" + drink + "' is not poured as water is: name a drink");

  SwapAnswer answer{drink_key, share, written->text, {}, std::move(*in_bowl)};
  const formula::Bowl& now = answer.bowl.bowl;
  const double poured =
      (weighed->lines[*water_at].plan + (drink_at ? weighed->lines[*drink_at].plan : Mass{})) /
      weighed->percent_of;
  answer.working = {
      fmt::format("real water before: {} of flour", percent(wanted)),
      fmt::format("each 100 g of this liquid, {} of it {}, brings {:.1f} g of real water",
                  percent(share),
                  drink_key,
                  100 * slope),
      fmt::format("so {} of flour is poured instead of {}", percent(liquid), percent(poured)),
  };
  for (const std::string& key : {drink_key, water_key}) {
    const auto at = after->find(key);
    if (!at) continue;
    const formula::Weighed& line = now.lines[*at];
    answer.working.push_back(fmt::format(
        "{}: {} of flour, {}", line.name, percent(line.plan / now.percent_of), weight(line.plan)));
  }
  answer.working.push_back(fmt::format(
      "real water after: {} of flour, alcohol {}", percent(real_water(now)), weight(now.ethanol)));
  return answer;
}

Json to_json(const SwapAnswer& answer) {
  Json out;
  out["schema"] = "barm.swap/1";
  out["drink"] = answer.drink;
  out["share_of_liquid"] = answer.share;
  out["text"] = answer.text;
  const auto form = bake_form(answer.text, file);
  out["form"] = form ? *form : Json::object();
  out["working"] = answer.working;
  out["bowl"] = to_json(answer.bowl).at("bowl");
  return out;
}

}  // namespace barm::service
