#include <CLI/CLI.hpp>
#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/bake/print_when.h"
#include "cli/daybook/at_home.h"
#include "formula/amount.h"
#include "formula/read.h"
#include "generated/commands.h"
#include "service/bake/begun.h"
#include "service/bake/when.h"

namespace barm::cli {

namespace {

struct WhenArguments {
  bool json = false;
  std::string bake, oven, culture, horizon = "72h";
  int draws = 400;
  unsigned long long seed = 1;
  int threads = 0;
  HomeArguments home;
};

Result<service::WhenAnswer> when_of(const WhenArguments& arguments) {
  const auto bake = read_at_home(arguments.bake, arguments.home);
  if (!bake) return failure(bake);
  const auto horizon = of_option("--horizon", formula::parse_time(arguments.horizon));
  if (!horizon) return failure(horizon);
  if (horizon->in(hour) < 1 || horizon->in(hour) > 336)
    return failure(ErrorCode::bad_input, "--horizon", "a time from 1 h to 14 days, such as 72h");
  const auto start = service::begun(arguments.culture, *bake, kinetics::day_one());
  if (!start) return failure(start);
  forecast::Options options;
  options.draws = arguments.draws;
  options.seed = arguments.seed;
  options.threads = arguments.threads;
  options.horizon = *horizon;
  options.prior = &start->prior;
  return in_options(service::when(*bake, {arguments.oven, service::machine_now()}, options),
                    {{"oven", "--oven"}});
}

}  // namespace

void add_when(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<WhenArguments>();
  CLI::App* when = app.add_subcommand(
      "when", "when to mix and to feed for bread that goes into the oven at an hour");
  when->footer("Example:\n  barm when examples/mead-loaf.toml --oven 'Sun 08:30'");
  when->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  when->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  add_home_options(*when, arguments->home);
  when->add_option("--oven", arguments->oven, "2026-11-29T08:30; 'Sun 08:30' or 08:30: the next")
      ->required();
  when->add_option("--culture", arguments->culture, "a culture's memory to start from")
      ->type_name("FILE");
  when->add_option("--draws", arguments->draws, "how many doughs to simulate")
      ->check(CLI::Range(20, 20000));
  when->add_option("--seed", arguments->seed, "another set of simulated doughs");
  when->add_option("--threads", arguments->threads, "0: all of the machine's")
      ->check(CLI::Range(0, 64));
  when->add_option("--horizon", arguments->horizon, "how far to look, such as 72h");
  when->callback([arguments, &chosen] {
    chosen = [arguments] { return answer(when_of(*arguments), arguments->json); };
  });
}

}  // namespace barm::cli
