#include "service/day/oven.h"

namespace barm::service {

namespace {

/// In minutes, so many; a loaf that never gets there within what was looked at never does.
dayplan::Draws round_again(const std::vector<double>& hours, int draws) {
  dayplan::Draws out;
  for (int k = 0; k < draws; ++k)
    out.push_back(static_cast<float>(60 * hours[static_cast<std::size_t>(k) % hours.size()]));
  return out;
}

}  // namespace

Result<DayFile> with_ovens(DayFile file, const forecast::Options& options) {
  for (DayBake& each : file.bakes) {
    formula::Bake bake = each.bake;
    if (!bake.pieces) bake.pieces = each.loaves;
    auto baked = oven_as_written(bake, options);
    if (!baked && baked.error().code == ErrorCode::cancelled) return failure(baked);
    if (!baked) {
      return failure(
          ErrorCode::bad_input, each.place, each.file + " in its oven: " + baked.error().text());
    }
    each.oven = *std::move(baked);
  }
  return file;
}

OvenMinutes oven_minutes(const OvenAnswer& answer, int draws) {
  const forecast::InTheOven hours = hours_of(answer);
  const bool typed = hours.bakes.size() == 1;
  return {round_again(hours.bakes, typed ? 1 : draws), round_again(hours.cut, draws)};
}

OvenMinutes oven_minutes_anew(const OvenAnswer& answer, const forecast::Options& options) {
  OvenAnswer anew = answer;
  anew.many = oven::many(anew.loaf,
                         anew.oven,
                         anew.known,
                         anew.lasts,
                         anew.cools_at,
                         options.draws,
                         options.seed,
                         options.threads);
  return oven_minutes(anew, options.draws);
}

}  // namespace barm::service
