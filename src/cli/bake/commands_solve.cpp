#include <CLI/CLI.hpp>
#include <memory>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/print.h"
#include "generated/commands.h"
#include "service/bake/solve.h"

namespace barm::cli {

namespace {

struct SolveArguments {
  bool json = false;
  std::string bake;
  std::vector<std::string> aims, free;
};

}  // namespace

void add_solve(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<SolveArguments>();
  CLI::App* solve =
      add_command(app,
                  "solve",
                  "weights that meet any set of aims",
                  "barm solve examples/mead-loaf.toml --aim 'real water=70 %' --aim 'alcohol=60 g' "
                  "--free 'dry mead' --free water",
                  arguments->json);
  solve->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  solve->add_option("--aim", arguments->aims, "an aim and its value: " + service::aim_names())
      ->required();
  solve->add_option("--free", arguments->free, "an ingredient whose weight may change")
      ->type_name("NAME")
      ->required();
  solve->callback([arguments, &chosen] {
    chosen = [arguments] {
      return answer(service::solve(arguments->bake, arguments->aims, arguments->free),
                    arguments->json);
    };
  });
}

}  // namespace barm::cli
