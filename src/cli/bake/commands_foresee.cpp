#include <CLI/CLI.hpp>
#include <memory>

#include "cli/answer.h"
#include "cli/bake/aim_option.h"
#include "cli/bake/forecast_options.h"
#include "cli/bake/print_read.h"
#include "cli/bake/read_options.h"
#include "cli/command.h"
#include "cli/daybook/at_home.h"
#include "cli/new_files.h"
#include "cli/print.h"
#include "generated/commands.h"
#include "service/bake/calendar.h"
#include "service/bake/read.h"
#include "service/now.h"

namespace barm::cli {

namespace {

struct ForeseeArguments {
  bool json = false;
  std::string bake, target, calendar;
  bool replace = false;
  ForecastArguments forecast;
  ReadArguments reading;
  HomeArguments home;
};

/// The bake with the wanted target laid over it.
Result<formula::Bake> aimed_bake(const ForeseeArguments& arguments, forecast::Options& options) {
  auto bake = read_at_home(arguments.bake, arguments.home);
  if (!bake || arguments.target.empty()) return bake;
  if (const auto wrong = aim_at(arguments.target, *bake, options)) return failure(*wrong);
  return bake;
}

Result<bool> keep_calendar(const service::ForeseeAnswer& foreseen,
                           const std::string& path,
                           const NewFiles& files) {
  const auto calendar = service::calendar(foreseen, {Time{}, service::machine_now().at, {}});
  if (!calendar) return failure(calendar);
  return files.write(path, *calendar);
}

Result<service::ReadAnswer> read_dough(const ForeseeArguments& arguments,
                                       const formula::Bake& bake,
                                       const forecast::Options& options,
                                       const NewFiles& files) {
  const auto beside = read_beside(arguments.reading);
  if (!beside) return failure(beside);
  const auto batch = service::batch_of(bake, *beside, *options.prior);
  if (!batch) return failure(batch);
  auto read = service::read(*batch, options);
  if (!read || arguments.calendar.empty()) return read;
  auto foreseen = service::foresee(bake, options);
  if (!foreseen) return failure(foreseen);
  service::tell_as_read(*foreseen, *read);
  const auto kept = keep_calendar(*foreseen, arguments.calendar, files);
  if (!kept) return failure(kept);
  return read;
}

int do_foresee(const ForeseeArguments& arguments) {
  using Failed = Result<service::ForeseeAnswer>;
  auto options = options_of(arguments.forecast);
  if (!options) return answer(Failed(failure(options)), arguments.json);
  const auto bake = aimed_bake(arguments, *options);
  if (!bake) return answer(Failed(failure(bake)), arguments.json);
  NewFiles files(arguments.replace, {arguments.bake});
  const auto planned = files.plan(arguments.calendar);
  if (!planned) return answer(Failed(failure(planned)), arguments.json);
  if (arguments.reading.given())
    return answer(read_dough(arguments, *bake, *options, files), arguments.json);
  const auto foreseen = service::foresee(*bake, *options);
  if (foreseen && !arguments.calendar.empty()) {
    const auto kept = keep_calendar(*foreseen, arguments.calendar, files);
    if (!kept) return answer(Failed(failure(kept)), arguments.json);
  }
  return answer(foreseen, arguments.json);
}

}  // namespace

void add_foresee(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<ForeseeArguments>();
  CLI::App* foresee = add_command(app,
                                  "foresee",
                                  "whether and when the dough is ready, and what is in the way",
                                  "barm foresee examples/mead-loaf.toml --at 26C",
                                  arguments->json);
  foresee->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  foresee->add_option(
      "--at", arguments->forecast.temperature, "another temperature of the dough, such as 26C");
  add_read_options(*foresee, arguments->reading);
  foresee->add_option(
      "--target", arguments->target, "of the bulk: doubled, 1.8, or after for what comes after");
  foresee
      ->add_option("--calendar",
                   arguments->calendar,
                   "also write a calendar file with alarms, such as mead.ics")
      ->type_name("FILE");
  foresee->add_flag("--replace", arguments->replace, "write over a calendar file that is there");
  add_home_options(*foresee, arguments->home);
  add_forecast_options(*foresee, arguments->forecast);
  foresee->callback(
      [arguments, &chosen] { chosen = [arguments] { return do_foresee(*arguments); }; });
}

}  // namespace barm::cli
