#include "estimation/outlook.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "estimation/internal/curve.h"
#include "estimation/internal/learned_crowd.h"
#include "estimation/internal/seen.h"
#include "forecast/many.h"
#include "numerics/quantiles.h"
#include "numerics/random.h"

namespace barm::estimation {

namespace {

constexpr double every = 0.25;  // h between the points of bands and looks
constexpr double never = std::numeric_limits<double>::infinity();
constexpr double band_shares[] = {0.1, 0.5, 0.9};
constexpr double worth_a_look = 0.12;  // share of the range that a look must take away

// One draw's bulk.
struct Course {
  double ready = never, past = never;  // [h] on the clock
  std::vector<double> rise;            // every quarter of an hour on the clock
  double ln_mark = 0, drag = 1;        // of its jar

  // Height over the written mark that its jar would show.
  [[nodiscard]] double shown(std::size_t k) const {
    return std::exp(ln_mark) * (1 + drag * (rise[k] - 1));
  }
};

class Foresight {
 public:
  Foresight(const DoughToRead& batch,
            const Readings& readings,
            const Learned& learned,
            const LearnOptions& options)
      : batch_(batch),
        seen_(internal::seen_of(batch, readings)),
        learned_(learned),
        options_(options),
        horizon_(batch.bulk.horizon.in(hour)) {}

  Result<Outlook> see() {
    const auto error = run();
    if (error) return failure(*error);
    Outlook out;
    out.weight = learned_.weight;
    out.timeline = timeline_;
    out.horizon = batch_.bulk.horizon;
    out.target = batch_.bulk.target;
    out.now = seen_.last * hour;
    for (const Course& course : courses_) out.ready_hours.push_back(course.ready);
    std::vector<double> past;
    for (const Course& course : courses_) past.push_back(course.past);
    out.ready = timeline_.ready;
    out.past = spread(past);
    out.past_hours = std::move(past);
    out.never = share([](const Course& c) { return !std::isfinite(c.ready); });
    out.already = share([&](const Course& c) { return c.ready <= seen_.last; });
    set_band(out);
    set_window(out);
    set_next_look(out);
    return out;
  }

 private:
  std::optional<Error> run() {
    const std::size_t count = learned_.draws();
    const internal::LearnedCrowd doughs(batch_, seen_, learned_, options_.seed);
    courses_.resize(count);
    for (std::size_t i = 0; i < count; ++i) {
      courses_[i].ln_mark = doughs.world(i).ln_mark;
      courses_[i].drag = doughs.world(i).drag;
    }
    forecast::CrowdOptions how;
    how.proving = batch_.bulk;
    how.proving.accuracy = forecast::ManyOptions().proving.accuracy;
    how.proving.sample_every = every * hour;
    how.own_horizon = doughs.own_horizon();
    how.threads = options_.threads;
    how.cancelled = options_.cancelled;
    how.until_past = options_.until_past;
    how.wait = options_.wait;
    forecast::LeftInTheBulk left;
    auto timeline = forecast::timeline(batch_.plan, doughs.crowd(), how, &left);
    if (!timeline) return timeline.error();
    const auto points = static_cast<std::size_t>(horizon_ / every) + 1;
    for (std::size_t i = 0; i < count; ++i) {
      Course& course = courses_[i];
      course.ready = timeline->ready_hours[i];
      course.past = left.passed[i].peak;
      const internal::Curve rise(std::span(left.rise).subspan(i * left.samples, left.samples),
                                 every);
      for (std::size_t k = 0; k < points; ++k)
        course.rise.push_back(rise.at(doughs.pace(i).own(static_cast<double>(k) * every)).first);
    }
    timeline_ = std::move(*timeline);
    return std::nullopt;
  }

  [[nodiscard]] forecast::Spread spread(const std::vector<double>& values) const {
    const auto at = [&](double p) -> std::optional<Time> {
      const double h = numerics::weighted_quantile(values, learned_.weight, p);
      return std::isfinite(h) ? std::optional<Time>(h * hour) : std::nullopt;
    };
    return {at(0.05), at(0.10), at(0.50), at(0.90), at(0.95)};
  }

  template <class Condition>
  [[nodiscard]] Probability share(const Condition& holds) const {
    double sum = 0;
    for (std::size_t i = 0; i < courses_.size(); ++i) {
      if (holds(courses_[i])) sum += learned_.weight[i];
    }
    return Probability(std::clamp(sum, 0.0, 1.0));
  }

  void set_band(Outlook& out) const {
    const std::size_t points = courses_.front().rise.size();
    std::vector<double> at(courses_.size());
    for (std::size_t k = 0; k < points; ++k) {
      for (std::size_t i = 0; i < courses_.size(); ++i) at[i] = courses_[i].rise[k];
      const auto q = numerics::weighted_quantiles(at, learned_.weight, band_shares);
      out.band.push_back({static_cast<double>(k) * every, q[0], q[1], q[2]});
    }
    const auto now = std::min(points - 1, static_cast<std::size_t>(seen_.last / every));
    out.rise_now = out.band[now].p50;
  }

  // The dough is good from ready until past its best.
  void set_window(Outlook& out) const {
    double best = 0;
    std::optional<double> from;
    std::optional<double> until;
    for (double t = 0; t <= horizon_; t += every) {
      const double chance =
          share([&](const Course& c) { return c.ready <= t && t < c.past; }).value();
      if (chance > best) {
        best = chance;
        out.best_at = t * hour;
      }
      if (chance < 0.5) continue;
      if (!from) from = t;
      until = t;
    }
    out.best_chance = Probability(best);
    if (from) out.good_from = *from * hour;
    if (until) out.good_until = *until * hour;
  }

  // Variance of a height over the mark read in a quarter of an hour k: of Student's law, by a hand
  // that may be less careful than usual and looks a little early or late.
  [[nodiscard]] double error_of_a_look(std::size_t k, double mark) const {
    const Sample& sample = batch_.sample;
    const double one = sample.height_doubt / mark;
    const double tail = sample.tail / (sample.tail - 2);
    const double noise = std::exp(2 * sample.noise_doubt * sample.noise_doubt);
    double slope = 0;
    for (std::size_t i = 0; i < courses_.size(); ++i)
      slope += learned_.weight[i] * (courses_[i].shown(k) - courses_[i].shown(k - 1)) / every;
    const double late = slope * sample.time_doubt;
    return tail * noise * (one * one + late * late);
  }

  // What a height read at t would take from the range of the time to ready, by how the two go
  // together among the doughs that are not ready yet:  width_after = width sqrt(1 - rho^2).
  [[nodiscard]] double left_by_a_look(std::size_t k, double mark) const {
    double waiting = 0;
    double mean_t = 0;
    double mean_y = 0;
    const auto time = [&](const Course& c) { return std::log(std::min(c.ready, 1.5 * horizon_)); };
    const auto weight = [&](std::size_t i) {
      return courses_[i].ready > seen_.last ? learned_.weight[i] : 0;
    };
    for (std::size_t i = 0; i < courses_.size(); ++i) {
      waiting += weight(i);
      mean_t += weight(i) * time(courses_[i]);
      mean_y += weight(i) * courses_[i].shown(k);
    }
    if (!(waiting > 0)) return 1;
    mean_t /= waiting;
    mean_y /= waiting;
    double tt = 0;
    double yy = waiting * error_of_a_look(k, mark);
    double ty = 0;
    for (std::size_t i = 0; i < courses_.size(); ++i) {
      const double dt = time(courses_[i]) - mean_t;
      const double dy = courses_[i].shown(k) - mean_y;
      tt += weight(i) * dt * dt;
      yy += weight(i) * dy * dy;
      ty += weight(i) * dt * dy;
    }
    return tt > 0 ? std::sqrt(std::max(0.0, 1 - ty * ty / (tt * yy))) : 1;
  }

  void set_next_look(Outlook& out) const {
    // A dough that is more likely ready than not is to be used, not looked at.
    if (!out.ready.p10 || out.already.value() > 0.5) return;
    const double soonest = seen_.last + 2 * every;
    const double latest = std::max(soonest, out.ready.p10->in(hour));
    const double mark = seen_.start_mark > 0 ? seen_.start_mark : 40;
    double most = 1;
    std::vector<std::pair<double, double>> looks;
    for (double t = soonest; t <= latest; t += every) {
      const auto k = static_cast<std::size_t>(std::lround(t / every));
      if (k >= courses_.front().rise.size()) break;
      looks.emplace_back(t, left_by_a_look(k, mark));
      most = std::min(most, looks.back().second);
    }
    if (1 - most < worth_a_look) return;
    // The first look that gives most of what the best one would.
    for (const auto& [t, left] : looks) {
      if (1 - left < 0.7 * (1 - most)) continue;
      const double end = out.ready.p90 ? out.ready.p90->in(hour) : horizon_;
      const double width = end - out.ready.p10->in(hour);
      out.next = NextLook{t * hour, width, width * left};
      return;
    }
  }

  const DoughToRead& batch_;
  internal::Seen seen_;
  const Learned& learned_;
  const LearnOptions& options_;
  double horizon_;
  std::vector<Course> courses_;
  forecast::Timeline timeline_;
};

}  // namespace

Result<Outlook> outlook(const DoughToRead& batch,
                        const Readings& readings,
                        const Learned& learned,
                        const LearnOptions& options) {
  return Foresight(batch, readings, learned, options).see();
}

}  // namespace barm::estimation
