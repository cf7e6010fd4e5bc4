#include "service/bake/internal/rescue_words.h"

#include <fmt/format.h>

#include <array>

#include "generated/constants.h"
#include "service/bake/internal/spoils.h"

namespace barm::service {

using forecast::Remedy;
using forecast::WayOut;

std::string_view name(Remedy remedy) {
  constexpr std::array<std::string_view, forecast::remedy_count> names{
      "wait", "warm", "cool", "levain", "yeast", "thin", "thin_with_levain", "flatbread"};
  return names[static_cast<std::size_t>(remedy)];
}

bool ready_now(const WayOut& way, Time now) {
  constexpr Time at_once = 0.05 * hour;
  return way.ready.p90 && *way.ready.p90 - now < at_once;
}

namespace internal {

namespace {

constexpr double strong = 15;  // g/L of alcohol in the water from which it is worth speaking of

// More than so many times as fast is a dough that had all but stopped.
constexpr double from_standstill = 20;

std::string times(double factor) {
  if (factor >= 9.5) return fmt::format("{:.0f} times as", factor);
  return fmt::format("{:.1f} times as", factor);
}

std::string speed(const WayOut& way) {
  if (way.speed < 0.05) return "it all but stops";
  if (way.speed < 0.95) return fmt::format("gas comes at {} of the speed", share(way.speed));
  if (way.speed < 1.05) return "gas comes no faster";
  if (way.speed > from_standstill) return "gas comes again where it had all but stopped";
  return fmt::format("gas comes {} fast", times(way.speed));
}

std::string alcohol(const WayOut& way) {
  return fmt::format(
      "alcohol in its water goes from {:.0f} to {:.0f} g/L", way.alcohol_before, way.alcohol_after);
}

std::string rests_on_doughs(const forecast::Rescue& rescue, std::optional<double> risen) {
  if (rescue.options.read) {
    return fmt::format("it is drawn from {} doughs that agree with what was {}",
                       rescue.imagined,
                       risen ? fmt::format("seen, {:.2g} times its volume now", *risen) : "read");
  }
  if (rescue.draws < rescue.imagined) {
    return fmt::format(
        "it is drawn from the {} of {} simulated doughs that are not ready by now; say how far it "
        "has "
        "risen",
        rescue.draws,
        rescue.imagined);
  }
  return fmt::format(
      "it is drawn from {} simulated doughs, without a look at yours; say how far it has risen",
      rescue.draws);
}

// A dough that is not ahead and is ready is not waited for.
bool to_be_used(const WayOut& way, const forecast::Rescue& rescue) {
  return !rescue.options.not_before && ready_now(way, rescue.options.now);
}

}  // namespace

std::string way_in_words(const WayOut& way, const forecast::Rescue& rescue) {
  const forecast::Addition& add = way.addition;
  switch (way.remedy) {
    case Remedy::wait:
      return to_be_used(way, rescue) ? "go on with it: it is ready" : "wait";
    case Remedy::warm:
      return "warm it: a place at " + warmth(*way.place);
    case Remedy::cool:
      return "cool it: a place at " + warmth(*way.place);
    case Remedy::levain:
      return fmt::format("knead in {} of ripe levain", weight(add.levain));
    case Remedy::yeast:
      return fmt::format("knead in {} of fresh yeast", weight(add.yeast));
    case Remedy::thin:
      return fmt::format("thin it: {} flour, {} water", weight(add.flour), weight(add.water));
    case Remedy::thin_with_levain:
      return fmt::format("thin it: {} flour, {} water, {} levain",
                         weight(add.flour),
                         weight(add.water),
                         weight(add.levain));
    case Remedy::flatbread:
      return "bake it as flatbread";
  }
  return "";
}

std::string reason_of(const WayOut& way, const forecast::Rescue& rescue) {
  const bool drinks = way.alcohol_before > strong;
  switch (way.remedy) {
    case Remedy::wait:
      if (to_be_used(way, rescue)) return "it has risen as far as is wanted of it";
      return rescue.options.not_before
                 ? "it goes on as it is; the question is how long it stays good"
                 : "it goes on as it is, and nothing is spoilt by handling";
    case Remedy::warm:
      if (way.too_warm) {
        return fmt::format("not advised: above {} a levain's yeast slows down{}",
                           warmth(constants::rescue::warmest.value),
                           drinks ? " and copes with less alcohol" : "");
      }
      return fmt::format("{} once it has warmed through; in an hour it reaches {}{}",
                         speed(way),
                         warmth(Temperature::from_celsius(way.degrees_after_hour)),
                         drinks ? "; alcohol slows it more when warm" : "");
    case Remedy::cool:
      return fmt::format("{} once it has cooled through, but in an hour it still has {}",
                         way.speed < 0.05 ? "it all but stops" : speed(way),
                         warmth(Temperature::from_celsius(way.degrees_after_hour)));
    case Remedy::levain:
      return speed(way) + ", but kneading drives half of its gas out";
    case Remedy::yeast:
      return speed(way) +
             " before the yeast is awake; then it is a yeasted dough, not the levain's alone";
    case Remedy::thin:
      return drinks ? alcohol(way) + "; the new flour feeds it, but half of its gas is lost"
                    : "the new flour feeds it, but cells and gas are spread over more dough";
    case Remedy::thin_with_levain:
      return (drinks ? alcohol(way) : speed(way)) + ", and new cells come with the new flour";
    case Remedy::flatbread:
      return fmt::format(
          "rolled thin and baked hot it needs no more rise than it has now, about {:.1f} times",
          rescue.rise_middle);
  }
  return "";
}

std::string cost_of(const ToldWay& told,
                    const forecast::Rescue& rescue,
                    const std::string& currency) {
  const std::string price = told.money ? fmt::format(" ({:.2f} {})", *told.money, currency) : "";
  switch (told.way.remedy) {
    case Remedy::wait:
      return to_be_used(told.way, rescue) ? "no time and no handling"
                                          : "time, and a look now and then";
    case Remedy::warm:
      return "a warm place, and looking in more often";
    case Remedy::cool:
      return "room in the cold, and time to come back";
    case Remedy::levain:
      return fmt::format("the levain{}, a kneading", price);
    case Remedy::yeast:
      return "the yeast, a kneading, and the name of a levain loaf";
    case Remedy::thin:
    case Remedy::thin_with_levain:
      return fmt::format(
          "the flour{}, a kneading; {} more dough to bake and sell, a weaker taste of the drink",
          price,
          weight(told.way.addition.all()));
    case Remedy::flatbread:
      return "the loaves it should have been";
  }
  return "";
}

std::vector<std::string> cautions_of(const RescueAnswer& answer, const formula::Bowl& bowl) {
  namespace limits = constants::caution;
  std::vector<std::string> lines;
  const forecast::Rescue& rescue = answer.rescue;
  if (spoils_warm(answer.bake) && rescue.temperature > limits::warm.value &&
      rescue.options.by > limits::warm_long.value) {
    lines.push_back(
        fmt::format("Milk or egg has stood {} at {} and would stand longer: germs grow while a "
                    "dough is mild, and baking does "
                    "not destroy every poison. When in doubt bakers throw it away. Your food "
                    "authority's rules hold.",
                    span(rescue.options.now),
                    warmth(rescue.temperature)));
  }
  const double ethanol = bowl.ethanol_of_dough().value();
  if (ethanol > limits::ethanol_vapour.value.si()) {
    lines.push_back(
        fmt::format("Alcohol is {:.1f} % of the dough. A flatbread gives it off at once on a hot "
                    "plate, and vapour can catch "
                    "fire: bakers vent oven and room, no flames. The oven maker's rules hold.",
                    100 * ethanol));
  }
  lines.emplace_back(
      "Raw flour and dough can carry germs, also a flatbread that is not baked through; bakers do "
      "not taste them "
      "raw. Your food authority's rules hold.");
  lines.emplace_back(
      "A dough that goes on working in a closed tub or bag can burst it; bakers leave the lid "
      "loose.");
  return lines;
}

std::string giving_up_in_words(const RescueAnswer& answer, const time::WallClock& clock) {
  const forecast::GivingUp& up = answer.rescue.giving_up;
  const std::string by = clock.moment(answer.rescue.options.by);
  const std::string lost = answer.bowl_money
                               ? fmt::format("; the ingredients with a price cost {:.2f} {}",
                                             *answer.bowl_money,
                                             answer.currency)
                               : "";
  const WayOut& advised = answer.ways.front().way;
  if (advised.remedy == Remedy::wait && to_be_used(advised, answer.rescue))
    return "nothing to give up: it is ready";
  if (!up.at)
    return fmt::format(
        "too early to give up before {}: a late start may still come good{}", by, lost);
  const std::string when =
      *up.at == answer.rescue.options.now
          ? "now, unless it has risen by a fifth: the others"
          : clock.moment(*up.at) + ", if it has not risen by a fifth by then: such doughs";
  return fmt::format("{} are ready by {} in fewer than 1 in 10 cases{}", when, by, lost);
}

std::string what_it_rests_on(const RescueAnswer& answer, std::optional<double> risen) {
  std::string doughs = rests_on_doughs(answer.rescue, risen);
  if (answer.asked_for)
    doughs += fmt::format("; {} is more than most such doughs can hold: {} is asked of it",
                          service::risen(*answer.asked_for),
                          service::risen(answer.rescue.target));
  return answer.culture.empty() ? doughs
                                : doughs + "; starting from what " + answer.culture + " has taught";
}

}  // namespace internal

}  // namespace barm::service
