#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <memory>

#include "cli/answer.h"
#include "cli/bake/print_read.h"
#include "cli/bake/read_options.h"
#include "cli/new_files.h"
#include "cli/output.h"
#include "cli/paper.h"
#include "generated/commands.h"
#include "service/daybook/culture.h"
#include "service/daybook/kept_culture.h"
#include "service/daybook/view.h"

namespace barm::cli {

namespace {

struct CultureArguments {
  bool json = false;
  std::string file, bake, batch, name, daybook;
  bool undo = false;
  ReadArguments reading;
  unsigned long long seed = 1;
  int threads = 0;
};

using CultureShared = std::shared_ptr<CultureArguments>;

forecast::Options options_of(const CultureArguments& arguments) {
  forecast::Options options;
  options.seed = arguments.seed;
  options.threads = arguments.threads;
  return options;
}

// The culture of the file, or a new one when there is none yet.
Result<estimation::Culture> culture_of(const CultureArguments& arguments) {
  if (!std::filesystem::exists(arguments.file)) return estimation::Culture{arguments.name, {}};
  auto culture = estimation::read_culture(arguments.file);
  if (culture && !arguments.name.empty()) culture->name = arguments.name;
  return culture;
}

// The memory is read and written anew; that is what the command is for.
Result<service::CultureAnswer> kept(Result<service::CultureAnswer> answer,
                                    const std::string& path) {
  if (!answer) return answer;
  NewFiles files(true, {});
  const auto planned = files.plan(path);
  if (!planned) return failure(planned);
  const auto written = files.write(path, estimation::to_toml(answer->culture));
  if (!written) return failure(written);
  return answer;
}

Result<service::CultureAnswer> learn(const CultureArguments& arguments) {
  auto culture = culture_of(arguments);
  if (!culture) return failure(culture);
  const auto beside = read_beside(arguments.reading);
  if (!beside) return failure(beside);
  return kept(
      service::learn_culture(
          std::move(*culture), arguments.bake, *beside, arguments.batch, options_of(arguments)),
      arguments.file);
}

Result<service::CultureAnswer> leave_out(const CultureArguments& arguments) {
  const auto culture = estimation::read_culture(arguments.file);
  if (!culture) return failure(culture);
  return kept(service::leave_out(*culture, arguments.batch), arguments.file);
}

std::function<void(double)> progress_of(const CultureArguments& arguments) {
  return [quiet = arguments.json](double share) {
    if (quiet) return;
    put_beside(fmt::format("\r{:3.0f} %{}", 100 * share, share >= 1 ? "\r      \r" : ""));
  };
}

Result<service::CultureAnswer> relearn(const CultureArguments& arguments) {
  const auto culture = estimation::read_culture(arguments.file);
  if (!culture) return failure(culture);
  return kept(service::relearn(*culture, options_of(arguments), progress_of(arguments)),
              arguments.file);
}

// A culture of a daybook, after what is done to it.
Result<service::KeptCulture> in_daybook(const CultureArguments& arguments, bool anew) {
  auto daybook = storage::Daybook::open(arguments.daybook, {.or_read_only = true});
  if (!daybook) return failure(daybook);
  const service::Now now = service::machine_now();
  auto culture = service::find_culture(*daybook, arguments.file);
  if (culture && !arguments.batch.empty()) {
    const auto bake = service::find_bake(*daybook, arguments.batch);
    if (!bake) return failure(bake);
    culture = service::leave_out(*daybook, std::move(*culture), *bake, !arguments.undo, now);
  }
  if (!culture) return failure(culture);
  service::Asking asking;
  asking.anew = anew;
  asking.threads = arguments.threads;
  asking.progress = progress_of(arguments);
  auto kept = service::kept_culture(*daybook, *culture, now, asking);
  asking.progress(1);
  return kept;
}

CLI::App* command(CLI::App& app,
                  const CultureShared& arguments,
                  const char* name,
                  const char* what,
                  const char* example) {
  CLI::App* sub = app.add_subcommand(name, what);
  sub->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  sub->footer(std::string("Example:\n  ") + example);
  sub->add_option("FILE", arguments->file, "the culture's memory, or with --daybook its name there")
      ->type_name("FILE")
      ->required();
  return sub;
}

CLI::Option* add_daybook_option(CLI::App& command, CultureArguments& arguments) {
  return command
      .add_option("--daybook", arguments.daybook, "a culture of this daybook and its bakes")
      ->type_name("FILE");
}

}  // namespace

void add_culture(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<CultureArguments>();
  CLI::App* culture = app.add_subcommand("culture", "what a culture's batches have taught");
  culture->require_subcommand(1);

  CLI::App* show = command(*culture,
                           arguments,
                           "show",
                           "how it differs from a typical starter",
                           "barm culture show marsh.toml");
  add_daybook_option(*show, *arguments);
  show->callback([arguments, &chosen] {
    chosen = [arguments] {
      if (!arguments->daybook.empty())
        return answer(in_daybook(*arguments, false), arguments->json);
      return answer(service::show_culture(arguments->file), arguments->json);
    };
  });

  CLI::App* learning = command(*culture,
                               arguments,
                               "learn",
                               "learn from a batch that was read",
                               "barm culture learn marsh.toml examples/mead-loaf.toml "
                               "--readings examples/mead-loaf-readings.csv");
  learning->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  learning->add_option("--batch", arguments->batch, "what to call the batch");
  learning->add_option("--name", arguments->name, "what to call the culture");
  add_read_options(*learning, arguments->reading);
  learning->callback([arguments, &chosen] {
    chosen = [arguments] { return answer(learn(*arguments), arguments->json); };
  });

  CLI::App* leaving = command(*culture,
                              arguments,
                              "leave-out",
                              "forget a batch as if it had never been",
                              "barm culture leave-out marsh.toml 'Mead loaf, 2026-11-28'");
  leaving->add_option("BATCH", arguments->batch, "its name, as 'show' tells it")->required();
  CLI::Option* const in = add_daybook_option(*leaving, *arguments);
  leaving->add_flag("--undo", arguments->undo, "learn from it again, in a daybook")->needs(in);
  leaving->callback([arguments, &chosen] {
    chosen = [arguments] {
      if (!arguments->daybook.empty())
        return answer(in_daybook(*arguments, false), arguments->json);
      return answer(leave_out(*arguments), arguments->json);
    };
  });

  CLI::App* again = command(*culture,
                            arguments,
                            "relearn",
                            "learn every batch again from its own files",
                            "barm culture relearn marsh.toml");
  add_daybook_option(*again, *arguments);
  again->callback([arguments, &chosen] {
    chosen = [arguments] {
      if (!arguments->daybook.empty()) return answer(in_daybook(*arguments, true), arguments->json);
      return answer(relearn(*arguments), arguments->json);
    };
  });
}

}  // namespace barm::cli
