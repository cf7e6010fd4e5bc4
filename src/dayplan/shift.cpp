#include "dayplan/shift.h"

#include <algorithm>
#include <numeric>

#include "dayplan/busy.h"
#include "dayplan/due.h"
#include "dayplan/work.h"

namespace barm::dayplan {

namespace {

constexpr int slots[] = {24, -24, 12, -12, 6, -6, 3, -3, 1, -1};  // by which steps are shifted

bool may_lie(const Day& day, std::size_t b, const Course& course) {
  const Way& way = day.bakes[b].ways[course.way];
  for (std::size_t i = 0; i < way.steps.size(); ++i) {
    const Minutes at = course.begin[i];
    if (way.steps[i].begun) continue;
    if (at < 0 || next_open(day, way.steps[i], at) > at) return false;
    if (i > 0 && at < course.begin[i - 1] + way.steps[i - 1].minutes) return false;
  }
  return std::all_of(way.legs.begin(), way.legs.end(), [&](const Leg& leg) {
    if (leg.to < way.steps.size() && way.steps[leg.to].begun) return true;
    const auto apart =
        static_cast<float>(begin_of(day.bakes[b], course, leg.to) - course.begin[leg.from]);
    const std::size_t doughs = std::max(leg.ready.size(), leg.lasts.size());
    for (std::size_t k = 0; k < doughs; ++k) {
      const float ready = draw(leg.ready, k);
      if (apart >= ready && apart <= ready + draw(leg.lasts, k)) return true;
    }
    return false;
  });
}

class Shifter {
 public:
  Shifter(const Day& day,
          Plan plan,
          const std::vector<Pin>& pins,
          int tries,
          const std::function<void(double)>& progress)
      : day_(day),
        plan_(std::move(plan)),
        pins_(pins),
        most_tries_(tries),
        progress_(progress),
        counting_(day) {}

  void settle() {
    most_ = counting_.through(plan_);
    for (bool gained = true; gained && tries_ < most_tries_ && most_ < draws_of(day_);) {
      gained = false;
      for (const std::size_t b : worst_first()) gained = round_of(b) || gained;
    }
  }

  [[nodiscard]] const Plan& plan() const { return plan_; }

 private:
  [[nodiscard]] std::vector<std::size_t> worst_first() const {
    const Worked worked = work(day_, plan_);
    std::vector<std::size_t> out(plan_.size());
    std::iota(out.begin(), out.end(), std::size_t{0});
    std::stable_sort(out.begin(), out.end(), [&](std::size_t a, std::size_t b) {
      return worked.each[a].through < worked.each[b].through;
    });
    return out;
  }

  /// Whether anything was gained.
  bool round_of(std::size_t b) {
    bool gained = false;
    alone_ = through_alone(day_, b, plan_[b]);
    const std::size_t steps = plan_[b].begin.size();
    for (std::size_t first = 0; first < steps; ++first) {
      for (std::size_t last = first; last < steps && free(b, last); ++last) {
        for (const int by : slots) {
          if (tries_ >= most_tries_) return gained;
          gained = better(b, first, last, by * day_.grid) || gained;
        }
      }
    }
    return gained;
  }

  [[nodiscard]] bool free(std::size_t b, std::size_t step) const {
    if (way_of(day_, plan_, b).steps[step].begun) return false;
    return std::none_of(pins_.begin(), pins_.end(), [&](const Pin& pin) {
      return pin.at.bake == b && pin.at.step == step;
    });
  }

  bool better(std::size_t b, std::size_t first, std::size_t last, Minutes by) {
    const Course old = plan_[b];
    for (std::size_t i = first; i <= last; ++i) plan_[b].begin[i] += by;
    if (may_lie(day_, b, plan_[b]) && clashes(day_, plan_).empty()) {
      const std::size_t alone = through_alone(day_, b, plan_[b]);
      if (alone >= alone_ && more_go_well()) {
        alone_ = alone;
        return true;
      }
    }
    plan_[b] = old;
    return false;
  }

  bool more_go_well() {
    ++tries_;
    if (progress_) progress_(static_cast<double>(tries_) / most_tries_);
    const std::size_t now = counting_.through(plan_, most_);
    if (now <= most_) return false;
    most_ = now;
    return true;
  }

  const Day& day_;
  Plan plan_;
  const std::vector<Pin>& pins_;
  int most_tries_;
  const std::function<void(double)>& progress_;
  Counting counting_;
  std::size_t most_ = 0, alone_ = 0;
  int tries_ = 0;
};

}  // namespace

Plan shifted(const Day& day,
             const Plan& plan,
             const std::vector<Pin>& pins,
             int tries,
             const std::function<void(double)>& progress) {
  Shifter shifter(day, plan, pins, tries, progress);
  shifter.settle();
  return shifter.plan();
}

}  // namespace barm::dayplan
