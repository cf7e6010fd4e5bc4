#pragma once
// Some bakes laid anew beside the others, by every choice of their ways.
#include <optional>
#include <vector>

#include "dayplan/timetable.h"

namespace barm::dayplan {

/// The bakes that lie so far.
using Lying = std::vector<std::optional<Course>>;

/// What a course costs: the sum of its legs' costs (window.h). None where no dough comes through.
[[nodiscard]] std::optional<long> cost_of(const Day& day, std::size_t bake, const Course& course);

class Ways {
 public:
  Ways(const Day& day, std::vector<Pin> pins, std::function<bool()> cancelled);

  /// Every bake by every way with the house to itself: has to be asked first.
  void look_at_each(const std::function<void(double)>& progress);

  /// The best course of each bake with the house to itself.
  [[nodiscard]] const Lying& alone() const { return alone_; }

  /// Whether a bake that has no course alone surely has none.
  [[nodiscard]] bool surely_none(std::size_t bake) const { return surely_[bake]; }

  /// How many dead ends may be met from now on before nothing more is laid.
  void allow(long dead_ends) { left_ = dead_ends; }

  struct Laying {
    bool found = false;
    long cost = 0;  ///< of the bakes laid
    bool finished = false;
  };

  /// Lays `bakes` anew, for less than `below`, with so many dead ends for each choice of ways (none
  /// given: until all is searched); the first of them by the way `first_by` where that is given.
  /// What was found stands in `lying`.
  Laying lay_anew(Lying& lying,
                  const std::vector<std::size_t>& bakes,
                  std::optional<long> below,
                  std::optional<unsigned> failures,
                  std::optional<std::size_t> first_by = std::nullopt);

  /// The least that bakes could cost, each with the house to itself.
  [[nodiscard]] long least(const std::vector<std::size_t>& bakes) const;

 private:
  using Choice = std::vector<std::size_t>;  // a way for each bake that is laid anew

  [[nodiscard]] std::vector<std::pair<long, Choice>> choices(
      const std::vector<std::size_t>& bakes) const;

  const Day& day_;
  std::vector<Pin> pins_;
  std::function<bool()> cancelled_;
  std::vector<std::vector<std::optional<long>>> cost_alone_;  // by bake and way
  Lying alone_;
  std::vector<bool> surely_;
  long left_ = 0;
};

}  // namespace barm::dayplan
