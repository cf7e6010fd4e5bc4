#include <CLI/CLI.hpp>
#include <memory>

#include "cli/answer.h"
#include "cli/bake/forecast_options.h"
#include "cli/command.h"
#include "cli/print.h"
#include "formula/amount.h"
#include "generated/commands.h"
#include "service/bake/reach.h"

namespace barm::cli {

namespace {

struct ReachArguments {
  bool json = false;
  std::string bake, drink, within = "14h";
  double chance = 0.8;
  ForecastArguments forecast;
};

int do_reach(const ReachArguments& arguments) {
  using Failed = Result<service::ReachAnswer>;
  const auto options = options_of(arguments.forecast);
  if (!options) return answer(Failed(failure(options)), arguments.json);
  const auto within = of_option("--within", formula::parse_time(arguments.within));
  if (!within) return answer(Failed(failure(within)), arguments.json);
  return answer(
      service::reach(
          arguments.bake, arguments.drink, *within, Probability(arguments.chance), *options),
      arguments.json);
}

}  // namespace

void add_reach(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<ReachArguments>();
  CLI::App* reach =
      add_command(app,
                  "reach",
                  "how far a drink can go and what it costs in hours",
                  "barm reach examples/mead-loaf.toml --of \"dry mead\" --within 14h --chance 0.8",
                  arguments->json);
  reach->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  reach->add_option("--of", arguments->drink, "the drink; without it the strongest")
      ->type_name("NAME");
  reach->add_option("--within", arguments->within, "the time allowed, such as 14h");
  reach->add_option("--chance", arguments->chance, "the chance wanted, such as 0.8");
  reach->add_option(
      "--at", arguments->forecast.temperature, "another temperature of the dough, such as 26C");
  add_forecast_options(*reach, arguments->forecast);
  reach->callback([arguments, &chosen] { chosen = [arguments] { return do_reach(*arguments); }; });
}

}  // namespace barm::cli
