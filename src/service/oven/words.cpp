#include "service/oven/words.h"

#include <fmt/format.h>

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

std::string as_it_goes_in(const OvenAnswer& answer, int load) {
  const auto place = static_cast<std::size_t>(load) - 2;
  if (load < 2 || place >= answer.further.size()) return "";
  const FurtherLoad& one = answer.further[place];
  const oven::Range& rise = one.rise;
  return fmt::format("{} {}, {} longer in its last place: {}; springs by {}",
                     one.loaves,
                     one.loaves == 1 ? "loaf" : "loaves",
                     lasting(one.waited.si()),
                     how_ripe(one.ripeness, one.room),
                     percents(rise.p10 - 1, rise.p50 - 1, rise.p90 - 1));
}

std::string vapour_in_short(const OvenAnswer& answer) {
  const oven::Vapour& vapour = answer.many.vapour;
  if (answer.many.vented.p90 < vapour.warn_from && vapour.closed < vapour.warn_from) return "";
  return "Alcohol vapour can burn: vent open, or the door by a crack, in the first third; no "
         "flame; "
         "face and sleeves away from the opening door. The oven maker's and local rules hold.";
}

}  // namespace barm::service
