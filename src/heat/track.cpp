#include "heat/track.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/require.h"

namespace barm::heat {

namespace {

constexpr double at_once = 1e-6;  // h: two readings as near as this are a jump

// The segment that holds at that time.
std::size_t segment_at(std::span<const Segment> segments, double hours) {
  const auto after =
      std::upper_bound(segments.begin(), segments.end(), hours, [](double h, const Segment& s) {
        return h < s.from;
      });
  return after == segments.begin() ? 0 : static_cast<std::size_t>(after - segments.begin()) - 1;
}

// Walks the straight lines between readings and closes a step when it spans too much.
class Stepper {
 public:
  explicit Stepper(double step) : step_(step) {}

  void line(double t, double end, double from, double to) {
    while (t < end) {
      const double slope = (to - from) / (end - t);
      const double room = std::max(0.0, slope > 0 ? low_ + step_ - from : from - (high_ - step_));
      double until = end;
      if (std::abs(to - from) > room) until = std::min(end, t + room / std::abs(slope));
      const double at = until == end ? to : from + slope * (until - t);
      area_ += 0.5 * (from + at) * (until - t);
      low_ = std::min(low_, at);
      high_ = std::max(high_, at);
      t = until;
      from = at;
      if (t < end) close(t, from);
    }
  }

  // A step ends; the next one begins at this temperature.
  void close(double t, double celsius) {
    if (t > begin_) segments_.push_back({begin_, area_ / (t - begin_)});
    begin_ = t;
    area_ = 0;
    low_ = high_ = celsius;
  }

  // Whether so many degrees at once belong to another step.
  [[nodiscard]] bool leaps_to(double celsius) const {
    return celsius > low_ + step_ || celsius < high_ - step_;
  }

  std::vector<Segment> end(double celsius) {
    segments_.push_back({begin_, celsius});
    return std::move(segments_);
  }

 private:
  double step_;
  double begin_ = 0, area_ = 0;
  double low_ = 0, high_ = 0;
  std::vector<Segment> segments_;
};

}  // namespace

Track Track::through(std::span<const ProbeReading> readings, double step) {
  require(!readings.empty() && step > 0, "a track needs a reading and a step");
  Stepper stepper(step);
  double celsius = readings.front().temperature.celsius();
  double t = 0;
  stepper.close(0, celsius);
  for (const ProbeReading& reading : readings) {
    const double next = reading.at.in(hour);
    const double to = reading.temperature.celsius();
    require(std::isfinite(next) && std::isfinite(to), "a track is finite");
    if (next > t + at_once) {
      stepper.line(t, next, &reading == &readings.front() ? to : celsius, to);
      t = next;
    } else if (stepper.leaps_to(to)) {
      stepper.close(t, to);
    }
    celsius = to;
  }
  stepper.close(t, celsius);
  return of(stepper.end(celsius));
}

Track Track::of(std::vector<Segment> segments) {
  for (std::size_t i = 1; i < segments.size(); ++i)
    require(segments[i].from > segments[i - 1].from, "segments ascend in time");
  if (!segments.empty()) segments.front().from = 0;
  Track track;
  track.segments_ = std::move(segments);
  return track;
}

double Track::celsius_at(double hours) const {
  require(!empty(), "no temperature");
  return segments_[segment_at(segments_, hours)].celsius;
}

double Track::mean_celsius(double hours) const {
  require(!empty(), "no temperature");
  if (hours <= 0) return segments_.front().celsius;
  double area = 0;
  for (std::size_t i = 0; i < segments_.size() && segments_[i].from < hours; ++i) {
    const double end = i + 1 < segments_.size() ? std::min(hours, segments_[i + 1].from) : hours;
    area += (end - segments_[i].from) * segments_[i].celsius;
  }
  return area / hours;
}

Track Track::after(double hours) const {
  require(!empty(), "no temperature");
  std::vector<Segment> rest;
  for (std::size_t i = segment_at(segments_, hours); i < segments_.size(); ++i) {
    rest.push_back({std::max(0.0, segments_[i].from - hours), segments_[i].celsius});
  }
  return of(std::move(rest));
}

Track Track::then(double hours, const Track& other) const {
  if (empty() || hours <= 0) return other;
  std::vector<Segment> both;
  for (const Segment& segment : segments_) {
    if (segment.from < hours) both.push_back(segment);
  }
  for (const Segment& segment : other.segments_) {
    both.push_back({segment.from + hours, segment.celsius});
  }
  return of(std::move(both));
}

}  // namespace barm::heat
