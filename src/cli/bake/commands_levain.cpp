#include <CLI/CLI.hpp>
#include <memory>

#include "cli/answer.h"
#include "cli/bake/forecast_options.h"
#include "cli/command.h"
#include "cli/print.h"
#include "cli/weight.h"
#include "formula/amount.h"
#include "generated/commands.h"
#include "service/bake/levain.h"

namespace barm::cli {

namespace {

struct LevainArguments {
  bool json = false;
  std::string need = "300g", peak_in;
  service::LevainRequest levain;
  ForecastArguments forecast;
};

int do_levain(LevainArguments arguments) {
  using Failed = Result<service::LevainAnswer>;
  const auto options = options_of(arguments.forecast);
  if (!options) return answer(Failed(failure(options)), arguments.json);
  const auto need = mass_of("--need", arguments.need, "300g");
  if (!need) return answer(Failed(failure(need)), arguments.json);
  arguments.levain.wanted = *need;
  if (options->temperature) arguments.levain.temperature = *options->temperature;
  if (!arguments.peak_in.empty()) {
    const auto time = of_option("--peak-in", formula::parse_time(arguments.peak_in));
    if (!time) return answer(Failed(failure(time)), arguments.json);
    arguments.levain.peak_in = *time;
  }
  return answer(in_options(service::levain(arguments.levain, *options), {{"ratio", "--feed"}}),
                arguments.json);
}

}  // namespace

void add_levain(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<LevainArguments>();
  CLI::App* levain =
      add_command(app,
                  "levain",
                  "how much to feed and when, so that the levain peaks in time",
                  "barm levain --need 300g --peak-in 8h --at 26C --fed 2026-11-27T22:00",
                  arguments->json);
  levain
      ->add_option("--starter",
                   arguments->levain.starter,
                   "the ripe starter, from the larder; \"fresh yeast\" for a poolish or biga")
      ->type_name("NAME");
  levain->add_option("--flour", arguments->levain.flour, "the flour it is fed")->type_name("NAME");
  levain->add_option(
      "--feed", arguments->levain.ratio, "ripe:flour:water, such as 1:2:1; of a poolish 0.002:1:1");
  levain->add_option("--need", arguments->need, "how much is needed, such as 300g");
  levain->add_option(
      "--peak-in", arguments->peak_in, "find the ratio that peaks so long after feeding");
  levain->add_option(
      "--fed", arguments->levain.fed_at, "local time of feeding, such as 2026-11-27T22:00");
  levain->add_option("--peak-at", arguments->levain.peak_at, "local time wanted for the peak");
  levain->add_option(
      "--at", arguments->forecast.temperature, "temperature of the levain, such as 26C");
  add_forecast_options(*levain, arguments->forecast);
  levain->callback(
      [arguments, &chosen] { chosen = [arguments] { return do_levain(*arguments); }; });
}

}  // namespace barm::cli
