#include "cli/version.h"

#include <fmt/format.h>

namespace barm::cli {

std::string version_text() {
  const Version& is = version();
  return fmt::format("barm {}\ncommit {} of {}\ndata {}", is.number, is.commit, is.date, is.data);
}

}  // namespace barm::cli
