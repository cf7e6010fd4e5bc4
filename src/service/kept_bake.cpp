#include "service/kept_bake.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/digest.h"
#include "estimation/belief.h"

namespace barm::service {

namespace {

constexpr int reckoning_version = 4;  // raised when the same bake and book would say something else

std::string cell(const std::optional<double>& value) {
  return value ? fmt::format(",{}", *value) : ",";
}

bool says_a_number(const storage::Reading& one) {
  return one.height_mm || one.edge_mm || one.dome_mm || one.ratio || one.sample_C || one.bulk_C ||
         one.room_C || one.ph;
}

template <class T>
Result<std::vector<T>> belonging(storage::Daybook& daybook, const std::string& owner) {
  storage::Query query;
  query.owner = owner;
  return daybook.list<T>(query);
}

// The numbers that every reckoning rests on.
const std::string& book() {
  static const std::string words = [] {
    std::string text = fmt::format("{}", reckoning_version);
    for (const kinetics::Prior& prior : kinetics::priors())
      text += fmt::format(" {} {}", prior.book, prior.doubt);
    const estimation::Belief day_one = estimation::day_one_belief();
    for (const auto* numbers : {&day_one.mean, &day_one.covariance}) {
      for (const double number : *numbers) text += fmt::format(" {}", number);
    }
    return digest(text);
  }();
  return words;
}

}  // namespace

std::string readings_table(const std::vector<storage::Reading>& readings, storage::Moment mixed) {
  std::vector<const storage::Reading*> in_time;
  for (const storage::Reading& one : readings) {
    if (says_a_number(one)) in_time.push_back(&one);
  }
  std::stable_sort(
      in_time.begin(), in_time.end(), [](const auto* a, const auto* b) { return a->at < b->at; });
  std::string text = "hours,edge [mm],dome [mm],ratio,sample [C],bulk [C],room [C],pH\n";
  for (const storage::Reading* one : in_time) {
    text += fmt::format("{:.5f}", static_cast<double>(one->at.seconds - mixed.seconds) / 3600);
    text += cell(one->height_mm ? one->height_mm : one->edge_mm);
    // A height is a mean already: the dome beside it says nothing more.
    text += cell(one->height_mm ? std::nullopt : one->dome_mm);
    for (const auto& value : {one->ratio, one->sample_C, one->bulk_C, one->room_C, one->ph})
      text += cell(value);
    text += '\n';
  }
  return text;
}

estimation::Readings readings_of(const std::vector<storage::Reading>& readings,
                                 storage::Moment mixed) {
  if (std::none_of(readings.begin(), readings.end(), says_a_number)) return {};
  auto parsed = estimation::parse_readings(
      readings_table(readings, mixed), "readings", {.keep_good_rows = true});
  if (parsed) return std::move(*parsed);
  estimation::Readings none;
  none.left_out.push_back(parsed.error());
  return none;
}

Result<KeptBake> kept_bake(storage::Daybook& daybook, storage::Bake record) {
  auto marks = belonging<storage::Mark>(daybook, record.id);
  if (!marks) return failure(marks);
  auto readings = belonging<storage::Reading>(daybook, record.id);
  if (!readings) return failure(readings);
  return KeptBake{std::move(record), std::move(*marks), std::move(*readings)};
}

std::string made_from(const KeptBake& bake, const Now& now) {
  std::string text = book() + '\n';
  if (bake.record.mixed_at) {
    text += now.zone.local(*bake.record.mixed_at).text() + '\n';
    text += readings_table(bake.readings, *bake.record.mixed_at);
  }
  for (const storage::Mark& mark : bake.marks) {
    if (mark.poured_g) text += fmt::format("{} {} {}\n", mark.what, mark.of, *mark.poured_g);
  }
  return text + bake.record.toml;
}

}  // namespace barm::service
