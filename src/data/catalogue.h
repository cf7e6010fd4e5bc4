#pragma once
#include <span>
#include <string_view>
#include <vector>

#include "data/source.h"

namespace barm::data {

/// Every value compiled in from data/*.toml, in the order of the files.
[[nodiscard]] std::span<const Entry> catalogue();

/// Every source, in the order of data/sources.toml.
[[nodiscard]] std::span<const Source* const> sources();

/// The entries whose name, file or source holds every word of `text` (letters of either case).
[[nodiscard]] std::vector<Entry> search(std::string_view text);

}  // namespace barm::data
