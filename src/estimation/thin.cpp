#include "estimation/internal/thin.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace barm::estimation::internal {

namespace {

constexpr std::size_t by_hand = 60;  // rows
constexpr std::size_t stretches = 40;

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

double mean(const std::vector<double>& values) {
  double sum = 0;
  for (const double v : values) sum += v;
  return sum / static_cast<double>(values.size());
}

Reading summed_up(const std::vector<Reading>& rows) {
  std::vector<double> at;
  std::vector<double> height;
  std::vector<double> ratio;
  std::vector<double> sample;
  std::vector<double> bulk;
  std::vector<double> room;
  std::vector<double> ph;
  Reading out;
  for (const Reading& row : rows) {
    at.push_back(row.at.in(hour));
    if (row.height) height.push_back(row.height->in(millimetre));
    if (row.ratio) ratio.push_back(*row.ratio);
    if (row.sample) sample.push_back(row.sample->celsius());
    if (row.bulk) bulk.push_back(row.bulk->celsius());
    if (row.room) room.push_back(row.room->celsius());
    if (row.ph) ph.push_back(*row.ph);
    if (!row.remark.empty()) out.remark += (out.remark.empty() ? "" : "; ") + row.remark;
  }
  const auto warmth = [](const std::vector<double>& values) {
    return values.empty() ? std::nullopt : std::optional(Temperature::from_celsius(mean(values)));
  };
  out.at = mean(at) * hour;
  if (!height.empty()) out.height = median(height) * millimetre;
  if (!ratio.empty()) out.ratio = median(ratio);
  out.sample = warmth(sample);
  out.bulk = warmth(bulk);
  out.room = warmth(room);
  if (!ph.empty()) out.ph = mean(ph);
  out.ph_doubt = rows.front().ph_doubt;
  out.heights = static_cast<int>(std::max({std::size_t{1}, height.size(), ratio.size()}));
  out.line = rows.front().line;
  return out;
}

}  // namespace

void thin(Readings& readings) {
  const std::size_t before = readings.rows.size();
  if (before <= by_hand) return;
  const double first = readings.rows.front().at.in(hour);
  const double length = (readings.last_hour() - first) / static_cast<double>(stretches);
  std::vector<Reading> out;
  std::vector<Reading> together;
  std::size_t stretch = 0;
  for (const Reading& row : readings.rows) {
    // The last row of all ends the last stretch.
    const auto own =
        length > 0
            ? std::min(stretches - 1, static_cast<std::size_t>((row.at.in(hour)-first) / length))
            : 0;
    if (own != stretch && !together.empty()) {
      out.push_back(summed_up(together));
      together.clear();
    }
    stretch = own;
    together.push_back(row);
  }
  out.push_back(summed_up(together));
  readings.logged = std::exchange(readings.rows, std::move(out));
  readings.notes.push_back(
      fmt::format("{} rows of the logger summed up in {} stretches of {:.0f} min",
                  before,
                  readings.rows.size(),
                  length * 60));
}

}  // namespace barm::estimation::internal
