#pragma once
// What of a bake's drinks is smelt and tasted in its bread, and how sure that is.
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "taste/contents.h"
#include "taste/luck.h"
#include "taste/passage.h"
#include "taste/tongue.h"

namespace barm::taste {

[[nodiscard]] Range range_of(std::vector<double> sample);

/// The words for an odour activity value: how many times what is just noticed.
enum class Level { gone, hint, there, loud };

[[nodiscard]] Level level_of(double activity);
[[nodiscard]] std::string_view name(Level level);

/// Not alcohol and fusel, which every yeast makes.
[[nodiscard]] bool says_which_drink(std::string_view family);

/// A scent put on or into the bread after or beside the dough: brushed, in butter, in fruit.
struct Applied {
  std::vector<Brought> scents = {};  ///< `amount` in mg on one loaf
  Mass onto = {};                    ///< what it spreads over: the crust, the butter
  double kept = 1;                   ///< middle of the share that stays
  double kept_doubt = 0;             ///< sd of its ln
};

/// One note of the drink: all its scents of a family.
struct Note {
  std::string_view family = {};
  std::string_view scent = {};  ///< the one that is strongest in the bread
  double in_drink = 0;          ///< activity in the drink itself, of its strongest
  Range left = {};              ///< in the loaf, of what the drink brought
  Range left_crumb = {}, left_crust = {};
  Range crumb = {}, crust = {};  ///< activity in what is chewed; the crust with what was put on it
  double noticed = 0;            ///< share of tasters who would notice it as the drink's
  Level plain = Level::gone;     ///< by the stronger of crumb and crust, the bread's own left aside
  Level level = Level::gone;     ///< what of it the bread's own does not cover
  std::string_view cover = {};   ///< what of the bread covers it; empty: nothing
  std::vector<std::string> decides = {};  ///< what its range rests on most, with how that is known
};

struct Question {
  const Contents* contents = nullptr;
  Baking baking;
  AtTheOven dough;
  std::vector<Applied> applied = {};
};

struct Tasted {
  std::vector<Note> notes;  ///< what comes through best first, alcohol and fusel last
  Tongue tongue;
  double crust_share = 0;        ///< of the dough
  Range alcohol;                 ///< of the drinks, left in the loaf [g/kg bread]
  Range alcohol_left;            ///< share of what went in
  double noticed = 0;            ///< share of tasters who smell the drink in one note or more
  std::vector<double> strength;  ///< of each draw: activities of what is not covered, summed
  std::vector<double> tells;     ///< of each draw: share who tell the bread from one without
};

/// Draws the ways of all scents and sums them up:
///
///     x = b P crumb / (1 - v W),   b P crust / (1 - W (1 - e^-E))   of a kilogram of each
///     activity = x / (threshold M)                                                (9)
///
/// A scent of the drink is told beside the bread's own of the same where there is at least half as
/// much of it; below that its word is one weaker, and one more when the bread has a loud note of
/// its family. Noses differ by a factor of e^s, s = 1.1, each scent for itself, so that of all
///
///     share who notice = 1 - product (1 - Phi(ln activity / s))                  (13)
///
/// Alcohol and fusel say that there was a drink and not which, and every yeast makes them: they
/// tell the bread from one without, but count neither in `noticed` nor in `strength`. The ranges
/// are those of a middling nose. Errors: as crust_share(). Source: guess. Checked
/// against: tests/taste/taste_test.cpp.
[[nodiscard]] Result<Tasted> tasted(const Question& question, Luck& luck);

}  // namespace barm::taste
