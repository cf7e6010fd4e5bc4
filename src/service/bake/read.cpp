#include "service/bake/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "estimation/half_ready.h"
#include "service/bake/aim.h"
#include "service/bake/head.h"
#include "service/bake/why.h"
#include "service/internal/json_parts.h"
#include "service/internal/object.h"
#include "service/words.h"

namespace barm::service {

using internal::object;

namespace {

using internal::hours;
using internal::spread;

constexpr int draws_before = 1000;  // of the dough without its readings

// Heights over the start mark as they were read, or as ratios.
std::vector<std::pair<double, double>> seen_in(const estimation::Readings& readings) {
  std::vector<std::pair<double, double>> seen;
  for (const estimation::Reading& row : readings.rows) {
    if (row.height && readings.start_mark)
      seen.emplace_back(row.at.in(hour), *row.height / *readings.start_mark);
    else if (row.ratio)
      seen.emplace_back(row.at.in(hour), *row.ratio);
  }
  return seen;
}

nlohmann::json outlook(const estimation::Outlook& o) {
  nlohmann::json rise = nlohmann::json::array();
  for (const forecast::Band& band : o.band) {
    rise.push_back(object({{"t_h", band.hours},
                           {"p10_ratio", band.p10},
                           {"p50_ratio", band.p50},
                           {"p90_ratio", band.p90}}));
  }
  nlohmann::json next;
  if (o.next) {
    next = object({{"at_h", o.next->at.in(hour)},
                   {"range_now_h", o.next->width_now},
                   {"range_after_h", o.next->width_after}});
  }
  return object({{"ready", spread(o.ready)},
                 {"past_its_best", spread(o.past)},
                 {"chance_already", o.already.value()},
                 {"chance_never", o.never.value()},
                 {"good_from_h", hours(o.good_from)},
                 {"good_until_h", hours(o.good_until)},
                 {"best_at_h", hours(o.best_at)},
                 {"best_chance", o.best_chance.value()},
                 {"next_look", next},
                 {"rise_now_ratio", o.rise_now},
                 {"rise", rise}});
}

}  // namespace

Result<ReadAnswer> read(const Batch& asked, const forecast::Options& wanted) {
  Batch batch = asked;
  forecast::Options options = asked.as_it_stands(wanted);
  forecast::Made made;
  if (batch.bake.target_follows) {
    const auto ready_for = aim(batch.bake, options, made);
    if (!ready_for) return failure(ready_for);
  }
  const estimation::Readings& readings = batch.readings;
  auto dough = dough_to_read(batch, options);
  if (!dough) return failure(dough);
  ReadAnswer answer;
  answer.clock = batch.clock;
  answer.culture = batch.start.culture;
  if (!readings.rows.empty()) answer.suspicions = estimation::suspicions(readings);
  estimation::widen(*dough, readings);

  estimation::LearnOptions learning;
  learning.seed = options.seed;
  learning.threads = options.threads;
  learning.cancelled = options.cancelled;
  learning.draws = draws_before;
  const auto nothing = estimation::learn(*dough, {}, learning);
  if (!nothing) return failure(nothing);
  auto before = estimation::outlook(*dough, {}, *nothing, learning);
  if (!before) return failure(before);
  learning.draws = std::max(estimation::LearnOptions{}.draws, options.draws);
  auto learned = estimation::learn(*dough, readings, learning);
  if (!learned) return failure(learned);
  auto after = estimation::outlook(*dough, readings, *learned, learning);
  if (!after) return failure(after);
  const auto half_ready = [&](const std::vector<kinetics::Factor>& without) {
    return estimation::half_ready(*dough, readings, *learned, without, learning);
  };
  auto hindrances = forecast::in_the_way(batch.bake, options, after->ready, half_ready, made);
  if (!hindrances) return failure(hindrances);
  auto baked = through_the_oven(after->timeline, batch.bake, options);
  if (!baked) return failure(baked);
  auto in_bowl = bowl(batch.bake);
  if (!in_bowl) return failure(in_bowl);

  answer.oven = *std::move(baked);
  answer.in_the_way = *std::move(hindrances);
  for (auto& suspicion : estimation::suspicions(*dough, readings, *learned))
    answer.suspicions.push_back(std::move(suspicion));
  answer.bowl = std::move(*in_bowl);
  answer.before = std::move(*before);
  answer.after = std::move(*after);
  answer.lessons = estimation::lessons(*dough, *learned);
  answer.learned = *std::move(learned);
  answer.temperature = Temperature::from_celsius(
      forecast::track_of(dough->bulk)
          .mean_celsius(answer.after.ready.p50.value_or(options.horizon).in(hour)));
  answer.now = batch.now;
  if (!answer.now && !readings.rows.empty()) answer.now = readings.rows.back().at;
  answer.seen = seen_in(readings);
  answer.readings = std::move(batch.readings);
  for (const std::string& note : dough->notes) answer.readings.notes.push_back(note);
  return answer;
}

void tell_as_read(ForeseeAnswer& foreseen, const ReadAnswer& read) {
  forecast::Forecast& forecast = foreseen.forecast;
  forecast.timeline = read.after.timeline;
  forecast.ready = read.after.ready;
  forecast.past = read.after.past;
  forecast.never = read.after.never;
  forecast.band = read.after.band;
  forecast.draws = static_cast<int>(std::lround(read.learned.effective));
  foreseen.in_the_way = read.in_the_way;
  foreseen.look_again = read.after.next ? std::optional(read.after.next->at) : std::nullopt;
  foreseen.now = read.now;
  if (read.clock.known()) foreseen.bowl.bake.clock = read.clock;
  foreseen.oven = read.oven;
}

nlohmann::json to_json(const ReadAnswer& answer) {
  nlohmann::json rows = nlohmann::json::array();
  for (const estimation::Reading& row : answer.readings.rows) {
    nlohmann::json one = object({{"at_h", row.at.in(hour)}});
    if (row.height) one["height_mm"] = row.height->in(millimetre);
    if (row.ratio) one["ratio"] = *row.ratio;
    if (row.sample) one["sample_C"] = row.sample->celsius();
    if (row.bulk) one["bulk_C"] = row.bulk->celsius();
    if (row.room) one["room_C"] = row.room->celsius();
    if (row.ph) one["ph"] = *row.ph;
    if (!row.remark.empty()) one["remark"] = row.remark;
    rows.push_back(std::move(one));
  }
  nlohmann::json left_out = nlohmann::json::array();
  for (const Error& error : answer.readings.left_out) left_out.push_back(error.text());
  nlohmann::json lessons = nlohmann::json::array();
  for (const estimation::Lesson& lesson : answer.lessons) {
    lessons.push_back(object({{"about", std::string(estimation::name(lesson.topic))},
                              {"doubt_left", lesson.left},
                              {"over_the_book", lesson.factor},
                              {"p10_over_the_book", lesson.low},
                              {"p90_over_the_book", lesson.high},
                              {"words", lesson.words}}));
  }
  nlohmann::json doubts = nlohmann::json::array();
  for (const estimation::Suspicion& suspicion : answer.suspicions)
    doubts.push_back(suspicion.words);
  const auto& mark = answer.readings.start_mark;
  const auto& mixed = answer.bowl.bake.mixed_at;
  nlohmann::json out =
      object({{"schema", "barm.read/2"},
              {"bowl", to_json(answer.bowl)},
              {"mixed_at", mixed ? mixed->text() : ""},
              {"target_volume_ratio", answer.after.target},
              {"temperature_C", answer.temperature.celsius()},
              {"horizon_h", answer.after.horizon.in(hour)},
              {"culture", answer.culture},
              {"start_mark_mm", mark ? nlohmann::json(mark->in(millimetre)) : nlohmann::json()},
              {"readings", rows},
              {"left_out", left_out},
              {"notes", answer.readings.notes},
              {"before", outlook(answer.before)},
              {"after", outlook(answer.after)},
              {"in_the_way", to_json(answer.in_the_way)},
              {"taught", lessons},
              {"doubts", doubts},
              {"method", std::string(estimation::name(answer.learned.method))},
              {"k_hat", answer.learned.k_hat},
              {"r_hat", answer.learned.r_hat},
              {"effective_draws", answer.learned.effective}});
  out["oven"] = in_brief(answer.oven);
  add_timeline(out, answer.after.timeline, answer.bowl.bake, answer.clock, answer.now);
  return out;
}

}  // namespace barm::service
