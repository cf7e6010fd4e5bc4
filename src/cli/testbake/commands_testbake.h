#pragma once
#include <functional>

namespace CLI {  // NOLINT(readability-identifier-naming): the library's own
class App;
}

namespace barm::cli {

/// `barm testbake …`: sets `chosen` to what is to be run when one of its commands was given.
void add_testbake(CLI::App& app, std::function<int()>& chosen);

}  // namespace barm::cli
