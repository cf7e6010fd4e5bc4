#include <CLI/CLI.hpp>
#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/bake/print_rescue.h"
#include "cli/bake/read_options.h"
#include "formula/amount.h"
#include "formula/read.h"
#include "generated/commands.h"

namespace barm::cli {

namespace {

struct RescueArguments {
  bool json = false;
  std::string bake, temperature, risen;
  std::vector<std::string> places;
  ReadArguments reading;
  service::RescueRequest request;
};

Result<service::RescueRequest> request_of(const RescueArguments& arguments) {
  service::RescueRequest request = arguments.request;
  if (!arguments.risen.empty()) {
    const auto risen = of_option("--risen", formula::parse_rise(arguments.risen));
    if (!risen) return failure(risen);
    request.risen = *risen;
  }
  if (!arguments.temperature.empty()) {
    const auto temperature = of_option("--at", formula::parse_temperature(arguments.temperature));
    if (!temperature) return failure(temperature);
    if (temperature->celsius() < 0 || temperature->celsius() > 45) {
      return failure(
          ErrorCode::bad_input, "--at", "a dough's temperature from 0 C to 45 C, such as 24C");
    }
    request.temperature = *temperature;
  }
  for (const std::string& text : arguments.places) {
    const auto place = of_option("--place", formula::parse_temperature(text));
    if (!place) return failure(place);
    request.places.push_back(*place);
  }
  return request;
}

Result<service::RescueAnswer> rescued(const RescueArguments& arguments) {
  const auto request = request_of(arguments);
  if (!request) return failure(request);
  const auto beside = read_beside(arguments.reading);
  if (!beside) return failure(beside);
  auto bake = formula::read_bake(arguments.bake);
  if (!bake) return failure(bake);
  const auto batch = service::batch_of(*std::move(bake), *beside);
  if (!batch) return failure(batch);
  return in_options(
      service::rescue(*batch, *request),
      {{"now", "--now"}, {"by", "--by"}, {"not-before", "--not-before"}, {"risen", "--risen"}});
}

}  // namespace

void add_rescue(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<RescueArguments>();
  CLI::App* rescue = app.add_subcommand("rescue", "the dough is late, or ahead: what can be done");
  rescue->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  rescue->footer(
      "Example:\n  barm rescue examples/mead-loaf.toml --now 14h --by 22:00 --risen 1.2");
  rescue->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  rescue->add_option(
      "--now",
      arguments->request.now,
      "how long after mixing it is, such as 14h, or 21:00; without it the last reading");
  rescue->add_option(
      "--by", arguments->request.by, "the latest hour of use; without it 12 h from now");
  rescue->add_option(
      "--not-before", arguments->request.not_before, "the earliest hour: it is ahead");
  rescue->add_option("--risen", arguments->risen, "what you see now, such as 1.2 for a fifth");
  rescue->add_option("--at", arguments->temperature, "the dough's temperature, such as 24C");
  rescue->add_option("--place", arguments->places, "a warm or cold place there is, such as 28C");
  add_read_options(*rescue, arguments->reading);
  rescue->add_option("--draws", arguments->request.draws, "how many doughs to simulate")
      ->check(CLI::Range(20, 20000));
  rescue->add_option("--seed", arguments->request.seed, "another set of simulated doughs");
  rescue->add_option("--threads", arguments->request.threads, "0: all of the machine's")
      ->check(CLI::Range(0, 64));
  rescue->callback([arguments, &chosen] {
    chosen = [arguments] { return answer(rescued(*arguments), arguments->json); };
  });
}

}  // namespace barm::cli
