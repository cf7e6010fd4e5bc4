#include <nlohmann/json.hpp>

#include "service/internal/json_parts.h"
#include "service/internal/object.h"
#include "service/taste/taste.h"
#include "taste/words.h"

namespace barm::service {

using internal::hours;
using internal::object;
using nlohmann::json;

namespace {

json of_range(const taste::Range& range) {
  return object({{"p10", range.p10}, {"p50", range.p50}, {"p90", range.p90}});
}

json of_note(const taste::Note& note) {
  return object({{"note", note.family},
                 {"strongest", note.scent},
                 {"in_drink", note.in_drink},
                 {"left", of_range(note.left)},
                 {"left_crumb", of_range(note.left_crumb)},
                 {"left_crust", of_range(note.left_crust)},
                 {"crumb", of_range(note.crumb)},
                 {"crust", of_range(note.crust)},
                 {"noticed", note.noticed},
                 {"level", name(note.level)},
                 {"covered_by", note.cover},
                 {"words", taste::sentence(note)},
                 {"decides", note.decides}});
}

json of_sense(const taste::Sense& sense) {
  return object({{"sense", sense.what},
                 {"strength", sense.strength},
                 {"p10", sense.low},
                 {"p90", sense.high},
                 {"of_drink", sense.of_drink},
                 {"left", sense.left},
                 {"noticed", sense.noticed},
                 {"noticed_drink", sense.noticed_drink},
                 {"most", sense.most},
                 {"source", sense.source},
                 {"words", taste::sentence(sense)}});
}

json of_judged(const std::optional<taste::Judged>& judged) {
  if (!judged) return nullptr;
  return object({{"strength_before", of_range(judged->strength_before)},
                 {"strength_after", of_range(judged->strength_after)},
                 {"told_before", judged->told_before},
                 {"told_after", judged->told_after},
                 {"effective_draws", judged->effective},
                 {"surprise", judged->surprise},
                 {"words", judged->words}});
}

json of_gain(const taste::Gain& gain) {
  const taste::Route& route = gain.route;
  return object({{"means", route.means},
                 {"what", route.what},
                 {"times", of_range(gain.times)},
                 {"better", gain.better},
                 {"no_difference", gain.no_difference},
                 {"noticed", gain.tasted.noticed},
                 {"line", taste::in_a_line(gain.tasted)},
                 {"money_a_loaf", route.coins},
                 {"price_guessed", route.price_guessed},
                 {"minutes_a_loaf", route.minutes},
                 {"changes_dough", route.changes_dough},
                 {"later_h", hours(gain.later)},
                 {"never_ready", gain.never},
                 {"alcohol_in_loaf_g", gain.alcohol},
                 {"cautions", route.cautions}});
}

}  // namespace

json to_json(const ThroughAnswer& answer) {
  const taste::Situation& situation = answer.situation;
  json out = object({{"schema", "barm.taste/1"},
                     {"name", answer.bake.name},
                     {"line", answer.line},
                     {"noticed", answer.tasted.noticed},
                     {"noticed_in_words", taste::tasters(answer.tasted.noticed)},
                     {"strength", of_range(taste::range_of(answer.tasted.strength))},
                     {"loss_of_dough", situation.baking.loss},
                     {"crust_of_dough", answer.tasted.crust_share},
                     {"ph_at_the_oven", situation.dough.ph},
                     {"alcohol_g_per_kg", of_range(answer.tasted.alcohol)},
                     {"alcohol_left", of_range(answer.tasted.alcohol_left)},
                     {"loaf_g", situation.loaf().in(gram)},
                     {"tasting", of_judged(answer.judged)},
                     {"doubts", answer.doubts},
                     {"cautions", answer.cautions},
                     {"draws", answer.draws}});
  out["notes"] = json::array();
  for (const taste::Note& note : answer.tasted.notes) out["notes"].push_back(of_note(note));
  out["tongue"] = json::array();
  for (const taste::Sense& sense : answer.tasted.tongue.senses)
    out["tongue"].push_back(of_sense(sense));
  return out;
}

json to_json(const MoreTasteAnswer& answer) {
  json out =
      object({{"schema", "barm.taste-more/1"},
              {"name", answer.bake.name},
              {"drink", answer.routes.drink},
              {"currency", answer.routes.currency},
              {"money", answer.money ? json(*answer.money) : json(nullptr)},
              {"by_h", hours(answer.by)},
              {"share_of_liquid", answer.in_time ? json(answer.in_time->share) : json(nullptr)},
              {"ready_h", answer.in_time ? json(answer.in_time->ready.in(hour)) : json(nullptr)},
              {"as_strong", answer.in_time ? json(answer.in_time->no_less) : json(nullptr)},
              {"line_now", taste::in_a_line(answer.routes.now)},
              {"noticed_now", answer.routes.now.noticed},
              {"alcohol_in_loaf_g", answer.routes.alcohol},
              {"cautions", answer.cautions},
              {"draws", answer.draws}});
  out["routes"] = json::array();
  for (const taste::Gain& gain : answer.routes.gains) out["routes"].push_back(of_gain(gain));
  return out;
}

json to_json(const TasteAcrossAnswer& answer) {
  const taste::Corridor& corridor = answer.corridor;
  json out = object({{"schema", "barm.taste-across/1"},
                     {"name", answer.bake.name},
                     {"drink", corridor.drink},
                     {"within_h", answer.question.within.in(hour)},
                     {"wanted_chance", answer.question.chance},
                     {"wanted_noticed", answer.question.noticed},
                     {"share_now", corridor.now},
                     {"from", corridor.from ? json(*corridor.from) : json(nullptr)},
                     {"to", corridor.to ? json(*corridor.to) : json(nullptr)},
                     {"draws", answer.question.options.draws}});
  out["points"] = json::array();
  for (const taste::CorridorPoint& point : corridor.points) {
    out["points"].push_back(object({{"share", point.share},
                                    {"ready", point.ready},
                                    {"noticed", point.noticed},
                                    {"strength", of_range(point.strength)}}));
  }
  return out;
}

}  // namespace barm::service
