#pragma once
#include <functional>

namespace CLI {  // NOLINT(readability-identifier-naming): the library's own
class App;
}

namespace barm::cli {

/// `barm oven` and `barm fridge`: set `chosen` to what is to be run when one was given.
void add_oven(CLI::App& app, std::function<int()>& chosen);

}  // namespace barm::cli
