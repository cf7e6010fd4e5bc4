#include "estimation/suspect.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "estimation/internal/seen.h"

namespace barm::estimation {

namespace {

constexpr double typical_mark = 40;  // mm
constexpr double one_time = 0.2;     // h within which two looks are one
constexpr double cannot_both = 5;    // mm, three to four times what two looks differ by
constexpr double cannot_both_of =
    0.125;                             // of the mark, where that is more: a wide dome, a tall jar
constexpr double has_moved = 2;        // mm
constexpr double has_moved_of = 0.05;  // of the mark
constexpr double long_enough = 3;      // h
constexpr double misread = 2.5;        // usual errors of a mark
constexpr double noisy = 2.2;          // times the usual error

struct Height {
  Time at;
  double hours, mm;
};

/// All heights in order of time, and by how much two of them may differ.
struct Heights {
  std::vector<Height> all;
  double mark = typical_mark;  // [mm]
  double start = 0;            // [mm] the mark, or the first height where there is none

  [[nodiscard]] double differ() const { return std::max(cannot_both, cannot_both_of * mark); }

  [[nodiscard]] double moved() const { return std::max(has_moved, has_moved_of * mark); }

  [[nodiscard]] double highest() const {
    return std::max_element(all.begin(), all.end(), lower)->mm;
  }

  [[nodiscard]] double lowest() const {
    return std::min_element(all.begin(), all.end(), lower)->mm;
  }

  [[nodiscard]] double span() const { return all.back().hours - all.front().hours; }

  static bool lower(const Height& a, const Height& b) { return a.mm < b.mm; }
};

Heights heights_of(const Readings& readings) {
  Heights out;
  if (readings.start_mark) out.mark = readings.start_mark->in(millimetre);
  for (const Reading& row : readings.rows) {
    if (row.height) out.all.push_back({row.at, row.at.in(hour), row.height->in(millimetre)});
    if (row.ratio) out.all.push_back({row.at, row.at.in(hour), *row.ratio * out.mark});
  }
  out.start = readings.start_mark || out.all.empty() ? out.mark : out.all.front().mm;
  return out;
}

/// From 0 at `none` to 1 at `whole`.
double share_between(double value, double none, double whole) {
  return std::clamp((value - none) / (whole - none), 0.0, 1.0);
}

/// How fast the sample rises about two looks, by those before and after them [mm/h].
double slope_about(const std::vector<Height>& all, std::size_t first, std::size_t second) {
  std::size_t before = first;
  std::size_t after = second;
  while (before > 0 && all[first].hours - all[before].hours <= one_time) --before;
  while (after + 1 < all.size() && all[after].hours - all[second].hours <= one_time) ++after;
  const double apart = all[after].hours - all[before].hours;
  return apart > one_time ? std::max(0.0, (all[after].mm - all[before].mm) / apart) : 0;
}

struct Pair {
  Height first, second;
  double gap = 0;    // [mm] beyond what the dough may have risen meanwhile
  double share = 0;  // how surely they contradict one another
};

/// Neighbours in time that are one look and cannot both be right.
std::vector<Pair> contradictions(const Heights& heights) {
  constexpr double steepest = 2;  // a curve's steepest stretch over the mean of its neighbourhood
  const auto& all = heights.all;
  std::vector<Pair> out;
  for (std::size_t i = 0; i + 1 < all.size(); ++i) {
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      const double apart = all[j].hours - all[i].hours;
      if (apart > one_time) break;
      const double risen = all[j].mm - all[i].mm;
      const double may = steepest * slope_about(all, i, j) * apart;
      const double gap = std::max(-risen, risen - may);
      const double share = share_between(gap, heights.differ(), 1.6 * heights.differ());
      if (share > 0) out.push_back({all[i], all[j], gap, share});
    }
  }
  return out;
}

// How far the last height has fallen below the start of a sample that never rose.
struct Fall {
  double drop = 0;   // [mm]
  double share = 0;  // how surely it cannot be
};

Fall fall_of(const Heights& heights) {
  const double drop = heights.start - heights.all.back().mm;
  const double moved = heights.moved();
  return {drop,
          share_between(drop, moved, 2 * moved) *
              (1 - share_between(heights.highest() - heights.start, moved, 2 * moved))};
}

// How surely the sample has stood still.
double stillness(const Heights& heights) {
  if (heights.all.size() < 3 || fall_of(heights).share > 0) return 0;
  const double moved = heights.moved();
  return (1 - share_between(heights.highest() - heights.lowest(), moved, 2 * moved)) *
         share_between(heights.span(), 0.5 * long_enough, long_enough);
}

}  // namespace

std::vector<Suspicion> suspicions(const Readings& readings) {
  std::vector<Suspicion> out;
  const Heights heights = heights_of(readings);
  const bool ratios = std::any_of(
      readings.rows.begin(), readings.rows.end(), [](const Reading& r) { return r.ratio; });
  if (heights.all.empty()) {
    out.push_back({Suspect::no_height, "no height was read: nothing is learned of the rise"});
    return out;
  }
  if (heights.all.size() == 1) {
    out.push_back({Suspect::one_height,
                   "one height tells little; a second one an hour later tells how fast it rises"});
  }
  if (!readings.start_mark && !ratios) {
    out.push_back(
        {Suspect::no_mark,
         "the height at the start is not known: give it, such as --start-mark '40 mm', or "
         "as a row at 0 h. Until then heights say little"});
  }
  const auto pairs = contradictions(heights);
  const auto widest = std::max_element(
      pairs.begin(), pairs.end(), [](const Pair& a, const Pair& b) { return a.gap < b.gap; });
  if (widest != pairs.end()) {
    out.push_back(
        {Suspect::contradiction,
         fmt::format("about {:.1f} h after mixing {:.0f} mm and {:.0f} mm were read: they "
                     "cannot both be right, so neither is trusted far. Which one reads "
                     "this dough?",
                     widest->first.hours,
                     widest->first.mm,
                     widest->second.mm)});
  }
  const Fall fall = fall_of(heights);
  if (fall.share > 0) {
    out.push_back(
        {Suspect::falling,
         fmt::format("the heights fall {:.0f} mm below the start, but a dough that has not "
                     "risen cannot fall. Is the mark right, is it the right jar, did the "
                     "dough dry or slide?",
                     fall.drop)});
  } else if (stillness(heights) == 1) {
    out.push_back({Suspect::still,
                   fmt::format("the sample has not moved in {:.0f} h. If the bulk has, it is the "
                               "wrong jar or it leaks; if not, warm it or look at 'barm rescue'",
                               heights.span())});
  }
  return out;
}

namespace {

// A dough that has not moved for hours may be hardly alive: its pace may be far below the model's,
// and stay there. It may not be far above: such a dough had risen and fallen before anyone looked.
// All of it is a guess of ours.
constexpr Pace hardly_alive{.doubt = 0.6, .memory = 48};

}  // namespace

bool some_must_be_wrong(const std::vector<Suspicion>& suspicions) {
  return std::any_of(suspicions.begin(), suspicions.end(), [](const Suspicion& one) {
    return one.what == Suspect::falling || one.what == Suspect::contradiction;
  });
}

void widen(DoughToRead& batch, const Readings& readings) {
  const Heights heights = heights_of(readings);
  if (heights.all.empty()) return;
  Sample& sample = batch.sample;
  const auto to_at_least = [](double& doubt, double mm) { doubt = std::max(doubt, mm); };
  // A pair alone is doubted alone; where much of what was read contradicts itself, so is the mark.
  const auto pairs = contradictions(heights);
  double worst = 0;
  for (const Pair& pair : pairs) {
    for (const Height& one : {pair.first, pair.second})
      sample.doubted.push_back({one.at, pair.share * pair.gap});
    worst = std::max(worst, pair.share * pair.gap);
  }
  const double concerned =
      2 * static_cast<double>(pairs.size()) / static_cast<double>(heights.all.size());
  to_at_least(sample.mark_doubt, worst * share_between(concerned, 0.5, 1));
  const Fall fall = fall_of(heights);
  for (double* doubt : {&sample.height_doubt, &sample.least_doubt, &sample.mark_doubt})
    to_at_least(*doubt, fall.share * fall.drop);
  const double still = stillness(heights);
  const double usual = batch.pace.doubt;
  batch.pace.doubt += still * (hardly_alive.doubt - usual);
  batch.pace.faster = usual / batch.pace.doubt;
  batch.pace.memory *= std::pow(hardly_alive.memory / batch.pace.memory, still);
}

std::vector<Suspicion> suspicions(const DoughToRead& batch,
                                  const Readings& readings,
                                  const Learned& learned) {
  std::vector<Suspicion> out;
  if (learned.method == Method::prior) return out;
  const internal::Seen seen = internal::seen_of(batch, readings);
  double mark = 0;
  for (std::size_t i = 0; i < learned.draws(); ++i) {
    mark += learned.weight[i] * internal::long_tailed(learned.draw(i)[batch.first_of_jar()]) *
            seen.mark_doubt;
  }
  if (seen.mark_known && std::abs(mark) > misread * seen.mark_doubt) {
    const double by = std::abs(std::expm1(mark)) * (seen.start_mark > 0 ? seen.start_mark : 40);
    out.push_back({Suspect::mark_misread,
                   fmt::format("the start mark fits the later heights only if it was read about "
                               "{:.0f} mm too {}; look at it again",
                               by,
                               mark > 0 ? "low" : "high")});
  }
  if (!learned.settled()) {
    out.push_back({Suspect::unsettled,
                   "the doughs simulated for these readings do not settle: another seed may "
                   "say something else. One more reading helps most"});
  }
  if (learned.noise > noisy) {
    out.push_back({Suspect::scatter,
                   fmt::format("the readings lie about {:.0f} times as far off as a careful hand's "
                               "from any dough the program knows; the range is wide for that",
                               learned.noise)});
  }
  return out;
}

}  // namespace barm::estimation
