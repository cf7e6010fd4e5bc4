#include "service/use_cases.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <span>
#include <utility>

#include "base/letters.h"
#include "data/catalogue.h"
#include "forecast/rests_on.h"
#include "formula/amount.h"
#include "formula/cautions.h"
#include "generated/constants.h"
#include "larder/larder.h"
#include "service/bake/aim.h"
#include "service/bake/internal/spoils.h"
#include "service/now.h"
#include "service/words.h"

namespace barm::service {

namespace {

Result<BowlAnswer> bowl_of(const formula::Bake& bake, const formula::Bowl& bowl) {
  auto mend = formula::mend(bake);
  if (!mend) return failure(mend);
  return BowlAnswer{
      bake, bowl, std::move(*mend), formula::cautions(bake, bowl), formula::doubts(bake)};
}

// Dairy and eggs that stay long above pH 4.6 and 10 C.
std::vector<std::string> time_and_temperature(const formula::Bake& bake,
                                              Temperature temperature,
                                              const forecast::Forecast& forecast) {
  namespace limits = constants::caution;
  const Time mild = std::min(forecast.sour.p50.value_or(forecast.horizon),
                             forecast.ready.p50.value_or(forecast.horizon));
  if (!internal::spoils_warm(bake) || temperature <= limits::warm.value ||
      mild < limits::warm_long.value)
    return {};
  return {
      fmt::format("Milk or egg stands about {} at {} above pH {}, where germs grow best. Your food "
                  "authority's rules hold.",
                  span(mild),
                  warmth(temperature),
                  limits::mild.value.value())};
}

struct Parts {
  double ripe, flour, water;
};

Result<Parts> parts_of(const std::string& ratio) {
  Parts parts{};
  char rest = 0;
  const int read =
      std::sscanf(ratio.c_str(), "%lf:%lf:%lf%c", &parts.ripe, &parts.flour, &parts.water, &rest);
  if (read != 3 || !std::isfinite(parts.ripe) || !(parts.ripe > 0) || !(parts.flour > 0) ||
      !(parts.water > 0) || parts.flour > 5000 * parts.ripe ||
      parts.water > 5 * (parts.flour + parts.ripe)) {
    return failure(ErrorCode::bad_input,
                   "ratio",
                   fmt::format("'{}' is no feeding; write ripe:flour:water, such as 1:2:1", ratio));
  }
  return parts;
}

Result<larder::Ingredient> named(const std::string& field, const std::string& words) {
  const larder::Ingredient* found = larder::find(words);
  if (found != nullptr) return *found;
  std::string near;
  for (const std::string& name : larder::near(words)) near += (near.empty() ? "" : ", ") + name;
  return failure(ErrorCode::not_found,
                 field,
                 fmt::format("'{}' is not in the larder. Near it: {}", words, near));
}

struct AimUnit {
  formula::Aim aim;
  const char* example;
};

constexpr AimUnit aims_and_units[] = {
    {formula::Aim::real_hydration, "70 %"},
    {formula::Aim::liquid_total, "2.1 kg"},
    {formula::Aim::alcohol, "60 g"},
    {formula::Aim::strength_of_liquid, "5 % vol"},
    {formula::Aim::alcohol_in_water, "30 g/L"},
    {formula::Aim::sugar, "40 g"},
    {formula::Aim::salt, "61 g"},
    {formula::Aim::sulphite, "50 mg"},
    {formula::Aim::acid, "120 mmol"},
    {formula::Aim::dough_weight, "5.4 kg"},
};

// The number of an aim in SI, from its text in the unit of its example.
std::optional<double> aim_value(formula::Aim aim, const std::string& text) {
  double value = 0;
  char unit[16] = "";
  if (std::sscanf(text.c_str(), " %lf %15s", &value, unit) < 1 || !(value >= 0) || value > 1e6)
    return std::nullopt;
  const std::string in = unit;
  switch (aim) {
    case formula::Aim::real_hydration:
      return in == "%" ? std::optional<double>(value / 100) : std::nullopt;
    case formula::Aim::strength_of_liquid:
      return in == "%" ? std::optional<double>(value / 100) : std::nullopt;
    case formula::Aim::alcohol_in_water:
      return in == "g/L" ? std::optional<double>(value) : std::nullopt;
    case formula::Aim::acid:
      return in == "mmol" ? std::optional<double>(value / 1000) : std::nullopt;
    default:
      break;
  }
  if (in == "kg") return value;
  if (in == "g") return value / 1000;
  if (in == "mg") return value / 1e6;
  return std::nullopt;
}

Result<formula::Target> target_of(const std::string& text) {
  const std::size_t equals = text.find('=');
  const std::string called = text.substr(0, equals);
  for (const AimUnit& aim : aims_and_units) {
    if (called != formula::name(aim.aim)) continue;
    const auto value =
        equals == std::string::npos ? std::nullopt : aim_value(aim.aim, text.substr(equals + 1));
    if (value) return formula::Target{aim.aim, *value};
    return failure(ErrorCode::bad_input,
                   "--aim",
                   fmt::format("'{}' needs a value such as '{}={}'", text, called, aim.example));
  }
  return failure(ErrorCode::bad_input,
                 "--aim",
                 fmt::format("'{}' is no aim. There are: {}", called, aim_names()));
}

bool about(const larder::Ingredient& ingredient, const std::string& words) {
  const auto holds = [&](const std::string& text) {
    return small_letters(text).find(words) != std::string::npos;
  };
  return holds(ingredient.name) || holds(ingredient.key) ||
         holds(std::string(larder::name(ingredient.group))) ||
         std::any_of(ingredient.also.begin(), ingredient.also.end(), holds);
}

}  // namespace

Result<BowlAnswer> bowl(const formula::Bake& bake) {
  const auto middle = forecast::draw(bake, 1, -1);
  if (!middle) return failure(middle);
  return bowl_of(bake, middle->bowl);
}

Result<BowlAnswer> bowl(const std::string& path) {
  const auto bake = formula::read_bake(path);
  if (!bake) return failure(bake);
  return service::bowl(*bake);
}

Result<ForeseeAnswer> foresee(const formula::Bake& asked, const forecast::Options& wanted) {
  formula::Bake bake = asked;
  forecast::Options options = wanted;
  auto ready_for = aim(bake, options);
  if (!ready_for) return failure(ready_for);
  auto forecast = forecast::foresee(bake,
                                    options,
                                    *ready_for ? std::span<const forecast::Draw>((*ready_for)->made)
                                               : std::span<const forecast::Draw>());
  if (!forecast) return failure(forecast);
  auto baked = through_the_oven(forecast->timeline, bake, options);
  if (!baked) return failure(baked);
  auto hindrances = forecast::in_the_way(bake, options, forecast->ready);
  if (!hindrances) return failure(hindrances);
  std::optional<forecast::WhyNever> why;
  if (!forecast->ready.p50) {
    auto found = forecast::why_never(bake, options, forecast->largest_rises);
    if (!found) return failure(found);
    why = std::move(*found);
  }
  auto in_bowl = bowl_of(bake, forecast->bowl);
  if (!in_bowl) return failure(in_bowl);
  if (*ready_for) (*ready_for)->made.clear();  // hundreds of doughs, and their work is done
  ForeseeAnswer answer{.bowl = std::move(*in_bowl),
                       .forecast = std::move(*forecast),
                       .in_the_way = std::move(*hindrances),
                       .why_never = std::move(why),
                       .ready_for = std::move(*ready_for),
                       .temperature = {},
                       .look_again = std::nullopt,
                       .cautions = {},
                       .now = options.now,
                       .oven = *std::move(baked)};
  answer.temperature = options.temperature.value_or(bake.bulk_temperature());
  if (answer.forecast.guess_that_decides)
    answer.bowl.doubts.push_back(*answer.forecast.guess_that_decides);
  answer.look_again = answer.forecast.fifth.p10;
  answer.cautions = time_and_temperature(bake, answer.temperature, answer.forecast);
  return answer;
}

Result<ForeseeAnswer> foresee(const std::string& path, const forecast::Options& options) {
  const auto bake = formula::read_bake(path);
  if (!bake) return failure(bake);
  return service::foresee(*bake, options);
}

Result<ReachAnswer> reach(const formula::Bake& written,
                          const std::string& drink,
                          Time within,
                          Probability chance,
                          const forecast::Options& wanted) {
  formula::Bake bake = written;
  forecast::Options options = wanted;
  if (bake.target_follows) {
    const auto ready_for = aim(bake, options);
    if (!ready_for) return failure(ready_for);
  }
  const auto asked = drink.empty() ? forecast::main_drink(bake) : std::optional<std::string>(drink);
  if (!asked)
    return failure(
        ErrorCode::not_found, bake.file, "no drink in this bowl; name an ingredient with --of");
  auto found = forecast::reach(bake, *asked, within, chance, options);
  if (!found) return failure(found);
  return ReachAnswer{bake, std::move(*found), chance, options.draws};
}

Result<ReachAnswer> reach(const std::string& path,
                          const std::string& drink,
                          Time within,
                          Probability chance,
                          const forecast::Options& options) {
  const auto bake = formula::read_bake(path);
  if (!bake) return failure(bake);
  return service::reach(*bake, drink, within, chance, options);
}

Result<MatchAnswer> match(const formula::Bake& bake, const formula::Bake& other) {
  auto solution = formula::match(bake, other);
  if (!solution) return failure(solution);
  return MatchAnswer{bake, other, std::move(*solution)};
}

Result<MatchAnswer> match(const std::string& path, const std::string& other) {
  const auto bake = formula::read_bake(path);
  if (!bake) return failure(bake);
  const auto model = formula::read_bake(other);
  if (!model) return failure(model);
  return service::match(*bake, *model);
}

Result<LevainAnswer> levain(const LevainRequest& request, const forecast::Options& options) {
  const auto parts = parts_of(request.ratio);
  if (!parts) return failure(parts);
  for (const auto& [field, time] :
       {std::pair{"fed", request.fed_at}, std::pair{"peak-at", request.peak_at}}) {
    if (time.empty() || time::parse_local(time)) continue;
    return failure(ErrorCode::bad_input,
                   field,
                   fmt::format("'{}' is no local time; write 2026-11-27T22:00 or 22:00", time));
  }
  const auto starter = named("starter", request.starter);
  if (!starter) return failure(starter);
  const auto flour = named("flour", request.flour);
  if (!flour) return failure(flour);
  if (!flour->is_flour())
    return failure(ErrorCode::bad_input, "flour", "'" + flour->name + "' is not a flour");
  if (request.wanted.si() <= 0)
    return failure(ErrorCode::bad_input, "need", "a weight such as 300g");

  formula::Levain levain;
  levain.starter = *starter;
  levain.flour = *flour;
  levain.ripe = parts->ripe;
  levain.fresh_flour = parts->flour;
  levain.water = parts->water;
  levain.temperature = request.temperature;
  if (levain.too_much_yeast())
    return failure(
        ErrorCode::bad_input,
        "ratio",
        "a poolish or biga is raised with little yeast; write yeast:flour:water, such as "
        "0.002:1:1");
  const auto feeding =
      request.peak_in ? forecast::feed_to_peak_in(levain, request.wanted, *request.peak_in, options)
                      : forecast::feed(levain, request.wanted, options);
  if (!feeding) return failure(feeding);
  LevainAnswer answer{request, *feeding, "", options.draws, levain.yeasted()};
  if (!request.peak_at.empty() && request.fed_at.empty() && feeding->peak.p50) {
    answer.feed_at = clock_from(request.peak_at).moment(-*feeding->peak.p50);
  }
  return answer;
}

Result<ThinAnswer> thin(const std::string& drink, const std::string& strength, Mass total) {
  const auto ingredient = named("drink", drink);
  if (!ingredient) return failure(ingredient);
  const auto wanted = formula::parse_amount(strength);
  if (!wanted || wanted->kind != formula::WrittenAmount::Kind::percent) {
    return failure(ErrorCode::bad_input, "--to", "a strength such as '5 % vol'");
  }
  const AlcoholByVolume to(wanted->value);
  auto thinned = formula::thin(*ingredient, to, total);
  if (!thinned) return failure(thinned);
  return ThinAnswer{ingredient->name, to, std::move(*thinned)};
}

Result<WaterAnswer> water(const WaterRequest& request) {
  if (!std::isfinite(request.mixing.friction.si()) || request.mixing.friction.si() < 0) {
    return failure(ErrorCode::bad_input, "friction", "degrees Celsius such as 4");
  }
  if (request.water && request.water->si() <= 0) {
    return failure(ErrorCode::bad_input, "water", "a weight such as 2kg");
  }
  const auto temperature = formula::water_temperature(request.mixing);
  if (!temperature) return failure(temperature);
  WaterAnswer answer{request, *temperature, std::nullopt};
  if (request.water && request.tap) {
    const auto ice = formula::ice(*request.water, *request.tap, *temperature);
    if (!ice) return failure(ice);
    answer.ice = *ice;
  }
  return answer;
}

Result<SolveAnswer> solve(const formula::Bake& bake,
                          const std::vector<std::string>& aims,
                          const std::vector<std::string>& free) {
  std::vector<formula::Target> targets;
  for (const std::string& text : aims) {
    const auto target = target_of(text);
    if (!target) return failure(target);
    targets.push_back(*target);
  }
  std::vector<formula::Free> movable;
  for (const std::string& ingredient : free)
    movable.push_back({.ingredient = ingredient, .least = Mass{}});
  auto solution = formula::solve(bake, targets, movable);
  if (!solution) return failure(solution);
  return SolveAnswer{bake, std::move(targets), std::move(*solution)};
}

Result<SolveAnswer> solve(const std::string& path,
                          const std::vector<std::string>& aims,
                          const std::vector<std::string>& free) {
  const auto bake = formula::read_bake(path);
  if (!bake) return failure(bake);
  return service::solve(*bake, aims, free);
}

std::string aim_names() {
  std::string names;
  for (const AimUnit& aim : aims_and_units) {
    names += (names.empty() ? "" : ", ") + std::string(formula::name(aim.aim)) + " (" +
             aim.example + ")";
  }
  return names;
}

Result<std::vector<larder::Ingredient>> larder_with(const std::string& words) {
  std::vector<larder::Ingredient> found;
  for (const larder::Ingredient& ingredient : larder::all()) {
    if (about(ingredient, small_letters(words))) found.push_back(ingredient);
  }
  if (!found.empty()) return found;
  const auto single = named("larder", words);
  if (!single) return failure(single);
  return std::vector<larder::Ingredient>{*single};
}

Result<std::vector<data::Entry>> sources_of(const std::string& words) {
  std::vector<data::Entry> found = data::search(words);
  for (const data::Entry& entry : larder::entries()) {
    if (small_letters(std::string(entry.name)).find(small_letters(words)) != std::string::npos)
      found.push_back(entry);
  }
  if (found.empty()) {
    return failure(
        ErrorCode::not_found,
        "source",
        "no quantity is called '" + words + "'; 'barm source' without a name lists them all");
  }
  return found;
}

Result<RestingAnswer> sources_behind(const std::string& path, const forecast::Options& options) {
  const auto bake = formula::read_bake(path);
  if (!bake) return failure(bake);
  const auto hours = forecast::hours_to_ready(*bake, options);
  if (!hours) return failure(hours);
  const auto resting = forecast::rests_on(*bake, options, *hours);
  if (!resting) return failure(resting);
  RestingAnswer answer{*bake, {}, options.draws};
  for (const forecast::Resting& one : *resting) {
    if (one.share * options.draws < 4) break;  // what so few draws cannot tell from chance
    for (const data::Entry& entry : data::catalogue()) {
      if (entry.name == one.number->name) answer.numbers.push_back({entry, one.share});
    }
  }
  return answer;
}

}  // namespace barm::service
