// What must hold for the pH of any mixture, tried on mixtures drawn at random with a fixed seed.
#include "chemistry/acids.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <vector>

#include "support/matchers.h"
#include "units/units.h"

namespace barm::chemistry {

namespace {

constexpr Molality dough_water = 0.3 * (mole / kilogram);
constexpr double solved_to = 1e-9;
constexpr int draws = 500;

class MixedPh : public testing::Test {
 protected:
  double between(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(engine_);
  }

  Buffered any_part() {
    Buffered part{.mass = between(0.05, 1) * kilogram,
                  .ph = Ph(between(2.5, 8)),
                  .buffering = between(0, 0.05),
                  .flour = between(0, 1) < 0.5};
    for (Amount& amount : part.acid) {
      if (between(0, 1) < 0.4) amount = between(0, 80) * millimole;
    }
    return part;
  }

  std::vector<Buffered> any_mixture() {
    std::vector<Buffered> parts(1 + static_cast<std::size_t>(between(0, 5)));
    for (Buffered& part : parts) part = any_part();
    return parts;
  }

  static double ph(const std::vector<Buffered>& parts) {
    return mixed_ph(parts, dough_water).value().value();
  }

 private:
  std::mt19937_64 engine_{20240607};
};

TEST_F(MixedPh, LiesBetweenTheLowestAndTheHighestOfTheParts) {
  for (int i = 0; i < draws; ++i) {
    const auto parts = any_mixture();
    const auto [low, high] =
        std::minmax_element(parts.begin(), parts.end(), [](const Buffered& a, const Buffered& b) {
          return a.ph < b.ph;
        });
    EXPECT_GE(ph(parts), low->ph.value());
    EXPECT_LE(ph(parts), high->ph.value());
  }
}

TEST_F(MixedPh, OfAThingWithItselfIsItsOwn) {
  for (int i = 0; i < draws; ++i) {
    const Buffered part = any_part();
    EXPECT_NEAR(ph({part, part, part}), part.ph.value(), solved_to);
  }
}

TEST_F(MixedPh, DoesNotDependOnTheOrder) {
  for (int i = 0; i < draws; ++i) {
    auto parts = any_mixture();
    const double forwards = ph(parts);
    std::reverse(parts.begin(), parts.end());
    EXPECT_NEAR(ph(parts), forwards, solved_to);
  }
}

// Twice of everything is the same mixture.
TEST_F(MixedPh, DoesNotDependOnTheSizeOfTheBatch) {
  for (int i = 0; i < draws; ++i) {
    auto parts = any_mixture();
    const double once = ph(parts);
    parts.insert(parts.end(), parts.begin(), parts.end());
    EXPECT_NEAR(ph(parts), once, solved_to);
  }
}

TEST_F(MixedPh, NeverRisesWhenAcidIsAdded) {
  for (int i = 0; i < draws; ++i) {
    auto parts = any_mixture();
    const double before = ph(parts);
    for (std::size_t k = 0; k < acid_count; ++k) {
      Buffered acid{.ph = Ph(-2)};  // undissociated, as fermentation makes it
      acid.acid[k] = between(1, 50) * millimole;
      auto sourer = parts;
      sourer.push_back(acid);
      EXPECT_LE(ph(sourer), before + solved_to) << "acid " << k;
    }
  }
}

TEST_F(MixedPh, MovesTowardsTheBufferThatIsAdded) {
  for (int i = 0; i < draws; ++i) {
    auto parts = any_mixture();
    Buffered buffer = any_part();
    buffer.buffering += 0.01;
    parts.push_back(buffer);
    const double some = ph(parts);
    parts.push_back(buffer);
    const double more = ph(parts);
    const double wanted = buffer.ph.value();
    EXPECT_LE(std::abs(more - wanted), std::abs(some - wanted) + solved_to);
  }
}

TEST(MixedPhOfNothing, IsRefused) {
  EXPECT_THAT(mixed_ph({}, dough_water), test::FailsWith(ErrorCode::bad_input));
  const Buffered empty[] = {{.ph = Ph(3)}};
  EXPECT_THAT(mixed_ph(empty, dough_water), test::FailsWith(ErrorCode::bad_input));
}

TEST(Dissociated, RisesWithPhFromNoneToAll) {
  for (std::size_t k = 0; k < acid_count; ++k) {
    const auto acid = static_cast<Acid>(k);
    double before = dissociated(acid, Ph(-3), dough_water);
    EXPECT_NEAR(before, 0, 1e-5);
    for (double ph = -2.9; ph < 15; ph += 0.1) {
      const double now = dissociated(acid, Ph(ph), dough_water);
      EXPECT_GT(now, before) << "acid " << k << " at pH " << ph;
      before = now;
    }
    EXPECT_NEAR(before, static_cast<double>(pka_at_zero(acid).size()), 1e-4);
  }
}

// An acid with one step is half dissociated where pH equals pKa.
TEST(Dissociated, IsOneHalfAtThePkaOfASingleStep) {
  for (const Acid acid : {Acid::lactic, Acid::acetic, Acid::gluconic}) {
    const double pk = pka(acid, dough_water).front();
    EXPECT_NEAR(dissociated(acid, Ph(pk), dough_water), 0.5, 1e-14);
  }
}

TEST(Pka, FallsWithIonicStrengthAndEveryStepMoreThanTheLast) {
  for (std::size_t k = 0; k < acid_count; ++k) {
    const auto acid = static_cast<Acid>(k);
    const auto at_zero = pka_at_zero(acid);
    const auto in_dough = pka(acid, dough_water);
    ASSERT_EQ(at_zero.size(), in_dough.size());
    double drop_before = 0;
    for (std::size_t i = 0; i < at_zero.size(); ++i) {
      EXPECT_GT(at_zero[i] - in_dough[i], drop_before);
      drop_before = at_zero[i] - in_dough[i];
    }
  }
}

}  // namespace

}  // namespace barm::chemistry
