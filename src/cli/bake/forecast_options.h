#pragma once
// The options by which a forecast is asked for, alike in every command that makes one.
#include <string>

#include "base/result.h"
#include "forecast/options.h"

namespace CLI {  // NOLINT(readability-identifier-naming): the library's own
class App;
}

namespace barm::cli {

struct ForecastArguments {
  std::string temperature, horizon = "72h";
  int draws = 400;
  unsigned long long seed = 1;
  int threads = 0;
  bool published_only = false;
};

/// All but the temperature, which each command says in its own words.
void add_forecast_options(CLI::App& command, ForecastArguments& arguments);

/// Errors: bad_input at the option.
[[nodiscard]] Result<forecast::Options> options_of(const ForecastArguments& arguments);

}  // namespace barm::cli
