#pragma once
// What a forecast of a bake starts from: a culture's memory, or what a bakery knows on day one.
#include <optional>
#include <string>

#include "base/result.h"
#include "estimation/belief.h"
#include "estimation/culture.h"
#include "formula/bake.h"

namespace barm::service {

struct Begun {
  Begun();  ///< on day one
  Begun(std::string culture, estimation::Belief belief);

  std::string culture;  ///< its name; empty where it has taught nothing
  estimation::Belief belief;
  kinetics::JointPrior prior;  ///< the same belief, for a forecast
};

/// A new batch of a culture: this bake, on its day, with its levain as old as it is. Errors: those
/// of estimation::levain_age().
[[nodiscard]] Result<Begun> begun_from(const estimation::Culture& culture,
                                       const formula::Bake& bake);

/// The same of a culture's file; `otherwise` where none is named. Errors: those of
/// estimation::read_culture().
[[nodiscard]] Result<Begun> begun(const std::string& culture_file,
                                  const formula::Bake& bake,
                                  const kinetics::JointPrior& otherwise);

/// Days since 1970-01-01 of its mixing: of the moment where it is known, else as its file has it; 0
/// without a date.
[[nodiscard]] double day_of(const formula::Bake& bake);

/// "2026-11-28" of days since 1970-01-01.
[[nodiscard]] std::string date_of(double day);

}  // namespace barm::service
