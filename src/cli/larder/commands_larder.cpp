#include <CLI/CLI.hpp>
#include <memory>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/print.h"
#include "generated/commands.h"
#include "service/larder/larder.h"

namespace barm::cli {

namespace {

struct LarderArguments {
  bool json = false;
  std::string words;
};

}  // namespace

void add_larder(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<LarderArguments>();
  CLI::App* larder =
      add_command(app, "larder", "what the larder knows", "barm larder mead", arguments->json);
  larder->add_option("WORD", arguments->words, "a name, or a group such as drink")
      ->type_name("NAME");
  larder->callback([arguments, &chosen] {
    chosen = [arguments] {
      return answer(service::larder_with(arguments->words), arguments->json);
    };
  });
}

}  // namespace barm::cli
