#include <CLI/CLI.hpp>
#include <memory>

#include "cli/manual/manual.h"
#include "cli/output.h"
#include "generated/commands.h"
#include "larder/larder.h"

namespace barm::cli {

namespace {

std::string in_form(const std::string& form, const ManualCommand& program) {
  if (form == "man") return man_page(program);
  std::vector<std::string> names;
  for (const larder::Ingredient& ingredient : larder::all()) names.push_back(ingredient.name);
  if (form == "bash") return bash_completion(program, names);
  if (form == "zsh") return zsh_completion(program, names);
  return fish_completion(program, names);
}

}  // namespace

void add_manual(CLI::App& app, std::function<int()>& chosen) {
  const auto form = std::make_shared<std::string>("man");
  CLI::App* sub =
      app.add_subcommand("manual", "all commands as a page for man, or as completions for a shell");
  sub->add_option("FORM", *form, "the page, or for which shell")
      ->check(CLI::IsMember({"man", "bash", "zsh", "fish"}));
  sub->footer("Example:\n  barm manual bash > ~/.local/share/bash-completion/completions/barm");
  sub->callback([form, &app, &chosen] {
    chosen = [form, &app] {
      put_out(in_form(*form, manual_of(app)));
      return 0;
    };
  });
}

}  // namespace barm::cli
