#include "formula/bowl.h"

#include <algorithm>
#include <cmath>

#include "chemistry/ethanol_water.h"
#include "chemistry/gas.h"
#include "chemistry/water_activity.h"
#include "formula/cautions.h"
#include "formula/internal/contents.h"
#include "formula/internal/weigh.h"
#include "generated/constants.h"
#include "units/units.h"

namespace barm::formula {

using internal::Contents;
using internal::Part;
using larder::Composition;
using larder::Property;

namespace {

constexpr std::size_t carbonic = static_cast<std::size_t>(chemistry::Acid::carbonic);

Mass kilograms(double value) { return Mass::from_si(value); }

Molality per_water(double mass, MolarMass molar_mass, double water) {
  return water > 0 ? Molality::from_si(mass / molar_mass.si() / water) : Molality{};
}

/// One line, its shares still to be filled in.
Weighed weighed(const Portion& portion, double plan, const Composition& c) {
  Weighed line;
  line.name = portion.levain ? "levain" : portion.ingredient.name;
  line.plan = kilograms(plan);
  line.actual = portion.weighed.value_or(line.plan);
  line.levain = internal::is_starter(portion);
  line.flour = portion.ingredient.is_flour();
  line.liquid = portion.ingredient.is_liquid() && !line.levain;
  if (line.liquid && c[Property::density] > 0) line.volume = line.actual / c.density();
  return line;
}

void add(Contents& sum, const Contents& per_kilogram, double mass) {
  for (std::size_t i = 0; i < sum.value.size(); ++i) sum.value[i] += mass * per_kilogram.value[i];
}

/// Share of the CO2 that stays: what is more than a dough holds at 1 atm has left when it is mixed.
double gas_that_stays(const Contents& sum, Temperature temperature) {
  const double most = constants::gas::dissolving.value.si() *
                      chemistry::carbon_dioxide_solubility(temperature) * atmosphere.si() *
                      sum[Part::water] * constants::molar_mass::carbon_dioxide.value.si();
  const double brought = sum[Part::carbon_dioxide];
  return brought > most ? most / brought : 1;
}

void fill_sums(const Contents& sum, double gas, Bowl& bowl) {
  const auto mass = [&](Part part) { return kilograms(sum[part]); };
  bowl.dough = mass(Part::mass);
  bowl.flour = mass(Part::flour);
  bowl.levain_flour = mass(Part::levain_flour);
  bowl.liquid = mass(Part::liquid);
  bowl.added_water = mass(Part::added_water);
  bowl.water = mass(Part::water);
  bowl.ethanol = mass(Part::ethanol);
  bowl.salt = mass(Part::salt);
  bowl.hexose = mass(Part::hexose);
  bowl.sucrose = mass(Part::sucrose);
  bowl.maltose = mass(Part::maltose);
  bowl.lactose = mass(Part::lactose);
  bowl.slow_hexose = mass(Part::slow_hexose);
  bowl.slow_sucrose = mass(Part::slow_sucrose);
  bowl.glycerol = mass(Part::glycerol);
  bowl.fat = mass(Part::fat);
  bowl.liquid_ethanol = mass(Part::poured_ethanol);
  bowl.free_sulphite = mass(Part::free_sulphite);
  bowl.total_sulphite = mass(Part::total_sulphite);
  bowl.sorbate = mass(Part::sorbate);
  bowl.iso_alpha_acids = mass(Part::iso_alpha_acids);
  bowl.carbon_dioxide = gas * mass(Part::carbon_dioxide);
  for (std::size_t k = 0; k < carbonic; ++k) bowl.acid[k] = sum.acid(k) * mole;
  bowl.acid[carbonic] = gas * sum.acid(carbonic) * mole;
  bowl.buffering = sum[Part::buffering];
  bowl.flour_buffering = sum[Part::flour_buffering];
  bowl.ash = sum[Part::ash] / sum[Part::flour];
  bowl.protease = sum[Part::protease] / sum[Part::flour];
  if (!(sum[Part::rising_flour] > 0)) return;
  bowl.rise_limit = sum[Part::rise] / sum[Part::rising_flour];
  bowl.pentosan_rise = sum[Part::pentosan_rise] / sum[Part::rising_flour];
}

void fill_volumes(const Contents& sum, double apart, Bowl& bowl) {
  const double together =
      internal::mixture_volume(sum[Part::poured_water], sum[Part::poured_ethanol]);
  bowl.contraction = (apart - together) * cubic_metre;
  bowl.water_phase = internal::mixture_volume(sum[Part::water], sum[Part::ethanol]) * cubic_metre;
  bowl.liquid_volume = internal::poured_volume(sum[Part::poured_water],
                                               sum[Part::poured_ethanol],
                                               sum[Part::poured_solids],
                                               sum[Part::poured_fat]) *
                       cubic_metre;
}

double water_activity(const Contents& sum) {
  namespace molar = constants::molar_mass;
  const double water = sum[Part::water];
  chemistry::Solutes solutes;
  solutes.salt = per_water(sum[Part::salt], molar::salt.value, water);
  solutes.hexose = per_water(sum[Part::hexose], molar::hexose.value, water);
  solutes.disaccharide =
      per_water(sum[Part::sucrose] + sum[Part::maltose], molar::disaccharide.value, water);
  solutes.lactose = per_water(sum[Part::lactose], molar::disaccharide.value, water);
  solutes.ethanol = per_water(sum[Part::ethanol], molar::ethanol.value, water);
  solutes.glycerol = per_water(sum[Part::glycerol], molar::glycerol.value, water);
  return chemistry::water_activity(solutes);
}

chemistry::Buffered buffered(const Portion& portion,
                             const Composition& c,
                             const Contents& per_kilogram,
                             double mass,
                             double gas) {
  chemistry::Buffered part;
  part.mass = kilograms(mass);
  part.ph = c.ph();
  part.buffering = c[Property::buffering];
  part.flour = portion.ingredient.is_flour() || internal::is_starter(portion);
  for (std::size_t k = 0; k < carbonic; ++k) part.acid[k] = mass * per_kilogram.acid(k) * mole;
  part.acid[carbonic] = mass * gas * per_kilogram.acid(carbonic) * mole;
  return part;
}

/// What each portion brings per kilogram, with its line.
struct Parts {
  std::vector<Contents> per_kilogram;
  std::vector<double> mass;
};

Result<Ph> mixed_ph(const Bake& bake,
                    std::span<const Composition> settled,
                    const Parts& parts,
                    const Contents& sum,
                    double gas,
                    bool with_whole_fruit) {
  std::vector<chemistry::Buffered> buffers;
  buffers.reserve(parts.mass.size());
  for (std::size_t i = 0; i < parts.mass.size(); ++i) {
    if (!with_whole_fruit && internal::is_whole_fruit(bake.bowl[i])) continue;
    buffers.push_back(
        buffered(bake.bowl[i], settled[i], parts.per_kilogram[i], parts.mass[i], gas));
  }
  const auto salt = per_water(sum[Part::salt], constants::molar_mass::salt.value, sum[Part::water]);
  return chemistry::mixed_ph(buffers, salt);
}

void fill_percent(const Bake& bake, Bowl& bowl) {
  bowl.percent_of_weighed = bake.percent_of_weighed;
  bowl.percent_of = bowl.flour;
  if (bake.percent_of_weighed) {
    bowl.percent_of = Mass{};
    for (const Weighed& line : bowl.lines) {
      if (line.flour) bowl.percent_of = bowl.percent_of + line.actual;
    }
  }
  for (Weighed& line : bowl.lines) line.share = BakersFraction(line.actual / bowl.percent_of);
}

void fill_pieces(const Bake& bake, Bowl& bowl) {
  bowl.pieces = bake.pieces.value_or(0);
  if (bowl.pieces == 0) return;
  bowl.piece = bowl.dough * (1 - bake.handling_loss) / bowl.pieces;
  bowl.baked_piece = bowl.piece * (1 - bake.bake_loss);
}

/// The levain after feeding, at its peak: flour and water in its own proportion, and per kilogram
/// of flour as much acid, alcohol, gas and life as in the larder's starter. What was made came out
/// of the starch.
Composition at_its_peak(const Levain& levain,
                        const Composition& starter,
                        const Composition& flour) {
  const double h = levain.hydration();
  const double share = 1 / (1 + h);
  const double scale = share * (1 + starter[Property::hydration]);
  Composition c = starter;
  for (std::size_t i = 0; i <= static_cast<std::size_t>(Property::salt); ++i)
    c.value[i] = share * flour.value[i];
  double made = 0;
  const auto carry = [&](Property property) {
    c[property] = scale * starter[property];
    made += c[property];
  };
  for (std::size_t k = 0; k < carbonic; ++k)
    carry(internal::property_of(static_cast<chemistry::Acid>(k)));
  for (const Property property : {Property::ethanol, Property::glycerol, Property::carbon_dioxide})
    carry(property);
  c[Property::starch] = std::max(0.0, c[Property::starch] - made);
  c[Property::water] = share * (flour[Property::water] + h);
  c[Property::buffering] = share * flour[Property::buffering];
  c[Property::rise_limit] = flour[Property::rise_limit];
  c[Property::pentosan_share] = flour[Property::pentosan_share];
  c[Property::hydration] = h;
  for (const Property mineral : {Property::calcium, Property::potassium})
    c[mineral] = share * flour[mineral];
  for (const Property count : {Property::lactic_bacteria, Property::wild_yeast}) {
    if (starter[count] > 0) c[count] = starter[count] + std::log10(scale);
  }
  return c;
}

/// A poolish or biga before it has risen: flour and water in its own proportion, and its yeast.
Composition freshly_stirred(const Levain& levain,
                            const Composition& yeast,
                            const Composition& flour) {
  const double h = levain.hydration();
  const double share = 1 / (1 + h);
  Composition c = flour;
  for (std::size_t i = 0; i <= static_cast<std::size_t>(Property::salt); ++i)
    c.value[i] = share * flour.value[i];
  const double raised_with = levain.ripe / (levain.ripe + levain.fresh_flour + levain.water);
  c[Property::water] = share * (flour[Property::water] + h) - raised_with;
  for (const Property part : {Property::water, Property::protein, Property::bakers_yeast})
    c[part] += raised_with * yeast[part];
  c[Property::buffering] = share * flour[Property::buffering];
  c[Property::hydration] = h;
  c[Property::gluten_strength] = 1;
  for (const Property mineral : {Property::calcium, Property::potassium})
    c[mineral] = share * flour[mineral];
  return c;
}

Result<Composition> settle(const Bake& bake, const Portion& portion) {
  auto own = larder::typical(portion.ingredient);
  if (!own || !portion.levain || !bake.levain) return own;
  auto flour = larder::typical(bake.levain->flour);
  if (!flour) return flour;
  const Levain& levain = *bake.levain;
  return levain.yeasted() ? freshly_stirred(levain, *own, *flour)
                          : at_its_peak(levain, *own, *flour);
}

}  // namespace

double Bowl::liquid_hydration() const { return liquid / flour; }

double Bowl::real_hydration() const { return added_water / flour; }

MassFraction Bowl::ethanol_of_dough() const { return MassFraction(ethanol / dough); }

Concentration Bowl::ethanol_in_water() const { return ethanol / water_phase; }

AlcoholByVolume Bowl::strength_of_liquid() const {
  if (liquid_volume.si() <= 0) return AlcoholByVolume(0);
  return chemistry::strength_of(liquid_ethanol / liquid_volume);
}

Concentration Bowl::salt_in_water() const { return salt / water_phase; }

Concentration Bowl::sugar_in_water() const {
  return (hexose + sucrose + maltose + lactose) / water_phase;
}

Result<Bowl> in_the_bowl(const Bake& bake, std::span<const Composition> settled) {
  if (settled.size() != bake.bowl.size()) {
    return failure(
        ErrorCode::bad_input, bake.file, "there is not one composition for each line of the bowl");
  }
  const auto plan = internal::weigh(bake, settled);
  if (!plan) return failure(plan);
  Bowl bowl;
  Parts parts;
  Contents sum;
  double apart = 0;  // volume of each drink's water and alcohol on its own
  bowl.lines.reserve(settled.size());
  for (std::size_t i = 0; i < settled.size(); ++i) {
    bowl.lines.push_back(weighed(bake.bowl[i], (*plan)[i], settled[i]));
    const Contents& c =
        parts.per_kilogram.emplace_back(internal::per_kilogram(bake.bowl[i], settled[i]));
    const double mass = parts.mass.emplace_back(bowl.lines[i].actual.si());
    add(sum, c, mass);
    apart += mass * internal::mixture_volume(c[Part::poured_water], c[Part::poured_ethanol]);
  }
  if (!(sum[Part::flour] > 0)) return failure(ErrorCode::bad_input, bake.file, "holds no flour");
  const double gas = gas_that_stays(sum, bake.bulk_temperature());
  fill_sums(sum, gas, bowl);
  fill_volumes(sum, apart, bowl);
  fill_percent(bake, bowl);
  bowl.water_activity = water_activity(sum);
  const auto ph = mixed_ph(bake, settled, parts, sum, gas, true);
  if (!ph) return failure(ph);
  const auto at_first = mixed_ph(bake, settled, parts, sum, gas, false);
  if (!at_first) return failure(at_first);
  bowl.ph = *ph;
  bowl.ph_at_first = *at_first;
  fill_pieces(bake, bowl);
  return bowl;
}

std::string Bowl::percent_of_what() const {
  if (percent_of_weighed) return "the flour weighed";
  return levain_flour > Mass{} ? "all flour, the levain's too" : "all flour";
}

Result<Bowl> in_the_bowl(const Bake& bake) {
  const auto settled = settle(bake);
  if (!settled) return failure(settled);
  auto bowl = in_the_bowl(bake, *settled);
  if (!bowl) return bowl;
  bowl->cautions = cautions(bake, *bowl);
  bowl->doubts = doubts(bake);
  return bowl;
}

Result<std::vector<Composition>> settle(const Bake& bake) {
  std::vector<Composition> settled;
  settled.reserve(bake.bowl.size());
  for (const Portion& portion : bake.bowl) {
    const auto one = settle(bake, portion);
    if (!one) return failure(ErrorCode::bad_input, portion.place, one.error().message);
    settled.push_back(*one);
  }
  return settled;
}

}  // namespace barm::formula
