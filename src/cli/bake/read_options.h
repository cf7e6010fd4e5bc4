#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "service/bake/batch.h"

namespace CLI {  // NOLINT(readability-identifier-naming): the library's own
class App;
}

namespace barm::cli {

/// The options of `barm foresee` by which a dough is read.
struct ReadArguments {
  std::string file, zone, start_mark, culture;
  std::vector<std::string> typed;
  bool keep_good_rows = false;

  [[nodiscard]] bool given() const { return !file.empty() || !typed.empty() || !culture.empty(); }
};

void add_read_options(CLI::App& command, ReadArguments& arguments);

/// Errors: bad_input for a start mark that is no height.
[[nodiscard]] Result<service::ReadBeside> read_beside(const ReadArguments& arguments);

}  // namespace barm::cli
