#include <CLI/CLI.hpp>
#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/day/print_day.h"
#include "cli/new_files.h"
#include "formula/document.h"
#include "generated/commands.h"
#include "service/bake/calendar.h"
#include "service/day/kept_day.h"
#include "service/day/under_way.h"
#include "storage/daybook.h"

namespace barm::cli {

namespace {

struct DayArguments {
  bool json = false;
  bool replace = false;
  bool keep = false;
  bool stay = false;
  bool drawn = false;  ///< by other doughs than the usual ones
  std::string file, calendar, move, to, daybook;
  service::DayRequest request;
};

/// The day of the file with bakes of the daybook, and what stands on its shelf.
Result<service::DayFile> from_daybook(storage::Daybook& daybook,
                                      const std::string& text,
                                      const DayArguments& arguments,
                                      service::DayRequest& request) {
  const service::Now now = service::machine_now();
  auto shelf = daybook.list<storage::Bottle>();
  if (!shelf) return failure(shelf);
  request.shelf = std::move(*shelf);
  return service::parse_day(
      text, arguments.file, now.zone, [&](const std::string& name, const FilePlace& place) {
        auto bake = service::known_bake(daybook, name, now);
        if (bake) return bake;
        return Result<service::KnownBake>(
            failure(bake.error().code, place, "\"" + name + "\": " + bake.error().message));
      });
}

Result<service::DayAnswer> day_in_daybook(const DayArguments& arguments,
                                          service::DayRequest& request) {
  const auto text = formula::read_text(arguments.file);
  if (!text) return failure(text);
  auto daybook = storage::Daybook::open(arguments.daybook, {.or_read_only = !arguments.keep});
  if (!daybook) return failure(daybook);
  const auto file = from_daybook(*daybook, *text, arguments, request);
  if (!file) return failure(file);
  auto day = service::plan_day(*file, request);
  if (!day || !arguments.keep) return day;
  const auto kept = service::keep_day(*daybook, *text, *day, service::machine_now());
  if (!kept) return failure(kept);
  return day;
}

Result<service::DayAnswer> day_of_files(const DayArguments& arguments,
                                        const service::DayRequest& request) {
  const auto file = service::read_day(arguments.file, time::Zone());
  if (!file) return failure(file);
  return service::plan_day(*file, request);
}

/// What is wrong with the options together.
Result<bool> fitting(const DayArguments& arguments) {
  const auto wrong = [](const char* where, const char* why) {
    return failure(ErrorCode::bad_input, where, why);
  };
  if (arguments.file.empty() && arguments.daybook.empty())
    return wrong("DAY", "the file of a day; or --daybook FILE alone, for the plan kept there");
  if (arguments.keep && arguments.daybook.empty())
    return wrong("--keep", "goes with --daybook FILE, which keeps it");
  if (arguments.file.empty() && arguments.drawn)
    return wrong("--draws, --seed", "go with a DAY that is planned; a plan kept has its own");
  if (arguments.stay && (arguments.daybook.empty() || !arguments.file.empty() || arguments.keep))
    return wrong("--stay", "goes with --daybook FILE alone, which has the kept plan");
  return true;
}

Result<bool> write_calendar(NewFiles& files,
                            const DayArguments& arguments,
                            const service::DayAnswer& day) {
  if (arguments.calendar.empty()) return true;
  if (!day.planned)
    return failure(ErrorCode::cannot_be_met,
                   "--calendar",
                   "there is no plan to write: leave it out to see why");
  return files.write(arguments.calendar,
                     service::day_calendar(day, {Time{}, service::machine_now().at, day.zone}));
}

Result<service::DayRequest> request_of(const DayArguments& arguments) {
  if (const auto fits = fitting(arguments); !fits) return failure(fits);
  service::DayRequest request = arguments.request;
  auto move = service::asked_move(arguments.move, arguments.to);
  if (!move) return failure(move);
  request.move = *std::move(move);
  return request;
}

Result<service::DayAnswer> day_of(const DayArguments& arguments) {
  auto request = request_of(arguments);
  if (!request) return failure(request);
  NewFiles files(arguments.replace, {arguments.file});
  const auto planned = files.plan(arguments.calendar);
  if (!planned) return failure(planned);
  auto day = arguments.daybook.empty() ? day_of_files(arguments, *request)
                                       : day_in_daybook(arguments, *request);
  if (!day) return day;
  const auto written = write_calendar(files, arguments, *day);
  if (!written) return failure(written);
  return day;
}

/// The plan that is kept, with what came in since; taken or left, where that is wanted.
Result<service::DayAgain> kept_of(const DayArguments& arguments) {
  auto request = request_of(arguments);
  if (!request) return failure(request);
  NewFiles files(arguments.replace, {});
  const auto planned = files.plan(arguments.calendar);
  if (!planned) return failure(planned);
  const bool writes = arguments.keep || arguments.stay;
  auto daybook = storage::Daybook::open(arguments.daybook, {.or_read_only = !writes});
  if (!daybook) return failure(daybook);
  const service::Now now = service::machine_now();
  if (arguments.stay) {
    const auto stayed = service::stay_with_kept(*daybook, now);
    if (!stayed) return failure(stayed);
  }
  auto shelf = daybook->list<storage::Bottle>();
  if (!shelf) return failure(shelf);
  request->shelf = std::move(*shelf);
  auto again = service::day_again(*daybook, now, *request);
  if (!again) return again;
  if (arguments.keep && !again->day)
    return failure(ErrorCode::cannot_be_met, "--keep", again->told.front());
  if (arguments.keep) {
    const auto kept = service::keep_day(*daybook, again->text, *again->day, now);
    if (!kept) return failure(kept);
  }
  if (!again->day) return again;
  const auto written = write_calendar(files, arguments, *again->day);
  if (!written) return failure(written);
  return again;
}

}  // namespace

void add_day(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<DayArguments>();
  CLI::App* day = app.add_subcommand(
      "day", "several bakes on the hands and places of one house, until the bread is wanted");
  day->footer("Example:\n  barm day examples/saltmarsh-saturday.toml --calendar saturday.ics");
  day->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  day->add_option("DAY",
                  arguments->file,
                  "a file of the day (docs/day.md); left out with --daybook: the plan kept there")
      ->type_name("FILE");
  day->add_option("--daybook",
                  arguments->daybook,
                  "its bakes are those of this daybook, by id or title, with their readings")
      ->type_name("FILE");
  day->add_flag("--keep", arguments->keep, "the house goes by this plan: Today shows what is next");
  day->add_flag("--stay", arguments->stay, "the plan kept stays as it was, whatever came in since");
  day->add_option("--calendar", arguments->calendar, "also write the steps as a calendar file")
      ->type_name("FILE");
  day->add_flag("--replace", arguments->replace, "write over a file that is there");
  day->add_option("--move", arguments->move, "a step at another time: 'Mead loaf: divide'");
  day->add_option("--to", arguments->to, "where to, such as 2026-11-27T15:30");
  day->add_option("--draws", arguments->request.draws, "doughs simulated to plan with")
      ->check(CLI::Range(20, 2000));
  day->add_option("--fresh", arguments->request.fresh_draws, "others the chance is counted on")
      ->check(CLI::Range(100, 20000));
  day->add_option("--seed", arguments->request.seed, "another set of simulated doughs");
  day->add_option("--threads", arguments->request.threads, "0: all of the machine's")
      ->check(CLI::Range(0, 64));
  day->callback([arguments, day, &chosen] {
    arguments->drawn = day->count("--draws") + day->count("--seed") > 0;
    chosen = [arguments] {
      if (!arguments->json) arguments->request.progress = said_on_terminal();
      return arguments->file.empty() ? answer(kept_of(*arguments), arguments->json)
                                     : answer(day_of(*arguments), arguments->json);
    };
  });
}

}  // namespace barm::cli
