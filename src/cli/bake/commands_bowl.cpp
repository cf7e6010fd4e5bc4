#include <CLI/CLI.hpp>
#include <memory>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/print.h"
#include "generated/commands.h"
#include "service/bake/bowl.h"

namespace barm::cli {

namespace {

struct BowlArguments {
  bool json = false;
  std::string bake;
};

}  // namespace

void add_bowl(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<BowlArguments>();
  CLI::App* bowl = add_command(app,
                               "bowl",
                               "what is really in the bowl",
                               "barm bowl examples/mead-loaf.toml",
                               arguments->json);
  bowl->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  bowl->callback([arguments, &chosen] {
    chosen = [arguments] { return answer(service::bowl(arguments->bake), arguments->json); };
  });
}

}  // namespace barm::cli
