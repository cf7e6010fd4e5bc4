#pragma once
#include <functional>

namespace CLI {
class App;
}

namespace barm::cli {

/// `barm swap`: sets `chosen` to what is to be run when it was given.
void add_swap(CLI::App& app, std::function<int()>& chosen);

}  // namespace barm::cli
