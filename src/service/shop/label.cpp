#include "service/shop/label.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "forecast/ensemble.h"
#include "forecast/journey.h"
#include "generated/constants.h"
#include "numerics/random.h"
#include "service/internal/object.h"
#include "service/oven/oven.h"

namespace barm::service {

using internal::object;
using nlohmann::json;

namespace {

// --- loaves ---

/// What a run of the dough made and left, for each kilogram.
///
///     hexose used by yeast = gas / (gas per hexose),  alcohol = gas * (ethanol per gas)
/// The sugar that is still inside whole fruit is left like that outside it.
shop::Fermented fermented(const kinetics::Dough& dough, const kinetics::StateOf<double>& state) {
  namespace yeast = constants::yeast;
  namespace bacteria = constants::bacteria;
  namespace molar = constants::molar_mass;
  const Amount gas = state[kinetics::yeast_gas] * millimole;
  const Amount eaten = state[kinetics::bacteria_sugar] * millimole;
  const Amount left = (state[kinetics::hexose] + state[kinetics::maltose] +
                       dough.slow_hexose * state[kinetics::inside_fruit]) *
                      millimole;
  shop::Fermented out;
  out.sugar_used = (gas * (1 / yeast::gas_per_hexose.value.si()) + eaten) * molar::hexose.value;
  out.alcohol =
      (yeast::ethanol_per_gas.value.si() * gas + bacteria::ethanol_per_hexose.value.si() * eaten) *
      molar::ethanol.value;
  out.acid =
      eaten *
      (bacteria::lactate_per_hexose.value.si() * chemistry::molar_mass(chemistry::Acid::lactic) +
       bacteria::acetate_per_hexose.value.si() * chemistry::molar_mass(chemistry::Acid::acetic));
  out.gas = (gas + bacteria::gas_per_hexose.value.si() * eaten) * molar::carbon_dioxide.value;
  out.sugar_left = left * molar::hexose.value;
  return out;
}

constexpr double nine_of_ten = 1.6448536269514722;
constexpr double four_of_five = 1.2815515655446004;

/// A share on a logarithmic scale: `middle` at z = 0, `low` and `high` at z = -+`reach`.
double kept_at(double z, double low, double middle, double high, double reach) {
  const double end = z < 0 ? low : high;
  if (!(middle > 0 && end > 0)) return middle;
  return std::min(1.0, middle * std::pow(end / middle, std::abs(z) / reach));
}

/// As the bake's oven is worked out to keep it, or without one as the table for dishes has it.
double kept(const std::optional<OvenLeaves>& leaves, double z) {
  namespace dishes = constants::left_in_loaf;
  if (leaves) {
    const oven::Range& r = leaves->alcohol_kept;
    return kept_at(z, r.p10, r.p50, r.p90, four_of_five);
  }
  return kept_at(z,
                 dishes::alcohol_kept_low.value.si(),
                 dishes::alcohol_kept.value.si(),
                 dishes::alcohol_kept_high.value.si(),
                 nine_of_ten);
}

shop::Baked baked(const formula::Bake& bake,
                  const std::optional<OvenLeaves>& leaves,
                  unsigned long long seed,
                  int index) {
  shop::Baked out{bake.bake_loss, kept(leaves, 0)};
  if (index < 0) return out;
  constexpr std::uint64_t own_streams = 1'000'000;  // apart from those that draw the bottles
  numerics::Random random(seed, own_streams + static_cast<std::uint64_t>(index));
  const double spread = constants::left_in_loaf::bake_loss_spread.value.si() / four_of_five;
  constexpr double most = 0.6;
  out.loss = std::clamp(bake.bake_loss + spread * random.normal(), 0.0, most);
  out.alcohol_kept = kept(leaves, random.normal());
  return out;
}

// The dough when it goes into the oven: through all its stages, or as the horizon leaves it.
Result<kinetics::StateOf<double>> at_the_oven(const formula::Bake& bake,
                                              const forecast::Draw& drawn,
                                              const forecast::Proving& proving) {
  const auto stops = forecast::journey(bake, drawn, proving);
  if (!stops) return failure(stops);
  if (!stops->empty() && stops->back().reached) return stops->back().state;
  const auto course = forecast::run(drawn.dough, drawn.parameters, proving);
  if (!course) return failure(course);
  return course->at_end;
}

Result<shop::LoafDraw> loaf(const formula::Bake& bake,
                            const std::optional<OvenLeaves>& leaves,
                            const forecast::Proving& proving,
                            unsigned long long seed,
                            int index) {
  auto drawn = forecast::draw(bake, seed, index);
  if (!drawn) return failure(drawn);
  const auto state = at_the_oven(bake, *drawn, proving);
  if (!state) return failure(state);
  shop::LoafDraw out;
  out.settled = std::move(drawn->settled);
  out.bowl = std::move(drawn->bowl);
  out.fermented = fermented(drawn->dough, *state);
  out.baked = baked(bake, leaves, seed, index);
  return out;
}

// --- JSON ---

json ranged(const shop::Ranged& value) {
  return object({{"middle", value.middle}, {"low", value.low}, {"high", value.high}});
}

json pieces(const shop::LabelText& text) {
  json out = json::array();
  for (const shop::TextPiece& piece : text)
    out.push_back(object({{"text", piece.text}, {"strong", piece.strong}}));
  return out;
}

json rules(const std::vector<std::string>& ids, shop::Law law) {
  json out = json::array();
  for (const std::string& id : ids) {
    const shop::LabelRule rule = shop::label_rule(id, law);
    out.push_back(object({{"id", rule.id},
                          {"law", rule.law},
                          {"says", rule.says},
                          {"source", rule.source},
                          {"standing", rule.standing},
                          {"harm", rule.harm}}));
  }
  return out;
}

json line(const shop::LabelLine& one, shop::Law law) {
  return object({{"field", one.field},
                 {"text", shop::plain(one.text)},
                 {"pieces", pieces(one.text)},
                 {"rules", rules(one.rules, law)},
                 {"unknown", one.unknown}});
}

json lines(const std::vector<shop::LabelLine>& list, shop::Law law) {
  json out = json::array();
  for (const shop::LabelLine& one : list) out.push_back(line(one, law));
  return out;
}

json ingredient(const shop::Listed& item, shop::Law law) {
  return object({{"name", shop::plain(item.name)},
                 {"pieces", pieces(item.name)},
                 {"used_g", item.used.in(gram)},
                 {"counted_g", item.counted.in(gram)},
                 {"left_g", item.left.in(gram)},
                 {"of_loaf", item.of_loaf},
                 {"quantity", item.quantity_said},
                 {"under_two_percent", item.under_two_percent},
                 {"may_be_left_out", item.may_be_left_out},
                 {"set_off", item.set_off},
                 {"rules", rules(item.rules, law)}});
}

json nutrition(const shop::NutritionLine& one) {
  return object(
      {{"name", one.name},
       {"unit", one.unit},
       {"indented", one.indent > 0},
       {"indent", one.indent},
       {"in_100_g", one.known ? ranged(one.in_100_g) : json(nullptr)},
       {"said_100_g", one.said_100_g},
       {"said_portion", one.said_portion},
       {"daily_value_percent", one.daily_value.empty() ? json(nullptr) : json(one.daily_value)},
       {"said_whole", one.said_whole},
       {"daily_value_percent_whole",
        one.daily_whole.empty() ? json(nullptr) : json(one.daily_whole)}});
}

json fields_of(const formula::LabelFields& fields) {
  return object({{"legal_name", fields.legal_name},
                 {"maker", fields.maker},
                 {"address", fields.address},
                 {"storage", fields.storage},
                 {"lot", fields.lot},
                 {"best_before", fields.best_before},
                 {"origin", fields.origin},
                 {"language", fields.language}});
}

json serving_of(const shop::Label& label) {
  if (label.law != shop::Law::us) return nullptr;
  return object({{"measure", label.serving.measure},
                 {"grams", label.serving.mass.in(gram)},
                 {"servings", label.serving.number},
                 {"whole_too", label.serving.whole_too}});
}

const char* word(shop::Sulphites sulphites) {
  if (sulphites == shop::Sulphites::yes) return "yes";
  return sulphites == shop::Sulphites::perhaps ? "perhaps" : "no";
}

}  // namespace

Result<LabelAnswer> label(const formula::Bake& as_written, const LabelRequest& request) {
  const auto leaves = oven_leaves(as_written);
  if (!leaves) return failure(leaves);
  const formula::Bake bake = with_loss(as_written, *leaves);
  forecast::Options options;
  forecast::Proving proving = forecast::proving_of(bake, options);
  proving.stop_at_target = true;
  proving.sample_every = Time();
  const auto book = loaf(bake, *leaves, proving, request.seed, -1);
  if (!book) return failure(book);
  std::vector<shop::LoafDraw> draws;
  for (int i = 0; i < request.draws; ++i) {
    if (request.cancelled && request.cancelled())
      return failure(ErrorCode::cancelled, "", "stopped");
    auto drawn = loaf(bake, *leaves, proving, request.seed, i);
    if (!drawn) return failure(drawn);
    draws.push_back(*std::move(drawn));
  }
  formula::LabelFields fields = bake.label;
  for (const auto& [key, text] : request.fields) {
    const auto set = formula::set_field(fields, key, text);
    if (!set) return failure(set);
  }
  return LabelAnswer{
      shop::label(bake, *book, draws, {request.law, request.portion, std::move(fields)}),
      request.draws};
}

json to_json(const LabelAnswer& answer) {
  const shop::Label& label = answer.label;
  json out = object(
      {{"schema", "barm.label/1"},
       {"draft", label.draft},
       {"rules_of", shop::name(label.law)},
       {"name", label.name},
       {"loaf_g", label.loaf.si() > 0 ? json(label.loaf.in(gram)) : json(nullptr)},
       {"portion_g", label.portion.si() > 0 ? json(label.portion.in(gram)) : json(nullptr)},
       {"draws", answer.draws},
       {"lines", lines(label.lines, label.law)},
       {"questions", lines(label.questions, label.law)},
       {"missing", label.missing},
       {"remembered", rules(label.remembered, label.law)},
       {"language", shop::code(label.tongue)},
       {"fields", fields_of(label.fields)},
       {"serving", serving_of(label)},
       {"weight_height_mm", shop::weight_height(label).in(millimetre)},
       {"allergens", label.allergens},
       {"sulphites",
        object({{"named", word(label.sulphites)}, {"at_most_mg_per_kg", ranged(label.sulphite)}})},
       {"alcohol_g_in_100_g", ranged(label.alcohol)},
       {"least_x_height_mm", shop::least_x_height(label.law, false).in(millimetre)},
       {"small_pack_x_height_mm", shop::least_x_height(label.law, true).in(millimetre)}});
  out["ingredients"] = object({{"text", shop::plain(label.ingredients.text)},
                               {"pieces", pieces(label.ingredients.text)},
                               {"by_what_is_left", label.ingredients.by_what_is_left},
                               {"order_depends", label.ingredients.order_depends},
                               {"items", json::array()}});
  for (const shop::Listed& item : label.ingredients.items)
    out["ingredients"]["items"].push_back(ingredient(item, label.law));
  out["nutrition"] = json::array();
  for (const shop::NutritionLine& one : label.nutrition) out["nutrition"].push_back(nutrition(one));
  return out;
}

namespace {

/// The card of a loaf, its allergens in the words that the label has for them.
shop::ShelfCard card_of(const shop::Label& label) {
  shop::ShelfCard card;
  card.name = label.name;
  card.loaf = label.loaf;
  card.tongue = label.tongue;
  for (const std::string& allergen : label.allergens)
    card.allergens.push_back(shop::allergen_word(allergen, label.tongue));
  if (label.sulphites != shop::Sulphites::no)
    card.allergens.push_back(shop::allergen_word("sulphites", label.tongue));
  card.not_said = label.not_said;
  card.note = label.draft;
  return card;
}

}  // namespace

std::string label_sheet(const LabelAnswer& answer, const shop::LabelSize& size) {
  return shop::page(
      answer.label.name,
      {shop::label_block(answer.label, size), shop::card_block(card_of(answer.label))});
}

std::string price_sheet(const TillAnswer& answer, const LabelAnswer& label) {
  shop::ShelfCard card = card_of(label.label);
  card.shelf = answer.offers.front().shelf;
  card.currency = answer.prices.currency;
  return shop::page(answer.name,
                    {shop::card_block(card),
                     shop::price_block(answer.name, answer.offers, answer.costing, answer.prices)});
}

}  // namespace barm::service
