#include <CLI/CLI.hpp>
#include <memory>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "cli/daybook/at_home.h"
#include "cli/oven/print_oven.h"
#include "formula/amount.h"
#include "formula/document.h"
#include "formula/read.h"
#include "generated/commands.h"
#include "heat/probe.h"

namespace barm::cli {

namespace {

struct OvenArguments {
  bool json = false;
  std::string bake, form, lasts, steam, lid, cavity, room, probe, weighed;
  std::vector<std::string> set;
  bool stone = false, fan = false;
  int loaves = 0, holds = 0;
  double kilowatts = 0;
  int draws = 400;
  unsigned long long seed = 1;
  HomeArguments home;
};

struct FridgeArguments {
  bool json = false;
  std::string bake, set, lasts = "12h", wanted, within, probe;
  int pieces = 0;
  double power = 0;
  HomeArguments home;
};

Result<bool> take_time(const char* option, const std::string& text, std::optional<Time>& into) {
  if (text.empty()) return true;
  const auto parsed = of_option(option, formula::parse_time(text));
  if (!parsed) return failure(parsed);
  into = *parsed;
  return true;
}

Result<bool> take_warmth(const char* option,
                         const std::string& text,
                         std::optional<Temperature>& into) {
  if (text.empty()) return true;
  const auto parsed = of_option(option, formula::parse_temperature(text));
  if (!parsed) return failure(parsed);
  into = *parsed;
  return true;
}

// "230C", or "15min 210C" for what it is turned to after that time.
Result<formula::OvenSetting> setting_of(const std::string& text) {
  const std::size_t blank = text.rfind(' ');
  formula::OvenSetting out;
  if (blank != std::string::npos) {
    const auto from = of_option("--set", formula::parse_time(text.substr(0, blank)));
    if (!from) return failure(from);
    out.from = *from;
  }
  const auto to = of_option(
      "--set",
      formula::parse_temperature(blank == std::string::npos ? text : text.substr(blank + 1)));
  if (!to) return failure(to);
  out.to = *to;
  return out;
}

Result<std::vector<heat::ProbeReading>> probe_of(const std::string& path,
                                                 const heat::ProbeLimits& limits) {
  if (path.empty()) return std::vector<heat::ProbeReading>();
  const auto text = formula::read_text(path);
  if (!text) return failure(text);
  return heat::parse_probe(*text, path, limits);
}

Result<std::optional<double>> weighed_of(const std::string& text) {
  if (text.empty()) return std::optional<double>();
  const auto amount = formula::parse_amount(text);
  const bool share = amount && amount->kind == formula::WrittenAmount::Kind::percent &&
                     !amount->of_liquid && !amount->by_volume;
  if (share) return std::optional(amount->value);
  return failure(ErrorCode::bad_input, "--weighed", "how much lighter it was, such as '13.5 %'");
}

Result<formula::OvenTable> table_of(const OvenArguments& arguments) {
  formula::OvenTable out;
  if (!arguments.form.empty() && !oven::form_named(arguments.form))
    return failure(ErrorCode::bad_input, "--form", "round, long, tin or flat");
  out.form = arguments.form;
  for (const std::string& text : arguments.set) {
    const auto setting = setting_of(text);
    if (!setting) return failure(setting);
    if (out.set.empty() ? setting->from.si() > 0 : setting->from <= out.set.back().from)
      return failure(ErrorCode::bad_input,
                     "--set",
                     "first what it goes in at, then each change: --set 250C --set '15min 220C'");
    out.set.push_back(*setting);
  }
  for (const auto& taken : {take_time("--bake", arguments.lasts, out.bake),
                            take_time("--steam", arguments.steam, out.steam),
                            take_time("--lid", arguments.lid, out.lid),
                            take_warmth("--room", arguments.room, out.room)}) {
    if (!taken) return failure(taken);
  }
  if (out.room && (out.room->celsius() < -5 || out.room->celsius() > 45))
    return failure(ErrorCode::bad_input, "--room", "a place from -5 C to 45 C, such as 22C");
  if (arguments.stone) out.stone = true;
  if (arguments.fan) out.fan = true;
  if (arguments.loaves > 0) out.loaves = arguments.loaves;
  if (arguments.holds > 0) out.holds = arguments.holds;
  if (arguments.kilowatts > 0) out.kilowatts = arguments.kilowatts;
  if (arguments.cavity.empty()) return out;
  const auto cavity = of_option("--cavity", formula::parse_amount(arguments.cavity));
  if (!cavity) return failure(cavity);
  if (cavity->kind != formula::WrittenAmount::Kind::volume)
    return failure(ErrorCode::bad_input, "--cavity", "a volume such as 60L");
  out.cavity = Volume::from_si(cavity->value);
  return out;
}

Result<service::OvenAnswer> oven_of(const OvenArguments& arguments) {
  auto bake = formula::read_bake(arguments.bake);
  if (!bake) return failure(bake);
  auto home = Home::open(arguments.home);
  if (!home) return failure(home);
  service::OvenRequest request;
  const auto table = table_of(arguments);
  if (!table) return failure(table);
  request.said = *table;
  const auto probe = probe_of(arguments.probe, {0, 105, "core"});
  if (!probe) return failure(probe);
  request.probe = *probe;
  const auto weighed = weighed_of(arguments.weighed);
  if (!weighed) return failure(weighed);
  request.weighed = *weighed;
  forecast::Options options;
  options.draws = arguments.draws;
  options.seed = arguments.seed;
  const service::Now now = service::machine_now();
  const auto of = home->own("oven", bake->oven ? bake->oven->name : "");
  if (!of) return failure(of);
  request.of = *of;
  request.measured_at = now.at;
  *bake = request.of ? service::baked_in(std::move(*bake), *request.of, now.zone)
                     : home->bakes(std::move(*bake));
  auto answer = in_options(service::oven(*bake, request, options), {{"baked", "--weighed"}});
  if (!answer) return answer;
  const auto kept = home->keep(answer->keep);
  if (!kept) return failure(kept);
  return answer;
}

Result<service::FridgeAnswer> fridge_of(const FridgeArguments& arguments) {
  const auto bake = formula::read_bake(arguments.bake);
  if (!bake) return failure(bake);
  service::FridgeRequest request;
  request.pieces = arguments.pieces;
  std::optional<Time> lasts;
  for (const auto& taken : {take_warmth("--set", arguments.set, request.set),
                            take_warmth("--wanted", arguments.wanted, request.wanted),
                            take_time("--within", arguments.within, request.within),
                            take_time("--for", arguments.lasts, lasts)}) {
    if (!taken) return failure(taken);
  }
  if (lasts) request.lasts = *lasts;
  if (arguments.power > 0) request.power = arguments.power;
  const auto probe = probe_of(arguments.probe, {-10, 40, "air"});
  if (!probe) return failure(probe);
  request.probe = *probe;
  return of_the_house(arguments.home, "fridge", std::move(request), [&](const auto& whole) {
    return in_options(service::fridge(*bake, whole),
                      {{"set", "--set"},
                       {"pieces", "--pieces"},
                       {"power", "--power"},
                       {"lasts", "--for"},
                       {"probe", "--probe"}});
  });
}

void add_oven_itself(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<OvenArguments>();
  CLI::App* sub = app.add_subcommand(
      "oven", "how long, what core, how much lighter, what colour; its alcohol; when to cut");
  sub->footer(
      "Example:\n  barm oven examples/mead-loaf.toml --set 250C --set '15min 220C' --bake 40min "
      "--steam 10min --stone");
  sub->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  sub->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  sub->add_option("--form", arguments->form, "round, long, tin or flat");
  sub->add_option("--set", arguments->set, "the dial, such as 230C; again for '15min 210C'");
  sub->add_option("--bake", arguments->lasts, "how long, such as 40min");
  sub->add_option("--steam", arguments->steam, "steam from the beginning, such as 10min");
  sub->add_option("--lid", arguments->lid, "covered from the beginning, such as 20min");
  sub->add_flag("--stone", arguments->stone, "on a hot stone or steel");
  sub->add_flag("--fan", arguments->fan, "with a fan");
  sub->add_option("--loaves", arguments->loaves, "at once")->check(CLI::Range(1, 1000));
  sub->add_option("--holds", arguments->holds, "as many as the oven takes")
      ->check(CLI::Range(1, 1000));
  sub->add_option("--cavity", arguments->cavity, "what the oven holds, such as 60L");
  sub->add_option("--power", arguments->kilowatts, "what it draws, in kilowatts")
      ->check(CLI::Range(0.2, 1000.0));
  sub->add_option("--room", arguments->room, "where the loaf cools, such as 22C");
  sub->add_option("--probe", arguments->probe, "a core probe's CSV of this bake: minutes,celsius")
      ->type_name("FILE");
  sub->add_option("--weighed", arguments->weighed, "how much lighter that loaf was: '13.5 %'");
  sub->add_option("--draws", arguments->draws, "how many loaves to simulate")
      ->check(CLI::Range(20, 20000));
  sub->add_option("--seed", arguments->seed, "another set of simulated loaves");
  add_home_options(*sub, arguments->home, "oven");
  sub->callback([arguments, &chosen] {
    chosen = [arguments] { return answer(oven_of(*arguments), arguments->json); };
  });
}

void add_fridge(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<FridgeArguments>();
  CLI::App* sub =
      app.add_subcommand("fridge", "how doughs cool in a fridge that warms, and how many at once");
  sub->footer("Example:\n  barm fridge examples/mead-loaf.toml --pieces 6 --set 4C");
  sub->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  sub->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  sub->add_option("--pieces", arguments->pieces, "that go in at once; else all of the bake's")
      ->check(CLI::Range(1, 2000));
  sub->add_option("--set", arguments->set, "what the fridge is set to, such as 4C");
  sub->add_option("--power", arguments->power, "heat it can take out, in watts")
      ->check(CLI::Range(10.0, 50000.0));
  sub->add_option("--for", arguments->lasts, "how long to look, such as 12h");
  sub->add_option("--wanted", arguments->wanted, "of a piece's middle, such as 10C");
  sub->add_option("--within", arguments->within, "by then, such as 4h");
  sub->add_option("--probe", arguments->probe, "a probe's CSV of the air: minutes,celsius")
      ->type_name("FILE");
  add_home_options(*sub, arguments->home, "fridge");
  sub->callback([arguments, &chosen] {
    chosen = [arguments] { return answer(fridge_of(*arguments), arguments->json); };
  });
}

}  // namespace

void add_oven(CLI::App& app, std::function<int()>& chosen) {
  add_oven_itself(app, chosen);
  add_fridge(app, chosen);
}

}  // namespace barm::cli
