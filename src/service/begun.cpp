#include "service/begun.h"

#include <fmt/format.h>

#include <chrono>
#include <cstdio>

namespace barm::service {

Result<Begun> begun_from(const estimation::Culture& culture, const formula::Bake& bake) {
  const auto age = estimation::levain_age(bake);
  if (!age) return failure(age);
  return Begun{culture.batches.empty() ? "" : culture.name,
               estimation::next_batch(culture, day_of(bake.mixed_at.value_or("")), *age)};
}

Result<Begun> begun(const std::string& culture_file,
                    const formula::Bake& bake,
                    const kinetics::JointPrior& otherwise) {
  if (culture_file.empty()) return Begun{"", estimation::belief_of(otherwise)};
  const auto culture = estimation::read_culture(culture_file);
  if (!culture) return failure(culture);
  return begun_from(*culture, bake);
}

double day_of(const std::string& local) {
  int year = 0;
  unsigned month = 0;
  unsigned day = 0;
  int hours = 0;
  int minutes = 0;
  const int read =
      std::sscanf(local.c_str(), "%4d-%2u-%2uT%2d:%2d", &year, &month, &day, &hours, &minutes);
  if (read < 3) return 0;
  const std::chrono::year_month_day ymd{
      std::chrono::year{year}, std::chrono::month{month}, std::chrono::day{day}};
  if (!ymd.ok()) return 0;
  return static_cast<double>(std::chrono::sys_days{ymd}.time_since_epoch().count()) + hours / 24.0 +
         minutes / 1440.0;
}

std::string date_of(double day) {
  if (day <= 0) return "";
  const std::chrono::year_month_day ymd{
      std::chrono::sys_days{std::chrono::days{static_cast<long>(day)}}};
  return fmt::format("{:04d}-{:02d}-{:02d}",
                     static_cast<int>(ymd.year()),
                     static_cast<unsigned>(ymd.month()),
                     static_cast<unsigned>(ymd.day()));
}

}  // namespace barm::service
