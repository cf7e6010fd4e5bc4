#include "service/daybook/kept_bake.h"

#include <fmt/format.h>

#include <algorithm>

#include "forecast/oven_stages.h"
#include "service/answers_digest.h"
#include "service/bake/head.h"

namespace barm::service {

namespace {

std::string cell(const std::optional<double>& value) {
  return value ? fmt::format(",{}", *value) : ",";
}

bool says_a_number(const storage::ReadingRecord& one) {
  return one.height_mm || one.edge_mm || one.dome_mm || one.ratio || one.sample_C || one.bulk_C ||
         one.room_C || one.ph;
}

// What it says as the estimation takes it. A height is a mean already: what is written of edge and
// dome beside it says nothing more; these two make one, half the cap of the dome.
estimation::Reading typed(const storage::ReadingRecord& one, time::Instant mixed) {
  estimation::Reading row;
  row.at = one.at - mixed;
  const auto& edge = one.edge_mm;
  const auto& dome = one.dome_mm;
  const auto height = one.height_mm  ? one.height_mm
                      : edge && dome ? std::optional(0.5 * (*edge + std::max(*edge, *dome)))
                      : edge         ? edge
                                     : dome;
  if (height) row.height = *height * millimetre;
  row.ratio = one.ratio;
  const auto warmth = [](const std::optional<double>& celsius) {
    return celsius ? std::optional(Temperature::from_celsius(*celsius)) : std::nullopt;
  };
  row.sample = warmth(one.sample_C);
  row.bulk = warmth(one.bulk_C);
  row.room = warmth(one.room_C);
  row.ph = one.ph;
  row.remark = one.remark;
  return row;
}

// What it ticks off; the oven stands in no file's stages and goes by its name, and by its load,
// which is the first where nothing is said.
std::optional<std::size_t> ticked_stage(const storage::Mark& mark) {
  const int load = static_cast<int>(std::clamp<std::int64_t>(mark.stage.value_or(1), 1, 1000));
  if (mark.what == name(forecast::Act::into_the_oven)) return forecast::went_in(load);
  if (mark.what == name(forecast::Act::out_of_the_oven)) return forecast::came_out(load);
  if (mark.what == "weigh" || !mark.stage || *mark.stage < 0) return std::nullopt;
  return static_cast<std::size_t>(*mark.stage);
}

template <class T>
Result<std::vector<T>> belonging(storage::Daybook& daybook, const std::string& owner) {
  storage::Query query;
  query.owner = owner;
  return daybook.list<T>(query);
}

}  // namespace

std::string readings_table(const std::vector<storage::ReadingRecord>& readings,
                           time::Instant mixed) {
  std::vector<const storage::ReadingRecord*> in_time;
  for (const storage::ReadingRecord& one : readings) {
    if (says_a_number(one)) in_time.push_back(&one);
  }
  std::stable_sort(
      in_time.begin(), in_time.end(), [](const auto* a, const auto* b) { return a->at < b->at; });
  std::string text = "hours,edge [mm],dome [mm],ratio,sample [C],bulk [C],room [C],pH\n";
  for (const storage::ReadingRecord* one : in_time) {
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

std::vector<estimation::Reading> rows_of(const std::vector<storage::ReadingRecord>& readings,
                                         time::Instant mixed) {
  std::vector<estimation::Reading> rows;
  for (const storage::ReadingRecord& one : readings) {
    if (says_a_number(one)) rows.push_back(typed(one, mixed));
  }
  return rows;
}

estimation::Readings readings_of(const std::vector<storage::ReadingRecord>& readings,
                                 time::Instant mixed) {
  return estimation::readings_from(rows_of(readings, mixed), {});
}

std::vector<forecast::Done> done_of(const KeptBake& bake) {
  std::vector<forecast::Done> done;
  const std::string& state = bake.record.state;
  if (!bake.record.mixed_at || state == "draft" || state == "planned") return done;
  for (const storage::Mark& mark : bake.marks) {
    const auto stage = ticked_stage(mark);
    if (!stage) continue;
    const Time at = mark.at - *bake.record.mixed_at;
    done.push_back({*stage, std::max(Time{}, at)});
  }
  return done;
}

std::optional<Time> age_of(const storage::Bake& bake, const Now& now) {
  if (bake.state != "live" || !bake.mixed_at) return std::nullopt;
  return now.at - *bake.mixed_at;
}

Batch batch_of(const KeptBake& kept, formula::Bake bake, Begun start, const Now& now) {
  Batch out;
  out.clock = clock_of(bake);
  out.bake = std::move(bake);
  out.start = std::move(start);
  out.now = age_of(kept.record, now);
  if (out.now) out.ticked = done_of(kept);
  if (kept.record.mixed_at) out.readings = readings_of(kept.readings, *kept.record.mixed_at);
  return out;
}

Result<KeptBake> kept_bake(storage::Daybook& daybook, storage::Bake record) {
  auto marks = belonging<storage::Mark>(daybook, record.id);
  if (!marks) return failure(marks);
  auto readings = belonging<storage::ReadingRecord>(daybook, record.id);
  if (!readings) return failure(readings);
  auto house = house_of(daybook);
  if (!house) return failure(house);
  return KeptBake{std::move(record), std::move(*marks), std::move(*readings), std::move(*house)};
}

std::string made_from(const KeptBake& bake) {
  std::string text = std::string(answers_digest()) + '\n';
  if (bake.record.mixed_at) {
    text += bake.record.mixed_at->text() + '\n';
    text += readings_table(bake.readings, *bake.record.mixed_at);
  }
  for (const storage::Mark& mark : bake.marks) {
    if (const auto stage = ticked_stage(mark))
      text += fmt::format("{} {} {}\n", mark.what, *stage, mark.at.text());
    if (mark.poured_g) text += fmt::format("{} {} {}\n", mark.what, mark.of, *mark.poured_g);
  }
  return text + bake.record.toml;
}

std::string stages_made_from(const KeptBake& bake) {
  std::string text = made_from(bake) + bake.record.state;
  for (const storage::Equipment& one : bake.house) {
    if (one.what == "oven") text += fmt::format("\n{}\n{}", one.title, one.toml);
  }
  return text;
}

}  // namespace barm::service
