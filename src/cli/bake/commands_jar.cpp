#include <CLI/CLI.hpp>
#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/bake/aim_option.h"
#include "cli/bake/print_jar.h"
#include "cli/weight.h"
#include "formula/amount.h"
#include "formula/read.h"
#include "generated/commands.h"
#include "service/bake/jar.h"

namespace barm::cli {

namespace {

struct JarArguments {
  bool json = false;
  std::string bake, diameter, height, grams, room, target, horizon = "72h";
  int draws = 400;
  unsigned long long seed = 1;
  int threads = 0;
};

template <class T, class Parse>
Result<std::optional<T>> optional_of(const char* option, const std::string& text, Parse parse) {
  if (text.empty()) return std::optional<T>();
  const auto parsed = of_option(option, parse(text));
  if (!parsed) return failure(parsed);
  return std::optional<T>(*parsed);
}

Result<service::JarAnswer> jar_of(const JarArguments& arguments) {
  auto bake = formula::read_bake(arguments.bake);
  if (!bake) return failure(bake);
  service::JarRequest request;
  const auto diameter =
      optional_of<Length>("--diameter", arguments.diameter, formula::parse_length);
  if (!diameter) return failure(diameter);
  const auto height = optional_of<Length>("--height", arguments.height, formula::parse_length);
  if (!height) return failure(height);
  const auto grams = optional_of<Mass>(
      "--grams", arguments.grams, [](const std::string& text) { return mass_of("", text, "60g"); });
  if (!grams) return failure(grams);
  const auto room = optional_of<Temperature>("--room", arguments.room, formula::parse_temperature);
  if (!room) return failure(room);
  if (*room && ((*room)->celsius() < 0 || (*room)->celsius() > 45))
    return failure(ErrorCode::bad_input, "--room", "a place from 0 C to 45 C, such as 22C");
  request = {*diameter, *height, *grams, *room};
  forecast::Options options;
  options.draws = arguments.draws;
  options.seed = arguments.seed;
  options.threads = arguments.threads;
  const auto horizon = of_option("--horizon", formula::parse_time(arguments.horizon));
  if (!horizon) return failure(horizon);
  if (horizon->in(hour) < 1 || horizon->in(hour) > 336)
    return failure(ErrorCode::bad_input, "--horizon", "a time from 1 h to 14 days, such as 72h");
  options.horizon = *horizon;
  const auto wrong = aim_at(arguments.target, *bake, options);
  if (wrong) return failure(*wrong);
  return service::jar(*bake, request, options);
}

}  // namespace

void add_jar(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<JarArguments>();
  CLI::App* jar = app.add_subcommand(
      "jar", "where to draw the marks on the jar beside the dough, and what they mean");
  jar->footer("Example:\n  barm jar examples/mead-loaf.toml --diameter 70mm --height 140mm");
  jar->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  jar->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  jar->add_option("--diameter", arguments->diameter, "of the jar, inside, such as 70mm");
  jar->add_option("--height", arguments->height, "of the jar, inside, such as 140mm");
  jar->add_option("--grams", arguments->grams, "dough in it, such as 60g; else what suits it");
  jar->add_option("--room", arguments->room, "where it stands, such as 22C; else by the bulk");
  jar->add_option("--target", arguments->target, "of the bulk: doubled, 1.8, or after");
  jar->add_option("--draws", arguments->draws, "how many doughs to simulate")
      ->check(CLI::Range(20, 20000));
  jar->add_option("--seed", arguments->seed, "another set of simulated doughs");
  jar->add_option("--threads", arguments->threads, "0: all of the machine's")
      ->check(CLI::Range(0, 64));
  jar->add_option("--horizon", arguments->horizon, "how far to look, such as 72h");
  jar->callback([arguments, &chosen] {
    chosen = [arguments] { return answer(jar_of(*arguments), arguments->json); };
  });
}

}  // namespace barm::cli
