// Any text at all as the file of a day: it is read or refused in words with its place, and what is
// read keeps to the limits of docs/day.md.
#include <cstddef>
#include <cstdint>
#include <string>

#include "base/require.h"
#include "formula/read.h"
#include "service/day/done.h"
#include "service/day/file.h"

// Nothing is forecast, from nothing that is known of a culture.
namespace barm::service {

Begun::Begun() = default;

}  // namespace barm::service

namespace barm::kinetics {

const JointPrior& day_one() {
  static const JointPrior none;
  return none;
}

}  // namespace barm::kinetics

namespace {

using barm::require;
using barm::service::DayBake;
using barm::service::KnownBake;

/// A dough that was mixed, with a fold, a cold and marks: whatever the day says, it has begun.
KnownBake under_way() {
  auto bake = barm::formula::parse_bake(
      "pieces = 2\npiece = \"900 g\"\n[bowl]\n\"white bread flour\" = \"100 %\"\nwater = \"70 %\"\n"
      "levain = \"20 %\"\n[levain]\nstarter = \"stiff ripe levain\"\nflour = \"white bread "
      "flour\"\n"
      "since_feeding = \"5 h\"\n[[stage]]\ndo = \"bulk\"\ntemperature = \"24 C\"\n[[stage]]\n"
      "do = \"fold\"\nafter = \"1 h\"\n[[stage]]\ndo = \"divide\"\n[[stage]]\ndo = \"cold\"\n"
      "for = \"10 h\"\n",
      "fuzz.toml");
  KnownBake out;
  out.bake = *std::move(bake);
  out.clock = {*barm::time::parse_instant("2026-11-27T06:00:00Z"), barm::time::Zone::fixed(0)};
  out.now = 6.0 * barm::hour;
  out.ticked = {{2, 5.0 * barm::hour}};
  return out;
}

void hold(const barm::service::DayFile& day) {
  require(!day.name.empty() || day.bakes.size() <= 20, "a day has its bakes");
  require(day.begins.seconds % 300 == 0, "a plan begins at whole five minutes");
  for (const DayBake& each : day.bakes) {
    require(each.loaves >= 1 && each.loaves <= 500, "loaves are counted");
    require(each.bread > day.begins, "bread is wanted after the plan begins");
    require(each.bread - day.begins <= 7.0 * barm::day, "and within a week");
    require(each.done.contains("feed") && each.done.contains("divide"),
            "what lies before a step that has begun has begun");
    for (const auto& way : each.others) require(way.loads >= 1 && way.loads <= 4, "loads");
  }
  for (const auto& [from, to] : day.house.nobody) require(from < to, "a night ends");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const KnownBake known = under_way();
  const std::string text(reinterpret_cast<const char*>(data), size);
  const auto day = barm::service::parse_day(
      text,
      "fuzz.toml",
      barm::time::Zone::fixed(3600),
      [](const std::string& name, const auto& place) -> barm::Result<KnownBake> {
        if (name.empty())
          return barm::failure(barm::ErrorCode::not_found, place.text(), "no bake is called so");
        return known;
      });
  if (day)
    hold(*day);
  else
    require(!day.error().message.empty(), "a refusal has words");
  return 0;
}
