#include "cli/bake/forecast_options.h"

#include <CLI/CLI.hpp>

#include "cli/answer.h"
#include "formula/amount.h"

namespace barm::cli {

void add_forecast_options(CLI::App& command, ForecastArguments& arguments) {
  command.add_option("--draws", arguments.draws, "how many doughs to simulate")
      ->check(CLI::Range(20, 20000));
  command.add_option("--seed", arguments.seed, "another set of simulated doughs");
  command.add_option("--threads", arguments.threads, "0: all of the machine's")
      ->check(CLI::Range(0, 64));
  command.add_flag("--published-only",
                   arguments.published_only,
                   "published figures only, without what bakers expect of doughs they know");
  command.add_option("--horizon", arguments.horizon, "how far to look, such as 72h");
}

Result<forecast::Options> options_of(const ForecastArguments& arguments) {
  forecast::Options options;
  options.draws = arguments.draws;
  options.seed = arguments.seed;
  options.threads = arguments.threads;
  if (arguments.published_only) options.prior = &kinetics::published();
  const auto horizon = of_option("--horizon", formula::parse_time(arguments.horizon));
  if (!horizon) return failure(horizon);
  if (horizon->in(hour) < 1 || horizon->in(hour) > 336) {
    return failure(ErrorCode::bad_input, "--horizon", "a time from 1 h to 14 days, such as 72h");
  }
  options.horizon = *horizon;
  if (!arguments.temperature.empty()) {
    const auto temperature = of_option("--at", formula::parse_temperature(arguments.temperature));
    if (!temperature) return failure(temperature);
    if (temperature->celsius() < 0 || temperature->celsius() > 45) {
      return failure(
          ErrorCode::bad_input, "--at", "a dough's temperature from 0 C to 45 C, such as 24C");
    }
    options.temperature = *temperature;
  }
  return options;
}

}  // namespace barm::cli
