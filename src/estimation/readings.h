#pragma once
// What a baker reads off a dough: the height of the sample in its jar, temperatures, pH.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "time/wall_clock.h"
#include "units/fraction.h"
#include "units/temperature.h"
#include "units/units.h"

namespace barm::estimation {

/// Until then a height read is that of the start mark. [h]
inline constexpr double at_the_start = 0.34;

/// One look at the dough. A logger's thousands of rows are summed up into a few of these.
struct Reading {
  Time at;                            ///< since mixing
  std::optional<Length> height;       ///< of the sample: the mean of edge and dome if both stand
  std::optional<double> ratio;        ///< height over the height at the start mark
  double ratio_doubt = 0;             ///< of that ratio, as a share of it, beside the ruler's
  std::optional<Temperature> sample;  ///< in the jar
  std::optional<Temperature> bulk;    ///< in the bulk
  std::optional<Temperature> room;
  std::optional<double> ph;
  double ph_doubt = 0.1;  ///< of that pH: of a meter; of a strip 0.3
  std::string remark;
  int heights = 1;  ///< how many rows the height is the middle of
  int line = 0;     ///< in the file; 0 for one typed
};

/// All readings of one jar, ascending in time.
struct Readings {
  std::vector<Reading> rows;
  std::optional<Length>
      start_mark;                ///< height at mixing, where a row at the start or the user says so
  std::size_t rows_in_file = 0;  ///< before they were summed up
  std::vector<Error> left_out;   ///< bad rows, when the good ones were kept
  std::vector<std::string> notes;  ///< what was done with the file, in words
  std::vector<Reading> logged;     ///< all rows as they were, when they were summed up

  /// Hours from mixing to the last row; 0 without rows.
  [[nodiscard]] double last_hour() const;

  /// Number of heights and ratios.
  [[nodiscard]] std::size_t heights() const;
};

struct ReadingOptions {
  time::WallClock clock = {};   ///< from mixing on; without a time only hours can be read
  bool keep_good_rows = false;  ///< leave bad rows out instead of refusing the file
  std::optional<Length> start_mark = std::nullopt;  ///< known without a row at the start
};

/// Reads a file of readings: RFC 4180 with a first line of names, separated by comma, semicolon or
/// tab. Names with their units (docs/readings.md); times as local time or hours since mixing.
/// Errors: bad_input with file, line and column.
[[nodiscard]] Result<Readings> parse_readings(std::string_view text,
                                              const std::string& file,
                                              const ReadingOptions& options);

/// The same from the file itself. Errors also: not_found.
[[nodiscard]] Result<Readings> read_readings(const std::string& path,
                                             const ReadingOptions& options);

/// Readings whose numbers are known already, put together: in order of time, with the start mark,
/// summed up where they are many. A number that no dough can have is left out, and said in
/// `left_out`; what else the reading says stays.
[[nodiscard]] Readings readings_from(std::vector<Reading> rows, const ReadingOptions& options);

/// One reading as typed: "14:30 52 mm", "6.5h 1.4x", "3h pH 4.9", "09:15 48 mm 23.5 C",
/// "5h bulk 24 C room 21 C".
[[nodiscard]] Result<Reading> parse_reading(std::string_view text, const ReadingOptions& options);

/// Puts typed readings among the others, in order of time; sets the start mark when one is at the
/// start.
[[nodiscard]] Result<Readings> with_typed(Readings readings,
                                          const std::vector<std::string>& typed,
                                          const ReadingOptions& options);

}  // namespace barm::estimation
