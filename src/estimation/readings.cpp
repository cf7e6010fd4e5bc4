#include "estimation/readings.h"

#include <fmt/format.h>

#include <algorithm>

#include "estimation/internal/cells.h"
#include "estimation/internal/thin.h"

namespace barm::estimation {

namespace {

// Leaves out what cannot be, each number by itself.
void keep_what_can_be(Reading& row, std::vector<Error>& left_out) {
  const std::string where = fmt::format("reading at {}", internal::in_hours(row.at));
  const auto keep = [&](auto& value, double number, Readable range, const char* what) {
    const auto wrong = internal::outside(number, range, what);
    if (!wrong) return;
    left_out.push_back({ErrorCode::bad_input, where, *wrong});
    value.reset();
  };
  if (row.height)
    keep(row.height, row.height->in(millimetre), readable_height_mm, internal::a_height);
  if (row.ratio) keep(row.ratio, *row.ratio, readable_ratio, internal::a_ratio);
  for (auto* const warmth : {&row.sample, &row.bulk, &row.room}) {
    if (*warmth) keep(*warmth, (*warmth)->celsius(), readable_warmth_C, internal::a_warmth);
  }
  if (row.ph) keep(row.ph, *row.ph, readable_ph, internal::a_ph);
}

}  // namespace

void internal::find_mark(Readings& readings, const ReadingOptions& options) {
  if (options.start_mark) {
    readings.start_mark = options.start_mark;
    return;
  }
  // Where rows were summed up, by what they were.
  for (const Reading& row : readings.logged.empty() ? readings.rows : readings.logged) {
    if (row.at.in(hour) > at_the_start) return;
    if (!row.height) continue;
    readings.start_mark = row.height;
    return;
  }
}

Readings readings_from(std::vector<Reading> rows, const ReadingOptions& options) {
  Readings readings;
  std::stable_sort(
      rows.begin(), rows.end(), [](const Reading& a, const Reading& b) { return a.at < b.at; });
  readings.rows_in_file = rows.size();
  for (Reading& row : rows) {
    if (const auto wrong = internal::wrong_time(row.at, Time{})) {
      readings.left_out.push_back({ErrorCode::bad_input, "reading", *wrong});
      continue;
    }
    keep_what_can_be(row, readings.left_out);
    if (row.height || row.ratio || row.sample || row.bulk || row.room || row.ph)
      readings.rows.push_back(std::move(row));
  }
  internal::find_mark(readings, options);
  internal::thin(readings);
  return readings;
}

double Readings::last_hour() const { return rows.empty() ? 0 : rows.back().at.in(hour); }

std::size_t Readings::heights() const {
  return static_cast<std::size_t>(std::count_if(
      rows.begin(), rows.end(), [](const Reading& row) { return row.height || row.ratio; }));
}

}  // namespace barm::estimation
