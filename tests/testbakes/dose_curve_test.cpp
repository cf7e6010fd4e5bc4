#include "testbakes/dose_curve.h"

#include <gmock/gmock.h>

#include "support/matchers.h"
#include "support/r.h"

namespace barm::testbakes {

namespace {

using test::AgreesTo;
using test::FailsWith;
using test::Holds;

const std::vector<double> dose{0, 0, 10, 10, 25, 25, 40, 40, 60, 60, 80, 80};
const std::vector<double> speed{
    1.02, 0.97, 0.98, 1.01, 0.88, 0.93, 0.70, 0.64, 0.33, 0.38, 0.19, 0.15};

TEST(DoseCurve, FitIsThatOfR) {
  const auto r = test::from_r(
      "x <- c(0,0,10,10,25,25,40,40,60,60,80,80)\n"
      "y <- c(1.02,.97,.98,1.01,.88,.93,.70,.64,.33,.38,.19,.15)\n"
      // in ln e and ln b, as the interval is on the scale of ln e
      "f <- nls(y ~ d/(1+(x/exp(le))^exp(lb)), start=list(d=1,le=log(50),lb=log(3)),\n"
      "  control=list(tol=1e-7))\n"
      "s <- summary(f); p <- coef(s)\n"
      "cat(p[,1], p[,2], s$sigma, exp(p[2,1]+c(-1,1)*qt(.9,s$df[2])*p[2,2]))\n");
  ASSERT_EQ(r.size(), 9U);
  const auto curve = fit_dose_curve(dose, speed);
  ASSERT_THAT(curve, Holds());
  EXPECT_THAT(curve->top, AgreesTo(6, r[0]));
  EXPECT_THAT(curve->half_speed_dose, AgreesTo(6, std::exp(r[1])));
  EXPECT_THAT(curve->power, AgreesTo(6, std::exp(r[2])));
  EXPECT_THAT(curve->top_error, AgreesTo(5, r[3]));
  EXPECT_THAT(curve->half_error, AgreesTo(5, std::exp(r[1]) * r[4]));
  EXPECT_THAT(curve->power_error, AgreesTo(5, std::exp(r[2]) * r[5]));
  EXPECT_THAT(curve->residual, AgreesTo(6, r[6]));
  EXPECT_THAT(curve->half_low, AgreesTo(5, r[7]));
  EXPECT_THAT(curve->half_high, AgreesTo(5, r[8]));
}

TEST(DoseCurve, UnitsOfDoseDoNotMatter) {
  const auto curve = fit_dose_curve(dose, speed).value();
  std::vector<double> thousandth = dose;
  for (double& x : thousandth) x /= 1000;
  const auto other = fit_dose_curve(thousandth, speed).value();
  EXPECT_NEAR(1000 * other.half_speed_dose, curve.half_speed_dose, 1e-5);
  EXPECT_NEAR(other.power, curve.power, 1e-6);
}

TEST(DoseCurve, WithoutAFallThereIsNoHalfSpeedDose) {
  EXPECT_THAT(fit_dose_curve({0, 5, 10, 20, 40}, {1, 1.01, 0.99, 1.0, 1.01}),
              FailsWith(ErrorCode::no_convergence));
  EXPECT_THAT(fit_dose_curve({0, 5, 5, 5}, {1, 1, 1, 1}), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(fit_dose_curve({0, 5, 10, 20}, {1, 1, std::nan(""), 1}),
              FailsWith(ErrorCode::bad_input));
}

}  // namespace

}  // namespace barm::testbakes
