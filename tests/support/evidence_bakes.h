#pragma once
// The ordinary bakes of data/evidence/bakes/ and what the trade expects of them (bakes.csv).
#include <cmath>
#include <filesystem>
#include <limits>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "forecast/ensemble.h"
#include "formula/read.h"
#include "support/evidence_rows.h"

namespace barm::test {

/// One line of bakes.csv.
struct Expected {
  std::string bake, what, unit, basis, known_miss;
  double least = 0, most = 0;
  int line = 0;
};

/// bakes.csv, each line of it about a bake that lies in `folder`/bakes; every bake has a line.
inline std::vector<Expected> expected_bakes(std::string_view text,
                                            const std::string& file,
                                            const std::string& folder) {
  const EvidenceTable table(
      text, file, {"bake", "what", "least", "most", "unit", "basis", "known_miss", "reason"});
  const auto path_of = [&](const std::string& bake) { return folder + "/bakes/" + bake + ".toml"; };
  std::vector<Expected> all;
  std::set<std::string> named;
  for (std::size_t i = 0; i < table.size(); ++i) {
    Expected one{table.text(i, "bake"),
                 table.text(i, "what"),
                 table.text(i, "unit"),
                 table.text(i, "basis"),
                 table.text(i, "known_miss"),
                 table.number(i, "least").value_or(NAN),
                 table.number(i, "most").value_or(NAN),
                 table.line(i)};
    if (!(one.least <= one.most)) table.stop(i, "least and most are numbers, the smaller first");
    if (one.unit.empty()) table.stop(i, "unit is missing");
    if (!std::filesystem::exists(path_of(one.bake))) table.stop(i, "no bake '" + one.bake + "'");
    const bool known = one.what == "ready" || one.what == "never" || one.what == "highest" ||
                       one.what == "largest" || one.what == "end of cold" ||
                       one.what.rfind("against ", 0) == 0;
    if (!known) table.stop(i, "nothing can be expected of '" + one.what + "'");
    named.insert(one.bake);
    all.push_back(std::move(one));
  }
  for (const auto& entry : std::filesystem::directory_iterator(folder + "/bakes")) {
    if (!named.contains(entry.path().stem().string()))
      stop_at(file, 1, "nothing is expected of " + entry.path().filename().string());
  }
  return all;
}

/// What the program says of a bake.
struct Baked {
  std::string refused;  ///< why it could not be worked out; empty where it was
  forecast::Forecast forecast;
};

/// What is expected, beside what the program says.
struct Compared {
  Expected expected;
  double low = 0, middle = 0, high = 0;  ///< of four of five; all the same where one number is all
  std::string refused;

  [[nodiscard]] bool fine() const {
    return refused.empty() && expected.least <= middle && middle <= expected.most;
  }
};

class OrdinaryBakes {
 public:
  OrdinaryBakes(std::string folder, int draws) : folder_(std::move(folder)) {
    options_.draws = draws;
  }

  [[nodiscard]] Compared compare(const Expected& expected) {
    Compared out;
    out.expected = expected;
    const Baked& baked = of(expected.bake);
    out.refused = baked.refused;
    if (!out.refused.empty()) return out;
    if (expected.what == "ready") {
      out.low = hours(baked.forecast.ready.p10);
      out.middle = hours(baked.forecast.ready.p50);
      out.high = hours(baked.forecast.ready.p90);
      return out;
    }
    out.low = out.middle = out.high = one_number(expected, baked);
    return out;
  }

 private:
  static double hours(const std::optional<Time>& time) {
    return time ? time->in(hour) : std::numeric_limits<double>::infinity();
  }

  double one_number(const Expected& expected, const Baked& baked) {
    if (expected.what == "never") return baked.forecast.never.value();
    if (expected.what == "highest") return hours(baked.forecast.past.p50);
    if (expected.what == "largest") return baked.forecast.largest_rise;
    if (expected.what == "end of cold") {
      for (const forecast::StageTimes& stage : baked.forecast.timeline.stages) {
        if (stage.step == formula::Step::cold) return stage.rise.p50;
      }
      return NAN;
    }
    const std::string other = expected.what.substr(std::string("against ").size());
    return hours(baked.forecast.ready.p50) / hours(of(other).forecast.ready.p50);
  }

  const Baked& of(const std::string& name) {
    const auto found = baked_.find(name);
    if (found != baked_.end()) return found->second;
    Baked baked;
    const auto bake =
        formula::parse_bake(evidence_text(folder_, "bakes/" + name + ".toml"), name + ".toml");
    if (!bake) {
      baked.refused = bake.error().text();
    } else if (auto forecast = forecast::foresee(*bake, options_)) {
      baked.forecast = std::move(*forecast);
    } else {
      baked.refused = forecast.error().text();
    }
    return baked_.emplace(name, std::move(baked)).first->second;
  }

  std::string folder_;
  forecast::Options options_;
  std::map<std::string, Baked> baked_;
};

}  // namespace barm::test
