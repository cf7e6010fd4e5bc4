#include "service/testbake/testbake.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <variant>

#include "formula/cautions.h"

namespace barm::service {

using testbakes::Rival;
using testbakes::TestBake;

namespace {

bool simmers(const TestBake& test) {
  for (const auto& recipe : test.doughs) {
    for (const auto& step : recipe.steps) {
      if (std::holds_alternative<testbakes::step::Simmer>(step)) return true;
    }
  }
  return false;
}

std::vector<std::string> cautions_of(const TestBake& test, const std::vector<Rival>& rivals) {
  std::vector<std::string> out;
  for (const Rival& rival : rivals) {
    for (const std::string& line : formula::cautions(rival.bake, rival.bowl)) {
      // One caution of a kind: the first words say which.
      constexpr std::size_t kind = 8;
      const auto same = [&](const std::string& other) {
        return other.compare(0, kind, line, 0, kind) == 0;
      };
      if (std::none_of(out.begin(), out.end(), same)) out.push_back(line);
    }
  }
  if (std::any_of(rivals.begin(), rivals.end(), [](const Rival& r) { return !r.stocks.empty(); })) {
    out.emplace_back(
        "Metabisulphite: its dust and the gas it gives off with acid can start asthma. Bakers "
        "dissolve "
        "it by an open window, away from acid, and name sulphites. The maker's sheet and your food "
        "authority's rules hold.");
  }
  if (simmers(test)) {
    out.emplace_back(
        "Simmering a drink gives off alcohol that can catch fire: no open flame, air moving, stay "
        "beside it. Some alcohol is always left.");
  }
  return out;
}

double planned_chance(const TestBake& test, double difference) {
  return testbakes::chance_to_show(std::log1p(-difference),
                                   static_cast<int>(test.days.size()),
                                   test.jars,
                                   testbakes::usual_scatter(),
                                   static_cast<int>(test.doughs.size()));
}

tl::unexpected<Error> bad(const char* where, const char* message) {
  return failure(ErrorCode::bad_input, where, message);
}

}  // namespace

Result<TestBakePlan> testbake_plan(const TestBake& test) {
  auto rivals = testbakes::rivals(test);
  if (!rivals) return failure(rivals);
  auto cautions = cautions_of(test, *rivals);
  TestBakePlan out{test, *std::move(rivals), {}, std::move(cautions)};
  if (!out.test.seed) out.test.seed = testbakes::drawn_seed();
  out.jars = testbakes::plan(out.test);
  return out;
}

Result<TestBakeBefore> testbake_before(const TestBake& test, const BeforeRequest& request) {
  if (!(request.difference > 0.01 && request.difference < 0.95))
    return bad("--difference", "a share of the speed from 2 % to 94 %, such as 20%");
  auto rivals = testbakes::rivals(test);
  if (!rivals) return failure(rivals);
  TestBakeBefore answer;
  answer.test = test;
  answer.difference = request.difference;
  std::vector<testbakes::Doses> doses;
  std::vector<std::string> names;
  forecast::Options options = request.options;
  options.curves = false;
  options.horizon = std::max(options.horizon, test.within);
  for (const Rival& rival : *rivals) {
    doses.push_back(testbakes::doses_of(rival));
    names.push_back(rival.name);
    const auto forecast = forecast::foresee(rival.bake, options);
    if (!forecast) return failure(forecast);
    const auto& hours = forecast->ready_hours;
    const auto in_time =
        std::upper_bound(hours.begin(), hours.end(), test.within.in(hour)) - hours.begin();
    answer.expected.push_back(
        {forecast->ready,
         Probability(static_cast<double>(in_time) / static_cast<double>(hours.size()))});
  }
  answer.answered = testbakes::already_answered(*rivals);
  answer.told_apart =
      testbakes::told_apart(doses, testbakes::asked_about(test, answer.answered), names);
  answer.draws = options.draws;
  answer.needed = testbakes::doughs_needed(
      request.difference, testbakes::usual_scatter(), static_cast<int>(test.doughs.size()));
  answer.chance_as_planned = planned_chance(test, request.difference);
  answer.rivals = *std::move(rivals);
  return answer;
}

Result<TasteAnswer> testbake_taste(const TasteRequest& request) {
  if (request.tasters < 0 || request.tasters > 1000)
    return bad("--tasters", "a number of people from 1 to 1000");
  if (!(request.tell > 0.02 && request.tell <= 1))
    return bad("--tell", "a share of people from 3 % to 100 %, such as 50%");
  if (!(request.power >= 0.5 && request.power <= 0.999))
    return bad("--power", "a chance from 0.5 to 0.999, such as 0.9");
  if (!(request.alpha >= 0.001 && request.alpha <= 0.3))
    return bad("--alpha", "a chance of a false alarm from 0.001 to 0.3, such as 0.05");
  TasteAnswer answer;
  answer.request = request;
  answer.tasters_needed = testbakes::tasters_needed(request.tell, request.power, request.alpha);
  const int tasters = request.tasters > 0 ? request.tasters : answer.tasters_needed;
  if (tasters < 1) return bad("--tell", "so small a difference would need over 5000 tasters");
  if (request.right > tasters) {
    return failure(ErrorCode::bad_input,
                   "--right",
                   fmt::format("{} answers cannot be right of {} tasters", request.right, tasters));
  }
  answer.request.tasters = tasters;
  answer.power = testbakes::triangle_power(tasters, request.tell, request.alpha);
  answer.right_needed = testbakes::right_needed(tasters, request.alpha);
  answer.servings = testbakes::serving_plan(tasters, request.seed);
  if (request.right >= 0)
    answer.result = testbakes::triangle(tasters, request.right, request.alpha);
  answer.cautions = {
      "Tell every taster beforehand what is in the bread: alcohol that may be left, sulphites and "
      "other allergens. Who must avoid them does not taste. Your food authority's rules hold."};
  return answer;
}

}  // namespace barm::service
