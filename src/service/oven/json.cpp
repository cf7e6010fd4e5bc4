#include <array>
#include <nlohmann/json.hpp>
#include <optional>

#include "service/house/equipment.h"
#include "service/internal/object.h"
#include "service/oven/oven.h"
#include "service/oven/words.h"
#include "storage/record_json.h"

namespace barm::service {

using internal::object;
using nlohmann::json;

namespace {

json range(const oven::Range& r) {
  return object({{"p10", r.p10}, {"p50", r.p50}, {"p90", r.p90}});
}

json minutes_of(const oven::Range& r) {
  constexpr double never = 1e8;
  const auto one = [](double seconds) { return seconds < never ? json(seconds / 60) : json(); };
  return object({{"p10", one(r.p10)}, {"p50", one(r.p50)}, {"p90", one(r.p90)}});
}

// Of each load behind the first, in words.
json further_words(const OvenAnswer& answer) {
  json out = json::array();
  for (std::size_t i = 0; i < answer.further.size(); ++i)
    out.push_back(as_it_goes_in(answer, static_cast<int>(i) + 2));
  return out;
}

}  // namespace

json in_brief(const std::optional<OvenAnswer>& answer) {
  if (!answer) return nullptr;
  return object({{"bake_typed", answer->typed},
                 {"in_oven_min", minutes_of(answer->in_oven())},
                 {"core_C", range(answer->many.core)},
                 {"loss", range(answer->many.loss)},
                 {"with", answer->with},
                 {"further_loads", further_words(*answer)},
                 {"vapour_in_short", vapour_in_short(*answer)}});
}

json to_json(const OvenAnswer& answer) {
  const oven::Many& m = answer.many;
  const auto at = [&](const oven::AtMoment& moment, oven::Asked asked) {
    return range(moment.range[static_cast<std::size_t>(asked)]);
  };
  json course = json::array();
  // At most a row a minute, the last among them.
  constexpr std::size_t most_rows = 60;
  const std::size_t each = m.course.size() / most_rows + 1;
  for (std::size_t i = 0; i < m.course.size(); ++i) {
    if (i % each != 0 && i + 1 != m.course.size()) continue;
    const oven::AtMoment& moment = m.course[i];
    course.push_back(object({{"minutes", moment.seconds / 60},
                             {"core_C", at(moment, oven::Asked::core)},
                             {"surface_C", at(moment, oven::Asked::surface)},
                             {"loss", at(moment, oven::Asked::loss)},
                             {"colour", at(moment, oven::Asked::colour)},
                             {"alcohol_kept", at(moment, oven::Asked::alcohol)}}));
  }
  json cooling = json::array();
  for (const oven::Minute& minute : m.cooled.course)
    cooling.push_back(object({{"minutes", minute.seconds / 60}, {"core_C", minute.core}}));
  json set = json::array();
  for (const oven::Setting& setting : answer.oven.set)
    set.push_back(object({{"from_min", setting.from.in(minute)}, {"C", setting.to.celsius()}}));
  static constexpr std::array ripenesses{"young", "right", "ripe"};
  json learned;
  if (answer.learned) {
    const auto off = [](std::optional<double> by) { return by ? json(*by) : json(); };
    learned = object({{"numbers", numbers_of(answer.known)},
                      {"core_off_K", off(answer.learned->core_off)},
                      {"loss_off", off(answer.learned->loss_off)}});
  }
  json further = json::array();
  for (const FurtherLoad& one : answer.further) {
    further.push_back(
        object({{"words", as_it_goes_in(answer, static_cast<int>(further.size()) + 2)},
                {"loaves", one.loaves},
                {"waited_min", one.waited.in(minute)},
                {"room_left", range(one.room)},
                {"ripeness", ripenesses.at(static_cast<std::size_t>(one.ripeness))},
                {"rise", range(one.rise)},
                {"oven_C", one.oven_has.celsius()},
                {"longer_min", one.longer.in(minute)},
                {"core_C", one.core.celsius()}}));
  }
  return object(
      {{"schema", "barm.oven/1"},
       {"name", answer.name},
       {"form", oven::name(answer.loaf.form)},
       {"dough_g", answer.loaf.mass.in(gram)},
       {"dough_C", answer.loaf.temperature.celsius()},
       {"gas_share", answer.loaf.gas},
       {"room_left", range(answer.room)},
       {"ripeness", ripenesses.at(static_cast<std::size_t>(answer.ripeness))},
       {"dough_words", how_ripe(answer.ripeness, answer.room)},
       {"set", set},
       {"bake_min", answer.lasts.in(minute)},
       {"bake_typed", answer.typed},
       {"in_oven_min", minutes_of(answer.in_oven())},
       {"steam_min", answer.oven.steam.in(minute)},
       {"lid_min", answer.oven.lid.in(minute)},
       {"stone", answer.oven.on_stone > 0},
       {"fan", answer.oven.fan},
       {"vapour_in_short", vapour_in_short(answer)},
       {"loaves", answer.oven.loaves},
       {"further_loads", further},
       {"core_C", range(m.core)},
       {"done_min", minutes_of(m.done_after)},
       {"chance_not_done", m.never_done},
       {"loss", range(m.loss)},
       {"colour", range(m.colour)},
       {"colour_words",
        object({{"p10", oven::name(oven::colour_of(m.colour.p10))},
                {"p50", oven::name(oven::colour_of(m.colour.p50))},
                {"p90", oven::name(oven::colour_of(m.colour.p90))}})},
       {"rise", range(answer.rise)},
       {"raw_starch_core", m.book.course.back().raw_starch},
       {"crust_mm", 1000 * m.book.course.back().crust},
       {"oven_kWh", m.book.course.back().energy / 3.6e6},
       {"cut_min", minutes_of(m.cut_after)},
       {"bag_min", minutes_of(m.bag_after)},
       {"cooling_loss", m.cooling_loss},
       {"alcohol_in_g", answer.ethanol.in(gram)},
       {"alcohol_kept", range(m.alcohol)},
       {"alcohol_in_crumb", range(m.in_crumb)},
       {"alcohol_in_crust", range(m.in_crust)},
       {"vapour",
        object({{"closed", m.vapour.closed},
                {"vented", range(m.vented)},
                {"vented_at_min", m.vapour.vented_at.in(minute)},
                {"lower_limit", m.vapour.limit},
                {"warn_from", m.vapour.warn_from},
                {"chance_of_warning", m.warned},
                {"loaves_at_once", m.vapour.loaves_at_once}})},
       {"course", course},
       {"cooling", cooling},
       {"with", answer.with},
       {"learned", learned},
       {"notes", answer.notes},
       {"keep", answer.keep ? storage::to_json(*answer.keep) : json()},
       {"laid_off",
        object({{"core_K", m.laid.core}, {"loss", m.laid.loss}, {"solved", m.laid.solved}})},
       {"assumed", answer.assumed},
       {"draws", m.draws},
       {"cautions", answer.cautions}});
}

}  // namespace barm::service
