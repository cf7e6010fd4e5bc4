#include "service/bake/rescue.h"

#include <fmt/format.h>

#include <algorithm>

#include "estimation/suspect.h"
#include "estimation/taken_up.h"
#include "forecast/why_never.h"
#include "formula/amount.h"
#include "generated/constants.h"
#include "service/bake/internal/rescue_words.h"

namespace barm::service {

using forecast::Remedy;
using forecast::WayOut;

namespace {

constexpr Time unless_said = 12.0 * hour;
constexpr double least_seen = 0.8;  // volume ratios a look may say
constexpr double most_seen = 6;
constexpr double farthest = 3;          // misreadings
constexpr int holding = 100;            // doughs of which it is asked what they hold
constexpr double who_holds_it = 0.95;   // of them hold what is asked of a dough instead; ours
constexpr double worth_meddling = 0.5;  // [h] that a way must win over one that meddles less; ours

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

Result<forecast::RescueOptions> options_of(const Batch& batch, const RescueRequest& request) {
  const time::WallClock& clock = batch.clock;
  const estimation::Readings& readings = batch.readings;
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
  options.prior = &batch.start.prior;
  return options;
}

// What is seen now is a reading like others, but judged by eye.
std::optional<Error> add_look(estimation::Readings& readings, double risen, Time now) {
  if (!(risen >= least_seen && risen <= most_seen))
    return Error{ErrorCode::bad_input,
                 "risen",
                 fmt::format("a volume against that at mixing, from {:g} to {:g}, such as 1.3",
                             least_seen,
                             most_seen)};
  estimation::Reading look;
  look.at = now;
  look.ratio = risen;
  look.ratio_doubt = constants::rescue::misread.value.si();
  readings.rows.push_back(look);
  return std::nullopt;
}

// A look that no dough comes near is a mistake, which the readings' long tail would pass over.
std::optional<Error> mistaken(const forecast::Rescue& rescue, double risen) {
  const double misread = constants::rescue::misread.value.si();
  const bool among_them =
      risen * (1 + misread) > rescue.rise_low && risen * (1 - misread) < rescue.rise_high;
  if (among_them || std::abs(rescue.rise_middle / risen - 1) < farthest * misread)
    return std::nullopt;
  return Error{ErrorCode::bad_input,
               "risen",
               fmt::format("no dough of this bake stands at {:.2g} times its volume {} after "
                           "mixing, most at {:.1f} to {:.1f}; look at the hour, the temperature "
                           "and the bake{}",
                           risen,
                           span(rescue.options.now),
                           rescue.rise_low,
                           rescue.rise_high,
                           risen < rescue.rise_low ? ", and whether the levain was ripe" : "")};
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

// Doughs that agree with the readings, as they stand now; what is to be said of them.
Result<std::vector<forecast::Imagined>> as_read(const Batch& batch,
                                                const RescueRequest& request,
                                                forecast::RescueOptions& rescue,
                                                std::vector<std::string>& notes) {
  forecast::Options options;
  options.seed = rescue.seed;
  options.threads = rescue.threads;
  options.cancelled = rescue.cancelled;
  options.temperature = rescue.temperature;
  options.horizon = std::max(options.horizon, rescue.by + 1.0 * hour);
  auto dough = dough_to_read(batch, options);
  if (!dough) return failure(dough);
  notes = dough->notes;
  const bool measured = std::ranges::any_of(
      batch.readings.rows, [](const estimation::Reading& row) { return row.bulk.has_value(); });
  if (measured) rescue.measured = dough->bulk.track;
  estimation::widen(*dough, batch.readings);
  estimation::LearnOptions learning;
  learning.seed = rescue.seed;
  learning.threads = rescue.threads;
  learning.cancelled = rescue.cancelled;
  const bool known = request.learned != nullptr && !request.risen &&
                     options.horizon == forecast::Options().horizon;
  const auto learned = known ? Result<estimation::Learned>(*request.learned)
                             : estimation::learn(*dough, batch.readings, learning);
  if (!learned) return failure(learned);
  const auto middle = forecast::draw(batch.bake, rescue.seed, -1, *rescue.prior);
  if (!middle) return failure(middle);
  std::vector<forecast::Imagined> doughs;
  for (const estimation::TakenUp& one :
       estimation::taken_up(*dough,
                            batch.readings,
                            *learned,
                            learning,
                            rescue.now,
                            static_cast<std::size_t>(request.draws))) {
    forecast::Imagined imagined{*middle, one.worked, one.pace};
    imagined.draw.parameters = one.dough.parameters;
    imagined.draw.dough = one.dough.dough;
    doughs.push_back(std::move(imagined));
  }
  return doughs;
}

// A dough that is mixed has the flour and the drink it has: asked for more than most of such doughs
// can hold, it is looked after for what nearly all hold.
Result<std::optional<double>> what_it_holds(const formula::Bake& bake,
                                            const forecast::RescueOptions& rescue) {
  forecast::Options options;
  options.draws = holding;
  options.curves = false;
  options.seed = rescue.seed;
  options.threads = rescue.threads;
  options.cancelled = rescue.cancelled;
  options.temperature = rescue.temperature;
  options.prior = rescue.prior;
  const auto forecast = forecast::foresee(bake, options);
  if (!forecast) return failure(forecast);
  if (forecast->ready.p50) return std::optional<double>();
  const auto obstacle = forecast::what_ends_it(bake, options);
  if (!obstacle) return failure(obstacle);
  if (*obstacle != forecast::Obstacle::cannot_hold) return std::optional<double>();
  return forecast::rise_in_reach(forecast->largest_rises, who_holds_it, forecast->target);
}

// How long after the hour asked half of such doughs are ready; never for none.
double late(const ToldWay& told, Time by) {
  if (told.way.too_warm || told.way.remedy == Remedy::flatbread || !told.way.ready.p50)
    return forecast::Passed::never;
  return std::max(0.0, (*told.way.ready.p50 - by).in(hour));
}

// The least late one; of those that are no more than a little later the one that meddles least.
std::vector<ToldWay>::iterator least_late(std::vector<ToldWay>& ways, Time by) {
  double least = forecast::Passed::never;
  for (const ToldWay& told : ways) least = std::min(least, late(told, by));
  auto best = ways.end();
  for (auto told = ways.begin(); told != ways.end(); ++told) {
    const bool near_enough = late(*told, by) <= least + worth_meddling;
    if (near_enough && (best == ways.end() || told->way.remedy < best->way.remedy)) best = told;
  }
  return best;
}

// The best one, where it is more likely to do than not; else the one that is least late, where that
// can be borne; else flatbread. What is advised stands first.
// A dough that is ahead cannot be late.
void advise(std::vector<ToldWay>& ways, const forecast::RescueOptions& options) {
  const Time by = options.by;
  auto best = ways.begin();
  if (best->way.in_time < Probability(0.5) || best->way.too_warm) {
    best = least_late(ways, by);
    if (options.not_before || late(*best, by) > constants::rescue::late_at_most.value.in(hour))
      best = ways.end() - 1;
  }
  best->advised = true;
  std::rotate(ways.begin(), best, best + 1);
}

}  // namespace

Result<RescueAnswer> rescue(const Batch& asked, const RescueRequest& request) {
  Batch batch = asked;
  auto options = options_of(asked, request);
  if (!options) return failure(options);
  if (request.risen) {
    if (auto error = add_look(batch.readings, *request.risen, options->now))
      return failure(*std::move(error));
  }
  const formula::Bake& bake = batch.bake;
  const bool read = !batch.readings.rows.empty();
  options->read = read;
  const auto holds = what_it_holds(bake, *options);
  if (!holds) return failure(holds);
  if (*holds) options->target = **holds;
  std::vector<forecast::Imagined> doughs;
  std::vector<std::string> notes;
  if (read) {
    auto agreeing = as_read(batch, request, *options, notes);
    if (!agreeing) return failure(agreeing);
    doughs = std::move(*agreeing);
  }
  auto found = read ? forecast::rescue(bake, doughs, *options)
                    : forecast::rescue(bake, *options, request.draws);
  if (!found) return failure(found);
  if (request.risen) {
    if (const auto error = mistaken(*found, *request.risen)) return failure(*error);
  }
  const auto middle = forecast::draw(bake, request.seed, -1, asked.start.prior);
  if (!middle) return failure(middle);
  RescueAnswer answer;
  answer.bake = bake;
  answer.culture = batch.start.culture;
  answer.rescue = std::move(*found);
  answer.rescue.options.prior = &kinetics::day_one();  // the batch may end before the answer
  answer.all = answer.rescue.ways;
  if (*holds) answer.asked_for = bake.target;
  answer.bowl_money = bowl_money(bake, middle->bowl, answer.currency);
  for (const WayOut& way : answer.all) {
    const bool told_already =
        std::any_of(answer.ways.begin(), answer.ways.end(), [&](const ToldWay& told) {
          return told.way.remedy == way.remedy;
        });
    if (told_already && answer.rescue.options.places.empty()) continue;
    ToldWay told{way,
                 internal::way_in_words(way, answer.rescue),
                 internal::reason_of(way, answer.rescue),
                 "",
                 money(bake, way),
                 false};
    told.cost = internal::cost_of(told, answer.rescue, answer.currency);
    answer.ways.push_back(std::move(told));
  }
  advise(answer.ways, answer.rescue.options);
  answer.clock = batch.clock;
  answer.giving_up = internal::giving_up_in_words(answer, answer.clock);
  answer.rests_on = internal::what_it_rests_on(answer, request.risen);
  for (const std::string& note : notes) answer.rests_on += "; " + note;
  answer.cautions = internal::cautions_of(answer, middle->bowl);
  return answer;
}

}  // namespace barm::service
