#pragma once
#include <string>

#include "base/file_place.h"

namespace barm {

/// What went wrong, by who can mend it. One table (base/error.cpp) gives the exit status and the
/// HTTP status.
enum class ErrorCode {
  bad_input,       ///< the file or field says something that cannot be; the user can mend it
  not_found,       ///< no such ingredient, file, source or record
  cannot_be_met,   ///< the question is well put but has no answer
  no_convergence,  ///< a numerical method gave up
  cancelled,       ///< the user stopped it
  conflict,        ///< someone else changed it since it was read; look again, then save
  unavailable,     ///< the machine has no room, the file may not be written, another has it
};

/// A failure that a user may meet: where it is, what is wrong, what would be right.
struct Error {
  ErrorCode code = ErrorCode::bad_input;
  std::string where;    ///< "mead.toml:14:9", a field path, or empty
  std::string message;  ///< one sentence, ends without a full stop when it is a fragment
  int line = 0;         ///< in a file, as `where` says it too; 0: of none
  int column = 0;

  /// "where  message", as one line.
  [[nodiscard]] std::string text() const;
};

/// One at a place in a file.
[[nodiscard]] Error error_at(const FilePlace& place, ErrorCode code, std::string message);

/// Exit status of the terminal program for a failure of this kind (2..7, 130).
[[nodiscard]] int exit_status(ErrorCode code);

/// HTTP status for a failure of this kind.
[[nodiscard]] int http_status(ErrorCode code);

/// The code's name as it appears in JSON.
[[nodiscard]] std::string name(ErrorCode code);

}  // namespace barm
