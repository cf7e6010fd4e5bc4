#include "service/daybook/culture.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "formula/read.h"
#include "service/internal/object.h"

namespace barm::service {

using internal::object;

namespace {

// Only the middle of the draws is kept of a lesson.
constexpr int draws_of_a_lesson = 500;
constexpr double enough_to_learn_from = 80;

}  // namespace

CultureAnswer shown(estimation::Culture culture) {
  CultureAnswer answer;
  answer.differences = estimation::differences(culture);
  answer.by_age = estimation::later_by_age(culture);
  answer.culture = std::move(culture);
  return answer;
}

Result<CultureAnswer> show_culture(const std::string& path) {
  auto culture = estimation::read_culture(path);
  if (!culture) return failure(culture);
  return shown(std::move(*culture));
}

Result<Taught> taught(const Batch& batch,
                      const std::string& name,
                      const forecast::Options& options) {
  const estimation::Readings& readings = batch.readings;
  if (readings.heights() == 0)
    return failure(ErrorCode::bad_input, "", "no height was read: there is nothing to learn");
  auto dough = dough_to_read(batch, options);
  if (!dough) return failure(dough);
  estimation::widen(*dough, readings);
  estimation::LearnOptions learning;
  learning.draws = draws_of_a_lesson;
  learning.least_effective = enough_to_learn_from;
  learning.seed = options.seed;
  learning.threads = options.threads;
  learning.cancelled = options.cancelled;
  const auto learned = estimation::learn(*dough, readings, learning);
  if (!learned) return failure(learned);
  Taught out;
  out.lesson = estimation::lesson_of(*dough, *learned, name, day_of(batch.bake));
  out.lesson.readings = static_cast<int>(readings.heights());
  for (estimation::Lesson& one : estimation::lessons(*dough, *learned)) {
    if (one.tells) out.words.push_back(std::move(one.words));
  }
  return out;
}

Result<estimation::BatchLesson> lesson(const std::string& bake_path,
                                       const ReadBeside& beside,
                                       const std::string& batch,
                                       const forecast::Options& options) {
  auto bake = formula::read_bake(bake_path);
  if (!bake) return failure(bake);
  const double day = day_of(*bake);
  const std::string own = day > 0 ? bake->name + ", " + date_of(day) : bake->name;
  // What another culture has taught is no part of what this batch does.
  ReadBeside of_it = beside;
  of_it.culture.clear();
  const auto known = batch_of(*std::move(bake), of_it, *options.prior);
  if (!known) return failure(known);
  auto out = taught(*known, batch.empty() ? own : batch, options);
  if (!out) {
    const Error& error = out.error();
    return failure(error.code, error.where.empty() ? beside.file : error.where, error.message);
  }
  out->lesson.bake = bake_path;
  out->lesson.readings_file = beside.file;
  out->lesson.zone = beside.zone;
  return std::move(out->lesson);
}

Result<CultureAnswer> learn_culture(estimation::Culture culture,
                                    const std::string& bake_path,
                                    const ReadBeside& beside,
                                    const std::string& batch,
                                    const forecast::Options& options) {
  auto one = lesson(bake_path, beside, batch, options);
  if (!one) return failure(one);
  const std::string name = one->batch;
  estimation::put(culture, std::move(*one));
  CultureAnswer answer = shown(std::move(culture));
  answer.done = fmt::format("learned from '{}'", name);
  return answer;
}

Result<CultureAnswer> leave_out(const estimation::Culture& culture, const std::string& batch) {
  auto rest = estimation::without(culture, batch);
  if (!rest) return failure(rest);
  CultureAnswer answer = shown(std::move(*rest));
  answer.done = fmt::format("'{}' is forgotten as if it had never been", batch);
  return answer;
}

Result<CultureAnswer> relearn(const estimation::Culture& culture,
                              const forecast::Options& options,
                              const std::function<void(double)>& progress) {
  const auto again = [&](const estimation::BatchLesson& old) -> Result<estimation::BatchLesson> {
    // What was typed and never in a file is kept as it was learned.
    if (old.bake.empty() || old.readings_file.empty()) return old;
    ReadBeside beside;
    beside.file = old.readings_file;
    beside.zone = old.zone;
    auto learned = lesson(old.bake, beside, old.batch, options);
    if (learned) learned->day = old.day;
    return learned;
  };
  auto anew = estimation::relearned(culture, again, progress, options.cancelled);
  if (!anew) return failure(anew);
  CultureAnswer answer = shown(std::move(*anew));
  answer.done = fmt::format("{} batches learned again", culture.batches.size());
  return answer;
}

nlohmann::json to_json(const CultureAnswer& answer) {
  nlohmann::json differences = nlohmann::json::array();
  for (const estimation::Difference& d : answer.differences) {
    differences.push_back(object({{"about", d.about},
                                  {"over_the_book", d.factor},
                                  {"p10_over_the_book", d.low},
                                  {"p90_over_the_book", d.high},
                                  {"doubt_left", d.left},
                                  {"between_batches_ln_sd", d.between},
                                  {"known", d.known},
                                  {"words", d.words}}));
  }
  nlohmann::json batches = nlohmann::json::array();
  for (const estimation::BatchLesson& b : answer.culture.batches) {
    batches.push_back(object({{"name", b.batch},
                              {"date", date_of(b.day)},
                              {"readings", b.readings},
                              {"levain_past_peak_h",
                               b.levain_age_h ? nlohmann::json(*b.levain_age_h) : nlohmann::json()},
                              {"bake", b.bake},
                              {"readings_file", b.readings_file}}));
  }
  return object({{"schema", "barm.culture/2"},
                 {"name", answer.culture.name},
                 {"batches", batches},
                 {"differences", differences},
                 {"levain_age",
                  object({{"past_peak_h", answer.by_age.past.in(hour)},
                          {"later_h", answer.by_age.later.in(hour)},
                          {"p10_later_h", answer.by_age.low.in(hour)},
                          {"p90_later_h", answer.by_age.high.in(hour)},
                          {"typical_later_h", answer.by_age.typical.in(hour)},
                          {"doubt_left", answer.by_age.left},
                          {"words", answer.by_age.words}})},
                 {"done", answer.done}});
}

}  // namespace barm::service
