#include <CLI/CLI.hpp>
#include <memory>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/print.h"
#include "generated/commands.h"
#include "service/larder/sources.h"

namespace barm::cli {

namespace {

struct SourceArguments {
  bool json = false;
  std::string words, bake;
};

}  // namespace

void add_source(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<SourceArguments>();
  CLI::App* source = add_command(app,
                                 "source",
                                 "where a number comes from and how far it can be trusted",
                                 "barm source ethanol_half",
                                 arguments->json);
  source->add_option("QUANTITY", arguments->words, "part of its name; all without one");
  source
      ->add_option("--behind",
                   arguments->bake,
                   "the numbers that the time of this bake depends on, the weightiest first")
      ->type_name("FILE");
  source->callback([arguments, &chosen] {
    chosen = [arguments] {
      return arguments->bake.empty()
                 ? answer(service::sources_of(arguments->words), arguments->json)
                 : answer(service::sources_behind(arguments->bake, {}), arguments->json);
    };
  });
}

}  // namespace barm::cli
