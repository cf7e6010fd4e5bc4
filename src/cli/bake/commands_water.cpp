#include <CLI/CLI.hpp>
#include <memory>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/print.h"
#include "cli/weight.h"
#include "formula/amount.h"
#include "generated/commands.h"
#include "service/bake/water.h"

namespace barm::cli {

namespace {

struct WaterArguments {
  bool json = false;
  std::string dough = "24C", flour, room, with_levain, water, tap;
  double friction = 0;
};

Result<service::WaterRequest> water_request(const WaterArguments& arguments) {
  service::WaterRequest request;
  const auto temperature = [](const char* option, const std::string& text) {
    return of_option(option, formula::parse_temperature(text));
  };
  const auto dough = temperature("--dough", arguments.dough);
  if (!dough) return failure(dough);
  const auto flour = temperature("--flour", arguments.flour);
  if (!flour) return failure(flour);
  const auto room = temperature("--room", arguments.room);
  if (!room) return failure(room);
  request.mixing = {*dough, *flour, *room, std::nullopt, arguments.friction * kelvin};
  if (!arguments.with_levain.empty()) {
    const auto levain = temperature("--levain", arguments.with_levain);
    if (!levain) return failure(levain);
    request.mixing.levain = *levain;
  }
  if (!arguments.tap.empty()) {
    const auto tap = temperature("--tap", arguments.tap);
    if (!tap) return failure(tap);
    request.tap = *tap;
  }
  if (!arguments.water.empty()) {
    const auto water = mass_of("--water", arguments.water, "2kg");
    if (!water) return failure(water);
    request.water = *water;
  }
  return request;
}

int do_water(const WaterArguments& arguments) {
  const auto request = water_request(arguments);
  if (!request) return answer(Result<service::WaterAnswer>(failure(request)), arguments.json);
  return answer(service::water(*request), arguments.json);
}

}  // namespace

void add_water(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<WaterArguments>();
  CLI::App* water = add_command(
      app,
      "water",
      "the trade's factor rule without a bake: how warm the water must be, how much of it as ice",
      "barm water --dough 24C --flour 20C --room 22C --friction 4 --water 2kg --tap 18C",
      arguments->json);
  water->add_option("--dough", arguments->dough, "the dough's temperature wanted, such as 24C");
  water->add_option("--flour", arguments->flour, "the flour's, such as 20C")->required();
  water->add_option("--room", arguments->room, "the room's, such as 22C")->required();
  water->add_option("--levain", arguments->with_levain, "the levain's, if it counts");
  water
      ->add_option(
          "--friction", arguments->friction, "what the mixer adds to the sum, in degrees Celsius")
      ->check(CLI::Range(0.0, 60.0));
  water->add_option(
      "--water", arguments->water, "how much water; with --tap says how much of it as ice");
  water->add_option("--tap", arguments->tap, "the tap water's temperature");
  water->callback([arguments, &chosen] { chosen = [arguments] { return do_water(*arguments); }; });
}

}  // namespace barm::cli
