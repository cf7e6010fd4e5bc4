#include "cli/command.h"

#include <CLI/CLI.hpp>

namespace barm::cli {

CLI::App* add_command(
    CLI::App& app, const char* name, const char* what, const char* example, bool& json) {
  CLI::App* sub = app.add_subcommand(name, what);
  sub->add_flag("--json", json, "the answer as JSON (docs/json.md)");
  sub->footer(std::string("Example:\n  ") + example);
  return sub;
}

}  // namespace barm::cli
