#include <CLI/CLI.hpp>
#include <memory>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "cli/daybook/at_home.h"
#include "cli/oven/print_heat.h"
#include "formula/amount.h"
#include "formula/read.h"
#include "generated/commands.h"

namespace barm::cli {

namespace {

struct SimmerArguments {
  bool json = false;
  std::string drink, grams = "1kg", to;
  double heat = 0;
};

struct MixArguments {
  bool json = false;
  std::string bake, dough, flour = "20C", room = "22C", levain, drinks, tap, runs = "8min";
  std::vector<std::string> readings;
  HomeArguments home;
};

Result<service::SimmerRequest> simmer_request(const SimmerArguments& arguments) {
  service::SimmerRequest request;
  request.drink = arguments.drink;
  const auto until = of_option("--to", service::parse_until(arguments.to));
  if (!until) return failure(until);
  request.until = *until;
  const auto grams = formula::parse_amount(arguments.grams);
  const bool weighed = grams && grams->kind == formula::WrittenAmount::Kind::mass;
  if (!weighed || grams->value <= 0 || grams->value > 1000)
    return failure(ErrorCode::bad_input, "--grams", "a weight such as 1kg, to 1000 kg");
  request.pan.drink = grams->value * kilogram;
  request.pan.heat = arguments.heat > 0 ? arguments.heat * watt : drink::usual_heat();
  return request;
}

// Reads a temperature into `into` unless it was left out.
Result<bool> take(const char* option, const std::string& text, std::optional<Temperature>& into) {
  if (text.empty()) return true;
  const auto parsed = of_option(option, formula::parse_temperature(text));
  if (!parsed) return failure(parsed);
  if (parsed->celsius() < -25 || parsed->celsius() > 60)
    return failure(ErrorCode::bad_input, option, "a temperature from -25 C to 60 C, such as 20C");
  into = *parsed;
  return true;
}

Result<service::MixAnswer> mix_of(const MixArguments& arguments) {
  const auto bake = formula::read_bake(arguments.bake);
  if (!bake) return failure(bake);
  service::MixRequest request;
  std::optional<Temperature> flour;
  std::optional<Temperature> room;
  const std::tuple<const char*, const std::string*, std::optional<Temperature>*> wanted[] = {
      {"--dough", &arguments.dough, &request.dough},
      {"--flour", &arguments.flour, &flour},
      {"--room", &arguments.room, &room},
      {"--levain", &arguments.levain, &request.levain},
      {"--drinks", &arguments.drinks, &request.drinks},
      {"--tap", &arguments.tap, &request.tap}};
  for (const auto& [option, text, into] : wanted) {
    const auto taken = take(option, *text, *into);
    if (!taken) return failure(taken);
  }
  request.flour = flour.value_or(request.flour);
  request.room = room.value_or(request.room);
  const auto runs = of_option("--minutes", formula::parse_time(arguments.runs));
  if (!runs) return failure(runs);
  if (runs->in(minute) > 90) return failure(ErrorCode::bad_input, "--minutes", "a time to 90 min");
  request.runs = *runs;
  for (const std::string& text : arguments.readings) {
    const auto reading = of_option("--read", service::parse_mixer_reading(text));
    if (!reading) return failure(reading);
    request.readings.push_back(*reading);
  }
  return of_the_house(arguments.home, "mixer", std::move(request), [&](const auto& whole) {
    return service::mix(*bake, whole);
  });
}

void add_simmer(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<SimmerArguments>();
  CLI::App* sub = app.add_subcommand(
      "simmer", "a drink simmered down: minutes, and what is left of alcohol, acid and sugar");
  sub->footer("Example:\n  barm simmer 'red wine' --grams 1kg --to '60 %'");
  sub->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  sub->add_option("DRINK", arguments->drink, "a drink of the larder")
      ->type_name("NAME")
      ->required();
  sub->add_option("--to", arguments->to, "a share of the weight such as '60 %', or '2 % vol'")
      ->required();
  sub->add_option("--grams", arguments->grams, "how much goes into the pan, such as 1kg");
  sub->add_option("--heat", arguments->heat, "what the ring gives the pan, in watts")
      ->check(CLI::Range(50.0, 50000.0));
  sub->callback([arguments, &chosen] {
    chosen = [arguments] {
      const auto request = simmer_request(*arguments);
      if (!request) return answer(Result<service::SimmerAnswer>(failure(request)), arguments->json);
      return answer(in_options(service::simmer(*request), {{"to", "--to"}}), arguments->json);
    };
  });
}

void add_mix(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<MixArguments>();
  CLI::App* sub = app.add_subcommand(
      "mix", "how warm the liquid must be for the dough, by a balance of heat, and how much ice");
  sub->footer(
      "Example:\n  barm mix examples/mead-loaf.toml --dough 24C --flour 21C --room 25C "
      "--read '2min 21C' --read '8min 24C'");
  sub->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  sub->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  sub->add_option("--dough", arguments->dough, "wanted, such as 24C; else as the bake's mix says");
  sub->add_option("--flour", arguments->flour, "the flour's, such as 20C");
  sub->add_option("--room", arguments->room, "the room's, such as 22C");
  sub->add_option("--levain", arguments->levain, "the levain's; else as the room");
  sub->add_option("--drinks",
                  arguments->drinks,
                  "the drinks' own; else they are brought to one temperature with the water");
  sub->add_option("--tap", arguments->tap, "as cold as the water comes, such as 12C");
  sub->add_option("--minutes", arguments->runs, "how long the mixer runs, such as 8min");
  sub->add_option("--read",
                  arguments->readings,
                  "a reading of a dough in this mixer, such as '2min 21C'; two or more");
  add_home_options(*sub, arguments->home, "mixer");
  sub->callback([arguments, &chosen] {
    chosen = [arguments] { return answer(mix_of(*arguments), arguments->json); };
  });
}

}  // namespace

void add_heat(CLI::App& app, std::function<int()>& chosen) {
  add_simmer(app, chosen);
  add_mix(app, chosen);
}

}  // namespace barm::cli
