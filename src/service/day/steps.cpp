#include "service/day/steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "service/words.h"

namespace barm::service {

namespace {

using dayplan::Draws;
using dayplan::Minutes;
using formula::Stage;

enum PlaceOfHouse : std::size_t { hands, mixer, bench, fridge, deck };

constexpr Habits habits;

float in_minutes(Time time) { return static_cast<float>(time.in(minute)); }

const Stage* stage(const formula::Bake& bake, formula::Step step) {
  for (const Stage& each : bake.stages) {
    if (each.step == step) return &each;
  }
  return nullptr;
}

bool is_after_the_bulk(const formula::Bake& bake, formula::Step step) {
  const Stage* wanted = stage(bake, step);
  return wanted != nullptr && bake.bulk() != nullptr && wanted > bake.bulk();
}

/// Steps laid one after the other.
class Laying {
 public:
  Laying(const DayFile& day, const DayBake& bake) : day_(day), bake_(bake) {}

  /// A step; what begins already is fixed there.
  std::size_t step(const std::string& what, Minutes minutes, std::vector<dayplan::Use> uses) {
    dayplan::Step out{what, minutes, std::move(uses)};
    if (const auto done = bake_.done.find(what); done != bake_.done.end())
      out.begun = static_cast<Minutes>((done->second.seconds - day_.begins.seconds) / 60);
    way.steps.push_back(std::move(out));
    return way.steps.size() - 1;
  }

  void leg(const std::string& what,
           std::size_t from,
           std::size_t to,
           Draws ready,
           Draws lasts,
           const std::string& given_up = "") {
    way.legs.push_back({what, from, to, std::move(ready), std::move(lasts), given_up});
  }

  dayplan::Way way;

 private:
  const DayFile& day_;
  const DayBake& bake_;
};

Minutes by_loaves(int loaves) { return habits.a_batch + habits.a_loaf * loaves; }

/// Feeding, mixing and the folds; the number of the mixing.
std::size_t lay_dough(Laying& laying, const formula::Bake& bake) {
  const bool fed = bake.levain && bake.levain->since_feeding;
  if (fed) laying.step("feed", habits.feed, {{hands}});
  const std::size_t mix = laying.step("mix", habits.mix, {{hands}, {mixer}});
  if (fed) {
    const float hours = in_minutes(*bake.levain->since_feeding + bake.levain->in_the_cold);
    const float from = std::max(0.0F, hours - habits.levain_earlier);
    laying.leg("levain",
               mix - 1,
               mix,
               {from},
               {hours + habits.levain_later - from},
               "the levain is past its hours");
  }
  int folds = 0;
  for (const Stage& each : bake.stages) {
    if (each.step != formula::Step::fold || !each.after) continue;
    const std::size_t fold =
        laying.step(++folds == 1 ? "fold" : fmt::format("fold {}", folds), habits.fold, {{hands}});
    laying.leg("rest before the fold", mix, fold, {in_minutes(*each.after)}, {habits.fold_later});
  }
  return mix;
}

/// From when to when a loaf waits for the oven, of each dough [min].
struct Waits {
  Draws ready, lasts;
};

/// Of loaves that are to wait so long by the clock and may wait so much longer.
Waits by_the_clock(float wait, float longer, const Draws& stays) {
  Waits out;
  for (const float stay : stays) {
    out.ready.push_back(std::max(0.0F, std::min(wait, wait + stay - habits.at_its_best)));
    out.lasts.push_back(std::max(0.0F, wait + std::min(stay, longer) - out.ready.back()));
  }
  return out;
}

/// Of loaves that wait until each has its volume.
Waits by_volume(float before, const DoughDraws& dough) {
  Waits out;
  for (const float proof : dough.proof) out.ready.push_back(before + proof);
  for (const float stay : dough.stays)
    out.lasts.push_back(std::clamp(stay, 0.0F, in_minutes(longest_wait)));
  return out;
}

/// From `from` into the oven, for every load of it alike.
void lay_wait(Laying& laying,
              const OtherWay& way,
              const std::string& what,
              std::size_t from,
              const Waits& waits) {
  for (int load = 0; load < way.loads; ++load) {
    laying.leg(what,
               from,
               from + 1 + 2 * static_cast<std::size_t>(load),
               waits.ready,
               waits.lasts,
               "it may be overproofed");
  }
}

/// From shaping to the oven: through the fridge, or a proof.
void lay_proof(Laying& laying,
               const DayBake& bake,
               const OtherWay& way,
               const DoughDraws& dough,
               std::size_t shape,
               Minutes shaping) {
  const Stage* proof = stage(bake.bake, formula::Step::proof);
  const Stage* cold = stage(bake.bake, formula::Step::cold);
  const auto work = static_cast<float>(shaping);
  const bool volume = !way.fridge && !dough.proof.empty();
  float shaped = work;
  if (!way.fridge && (proof != nullptr || cold == nullptr))
    shaped += proof != nullptr && proof->lasts ? in_minutes(*proof->lasts) : habits.proof;
  if (!way.fridge && cold == nullptr) {
    lay_wait(
        laying,
        way,
        "proof",
        shape,
        volume ? by_volume(work, dough) : by_the_clock(shaped, habits.proof_waits, dough.stays));
    return;
  }
  const std::size_t chill =
      laying.step("chill", habits.into_the_fridge, {{hands}, {fridge, bake.loaves, true}});
  laying.leg("wait for the fridge",
             shape,
             chill,
             volume ? by_volume(work, dough).ready : Draws{shaped},
             {habits.shaped_waits},
             "it proofs on");
  if (way.fridge) {
    const auto [least, most] = *way.fridge;
    lay_wait(laying, way, "cold", chill, {{in_minutes(least)}, {in_minutes(most - least)}});
    return;
  }
  const float cold_for = in_minutes(cold->lasts.value_or(12.0 * hour));
  lay_wait(laying, way, "cold", chill, by_the_clock(cold_for, habits.cold_waits, dough.stays));
}

/// One load after the other, and cooling.
void lay_oven(Laying& laying,
              const DayFile& day,
              const DayBake& bake,
              const OtherWay& way,
              const OvenMinutes& oven) {
  std::size_t load = 0;
  for (int each = 0; each < way.loads; ++each) {
    const int loaves = (bake.loaves + way.loads - 1 - each) / way.loads;
    if (loaves == 0) break;
    const int decks = (loaves + day.house.loaves_on_a_deck - 1) / day.house.loaves_on_a_deck;
    const Minutes work = by_loaves(loaves) / 2;
    const std::string which = each == 0 ? "" : fmt::format(" {}", each + 1);
    load = laying.step("load" + which, work, {{hands}, {deck, decks, true}});
    laying.step("unload" + which, work, {{hands}});
    Draws baked;
    for (const float in_it : oven.in_it) baked.push_back(static_cast<float>(work) + in_it);
    laying.leg("oven", load, load + 1, baked, {habits.oven_waits}, "it bakes too long");
    laying.way.legs.back().watched = true;
  }
  laying.leg("cooling", load + 1, load + 2, oven.cooling, {dayplan::for_ever}, "it is cut warm");
}

/// What cannot be in what is said to be done, if anything.
std::optional<std::string> wrong_of_done(const DayFile& day,
                                         const DayBake& bake,
                                         const dayplan::Way& way) {
  std::string all;
  for (std::size_t i = 0; i < way.steps.size(); ++i) {
    all += (all.empty() ? "" : ", ") + way.steps[i].what;
    if (i > 0 && way.steps[i].begun && !way.steps[i - 1].begun) {
      return fmt::format("{} is done, so {} before it is done too: say when",
                         way.steps[i].what,
                         way.steps[i - 1].what);
    }
    if (i > 0 && way.steps[i].begun && *way.steps[i].begun < *way.steps[i - 1].begun)
      return way.steps[i].what + " is done before " + way.steps[i - 1].what;
  }
  for (const auto& [what, when] : bake.done) {
    if (when > day.begins) return what + " is done after the plan begins: let it begin now";
    const bool known = std::any_of(
        way.steps.begin(), way.steps.end(), [&](const auto& step) { return step.what == what; });
    if (!known) return fmt::format("\"{}\" is no step of {}. There are: {}", what, bake.file, all);
  }
  return std::nullopt;
}

}  // namespace

std::string way_name(const OtherWay& way) {
  std::string out;
  const auto add = [&](const std::string& words) { out += (out.empty() ? "" : ", ") + words; };
  if (way.bulk) add("bulk at " + warmth(*way.bulk));
  if (way.levain) add(fmt::format("with {:.0f} % levain", 100 * *way.levain));
  if (way.fridge) add("through the fridge");
  if (way.loads > 1) add(fmt::format("in {} loads", way.loads));
  return out.empty() ? "as its file says" : out;
}

std::vector<dayplan::Resource> house_of(const DayFile& day) {
  const House& house = day.house;
  std::vector<dayplan::Span> nobody;
  for (const auto& [from, to] : house.nobody) {
    const auto at = [&](time::Instant when) {
      return static_cast<Minutes>((when.seconds - day.begins.seconds) / 60);
    };
    nobody.push_back({at(from), at(to)});
  }
  return {{"pair of hands", "pairs of hands", house.hands, nobody},
          {"mixer", "mixers", house.mixers, {}},
          {"place at the bench", "places at the bench", house.bench, {}},
          {"place in the fridge", "places in the fridge", house.fridge, {}},
          {"deck of the oven", "decks of the oven", house.decks, {}}};
}

Result<dayplan::Way> steps_of(const DayFile& day,
                              const DayBake& bake,
                              const OtherWay& way,
                              const WayDraws& drawn) {
  const bool cold_first = stage(bake.bake, formula::Step::cold) != nullptr &&
                          !is_after_the_bulk(bake.bake, formula::Step::cold);
  if (cold_first) {
    return failure(ErrorCode::bad_input,
                   bake.place,
                   bake.file +
                       " lets the dough into the cold before its bulk, which the day's "
                       "planner does not know: leave the bake out");
  }
  if (bake.done.contains("mix") && (way.bulk || way.levain)) {
    return failure(ErrorCode::bad_input,
                   bake.place,
                   bake.file + " is mixed: " + way_name(way) + " is behind it");
  }
  Laying laying(day, bake);
  laying.way.name = way_name(way);
  const std::size_t mix = lay_dough(laying, bake.bake);
  const Minutes shaping = by_loaves(bake.loaves);
  const bool divided = stage(bake.bake, formula::Step::divide) != nullptr;
  const std::size_t after = laying.step(divided ? "divide" : "shape", shaping, {{hands}, {bench}});
  laying.leg(
      "bulk", mix, after, drawn.dough.ready, drawn.dough.lasts, "the dough is past its best");
  const std::size_t shape = divided ? laying.step("shape", shaping, {{hands}, {bench}}) : after;
  if (divided) {
    laying.leg("bench rest",
               after,
               shape,
               {static_cast<float>(shaping) + habits.bench_rest},
               {habits.bench_rest_longer});
  }
  lay_proof(laying, bake, way, drawn.dough, shape, shaping);
  lay_oven(laying, day, bake, way, drawn.oven);
  if (const auto wrong = wrong_of_done(day, bake, laying.way))
    return failure(ErrorCode::bad_input, bake.place, *wrong);
  return laying.way;
}

}  // namespace barm::service
