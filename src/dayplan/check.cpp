#include "dayplan/check.h"

#include <algorithm>
#include <map>

namespace barm::dayplan {

namespace {

using Kind = Fault::Kind;

/// Who holds how much of one resource in each minute.
using Held = std::map<Minutes, std::vector<std::pair<At, int>>>;

class Checker {
 public:
  Checker(const Day& day, const Plan& plan) : day_(day), plan_(plan) {}

  std::vector<Fault> all() {
    if (plan_.size() != day_.bakes.size()) add(Kind::no_course, {});
    for (std::size_t bake = 0; bake < plan_.size() && faults_.empty(); ++bake) {
      const auto& ways = day_.bakes[bake].ways;
      if (plan_[bake].way >= ways.size() ||
          plan_[bake].begin.size() != ways[plan_[bake].way].steps.size()) {
        add(Kind::no_course, {bake, 0});
      }
    }
    if (!faults_.empty()) return faults_;
    for (std::size_t bake = 0; bake < plan_.size(); ++bake) {
      steps(bake);
      legs(bake);
    }
    for (std::size_t resource = 0; resource < day_.house.size(); ++resource) holders(resource);
    return faults_;
  }

 private:
  Fault& add(Kind kind, At at) {
    faults_.push_back(Fault{kind, at, 0, 0, {}, {}});
    return faults_.back();
  }

  void steps(std::size_t bake) {
    const Way& way = way_of(day_, plan_, bake);
    const auto& begin = plan_[bake].begin;
    for (std::size_t i = 0; i < begin.size(); ++i) {
      const Step& step = way.steps[i];
      if (step.begun && *step.begun != begin[i]) add(Kind::moved, {bake, i});
      if (step.begun) continue;
      if (begin[i] < 0) add(Kind::before_begin, {bake, i});
      if (begin[i] % day_.grid != 0) add(Kind::off_grid, {bake, i});
      if (i > 0 && begin[i] < begin[i - 1] + way.steps[i - 1].minutes)
        add(Kind::out_of_order, {bake, i});
      closed(step, {bake, i});
    }
  }

  void closed(const Step& step, At at) {
    const Minutes from = plan_[at.bake].begin[at.step];
    for (const Use& use : step.uses) {
      for (const Span& night : day_.house[use.resource].closed) {
        for (Minutes minute = from; minute < from + step.minutes; ++minute) {
          if (minute < night.from || minute >= night.to) continue;
          add(Kind::closed, at).resource = use.resource;
          return;
        }
      }
    }
  }

  void legs(std::size_t bake) {
    const Way& way = way_of(day_, plan_, bake);
    for (std::size_t l = 0; l < way.legs.size(); ++l) {
      const Leg& leg = way.legs[l];
      const bool at_end = leg.to == way.steps.size();
      if (!at_end && way.steps[leg.to].begun) continue;
      const Minutes end = at_end ? day_.bakes[bake].wanted : plan_[bake].begin[leg.to];
      const auto apart = static_cast<float>(end - plan_[bake].begin[leg.from]);
      bool ready = false;
      bool lasts = false;
      for (std::size_t k = 0; k < std::max(leg.ready.size(), leg.lasts.size()); ++k) {
        ready = ready || apart >= draw(leg.ready, k);
        lasts = lasts || apart <= draw(leg.ready, k) + draw(leg.lasts, k);
      }
      const At at{bake, std::min(leg.to, way.steps.size() - 1)};
      if (!ready) add(Kind::too_early, at).leg = l;
      if (!lasts) add(Kind::too_late, at).leg = l;
    }
  }

  Held held(std::size_t resource) const {
    Held out;
    for (std::size_t bake = 0; bake < plan_.size(); ++bake) {
      const Way& way = way_of(day_, plan_, bake);
      for (std::size_t i = 0; i < way.steps.size(); ++i) {
        for (const Use& use : way.steps[i].uses) {
          if (use.resource != resource) continue;
          const Minutes from = plan_[bake].begin[i];
          Minutes to = from + way.steps[i].minutes;
          if (use.until_next)
            to = i + 1 < way.steps.size() ? plan_[bake].begin[i + 1] : day_.bakes[bake].wanted;
          for (Minutes minute = from; minute < to; ++minute)
            out[minute].push_back({{bake, i}, use.amount});
        }
      }
    }
    return out;
  }

  /// One fault for each run of minutes in which more is held than there is.
  void holders(std::size_t resource) {
    Minutes last = -1;
    for (const auto& [minute, who] : held(resource)) {
      int sum = 0;
      for (const auto& [at, amount] : who) sum += amount;
      if (sum <= day_.house[resource].capacity || minute < 0) continue;
      if (last >= 0 && minute == last + 1) {
        faults_.back().when.to = minute + 1;
      } else {
        At latest = who.front().first;
        for (const auto& [at, amount] : who) {
          if (plan_[at.bake].begin[at.step] >= plan_[latest.bake].begin[latest.step]) latest = at;
        }
        Fault& fault = add(Kind::too_many, latest);
        fault.resource = resource;
        fault.when = {minute, minute + 1};
        for (const auto& [at, amount] : who) fault.takers.push_back(at);
      }
      last = minute;
    }
  }

  const Day& day_;
  const Plan& plan_;
  std::vector<Fault> faults_;
};

}  // namespace

std::vector<Fault> check(const Day& day, const Plan& plan) { return Checker(day, plan).all(); }

}  // namespace barm::dayplan
