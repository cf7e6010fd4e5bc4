#pragma once
// Batches of rival laws of growth, drawn once and kept (data/evidence/rival_batches.csv): a truth
// that does not move with the model it is held against.
#include <fmt/format.h>

#include <array>
#include <map>
#include <string>
#include <string_view>
#include <utility>

#include "support/batches.h"
#include "support/evidence_rows.h"

namespace barm::test {

/// How many numbers of BatchMaker were gone through when they were drawn.
inline constexpr std::uint64_t rivals_drawn_to = 600;

inline constexpr std::array<std::pair<Law, std::string_view>, 2> rival_laws{
    {{Law::gompertz, "gompertz"}, {Law::baranyi, "baranyi"}}};

using KeptRivals = std::map<std::uint64_t, SimulatedBatch>;

/// The table of rival_batches.csv: a line a reading.
inline std::string rivals_as_table(const BatchMaker& maker) {
  std::string out =
      "# Batches of doughs that rise by a rival law of growth, through points of our own model as "
      "it was when they were drawn, and what\n"
      "# a baker would have read of them. Drawn once, by `batches rivals`; kept, so that they stay "
      "the same whatever becomes of the model.\n"
      "# bake: which of the bakes of tests/support/batches.h; ready_h: when the bulk has doubled "
      "in truth; before_h: what the batch\n"
      "# before it took. A line a reading of the jar.\n"
      "batch,law,bake,ready_h,before_h,start_mark_mm,at_h,height_mm\n";
  for (std::uint64_t i = 1; i < rivals_drawn_to; i += 2) {
    const auto batch = maker.batch(i);
    if (!batch) continue;
    const auto& law = batch->law == Law::gompertz ? rival_laws[0] : rival_laws[1];
    for (const estimation::Reading& reading : batch->readings.rows)
      out += fmt::format("{},{},{},{:.9g},{:.9g},{:g},{:g},{:g}\n",
                         i,
                         law.second,
                         (i / 4) % simulated_bakes().size(),
                         batch->ready,
                         batch->before,
                         batch->readings.start_mark->in(millimetre),
                         reading.at.in(hour),
                         reading.height->in(millimetre));
  }
  return out;
}

namespace evidence {

inline SimulatedBatch begun_batch(const EvidenceTable& table, std::size_t row) {
  SimulatedBatch batch;
  const auto law = std::find_if(rival_laws.begin(), rival_laws.end(), [&](const auto& known) {
    return known.second == table.text(row, "law");
  });
  if (law == rival_laws.end())
    table.stop(row, "law is gompertz or baranyi, not '" + table.text(row, "law") + "'");
  const double bake = table.number(row, "bake").value_or(-1);
  if (bake < 0 || bake >= static_cast<double>(simulated_bakes().size()))
    table.stop(row, "there is no bake " + table.text(row, "bake"));
  batch.law = law->first;
  batch.bake = simulated_bakes()[static_cast<std::size_t>(bake)];
  forecast::Options options;
  options.horizon = 72.0 * hour;
  batch.bulk = forecast::proving_of(batch.bake, options);
  batch.ready = *table.number(row, "ready_h");
  batch.before = *table.number(row, "before_h");
  batch.readings.start_mark = *table.number(row, "start_mark_mm") * millimetre;
  return batch;
}

}  // namespace evidence

/// rival_batches.csv, by number of BatchMaker.
inline KeptRivals kept_rivals(std::string_view text, const std::string& file) {
  const EvidenceTable table(
      text,
      file,
      {"batch", "law", "bake", "ready_h", "before_h", "start_mark_mm", "at_h", "height_mm"});
  KeptRivals kept;
  for (std::size_t i = 0; i < table.size(); ++i) {
    for (const char* column :
         {"batch", "bake", "ready_h", "before_h", "start_mark_mm", "at_h", "height_mm"}) {
      if (!table.number(i, column)) table.stop(i, fmt::format("{} is not a number", column));
    }
    const auto number = static_cast<std::uint64_t>(*table.number(i, "batch"));
    auto found = kept.find(number);
    if (found == kept.end()) found = kept.emplace(number, evidence::begun_batch(table, i)).first;
    estimation::Reading reading;
    reading.at = *table.number(i, "at_h") * hour;
    reading.height = *table.number(i, "height_mm") * millimetre;
    found->second.readings.rows.push_back(reading);
  }
  return kept;
}

inline KeptRivals rivals_of_file(const std::string& path) {
  const std::size_t slash = path.find_last_of('/');
  return kept_rivals(evidence_text(path.substr(0, slash), path.substr(slash + 1)), path);
}

/// Own doughs made anew, rival ones as they were kept.
class WithKeptRivals {
 public:
  WithKeptRivals(std::uint64_t seed, KeptRivals kept) : maker_(seed), kept_(std::move(kept)) {}

  [[nodiscard]] std::optional<SimulatedBatch> batch(std::uint64_t i) const {
    if (i % 2 == 0) return maker_.batch(i);
    if (i >= rivals_drawn_to)
      throw std::runtime_error("no more rival batches are kept; ask for fewer");
    const auto found = kept_.find(i);
    if (found == kept_.end()) return std::nullopt;
    return found->second;
  }

 private:
  BatchMaker maker_;
  KeptRivals kept_;
};

}  // namespace barm::test
