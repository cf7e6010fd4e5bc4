#include "cli/chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/paper.h"

namespace barm::cli {

namespace {

constexpr int margin = 8;
constexpr int wide = sheet_width - margin - 1;
constexpr int tall = 12;

double last_hour(const forecast::Forecast& forecast) {
  const double horizon = forecast.horizon.in(hour);
  const double latest = forecast.ready.p90 ? forecast.ready.p90->in(hour) * 1.25 : horizon;
  return std::clamp(latest, 4.0, horizon);
}

const forecast::Band& at(const std::vector<forecast::Band>& band, double hours) {
  const auto later =
      std::lower_bound(band.begin(), band.end(), hours, [](const forecast::Band& point, double t) {
        return point.hours < t;
      });
  return later == band.end() ? band.back() : *later;
}

// Steps between marks of the time axis, such that they do not crowd.
double tick(double hours) {
  for (const double step : {1.0, 2.0, 3.0, 4.0, 6.0, 8.0, 12.0, 24.0}) {
    if (hours / step <= 7) return step;
  }
  return 48;
}

// The axis of time and its marks.
void add_axis(std::vector<std::string>& lines, double end, const time::WallClock& clock) {
  const double every = tick(end);
  std::string axis = right("└", margin);
  std::string labels(static_cast<std::size_t>(margin), ' ');
  int written = margin;
  for (int column = 0; column < wide; ++column) {
    const double from = end * (column - 0.5) / (wide - 1);
    const double to = end * (column + 0.5) / (wide - 1);
    const double mark = std::floor(to / every) * every;
    const bool here = mark >= from;
    axis += here ? "┴" : "─";
    if (!here) continue;
    const std::string label =
        clock.known() ? clock.short_moment(mark * hour) : fmt::format("{:.0f} h", mark);
    const int at_column = margin + column - columns(label) / 2;
    if (at_column <= written && written > margin) continue;
    if (at_column + columns(label) > sheet_width) continue;
    labels = padded(labels, std::max(at_column, margin - 1)) + label;
    written = columns(labels);
  }
  lines.push_back(axis);
  lines.push_back(labels);
}

// Whether a band covers a row of the chart, each row being `step` of volume ratio.
bool covers(const forecast::Band& band, int row, double step) {
  const double low = (band.p10 - 1) / step;
  const double high = (band.p90 - 1) / step;
  return row >= std::floor(low) && row <= std::ceil(high) && high - low > 0.25;
}

// The left margin of a row: its ratio, the target's, or a bare axis.
std::string margin_of(int row, double level, double target, double step) {
  if (std::abs(level - target) < step / 2) return right(fmt::format("{:.2g} ┼", target), margin);
  return row % 3 == 0 ? right(fmt::format("{:.1f} ┤", level), margin) : right("│", margin);
}

}  // namespace

std::vector<std::string> read_chart(const ReadChart& chart, const time::WallClock& clock) {
  if (chart.after.empty()) return {};
  const double end = chart.last_hour;
  double top = chart.target;
  for (const forecast::Band& point : chart.after) {
    if (point.hours <= end) top = std::max(top, point.p90);
  }
  for (const auto& reading : chart.readings) top = std::max(top, reading.second);
  top = std::max(1.5, std::ceil(2 * top) / 2);
  const double step = (top - 1) / tall;
  std::vector<std::vector<bool>> read(tall + 1,
                                      std::vector<bool>(static_cast<std::size_t>(wide), false));
  for (const auto& [hours, ratio] : chart.readings) {
    const auto row = std::lround((ratio - 1) / step);
    const auto column = std::lround(hours / end * (wide - 1));
    if (row >= 0 && row <= tall && column >= 0 && column < wide)
      read[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)] = true;
  }
  std::vector<std::string> lines;
  for (int row = tall; row >= 0; --row) {
    const double level = 1 + row * step;
    const bool target_here = std::abs(level - chart.target) < step / 2;
    std::string out = margin_of(row, level, chart.target, step);
    for (int column = 0; column < wide; ++column) {
      const double hours = end * column / (wide - 1);
      const forecast::Band& after = at(chart.after, hours);
      if (read[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)]) {
        out += "◆";
      } else if (static_cast<int>(std::lround((after.p50 - 1) / step)) == row) {
        out += "●";
      } else if (covers(after, row, step)) {
        out += "▒";
      } else if (covers(at(chart.before, hours), row, step)) {
        out += "·";
      } else {
        out += target_here ? "╌" : " ";
      }
    }
    lines.push_back(out);
  }
  add_axis(lines, end, clock);
  return lines;
}

std::vector<std::string> rise_chart(const forecast::Forecast& forecast,
                                    const time::WallClock& clock) {
  if (forecast.band.empty()) return {};
  const double end = last_hour(forecast);
  double top = forecast.target;
  for (const forecast::Band& point : forecast.band) {
    if (point.hours <= end) top = std::max(top, point.p90);
  }
  top = std::max(1.5, std::ceil(2 * top) / 2);
  const double step = (top - 1) / tall;

  std::vector<std::string> lines;
  for (int row = tall; row >= 0; --row) {
    const double level = 1 + row * step;
    const bool target_here = std::abs(level - forecast.target) < step / 2;
    std::string out = row % 3 == 0 || target_here ? right(fmt::format("{:.1f} ┤", level), margin)
                                                  : right("│", margin);
    if (target_here) out = right(fmt::format("{:.2g} ┼", forecast.target), margin);
    for (int column = 0; column < wide; ++column) {
      const forecast::Band& point = at(forecast.band, end * column / (wide - 1));
      const double low = (point.p10 - 1) / step;
      const double middle = (point.p50 - 1) / step;
      const double high = (point.p90 - 1) / step;
      const bool inside = row >= std::floor(low) && row <= std::ceil(high) && high - low > 0.25;
      if (static_cast<int>(std::lround(middle)) == row) {
        out += "●";
      } else if (inside) {
        out += "░";
      } else {
        out += target_here ? "╌" : " ";
      }
    }
    lines.push_back(out);
  }

  add_axis(lines, end, clock);
  return lines;
}

std::string window_ruler(const forecast::Spread& ready, const time::WallClock& clock, int width) {
  if (!ready.p10 || !ready.p50) return "";
  const std::string begin = clock.short_moment(*ready.p10);
  const std::string end = ready.p90 ? clock.short_moment(*ready.p90) : "never";
  const double from = ready.p10->in(hour);
  const double to = ready.p90 ? ready.p90->in(hour) : 2 * ready.p50->in(hour)-from;
  const double part = to > from ? (ready.p50->in(hour)-from) / (to - from) : 0.5;
  const int mark = std::clamp(static_cast<int>(std::lround(part * (width - 1))), 0, width - 1);
  std::string rule;
  for (int i = 0; i < width; ++i) rule += i == mark ? "●" : "─";
  return begin + " " + rule + " " + end;
}

}  // namespace barm::cli
