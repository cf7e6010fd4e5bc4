#pragma once
// One number that was read off a dough, from its text: of a cell of a file, or typed.
#include <optional>
#include <string>
#include <string_view>

#include "estimation/readings.h"
#include "units/readable.h"

namespace barm::estimation::internal {

enum class Kind {
  time,  // a local time, or hours when it is a number
  hours,
  minutes,
  height,
  dome,
  ratio,
  growth,  // percent above the start
  sample,
  bulk,
  room,
  ph,
  ph_strip,
  remark,
  unused,
};

struct Column {
  Kind kind = Kind::unused;
  std::string title;
  std::string unit;
};

inline constexpr const char* a_height = "height of a sample in mm";
inline constexpr const char* a_ratio = "ratio of heights";
inline constexpr const char* a_warmth = "temperature of a dough or its room in C";
inline constexpr const char* a_ph = "pH of a dough";

/// In small letters, "_" as a blank.
[[nodiscard]] std::string folded(std::string_view text);

/// A number with point or comma, nothing behind it.
[[nodiscard]] std::optional<double> number(std::string text);

/// Why a value cannot be; nothing when it can.
[[nodiscard]] std::optional<std::string> outside(double value, Readable range, const char* what);

/// Sets one number of a row; the words of what is wrong with it, or nothing. A dome is not set yet.
[[nodiscard]] std::optional<std::string> set_number(Reading& row,
                                                    const Column& column,
                                                    const std::string& text,
                                                    std::optional<double>& dome);

/// Why no reading can be of that time, `after` the one before it; nothing when it can.
[[nodiscard]] std::optional<std::string> wrong_time(Time at, Time after);

/// "6.50 h".
[[nodiscard]] std::string in_hours(Time at);

/// The first height at the start sets the mark, unless it is known.
void find_mark(Readings& readings, const ReadingOptions& options);

}  // namespace barm::estimation::internal
