// Test bakes whose truth is known and none of ours: how often a wrong cause is named, how often the
// half-speed dose lies in its range, how often doughs that are alike are called clearly different.
// docs/model/testbakes.md 7.
//
//   verdicts [PART…]   PART: named, doses, compared; all without
#include <fmt/format.h>

#include <iostream>
#include <string_view>

#include "study.h"
#include "support/outside_doughs.h"
#include "testbakes/causes.h"
#include "testbakes/compared.h"
#include "testbakes/verdict.h"

namespace barm {

namespace {

using testbakes::Cause;

const std::string group = "Simulated doughs of outside laws";
const std::string source = "studies/verdicts.cpp";

// One line of docs/validation.md; true when it agrees, or misses as is known.
bool line(const std::string& what, const std::string& target, double ours, bool agrees) {
  return row_of_validation(group, source, what, target, ours, "share", agrees);
}

// How often a cause is named has no target: it is told beside how often a wrong one is.
void told(const std::string& what, double ours) {
  print_row(group, source, what, "no target", ours, "share", "told");
}

double share(int part, int whole) {
  return whole > 0 ? static_cast<double>(part) / whole : std::nan("");
}

const std::vector<double> twelve{2, 4, 6, 8, 10, 12, 14, 16, 18, 21, 25, 30};

// What the doughs keep of their speed when one cause acts by the law of doses.
std::vector<double> slowed(const std::vector<testbakes::Rival>& rivals,
                           Cause cause,
                           double half,
                           double power) {
  std::vector<double> left;
  for (const auto& rival : rivals)
    left.push_back(testbakes::speed_left(
        testbakes::doses_of(rival)[static_cast<std::size_t>(cause)], half, power));
  return left;
}

struct Named {
  int runs = 0, right = 0, wrong = 0, held = 0, asked = 0;
};

void count(Named& named,
           const testbakes::Verdict& verdict,
           std::optional<Cause> truth,
           double half) {
  ++named.runs;
  bool right = false;
  bool wrong = false;
  for (const auto& found : verdict.causes) {
    if (found.finding != testbakes::Finding::acts) continue;
    (truth == found.prior.cause ? right : wrong) = true;
    if (truth != found.prior.cause) continue;
    ++named.asked;
    named.held += found.half_low <= half && half <= found.half_high ? 1 : 0;
  }
  named.right += right ? 1 : 0;
  named.wrong += wrong ? 1 : 0;
}

testbakes::Verdict judged(const testbakes::TestBake& test,
                          const std::vector<testbakes::Rival>& rivals,
                          const std::vector<testbakes::Watched>& jars) {
  testbakes::VerdictOptions options;
  options.draws = 4;
  auto verdict = testbakes::judge(test, rivals, jars, options);
  if (!verdict) throw std::runtime_error(verdict.error().text());
  return *std::move(verdict);
}

// The cause is something else in the wine, or one dough goes its own way for no reason offered.
bool something_else(int runs) {
  const auto test = test::wine_test({"plain", "", "e", "a", "s"}, 2, 1);
  const auto rivals = testbakes::rivals(test).value();
  Named drink;
  Named own_way;
  for (int run = 0; run < runs; ++run) {
    numerics::Random random(20261128, static_cast<std::uint64_t>(run));
    const test::OutsideCulture culture(run % 2 == 0, random);
    const bool in_the_drink = run / 2 % 2 == 0;
    const auto slow = 1 + static_cast<std::size_t>(random.uniform() * 3.999);
    const double by = 0.4 + 0.3 * random.uniform();
    std::vector<double> left;
    for (std::size_t d = 0; d < rivals.size(); ++d) {
      const bool here = in_the_drink ? test::holds_the_wine(rivals[d]) : d == slow;
      left.push_back(here ? by : 1);
    }
    const auto jars = test::outside_jars(test, left, culture, twelve, {}, random);
    count(in_the_drink ? drink : own_way, judged(test, rivals, jars), Cause::other, 0);
  }
  bool good = line("something else in the drink slows it: a wrong cause named",
                   "at most 0.05; 0.94 before",
                   share(drink.wrong, drink.runs),
                   share(drink.wrong, drink.runs) <= 0.05);
  told("something else in the drink slows it: that is named", share(drink.right, drink.runs));
  good &= line("one dough goes its own way: a cause named",
               "at most 0.05; 0.52 before",
               share(own_way.wrong, own_way.runs),
               share(own_way.wrong, own_way.runs) <= 0.05);
  return good;
}

// One of three causes acts, its half-speed dose from its prior; two outside laws.
bool doses(int runs) {
  const auto test = test::wine_test({"plain", "e", "a", "s", "ea", "es", "as", "eas"}, 2, 1);
  const auto rivals = testbakes::rivals(test).value();
  const auto priors = testbakes::cause_priors(rivals, test.causes);
  bool good = true;
  for (const bool gompertz : {true, false}) {
    Named named;
    for (int run = 0; run < runs; ++run) {
      numerics::Random random(gompertz ? 17 : 18, static_cast<std::uint64_t>(run));
      const test::OutsideCulture culture(gompertz, random);
      const auto& prior = priors[static_cast<std::size_t>(run) % 3];
      const double half = prior.half_speed_dose * std::exp(prior.doubt * random.normal());
      const auto left = slowed(rivals, prior.cause, half, prior.power);
      const auto jars = test::outside_jars(test, left, culture, twelve, {}, random);
      count(named, judged(test, rivals, jars), prior.cause, half);
    }
    const std::string law = gompertz ? "Gompertz" : "Baranyi";
    const double held = share(named.held, named.asked);
    good &= line(
        fmt::format("{}: half-speed dose within the range of 8 of 10, {} named", law, named.asked),
        gompertz ? "0.70 to 0.90; 0.17 before" : "0.70 to 0.90",
        held,
        held >= 0.7 && held <= 0.9);
    const double wrong = share(named.wrong, named.runs);
    good &= line(law + ": a wrong cause named",
                 gompertz ? "at most 0.05; 0.08 before" : "at most 0.05",
                 wrong,
                 wrong <= 0.05);
    told(law + ": the right cause named" + (gompertz ? ", 0.90 before" : ""),
         share(named.right, named.runs));
  }
  return good;
}

// Nothing acts: how often anything in the three lists is called clear.
bool alike(int runs) {
  bool good = true;
  for (const bool short_watch : {false, true}) {
    for (const int jars_each : {1, 3}) {
      const auto test =
          test::wine_test({"plain", "", "e", "a", "s"}, jars_each == 3 ? 1 : 2, jars_each);
      const std::vector<double> left(test.doughs.size(), 1.0);
      int clear = 0;
      for (int run = 0; run < runs; ++run) {
        numerics::Random random(19, static_cast<std::uint64_t>(run));
        const test::OutsideCulture culture(run % 2 == 0, random);
        const std::vector<double> hours =
            short_watch ? std::vector<double>{2, 4, 6, 8, 10, 12} : twelve;
        const auto jars = test::outside_jars(test, left, culture, hours, {}, random);
        bool any = false;
        for (const auto& list : testbakes::compare(jars, 0))
          for (const auto& one : list.contrasts) any |= one.low > 0 || one.high < 0;
        clear += any ? 1 : 0;
      }
      good &= line(fmt::format("doughs alike, {} of each a day, watched for {} h: any called clear",
                               jars_each == 1 ? "one jar" : "three jars",
                               short_watch ? 12 : 30),
                   fmt::format("at most 0.10; {} before",
                               jars_each == 3 ? "0.90"
                               : short_watch  ? "0.32"
                                              : "0.28"),
                   share(clear, runs),
                   share(clear, runs) <= 0.10);
    }
  }
  // Equal ceilings, one dough at half the speed, the last look before its peak.
  const auto test = test::wine_test({"plain", "e"}, 2, 1);
  int clear = 0;
  for (int run = 0; run < runs; ++run) {
    numerics::Random random(23, static_cast<std::uint64_t>(run));
    const test::OutsideCulture culture(run % 2 == 0, random);
    const auto jars =
        test::outside_jars(test, {1, 0.5}, culture, {2, 4, 6, 8, 10, 12, 14, 16}, {}, random);
    for (const auto& list : testbakes::compare(jars, 0)) {
      if (list.what != "peak") continue;
      for (const auto& one : list.contrasts) clear += one.low > 0 || one.high < 0 ? 1 : 0;
    }
  }
  good &= line("ceilings alike, one dough half as fast and cut off by the last look: peaks clear",
               "at most 0.10; 0.97 before",
               share(clear, runs),
               share(clear, runs) <= 0.10);
  return good;
}

}  // namespace

}  // namespace barm

int main(int argc, char** argv) {
  return barm::run_parts(argc,
                         argv,
                         {{"named", [] { return barm::something_else(96); }},
                          {"doses", [] { return barm::doses(36); }},
                          {"compared", [] { return barm::alike(200); }}});
}
