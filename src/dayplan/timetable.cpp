#include "dayplan/timetable.h"

#include <algorithm>
#include <gecode/int.hh>
#include <gecode/minimodel.hh>
#include <gecode/search.hh>
#include <memory>

#include "base/require.h"
#include "dayplan/window.h"

namespace barm::dayplan {

namespace {

using Gecode::IntArgs;
using Gecode::IntVar;
using Gecode::IntVarArgs;
using Gecode::IntVarArray;

constexpr int a_slot_moved = 10'000;  // in costs: more than any plan's legs
constexpr long most_cost = 1'000'000'000;

int slots_up(Minutes minutes, Minutes grid) { return (minutes + grid - 1) / grid; }

int slots_down(Minutes minutes, Minutes grid) {
  return minutes >= 0 ? minutes / grid : -slots_up(-minutes, grid);
}

/// All that holds of one resource.
struct Holders {
  IntVarArgs begin, length, end;
  IntArgs amount;
};

class Timetable : public Gecode::IntMinimizeSpace {
 public:
  Timetable(const Day& day, const Search& search) : horizon_(horizon(day)) {
    std::vector<Holders> holders(day.house.size());
    IntVarArgs all;
    IntVarArgs free;
    for (const Laid& laid : search.bakes) {
      IntVarArgs begin = begins(day, search, laid);
      add_uses(day, laid, begin, holders);
      all << begin.slice(0, 1, begin.size() - 1);
      if (laid.begin != nullptr) continue;
      free << begin.slice(0, 1, begin.size() - 1);
      add_legs(day, laid, begin);
      if (search.near != nullptr) stay(day, (*search.near)[laid.bake], laid, begin);
    }
    for (std::size_t r = 0; r < holders.size(); ++r) {
      const Holders& each = holders[r];
      if (each.begin.size() > 0) {
        cumulative(*this, day.house[r].capacity, each.begin, each.length, each.end, each.amount);
      }
    }
    begin_ = IntVarArray(*this, all);
    cost_ = IntVar(*this,
                   0,
                   search.below ? static_cast<int>(std::max(0L, *search.below - 1))
                                : static_cast<int>(most_cost));
    if (search.below && *search.below <= 0) fail();
    costs_ = IntVarArray(*this, leg_costs_);
    IntVarArgs sum;
    sum << leg_costs_ << moves_;
    if (sum.size() == 0) sum << IntVar(*this, 0, 0);
    linear(*this, sum, Gecode::IRT_EQ, cost_);
    moved_ = IntVarArray(*this, moves_);
    // What is moved first, then the dearest legs by halves, then each bake from its end.
    branch(*this, moved_, Gecode::INT_VAR_SIZE_MAX(), Gecode::INT_VAL_MIN());
    branch(*this, costs_, Gecode::INT_VAR_SIZE_MAX(), Gecode::INT_VAL_SPLIT_MIN());
    const IntVarArray free_begin(*this, free);
    branch(*this, free_begin, Gecode::INT_VAR_SIZE_MIN(), Gecode::INT_VAL_MAX());
  }

  Timetable(Timetable& other) : IntMinimizeSpace(other), horizon_(other.horizon_) {
    begin_.update(*this, other.begin_);
    costs_.update(*this, other.costs_);
    moved_.update(*this, other.moved_);
    cost_.update(*this, other.cost_);
  }

  Space* copy() override { return new Timetable(*this); }  // NOLINT: Gecode owns it

  [[nodiscard]] IntVar cost() const override { return cost_; }

  /// In the order of the search's bakes.
  [[nodiscard]] std::vector<Course> courses(const Day& day, const Search& search) const {
    std::vector<Course> out;
    int at = 0;
    for (const Laid& laid : search.bakes) {
      Course course{laid.way, {}};
      for (const Step& step : day.bakes[laid.bake].ways[laid.way].steps) {
        course.begin.push_back(step.begun.value_or(begin_[at].val() * day.grid));
        ++at;
      }
      out.push_back(std::move(course));
    }
    return out;
  }

 private:
  static int horizon(const Day& day) {
    Minutes last = 0;
    for (const Bake& bake : day.bakes) last = std::max(last, bake.wanted);
    return last / day.grid;
  }

  /// A variable for each step, and one behind them for the hour at which the bread is wanted.
  IntVarArgs begins(const Day& day, const Search& search, const Laid& laid) {
    const Bake& bake = day.bakes[laid.bake];
    const Way& way = bake.ways[laid.way];
    IntVarArgs out;
    for (std::size_t i = 0; i < way.steps.size(); ++i) {
      const Step& step = way.steps[i];
      const std::optional<Minutes> pin = pinned(search, laid, i);
      if (step.begun || laid.begin != nullptr) {
        const int slot = slots_down(step.begun ? *step.begun : (*laid.begin)[i], day.grid);
        out << IntVar(*this, slot, slot);
      } else {
        const Gecode::IntSet open = open_slots(day, step);
        if (open.ranges() == 0) fail();  // no hour at which anybody works is long enough for it
        out << (open.ranges() == 0 ? IntVar(*this, 0, 0) : IntVar(*this, open));
        if (pin) rel(*this, day.grid * out[static_cast<int>(i)] == *pin);
      }
      if (i > 0 && !step.begun)
        rel(*this,
            out[static_cast<int>(i)] >=
                out[static_cast<int>(i) - 1] + slots_up(way.steps[i - 1].minutes, day.grid));
    }
    const int wanted = bake.wanted / day.grid;
    out << IntVar(*this, wanted, wanted);
    return out;
  }

  static std::optional<Minutes> pinned(const Search& search, const Laid& laid, std::size_t step) {
    for (const Pin& pin : search.pins) {
      if (pin.at.bake == laid.bake && pin.at.step == step) return pin.begin;
    }
    return std::nullopt;
  }

  /// The slots at which nothing the step takes is closed.
  Gecode::IntSet open_slots(const Day& day, const Step& step) const {
    IntArgs open;
    for (int slot = 0; slot <= horizon_; ++slot) {
      const double at = static_cast<double>(slot) * day.grid;
      if (next_open(day, step, at) == at) open << slot;
    }
    return Gecode::IntSet(open);
  }

  void add_uses(const Day& day,
                const Laid& laid,
                const IntVarArgs& begin,
                std::vector<Holders>& holders) {
    const Way& way = day.bakes[laid.bake].ways[laid.way];
    for (std::size_t i = 0; i < way.steps.size(); ++i) {
      const int at = static_cast<int>(i);
      for (const Use& use : way.steps[i].uses) {
        // What was held before the plan begins is over, too much or not.
        const bool before = begin[at].max() < 0;
        const IntVar from = before ? IntVar(*this, 0, 0) : begin[at];
        const IntVar to = use.until_next
                              ? begin[at + 1]
                              : expr(*this, begin[at] + slots_up(way.steps[i].minutes, day.grid));
        if (to.max() <= 0) continue;
        const IntVar length(*this, 0, horizon_);
        rel(*this, from + length == to);
        Holders& all = holders[use.resource];
        all.begin << from;
        all.amount << use.amount;
        all.length << length;
        all.end << to;
      }
    }
  }

  void add_legs(const Day& day, const Laid& laid, const IntVarArgs& begin) {
    const Way& way = day.bakes[laid.bake].ways[laid.way];
    const auto begun = [&](std::size_t step) {
      return step < way.steps.size() ? way.steps[step].begun : std::nullopt;
    };
    const auto add = [&](const Leg& leg) {
      const std::optional<Minutes> from = begun(leg.from);
      const Minutes shift = from ? slots_down(*from, day.grid) * day.grid - *from : 0;
      const IntVar& first = begin[static_cast<int>(leg.from)];
      const auto allowed = window(leg, day.grid, shift, horizon_ - std::min(0, first.min()));
      if (!allowed) return fail();
      const IntVar apart(*this, allowed->least, allowed->most());
      rel(*this, begin[static_cast<int>(leg.to)] - first == apart);
      if (!leg.known()) add_cost(*allowed, apart);
    };
    for (const Leg& leg : way.legs) {
      if (leg.known() && !begun(leg.to)) add(leg);
    }
    for (const Leg& leg : priced_legs(way)) add(leg);
  }

  void add_cost(const Window& allowed, const IntVar& apart) {
    IntArgs table;
    int most = 0;
    for (const long each : allowed.cost) {
      table << static_cast<int>(each);
      most = std::max(most, each < Window::never ? static_cast<int>(each) : 0);
    }
    const IntVar cost(*this, 0, most);
    element(*this, table, expr(*this, apart - allowed.least), cost);
    leg_costs_ << cost;
  }

  /// What it costs to move a bake off its old course; another way has no old course.
  void stay(const Day& day, const Course& old, const Laid& laid, const IntVarArgs& begin) {
    if (old.way != laid.way) return;
    for (std::size_t i = 0; i < old.begin.size(); ++i) {
      if (day.bakes[laid.bake].ways[laid.way].steps[i].begun) continue;
      const int slot = old.begin[i] / day.grid;
      moves_ << expr(*this, a_slot_moved * abs(begin[static_cast<int>(i)] - slot));
    }
  }

  int horizon_;
  IntVarArray begin_, costs_, moved_;
  IntVarArgs leg_costs_, moves_;  // while it is built; a copy has none
  IntVar cost_;
};

/// Ends a search by its dead ends or when asked to.
class Patience : public Gecode::Search::Stop {
 public:
  explicit Patience(const Search& search) : search_(search) {}

  bool stop(const Gecode::Search::Statistics& done, const Gecode::Search::Options&) override {
    if (search_.failures && done.fail > *search_.failures) return true;
    return search_.cancelled && done.fail % 64 == 0 && search_.cancelled();
  }

 private:
  const Search& search_;
};

}  // namespace

Found lay(const Day& day, const Search& search) {
  Patience patience(search);
  Gecode::Search::Options options;
  options.stop = &patience;
  options.threads = 1;
  const auto root = std::make_unique<Timetable>(day, search);
  Gecode::BAB<Timetable> engine(root.get(), options);
  Found out;
  while (const std::unique_ptr<Timetable> next{engine.next()}) {
    out.courses = next->courses(day, search);
    out.cost = next->cost().val();
  }
  out.finished = !engine.stopped();
  out.dead_ends = static_cast<long>(engine.statistics().fail);
  return out;
}

}  // namespace barm::dayplan
