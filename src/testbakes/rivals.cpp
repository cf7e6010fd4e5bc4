#include "testbakes/rivals.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "chemistry/sulphite.h"
#include "generated/constants.h"
#include "generated/tables.h"
#include "larder/larder.h"
#include "testbakes/causes.h"
#include "units/units.h"

namespace barm::testbakes {

using formula::Bake;
using formula::Bowl;
using formula::Portion;
using larder::Composition;
using larder::Group;
using larder::Property;

namespace {

constexpr double solved = 1e-9;  // of the flour's mass, and of a pH unit
constexpr int most_rounds = 60;
constexpr double alike_enough = 0.7;               // of what can bite in the base bake
constexpr const char* simmered_too = "_simmered";  // how the key of such a drink ends

bool is_drink(const Portion& portion) { return portion.ingredient.group == Group::drink; }

std::size_t line_of(Bake& bake, const larder::Ingredient& ingredient) {
  for (std::size_t i = 0; i < bake.bowl.size(); ++i) {
    if (bake.bowl[i].ingredient.key == ingredient.key && !bake.bowl[i].levain) return i;
  }
  Portion portion;
  portion.ingredient = ingredient;
  portion.measure = formula::Measure::mass;
  bake.bowl.push_back(portion);
  return bake.bowl.size() - 1;
}

std::size_t water_of(Bake& bake) {
  for (std::size_t i = 0; i < bake.bowl.size(); ++i) {
    if (bake.bowl[i].ingredient.key == "water") return i;
  }
  return line_of(bake, *larder::find("water"));
}

/// An ingredient that is exactly this composition.
larder::Ingredient exactly(larder::Ingredient ingredient, const Composition& c) {
  for (std::size_t p = 0; p < larder::property_count; ++p) {
    const auto property = static_cast<Property>(p);
    if (property == Property::strength || property == Property::density) {
      ingredient.known[p].reset();
    } else {
      const data::Source* source =
          ingredient.known[p] ? ingredient.known[p]->source : &source::derived;
      ingredient.known[p] = larder::Known{c.value[p], c.value[p], c.value[p], source, ""};
    }
  }
  return ingredient;
}

/// The drink with its alcohol simmered off and made up with water to its weight again.
Result<larder::Ingredient> simmered(const larder::Ingredient& drink, Time lasts) {
  const auto own = larder::typical(drink);
  if (!own) return failure(own);
  Composition c = *own;
  c[Property::ethanol] *= alcohol_left(lasts);
  const double sulphite_lost =
      (1 - constants::simmer::free_sulphite_left.value.si()) * c[Property::free_sulphite];
  c[Property::free_sulphite] -= sulphite_lost;
  c[Property::total_sulphite] -= sulphite_lost;
  c[Property::carbon_dioxide] = 0;
  for (const Property live :
       {Property::lactic_bacteria, Property::wild_yeast, Property::bakers_yeast})
    c[live] = 0;
  larder::Ingredient out = exactly(drink, c);
  out.key += simmered_too;
  out.name += ", simmered";
  out.also.clear();
  return out;
}

/// The larder's stock solution thinned to `strength` of the salt.
larder::Ingredient stock_solution(const larder::Ingredient& of_larder, double thinner) {
  if (thinner == 1) return of_larder;
  larder::Ingredient out = of_larder;
  double solids = 0;
  for (const Property property :
       {Property::total_sulphite, Property::free_sulphite, Property::ash}) {
    auto& known = out[property];
    if (!known) continue;
    for (double* value : {&known->typical, &known->low, &known->high}) *value /= thinner;
    if (property != Property::free_sulphite) solids += known->typical;
  }
  out[Property::water] = larder::Known{1 - solids, 1 - solids, 1 - solids, &source::derived, ""};
  out[Property::density].reset();
  out.key += fmt::format("_by_{:g}", thinner);
  out.name = fmt::format("potassium metabisulphite solution, {:g} %", 10 / thinner);
  out.also.clear();
  return out;
}

// A kitchen scale that shows grams weighs ten of them to a tenth; a fine one a tenth of a gram.
constexpr Mass fine = 0.5 * gram;

Stock stock_of(double thinner, Mass dose) {
  Stock stock;
  stock.strength = MassFraction(0.1 / thinner);
  stock.dose = dose;
  const Mass batch = std::max(100.0 * gram, 100.0 * gram * std::ceil(2 * dose.in(gram) / 100));
  stock.salt = stock.strength.value() * batch;
  stock.water = batch - stock.salt;
  if (stock.salt >= fine) return stock;
  stock.in_two_steps = true;
  stock.first_salt = 1.0 * gram;
  stock.first_water = 99.0 * gram;
  stock.from_first = stock.salt * 100.0;
  stock.water = batch - stock.from_first;
  return stock;
}

// --- making ---

class Making {
 public:
  Making(const Bake& base, const Recipe& recipe) : recipe_(recipe) {
    rival_.name = recipe.name;
    rival_.words = recipe.words;
    rival_.bake = base;
    rival_.bake.name = recipe.name;
  }

  Result<Rival> go(const Bowl& base) {
    base_ = &base;
    for (const Portion& portion : rival_.bake.bowl) {
      if (is_drink(portion)) of_the_base_.push_back(portion.ingredient.key);
    }
    for (const Step& step : recipe_.steps) {
      const auto done = std::visit([&](const auto& one) { return apply(one); }, step);
      if (!done) return failure(done);
    }
    const auto weighed = weigh();
    if (!weighed) return failure(weighed);
    return finished();
  }

 private:
  tl::unexpected<Error> cannot(const std::string& why) const {
    return failure(
        ErrorCode::cannot_be_met, recipe_.place, fmt::format("\"{}\": {}", recipe_.name, why));
  }

  Portion* drink(const std::string& words) {
    const auto at = rival_.bake.find(words);
    return at && is_drink(rival_.bake.bowl[*at]) ? &rival_.bake.bowl[*at] : nullptr;
  }

  tl::unexpected<Error> gone(const std::string& words) const {
    return failure(ErrorCode::bad_input,
                   recipe_.place,
                   fmt::format("\"{}\": {} is not in this dough any more", recipe_.name, words));
  }

  Result<bool> apply(const step::Plain&) {
    auto& bowl = rival_.bake.bowl;
    bowl.erase(std::remove_if(bowl.begin(), bowl.end(), is_drink), bowl.end());
    return true;
  }

  Result<bool> apply(const step::Swap& swap) {
    Portion* portion = drink(swap.from);
    if (portion == nullptr) return gone(swap.from);
    portion->ingredient = swap.to;
    portion->price = swap.price;
    portion->currency = swap.currency;
    swapped_ = swap.to.key;
    return true;
  }

  Result<bool> apply(const step::Simmer& simmer) {
    Portion* portion = drink(simmer.drink);
    if (portion == nullptr) return gone(simmer.drink);
    auto out = simmered(portion->ingredient, simmer.lasts);
    if (!out) return failure(out);
    portion->ingredient = *std::move(out);
    rival_.notes.push_back(
        fmt::format("simmering for {:.0f} min leaves about {:.0f} % of its alcohol",
                    simmer.lasts.in(minute),
                    100 * alcohol_left(simmer.lasts)));
    return true;
  }

  Result<bool> apply(const step::Pour& pour) {
    Portion* portion = drink(pour.drink);
    if (portion == nullptr) return gone(pour.drink);
    const auto at = static_cast<std::size_t>(portion - rival_.bake.bowl.data());
    const std::size_t water = water_of(rival_.bake);  // may move the portions
    const double both = rival_.bake.bowl[at].amount + rival_.bake.bowl[water].amount;
    double all = 0;
    for (const Portion& one : rival_.bake.bowl)
      all += one.ingredient.is_liquid() && !one.levain ? one.amount : 0;
    constexpr double rounding = 1e-9;
    if (pour.share * all > both + rounding) {
      return cannot(fmt::format("{} can be {:.3g} % of the liquid at most: the rest is no water",
                                pour.drink,
                                100 * both / all));
    }
    rival_.bake.bowl[at].amount = pour.share * all;
    rival_.bake.bowl[water].amount = std::max(0.0, both - pour.share * all);
    if (pour.share == 0)
      rival_.bake.bowl.erase(rival_.bake.bowl.begin() + static_cast<std::ptrdiff_t>(at));
    return true;
  }

  Result<bool> apply(const step::Match& match) {
    rival_.alike.push_back(match.what);
    matches_.push_back(match);
    return true;
  }

  [[nodiscard]] Result<Bowl> bowl() const {
    const auto settled = formula::settle(rival_.bake);
    if (!settled) return failure(settled);
    return formula::in_the_bowl(rival_.bake, *settled);
  }

  /// Weighs the additions one after another, round by round, until nothing moves.
  Result<bool> weigh() {
    for (int round = 0; round < most_rounds; ++round) {
      double moved = 0;
      for (step::Match& match : matches_) {
        const auto by = meet(match);
        if (!by) return failure(by);
        moved = std::max(moved, *by);
      }
      const auto by = meet_water();
      if (!by) return failure(by);
      if (std::max(moved, *by) < solved) return true;
    }
    return failure(ErrorCode::no_convergence,
                   recipe_.place,
                   fmt::format("\"{}\": no weights were found that match", recipe_.name));
  }

  Result<double> meet(step::Match& match) {
    switch (match.what) {
      case Alike::alcohol:
        return meet_mass(
            match, [](const Bowl& b) { return b.ethanol; }, Property::ethanol, "alcohol");
      case Alike::sugar:
        return meet_mass(
            match,
            [](const Bowl& b) { return b.hexose + b.sucrose + b.maltose; },
            Property::sucrose,
            "sugar");
      case Alike::sulphite:
        return meet_sulphite(match);
      case Alike::acid:
        return meet_ph(match);
    }
    return 0;
  }

  /// Grams of the thing per kilogram of what is matched with.
  static Result<double> content(const larder::Ingredient& with, Property property) {
    const auto c = larder::typical(with);
    if (!c) return failure(c);
    if (property != Property::sucrose) return (*c)[property];
    return (*c)[Property::sucrose] + (*c)[Property::glucose] + (*c)[Property::fructose] +
           (*c)[Property::maltose];
  }

  /// addition += (wanted - there) / content
  Result<double> meet_mass(const step::Match& match,
                           const std::function<Mass(const Bowl&)>& of,
                           Property property,
                           const char* what) {
    const auto share = content(match.with, property);
    if (!share) return failure(share);
    if (*share < 1e-6) return cannot(match.with.name + " brings no " + what);
    const auto now = bowl();
    if (!now) return failure(now);
    const Mass lacks = of(*base_) - of(*now);
    const std::size_t at = line_of(rival_.bake, match.with);
    return add(at,
               lacks / *share,
               match,
               fmt::format("{} {:.3g} g", what, of(*now).in(gram)),
               fmt::format("{:.3g} g", of(*base_).in(gram)));
  }

  /// Moves a weight; below zero nothing can be taken out.
  Result<double> add(std::size_t at,
                     Mass more,
                     const step::Match&,
                     const std::string& holds,
                     const std::string& wanted) {
    Portion& portion = rival_.bake.bowl[at];
    const double before = portion.amount;
    const double after = before + more.in(kilogram);
    if (after < -1e-5 * base_->flour.in(kilogram)) {
      return cannot(
          fmt::format("it holds {} already against {} in the base bake, and nothing can be "
                      "taken out. Pour less of its drink",
                      holds,
                      wanted));
    }
    portion.amount = std::max(0.0, after);
    return std::abs(portion.amount - before) / base_->flour.in(kilogram);
  }

  Result<double> meet_sulphite(step::Match& match) {
    const auto now = bowl();
    if (!now) return failure(now);
    if (match.with.key == "metabisulphite_solution" && !stock_chosen_) {
      choose_stock(match, base_->free_sulphite - now->free_sulphite);
    }
    return meet_mass(
        match,
        [](const Bowl& b) { return b.free_sulphite; },
        Property::free_sulphite,
        "free sulphite");
  }

  /// The weakest of three strengths of which there is something to weigh.
  void choose_stock(step::Match& match, Mass lacks) {
    stock_chosen_ = true;
    const auto c = larder::typical(match.with);
    if (!c) return;
    const Mass of_strong = lacks / (*c)[Property::free_sulphite];
    for (const double thinner : {1.0, 10.0, 100.0}) {
      thinner_ = thinner;
      if (thinner * of_strong >= constants::stock::least_weighed.value) break;
    }
    match.with = stock_solution(match.with, thinner_);
  }

  /// pH falls as acid is added: bisection on its weight.
  Result<double> meet_ph(const step::Match& match) {
    const std::size_t at = line_of(rival_.bake, match.with);
    const double before = rival_.bake.bowl[at].amount;
    const auto ph_with = [&](double mass) -> Result<double> {
      rival_.bake.bowl[at].amount = mass;
      const auto now = bowl();
      if (!now) return failure(now);
      return now->ph.value();
    };
    const double wanted = base_->ph.value();
    const auto without = ph_with(0);
    if (!without) return failure(without);
    if (*without < wanted - 0.02) {
      return cannot(
          fmt::format("its pH is {:.2f} already against {:.2f} in the base bake, and acid "
                      "cannot be taken out. Pour less of its drink",
                      *without,
                      wanted));
    }
    double low = 0;
    double high = 0.1 * base_->flour.in(kilogram);
    const auto most = ph_with(high);
    if (!most) return failure(most);
    if (*most > wanted) return cannot(match.with.name + " does not bring the pH down so far");
    while (high - low > 1e-10 * base_->flour.in(kilogram)) {
      const double middle = 0.5 * (low + high);
      const auto here = ph_with(middle);
      if (!here) return failure(here);
      (*here > wanted ? low : high) = middle;
    }
    rival_.bake.bowl[at].amount = low;
    return std::abs(low - before) / base_->flour.in(kilogram);
  }

  /// water += (real water over flour wanted - there) flour / water's own water; where there is not
  /// so much water to take out, less of the swapped drink.
  Result<double> meet_water() {
    const auto now = bowl();
    if (!now) return failure(now);
    const double lacks =
        (base_->real_hydration() - now->real_hydration()) * now->flour.in(kilogram);
    const std::size_t at = water_of(rival_.bake);
    Portion& water = rival_.bake.bowl[at];
    const double before = water.amount;
    water.amount = before + lacks;
    if (water.amount >= 0) return std::abs(lacks) / base_->flour.in(kilogram);
    const double over = -water.amount;
    water.amount = 0;
    for (Portion& portion : rival_.bake.bowl) {
      if (portion.ingredient.key != swapped_ || swapped_.empty()) continue;
      const auto c = larder::typical(portion.ingredient);
      if (!c) return failure(c);
      const double less = over / (*c)[Property::water];
      if (less > portion.amount) break;
      portion.amount -= less;
      if (!poured_less_) {
        rival_.notes.push_back("less is poured of " + portion.ingredient.name +
                               ", so that the real water stays");
      }
      poured_less_ = true;
      return over / base_->flour.in(kilogram);
    }
    return cannot(fmt::format("what is added brings {:.0f} g more water than there is to leave out",
                              1000 * over));
  }

  /// Matched is the free sulphite. What of it can bite hangs on the pH, and a dough without the
  /// drink's acid is milder.
  void say_what_can_bite() {
    if (std::count(rival_.alike.begin(), rival_.alike.end(), Alike::sulphite) == 0) return;
    const auto now = bowl();
    if (!now) return;
    const double here = molecular(*now);
    const double there = molecular(*base_);
    if (here > alike_enough * there) return;
    rival_.notes.push_back(fmt::format(
        "its free sulphite is that of the base bake, but at pH {:.1f} only {} mg/L of it can "
        "bite against {} mg/L there: it says little about the sulphite unless acid is matched too",
        now->ph.value(),
        two_figures(here),
        two_figures(there)));
  }

  [[nodiscard]] double molecular(const Bowl& bowl) const {
    return chemistry::molecular_share(
               bowl.ph, bowl.strength_of_liquid(), rival_.bake.bulk_temperature()) *
           bowl.free_sulphite.in(milligram) / bowl.water_phase.in(litre);
  }

  Result<Rival> finished() {
    auto& lines = rival_.bake.bowl;
    lines.erase(std::remove_if(lines.begin(),
                               lines.end(),
                               [&](const Portion& portion) {
                                 return !portion.levain &&
                                        portion.amount < 1e-7 * base_->flour.in(kilogram);
                               }),
                lines.end());
    for (const Portion& portion : lines) {
      if (portion.ingredient.key.starts_with("metabisulphite_solution"))
        rival_.stocks.push_back(stock_of(thinner_, portion.amount * kilogram));
    }
    say_what_can_bite();
    for (const Portion& portion : lines) {
      const double grams = 1000 * portion.amount;
      if (portion.ingredient.group != Group::acid || grams > 2) continue;
      rival_.notes.push_back(fmt::format(
          "{:.2g} g {} is too little for a kitchen scale: 1 g of it into 99 g water, and "
          "{:.0f} g of that with so much less water",
          grams,
          portion.ingredient.name,
          100 * grams));
    }
    for (const Portion& portion : lines) {
      if (std::any_of(of_the_base_.begin(), of_the_base_.end(), [&](const std::string& key) {
            return portion.ingredient.key == key || portion.ingredient.key == key + simmered_too;
          }))
        rival_.drink += portion.amount * kilogram;
    }
    rival_.plain = rival_.alike.empty() && std::none_of(lines.begin(), lines.end(), is_drink);
    auto settled = formula::settle(rival_.bake);
    if (!settled) return failure(settled);
    auto whole = formula::in_the_bowl(rival_.bake);
    if (!whole) return failure(whole);
    rival_.settled = *std::move(settled);
    rival_.bowl = *std::move(whole);
    return std::move(rival_);
  }

  const Recipe& recipe_;
  const Bowl* base_ = nullptr;
  Rival rival_;
  std::vector<step::Match> matches_;
  std::vector<std::string> of_the_base_;  // keys of its drinks
  std::string swapped_;
  double thinner_ = 1;
  bool stock_chosen_ = false;
  bool poured_less_ = false;
};

}  // namespace

Result<Bake> base_of(const TestBake& test) {
  const auto bowl = formula::in_the_bowl(test.base);
  if (!bowl) return failure(bowl);
  const double scale = test.dough ? (*test.dough / bowl->dough).si() : 1.0;
  std::vector<Mass> masses;
  for (const formula::Weighed& line : bowl->lines) masses.push_back(scale * line.plan);
  Bake base = formula::by_weight(test.base, masses);
  base.pieces.reset();
  return base;
}

Result<Rival> make(const Bake& base, const Recipe& recipe) {
  const auto settled = formula::settle(base);
  if (!settled) return failure(settled);
  const auto bowl = formula::in_the_bowl(base, *settled);
  if (!bowl) return failure(bowl);
  return Making(base, recipe).go(*bowl);
}

Result<std::vector<Rival>> rivals(const TestBake& test) {
  const auto base = base_of(test);
  if (!base) return failure(base);
  std::vector<Rival> out;
  for (const Recipe& recipe : test.doughs) {
    auto rival = make(*base, recipe);
    if (!rival) return failure(rival);
    out.push_back(*std::move(rival));
  }
  return out;
}

larder::Ingredient usual_means(Alike what, const Bake& base) {
  switch (what) {
    case Alike::alcohol:
      return *larder::find("neutral spirit");
    case Alike::sulphite:
      return *larder::find("metabisulphite solution");
    case Alike::sugar:
      return *larder::find("sugar");
    case Alike::acid:
      break;
  }
  constexpr std::pair<Property, const char*> acids[] = {{Property::tartaric_acid, "tartaric acid"},
                                                        {Property::malic_acid, "malic acid"},
                                                        {Property::citric_acid, "citric acid"},
                                                        {Property::lactic_acid, "lactic acid"}};
  const char* most = "citric acid";
  double brings = 0;
  for (const auto& [property, name] : acids) {
    double sum = 0;
    for (const Portion& portion : base.bowl) {
      const auto& known = portion.ingredient[property];
      if (is_drink(portion) && known) sum += known->typical;
    }
    if (sum > brings) {
      brings = sum;
      most = name;
    }
  }
  return *larder::find(most);
}

// --- simmering ---

namespace {

struct Left {
  double minutes, percent;
};

const std::vector<Left>& simmering() {
  static const std::vector<Left> rows = [] {
    std::vector<Left> out;
    for (const auto& row : tables::alcohol_retention_usda) {
      if (row.preparation == "baked or simmered, stirred in")
        out.push_back({row.minutes, row.percent_retained});
    }
    return out;
  }();
  return rows;
}

}  // namespace

Time simmered_least() { return simmering().front().minutes * minute; }

Time simmered_most() { return simmering().back().minutes * minute; }

double alcohol_left(Time simmered) {
  const auto& rows = simmering();
  const double t = std::clamp(simmered.in(minute), rows.front().minutes, rows.back().minutes);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (t > rows[i].minutes) continue;
    const double part = (t - rows[i - 1].minutes) / (rows[i].minutes - rows[i - 1].minutes);
    return 0.01 * (rows[i - 1].percent + part * (rows[i].percent - rows[i - 1].percent));
  }
  return 0.01 * rows.back().percent;
}

// --- differences ---

namespace {

double per_litre(Mass mass, const Bowl& bowl, Mass unit) {
  return mass.in(unit) / bowl.water_phase.in(litre);
}

struct Quantity {
  const char* what;
  const char* unit;
  double least;  // difference that a baker need not care about
  double (*of)(const Bowl&);
};

const Quantity quantities[] = {
    {"alcohol", "g/L", 0.5, [](const Bowl& b) { return per_litre(b.ethanol, b, gram); }},
    {"pH", "", 0.03, [](const Bowl& b) { return b.ph.value(); }},
    {"sugar",
     "g/L",
     1,
     [](const Bowl& b) { return per_litre(b.hexose + b.sucrose + b.maltose, b, gram); }},
    {"free sulphite",
     "mg/L",
     0.5,
     [](const Bowl& b) { return per_litre(b.free_sulphite, b, milligram); }},
    {"bound sulphite",
     "mg/L",
     2,
     [](const Bowl& b) { return per_litre(b.total_sulphite - b.free_sulphite, b, milligram); }},
    {"sorbate", "mg/L", 1, [](const Bowl& b) { return per_litre(b.sorbate, b, milligram); }},
    {"hop acids",
     "mg/L",
     0.3,
     [](const Bowl& b) { return per_litre(b.iso_alpha_acids, b, milligram); }},
    {"salt", "g/L", 0.3, [](const Bowl& b) { return per_litre(b.salt, b, gram); }},
    {"glycerol", "g/L", 0.5, [](const Bowl& b) { return per_litre(b.glycerol, b, gram); }},
    {"carbon dioxide",
     "g/L",
     0.2,
     [](const Bowl& b) { return per_litre(b.carbon_dioxide, b, gram); }},
    {"real water", "% of flour", 0.3, [](const Bowl& b) { return 100 * b.real_hydration(); }},
};

}  // namespace

std::vector<Difference> differences(const Bowl& here, const Bowl& there) {
  std::vector<Difference> out;
  for (const Quantity& quantity : quantities) {
    const double a = quantity.of(here);
    const double b = quantity.of(there);
    const bool ph = quantity.unit[0] == '\0';
    const double least =
        ph ? quantity.least : std::max(quantity.least, 0.02 * std::max(std::abs(a), std::abs(b)));
    if (std::abs(a - b) > least) out.push_back({quantity.what, quantity.unit, a, b});
  }
  return out;
}

std::string in_words(const Difference& d) {
  const double by = d.here - d.there;
  if (d.unit.empty()) {
    return fmt::format("{} {:.2f} instead of {:.2f}", d.what, d.here, d.there);
  }
  return fmt::format("{:.2g} {} {} {}", std::abs(by), d.unit, by > 0 ? "more" : "less", d.what);
}

}  // namespace barm::testbakes
