#include "formula/internal/prepared.h"

#include <fmt/format.h>

#include "drink/prepare.h"
#include "drink/simmer.h"
#include "formula/internal/reading.h"
#include "formula/solve.h"
#include "formula/words.h"
#include "larder/composition.h"
#include "larder/larder.h"
#include "units/units.h"

namespace barm::formula::internal {

using larder::Composition;
using larder::Ingredient;
using larder::Property;
using Take = std::function<Labelled(std::string_view, const FilePlace&)>;

namespace {

Composition typical_of(const Ingredient& ingredient, const FilePlace& place) {
  return at_place(larder::typical(ingredient), place);
}

AlcoholByVolume strength_in(const Node& value) {
  const WrittenAmount amount = at_place(parse_amount(text_of(value, "2 % vol")), value.place);
  if (!amount.by_volume || amount.value < 0 || amount.value > 1)
    stop(value.place, "a strength is like \"2 % vol\"");
  return AlcoholByVolume(amount.value);
}

/// One drink on its way from the bottle to the bowl.
class Preparation {
 public:
  Preparation(const Entry& entry, const Take& take) : table_(entry.value), take_(take) {
    check_keys(table_,
               "of a drink that is prepared",
               {"of", "flat", "steep", "dose", "simmer_to", "simmer_until", "thin_to"});
    const Node* of = find(table_, "of");
    if (of == nullptr) stop(entry.place, "a drink is prepared from another: write of = \"stout\"");
    from_ = take(text_of(*of, "stout"), of->place);
    if (!from_.made_of.empty()) stop(of->place, "is prepared itself: say all its steps in one");
    if (!from_.ingredient.is_liquid()) stop(of->place, "is not poured: prepare a drink");
    before_ = now_ = typical_of(from_.ingredient, of->place);
    place_ = of->place;
  }

  Labelled made(const Entry& entry) {
    go_flat();
    steep();
    simmer();
    thin();
    if (words_.empty())
      stop(entry.place,
           "nothing is done to it: write simmer_to = \"60 %\", flat = true, "
           "thin_to = \"5 % vol\" or steep = \"raisins\"");
    Labelled out;
    out.ingredient = drink::remade(from_.ingredient, before_, now_, simmered_);
    out.ingredient.allergens.insert(
        out.ingredient.allergens.end(), brought_.begin(), brought_.end());
    out.ingredient.on_label.own = true;
    out.ingredient.on_label.like =
        from_.ingredient.on_label.own ? from_.ingredient.on_label.like : from_.ingredient.key;
    out.ingredient.key = folded(entry.key);
    out.ingredient.name = std::string(trimmed(entry.key));
    out.ingredient.also.clear();
    out.reading = words_;
    made_of_.insert(made_of_.begin(), {from_.ingredient, needs_, from_.price, from_.currency});
    out.made_of = made_of_;
    return out;
  }

 private:
  void say(const std::string& words) { words_ += (words_.empty() ? "" : ", ") + words; }

  void go_flat() {
    const Node* flat = find(table_, "flat");
    if (flat == nullptr) return;
    if (flat->kind != Node::Kind::truth) stop(flat->place, "is true or false");
    if (flat->number == 0) return;
    now_ = drink::flat(now_);
    say("let go flat");
  }

  void steep() {
    const Node* what = find(table_, "steep");
    const Node* dose = find(table_, "dose");
    if ((what == nullptr) != (dose == nullptr))
      stop((what != nullptr ? what : dose)->place,
           "what is steeped has a dose: write steep = \"raisins\" and dose = \"5 %\"");
    if (what == nullptr) return;
    const Labelled leaves = take_(text_of(*what, "raisins"), what->place);
    const double share = share_of(*dose, "5 %", 0, 0.5);
    const auto steeped = at_place(
        drink::steeped(now_, typical_of(leaves.ingredient, what->place), share), dose->place);
    now_ = steeped.composition;
    take_more(steeped.needs);
    made_of_.push_back({leaves.ingredient, share * steeped.needs, leaves.price, leaves.currency});
    brought_ = leaves.ingredient.allergens;
    say(fmt::format("{} steeped in it and strained off", leaves.ingredient.name));
  }

  void simmer() {
    const Node* to = find(table_, "simmer_to");
    const Node* until = find(table_, "simmer_until");
    if (to == nullptr && until == nullptr) return;
    drink::Until end;
    if (to != nullptr) end.share = share_of(*to, "60 %", 0.02, 1);
    if (until != nullptr) {
      end.strength = strength_in(*until);
      if (end.strength.value() < 0.0005)
        stop(until->place, "the last of it never goes: write \"0.5 % vol\"");
    }
    const FilePlace& place = (to != nullptr ? to : until)->place;
    drink::Pan pan;
    pan.heat = drink::usual_heat();
    const auto left = at_place(drink::simmer(now_, pan, end), place);
    now_ = left.left;
    simmered_ = true;
    const double share = left.mass / pan.drink;
    take_more(1 / share);
    say(fmt::format("simmered to {:.0f} % of its weight, about {:.0f} min a kilogram",
                    100 * share,
                    left.lasts.in(minute)));
  }

  void thin() {
    const Node* to = find(table_, "thin_to");
    if (to == nullptr) return;
    const AlcoholByVolume wanted = strength_in(*to);
    const Ingredient as_it_is = drink::remade(from_.ingredient, before_, now_, false);
    const auto mixed = at_place(formula::thin(as_it_is, wanted, 1.0 * kilogram), to->place);
    const auto thinned = drink::thinned(now_, mixed.drink.in(kilogram));
    now_ = thinned.composition;
    take_more(thinned.needs);
    const Ingredient* water = larder::find("water");
    if (water != nullptr) made_of_.push_back({*water, mixed.water.in(kilogram), {}, ""});
    say(fmt::format("thinned with {:.0f} g of water a kilogram", mixed.water.in(gram)));
  }

  /// A kilogram of what is made now takes so much of what there was.
  void take_more(double needs) {
    needs_ *= needs;
    for (MadeOf& one : made_of_) one.needs *= needs;
  }

  const Node& table_;
  const Take& take_;
  Labelled from_;
  FilePlace place_;
  Composition before_, now_;
  double needs_ = 1;
  bool simmered_ = false;
  std::vector<MadeOf> made_of_;
  std::vector<std::string> brought_;
  std::string words_;
};

}  // namespace

Labelled prepared(const Entry& entry, const Take& take) {
  return Preparation(entry, take).made(entry);
}

}  // namespace barm::formula::internal
