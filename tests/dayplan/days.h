#pragma once
// Days to test with: an invented bakery whose hours are made up.
#include <cmath>
#include <string>

#include "dayplan/day.h"
#include "numerics/random.h"

namespace barm::dayplan {

/// The places of the house, in this order.
enum Place : std::size_t { hands, mixer, bench, fridge, deck };

inline constexpr Minutes an_hour = 60;

/// From Thursday 18:00 to Saturday 08:00, nobody up from 22:00 to 04:00.
inline constexpr Minutes saturday_at_eight = 38 * an_hour;

inline std::vector<Resource> marsh_house(int pairs_of_hands = 2) {
  const std::vector<Span> nights{{4 * an_hour, 10 * an_hour}, {28 * an_hour, 34 * an_hour}};
  return {{"pair of hands", "pairs of hands", pairs_of_hands, nights},
          {"mixer", "mixers", 1, {}},
          {"place at the bench", "places at the bench", 3, {}},
          {"place in the fridge", "places in the fridge", 12, {}},
          {"deck", "decks", 2, {}}};
}

/// Draws of a length: log-normal about `middle` hours with so much doubt (in ln).
inline Draws about(double middle, double doubt, numerics::Random& random, std::size_t draws) {
  Draws out;
  for (std::size_t k = 0; k < draws; ++k)
    out.push_back(static_cast<float>(60 * middle * std::exp(doubt * random.normal())));
  return out;
}

inline Draws times(const Draws& draws, double factor) {
  Draws out;
  for (const float each : draws) out.push_back(static_cast<float>(factor * each));
  return out;
}

struct Hours {
  double levain = 6, bulk = 5, proof = 2, doubt = 0.15;
  int places = 2;
};

/// From feeding to cooled bread; `chilled` through a night in the fridge, else proofed at room.
inline Way way(const std::string& name,
               const Hours& hours,
               bool chilled,
               numerics::Random& random,
               std::size_t draws) {
  Way out{name,
          {{"feed", 10, {{hands}}},
           {"mix", 15, {{hands}, {mixer}}},
           {"fold", 5, {{hands}}},
           {"divide", 15, {{hands}, {bench}}},
           {"shape", 15, {{hands}, {bench}}},
           chilled ? Step{"chill", 5, {{hands}, {fridge, hours.places, true}}}
                   : Step{"proof", 5, {{hands}}},
           {"load", 10, {{hands}, {deck, 1, true}}},
           {"unload", 5, {{hands}}}},
          {}};
  const Draws levain = about(hours.levain, hours.doubt, random, draws);
  const Draws bulk = about(hours.bulk, hours.doubt, random, draws);
  const Draws proof = about(hours.proof, hours.doubt, random, draws);
  out.legs = {{"levain", 0, 1, levain, times(levain, 0.4), "the levain is past its peak"},
              {"rest", 1, 2, {30}, {30}},
              {"bulk", 1, 3, bulk, times(bulk, 0.3), "the dough is past its best"},
              {"rest", 3, 4, {20}, {30}},
              {"", 4, 5, {15}, {15}},
              chilled ? Leg{"cold", 5, 6, {8 * an_hour}, {8 * an_hour}, "it is overproofed"}
                      : Leg{"proof", 5, 6, proof, times(proof, 0.5), "it is overproofed"},
              {"oven", 6, 7, {45}, {10}, "it burns"},
              {"cooling", 7, 8, {120}}};
  return out;
}

/// Random bakes of one day; the seed of the hours apart from that of the draws, so that the same
/// day can be drawn afresh.
inline Day random_day(std::size_t bakes,
                      std::uint64_t seed,
                      std::uint64_t luck,
                      std::size_t draws,
                      int pairs_of_hands = 2) {
  Day day{marsh_house(pairs_of_hands), {}, 5};
  numerics::Random random(seed);
  for (std::size_t b = 0; b < bakes; ++b) {
    Hours hours;
    hours.levain = 4 + 5 * random.uniform();
    hours.bulk = 3.5 + 4 * random.uniform();
    hours.proof = 1.5 + random.uniform();
    hours.doubt = 0.04 + 0.08 * random.uniform();
    numerics::Random drawn(luck, b);
    Bake bake{"loaf " + std::to_string(b + 1), saturday_at_eight, {}};
    bake.ways.push_back(way("at room", hours, false, drawn, draws));
    bake.ways.push_back(way("a night in the fridge", hours, true, drawn, draws));
    day.bakes.push_back(std::move(bake));
  }
  return day;
}

}  // namespace barm::dayplan
