// Our fitting path against the certified sets of NIST/ITL, and against R's nls.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "estimation/internal/least_squares.h"
#include "support/csv.h"
#include "support/matchers.h"
#include "support/r.h"
#include "support/validation.h"

namespace barm::estimation {
namespace {

using internal::FitOptions;
using internal::least_squares;
using test::digits;
using test::read_csv;

struct Points {
  std::vector<double> x, y;
};

Points points_of(const std::string& file) {
  Points points;
  for (const auto& row : read_csv(file)) {
    points.x.push_back(std::stod(row.at("x")));
    points.y.push_back(std::stod(row.at("y")));
  }
  return points;
}

// The models as NIST states them, for numbers with derivatives.
struct Misra1a {
  template <class T>
  T operator()(const T* b, double x) const {
    using std::exp;
    return b[0] * (1.0 - exp(-b[1] * x));
  }
};

struct Chwirut2 {
  template <class T>
  T operator()(const T* b, double x) const {
    using std::exp;
    return exp(-b[0] * x) / (b[1] + b[2] * x);
  }
};

struct Eckerle4 {
  template <class T>
  T operator()(const T* b, double x) const {
    using std::exp;
    const T off = (x - b[2]) / b[1];
    return b[0] / b[1] * exp(-0.5 * off * off);
  }
};

struct Rat42 {
  template <class T>
  T operator()(const T* b, double x) const {
    using std::exp;
    return b[0] / (1.0 + exp(b[1] - b[2] * x));
  }
};

struct Rat43 {
  template <class T>
  T operator()(const T* b, double x) const {
    using std::exp;
    using std::pow;
    return b[0] / pow(1.0 + exp(b[1] - b[2] * x), 1.0 / b[3]);
  }
};

struct Mgh09 {
  template <class T>
  T operator()(const T* b, double x) const {
    return b[0] * (x * x + x * b[1]) / (x * x + x * b[2] + b[3]);
  }
};

struct Mgh10 {
  template <class T>
  T operator()(const T* b, double x) const {
    using std::exp;
    return b[0] * exp(b[1] / (x + b[2]));
  }
};

struct Thurber {
  template <class T>
  T operator()(const T* b, double x) const {
    return (b[0] + x * (b[1] + x * (b[2] + x * b[3]))) / (1.0 + x * (b[4] + x * (b[5] + x * b[6])));
  }
};

template <class Model>
struct Off {
  Model model;
  const Points& points;

  template <class T>
  bool operator()(const T* b, T* out) const {
    for (std::size_t i = 0; i < points.x.size(); ++i) out[i] = points.y[i] - model(b, points.x[i]);
    return true;
  }
};

struct Certified {
  std::vector<double> start1, start2, value;
  double rss = 0;
};

Certified certified(const std::string& set) {
  Certified out;
  for (const auto& row : read_csv("nist_certified.csv")) {
    if (row.at("dataset") != set) continue;
    const std::string& quantity = row.at("quantity");
    if (quantity == "rss") out.rss = std::stod(row.at("certified"));
    if (quantity[0] != 'b' || quantity.size() != 2) continue;
    out.start1.push_back(std::stod(row.at("start1")));
    out.start2.push_back(std::stod(row.at("start2")));
    out.value.push_back(std::stod(row.at("certified")));
  }
  return out;
}

// The least digits to which any parameter agrees.
template <class Model>
double agreement(const std::string& set, const std::vector<double>& start, double& rss) {
  std::string file = "nist_";
  for (const char c : set) file += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  const Points points = points_of(file + ".csv");
  FitOptions options;
  options.most_steps = 2000;
  options.enough = 1e-18;
  const auto fit = least_squares(Off<Model>{{}, points}, points.x.size(), start, options);
  rss = 2 * fit.cost;
  const Certified wanted = certified(set);
  double least = 15;
  for (std::size_t i = 0; i < wanted.value.size(); ++i)
    least = std::min(least, digits(fit.at[i], wanted.value[i]));
  return std::min(least, digits(rss, wanted.rss));
}

template <class Model>
void holds(const std::string& set) {
  const Certified wanted = certified(set);
  ASSERT_FALSE(wanted.value.empty());
  double rss = 0;
  const double from_start2 = agreement<Model>(set, wanted.start2, rss);
  EXPECT_GE(from_start2, 6) << set << " from start 2";
  test::record("fitting",
               set + ", digits of the worst parameter from start 2",
               "NIST/ITL StRD, nonlinear regression",
               ">= 6",
               from_start2,
               "",
               from_start2 >= 6);
  const double from_start1 = agreement<Model>(set, wanted.start1, rss);
  test::record("fitting",
               set + ", digits of the worst parameter from start 1, far away",
               "NIST/ITL StRD, nonlinear regression",
               ">= 4",
               from_start1,
               "",
               from_start1 >= 4);
}

TEST(Fitting, Misra1a) { holds<Misra1a>("Misra1a"); }

TEST(Fitting, Chwirut2) { holds<Chwirut2>("Chwirut2"); }

TEST(Fitting, Eckerle4) { holds<Eckerle4>("Eckerle4"); }

TEST(Fitting, Rat42) { holds<Rat42>("Rat42"); }

TEST(Fitting, Rat43) { holds<Rat43>("Rat43"); }

TEST(Fitting, Mgh09) { holds<Mgh09>("MGH09"); }

TEST(Fitting, Mgh10) { holds<Mgh10>("MGH10"); }

TEST(Fitting, Thurber) { holds<Thurber>("Thurber"); }

// Baranyi & Roberts' law as nlsMicrobio writes it, log10 of a count.
struct Baranyi {
  template <class T>
  T operator()(const T* b, double t) const {
    using std::exp;
    using std::log;
    constexpr double ln10 = 2.302585092994046;
    const T awake = exp(b[1] * b[0]);
    const T grown = exp(b[1] * t);
    return b[3] +
           log((awake + grown - 1.0) / (grown - 1.0 + awake * exp((b[3] - b[2]) * ln10))) / ln10;
  }
};

// R's nls fits the same published curve in its own way; the numbers are R's of this moment.
TEST(Fitting, AGrowthCurveAsRFitsIt) {
  const std::vector<double> theirs =
      test::from_r("source('" BARM_TEST_DATA "/truth/growth_curve.R')");
  ASSERT_EQ(theirs.size(), 5u) << "Rscript of r-base-core did not run";
  const Points points{{0, 2, 4, 6, 8, 10, 12, 16, 20, 24},
                      {3.62, 3.63, 4.14, 5.23, 6.27, 7.57, 8.38, 8.70, 8.62, 8.44}};
  FitOptions options;
  options.most_steps = 500;
  options.enough = 1e-16;
  const auto fit =
      least_squares(Off<Baranyi>{{}, points}, points.x.size(), {3, 1.2, 3.6, 8.6}, options);
  const char* names[] = {"lag [h]", "speed [1/h]", "first level", "last level"};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_GE(digits(fit.at[i], theirs[i]), 5) << names[i];
    test::record("fitting",
                 std::string("a published growth curve: ") + names[i],
                 "R 4.2, nls",
                 std::to_string(theirs[i]),
                 fit.at[i],
                 "",
                 digits(fit.at[i], theirs[i]) >= 5);
  }
  EXPECT_GE(digits(2 * fit.cost, theirs[4]), 6);
}

}  // namespace
}  // namespace barm::estimation
