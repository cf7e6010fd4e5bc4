#include "service/bake/rescue.h"

#include <fmt/format.h>

#include <algorithm>

#include "estimation/suspect.h"
#include "estimation/taken_up.h"
#include "formula/amount.h"
#include "formula/read.h"
#include "generated/constants.h"
#include "service/bake/begun.h"
#include "service/bake/internal/spoils.h"
#include "service/now.h"

namespace barm::service {

using forecast::Remedy;
using forecast::WayOut;

namespace {

constexpr Time unless_said = 12.0 * hour;
constexpr double least_seen = 0.8;  // volume ratios a look may say
constexpr double most_seen = 6;
constexpr double farthest = 3;  // misreadings
constexpr double strong = 15;   // g/L of alcohol in the water from which it is worth speaking of

// A moment as hours after mixing.
Result<Time> after_mixing(const char* field,
                          const std::string& text,
                          const time::WallClock& clock,
                          Time earliest) {
  if (const auto local = clock.next(text, earliest)) return *local;
  const bool like_a_clock = text.find(':') != std::string::npos;
  if (const auto hours = formula::parse_time(text); hours && !like_a_clock) return *hours;
  return failure(
      ErrorCode::bad_input,
      field,
      like_a_clock && !clock.known()
          ? fmt::format(
                "'{}' is a time of day, but the bake does not say when it was mixed ('mixed'); "
                "write hours after mixing, such as 30h",
                text)
          : fmt::format("'{}' is no moment; write hours after mixing such as 30h, or 06:00, or "
                        "2026-11-29T06:00",
                        text));
}

Result<forecast::RescueOptions> options_of(const formula::Bake& bake,
                                           const RescueRequest& request,
                                           const estimation::Readings& readings) {
  auto in_zone = clock_in(request.readings.zone, bake);
  if (!in_zone) return failure(in_zone);
  const time::WallClock clock = *std::move(in_zone);
  forecast::RescueOptions options;
  const Time last = readings.last_hour() * hour;
  if (request.now.empty() && readings.rows.empty())
    return failure(ErrorCode::bad_input, "now", "say how long ago it was mixed, such as 30h");
  const auto now =
      request.now.empty() ? Result<Time>(last) : after_mixing("now", request.now, clock, last);
  if (!now) return failure(now);
  if (*now < last) {
    return failure(ErrorCode::bad_input,
                   "now",
                   fmt::format("lies before the last reading, {} after mixing", span(last)));
  }
  options.now = *now;
  options.by = *now + unless_said;
  if (!request.by.empty()) {
    const auto by = after_mixing("by", request.by, clock, *now);
    if (!by) return failure(by);
    options.by = *by;
  }
  if (!request.not_before.empty()) {
    const auto from = after_mixing("not-before", request.not_before, clock, *now);
    if (!from) return failure(from);
    options.not_before = *from;
  }
  if (options.by.in(hour) > 336)
    return failure(ErrorCode::bad_input, "by", "no later than 14 days after mixing");
  options.places = request.places;
  options.temperature = request.temperature;
  options.seed = request.seed;
  options.threads = request.threads;
  options.cancelled = request.cancelled;
  return options;
}

// What is seen now is a reading like others, but judged by eye.
Result<estimation::Readings> with_look(estimation::Readings readings, double risen, Time now) {
  if (!(risen >= least_seen && risen <= most_seen))
    return failure(ErrorCode::bad_input,
                   "risen",
                   fmt::format("a volume against that at mixing, from {:g} to {:g}, such as 1.3",
                               least_seen,
                               most_seen));
  estimation::Reading look;
  look.at = now;
  look.ratio = risen;
  look.ratio_doubt = constants::rescue::misread.value.si();
  readings.rows.push_back(look);
  return readings;
}

// A look that no dough comes near is a mistake, which the readings' long tail would pass over.
std::optional<Error> mistaken(const forecast::Rescue& rescue, double risen) {
  const double misread = constants::rescue::misread.value.si();
  if (std::abs(rescue.rise_middle / risen - 1) < farthest * misread) return std::nullopt;
  return Error{ErrorCode::bad_input,
               "risen",
               fmt::format("no dough of this bake stands at {:.2g} times its volume {} after "
                           "mixing, most at {:.1f} to {:.1f}; look at the hour, the temperature "
                           "and the bake",
                           risen,
                           span(rescue.options.now),
                           rescue.rise_low,
                           rescue.rise_high)};
}

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

std::string what(const WayOut& way) {
  const forecast::Addition& add = way.addition;
  switch (way.remedy) {
    case Remedy::wait:
      return "wait";
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

std::string reason(const WayOut& way, const forecast::Rescue& rescue) {
  const bool drinks = way.alcohol_before > strong;
  switch (way.remedy) {
    case Remedy::wait:
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

std::string cost(const ToldWay& told, const std::string& currency) {
  const std::string price = told.money ? fmt::format(" ({:.2f} {})", *told.money, currency) : "";
  switch (told.way.remedy) {
    case Remedy::wait:
      return "time, and a look now and then";
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

// Price of the flour of an addition, where the bake names it.
std::optional<double> money(const formula::Bake& bake, const WayOut& way) {
  const Mass flour =
      way.addition.flour + way.addition.levain * (2.0 / 3.0);  // a levain is mostly flour
  if (flour.si() <= 0) return std::nullopt;
  for (const formula::Portion& portion : bake.bowl) {
    if (portion.ingredient.group == larder::Group::flour && portion.price)
      return *portion.price * flour.in(kilogram);
  }
  return std::nullopt;
}

std::optional<double> bowl_money(const formula::Bake& bake,
                                 const formula::Bowl& bowl,
                                 std::string& currency) {
  std::optional<double> sum;
  for (std::size_t i = 0; i < bake.bowl.size(); ++i) {
    if (!bake.bowl[i].price) continue;
    sum = sum.value_or(0) + *bake.bowl[i].price * bowl.lines[i].actual.in(kilogram);
    currency = bake.bowl[i].currency;
  }
  return sum;
}

std::vector<std::string> cautions(const RescueAnswer& answer, const formula::Bowl& bowl) {
  namespace limits = constants::caution;
  std::vector<std::string> lines;
  const forecast::Rescue& rescue = answer.rescue;
  if (internal::spoils_warm(answer.bake) && rescue.temperature > limits::warm.value &&
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

std::string give_up(const RescueAnswer& answer, const time::WallClock& clock) {
  const forecast::GivingUp& up = answer.rescue.giving_up;
  const std::string by = clock.moment(answer.rescue.options.by);
  const std::string lost = answer.bowl_money
                               ? fmt::format("; the ingredients with a price cost {:.2f} {}",
                                             *answer.bowl_money,
                                             answer.currency)
                               : "";
  if (!up.at)
    return fmt::format(
        "too early to give up before {}: a late start may still come good{}", by, lost);
  const std::string when =
      *up.at == answer.rescue.options.now
          ? "now, unless it has risen by a fifth: the others"
          : clock.moment(*up.at) + ", if it has not risen by a fifth by then: such doughs";
  return fmt::format("{} are ready by {} in fewer than 1 in 10 cases{}", when, by, lost);
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

std::string rests_on(const RescueAnswer& answer, std::optional<double> risen) {
  const std::string doughs = rests_on_doughs(answer.rescue, risen);
  return answer.culture.empty() ? doughs
                                : doughs + "; starting from what " + answer.culture + " has taught";
}

// Doughs that agree with the readings, as they stand now.
Result<std::vector<forecast::Imagined>> as_read(const formula::Bake& bake,
                                                const RescueRequest& request,
                                                const estimation::Readings& readings,
                                                const estimation::Belief& belief,
                                                const forecast::RescueOptions& rescue) {
  forecast::Options options;
  options.seed = rescue.seed;
  options.threads = rescue.threads;
  options.cancelled = rescue.cancelled;
  options.temperature = rescue.temperature;
  options.horizon = std::max(options.horizon, rescue.by + 1.0 * hour);
  auto batch = batch_of(bake, belief, readings, options);
  if (!batch) return failure(batch);
  estimation::widen(*batch, readings);
  estimation::LearnOptions learning;
  learning.seed = rescue.seed;
  learning.threads = rescue.threads;
  learning.cancelled = rescue.cancelled;
  const bool known = request.learned != nullptr && !request.risen &&
                     options.horizon == forecast::Options().horizon;
  const auto learned = known ? Result<estimation::Learned>(*request.learned)
                             : estimation::learn(*batch, readings, learning);
  if (!learned) return failure(learned);
  const auto middle = forecast::draw(bake, rescue.seed, -1, *rescue.prior);
  if (!middle) return failure(middle);
  std::vector<forecast::Imagined> doughs;
  for (const estimation::TakenUp& one :
       estimation::taken_up(*batch,
                            readings,
                            *learned,
                            learning,
                            rescue.now,
                            static_cast<std::size_t>(request.draws))) {
    forecast::Imagined dough{*middle, one.worked, one.pace};
    dough.draw.parameters = one.dough.parameters;
    dough.draw.dough = one.dough.dough;
    doughs.push_back(std::move(dough));
  }
  return doughs;
}

// How long after the hour asked half of such doughs are ready; never for none.
double late(const ToldWay& told, Time by) {
  if (told.way.too_warm || told.way.remedy == Remedy::flatbread || !told.way.ready.p50)
    return forecast::Passed::never;
  return std::max(0.0, (*told.way.ready.p50 - by).in(hour));
}

// The best one, where it is more likely to do than not; else the one that is least late, where that
// can be borne; else flatbread. What is advised stands first.
// A dough that is ahead cannot be late.
void advise(std::vector<ToldWay>& ways, const forecast::RescueOptions& options) {
  const Time by = options.by;
  auto best = ways.begin();
  if (best->way.in_time < Probability(0.5) || best->way.too_warm) {
    best = std::min_element(ways.begin(), ways.end(), [&](const ToldWay& a, const ToldWay& b) {
      return late(a, by) < late(b, by);
    });
    if (options.not_before || late(*best, by) > constants::rescue::late_at_most.value.in(hour))
      best = ways.end() - 1;
  }
  best->advised = true;
  std::rotate(ways.begin(), best, best + 1);
}

}  // namespace

std::string_view name(Remedy remedy) {
  constexpr std::array<std::string_view, forecast::remedy_count> names{
      "wait", "warm", "cool", "levain", "yeast", "thin", "thin_with_levain", "flatbread"};
  return names[static_cast<std::size_t>(remedy)];
}

Result<RescueAnswer> rescue(const formula::Bake& bake, const RescueRequest& request) {
  auto readings = readings_of(bake, request.readings);
  if (!readings) return failure(readings);
  auto options = options_of(bake, request, *readings);
  if (!options) return failure(options);
  if (request.risen) readings = with_look(*std::move(readings), *request.risen, options->now);
  if (!readings) return failure(readings);
  const bool read = !readings->rows.empty();
  options->read = read;
  const auto start = begun(request.readings.culture, bake, *request.prior);
  if (!start) return failure(start);
  const kinetics::JointPrior prior = estimation::prior_of(start->belief);
  options->prior = &prior;
  std::vector<forecast::Imagined> doughs;
  if (read) {
    auto agreeing = as_read(bake, request, *readings, start->belief, *options);
    if (!agreeing) return failure(agreeing);
    doughs = std::move(*agreeing);
  }
  auto found = read ? forecast::rescue(bake, doughs, *options)
                    : forecast::rescue(bake, *options, request.draws);
  if (!found) return failure(found);
  if (request.risen) {
    if (const auto error = mistaken(*found, *request.risen)) return tl::unexpected(*error);
  }
  const auto middle = forecast::draw(bake, request.seed, -1, prior);
  if (!middle) return failure(middle);
  RescueAnswer answer;
  answer.bake = bake;
  answer.culture = start->culture;
  answer.rescue = std::move(*found);
  answer.rescue.options.prior = request.prior;  // ours ends here
  answer.all = answer.rescue.ways;
  answer.bowl_money = bowl_money(bake, middle->bowl, answer.currency);
  for (const WayOut& way : answer.all) {
    const bool told_already =
        std::any_of(answer.ways.begin(), answer.ways.end(), [&](const ToldWay& told) {
          return told.way.remedy == way.remedy;
        });
    if (told_already && answer.rescue.options.places.empty()) continue;
    ToldWay told{way, what(way), reason(way, answer.rescue), "", money(bake, way), false};
    told.cost = cost(told, answer.currency);
    answer.ways.push_back(std::move(told));
  }
  advise(answer.ways, answer.rescue.options);
  auto clock = clock_in(request.readings.zone, bake);
  if (!clock) return failure(clock);
  answer.clock = *std::move(clock);
  answer.giving_up = give_up(answer, answer.clock);
  answer.rests_on = rests_on(answer, request.risen);
  answer.cautions = cautions(answer, middle->bowl);
  return answer;
}

Result<RescueAnswer> rescue(const std::string& path, const RescueRequest& request) {
  const auto bake = formula::read_bake(path);
  if (!bake) return failure(bake);
  return rescue(*bake, request);
}

}  // namespace barm::service
