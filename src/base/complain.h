#pragma once
#include <cstdio>
#include <string_view>

#include "base/visible.h"

namespace barm {

/// A line for whoever stands at the terminal, on stderr. Nothing becomes of it when there is no
/// stderr: a complaint that cannot be said must not end the program.
inline void complain(std::string_view text) {
  const std::string line = visible(text) + "\n";
  (void)std::fwrite(line.data(), 1, line.size(), stderr);
}

}  // namespace barm
