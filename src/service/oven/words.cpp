#include "service/oven/words.h"

#include <fmt/format.h>

#include <cmath>

#include "service/words.h"

namespace barm::service {

namespace {

std::string minutes(Time time) { return fmt::format("{:.0f} min", time.in(minute)); }

// "14 % (8 to 21 %)".
std::string percents(double low, double middle, double high) {
  return fmt::format("{:.0f} % ({:.0f} to {:.0f} %)", 100 * middle, 100 * low, 100 * high);
}

// "1.5 h" from an hour and a half on.
std::string lasting(double seconds) {
  constexpr double not_at_all = 1e8;
  if (seconds >= not_at_all) return "later";
  return seconds < 5400 ? fmt::format("{:.0f} min", seconds / 60)
                        : fmt::format("{:.1f} h", seconds / 3600);
}

}  // namespace

std::string how_to_load(const OvenAnswer& answer) {
  const oven::Oven& oven = answer.oven;
  std::string out;
  for (const oven::Setting& setting : oven.set) {
    if (!out.empty()) out += fmt::format(", from {} on ", minutes(setting.from));
    out += fmt::format("{:.0f} °C", setting.to.celsius());
  }
  if (oven.steam.si() > 0) out += ", steam for " + minutes(oven.steam);
  if (oven.lid.si() > 0) out += ", under a lid for " + minutes(oven.lid);
  if (oven.on_stone > 0) out += ", on a hot stone";
  if (oven.fan) out += ", with a fan";
  if (oven.loaves > 1) out += fmt::format(", {} loaves at once", oven.loaves);
  return out;
}

std::string how_long(const OvenAnswer& answer) {
  if (answer.typed) return lasting(answer.lasts.si());
  const oven::Range in_oven = answer.in_oven();
  return fmt::format(
      "about {} ({} to {})", lasting(in_oven.p50), lasting(in_oven.p10), lasting(in_oven.p90));
}

std::string as_it_comes_out(const OvenAnswer& answer) {
  const oven::Many& many = answer.many;
  const std::string lighter = fmt::format("{:.0f} % lighter ({:.0f} to {:.0f} %)",
                                          100 * many.loss.p50,
                                          100 * many.loss.p10,
                                          100 * many.loss.p90);
  if (!answer.typed) return fmt::format("core {:.0f} °C, {}", oven::done_core().celsius(), lighter);
  return fmt::format("core {:.0f} °C ({:.0f} to {:.0f} °C), {}",
                     many.core.p50,
                     many.core.p10,
                     many.core.p90,
                     lighter);
}

std::string how_ripe(Ripeness ripeness, const oven::Range& room) {
  const std::string more = percents(room.p10, room.p50, room.p90);
  switch (ripeness) {
    case Ripeness::young:
      return fmt::format("young, able to rise by {} more: it may tear, a longer proof helps", more);
    case Ripeness::ripe:
      return fmt::format(
          "ripe, able to rise by {} more: it may spread, a cooler place holds it back", more);
    case Ripeness::right:
      break;
  }
  return fmt::format("able to rise by {} more", more);
}

namespace {

// What an oven that has not come back to its dial does to a load; nothing where it has.
std::string by_a_cooler_oven(const OvenAnswer& answer, const FurtherLoad& one) {
  constexpr double as_hot = 3;  // K: less than a dial shows
  if (one.oven_set.celsius() - one.oven_has.celsius() < as_hot) return "";
  const std::string has = fmt::format("; the oven has {:.0f} of its {:.0f} °C by then",
                                      one.oven_has.celsius(),
                                      one.oven_set.celsius());
  if (answer.typed)
    return has + fmt::format(": core {:.0f} °C after the same minutes", one.core.celsius());
  return one.longer < 0.5 * minute ? has : has + ": " + minutes(one.longer) + " longer";
}

}  // namespace

std::string as_it_goes_in(const OvenAnswer& answer, int load) {
  const auto place = static_cast<std::size_t>(load) - 2;
  if (load < 2 || place >= answer.further.size()) return "";
  const FurtherLoad& one = answer.further[place];
  const oven::Range& rise = one.rise;
  return fmt::format("{} {}, {} longer in its last place: {}; springs by {}{}",
                     one.loaves,
                     one.loaves == 1 ? "loaf" : "loaves",
                     lasting(one.waited.si()),
                     how_ripe(one.ripeness, one.room),
                     percents(rise.p10 - 1, rise.p50 - 1, rise.p90 - 1),
                     by_a_cooler_oven(answer, one));
}

std::string vapour_in_short(const OvenAnswer& answer) {
  const oven::Vapour& vapour = answer.many.vapour;
  if (answer.many.vented.p90 < vapour.warn_from && vapour.closed < vapour.warn_from) return "";
  return "Alcohol vapour can burn: vent open, or the door by a crack, in the first third; no "
         "flame; "
         "face and sleeves away from the opening door. The oven maker's and local rules hold.";
}

std::string how_near(const oven::Learned& learned) {
  std::string out;
  if (learned.core_off) out = fmt::format("core within {:.1f} °C of the probe", *learned.core_off);
  if (learned.loss_off)
    out += fmt::format("{}weight within {:.1f} % of the scale",
                       out.empty() ? "" : ", ",
                       100 * std::abs(*learned.loss_off));
  return out;
}

std::string poor_fit(const oven::Learned& learned) {
  std::string off;
  if (learned.core_off.value_or(0) > oven::poor_core)
    off = fmt::format("still {:.1f} °C off the probe, where 2 °C is usual", *learned.core_off);
  if (std::abs(learned.loss_off.value_or(0)) > oven::poor_loss)
    off += fmt::format("{}{:.1f} points off the scale, where half a point is usual",
                       off.empty() ? "" : ", and ",
                       100 * std::abs(*learned.loss_off));
  if (off.empty()) return "";
  return fmt::format(
      "This fits no oven well: the best is {}. So little of it is believed, and what is "
      "foretold of this oven stays about as wide as of an unknown one. Often {}dial, weight or "
      "form "
      "are not as the bake says. One more bake, {}, would help.",
      off,
      learned.core_off ? "the probe's tip was not in the middle, the clock did not start as the "
                         "loaf went in, or "
                       : "",
      learned.core_off ? "measured with the tip in the middle"
                       : "with a probe in its core as well");
}

}  // namespace barm::service
