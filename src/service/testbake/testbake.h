#pragma once
// Test bakes, from question to verdict: each question as one function. service/testbake/json.cpp
// turns the answers into JSON. Reading the file is testbakes/read.h.
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "forecast/ensemble.h"
#include "testbakes/causes.h"
#include "testbakes/compared.h"
#include "testbakes/dose_curve.h"
#include "testbakes/doughs_needed.h"
#include "testbakes/next_bake.h"
#include "testbakes/plan.h"
#include "testbakes/reach_map.h"
#include "testbakes/read.h"
#include "testbakes/told_apart.h"
#include "testbakes/triangle.h"
#include "testbakes/verdict.h"

namespace barm::service {

/// What to weigh and where to put it. A test bake that named no seed has one drawn: keep it.
struct TestBakePlan {
  testbakes::TestBake test;
  std::vector<testbakes::Rival> rivals;  ///< in the order of test.doughs
  std::vector<testbakes::Jar> jars;
  std::vector<std::string> cautions;
};

/// Errors: as testbakes::rivals().
[[nodiscard]] Result<TestBakePlan> testbake_plan(const testbakes::TestBake& test);

/// What the model expects of one of the doughs.
struct Expected {
  forecast::Spread ready;
  Probability in_time;  ///< chance to be ready within the time allowed
};

/// What can be said before any flour is wasted.
struct TestBakeBefore {
  testbakes::TestBake test;
  std::string culture;  ///< whose memory it starts from; empty: none
  std::vector<testbakes::Rival> rivals;
  testbakes::ToldApart told_apart;
  std::vector<testbakes::Answered> answered;
  std::vector<Expected> expected;  ///< in the order of rivals
  int draws = 0;
  double difference = 0.2;  ///< share of the speed that is to be shown
  std::vector<testbakes::DoughsNeeded> needed;
  double chance_as_planned = 0;  ///< to show that difference between two of the doughs
};

struct BeforeRequest {
  double difference = 0.2;
  forecast::Options options;  ///< its horizon and target are set by the test bake
};

/// Errors: as testbakes::rivals() and forecast::foresee().
[[nodiscard]] Result<TestBakeBefore> testbake_before(const testbakes::TestBake& test,
                                                     const BeforeRequest& request);

/// A tasting: how many tasters, who gets what, and what their answers say.
struct TasteRequest {
  int tasters = 0;      ///< 0: only as many as are needed
  int right = -1;       ///< answers that were right; below 0 when nobody has tasted yet
  double tell = 0.5;    ///< share of people who can tell, if there is a difference worth finding
  double power = 0.9;   ///< chance wanted to show it
  double alpha = 0.05;  ///< chance of a false alarm
  unsigned long long seed = 1;
  std::string a = "A", b = "B";  ///< the two doughs
};

struct TasteAnswer {
  TasteRequest request;
  int tasters_needed = 0;
  double power = 0;  ///< of so many tasters
  int right_needed = 0;
  std::vector<testbakes::Serving> servings;
  std::optional<testbakes::TriangleResult> result;
  std::vector<std::string> cautions;
};

/// Errors: bad_input (tasters, answers or chances that cannot be).
[[nodiscard]] Result<TasteAnswer> testbake_taste(const TasteRequest& request);

/// The verdict with what lies below it.
struct TestBakeAfter {
  testbakes::TestBake test;
  std::vector<testbakes::Rival> rivals;
  testbakes::Verdict verdict;
  std::size_t control = 0;  ///< the dough the others are compared with
  std::vector<testbakes::Comparison> comparisons;

  /// Speed against dose by the jars alone, for a cause with three doses or more; the model plays no
  /// part in it.
  struct DoseAnswer {
    testbakes::Cause cause = testbakes::Cause::alcohol;
    testbakes::DoseCurve curve;
    std::vector<double> dose, speed;  ///< of the jars; speed over the control's of the same day
  };

  std::vector<DoseAnswer> dose_curves;
};

/// Reads the readings that the file names. Errors: as read_observed(), rivals() and judge().
[[nodiscard]] Result<TestBakeAfter> testbake_after(const testbakes::TestBake& test,
                                                   const testbakes::VerdictOptions& options = {});

/// The same with readings that stand in no file.
[[nodiscard]] Result<TestBakeAfter> testbake_after(const testbakes::TestBake& test,
                                                   const std::vector<testbakes::Watched>& observed,
                                                   const testbakes::VerdictOptions& options = {});

/// What to bake next.
struct TestBakeNext {
  testbakes::TestBake test;
  bool after = false;  ///< readings were there
  std::string so_far;  ///< the verdict so far in one sentence; empty without readings
  std::vector<testbakes::Candidate> candidates;
};

struct NextRequest {
  std::vector<std::string> candidates;  ///< in words; empty: the usual ones
  bool ignore_readings = false;
  std::optional<std::vector<testbakes::Watched>> observed;  ///< readings that stand in no file
  testbakes::NextOptions options;
};

/// Errors: bad_input (a candidate in words that are none), as judge().
[[nodiscard]] Result<TestBakeNext> testbake_next(const testbakes::TestBake& test,
                                                 const NextRequest& request);

/// The reach map of a test bake's base, or of any bake. Errors: as reach_map().
struct TestBakeMap {
  std::string name;
  std::string culture;  ///< whose memory it starts from; empty: none
  testbakes::ReachMap map;
  std::vector<testbakes::Contour> contours;  ///< of 1 in 4, 1 in 2, 9 in 10
};

[[nodiscard]] Result<TestBakeMap> testbake_map(const formula::Bake& bake,
                                               const testbakes::MapQuestion& question,
                                               const forecast::ShowField& show = {});

[[nodiscard]] nlohmann::json to_json(const TestBakeAfter& answer);
[[nodiscard]] nlohmann::json to_json(const TestBakeNext& answer);
[[nodiscard]] nlohmann::json to_json(const TestBakeMap& answer);
[[nodiscard]] nlohmann::json to_json(const TestBakePlan& answer);
[[nodiscard]] nlohmann::json to_json(const TestBakeBefore& answer);
[[nodiscard]] nlohmann::json to_json(const TasteAnswer& answer);

}  // namespace barm::service
