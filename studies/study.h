#pragma once
// What studies share: a line of docs/validation.md, and the parts of a study called by name.
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <exception>
#include <functional>
#include <iostream>
#include <string>
#include <string_view>
#include <vector>

#include "support/known_misses.h"

namespace barm {

/// One row of docs/validation.md. `agrees`: yes, no, or told for a figure without a target.
inline void print_row(const std::string& group,
                      const std::string& source,
                      const std::string& what,
                      const std::string& target,
                      double ours,
                      const std::string& unit,
                      std::string_view agrees) {
  fmt::print("{}\t{}\t{}\t{}\t{:.4g}\t{}\t{}\n", group, what, source, target, ours, unit, agrees);
  std::fflush(stdout);
}

/// The same where there is a target; gives back whether it agrees, or misses as is known.
inline bool row_of_validation(const std::string& group,
                              const std::string& source,
                              const std::string& what,
                              const std::string& target,
                              double ours,
                              const std::string& unit,
                              bool agrees) {
  print_row(group, source, what, target, ours, unit, agrees ? "yes" : "no");
  return test::as_known(what, agrees);
}

struct Part {
  std::string_view name;
  std::function<bool()> run;  ///< whether all of it agrees
};

/// The parts named on the command line, without any all of them: 0 when all agree, 1 when not, 2
/// when one could not be run or there is none of that name.
inline int run_parts(int argc, char** argv, const std::vector<Part>& parts) {
  const std::vector<std::string_view> asked(argv + 1, argv + argc);
  for (const std::string_view name : asked) {
    if (std::any_of(parts.begin(), parts.end(), [&](const Part& p) { return p.name == name; }))
      continue;
    std::cerr << "there is no part '" << name << "'\n";
    return 2;
  }
  try {
    bool good = true;
    for (const Part& part : parts) {
      if (!asked.empty() && std::count(asked.begin(), asked.end(), part.name) == 0) continue;
      good = part.run() && good;
    }
    return good ? 0 : 1;
  } catch (const std::exception& error) {
    std::cerr << error.what() << "\n";
    return 2;
  }
}

}  // namespace barm
