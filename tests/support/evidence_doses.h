#pragma once
// Doses gone through step by step (data/evidence/doses.toml): what must be monotone, and smooth.
#include <toml++/toml.h>

#include <cmath>
#include <string>
#include <vector>

#include "forecast/ensemble.h"
#include "formula/read.h"
#include "support/evidence_rows.h"

namespace barm::test {

struct DoseSweep {
  enum class Must { never_sooner, never_later, one_turn };

  std::string what, unit, bake, known_miss;
  std::vector<double> values;
  Must must = Must::never_sooner;
  double turn_low = 0, turn_high = 0;
  double bend = 0.5;  ///< of ln(hours), from a step to the next
};

inline std::vector<DoseSweep> dose_sweeps(std::string_view text, const std::string& file) {
  toml::table parsed;
  try {
    parsed = toml::parse(text, file);
  } catch (const toml::parse_error& error) {
    stop_at(file, static_cast<int>(error.source().begin.line), std::string(error.description()));
  }
  std::vector<DoseSweep> sweeps;
  const auto* all = parsed["dose"].as_array();
  if (all == nullptr) stop_at(file, 1, "no [[dose]]");
  for (const auto& node : *all) {
    const toml::table& table = *node.as_table();
    const int line = static_cast<int>(table.source().begin.line);
    const auto words = [&](const char* key) { return table[key].value_or(std::string()); };
    DoseSweep sweep{
        words("what"), words("unit"), words("bake"), words("known_miss"), {}, {}, 0, 0, 0};
    if (sweep.what.empty() || sweep.unit.empty() || sweep.bake.empty())
      stop_at(file, line, "what, unit or bake is missing");
    const double from = table["from"].value_or(NAN);
    const double to = table["to"].value_or(NAN);
    const double step = table["step"].value_or(NAN);
    if (!(step > 0 && to >= from + 2 * step))
      stop_at(file, line, "from, to and step: three doses at least");
    for (double dose = from; dose <= to + 1e-9; dose += step) sweep.values.push_back(dose);
    const std::string must = words("must");
    if (must == "never sooner") {
      sweep.must = DoseSweep::Must::never_sooner;
    } else if (must == "never later") {
      sweep.must = DoseSweep::Must::never_later;
    } else if (must == "one turn") {
      sweep.must = DoseSweep::Must::one_turn;
      sweep.turn_low = table["turn"][0].value_or(NAN);
      sweep.turn_high = table["turn"][1].value_or(NAN);
      if (!(sweep.turn_low < sweep.turn_high)) stop_at(file, line, "turn: between which doses");
    } else {
      stop_at(file, line, "must is never sooner, never later or one turn, not '" + must + "'");
    }
    sweep.bend = table["bend"].value_or(0.0);
    if (!(sweep.bend > 0)) stop_at(file, line, "bend: a number above 0");
    sweeps.push_back(std::move(sweep));
  }
  return sweeps;
}

/// Hours to ready at each dose, and what of it breaks the rules.
struct SweptDose {
  std::vector<double> hours;
  std::vector<std::string> broken;
};

namespace evidence {

inline double mean_hours(const DoseSweep& sweep, double dose, const forecast::Options& options) {
  std::string text = "name = \"dose\"\n" + sweep.bake;
  const std::string mark = "{dose}";
  for (std::size_t at = text.find(mark); at != std::string::npos; at = text.find(mark))
    text.replace(at, mark.size(), fmt::format("{:g}", dose));
  const auto bake = formula::parse_bake(text, "doses.toml");
  if (!bake) throw std::runtime_error(sweep.what + ": " + bake.error().text());
  const auto hours = forecast::hours_to_ready(*bake, options);
  if (!hours) throw std::runtime_error(sweep.what + ": " + hours.error().text());
  double sum = 0;
  for (const double h : *hours) sum += std::log(std::min(h, options.horizon.in(hour)));
  return std::exp(sum / static_cast<double>(hours->size()));
}

// Whether the hours of a step may go that way.
inline bool wrong_way(const DoseSweep& sweep, double from, double to, double before, double after) {
  constexpr double nothing = 1e-3;  // ln: a tenth of a per cent is the integrator's
  const double step = std::log(after / before);
  switch (sweep.must) {
    case DoseSweep::Must::never_sooner:
      return step < -nothing;
    case DoseSweep::Must::never_later:
      return step > nothing;
    case DoseSweep::Must::one_turn:
      return (to <= sweep.turn_low && step > nothing) ||
             (from >= sweep.turn_high && step < -nothing);
  }
  return false;
}

}  // namespace evidence

inline SweptDose swept(const DoseSweep& sweep, const forecast::Options& options) {
  SweptDose out;
  for (const double dose : sweep.values)
    out.hours.push_back(evidence::mean_hours(sweep, dose, options));
  for (std::size_t i = 1; i < out.hours.size(); ++i) {
    const double from = sweep.values[i - 1];
    const double to = sweep.values[i];
    const double before = out.hours[i - 1];
    const double after = out.hours[i];
    const std::string step =
        fmt::format("{:g} to {:g}: {:.3g} to {:.3g} h", from, to, before, after);
    if (evidence::wrong_way(sweep, from, to, before, after))
      out.broken.push_back("wrong way, " + step);
    if (i < 2) continue;
    const double bend = std::log(after / before) - std::log(before / out.hours[i - 2]);
    if (std::abs(bend) > sweep.bend) out.broken.push_back("a bend, " + step);
  }
  return out;
}

}  // namespace barm::test
