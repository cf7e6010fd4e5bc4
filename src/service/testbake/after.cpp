#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "service/testbake/testbake.h"

namespace barm::service {

using testbakes::Cause;
using testbakes::Rival;
using testbakes::TestBake;
using testbakes::Watched;

namespace {

std::size_t control_of(const std::vector<Rival>& rivals, const std::vector<Watched>& observed) {
  const auto seen = [&](std::size_t dough) {
    return std::any_of(
        observed.begin(), observed.end(), [&](const Watched& jar) { return jar.dough == dough; });
  };
  for (std::size_t d = 0; d < rivals.size(); ++d)
    if (rivals[d].plain && seen(d)) return d;
  return observed.front().dough;
}

/// Speed of each jar over the mean of the control's on its day; a jar that did not rise has a
/// hundredth of it.
std::vector<double> relative_speeds(const std::vector<Watched>& observed, std::size_t control) {
  constexpr double hardly_any = 0.01;
  std::map<std::size_t, std::pair<double, int>> of_control;
  std::vector<double> speeds;
  for (const Watched& jar : observed) {
    const auto rise = testbakes::rise_of(jar);
    speeds.push_back(rise.risen ? rise.speed : 0);
    if (jar.dough != control || !rise.risen) continue;
    of_control[jar.day].first += rise.speed;
    of_control[jar.day].second += 1;
  }
  for (std::size_t i = 0; i < speeds.size(); ++i) {
    const auto [sum, count] = of_control[observed[i].day];
    speeds[i] = count > 0 && speeds[i] > 0 ? speeds[i] / (sum / count)
                : count > 0                ? hardly_any
                                           : std::nan("");
  }
  return speeds;
}

/// Doughs in which no other cause asked about is held.
bool alone(const std::vector<testbakes::CauseFound>& causes,
           const testbakes::Doses& doses,
           Cause cause) {
  constexpr double hardly = 0.1;  // of the largest dose
  return std::none_of(causes.begin(), causes.end(), [&](const auto& other) {
    const auto at = static_cast<std::size_t>(other.prior.cause);
    return other.prior.cause != cause && other.finding != testbakes::Finding::does_not &&
           doses[at] > hardly * other.prior.largest_dose;
  });
}

std::vector<TestBakeAfter::DoseAnswer> dose_answers(const TestBakeAfter& after,
                                                    const std::vector<Watched>& observed) {
  const auto speeds = relative_speeds(observed, after.control);
  std::vector<TestBakeAfter::DoseAnswer> out;
  for (const auto& found : after.verdict.causes) {
    TestBakeAfter::DoseAnswer answer;
    answer.cause = found.prior.cause;
    std::set<long> different;
    for (std::size_t i = 0; i < observed.size(); ++i) {
      const auto doses = testbakes::doses_of(after.rivals[observed[i].dough]);
      if (std::isnan(speeds[i]) || !alone(after.verdict.causes, doses, answer.cause)) continue;
      const double dose = doses[static_cast<std::size_t>(answer.cause)];
      answer.dose.push_back(dose);
      answer.speed.push_back(speeds[i]);
      different.insert(std::lround(20 * dose / std::max(found.prior.largest_dose, 1e-12)));
    }
    if (different.size() < 4) continue;
    const auto curve = testbakes::fit_dose_curve(answer.dose, answer.speed);
    if (!curve) continue;
    answer.curve = *curve;
    out.push_back(std::move(answer));
  }
  return out;
}

}  // namespace

Result<TestBakeAfter> testbake_after(const TestBake& test,
                                     const testbakes::VerdictOptions& options) {
  const auto observed = testbakes::read_observed(test);
  if (!observed) return failure(observed);
  return testbake_after(test, *observed, options);
}

Result<TestBakeAfter> testbake_after(const TestBake& test,
                                     const std::vector<Watched>& observed,
                                     const testbakes::VerdictOptions& options) {
  if (observed.empty())
    return failure(ErrorCode::bad_input, test.file, "there are no readings to judge by");
  auto rivals = testbakes::rivals(test);
  if (!rivals) return failure(rivals);
  auto verdict = testbakes::judge(test, *rivals, observed, options);
  if (!verdict) return failure(verdict);
  TestBakeAfter after;
  after.test = test;
  after.rivals = *std::move(rivals);
  after.verdict = *std::move(verdict);
  after.control = control_of(after.rivals, observed);
  after.comparisons = testbakes::compare(observed, after.control);
  after.dose_curves = dose_answers(after, observed);
  return after;
}

Result<TestBakeNext> testbake_next(const TestBake& test, const NextRequest& request) {
  auto rivals = testbakes::rivals(test);
  if (!rivals) return failure(rivals);
  TestBakeNext answer;
  answer.test = test;
  std::optional<testbakes::Verdict> verdict;
  testbakes::NextOptions options = request.options;
  const bool read = (test.readings || request.observed) && !request.ignore_readings;
  if (read) {
    const auto observed =
        request.observed ? Result<std::vector<Watched>>(*request.observed) : read_observed(test);
    if (!observed) return failure(observed);
    testbakes::VerdictOptions judging;
    judging.threads = options.threads;
    judging.seed = options.seed;
    judging.cancelled = options.cancelled;
    if (options.progress)
      judging.progress = [&](double share) { request.options.progress(0.5 * share); };
    auto judged = testbakes::judge(test, *rivals, *observed, judging);
    if (!judged) return failure(judged);
    answer.after = true;
    answer.so_far = judged->sentence;
    verdict = *std::move(judged);
  }
  if (options.progress && read)
    options.progress = [&](double share) { request.options.progress(0.5 + 0.5 * share); };
  std::vector<testbakes::Recipe> candidates;
  for (const std::string& words : request.candidates) {
    auto recipe = testbakes::parse_recipe(words, test.base, "candidate");
    if (!recipe) return failure(recipe);
    candidates.push_back(*std::move(recipe));
  }
  if (candidates.empty()) candidates = testbakes::usual_candidates(test);
  auto ranked = testbakes::rank_next(test, *rivals, verdict, candidates, options);
  if (!ranked) return failure(ranked);
  answer.candidates = *std::move(ranked);
  return answer;
}

Result<TestBakeMap> testbake_map(const formula::Bake& bake,
                                 const testbakes::MapQuestion& question,
                                 const forecast::ShowField& show) {
  auto map = testbakes::reach_map(bake, question, show);
  if (!map) return failure(map);
  TestBakeMap answer;
  answer.name = bake.name;
  answer.map = *std::move(map);
  for (const double level : {0.25, 0.5, 0.9}) {
    const auto lines = testbakes::contours(answer.map.field, level);
    answer.contours.insert(answer.contours.end(), lines.begin(), lines.end());
  }
  return answer;
}

}  // namespace barm::service
