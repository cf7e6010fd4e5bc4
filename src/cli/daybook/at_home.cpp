#include "cli/daybook/at_home.h"

#include <CLI/CLI.hpp>

#include "cli/answer.h"
#include "formula/read.h"

namespace barm::cli {

void add_home_options(CLI::App& command, HomeArguments& arguments, const std::string& what) {
  command
      .add_option("--daybook",
                  arguments.daybook,
                  "at home in this daybook, with what it knows of the house's ovens")
      ->type_name("FILE");
  if (what.empty()) return;
  command.add_option("--named",
                     arguments.named,
                     "a " + what + " of the daybook; else the one of the bake, or the only one");
  command.add_flag(
      "--keep", arguments.keep, "keep in the daybook what is said here and learned of the " + what);
}

Result<Home> Home::open(const HomeArguments& arguments) {
  Home out;
  out.arguments_ = arguments;
  if (arguments.daybook.empty()) {
    if (!arguments.keep && arguments.named.empty()) return out;
    return failure(ErrorCode::bad_input,
                   arguments.keep ? "--keep" : "--named",
                   "goes with --daybook FILE, which keeps it");
  }
  auto daybook = storage::Daybook::open(
      arguments.daybook, {.create = arguments.keep, .or_read_only = !arguments.keep});
  if (!daybook) return failure(daybook);
  auto house = service::house_of(*daybook);
  if (!house) return failure(house);
  out.daybook_ = std::move(*daybook);
  out.house_ = std::move(*house);
  return out;
}

formula::Bake Home::bakes(formula::Bake bake) const {
  return daybook_ ? service::at_home(std::move(bake), house_, service::machine_now().zone) : bake;
}

Result<std::optional<storage::Equipment>> Home::own(const std::string& what,
                                                    const std::string& in_file) const {
  const std::string& name = arguments_.named.empty() ? in_file : arguments_.named;
  auto found = arguments_.keep ? service::of_house_or_new(house_, what, name)
                               : service::of_house(house_, what, name);
  // A name that only the file has is told by the answer.
  if (!found && !arguments_.keep && arguments_.named.empty())
    return std::optional<storage::Equipment>();
  return of_option("--named", std::move(found));
}

Result<bool> Home::keep(std::optional<storage::Equipment>& one) {
  if (!arguments_.keep || !one) {
    one.reset();
    return true;
  }
  auto saved = service::save_equipment(*daybook_, std::move(*one), service::machine_now());
  if (!saved) return failure(saved);
  one = std::move(*saved);
  return true;
}

Result<formula::Bake> read_at_home(const std::string& path, const HomeArguments& arguments) {
  auto bake = formula::read_bake(path);
  if (!bake) return bake;
  const auto home = Home::open(arguments);
  if (!home) return failure(home);
  return home->bakes(std::move(*bake));
}

}  // namespace barm::cli
