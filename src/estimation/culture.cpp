#include "estimation/culture.h"

#include <fmt/format.h>

#include <algorithm>

namespace barm::estimation {

void put(Culture& culture, BatchLesson lesson) {
  const auto same = std::find_if(culture.batches.begin(),
                                 culture.batches.end(),
                                 [&](const auto& b) { return b.batch == lesson.batch; });
  if (same != culture.batches.end())
    *same = std::move(lesson);
  else
    culture.batches.push_back(std::move(lesson));
}

Result<Culture> without(const Culture& culture, const std::string& batch) {
  Culture rest{culture.name, {}};
  std::string names;
  for (const BatchLesson& lesson : culture.batches) {
    names += (names.empty() ? "" : ", ") + lesson.batch;
    if (lesson.batch != batch) rest.batches.push_back(lesson);
  }
  if (rest.batches.size() < culture.batches.size()) return rest;
  return failure(
      ErrorCode::not_found,
      culture.name,
      fmt::format(
          "it remembers no batch '{}'. There are: {}", batch, names.empty() ? "none" : names));
}

Result<Culture> relearned(const Culture& culture,
                          const std::function<Result<BatchLesson>(const BatchLesson&)>& learn_one,
                          const std::function<void(double)>& progress,
                          const std::function<bool()>& cancelled) {
  Culture out{culture.name, {}};
  for (const BatchLesson& old : culture.batches) {
    if (cancelled && cancelled()) return failure(ErrorCode::cancelled, "", "stopped");
    auto lesson = learn_one(old);
    if (!lesson) return failure(lesson);
    out.batches.push_back(std::move(*lesson));
    if (progress)
      progress(static_cast<double>(out.batches.size()) /
               static_cast<double>(culture.batches.size()));
  }
  return out;
}

}  // namespace barm::estimation
