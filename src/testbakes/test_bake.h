#pragma once
// A test bake: a question, rival doughs made from one bake, the days they are baked on.
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "formula/bake.h"
#include "testbakes/cause.h"

namespace barm::testbakes {

/// What two doughs may be made alike in.
enum class Alike { alcohol, sulphite, acid, sugar };

[[nodiscard]] std::string_view name(Alike what);

/// One thing done to the base bake. They are written as words, docs/testbake-file.md.
namespace step {

/// "plain": water for every drink.
struct Plain {};

/// "swap dry mead for perry"
struct Swap {
  std::string from;
  larder::Ingredient to;
  std::optional<double> price;  ///< in `currency` per kilogram
  std::string currency;
};

/// "simmer dry mead for 60 min"
struct Simmer {
  std::string drink;
  Time lasts;
};

/// "dry mead 25 % of the liquid": and water that much less
struct Pour {
  std::string drink;
  double share = 0;
};

/// "match acid with tartaric acid": as much of it as in the base bake
struct Match {
  Alike what = Alike::alcohol;
  larder::Ingredient with;
};

}  // namespace step

using Step = std::variant<step::Plain, step::Swap, step::Simmer, step::Pour, step::Match>;

/// A dough to be, in words: what is done to the base bake, in order.
struct Recipe {
  std::string name;
  std::vector<Step> steps;
  std::string words;  ///< the steps as the file has them
  FilePlace place;
};

struct TestBake {
  std::string name;
  std::string question;
  std::string file;
  std::string remark;              ///< private: left out of what is shown unless asked for
  formula::Bake base;              ///< the dough the question is about
  std::vector<Recipe> doughs;      ///< the rivals; the base bake itself is one with no steps
  std::vector<Cause> causes;       ///< asked about; empty: those worth asking about
  std::optional<Mass> dough;       ///< of each; else as much as the base bake makes
  std::vector<std::string> days;   ///< each a block: every dough is baked on every day
  int jars = 1;                    ///< of each dough on each day
  Length jar = 60.0 * millimetre;  ///< height of the dough in its jar at the first mark
  Time within = 24.0 * hour;       ///< the time allowed
  std::optional<unsigned long long>
      seed;                             ///< of jar places, labels, servings; drawn once, then kept
  std::optional<std::string> readings;  ///< a file of readings, its whole path
};

}  // namespace barm::testbakes
