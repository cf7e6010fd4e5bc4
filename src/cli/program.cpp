#include "cli/program.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <csignal>
#include <functional>
#include <sstream>

#include "base/complain.h"
#include "base/require.h"
#include "base/visible.h"
#include "cli/daybook/brought_along.h"
#include "cli/exit.h"
#include "cli/output.h"
#include "cli/version.h"
#include "generated/commands.h"

namespace barm::cli {

namespace {

int run(int argc, char** argv) {
  std::function<int()> chosen;
  CLI::App app{"barm: what is really in the bowl, and when the dough is ready."};
  app.require_subcommand(1);
  app.set_help_all_flag("--help-all", "all commands in full");
  app.set_version_flag("--version", version_text(), "which barm this is, and which data it has");

  for (AddCommand* const add : all_commands) add(app, chosen);

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    std::ostringstream help;
    std::ostringstream wrong;
    const int status = app.exit(error, help, wrong);
    put_out(help.str());
    put_beside(visible(wrong.str()));  // it may repeat a file's name
    return status == 0 ? 0 : wrong_usage;
  }
  return chosen();
}

}  // namespace

int run_program(int argc, char** argv) {
  open_missing_streams();
  try {
    use_what_was_brought_along();
    // A file that reaches its limit is to be a full disk, and not the end of the program.
    std::signal(SIGXFSZ, SIG_IGN);
    return after_writing(run(argc, argv));
  } catch (const ContractViolation& fault) {
    complain(fmt::format("a fault of barm's own, please report it: {}", fault.what()));
  } catch (const std::exception& fault) {
    complain(fmt::format("barm had to stop: {}", fault.what()));
  }
  return our_fault;
}

}  // namespace barm::cli
