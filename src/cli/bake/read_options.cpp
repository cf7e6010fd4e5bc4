#include "cli/bake/read_options.h"

#include <CLI/CLI.hpp>

namespace barm::cli {

void add_read_options(CLI::App& app, ReadArguments& arguments) {
  app.add_option("--readings", arguments.file, "a CSV of what was read (docs/readings.md)")
      ->type_name("FILE");
  app.add_option(
      "--reading", arguments.typed, "one reading, such as '14:30 52 mm'; as often as there are");
  app.add_option("--start-mark", arguments.start_mark, "height at mixing, such as '40 mm'");
  app.add_option("--zone", arguments.zone, "where clocks change, such as Europe/Berlin");
  app.add_flag("--keep-good-rows", arguments.keep_good_rows, "leave bad rows out, name them");
  app.add_option("--culture",
                 arguments.culture,
                 "start from what a culture has taught, not from a typical starter")
      ->type_name("FILE");
}

Result<service::ReadBeside> read_beside(const ReadArguments& arguments) {
  service::ReadBeside beside;
  beside.file = arguments.file;
  beside.typed = arguments.typed;
  beside.zone = arguments.zone;
  beside.keep_good_rows = arguments.keep_good_rows;
  beside.culture = arguments.culture;
  if (!arguments.start_mark.empty()) {
    const auto height = estimation::parse_reading("0h " + arguments.start_mark, {});
    if (!height || !height->height)
      return failure(ErrorCode::bad_input, "--start-mark", "a height such as '40 mm'");
    beside.start_mark = *height->height;
  }
  return beside;
}

}  // namespace barm::cli
