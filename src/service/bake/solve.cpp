#include "service/bake/solve.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <optional>

#include "formula/amount.h"
#include "formula/read.h"
#include "service/internal/json_parts.h"
#include "service/internal/object.h"

namespace barm::service {

using internal::object;
using nlohmann::json;

namespace {

struct AimUnit {
  formula::Aim aim;
  const char* example;
};

constexpr AimUnit aims_and_units[] = {
    {formula::Aim::real_hydration, "70 %"},
    {formula::Aim::liquid_total, "2.1 kg"},
    {formula::Aim::alcohol, "60 g"},
    {formula::Aim::strength_of_liquid, "5 % vol"},
    {formula::Aim::alcohol_in_water, "30 g/L"},
    {formula::Aim::sugar, "40 g"},
    {formula::Aim::salt, "61 g"},
    {formula::Aim::sulphite, "50 mg"},
    {formula::Aim::acid, "120 mmol"},
    {formula::Aim::dough_weight, "5.4 kg"},
};

// The number of an aim in SI, from its text in the unit of its example.
std::optional<double> aim_value(formula::Aim aim, const std::string& text) {
  const auto written = formula::parse_number(text);
  if (!written || !(written->value >= 0) || written->value > 1e6) return std::nullopt;
  const double value = written->value;
  const std::string& in = written->unit;
  switch (aim) {
    case formula::Aim::real_hydration:
      return in == "%" ? std::optional<double>(value / 100) : std::nullopt;
    case formula::Aim::strength_of_liquid:
      return in == "%" || in == "% vol" ? std::optional<double>(value / 100) : std::nullopt;
    case formula::Aim::alcohol_in_water:
      return in == "g/L" ? std::optional<double>(value) : std::nullopt;
    case formula::Aim::acid:
      return in == "mmol" ? std::optional<double>(value / 1000) : std::nullopt;
    default:
      break;
  }
  if (in == "kg") return value;
  if (in == "g") return value / 1000;
  if (in == "mg") return value / 1e6;
  return std::nullopt;
}

Result<formula::Target> target_of(const std::string& text) {
  const std::size_t equals = text.find('=');
  const std::string called = text.substr(0, equals);
  for (const AimUnit& aim : aims_and_units) {
    if (called != formula::name(aim.aim)) continue;
    const auto value =
        equals == std::string::npos ? std::nullopt : aim_value(aim.aim, text.substr(equals + 1));
    if (value) return formula::Target{aim.aim, *value};
    return failure(ErrorCode::bad_input,
                   "--aim",
                   fmt::format("'{}' needs a value such as '{}={}'", text, called, aim.example));
  }
  return failure(ErrorCode::bad_input,
                 "--aim",
                 fmt::format("'{}' is no aim. There are: {}", called, aim_names()));
}

}  // namespace

Result<SolveAnswer> solve(const formula::Bake& bake,
                          const std::vector<std::string>& aims,
                          const std::vector<std::string>& free) {
  std::vector<formula::Target> targets;
  for (const std::string& text : aims) {
    const auto target = target_of(text);
    if (!target) return failure(target);
    targets.push_back(*target);
  }
  std::vector<formula::Free> movable;
  for (const std::string& ingredient : free)
    movable.push_back({.ingredient = ingredient, .least = Mass{}});
  auto solution = formula::solve(bake, targets, movable);
  if (!solution) return failure(solution);
  return SolveAnswer{bake, std::move(targets), std::move(*solution)};
}

Result<SolveAnswer> solve(const std::string& path,
                          const std::vector<std::string>& aims,
                          const std::vector<std::string>& free) {
  const auto bake = formula::read_bake(path);
  if (!bake) return failure(bake);
  return service::solve(*bake, aims, free);
}

std::string aim_names() {
  std::string names;
  for (const AimUnit& aim : aims_and_units) {
    names += (names.empty() ? "" : ", ") + std::string(formula::name(aim.aim)) + " (" +
             aim.example + ")";
  }
  return names;
}

void add_solution(json& out, const formula::Bake& bake, const formula::Solution& solution) {
  out["met"] = solution.met;
  out["conflicts"] = solution.conflicts;
  out["working"] = solution.working;
  out["masses"] = json::array();
  for (std::size_t i = 0; i < solution.masses.size(); ++i) {
    const std::string name = i < bake.bowl.size() ? bake.bowl[i].ingredient.name : "water";
    out["masses"].push_back(
        object({{"ingredient", name}, {"mass_g", solution.masses[i].in(gram)}}));
  }
}

json to_json(const SolveAnswer& answer) {
  json out = internal::document("solve");
  out["name"] = answer.bake.name;
  out["aims"] = json::array();
  for (std::size_t i = 0; i < answer.targets.size(); ++i) {
    out["aims"].push_back(object({{"aim", formula::name(answer.targets[i].aim)},
                                  {"wanted_si", answer.targets[i].value},
                                  {"reached_si", answer.solution.reached.at(i)}}));
  }
  add_solution(out, answer.bake, answer.solution);
  return out;
}

}  // namespace barm::service
