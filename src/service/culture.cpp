#include "service/culture.h"

#include <fmt/format.h>

#include <chrono>
#include <cstdio>
#include <nlohmann/json.hpp>

namespace barm::service {

namespace {

// Only the middle of the draws is kept of a lesson.
constexpr int draws_of_a_lesson = 500;
constexpr double enough_of_them = 80;

// Days since 1970-01-01 of "2026-11-28T07:00"; 0 without a date.
double day_of(const std::string& local) {
  int year = 0;
  unsigned month = 0;
  unsigned day = 0;
  int hours = 0;
  int minutes = 0;
  const int read =
      std::sscanf(local.c_str(), "%4d-%2u-%2uT%2d:%2d", &year, &month, &day, &hours, &minutes);
  if (read < 3) return 0;
  const std::chrono::year_month_day ymd{
      std::chrono::year{year}, std::chrono::month{month}, std::chrono::day{day}};
  if (!ymd.ok()) return 0;
  return static_cast<double>(std::chrono::sys_days{ymd}.time_since_epoch().count()) + hours / 24.0 +
         minutes / 1440.0;
}

}  // namespace

std::string date_of(double day) {
  if (day <= 0) return "";
  const std::chrono::year_month_day ymd{
      std::chrono::sys_days{std::chrono::days{static_cast<long>(day)}}};
  return fmt::format("{:04d}-{:02d}-{:02d}",
                     static_cast<int>(ymd.year()),
                     static_cast<unsigned>(ymd.month()),
                     static_cast<unsigned>(ymd.day()));
}

CultureAnswer shown(estimation::Culture culture) {
  CultureAnswer answer;
  answer.differences = estimation::differences(culture);
  answer.culture = std::move(culture);
  return answer;
}

Result<CultureAnswer> show_culture(const std::string& path) {
  auto culture = estimation::read_culture(path);
  if (!culture) return failure(culture);
  return shown(std::move(*culture));
}

Result<estimation::BatchLesson> lesson(const std::string& bake_path,
                                       const ReadRequest& request,
                                       const std::string& batch,
                                       const forecast::Options& options) {
  const auto bake = formula::read_bake(bake_path);
  if (!bake) return failure(bake);
  const auto readings = readings_of(*bake, request);
  if (!readings) return failure(readings);
  if (readings->heights() == 0)
    return failure(
        ErrorCode::bad_input, request.file, "no height was read: there is nothing to learn");
  auto prepared = batch_of(*bake, estimation::belief_of(*options.prior), *readings, options);
  if (!prepared) return failure(prepared);
  estimation::widen(*prepared, estimation::suspicions(*readings));
  estimation::LearnOptions learning;
  learning.draws = draws_of_a_lesson;
  learning.least_effective = enough_of_them;
  learning.seed = options.seed;
  learning.threads = options.threads;
  learning.cancelled = options.cancelled;
  const auto learned = estimation::learn(*prepared, *readings, learning);
  if (!learned) return failure(learned);
  const double day = day_of(bake->mixed_at.value_or(""));
  const std::string own = day > 0 ? bake->name + ", " + date_of(day) : bake->name;
  auto out = estimation::lesson_of(*prepared, *learned, batch.empty() ? own : batch, day);
  out.readings = static_cast<int>(readings->heights());
  out.bake = bake_path;
  out.readings_file = request.file;
  out.zone = request.zone;
  return out;
}

Result<CultureAnswer> learn_culture(estimation::Culture culture,
                                    const std::string& bake_path,
                                    const ReadRequest& request,
                                    const std::string& batch,
                                    const forecast::Options& options) {
  auto one = lesson(bake_path, request, batch, options);
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
    ReadRequest request;
    request.file = old.readings_file;
    request.zone = old.zone;
    auto learned = lesson(old.bake, request, old.batch, options);
    if (learned) learned->day = old.day;
    return learned;
  };
  auto anew = estimation::relearned(culture, again, progress, options.cancelled);
  if (!anew) return failure(anew);
  CultureAnswer answer = shown(std::move(*anew));
  answer.done = fmt::format("{} batches learned anew", culture.batches.size());
  return answer;
}

nlohmann::json to_json(const CultureAnswer& answer) {
  nlohmann::json differences = nlohmann::json::array();
  for (const estimation::Difference& d : answer.differences) {
    differences.push_back({{"about", d.about},
                           {"over_the_book", d.factor},
                           {"p10_over_the_book", d.low},
                           {"p90_over_the_book", d.high},
                           {"doubt_left", d.left},
                           {"between_batches_ln_sd", d.between},
                           {"words", d.words}});
  }
  nlohmann::json batches = nlohmann::json::array();
  for (const estimation::BatchLesson& b : answer.culture.batches) {
    batches.push_back({{"name", b.batch},
                       {"date", date_of(b.day)},
                       {"readings", b.readings},
                       {"bake", b.bake},
                       {"readings_file", b.readings_file}});
  }
  return {{"schema", "barm.culture/1"},
          {"name", answer.culture.name},
          {"batches", batches},
          {"differences", differences},
          {"done", answer.done}};
}

}  // namespace barm::service
