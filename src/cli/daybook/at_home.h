#pragma once
// The house whose oven, fridge or mixer a command is about: of the daybook that it names.
#include <optional>
#include <string>

#include "formula/bake.h"
#include "service/daybook/daybook.h"

namespace CLI {  // NOLINT(readability-identifier-naming): theirs
class App;
}  // namespace CLI

namespace barm::cli {

struct HomeArguments {
  std::string daybook, named;
  bool keep = false;
};

/// --daybook, and with `what` ("oven") also --named and --keep.
void add_home_options(CLI::App& command, HomeArguments& arguments, const std::string& what = "");

class Home {
 public:
  /// Without a daybook an empty one. Errors: of Daybook::open(), bad_input (--keep without a
  /// daybook or a name).
  [[nodiscard]] static Result<Home> open(const HomeArguments& arguments);

  /// The bake in the oven that it names, or in the only one.
  [[nodiscard]] formula::Bake bakes(formula::Bake bake) const;

  /// What --named names, else `in_file`, else the only one; with --keep a new one of that name
  /// where there is none. Errors: not_found.
  [[nodiscard]] Result<std::optional<storage::Equipment>> own(
      const std::string& what, const std::string& in_file = "") const;

  /// With --keep saves it and leaves what was saved; else leaves nothing.
  [[nodiscard]] Result<bool> keep(std::optional<storage::Equipment>& one);

 private:
  HomeArguments arguments_;
  std::optional<storage::Daybook> daybook_;
  service::Inventory house_;
};

/// Asks what is asked of a fridge or a mixer, of the house's own where it has one, and keeps what
/// is to be kept.
template <class Request, class Ask>
auto of_the_house(const HomeArguments& arguments,
                  const std::string& what,
                  Request request,
                  const Ask& ask) -> decltype(ask(request)) {
  auto home = Home::open(arguments);
  if (!home) return failure(home);
  const auto own = home->own(what);
  if (!own) return failure(own);
  const service::Now now = service::machine_now();
  request.of = *own;
  if (request.of) request.with = service::said(*request.of, now.zone);
  request.measured_at = now.at;
  auto answer = ask(request);
  if (!answer) return answer;
  const auto kept = home->keep(answer->keep);
  if (!kept) return failure(kept);
  return answer;
}

/// The bake of a file, at home in that daybook.
[[nodiscard]] Result<formula::Bake> read_at_home(const std::string& path,
                                                 const HomeArguments& arguments);

}  // namespace barm::cli
