#pragma once
#include <string>

#include "base/result.h"
#include "units/units.h"

namespace barm::cli {

/// The weight an option says. Errors: bad_input at the option, with the example as what would be
/// right.
[[nodiscard]] Result<Mass> mass_of(const char* option,
                                   const std::string& text,
                                   const char* example);

}  // namespace barm::cli
