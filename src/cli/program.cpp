#include "cli/program.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <csignal>
#include <functional>
#include <sstream>

#include "base/complain.h"
#include "base/require.h"
#include "base/visible.h"
#include "cli/answer.h"
#include "cli/bake/commands_jar.h"
#include "cli/bake/commands_read.h"
#include "cli/bake/commands_rescue.h"
#include "cli/bake/commands_swap.h"
#include "cli/bake/commands_when.h"
#include "cli/bake/print_read.h"
#include "cli/day/commands_day.h"
#include "cli/daybook/at_home.h"
#include "cli/daybook/brought_along.h"
#include "cli/daybook/commands_daybook.h"
#include "cli/daybook/commands_open.h"
#include "cli/exit.h"
#include "cli/manual/commands_manual.h"
#include "cli/new_files.h"
#include "cli/output.h"
#include "cli/oven/commands_heat.h"
#include "cli/oven/commands_oven.h"
#include "cli/print.h"
#include "cli/shop/commands_shop.h"
#include "cli/taste/commands_taste.h"
#include "cli/testbake/commands_testbake.h"
#include "cli/version.h"
#include "formula/amount.h"
#include "formula/read.h"
#include "service/bake/calendar.h"
#include "service/bake/read.h"
#include "service/json.h"
#include "service/now.h"
#include "service/words.h"

namespace barm::cli {

namespace {

struct Arguments {
  bool json = false;
  std::string bake, other, drink, words;
  std::string within = "14h";
  std::string temperature, horizon = "72h", target;
  std::string calendar;
  bool replace = false;
  double chance = 0.8;
  int draws = 400;
  unsigned long long seed = 1;
  int threads = 0;
  bool published_only = false;
  service::LevainRequest levain;
  std::string need = "300g", peak_in, strength;
  std::vector<std::string> aims, free;
  std::string dough = "24C", flour, room, with_levain, water, tap;
  double friction = 0;
  ReadArguments reading;
  HomeArguments home;
};

Result<forecast::Options> options_of(const Arguments& arguments) {
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

/// The bake with the wanted target laid over it.
Result<formula::Bake> aimed_bake(const Arguments& arguments, forecast::Options& options) {
  auto bake = read_at_home(arguments.bake, arguments.home);
  if (!bake || arguments.target.empty()) return bake;
  if (const auto wrong = aim_at(arguments.target, *bake, options))
    return failure(wrong->code, wrong->where, wrong->message);
  return bake;
}

Result<bool> keep_calendar(const service::ForeseeAnswer& foreseen,
                           const std::string& path,
                           const NewFiles& files) {
  const auto calendar = service::calendar(foreseen, {Time{}, service::machine_now().at, {}});
  if (!calendar) return failure(calendar);
  return files.write(path, *calendar);
}

Result<service::ReadAnswer> read_dough(const Arguments& arguments,
                                       const formula::Bake& bake,
                                       const forecast::Options& options,
                                       const NewFiles& files) {
  const auto request = read_request(arguments.reading);
  if (!request) return failure(request);
  auto read = service::read(bake, *request, options);
  if (!read || arguments.calendar.empty()) return read;
  auto foreseen = service::foresee(bake, options);
  if (!foreseen) return failure(foreseen);
  service::tell_as_read(*foreseen, *read);
  const auto kept = keep_calendar(*foreseen, arguments.calendar, files);
  if (!kept) return failure(kept);
  return read;
}

int do_foresee(const Arguments& arguments) {
  using Failed = Result<service::ForeseeAnswer>;
  auto options = options_of(arguments);
  if (!options) return answer(Failed(failure(options)), arguments.json);
  const auto bake = aimed_bake(arguments, *options);
  if (!bake) return answer(Failed(failure(bake)), arguments.json);
  NewFiles files(arguments.replace, {arguments.bake});
  const auto planned = files.plan(arguments.calendar);
  if (!planned) return answer(Failed(failure(planned)), arguments.json);
  if (arguments.reading.given())
    return answer(read_dough(arguments, *bake, *options, files), arguments.json);
  const auto foreseen = service::foresee(*bake, *options);
  if (foreseen && !arguments.calendar.empty()) {
    const auto kept = keep_calendar(*foreseen, arguments.calendar, files);
    if (!kept) return answer(Failed(failure(kept)), arguments.json);
  }
  return answer(foreseen, arguments.json);
}

int do_reach(const Arguments& arguments) {
  using Failed = Result<service::ReachAnswer>;
  const auto options = options_of(arguments);
  if (!options) return answer(Failed(failure(options)), arguments.json);
  const auto within = of_option("--within", formula::parse_time(arguments.within));
  if (!within) return answer(Failed(failure(within)), arguments.json);
  return answer(
      service::reach(
          arguments.bake, arguments.drink, *within, Probability(arguments.chance), *options),
      arguments.json);
}

Result<Mass> mass_of(const char* option, const std::string& text, const char* example) {
  const auto amount = formula::parse_amount(text);
  if (amount && amount->kind == formula::WrittenAmount::Kind::mass) return amount->value * kilogram;
  return failure(
      ErrorCode::bad_input,
      option,
      fmt::format("'{}' is no weight: write it with its unit, such as {}", text, example));
}

Result<service::WaterRequest> water_request(const Arguments& arguments) {
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

int do_water(const Arguments& arguments) {
  const auto request = water_request(arguments);
  if (!request) return answer(Result<service::WaterAnswer>(failure(request)), arguments.json);
  return answer(service::water(*request), arguments.json);
}

int do_thin(const Arguments& arguments) {
  const auto need = mass_of("--need", arguments.need, "1kg");
  if (!need) return answer(Result<service::ThinAnswer>(failure(need)), arguments.json);
  return answer(service::thin(arguments.drink, arguments.strength, *need), arguments.json);
}

int do_levain(Arguments arguments) {
  using Failed = Result<service::LevainAnswer>;
  const auto options = options_of(arguments);
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

CLI::App* command(
    CLI::App& app, Arguments& arguments, const char* name, const char* what, const char* example) {
  CLI::App* sub = app.add_subcommand(name, what);
  sub->add_flag("--json", arguments.json, "the answer as JSON (docs/json.md)");
  sub->footer(std::string("Example:\n  ") + example);
  return sub;
}

void add_draws(CLI::App* sub, Arguments& arguments) {
  sub->add_option("--draws", arguments.draws, "how many doughs to simulate")
      ->check(CLI::Range(20, 20000));
  sub->add_option("--seed", arguments.seed, "another set of simulated doughs");
  sub->add_option("--threads", arguments.threads, "0: all of the machine's")
      ->check(CLI::Range(0, 64));
  sub->add_flag("--published-only",
                arguments.published_only,
                "published figures only, without what bakers expect of doughs they know");
  sub->add_option("--horizon", arguments.horizon, "how far to look, such as 72h");
}

int run(int argc, char** argv) {
  Arguments arguments;
  std::function<int()> chosen;
  CLI::App app{"barm: what is really in the bowl, and when the dough is ready."};
  app.require_subcommand(1);
  app.set_help_all_flag("--help-all", "all commands in full");
  app.set_version_flag("--version", version_text(), "which barm this is, and which data it has");

  CLI::App* bowl = command(
      app, arguments, "bowl", "what is really in the bowl", "barm bowl examples/mead-loaf.toml");
  bowl->add_option("BAKE", arguments.bake, "a bake file")->type_name("FILE")->required();
  bowl->callback(
      [&] { chosen = [&] { return answer(service::bowl(arguments.bake), arguments.json); }; });

  CLI::App* foresee = command(app,
                              arguments,
                              "foresee",
                              "whether and when the dough is ready, and what is in the way",
                              "barm foresee examples/mead-loaf.toml --at 26C");
  foresee->add_option("BAKE", arguments.bake, "a bake file")->type_name("FILE")->required();
  foresee->add_option(
      "--at", arguments.temperature, "another temperature of the dough, such as 26C");
  add_read_options(*foresee, arguments.reading);
  foresee->add_option(
      "--target", arguments.target, "of the bulk: doubled, 1.8, or after for what comes after");
  foresee
      ->add_option("--calendar",
                   arguments.calendar,
                   "also write a calendar file with alarms, such as mead.ics")
      ->type_name("FILE");
  foresee->add_flag("--replace", arguments.replace, "write over a calendar file that is there");
  add_home_options(*foresee, arguments.home);
  add_draws(foresee, arguments);
  foresee->callback([&] { chosen = [&] { return do_foresee(arguments); }; });

  CLI::App* levain =
      command(app,
              arguments,
              "levain",
              "how much to feed and when, so that the levain peaks in time",
              "barm levain --need 300g --peak-in 8h --at 26C --fed 2026-11-27T22:00");
  levain
      ->add_option("--starter",
                   arguments.levain.starter,
                   "the ripe starter, from the larder; \"fresh yeast\" for a poolish or biga")
      ->type_name("NAME");
  levain->add_option("--flour", arguments.levain.flour, "the flour it is fed")->type_name("NAME");
  levain->add_option(
      "--feed", arguments.levain.ratio, "ripe:flour:water, such as 1:2:1; of a poolish 0.002:1:1");
  levain->add_option("--need", arguments.need, "how much is needed, such as 300g");
  levain->add_option(
      "--peak-in", arguments.peak_in, "find the ratio that peaks so long after feeding");
  levain->add_option(
      "--fed", arguments.levain.fed_at, "local time of feeding, such as 2026-11-27T22:00");
  levain->add_option("--peak-at", arguments.levain.peak_at, "local time wanted for the peak");
  levain->add_option("--at", arguments.temperature, "temperature of the levain, such as 26C");
  add_draws(levain, arguments);
  levain->callback([&] { chosen = [&] { return do_levain(arguments); }; });

  CLI::App* reach =
      command(app,
              arguments,
              "reach",
              "how far a drink can go and what it costs in hours",
              "barm reach examples/mead-loaf.toml --of \"dry mead\" --within 14h --chance 0.8");
  reach->add_option("BAKE", arguments.bake, "a bake file")->type_name("FILE")->required();
  reach->add_option("--of", arguments.drink, "the drink; without it the strongest")
      ->type_name("NAME");
  reach->add_option("--within", arguments.within, "the time allowed, such as 14h");
  reach->add_option("--chance", arguments.chance, "the chance wanted, such as 0.8");
  reach->add_option("--at", arguments.temperature, "another temperature of the dough, such as 26C");
  add_draws(reach, arguments);
  reach->callback([&] { chosen = [&] { return do_reach(arguments); }; });

  CLI::App* match = command(app,
                            arguments,
                            "match",
                            "the same alcohol and real water as another bake, from this bottle",
                            "barm match examples/perry-loaf.toml --like examples/mead-loaf.toml");
  match->add_option("BAKE", arguments.bake, "a bake file")->type_name("FILE")->required();
  match->add_option("--like", arguments.other, "the bake to match")->type_name("FILE")->required();
  match->callback([&] {
    chosen = [&] {
      return answer(service::match(arguments.bake, arguments.other), arguments.json);
    };
  });

  CLI::App* thin = command(app,
                           arguments,
                           "thin",
                           "thin a drink with water to a strength",
                           "barm thin \"neutral spirit\" --to \"10 % vol\" --need 1kg");
  thin->add_option("DRINK", arguments.drink, "a drink of the larder")
      ->type_name("NAME")
      ->required();
  thin->add_option("--to", arguments.strength, "the strength wanted, such as '10 % vol'")
      ->required();
  thin->add_option("--need", arguments.need, "how much is needed, such as 1kg");
  thin->callback([&] { chosen = [&] { return do_thin(arguments); }; });

  CLI::App* water = command(
      app,
      arguments,
      "water",
      "the trade's factor rule without a bake: how warm the water must be, how much of it as ice",
      "barm water --dough 24C --flour 20C --room 22C --friction 4 --water 2kg --tap 18C");
  water->add_option("--dough", arguments.dough, "the dough's temperature wanted, such as 24C");
  water->add_option("--flour", arguments.flour, "the flour's, such as 20C")->required();
  water->add_option("--room", arguments.room, "the room's, such as 22C")->required();
  water->add_option("--levain", arguments.with_levain, "the levain's, if it counts");
  water
      ->add_option(
          "--friction", arguments.friction, "what the mixer adds to the sum, in degrees Celsius")
      ->check(CLI::Range(0.0, 60.0));
  water->add_option(
      "--water", arguments.water, "how much water; with --tap says how much of it as ice");
  water->add_option("--tap", arguments.tap, "the tap water's temperature");
  water->callback([&] { chosen = [&] { return do_water(arguments); }; });

  CLI::App* solve =
      command(app,
              arguments,
              "solve",
              "weights that meet any set of aims",
              "barm solve examples/mead-loaf.toml --aim 'real water=70 %' --aim 'alcohol=60 g' "
              "--free 'dry mead' --free water");
  solve->add_option("BAKE", arguments.bake, "a bake file")->type_name("FILE")->required();
  solve->add_option("--aim", arguments.aims, "an aim and its value: " + service::aim_names())
      ->required();
  solve->add_option("--free", arguments.free, "an ingredient whose weight may change")
      ->type_name("NAME")
      ->required();
  solve->callback([&] {
    chosen = [&] {
      return answer(service::solve(arguments.bake, arguments.aims, arguments.free), arguments.json);
    };
  });

  CLI::App* larder = command(app, arguments, "larder", "what the larder knows", "barm larder mead");
  larder->add_option("WORD", arguments.words, "a name, or a group such as drink")
      ->type_name("NAME");
  larder->callback([&] {
    chosen = [&] { return answer(service::larder_with(arguments.words), arguments.json); };
  });

  CLI::App* source = command(app,
                             arguments,
                             "source",
                             "where a number comes from and how far it can be trusted",
                             "barm source ethanol_half");
  source->add_option("QUANTITY", arguments.words, "part of its name; all without one");
  source
      ->add_option("--behind",
                   arguments.bake,
                   "the numbers that the time of this bake depends on, the weightiest first")
      ->type_name("FILE");
  source->callback([&] {
    chosen = [&] {
      return arguments.bake.empty()
                 ? answer(service::sources_of(arguments.words), arguments.json)
                 : answer(service::sources_behind(arguments.bake, {}), arguments.json);
    };
  });

  add_culture(app, chosen);
  add_jar(app, chosen);
  add_day(app, chosen);
  add_heat(app, chosen);
  add_oven(app, chosen);
  add_when(app, chosen);
  add_daybook(app, chosen);
  add_shop(app, chosen);
  add_rescue(app, chosen);
  add_testbake(app, chosen);
  add_swap(app, chosen);
  add_taste(app, chosen);
  add_open(app, chosen);
  add_manual(app, chosen);

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    std::ostringstream help;
    std::ostringstream wrong;
    const int status = app.exit(error, help, wrong);
    put_out(help.str());
    put_beside(visible(wrong.str()));  // it may repeat a file's name
    return status == 0 ? 0 : wrong_usage;
  }
  return chosen();
}

}  // namespace

int run_program(int argc, char** argv) {
  open_missing_streams();
  try {
    use_what_was_brought_along();
    // A file that reaches its limit is to be a full disk, and not the end of the program.
    std::signal(SIGXFSZ, SIG_IGN);
    return after_writing(run(argc, argv));
  } catch (const ContractViolation& fault) {
    complain(fmt::format("a fault of barm's own, please report it: {}", fault.what()));
  } catch (const std::exception& fault) {
    complain(fmt::format("barm had to stop: {}", fault.what()));
  }
  return our_fault;
}

}  // namespace barm::cli
