#include "taste/contents.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "generated/constants.h"
#include "generated/tables.h"

namespace barm::taste {

using larder::Group;
using larder::Property;

namespace {

constexpr double strong_from = 0.03;          // vol: from here on the thresholds are those in wine
constexpr double litre_of_kilogram = 1000.0;  // times the inverse of a density in kg/m3

constexpr std::array acids = {Property::lactic_acid,
                              Property::acetic_acid,
                              Property::tartaric_acid,
                              Property::malic_acid,
                              Property::citric_acid,
                              Property::succinic_acid,
                              Property::gluconic_acid};

constexpr std::array sugars = {
    Property::glucose, Property::fructose, Property::sucrose, Property::maltose, Property::lactose};

std::size_t row_of_taste(std::string_view name) {
  const auto* const found = std::find_if(std::begin(tables::tastes),
                                         std::end(tables::tastes),
                                         [&](const auto& row) { return row.name == name; });
  return static_cast<std::size_t>(found - std::begin(tables::tastes));
}

/// A range as wide as a doubt beside its own.
Between widened(Between range, double doubt) {
  const double wide = std::exp(1.645 * doubt);
  return {range.low / wide, range.middle, range.high * wide};
}

/// What a kilogram of dough gets of something that a litre of drink holds.
Between times(Between range, double factor) {
  return {range.low * factor, range.middle * factor, range.high * factor};
}

/// Of each portion: what share of the dough it is, and how to count it.
struct Poured {
  const formula::Portion& portion;
  std::size_t place;
  double share;  ///< of the dough by mass
  double litres_per_kilogram;
  bool strong;
};

Between of_property(const Poured& poured, Property property, double settled) {
  const auto& known = poured.portion.ingredient[property];
  if (!known || known->typical <= 0) return {settled, settled, settled};
  return {settled * known->low / known->typical, settled, settled * known->high / known->typical};
}

void add_scent(const Poured& poured,
               std::size_t scent,
               Between in_litre,
               Kinship kinship,
               std::string_view source,
               Contents& out) {
  const double kilograms = poured.share * poured.litres_per_kilogram;  // litres a kilogram of dough
  out.scents.push_back({.scent = scent,
                        .portion = poured.place,
                        .amount = times(in_litre, kilograms * 1e-3),
                        .in_drink = in_litre.middle,
                        .strong = poured.strong,
                        .kinship = kinship,
                        .source = source});
}

/// Alcohol and vinegar stand in the larder, per kilogram.
void add_of_larder(const Poured& poured,
                   std::string_view scent,
                   Property property,
                   const larder::Composition& settled,
                   Contents& out) {
  const double amount = settled[property];
  const auto place = scent_named(scent);
  if (amount <= 0 || !place) return;
  constexpr double micrograms = 1e9;
  const Between in_litre =
      times(of_property(poured, property, amount), micrograms / poured.litres_per_kilogram);
  const auto& known = poured.portion.ingredient[property];
  const std::string_view source =
      known && known->source != nullptr ? known->source->key : "derived";
  add_scent(poured, *place, in_litre, Kinship::same, source, out);
}

bool stated(const larder::Ingredient& ingredient, std::size_t scent) {
  return std::any_of(ingredient.scents.begin(), ingredient.scents.end(), [&](const auto& one) {
    return scent_named(one.name) == scent;
  });
}

void add_of_table(const Poured& poured, const SmellsLike& like, Contents& out) {
  const double doubt = like.kinship == Kinship::near ? constants::mouth::near_doubt.value.si() : 0;
  for (const auto& row : tables::drinks_scents) {
    if (row.drink != like.drink) continue;
    const Between range = widened({row.low, row.typical, row.high}, doubt);
    const auto scent = scent_named(row.compound);
    if (scent && !stated(poured.portion.ingredient, *scent)) {
      add_scent(poured, *scent, range, like.kinship, row.source, out);
    }
    if (scent) continue;
    out.bitter.push_back({row_of_taste(row.compound),
                          times(range, poured.share * poured.litres_per_kilogram * 1e-3),
                          row.source});
  }
}

void add_stated(const Poured& poured, Contents& out) {
  for (const larder::StatedScent& one : poured.portion.ingredient.scents) {
    const auto scent = scent_named(one.name);
    if (!scent) continue;  // the reader refuses it
    const double in_litre = one.share * 1e9 / poured.litres_per_kilogram;
    add_scent(poured,
              *scent,
              {in_litre, in_litre, in_litre},
              Kinship::stated,
              "as the bake file says",
              out);
  }
}

void add_bitter(const Poured& poured,
                std::string_view name,
                Property property,
                const larder::Composition& settled,
                Contents& out) {
  const double amount = settled[property];
  if (amount <= 0) return;
  const auto& known = poured.portion.ingredient[property];
  out.bitter.push_back({row_of_taste(name),
                        times(of_property(poured, property, amount), 1e6 * poured.share),
                        known && known->source != nullptr ? known->source->key : "derived"});
}

void add_drink(const Poured& poured, const larder::Composition& settled, Contents& out) {
  const larder::Ingredient& ingredient = poured.portion.ingredient;
  add_of_larder(poured, "ethanol", Property::ethanol, settled, out);
  add_of_larder(poured, "acetic acid", Property::acetic_acid, settled, out);
  add_bitter(poured, "iso-alpha-acids", Property::iso_alpha_acids, settled, out);
  add_bitter(poured, "caffeine", Property::caffeine, settled, out);
  add_stated(poured, out);
  const auto like = smells_like(ingredient);
  if (!like) return;
  if (like->kinship == Kinship::unknown) {
    out.unknown.push_back(ingredient.name);
    return;
  }
  if (like->kinship == Kinship::near)
    out.near.push_back(fmt::format("{} is taken to smell like {}", ingredient.name, like->drink));
  add_of_table(poured, *like, out);
}

void add_acids(std::span<const larder::Composition> settled,
               const formula::Bake& bake,
               const formula::Bowl& bowl,
               Contents& out) {
  for (std::size_t k = 0; k < acids.size(); ++k) {
    const auto acid = static_cast<chemistry::Acid>(k);
    Sour sour{.acid = acid};
    for (std::size_t i = 0; i < settled.size(); ++i) {
      const double moles = bowl.lines[i].actual.si() * settled[i][acids[k]] /
                           chemistry::molar_mass(acid).si() / bowl.dough.si();
      const bool of_taste = is_drink(bake.bowl[i]) || bake.bowl[i].ingredient.group == Group::acid;
      (of_taste ? sour.of_drinks : sour.of_rest) += moles;
    }
    out.sour.push_back(sour);
  }
}

bool of_flour(const formula::Portion& portion) {
  return portion.ingredient.is_flour() || portion.levain ||
         portion.ingredient.group == Group::starter;
}

std::optional<Between> own(std::string_view part, std::size_t scent) {
  for (const auto& row : tables::breads_own) {
    if (row.part == part && row.compound == scents()[scent].name)
      return Between{row.low, row.typical, row.high};
  }
  return std::nullopt;
}

Poured poured(const formula::Portion& portion,
              std::size_t place,
              double share,
              const larder::Composition& c) {
  return {portion,
          place,
          share,
          litre_of_kilogram / c.density().si(),
          c[Property::strength] >= strong_from};
}

}  // namespace

std::vector<Brought> scents_of_drink(const formula::Portion& portion,
                                     std::size_t place,
                                     const larder::Composition& settled) {
  Contents whole;
  add_drink(poured(portion, place, 1, settled), settled, whole);
  return whole.scents;
}

bool is_drink(const formula::Portion& portion) {
  if (portion.levain || !portion.ingredient.is_liquid()) return false;
  const Group group = portion.ingredient.group;
  return group != Group::water && group != Group::dairy && group != Group::egg &&
         group != Group::starter && group != Group::yeast;
}

std::optional<SmellsLike> smells_like(const larder::Ingredient& ingredient) {
  if (!ingredient.smells_like.empty()) {
    for (const auto& row : tables::drinks_scents) {
      if (row.drink == ingredient.smells_like) return SmellsLike{row.drink, Kinship::same};
    }
  }
  const bool own = ingredient.on_label.own;
  const std::string& key = own ? ingredient.on_label.like : ingredient.key;
  for (const auto& row : tables::scents_of) {
    if (row.key != key) continue;
    const Kinship kinship = row.kinship == "unknown"       ? Kinship::unknown
                            : row.kinship == "near" || own ? Kinship::near
                                                           : Kinship::same;
    return SmellsLike{row.drink, kinship};
  }
  if (ingredient.key == "neutral_spirit" || ingredient.key == "strong_spirit") return std::nullopt;
  return SmellsLike{"", Kinship::unknown};
}

std::vector<std::string_view> kin_of(std::string_view drink) {
  std::string_view family;
  for (const auto& row : tables::drink_families) {
    if (row.drink == drink) family = row.family;
  }
  std::vector<std::string_view> kin;
  for (const auto& row : tables::drink_families) {
    if (row.family == family && row.drink != drink) kin.push_back(row.drink);
  }
  return kin;
}

Contents contents(const formula::Bake& bake,
                  const formula::Bowl& bowl,
                  std::span<const larder::Composition> settled) {
  Contents out;
  const double dough = bowl.dough.si();
  double fat = 0;
  double dry = 0;
  for (std::size_t i = 0; i < settled.size(); ++i) {
    const formula::Portion& portion = bake.bowl[i];
    const larder::Composition& c = settled[i];
    const double share = bowl.lines[i].actual.si() / dough;
    (of_flour(portion) ? dry : fat) +=
        share * (of_flour(portion) ? 1 - c[Property::water] : c[Property::fat]);
    if (!portion.ingredient.is_flour()) {
      for (const Property sugar : sugars) out.sugar += 1e3 * share * c[sugar];
    }
    if (!is_drink(portion) || share <= 0) continue;
    out.glycerol += 1e3 * share * c[Property::glycerol];
    out.ethanol += 1e3 * share * c[Property::ethanol];
    add_drink(poured(portion, i, share, c), c, out);
  }
  out.flour_fat = constants::dough_phases::flour_fat.value.si() * dry;
  out.phases = {bowl.water.si() / dough, dry, fat + out.flour_fat};
  out.salt_in_water = bowl.salt.in(gram) / 58.44 / bowl.water.si();
  add_acids(settled, bake, bowl, out);
  return out;
}

std::optional<Between> own_of_crumb(std::size_t scent) { return own("crumb", scent); }

std::optional<Between> own_of_crust(std::size_t scent) { return own("crust", scent); }

}  // namespace barm::taste
