#pragma once
#include <functional>

namespace CLI {  // NOLINT(readability-identifier-naming): the library's own
class App;
}

namespace barm::cli {

/// `barm when`: sets `chosen` to what is to be run when it was given.
void add_when(CLI::App& app, std::function<int()>& chosen);

}  // namespace barm::cli
