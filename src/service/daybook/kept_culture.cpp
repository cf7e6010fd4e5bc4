#include "service/daybook/kept_culture.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/digest.h"
#include "service/daybook/daybook.h"
#include "service/daybook/kept_bake.h"
#include "service/internal/object.h"

namespace barm::service {

using internal::object;
using nlohmann::json;
using storage::Daybook;

namespace {

constexpr int fewest_heights = 2;  // the mark and one look
constexpr const char* lesson_name = "lesson";

// What was learned from a bake, or why nothing can be; no lesson and no trouble: not read enough.
struct Heard {
  std::optional<estimation::BatchLesson> lesson;
  std::vector<std::string> words;
  std::string trouble;
};

std::string written(const Heard& heard) {
  json out = object({{"words", heard.words}, {"trouble", heard.trouble}});
  if (heard.lesson) out["lesson"] = estimation::to_toml({"", {*heard.lesson}});
  return out.dump();
}

// Nothing for what this program did not write.
std::optional<Heard> heard_in(const std::string& text) {
  const json kept = json::parse(text, nullptr, false);
  if (!kept.is_object() || !kept.contains("words") || !kept.contains("trouble"))
    return std::nullopt;
  Heard heard;
  heard.words = kept["words"].get<std::vector<std::string>>();
  heard.trouble = kept["trouble"].get<std::string>();
  if (!kept.contains("lesson")) return heard;
  const auto culture = estimation::parse_culture(kept["lesson"].get<std::string>(), lesson_name);
  if (!culture || culture->batches.size() != 1) return std::nullopt;
  heard.lesson = culture->batches.front();
  return heard;
}

Result<Heard> learn(const KeptBake& kept, const Now& now, const Asking& asking) {
  const auto troubled = [](const Error& error) { return Heard{std::nullopt, {}, error.text()}; };
  auto bake = stored_bake(kept.record, kept.marks, kept.house, now);
  if (!bake) return troubled(bake.error());
  const Batch batch = batch_of(kept, *std::move(bake), Begun(), now);
  if (batch.readings.heights() < fewest_heights) return Heard{};
  forecast::Options options;
  options.threads = asking.threads;
  options.cancelled = asking.cancelled;
  auto learned = taught(batch, kept.record.id, options);
  if (learned) return Heard{std::move(learned->lesson), std::move(learned->words), ""};
  if (learned.error().code == ErrorCode::cancelled) return failure(learned);
  return troubled(learned.error());
}

Result<Heard> heard_of(Daybook& daybook,
                       const KeptBake& bake,
                       const Now& now,
                       const Asking& asking) {
  const std::string from = digest(made_from(bake));
  if (!asking.anew) {
    const auto kept = daybook.worked_out(bake.record.id, lesson_name, from);
    if (!kept) return failure(kept);
    if (*kept) {
      if (auto heard = heard_in(**kept)) return std::move(*heard);
    }
  }
  auto heard = learn(bake, now, asking);
  // Where it cannot be kept it is only slower the next time.
  if (heard) (void)daybook.keep_worked_out(bake.record.id, lesson_name, from, written(*heard));
  return heard;
}

bool may_teach(const storage::BakeLine& line) {
  const std::string& state = line.bake.state;
  return line.readings >= fewest_heights && line.bake.mixed_at && state != "draft" &&
         state != "planned";
}

// Its lessons so far: the batches that are no bakes of the daybook.
Result<estimation::Culture> memory_of(const storage::Culture& record) {
  if (record.memory.empty()) return estimation::Culture{record.title, {}};
  auto culture = estimation::parse_culture(record.memory, "memory of " + record.title);
  if (culture) culture->name = record.title;
  return culture;
}

bool is_left_out(const storage::Culture& record, const std::string& bake) {
  return std::find(record.left_out.begin(), record.left_out.end(), bake) != record.left_out.end();
}

KeptBatch kept_batch_of(const storage::Bake& record, const Heard& heard, bool left_out) {
  KeptBatch batch;
  batch.bake = record.id;
  batch.title = record.title;
  batch.mixed_at = *record.mixed_at;
  batch.left_out = left_out;
  if (heard.lesson) {
    batch.readings = heard.lesson->readings;
    batch.levain_past_peak_h = heard.lesson->levain_age_h;
  }
  batch.taught = heard.words;
  batch.trouble = heard.trouble;
  return batch;
}

}  // namespace

Result<KeptCulture> kept_culture(Daybook& daybook,
                                 const storage::Culture& culture_record,
                                 const Now& now,
                                 const Asking& asking) {
  auto culture = memory_of(culture_record);
  if (!culture) return failure(culture);
  KeptCulture kept{culture_record, std::move(*culture), {}};
  storage::Query of_culture;
  of_culture.owner = culture_record.id;
  const auto lines = daybook.list_bakes(of_culture);
  if (!lines) return failure(lines);
  double done = 0;
  for (const storage::BakeLine& line : *lines) {
    if (asking.cancelled && asking.cancelled()) return failure(ErrorCode::cancelled, "", "stopped");
    if (asking.progress) asking.progress(done++ / static_cast<double>(lines->size()));
    if (line.bake.id == asking.but || !may_teach(line)) continue;
    auto record = daybook.get<storage::Bake>(line.bake.id);
    if (!record) return failure(record);
    const auto bake = kept_bake(daybook, std::move(*record));
    if (!bake) return failure(bake);
    auto heard = heard_of(daybook, *bake, now, asking);
    if (!heard) return failure(heard);
    if (!heard->lesson && heard->trouble.empty()) continue;
    const bool left_out = is_left_out(culture_record, line.bake.id);
    kept.batches.push_back(kept_batch_of(bake->record, *heard, left_out));
    if (heard->lesson && !left_out) estimation::put(kept.culture, std::move(*heard->lesson));
  }
  return kept;
}

Result<storage::Culture> find_culture(Daybook& daybook, const std::string& words) {
  auto by_id = daybook.get<storage::Culture>(words);
  if (by_id || by_id.error().code != ErrorCode::not_found) return by_id;
  const auto all = daybook.list<storage::Culture>();
  if (!all) return failure(all);
  std::vector<storage::Culture> found;
  std::string names;
  for (const storage::Culture& one : *all) {
    names += (names.empty() ? "" : ", ") + one.title;
    if (one.title == words) return one;
    if (one.title.find(words) != std::string::npos) found.push_back(one);
  }
  if (found.size() == 1) return found.front();
  return failure(found.empty() ? ErrorCode::not_found : ErrorCode::bad_input,
                 words,
                 fmt::format("{} of the daybook; there are: {}",
                             found.empty() ? "is no culture" : "is more than one culture",
                             names.empty() ? "none" : names));
}

Result<storage::Culture> leave_out(Daybook& daybook,
                                   storage::Culture culture,
                                   const storage::Bake& bake,
                                   bool out,
                                   const Now& now) {
  if (bake.culture != culture.id)
    return failure(
        ErrorCode::not_found, bake.title, fmt::format("is no bake of {}", culture.title));
  std::erase(culture.left_out, bake.id);
  if (out) culture.left_out.push_back(bake.id);
  return daybook.save(std::move(culture), now.at);
}

Result<Begun> begun_for(Daybook& daybook,
                        const storage::Bake& record,
                        const formula::Bake& bake,
                        const Now& now,
                        Asking asking) {
  if (!record.culture) return Begun();
  asking.but = record.id;
  const auto culture = daybook.get<storage::Culture>(*record.culture);
  if (!culture) return failure(culture);
  const auto kept = kept_culture(daybook, *culture, now, asking);
  if (!kept) return failure(kept);
  return begun_from(kept->culture, bake);
}

std::vector<estimation::BatchLesson> from_elsewhere(const KeptCulture& kept) {
  std::vector<estimation::BatchLesson> out;
  for (const estimation::BatchLesson& one : kept.culture.batches) {
    const bool here = std::any_of(kept.batches.begin(),
                                  kept.batches.end(),
                                  [&](const KeptBatch& batch) { return batch.bake == one.batch; });
    if (!here) out.push_back(one);
  }
  return out;
}

json to_json(const KeptCulture& kept) {
  const CultureAnswer said = shown(kept.culture);
  json out = to_json(said);
  out["schema"] = "barm.culture_memory/1";
  out["id"] = kept.record.id;
  out["revision"] = kept.record.revision;
  out.erase("done");
  json batches = json::array();
  for (const KeptBatch& batch : kept.batches) {
    batches.push_back(object({{"bake", batch.bake},
                              {"title", batch.title},
                              {"mixed_at", batch.mixed_at.text()},
                              {"readings", batch.readings},
                              {"left_out", batch.left_out},
                              {"levain_past_peak_h",
                               batch.levain_past_peak_h ? json(*batch.levain_past_peak_h) : json()},
                              {"taught", batch.taught},
                              {"trouble", batch.trouble}}));
  }
  out["batches"] = batches;
  out["from_elsewhere"] = json::array();
  for (const estimation::BatchLesson& one : from_elsewhere(kept)) {
    out["from_elsewhere"].push_back(
        object({{"name", one.batch}, {"date", date_of(one.day)}, {"readings", one.readings}}));
  }
  return out;
}

}  // namespace barm::service
