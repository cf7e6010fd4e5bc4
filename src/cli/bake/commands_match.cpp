#include <CLI/CLI.hpp>
#include <memory>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/print.h"
#include "generated/commands.h"
#include "service/bake/match.h"

namespace barm::cli {

namespace {

struct MatchArguments {
  bool json = false;
  std::string bake, other;
};

}  // namespace

void add_match(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<MatchArguments>();
  CLI::App* match =
      add_command(app,
                  "match",
                  "the same alcohol and real water as another bake, from this bottle",
                  "barm match examples/perry-loaf.toml --like examples/mead-loaf.toml",
                  arguments->json);
  match->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  match->add_option("--like", arguments->other, "the bake to match")->type_name("FILE")->required();
  match->callback([arguments, &chosen] {
    chosen = [arguments] {
      return answer(service::match(arguments->bake, arguments->other), arguments->json);
    };
  });
}

}  // namespace barm::cli
