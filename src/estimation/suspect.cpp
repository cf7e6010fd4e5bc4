#include "estimation/suspect.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "estimation/internal/seen.h"

namespace barm::estimation {

namespace {

constexpr double typical_mark = 40;  // mm
constexpr double one_time = 0.2;     // h within which two looks are one
constexpr double cannot_both = 5;    // mm
constexpr double has_moved = 2;      // mm
constexpr double long_enough = 3;    // h
constexpr double misread = 2.5;      // usual errors of a mark
constexpr double noisy = 2.2;        // times the usual error

struct Height {
  double hours, mm;
};

std::vector<Height> heights_of(const Readings& readings) {
  const double mark = readings.start_mark ? readings.start_mark->in(millimetre) : typical_mark;
  std::vector<Height> out;
  for (const Reading& row : readings.rows) {
    if (row.height) out.push_back({row.at.in(hour), row.height->in(millimetre)});
    if (row.ratio) out.push_back({row.at.in(hour), *row.ratio * mark});
  }
  return out;
}

// The widest gap between neighbours in time that are one look.
std::optional<std::pair<Height, Height>> contradiction(const std::vector<Height>& heights) {
  std::optional<std::pair<Height, Height>> widest;
  double most = cannot_both;
  for (std::size_t i = 0; i + 1 < heights.size(); ++i) {
    for (std::size_t j = i + 1; j < heights.size(); ++j) {
      if (heights[j].hours - heights[i].hours > one_time) break;
      const double gap = std::abs(heights[j].mm - heights[i].mm);
      if (gap <= most) continue;
      most = gap;
      widest = {heights[i], heights[j]};
    }
  }
  return widest;
}

}  // namespace

std::vector<Suspicion> suspicions(const Readings& readings) {
  std::vector<Suspicion> out;
  const std::vector<Height> heights = heights_of(readings);
  const bool ratios = std::any_of(
      readings.rows.begin(), readings.rows.end(), [](const Reading& r) { return r.ratio; });
  if (heights.empty()) {
    out.push_back({Suspect::no_height, "no height was read: nothing is learned of the rise"});
    return out;
  }
  if (heights.size() == 1) {
    out.push_back({Suspect::one_height,
                   "one height tells little; a second one an hour later tells how fast it rises"});
  }
  if (!readings.start_mark && !ratios) {
    out.push_back(
        {Suspect::no_mark,
         "the height at the start is not known: give it, such as --start-mark '40 mm', or "
         "as a row at 0 h. Until then heights say little"});
  }
  if (const auto pair = contradiction(heights)) {
    const auto& [a, b] = *pair;
    out.push_back(
        {Suspect::contradiction,
         fmt::format("about {:.1f} h after mixing {:.0f} mm and {:.0f} mm were read: they "
                     "cannot both be right, so neither is trusted far. Which one reads "
                     "this dough?",
                     a.hours,
                     a.mm,
                     b.mm),
         std::abs(a.mm - b.mm)});
  }
  const double start =
      readings.start_mark ? readings.start_mark->in(millimetre) : heights.front().mm;
  const auto [low, high] = std::minmax_element(
      heights.begin(), heights.end(), [](const Height& a, const Height& b) { return a.mm < b.mm; });
  const double span = heights.back().hours - heights.front().hours;
  const double drop = start - heights.back().mm;
  if (drop > has_moved && high->mm < start + has_moved) {
    out.push_back(
        {Suspect::falling,
         fmt::format("the heights fall {:.0f} mm below the start, but a dough that has not "
                     "risen cannot fall. Is the mark right, is it the right jar, did the "
                     "dough dry or slide?",
                     drop),
         drop});
  } else if (heights.size() >= 3 && span >= long_enough && high->mm - low->mm < has_moved) {
    out.push_back({Suspect::still,
                   fmt::format("the sample has not moved in {:.0f} h. If the bulk has, it is the "
                               "wrong jar or it leaks; if not, warm it or look at 'barm rescue'",
                               span)});
  }
  return out;
}

// A dough that has not moved for hours may be hardly alive: its pace may be far from the model's,
// and stay there. Both are guesses of ours.
constexpr Pace hardly_alive{.doubt = 0.6, .memory = 48};

bool some_must_be_wrong(const std::vector<Suspicion>& suspicions) {
  return std::any_of(suspicions.begin(), suspicions.end(), [](const Suspicion& one) {
    return one.what == Suspect::falling || one.what == Suspect::contradiction;
  });
}

void widen(Batch& batch, const std::vector<Suspicion>& suspicions) {
  for (const Suspicion& suspicion : suspicions) {
    if (suspicion.what == Suspect::still) batch.pace = hardly_alive;
    if (suspicion.gap <= 0) continue;
    batch.sample.height_doubt = std::max(batch.sample.height_doubt, suspicion.gap);
    batch.sample.least_doubt = std::max(batch.sample.least_doubt, suspicion.gap);
    batch.sample.mark_doubt = std::max(batch.sample.mark_doubt, suspicion.gap);
  }
}

std::vector<Suspicion> suspicions(const Batch& batch,
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
  if (learned.noise > noisy) {
    out.push_back({Suspect::scatter,
                   fmt::format("the readings lie about {:.0f} times as far off as a careful hand's "
                               "from any dough the program knows; the range is wide for that",
                               learned.noise)});
  }
  return out;
}

}  // namespace barm::estimation
