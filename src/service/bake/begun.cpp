#include "service/bake/begun.h"

#include <utility>

#include "time/local_time.h"

namespace barm::service {

Begun::Begun() : Begun("", estimation::day_one_belief()) {}

Begun::Begun(std::string name, estimation::Belief believed)
    : culture(std::move(name)), belief(std::move(believed)), prior(estimation::prior_of(belief)) {}

Result<Begun> begun_from(const estimation::Culture& culture, const formula::Bake& bake) {
  const auto age = estimation::levain_age(bake);
  if (!age) return failure(age);
  return Begun{culture.batches.empty() ? "" : culture.name,
               estimation::next_batch(culture, day_of(bake), *age)};
}

Result<Begun> begun(const std::string& culture_file,
                    const formula::Bake& bake,
                    const kinetics::JointPrior& otherwise) {
  if (culture_file.empty()) return Begun{"", estimation::belief_of(otherwise)};
  const auto culture = estimation::read_culture(culture_file);
  if (!culture) return failure(culture);
  return begun_from(*culture, bake);
}

double day_of(const formula::Bake& bake) {
  constexpr auto a_day = static_cast<double>(time::seconds_a_day);
  if (const auto at = bake.clock ? bake.clock->instant(Time{}) : std::nullopt)
    return static_cast<double>(at->seconds) / a_day;
  if (!bake.mixed_at || !bake.mixed_at->date) return 0;
  return static_cast<double>(bake.mixed_at->date->days) + bake.mixed_at->second_of_day / a_day;
}

std::string date_of(double day) {
  return day <= 0 ? "" : time::Date{static_cast<long>(day)}.text();
}

}  // namespace barm::service
