#pragma once
#include <functional>

namespace CLI {  // NOLINT(readability-identifier-naming): the library's own
class App;
}

namespace barm::cli {

/// `barm simmer` and `barm mix`: set `chosen` to what is to be run when one was given.
void add_heat(CLI::App& app, std::function<int()>& chosen);

}  // namespace barm::cli
