// One dough, one clock: whoever tells of a bake names the same moments.
#include <gmock/gmock.h>

#include <cmath>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "../support/matchers.h"
#include "forecast/ensemble.h"
#include "formula/read.h"
#include "kinetics/system.h"
#include "numerics/random.h"
#include "service/bake/calendar.h"
#include "service/bake/foresee.h"
#include "service/bake/head.h"
#include "service/bake/jar.h"
#include "service/bake/read.h"
#include "service/now.h"

namespace barm::service {

namespace {

using barm::test::Holds;
using nlohmann::json;
using testing::HasSubstr;

constexpr unsigned long long bakes_walked = 24;
constexpr int doughs_drawn = 24;
constexpr int parts = 8;  // of all bakes, for as many processors

// BARM_BAKES=2000 in the environment tries more (tools/long).
unsigned long long bakes_a_part() {
  const char* wanted = std::getenv("BARM_BAKES");
  return (wanted == nullptr ? 200 : std::strtoull(wanted, nullptr, 10)) / parts;
}

/// Bakes with their stages in any order that is legal.
class AnyBake {
 public:
  explicit AnyBake(unsigned long long seed) : random_(seed, 1) {}

  std::string text() {
    std::string text =
        "name = \"any\"\nmixed = 2026-10-24T20:00:00\nflour = \"2 kg\"\n[bowl]\n"
        "liquid = \"70 %\"\n";
    text += flours();
    text += one_in(2) ? "water = \"rest of the liquid\"\n\"dry mead\" = \"30 % of the liquid\"\n"
                      : "water = \"100 % of the liquid\"\n";
    text += "salt = \"2 %\"\n\"stiff ripe levain\" = \"20 %\"\n";
    if (one_in(5)) text += "raisins = \"20 %\"\n";
    if (one_in(8)) text += "\"raw pineapple\" = \"15 %\"\n";
    text += mix() + cold(3) + bulk() + cold(4);
    if (!one_in(4)) text += "[[stage]]\ndo = \"divide\"\n";
    if (!one_in(4)) text += "[[stage]]\ndo = \"shape\"\n";
    text += cold(4);
    if (!one_in(3)) text += "[[stage]]\ndo = \"proof\"\nfor = \"90 min\"\n";
    return text + cold(4);
  }

 private:
  bool one_in(int n) { return random_.uniform() * n < 1; }

  std::string flours() {
    if (one_in(5)) return "\"rye flour\" = \"100 %\"\n";
    if (one_in(5)) return "\"rye flour\" = \"50 %\"\n\"white bread flour\" = \"50 %\"\n";
    if (one_in(5)) return "\"wholemeal flour\" = \"100 %\"\n";
    return "\"white bread flour\" = \"100 %\"\n";
  }

  std::string place() { return one_in(6) ? "14" : one_in(5) ? "34" : "25"; }

  static std::string mix() { return "[[stage]]\ndo = \"mix\"\n"; }

  std::string cold(int n) { return one_in(n) ? "[[stage]]\ndo = \"cold\"\nfor = \"6 h\"\n" : ""; }

  std::string bulk() {
    std::string text = "[[stage]]\ndo = \"bulk\"\ntemperature = \"" + place() + " C\"\n";
    text += one_in(4) ? "for = \"5 h\"\n" : "until = \"1.8 x\"\n";
    for (int i = 1; i <= 2; ++i) {
      if (one_in(2)) text += "[[stage]]\ndo = \"fold\"\nafter = \"" + std::to_string(i) + " h\"\n";
    }
    return text;
  }

  numerics::Random random_;
};

formula::Bake bake_of_seed(unsigned long long seed) {
  const auto bake = formula::parse_bake(AnyBake(seed).text(), "any.toml");
  EXPECT_THAT(bake, Holds());
  return *bake;
}

// Of every third bake the stages up to one of them, some hours too early or too late.
std::vector<forecast::Done> ticked_off(const formula::Bake& bake, unsigned long long seed) {
  std::vector<forecast::Done> done;
  if (seed % 3 != 0) return done;
  numerics::Random random(seed, 2);
  const auto up_to = static_cast<std::size_t>(random.uniform() * double(bake.stages.size()));
  double at = 0;
  for (std::size_t s = 0; s <= up_to; ++s) {
    if (bake.stages[s].step != formula::Step::mix) at += 0.25 + 9 * random.uniform();
    done.push_back({s, at * hour});
  }
  return done;
}

// The time at which a calendar lets something begin; empty where it says nothing of it.
std::string begins(const std::string& calendar, const std::string& title) {
  std::string start;
  for (std::size_t at = 0; at < calendar.size();) {
    const std::size_t end = calendar.find("\r\n", at);
    const std::string line = calendar.substr(at, end - at);
    if (line.starts_with("DTSTART:")) start = line.substr(8);
    if (line.starts_with("SUMMARY:" + title)) return start;
    at = end + 2;
  }
  return "";
}

// A moment as a calendar writes it, to the minute.
std::string in_calendar(const formula::Bake& bake, double hours) {
  std::string utc = time::to_nearest(60, *clock_of(bake).instant(hours * hour)).text();
  std::erase_if(utc, [](char c) { return c == '-' || c == ':'; });
  return utc;
}

// What is said of the causes adds up to what is said of READY, and a dough that never gets there is
// told why: never "not within" where it is the dough that cannot hold its gas.
void expect_causes_agree(const json& said) {
  const json& way = said["in_the_way"];
  const auto quarters = [](double hours) { return std::round(4 * hours); };
  const double horizon = said["horizon_h"];
  const auto or_horizon = [&](const json& hours) {
    return quarters(hours.is_null() ? horizon : hours.get<double>());
  };
  double sum = or_horizon(way["bare_h"]);
  for (const json& cost : way["costs"]) {
    sum += quarters(cost["said_h"]);
    EXPECT_NEAR(cost["said_h"].get<double>(), cost["costs_h"].get<double>(), 0.501);
  }
  EXPECT_EQ(sum, or_horizon(way["as_it_is_h"]));
  EXPECT_EQ(way["at_least"], way["as_it_is_h"].is_null());
  EXPECT_EQ(said["why_never"].is_null(), !said["ready"]["p50_h"].is_null());
  if (said["why_never"].is_null()) return;
  EXPECT_GT(said["chance_never"].get<double>(), 0.45);
  const std::string instead = said["why_never"]["in_place_of_ready"];
  if (said["why_never"]["obstacle"] == "cannot_hold") {
    EXPECT_THAT(instead, testing::Not(HasSubstr("within")));
    EXPECT_THAT(said["limit"]["words"].get<std::string>(), HasSubstr("times at most"));
    // Where just half of an even number of doughs get there, the middle lies between two of them.
    if (said["chance_never"].get<double>() > 0.51) {
      EXPECT_LT(said["limit"]["p50_ratio"].get<double>(),
                said["target_volume_ratio"].get<double>() + 1e-9);
    }
  }
}

class AnyBakes : public testing::TestWithParam<int> {};

TEST_P(AnyBakes, HaveTheSameMomentsWhoeverTellsThem) {
  for (unsigned long long i = 1; i <= bakes_a_part(); ++i) {
    const auto seed = i * parts + static_cast<unsigned long long>(GetParam());
    SCOPED_TRACE(AnyBake(seed).text());
    const formula::Bake bake = bake_of_seed(seed);
    forecast::Options options;
    options.draws = doughs_drawn;
    options.done = ticked_off(bake, seed);
    auto answer = service::foresee(bake, options);
    ASSERT_THAT(answer, Holds());
    if (!options.done.empty()) answer->now = options.done.back().at;
    const json said = to_json(*answer);
    json in_bulk;
    json last;  // a fold happens inside its bulk
    for (const json& stage : said["stages"]) {
      if (stage["step"] == "bulk") in_bulk = stage;
      if (stage["step"] != "fold") last = stage;
    }
    for (const char* share : {"p10_h", "p50_h", "p90_h"})
      EXPECT_EQ(said["ready"][share], in_bulk["end"][share]) << share;

    expect_causes_agree(said);
    if (!answer->forecast.ready.p50) continue;  // no jar has a mark of it, and nothing is due
    const auto marks = jar(bake, {}, options);
    ASSERT_THAT(marks, Holds());
    if (answer->forecast.ready.p50 && options.done.empty()) {
      EXPECT_NEAR(marks->marks.ready.p50->in(minute), answer->forecast.ready.p50->in(minute), 1);
    }

    const auto file = calendar(*answer, {15.0 * minute, {}, time::Zone()});
    ASSERT_THAT(file, Holds());
    for (const json& act : said["to_do"]) {
      if (act["done"] == true || act["p50_at"].is_null() || act["act"] == "mix" ||
          act["act"] == "fold")
        continue;
      std::string title = act["what"];
      title[0] = static_cast<char>(std::toupper(title[0]));
      if (title.find("cold") != std::string::npos) continue;  // there may be several
      EXPECT_EQ(begins(*file, title), in_calendar(bake, act["p50_h"])) << title;
    }
    EXPECT_EQ(said["head"]["oven"]["p50_h"], last["end"]["p50_h"]);
    if (said["in_the_way"]["at_least"] == false) {
      double sum = said["in_the_way"]["bare_h"];
      for (const json& cost : said["in_the_way"]["costs"]) sum += cost["costs_h"].get<double>();
      EXPECT_NEAR(sum, said["in_the_way"]["as_it_is_h"].get<double>(), 1e-6);
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Any, AnyBakes, testing::Range(0, parts));

// A walk of one draw that shares nothing with the program's but the equations of the dough:
// classical Runge and Kutta by half minutes, volumes looked at after every step.
class OneDraw {
 public:
  OneDraw(const forecast::Draw& draw, double celsius)
      : terms_(kinetics::terms(draw.dough, draw.parameters, celsius, celsius)),
        system_(terms_, kinetics::present(draw.dough)),
        y_(kinetics::at_mixing(draw.dough, draw.parameters)) {}

  // Hours until the volume ratio or the end, folded at these hours.
  double bulk(double ratio, double end, std::vector<double> folds) {
    constexpr double step = 1.0 / 120;
    double t = 0;
    while (t < end - 1e-9 && system_.rise(y_) < ratio) {
      if (!folds.empty() && t >= folds.front() - 1e-9) {
        take_out(constants::gas::fold_out.value.si());
        folds.erase(folds.begin());
      }
      go(step);
      t += step;
    }
    return system_.rise(y_) < ratio && t >= 71.9 ? INFINITY : t;
  }

 private:
  using State = kinetics::StateOf<double>;

  void take_out(double share) {
    y_[kinetics::gas_held] -= share * kinetics::gas_in_bubbles(y_[kinetics::gas_held], terms_.gas);
  }

  State slope(const State& from, const State& along, double by) const {
    State y;
    State dy;
    for (std::size_t i = 0; i < y.size(); ++i) y[i] = from[i] + by * along[i];
    system_(0, y, dy);
    return dy;
  }

  void go(double h) {
    const State k1 = slope(y_, y_, 0);
    const State k2 = slope(y_, k1, h / 2);
    const State k3 = slope(y_, k2, h / 2);
    const State k4 = slope(y_, k3, h);
    for (std::size_t i = 0; i < y_.size(); ++i)
      y_[i] += h / 6 * (k1[i] + 2 * k2[i] + 2 * k3[i] + k4[i]);
  }

  kinetics::Terms<double> terms_;
  kinetics::System<double> system_;
  State y_;
};

TEST(SameMoments, AWalkThatSharesNoCodeComesToTheSameHour) {
  int compared = 0;
  for (unsigned long long seed = 1; seed <= bakes_walked; ++seed) {
    const formula::Bake bake = bake_of_seed(seed);
    // It knows no conduction: the bulk comes first and is kept at its temperature.
    if (bake.stages.size() < 2 || bake.stages[1].step != formula::Step::bulk) continue;
    SCOPED_TRACE(AnyBake(seed).text());
    forecast::Options options;
    options.draws = 6;
    const auto forecast = forecast::foresee(bake, options);
    ASSERT_THAT(forecast, Holds());
    std::vector<double> folds;
    for (const formula::Stage& stage : bake.stages) {
      if (stage.step == formula::Step::fold) folds.push_back(stage.after->in(hour));
    }
    const double end = bake.bulk()->lasts ? bake.bulk()->lasts->in(hour) : 72;
    const double ratio = bake.bulk()->until.value_or(1e9);
    for (int i = 0; i < options.draws; ++i) {
      const auto drawn = forecast::draw(bake, options.seed, i);
      ASSERT_THAT(drawn, Holds());
      const double alone =
          OneDraw(*drawn, bake.bulk_temperature().celsius()).bulk(ratio, end, folds);
      const double told = forecast->timeline.ready_hours[static_cast<std::size_t>(i)];
      if (std::isinf(alone) || std::isinf(told)) {
        EXPECT_EQ(alone, told);
        continue;
      }
      EXPECT_NEAR(told, alone, 0.02) << "draw " << i;
      ++compared;
    }
  }
  EXPECT_GT(compared, 30);
}

TEST(SameMoments, AReadingMovesReadyTheStagesAndTheHeadAlike) {
  const formula::Bake bake = bake_of_seed(2);
  const auto batch = batch_of(bake, {.typed = {"0h 40 mm", "3h 46 mm bulk 25 C room 22 C"}});
  ASSERT_THAT(batch, Holds());
  forecast::Options options;
  options.draws = 400;
  const auto answer = read(*batch, options);
  ASSERT_THAT(answer, Holds());
  EXPECT_EQ(answer->readings.rows.back().bulk, Temperature::from_celsius(25));
  EXPECT_EQ(answer->readings.rows.back().room, Temperature::from_celsius(22));
  const json said = to_json(*answer);
  for (const json& stage : said["stages"]) {
    if (stage["step"] == "bulk") {
      EXPECT_EQ(stage["end"]["p50_h"], said["after"]["ready"]["p50_h"]);
    }
  }
  EXPECT_THAT(said["head"]["words"].get<std::string>(), HasSubstr("into the oven"));
}

}  // namespace
}  // namespace barm::service
