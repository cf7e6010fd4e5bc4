#pragma once
// Rival doughs: the base bake changed by a recipe, weighed out so that only the named things
// differ.
#include <string>
#include <vector>

#include "base/result.h"
#include "formula/bowl.h"
#include "testbakes/test_bake.h"

namespace barm::testbakes {

/// A solution of potassium metabisulphite weak enough to be weighed on a kitchen scale.
struct Stock {
  MassFraction strength;  ///< of the salt
  Mass salt, water;       ///< to make it, not more than is needed twice over
  Mass dose;              ///< of the solution, for this dough
  /// When the salt is less than a kitchen scale weighs well: first this much salt into so much
  /// water, then `from_first` of that into `water`.
  bool in_two_steps = false;
  Mass first_salt, first_water, from_first;
};

/// One dough of a test bake, ready to be weighed out.
struct Rival {
  std::string name;
  std::string words;   ///< how it is made from the base bake
  formula::Bake bake;  ///< every line in grams
  formula::Bowl bowl;  ///< with the levain at its peak
  std::vector<larder::Composition> settled;
  Mass drink;                ///< of the base bake's own drinks, simmered or not
  bool plain = false;        ///< no drink, nothing matched: the control
  std::vector<Alike> alike;  ///< what it was matched in
  std::vector<Stock> stocks;
  std::vector<std::string> notes;  ///< how far matching went where it could not go all the way
};

/// The base bake at the weight of the test, every line in grams: what the recipes start from.
[[nodiscard]] Result<formula::Bake> base_of(const TestBake& test);

/// Makes a dough by its recipe from the base bake (of base_of()).
///
/// Flour, levain, salt and whatever else is not named stay to the gram. Matched are ethanol [g],
/// free sulphite [g], sugar [g], and for acid the pH after mixing; water is then solved so that the
/// real water over flour is that of the base. Each addition moves one of these and water alone, so
/// the weights follow one after another, and a few rounds settle what acid and water do to pH.
///
/// Errors: cannot_be_met (the dough holds more of it already; no room for the water a swap brings
/// is mended by pouring less, and noted), bad_input.
/// Checked against: tests/testbakes/rivals_test.cpp.
[[nodiscard]] Result<Rival> make(const formula::Bake& base, const Recipe& recipe);

/// All doughs of a test bake, in its order.
[[nodiscard]] Result<std::vector<Rival>> rivals(const TestBake& test);

/// What alcohol, sulphite, acid or sugar is matched with when the words do not say: neutral spirit,
/// potassium metabisulphite solution, the acid the base bake's drinks bring most of (tartaric,
/// malic, citric or lactic), sugar.
[[nodiscard]] larder::Ingredient usual_means(Alike what, const formula::Bake& base);

/// Simmering times with a known share of alcohol left.
[[nodiscard]] Time simmered_least();
[[nodiscard]] Time simmered_most();

/// Share of a drink's alcohol that is left after simmering, straight lines through
/// data/tables/alcohol_retention_usda.csv. Range: simmered_least()..simmered_most().
[[nodiscard]] double alcohol_left(Time simmered);

/// One thing in which two doughs differ.
struct Difference {
  std::string what;  ///< "alcohol"
  std::string unit;  ///< "g/L"
  double here = 0, there = 0;
};

/// What differs between two bowls by more than a baker need care about (2 % and a least amount
/// each). Taste and tannin are not modelled.
[[nodiscard]] std::vector<Difference> differences(const formula::Bowl& here,
                                                  const formula::Bowl& there);

/// "3.1 g/L more alcohol", "0.4 lower pH".
[[nodiscard]] std::string in_words(const Difference& difference);

}  // namespace barm::testbakes
