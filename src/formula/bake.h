#pragma once
// A bake as its file states it: what goes into the bowl, the levain, and the stages in order.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/file_place.h"
#include "formula/label_fields.h"
#include "formula/oven_table.h"
#include "formula/step.h"
#include "larder/ingredient.h"
#include "time/local_time.h"
#include "time/wall_clock.h"
#include "units/fraction.h"
#include "units/temperature.h"

namespace barm::formula {

/// How the file states an amount.
enum class Measure {
  of_flour,        ///< baker's percent
  of_liquid,       ///< share of the liquid total
  rest_of_liquid,  ///< what the other liquids leave of the liquid total
  mass,            ///< grams, ounces, …; volumes and spoons arrive here by density
};

/// What a kilogram of a prepared drink was made of.
struct MadeOf {
  larder::Ingredient ingredient;
  double needs = 1;             ///< kg of it
  std::optional<double> price;  ///< in `currency` per kilogram
  std::string currency;
};

/// One line of the bowl as written.
struct Portion {
  larder::Ingredient ingredient;  ///< with the bottle's own numbers laid over the larder's
  Measure measure = Measure::of_flour;
  double amount = 0;            ///< fraction for of_flour and of_liquid, kilograms for mass
  bool levain = false;          ///< the levain of the [levain] table
  std::optional<Mass> weighed;  ///< what was really poured
  std::optional<double> price;  ///< in `currency` per kilogram
  std::string currency;
  std::string reading;          ///< how the bottle was read where it left a choice, in words
  std::vector<MadeOf> made_of;  ///< of a drink that the file prepares; the price is theirs
  FilePlace place;
};

/// The levain: ripe starter fed with flour and water, some hours at a temperature, perhaps days in
/// the cold.
struct Levain {
  larder::Ingredient starter;  ///< the ripe starter it was fed from, or baker's yeast
  larder::Ingredient flour;
  double ripe = 1, fresh_flour = 2, water = 1;  ///< parts by mass, as "1:2:1"
  Temperature temperature = Temperature::from_celsius(26);
  std::optional<Time> since_feeding;  ///< empty: used as the larder describes it, at its peak
  Time in_the_cold;                   ///< after those hours
  Temperature cold = Temperature::from_celsius(4);
  std::optional<Time> doubled_in;  ///< after feeding, in its jar
  std::optional<double> rose;      ///< the largest volume ratio in its jar
  FilePlace place;

  /// Raised with baker's yeast instead of a ripe starter: a poolish or a biga.
  [[nodiscard]] bool yeasted() const { return starter.group == larder::Group::yeast; }

  /// Whether `ripe` is more than any poolish or biga is raised with: a tenth of its flour.
  [[nodiscard]] bool too_much_yeast() const { return yeasted() && 10 * ripe > fresh_flour; }

  /// kg of water per kg of flour after feeding, the ripe starter's own counted: with h its
  /// hydration, (w + r h/(1+h)) / (f + r/(1+h)). A starter of unknown hydration counts as half
  /// flour, half water; baker's yeast holds no flour and counts with the water.
  [[nodiscard]] double hydration() const;
};

/// What a dough stands in, as far as heat cares.
enum class Vessel { tub, bowl, basket, tray };

/// Where and in what a dough stands during a stage.
struct Surroundings {
  std::optional<Vessel> vessel;  ///< empty: a tub before dividing, a basket after; a bulk is kept
                                 ///< at its temperature
  std::optional<Length> width;   ///< of a tub or bowl
  std::optional<Mass> each;      ///< dough in one vessel; empty: all of it, or one piece
  bool fan = false;              ///< moving air
  std::optional<Temperature> opens_at;  ///< of the air when the dough comes in
  Time recovers;  ///< until half of the difference to the place's temperature is gone
};

/// One stage. Folds happen inside a bulk, at `after` from its start.
struct Stage {
  Step step = Step::bulk;
  Temperature temperature =
      Temperature::from_celsius(24);  ///< of the place; of the dough itself for mix
  bool temperature_given = false;
  Surroundings surroundings;
  std::optional<Time> lasts;       ///< "for"
  std::optional<double> until;     ///< volume ratio at which it ends
  std::optional<Time> after;       ///< for a fold: hours since the bulk began
  std::vector<std::string> order;  ///< for mix: what meets what, in order
  std::string where;               ///< "room", "proofing box", "fridge": words only
  FilePlace place;
};

/// A little of the dough in a jar with straight walls, whose height is read.
struct Jar {
  Length diameter = 70.0 * millimetre;
  std::optional<Length> height;  ///< inside
  Mass dough = 60.0 * gram;
  std::optional<Temperature> temperature;  ///< where it stands; empty: where the bulk stands
  bool dough_given = false;
};

/// All that is poured in: a share of the flour, or a weight.
struct LiquidTotal {
  double of_flour = 0;
  Mass weight;

  [[nodiscard]] bool given() const { return of_flour > 0 || weight > Mass{}; }
};

struct Bake {
  std::string name;
  std::string file;
  std::string note;
  std::optional<int> pieces;
  std::optional<Mass> piece;        ///< dough per piece
  std::optional<Mass> baked_piece;  ///< loaf per piece; piece follows from the bake loss
  double handling_loss = 0;         ///< of dough, 0..1
  double bake_loss = 0.12;          ///< of dough, 0..1
  bool bake_loss_given = false;     ///< by the file
  std::optional<Mass> dough_total;  ///< of all of it, out of the mixer; pieces are parts of it
  std::optional<Mass> flour_total;  ///< when neither dough nor a piece is given
  bool percent_of_weighed = false;  ///< percent is of the flour weighed, without the levain's own
  LiquidTotal liquid_total;         ///< where the file states it
  std::vector<Portion> bowl;
  std::optional<Levain> levain;
  std::vector<Stage> stages;
  std::optional<time::LocalTime> mixed_at;  ///< as its file says, on the wall of the bakery
  std::optional<time::WallClock>
      clock;            ///< from mixing on, where that moment is known and not only its words
  double target = 2.0;  ///< volume ratio the bulk is to reach
  bool target_follows = false;  ///< "by what comes after" instead of a ratio
  std::optional<Jar> jar;
  std::optional<OvenTable> oven;
  std::optional<HouseOven> house_oven;  ///< of no file: of the house that bakes it
  LabelFields label;

  /// Temperature of the bulk, or 24 C when the file names none.
  [[nodiscard]] Temperature bulk_temperature() const;

  /// The first bulk, or nullptr.
  [[nodiscard]] const Stage* bulk() const;

  /// Of the dough when it comes from the mixer, where the file says so.
  [[nodiscard]] std::optional<Temperature> mixed_temperature() const;

  /// Where in the bowl an ingredient stands, by any of its names; "levain" is the levain or a
  /// starter.
  [[nodiscard]] std::optional<std::size_t> find(std::string_view words) const;
};

}  // namespace barm::formula
