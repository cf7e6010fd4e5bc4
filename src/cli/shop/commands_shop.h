#pragma once
#include <functional>

namespace CLI {  // NOLINT(readability-identifier-naming): the library's own
class App;
}

namespace barm::cli {

/// `barm till` and `barm label`: sets `chosen` to what is to be run when one of them was given.
void add_shop(CLI::App& app, std::function<int()>& chosen);

}  // namespace barm::cli
