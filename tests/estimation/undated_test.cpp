// A batch without a day is no batch of 1970.
#include <gtest/gtest.h>

#include "estimation/culture.h"

namespace barm::estimation {

namespace {

BatchLesson sharp_lesson(const std::string& name, double day) {
  BatchLesson lesson;
  lesson.batch = name;
  lesson.day = day;
  lesson.readings = 5;
  for (std::size_t i = 0; i < culture_size; ++i) lesson.sharpness[i * culture_size + i] = 40;
  return lesson;
}

TEST(Undated, ABatchWithoutADayMakesACultureNoLessCertain) {
  constexpr double day = 20785;  // in 2026
  Culture one{"one", {sharp_lesson("a", day)}};
  Culture both = one;
  put(both, sharp_lesson("b", 0));
  const CultureBelief alone = belief_of(one, day + 1);
  const CultureBelief together = belief_of(both, day + 1);
  for (std::size_t i = 0; i < culture_size; ++i) {
    EXPECT_LE(together.sd[i], alone.sd[i] * (1 + 1e-9)) << i;
    EXPECT_LE(together.sd[i], together.before[i] * (1 + 1e-9)) << i;
  }
}

TEST(Undated, BatchesThatAllLackADayAreTakenTogether) {
  Culture both{"two", {sharp_lesson("a", 0), sharp_lesson("b", 0)}};
  Culture dated{"two", {sharp_lesson("a", 20785), sharp_lesson("b", 20785)}};
  const CultureBelief undated = belief_of(both);
  const CultureBelief known = belief_of(dated);
  for (std::size_t i = 0; i < culture_size; ++i) EXPECT_NEAR(undated.sd[i], known.sd[i], 1e-9) << i;
}

}  // namespace

}  // namespace barm::estimation
