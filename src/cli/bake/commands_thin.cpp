#include <CLI/CLI.hpp>
#include <memory>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/print.h"
#include "cli/weight.h"
#include "formula/amount.h"
#include "generated/commands.h"
#include "service/bake/thin.h"

namespace barm::cli {

namespace {

struct ThinArguments {
  bool json = false;
  std::string drink, strength, need = "300g";
};

int do_thin(const ThinArguments& arguments) {
  const auto need = mass_of("--need", arguments.need, "1kg");
  if (!need) return answer(Result<service::ThinAnswer>(failure(need)), arguments.json);
  return answer(service::thin(arguments.drink, arguments.strength, *need), arguments.json);
}

}  // namespace

void add_thin(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<ThinArguments>();
  CLI::App* thin = add_command(app,
                               "thin",
                               "thin a drink with water to a strength",
                               "barm thin \"neutral spirit\" --to \"10 % vol\" --need 1kg",
                               arguments->json);
  thin->add_option("DRINK", arguments->drink, "a drink of the larder")
      ->type_name("NAME")
      ->required();
  thin->add_option("--to", arguments->strength, "the strength wanted, such as '10 % vol'")
      ->required();
  thin->add_option("--need", arguments->need, "how much is needed, such as 1kg");
  thin->callback([arguments, &chosen] { chosen = [arguments] { return do_thin(*arguments); }; });
}

}  // namespace barm::cli
