#pragma once
#include <string_view>

#include "base/result.h"

namespace barm::formula {

/// What a levain is fed: ripe starter, flour and water, in parts by weight.
struct Feed {
  double ripe = 1, flour = 2, water = 1;
};

/// "1:2:1". Errors: bad_input (not three parts, each above 0 and at most 1000).
[[nodiscard]] Result<Feed> parse_feed(std::string_view text);

}  // namespace barm::formula
