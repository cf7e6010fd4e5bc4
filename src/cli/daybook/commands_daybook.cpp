#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdlib>
#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/daybook/print_daybook.h"
#include "formula/amount.h"
#include "formula/document.h"
#include "generated/commands.h"
#include "service/clock.h"
#include "service/daybook/daybook.h"
#include "service/daybook/demo.h"
#include "service/daybook/view.h"
#include "storage/archive.h"
#include "storage/copies.h"

namespace barm::cli {

using service::Done;
using service::Now;
using storage::Daybook;

namespace {

std::string usual_daybook() {
  const char* named = std::getenv("BARM_DAYBOOK");
  return named == nullptr || *named == '\0' ? "daybook.barm" : named;
}

struct DaybookArguments {
  bool json = false;
  std::string daybook = usual_daybook();
  std::string what, kind, id, state, at, remark, file;
  std::vector<std::string> tags;
  std::size_t limit = 40;
  double height_mm = 0, ratio = 0, ph = 0;
  std::string sample, bulk, room;
};

using DaybookShared = std::shared_ptr<DaybookArguments>;

Result<Daybook> reading(const DaybookArguments& arguments) {
  return Daybook::open(arguments.daybook, {.create = false, .read_only = true});
}

// For writing: a new file if need be; what is 30 days in the trash goes.
Result<Daybook> writing(const DaybookArguments& arguments, const Now& now, bool create) {
  auto daybook = Daybook::open(arguments.daybook, {.create = create});
  if (!daybook) return daybook;
  const auto purged = daybook->purge(now.at);
  if (!purged) return failure(purged);
  return daybook;
}

Result<time::Instant> moment_of(const std::string& option,
                                const std::string& local,
                                const Now& now) {
  if (local.empty()) return now.at;
  const bool hour_only = local.size() == 5;
  const auto moment =
      service::moment_of(hour_only ? now.zone.day(now.at).text() + "T" + local : local, now.zone);
  if (moment) return *moment;
  return failure(ErrorCode::bad_input,
                 option,
                 fmt::format("'{}' is no local time; write 2026-11-28T07:00 or 07:00", local));
}

Result<service::TodayAnswer> do_today(const DaybookArguments& arguments) {
  // Open for writing where that may be: what is worked out is kept for the next time.
  auto daybook = Daybook::open(arguments.daybook, {.or_read_only = true});
  if (!daybook) return failure(daybook);
  return service::today(*daybook, service::machine_now());
}

Result<service::BakesAnswer> do_list(const DaybookArguments& arguments) {
  auto daybook = reading(arguments);
  if (!daybook) return failure(daybook);
  storage::Query query;
  query.text = arguments.what;
  query.state = arguments.state;
  query.limit = arguments.limit;
  return service::bakes(*daybook, query, service::machine_now());
}

Result<service::BakeView> do_show(const DaybookArguments& arguments) {
  auto daybook = reading(arguments);
  if (!daybook) return failure(daybook);
  return service::view_bake(*daybook, arguments.what, service::machine_now());
}

Result<std::string> contents(const std::string& path) {
  const auto bake = formula::read_bake(path);  // says what is wrong with place and line
  if (!bake) return failure(bake);
  return formula::read_text(path);
}

Result<Done> do_add(const DaybookArguments& arguments) {
  const Now now = service::machine_now();
  const auto toml = contents(arguments.file);
  if (!toml) return failure(toml);
  auto daybook = writing(arguments, now, true);
  if (!daybook) return failure(daybook);
  storage::Bake bake;
  if (!arguments.id.empty()) {
    auto old = service::find_bake(*daybook, arguments.id);
    if (!old) return failure(old);
    bake = std::move(*old);
  }
  bake.toml = *toml;
  if (!arguments.state.empty()) bake.state = arguments.state;
  if (!arguments.tags.empty()) bake.tags = arguments.tags;
  if (!arguments.at.empty()) {
    const auto at = moment_of("--mixed", arguments.at, now);
    if (!at) return failure(at);
    bake.mixed_at = *at;
  }
  const auto saved = service::save_bake(*daybook, std::move(bake), now);
  if (!saved) return failure(saved);
  return Done{
      fmt::format(
          "{} is in the daybook as {}, revision {}", saved->title, saved->id, saved->revision),
      saved->id};
}

Result<bool> put_temperature(const char* option,
                             const std::string& text,
                             std::optional<double>& to) {
  if (text.empty()) return true;
  const auto temperature = of_option(option, formula::parse_temperature(text));
  if (!temperature) return failure(temperature);
  to = temperature->celsius();
  return true;
}

Result<Done> do_read(const DaybookArguments& arguments) {
  const Now now = service::machine_now();
  storage::ReadingRecord reading;
  const auto at = moment_of("--at", arguments.at, now);
  if (!at) return failure(at);
  reading.at = *at;
  reading.id = arguments.id;
  reading.remark = arguments.remark;
  if (arguments.height_mm != 0) reading.height_mm = arguments.height_mm;
  if (arguments.ratio != 0) reading.ratio = arguments.ratio;
  if (arguments.ph != 0) reading.ph = arguments.ph;
  for (const auto& done : {put_temperature("--sample", arguments.sample, reading.sample_C),
                           put_temperature("--bulk", arguments.bulk, reading.bulk_C),
                           put_temperature("--room", arguments.room, reading.room_C)}) {
    if (!done) return failure(done);
  }
  auto daybook = writing(arguments, now, false);
  if (!daybook) return failure(daybook);
  const auto bake = service::find_bake(*daybook, arguments.what);
  if (!bake) return failure(bake);
  reading.bake = bake->id;
  const auto saved = daybook->save(reading, now.at);
  if (!saved) return failure(saved);
  return Done{fmt::format("noted for {}, {}; it is reading {}",
                          bake->title,
                          now.zone.local(saved->at).text(),
                          saved->id),
              saved->id};
}

Result<storage::Kind> kind_of(const std::string& word) {
  const auto kind = storage::kind_of(word);
  if (kind) return *kind;
  return failure(ErrorCode::bad_input,
                 "KIND",
                 fmt::format("'{}' is none: bake, culture, feeding, bottle, reading, mark, photo, "
                             "loaf, scale, remark, setting, test_bake, test_member, equipment",
                             word));
}

Result<Done> do_delete(const DaybookArguments& arguments) {
  const Now now = service::machine_now();
  const auto kind = kind_of(arguments.kind);
  if (!kind) return failure(kind);
  auto daybook = writing(arguments, now, false);
  if (!daybook) return failure(daybook);
  const auto done = daybook->remove(*kind, arguments.id, 0, now.at);
  if (!done) return failure(done);
  return Done{fmt::format("in the trash for 30 days; to take it back: barm daybook undo {} {}",
                          arguments.kind,
                          arguments.id),
              arguments.id};
}

Result<Done> do_undo(const DaybookArguments& arguments) {
  const Now now = service::machine_now();
  const auto kind = kind_of(arguments.kind);
  if (!kind) return failure(kind);
  auto daybook = writing(arguments, now, false);
  if (!daybook) return failure(daybook);
  const auto done = daybook->undo(*kind, arguments.id, now.at);
  if (!done) return failure(done);
  return Done{fmt::format("{} {} is back", arguments.kind, arguments.id), arguments.id};
}

Result<service::TrashAnswer> do_trash(const DaybookArguments& arguments) {
  auto daybook = reading(arguments);
  if (!daybook) return failure(daybook);
  return service::trash(*daybook, service::machine_now());
}

// How a copy is spoken of; what is odd about the clock goes with it, for its name has the day.
Result<Done> said_of(const Result<storage::Copy>& copy, Daybook& daybook, const Now& now) {
  if (!copy) return failure(copy);
  const auto doubt = service::clock_doubt(daybook, now);
  if (!doubt) return failure(doubt);
  Done done;
  done.words = copy->made ? "the copy is " + copy->name
                          : fmt::format(
                                "nothing has changed since {}, which is whole; no further "
                                "copy was made",
                                copy->name);
  if (*doubt) done.words += ". Mind: " + **doubt;
  return done;
}

Result<Done> do_backup(const DaybookArguments& arguments) {
  const Now now = service::machine_now();
  auto daybook = reading(arguments);
  if (!daybook) return failure(daybook);
  if (arguments.file.empty()) return said_of(storage::keep_copy(*daybook, now.at), *daybook, now);
  const auto copy = daybook->back_up(arguments.file);
  if (!copy) return failure(copy);
  return Done{"the copy is " + *copy, ""};
}

Result<Done> do_restore(const DaybookArguments& arguments) {
  const auto restored = storage::restore(arguments.file, arguments.daybook);
  if (!restored) return failure(restored);
  return Done{fmt::format("{} is as in the copy; what was there before lies beside it as "
                          "{}.before-restore-…",
                          *restored,
                          *restored),
              ""};
}

Result<service::EquipmentAnswer> do_equipment(const DaybookArguments& arguments) {
  auto daybook = reading(arguments);
  if (!daybook) return failure(daybook);
  auto house = service::house_of(*daybook);
  if (!house) return failure(house);
  return service::EquipmentAnswer{std::move(*house), service::machine_now().zone};
}

int do_check(const DaybookArguments& arguments) {
  auto daybook = reading(arguments);
  if (!daybook) return answer(Result<service::CheckAnswer>(failure(daybook)), arguments.json);
  const auto checked = service::check(*daybook);
  const int status = answer(checked, arguments.json);
  return status == 0 && !checked->faults.empty() ? exit_status(ErrorCode::bad_input) : status;
}

Result<Done> do_export(const DaybookArguments& arguments) {
  auto daybook = reading(arguments);
  if (!daybook) return failure(daybook);
  const auto zip = storage::export_to(*daybook, arguments.file, service::machine_now().at);
  if (!zip) return failure(zip);
  return Done{"written to " + *zip, ""};
}

Result<Done> do_import(const DaybookArguments& arguments) {
  const auto made = storage::import_from(arguments.file, arguments.daybook);
  if (!made) return failure(made);
  return Done{*made + " is a new daybook with all that was in the zip", ""};
}

Result<Done> do_demo(const DaybookArguments& arguments) {
  auto daybook = Daybook::open(arguments.file, {.create = true});
  if (!daybook) return failure(daybook);
  const auto saved = service::fill_with_demo(*daybook, service::machine_now());
  if (!saved) return failure(saved);
  return Done{
      fmt::format("{} holds an invented bakery on a salt marsh, {} records. Look with: barm "
                  "daybook today --daybook {}",
                  arguments.file,
                  *saved,
                  arguments.file),
      ""};
}

// One command under `barm daybook`, with what all have.
CLI::App* command(CLI::App* daybook,
                  const DaybookShared& arguments,
                  const char* name,
                  const char* what,
                  const char* example) {
  CLI::App* sub = daybook->add_subcommand(name, what);
  sub->footer(std::string("Example:\n  barm daybook ") + example);
  sub->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  if (std::string(name) != "demo") {
    sub->add_option(
           "--daybook", arguments->daybook, "the file; BARM_DAYBOOK names another usual one")
        ->type_name("FILE")
        ->capture_default_str();
  }
  return sub;
}

template <class F>
void on(CLI::App* sub, const DaybookShared& arguments, std::function<int()>& chosen, F run) {
  sub->callback([arguments, &chosen, run] {
    chosen = [arguments, run] { return answer(run(*arguments), arguments->json); };
  });
}

void add_looking(CLI::App* daybook, const DaybookShared& arguments, std::function<int()>& chosen) {
  CLI::App* today = command(daybook,
                            arguments,
                            "today",
                            "what is alive, what to do next, what to feed, buy and weigh",
                            "today");
  on(today, arguments, chosen, do_today);

  CLI::App* list = command(daybook, arguments, "list", "bakes, newest first", "list mead");
  list->add_option("WORDS", arguments->what, "in the title, tags, note or file");
  list->add_option("--state", arguments->state, "only those in this state")
      ->check(CLI::IsMember({"draft", "planned", "live", "finished", "given_up"}));
  list->add_option("--limit", arguments->limit, "at most so many")->check(CLI::Range(1, 100000));
  on(list, arguments, chosen, do_list);

  CLI::App* show =
      command(daybook, arguments, "show", "a bake and all that belongs to it", "show 'mead loaf'");
  show->add_option("BAKE", arguments->what, "its id, or words of its title")->required();
  on(show, arguments, chosen, do_show);

  CLI::App* equipment =
      command(daybook,
              arguments,
              "equipment",
              "the house's ovens, fridges and mixers, and what was learned of them",
              "equipment");
  on(equipment, arguments, chosen, do_equipment);

  CLI::App* trash =
      command(daybook, arguments, "trash", "what was deleted in the last 30 days", "trash");
  on(trash, arguments, chosen, do_trash);
}

void add_writing(CLI::App* daybook, const DaybookShared& arguments, std::function<int()>& chosen) {
  CLI::App* add = command(daybook,
                          arguments,
                          "add",
                          "keep a bake file, or a new version of one that is kept",
                          "add examples/mead-loaf.toml --state live --mixed 07:00");
  add->add_option("FILE", arguments->file, "a bake file (docs/bake-file.md)")
      ->type_name("FILE")
      ->required();
  add->add_option("--as", arguments->id, "the bake it is a new version of");
  add->add_option("--state", arguments->state, "planned, live, finished or given_up");
  add->add_option("--tag", arguments->tags, "a word to find it by");
  add->add_option("--mixed", arguments->at, "local time, such as 2026-11-28T07:00 or 07:00");
  on(add, arguments, chosen, do_add);

  CLI::App* read = command(daybook,
                           arguments,
                           "read",
                           "note a look at a dough",
                           "read 'mead loaf' --height 84 --sample 24C");
  read->add_option("BAKE", arguments->what, "its id, or words of its title")->required();
  read->add_option("--height", arguments->height_mm, "of the sample in its jar, mm");
  read->add_option("--ratio", arguments->ratio, "or height over the height at the start");
  read->add_option("--sample", arguments->sample, "the sample's temperature, such as 24C");
  read->add_option("--bulk", arguments->bulk, "the dough's");
  read->add_option("--room", arguments->room, "the room's");
  read->add_option("--ph", arguments->ph, "its pH");
  read->add_option("--remark", arguments->remark, "in words");
  read->add_option("--at", arguments->at, "local time, when it was not now");
  read->add_option("--id", arguments->id, "an id of your own: sent twice it is kept once");
  on(read, arguments, chosen, do_read);

  CLI::App* remove = command(daybook,
                             arguments,
                             "delete",
                             "put a record in the trash, for 30 days",
                             "delete reading mead-live-4");
  CLI::App* undo = command(
      daybook, arguments, "undo", "take a record out of the trash", "undo reading mead-live-4");
  for (CLI::App* sub : {remove, undo}) {
    sub->add_option("KIND", arguments->kind, "bake, reading, bottle, …")->required();
    sub->add_option("ID", arguments->id, "its id")->required();
  }
  on(remove, arguments, chosen, do_delete);
  on(undo, arguments, chosen, do_undo);
}

void add_files(CLI::App* daybook, const DaybookShared& arguments, std::function<int()>& chosen) {
  CLI::App* backup =
      command(daybook, arguments, "backup", "copy the file while it is in use", "backup");
  backup
      ->add_option("FILE",
                   arguments->file,
                   "a new file; without it one among the last ones beside the daybook")
      ->type_name("FILE");
  on(backup, arguments, chosen, do_backup);

  CLI::App* restore = command(daybook,
                              arguments,
                              "restore",
                              "put a copy in the daybook's place",
                              "restore daybook.barm.backups/0012-2026-11-28.barm");
  restore->add_option("COPY", arguments->file, "a copy made by backup")
      ->type_name("FILE")
      ->required();
  on(restore, arguments, chosen, do_restore);

  CLI::App* check = command(daybook, arguments, "check", "whether the file is whole", "check");
  check->callback([arguments, &chosen] { chosen = [arguments] { return do_check(*arguments); }; });

  CLI::App* to_zip = command(daybook,
                             arguments,
                             "export",
                             "everything as a zip of TOML, CSV, JSON and pictures",
                             "export daybook.zip");
  to_zip->add_option("ZIP", arguments->file, "a new file")->type_name("FILE")->required();
  on(to_zip, arguments, chosen, do_export);

  CLI::App* from_zip = command(daybook,
                               arguments,
                               "import",
                               "a new daybook from such a zip",
                               "import daybook.zip --daybook again.barm");
  from_zip->add_option("ZIP", arguments->file, "made by export")->type_name("FILE")->required();
  on(from_zip, arguments, chosen, do_import);

  CLI::App* demo = command(daybook,
                           arguments,
                           "demo",
                           "a new daybook of an invented bakery, to look around in",
                           "demo demo.barm");
  demo->add_option("FILE", arguments->file, "a new file")->type_name("FILE")->required();
  on(demo, arguments, chosen, do_demo);
}

}  // namespace

void add_daybook(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<DaybookArguments>();
  CLI::App* daybook =
      app.add_subcommand("daybook", "what the bakery keeps: bakes, readings, cultures, bottles");
  daybook->require_subcommand(1);
  daybook->footer("Example:\n  barm daybook demo demo.barm");
  add_looking(daybook, arguments, chosen);
  add_writing(daybook, arguments, chosen);
  add_files(daybook, arguments, chosen);
}

}  // namespace barm::cli
