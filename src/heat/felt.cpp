#include "heat/felt.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/require.h"

namespace barm::heat {

namespace {

constexpr double cell = 1.0 / 30;  // h: the mean over two minutes stands for them
constexpr double longest = 400;    // h
constexpr double same = 1e-6;      // K
constexpr double growth = 1.25;    // of the bound, when there are too many steps

// The mean of the straight lines between readings over each cell up to the last reading.
class Cells {
 public:
  explicit Cells(std::span<const ProbeReading> readings) {
    const double end = readings.back().at.in(hour);
    require(std::isfinite(end) && end <= longest, "a logger's track ends within 400 h");
    const auto count = static_cast<std::size_t>(std::max(1.0, std::ceil(end / cell)));
    area_.assign(count, 0.0);
    double t = 0;
    double celsius = readings.front().temperature.celsius();
    for (const ProbeReading& reading : readings) {
      const double next = reading.at.in(hour);
      const double to = reading.temperature.celsius();
      require(std::isfinite(to), "a track is finite");
      line(t, next, celsius, to);
      t = std::max(t, next);
      celsius = to;
    }
    line(t, static_cast<double>(count) * cell, celsius, celsius);
  }

  [[nodiscard]] std::size_t size() const { return area_.size(); }

  [[nodiscard]] double celsius(std::size_t i) const { return area_[i] / cell; }

 private:
  // Adds what a straight line covers, cell by cell.
  void line(double begin, double end, double from, double to) {
    double t = begin;
    while (t < end) {
      const auto i = std::min(static_cast<std::size_t>(t / cell + 1e-9), area_.size() - 1);
      const double until =
          i + 1 < area_.size() ? std::min(end, static_cast<double>(i + 1) * cell) : end;
      const double middle = from + (to - from) * (0.5 * (t + until) - begin) / (end - begin);
      area_[i] += middle * (until - t);
      t = until;
    }
  }

  std::vector<double> area_;  // K h
};

// How far the dough is off after a cell.
double off_after(double off, double difference) {
  static const double kept = std::exp(-cell / time_constant);
  return difference + (off - difference) * kept;
}

// Makes steps from the left, each as long as the dough stays within the bound.
class Steps {
 public:
  Steps(const Cells& cells, double bound) : cells_(cells), bound_(bound) {
    sums_.push_back(0);
    for (std::size_t i = 0; i < cells.size(); ++i) sums_.push_back(sums_.back() + cells.celsius(i));
    while (from_ < cells_.size()) make_one();
  }

  [[nodiscard]] const std::vector<Segment>& segments() const { return segments_; }

  [[nodiscard]] double most_off() const { return most_off_; }

 private:
  struct Walk {
    double off = 0, most = 0;
  };

  // Twice as long as long as it may be, then half the difference until nothing is left.
  void make_one() {
    std::size_t good = from_ + 1;
    std::size_t bad = cells_.size() + 1;
    for (std::size_t length = 2; from_ + length <= cells_.size(); length *= 2) {
      if (!fits(from_ + length)) {
        bad = from_ + length;
        break;
      }
      good = from_ + length;
    }
    while (bad - good > 1) {
      const std::size_t middle = good + (bad - good) / 2;
      (fits(middle) ? good : bad) = middle;
    }
    const Walk walked = walk(good);
    segments_.push_back({static_cast<double>(from_) * cell, mean(good)});
    off_ = walked.off;
    most_off_ = std::max(most_off_, walked.most);
    from_ = good;
  }

  [[nodiscard]] bool fits(std::size_t until) const { return walk(until).most <= bound_; }

  [[nodiscard]] double mean(std::size_t until) const {
    return (sums_[until] - sums_[from_]) / static_cast<double>(until - from_);
  }

  [[nodiscard]] Walk walk(std::size_t until) const {
    const double celsius = mean(until);
    Walk walk{off_, 0};
    for (std::size_t i = from_; i < until; ++i) {
      walk.off = off_after(walk.off, cells_.celsius(i) - celsius);
      walk.most = std::max(walk.most, std::abs(walk.off));
    }
    return walk;
  }

  const Cells& cells_;
  double bound_;
  std::vector<double> sums_;
  std::size_t from_ = 0;
  double off_ = 0;
  double most_off_ = 0;
  std::vector<Segment> segments_;
};

}  // namespace

Felt felt_track(std::span<const ProbeReading> readings) {
  require(!readings.empty(), "a track needs a reading");
  const Cells cells(readings);
  for (double bound = well_felt;; bound *= growth) {
    const Steps steps(cells, bound);
    if (steps.segments().size() >= most_steps) continue;
    std::vector<Segment> segments = steps.segments();
    const double last = readings.back().temperature.celsius();
    const double end = static_cast<double>(cells.size()) * cell;
    if (std::abs(segments.back().celsius - last) > same) segments.push_back({end, last});
    return {Track::of(segments), steps.most_off()};
  }
}

double most_off(std::span<const ProbeReading> readings, const Track& track) {
  require(!readings.empty(), "a track needs a reading");
  const Cells cells(readings);
  double off = 0;
  double most = 0;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const double begin = static_cast<double>(i) * cell;
    const double steps = track.after(begin).mean_celsius(cell);
    off = off_after(off, cells.celsius(i) - steps);
    most = std::max(most, std::abs(off));
  }
  return most;
}

}  // namespace barm::heat
