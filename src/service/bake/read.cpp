#include "service/bake/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "forecast/draw.h"
#include "forecast/jar.h"
#include "forecast/warmth.h"
#include "service/bake/aim.h"
#include "service/bake/begun.h"
#include "service/bake/head.h"
#include "service/internal/json_parts.h"
#include "service/now.h"
#include "service/words.h"

namespace barm::service {

namespace {

using internal::hours;
using internal::spread;

constexpr int draws_before = 1000;  // of the dough without its readings

estimation::ReadingOptions options_of(const time::WallClock& clock, const ReadRequest& request) {
  return {
      .clock = clock, .keep_good_rows = request.keep_good_rows, .start_mark = request.start_mark};
}

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

// How much dough is in the jar: as the bake says, else as its start mark shows, else what suits it.
formula::Jar filled(formula::Jar jar, const estimation::Readings& readings, double target) {
  if (!jar.dough_given) {
    jar.dough = readings.start_mark ? forecast::dough_up_to(*readings.start_mark, jar)
                                    : forecast::suitable_dough(jar, target);
  }
  return jar;
}

nlohmann::json outlook(const estimation::Outlook& o) {
  nlohmann::json rise = nlohmann::json::array();
  for (const forecast::Band& band : o.band) {
    rise.push_back({{"t_h", band.hours},
                    {"p10_ratio", band.p10},
                    {"p50_ratio", band.p50},
                    {"p90_ratio", band.p90}});
  }
  nlohmann::json next;
  if (o.next) {
    next = {{"at_h", o.next->at.in(hour)},
            {"range_now_h", o.next->width_now},
            {"range_after_h", o.next->width_after}};
  }
  return {{"ready", spread(o.ready)},
          {"past_its_best", spread(o.past)},
          {"chance_already", o.already.value()},
          {"chance_never", o.never.value()},
          {"good_from_h", hours(o.good_from)},
          {"good_until_h", hours(o.good_until)},
          {"best_at_h", hours(o.best_at)},
          {"best_chance", o.best_chance.value()},
          {"next_look", next},
          {"rise_now_ratio", o.rise_now},
          {"rise", rise}};
}

}  // namespace

Result<estimation::Readings> readings_of(const formula::Bake& bake, const ReadRequest& request) {
  const auto clock = clock_in(request.zone, bake);
  if (!clock) return failure(clock);
  const auto options = options_of(*clock, request);
  estimation::Readings readings;
  if (!request.file.empty()) {
    auto from_file = estimation::read_readings(request.file, options);
    if (!from_file) return from_file;
    readings = std::move(*from_file);
  }
  if (!request.known.empty()) readings = estimation::readings_from(request.known, options);
  return estimation::with_typed(std::move(readings), request.typed, options);
}

Result<estimation::Batch> batch_of(const formula::Bake& asked,
                                   const estimation::Belief& belief,
                                   const estimation::Readings& readings,
                                   const forecast::Options& options) {
  forecast::Plan plan = forecast::Plan::of(asked, options);
  const formula::Bake& bake = plan.bake;
  forecast::Proving proving = forecast::proving_of(bake, options);
  const auto book = forecast::draw(bake, options.seed, -1, estimation::prior_of(belief));
  if (!book) return failure(book);
  const auto warmth = forecast::Warmth::of(bake, *book, proving, forecast::Branches::both);
  if (!warmth) return failure(warmth);
  proving.track = warmth->bulk();
  auto batch = estimation::prepare(bake, belief, proving);
  if (!batch) return batch;
  if (bake.jar) {
    const forecast::Proving sample =
        warmth->sample(proving, filled(*bake.jar, readings, proving.target));
    batch->sample.track = forecast::track_of(sample);
    batch->sample.surface = sample.surface;
  }
  estimation::follow(*batch, readings);
  batch->plan = std::move(plan);
  return batch;
}

Result<ReadAnswer> read(const formula::Bake& written,
                        const ReadRequest& request,
                        const forecast::Options& wanted) {
  formula::Bake bake = written;
  forecast::Options options = wanted;
  if (bake.target_follows) {
    const auto ready_for = aim(bake, options);
    if (!ready_for) return failure(ready_for);
  }
  auto readings = readings_of(bake, request);
  if (!readings) return failure(readings);
  auto start = begun(request.culture, bake, *options.prior);
  if (!start) return failure(start);
  auto clock = clock_in(request.zone, bake);
  if (!clock) return failure(clock);
  ReadAnswer answer;
  answer.clock = *std::move(clock);
  answer.culture = std::move(start->culture);
  auto batch = batch_of(bake, start->belief, *readings, options);
  if (!batch) return failure(batch);
  if (!readings->rows.empty()) answer.suspicions = estimation::suspicions(*readings);
  estimation::widen(*batch, *readings);

  estimation::LearnOptions learning;
  learning.seed = options.seed;
  learning.threads = options.threads;
  learning.cancelled = options.cancelled;
  learning.draws = draws_before;
  const auto nothing = estimation::learn(*batch, {}, learning);
  if (!nothing) return failure(nothing);
  auto before = estimation::outlook(*batch, {}, *nothing, learning);
  if (!before) return failure(before);
  learning.draws = std::max(estimation::LearnOptions{}.draws, options.draws);
  auto learned = estimation::learn(*batch, *readings, learning);
  if (!learned) return failure(learned);
  auto after = estimation::outlook(*batch, *readings, *learned, learning);
  if (!after) return failure(after);
  auto baked = through_the_oven(after->timeline, bake, options);
  if (!baked) return failure(baked);
  auto in_bowl = bowl(bake);
  if (!in_bowl) return failure(in_bowl);

  answer.oven = *std::move(baked);
  for (auto& suspicion : estimation::suspicions(*batch, *readings, *learned))
    answer.suspicions.push_back(std::move(suspicion));
  answer.bowl = std::move(*in_bowl);
  answer.before = std::move(*before);
  answer.after = std::move(*after);
  answer.lessons = estimation::lessons(*batch, *learned);
  answer.learned = *std::move(learned);
  answer.temperature = Temperature::from_celsius(
      forecast::track_of(batch->bulk)
          .mean_celsius(answer.after.ready.p50.value_or(options.horizon).in(hour)));
  answer.now = options.now;
  if (!answer.now && !readings->rows.empty()) answer.now = readings->rows.back().at;
  answer.seen = seen_in(*readings);
  answer.readings = std::move(*readings);
  for (const std::string& note : batch->notes) answer.readings.notes.push_back(note);
  return answer;
}

Result<ReadAnswer> read(const std::string& path,
                        const ReadRequest& request,
                        const forecast::Options& options) {
  const auto bake = formula::read_bake(path);
  if (!bake) return failure(bake);
  return read(*bake, request, options);
}

void tell_as_read(ForeseeAnswer& foreseen, const ReadAnswer& read) {
  forecast::Forecast& forecast = foreseen.forecast;
  forecast.timeline = read.after.timeline;
  forecast.ready = read.after.ready;
  forecast.past = read.after.past;
  forecast.never = read.after.never;
  forecast.band = read.after.band;
  forecast.draws = static_cast<int>(std::lround(read.learned.effective));
  foreseen.look_again = read.after.next ? std::optional(read.after.next->at) : std::nullopt;
  foreseen.now = read.now;
  if (read.clock.known()) foreseen.bowl.bake.clock = read.clock;
  foreseen.oven = read.oven;
}

nlohmann::json to_json(const ReadAnswer& answer) {
  nlohmann::json rows = nlohmann::json::array();
  for (const estimation::Reading& row : answer.readings.rows) {
    nlohmann::json one = {{"at_h", row.at.in(hour)}};
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
    lessons.push_back({{"about", std::string(estimation::name(lesson.topic))},
                       {"doubt_left", lesson.left},
                       {"over_the_book", lesson.factor},
                       {"p10_over_the_book", lesson.low},
                       {"p90_over_the_book", lesson.high},
                       {"words", lesson.words}});
  }
  nlohmann::json doubts = nlohmann::json::array();
  for (const estimation::Suspicion& suspicion : answer.suspicions)
    doubts.push_back(suspicion.words);
  const auto& mark = answer.readings.start_mark;
  nlohmann::json out = {
      {"schema", "barm.read/2"},
      {"bowl", to_json(answer.bowl)},
      {"mixed_at", answer.bowl.bake.mixed_at.value_or("")},
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
      {"taught", lessons},
      {"doubts", doubts},
      {"method", std::string(estimation::name(answer.learned.method))},
      {"k_hat", answer.learned.k_hat},
      {"r_hat", answer.learned.r_hat},
      {"effective_draws", answer.learned.effective}};
  out["oven"] = in_brief(answer.oven);
  add_timeline(out, answer.after.timeline, answer.bowl.bake, answer.clock, answer.now);
  return out;
}

}  // namespace barm::service
