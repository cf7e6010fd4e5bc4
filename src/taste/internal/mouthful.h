#pragma once
// One draw of one scent on its way, for the files of this module.
#include <cmath>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "taste/taste.h"

namespace barm::taste::internal {

inline double z(const Luck::OfDraw& draw, Common what) {
  return draw[static_cast<std::size_t>(what)];
}

inline double z(const Luck::OfScent& draw, Own what) {
  return draw[static_cast<std::size_t>(what)];
}

/// How one draw bakes: the same for all scents.
struct Bake {
  Phases phases;
  Baking baking;
  double crust = 0;     ///< share of the dough
  double crumb_is = 1;  ///< kg of crumb a kg of its dough becomes
  double crust_is = 1;
  double dilution = 2;
};

/// With every number at its middle. Errors: as crust_share().
[[nodiscard]] Result<Bake> middle_bake(const Contents& contents, const Baking& baking);

/// One draw of it.
[[nodiscard]] Result<Bake> drawn_bake(const Question& question, const Luck::OfDraw& draw);

/// One scent, from all that bring it.
struct Sum {
  std::size_t scent = 0;
  std::vector<const Brought*> brought;
  std::vector<std::pair<const Applied*, const Brought*>> applied;
};

[[nodiscard]] std::vector<Sum> sums_of(const Question& question);

/// What a draw finds of one scent.
struct Found {
  double brought = 0;  ///< [mg/kg dough]
  Passage passage;
  double crumb = 0, crust = 0;  ///< [mg/kg] of each
  double threshold = 1;         ///< in water [ug/L], of a middling nose
  double matrix = 1;

  [[nodiscard]] double activity(double amount) const {
    constexpr double micrograms = 1e3;
    return micrograms * amount / (threshold * matrix);
  }
};

/// With this luck; nothing but zeros gives the middle.
[[nodiscard]] Found found(const Sum& sum, const Bake& bake, const Luck::OfScent& luck);

/// How often above what is just noticed it stands in the drink itself.
[[nodiscard]] double in_drink_activity(const Sum& sum);

/// Bread's own of a scent, in crumb and crust [mg/kg].
struct Cover {
  double crumb = 0, crust = 0;
};

[[nodiscard]] Cover cover_of(std::size_t scent);

/// Whether so much added is told beside the bread's own of the same.
[[nodiscard]] bool stands_out(double added, double own);

/// Activity of what the bread's own does not cover, of the stronger part of a mouthful.
[[nodiscard]] double uncovered(const Found& one, const Cover& own);

/// The loudest note of the bread's own in each family: its activity and its name.
[[nodiscard]] std::map<std::string_view, std::pair<double, std::string_view>> own_notes(
    const Bake& bake);

/// What the spread of a scent's activity rests on most, people's noses left aside.
[[nodiscard]] std::vector<std::string> deciders(const Sum& sum,
                                                const std::vector<double>& log_activity,
                                                Luck& luck);

}  // namespace barm::taste::internal
