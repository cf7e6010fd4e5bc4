#include "chemistry/acids.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <string>

#include "base/require.h"
#include "data/catalogue.h"
#include "generated/tables.h"
#include "support/matchers.h"
#include "support/printers.h"
#include "units/units.h"

namespace barm::chemistry {

namespace {

using test::Holds;

// "C3H6O3" by standard atomic weights [g/mol].
double molar_mass_of(std::string_view formula) {
  const std::map<char, double> weights = {{'C', 12.011}, {'H', 1.008}, {'O', 15.999}};
  double sum = 0;
  for (std::size_t i = 0; i < formula.size();) {
    const double weight = weights.at(formula[i++]);
    int count = 0;
    while (i < formula.size() && formula[i] >= '0' && formula[i] <= '9') {
      count = 10 * count + (formula[i++] - '0');
    }
    sum += weight * std::max(1, count);
  }
  return sum;
}

TEST(AcidTable, MolarMassesFollowFromTheFormulas) {
  for (const auto& row : tables::acids) {
    EXPECT_NEAR(row.molar_mass, molar_mass_of(row.formula), 0.003) << row.acid;
  }
}

TEST(AcidTable, EveryRowNamesASourceOfTheBibliographyAndItsStanding) {
  const auto sources = data::sources();
  for (const auto& row : tables::acids) {
    const auto source = std::find_if(
        sources.begin(), sources.end(), [&](const auto* s) { return s->key == row.source; });
    ASSERT_NE(source, sources.end()) << row.acid;
    EXPECT_EQ(data::name((*source)->standing), row.standing) << row.acid;
  }
}

TEST(Acids, HaveAsManyStepsAsTheyHaveAcidGroups) {
  EXPECT_EQ(pka_at_zero(Acid::lactic).size(), 1);
  EXPECT_EQ(pka_at_zero(Acid::tartaric).size(), 2);
  EXPECT_EQ(pka_at_zero(Acid::citric).size(), 3);
}

TEST(Acids, AreAsTheTableWithoutSalt) {
  const auto at_zero = pka_at_zero(Acid::citric);
  const auto pure = pka(Acid::citric, Molality{});
  EXPECT_TRUE(std::equal(at_zero.begin(), at_zero.end(), pure.begin(), pure.end()));
}

TEST(Acids, MolarMassCarriesItsUnit) {
  EXPECT_DOUBLE_EQ(molar_mass(Acid::lactic).in(gram / mole), 90.078);
}

// Davies by hand at I = 0.43 mol/kg: 0.509 (0.3960 - 0.129) = 0.1359 off the first step, 0.4077 off
// the second.
TEST(Acids, DaviesAtTheStrengthOfADough) {
  const auto steps = pka(Acid::tartaric, 0.43 * (mole / kilogram));
  EXPECT_NEAR(3.04 - steps[0], 0.1359, 0.0001);
  EXPECT_NEAR(4.37 - steps[1], 0.4077, 0.0003);
}

TEST(MixedPh, OfTwoEqualBuffersIsTheMiddle) {
  const Buffered parts[] = {{.mass = 1.0 * kilogram, .ph = Ph(5), .buffering = 0.03},
                            {.mass = 1.0 * kilogram, .ph = Ph(6), .buffering = 0.03}};
  const auto ph = mixed_ph(parts, Molality{});
  ASSERT_THAT(ph, Holds());
  EXPECT_NEAR(ph->value(), 5.5, 1e-3);  // water itself gives way a little
}

// 1 kg of flour from pH 6 to 4 and on to 3.5 takes up 0.02 (2 + 1.5 * 0.5) = 55 mmol.
TEST(MixedPh, FlourBuffersHalfAsMuchAgainBelowPh4) {
  Buffered acid{.ph = Ph(-8)};
  acid.acid[static_cast<std::size_t>(Acid::lactic)] =
      55.0 / dissociated(Acid::lactic, Ph(3.5), Molality{}) * millimole;
  const Buffered parts[] = {{.mass = 1.0 * kilogram, .ph = Ph(6), .buffering = 0.02, .flour = true},
                            acid};
  const auto ph = mixed_ph(parts, Molality{});
  ASSERT_THAT(ph, Holds());
  EXPECT_NEAR(ph->value(), 3.5, 0.01);  // 0.3 mmol of the acid stay as free H+
}

// Pure water of two pH: [H+] and [OH-] meet.
TEST(MixedPh, OfUnbufferedWatersFollowsFromTheirIons) {
  const Buffered parts[] = {{.mass = 1.0 * kilogram, .ph = Ph(4)},
                            {.mass = 1.0 * kilogram, .ph = Ph(7)}};
  const auto ph = mixed_ph(parts, Molality{});
  ASSERT_THAT(ph, Holds());
  EXPECT_NEAR(ph->value(), 4.301, 0.001);  // half of 1e-4
}

TEST(MixedPh, APartThatHoldsNothingIsPassedOver) {
  const Buffered parts[] = {{.mass = 1.0 * kilogram, .ph = Ph(6), .buffering = 0.02},
                            {.ph = Ph(1)}};
  EXPECT_EQ(mixed_ph(parts, Molality{}).value(), Ph(6));
}

TEST(MixedPh, ANegativeMassIsABrokenContract) {
  const Buffered parts[] = {{.mass = -1.0 * kilogram, .ph = Ph(6)}};
  EXPECT_THROW((void)mixed_ph(parts, Molality{}), ContractViolation);
}

}  // namespace

}  // namespace barm::chemistry
