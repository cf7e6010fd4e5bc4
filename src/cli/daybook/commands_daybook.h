#pragma once
#include <functional>

namespace CLI {  // NOLINT(readability-identifier-naming): theirs
class App;
}

namespace barm::cli {

/// `barm daybook …`: sets `chosen` to what is to be run when one of its commands was given.
void add_daybook(CLI::App& app, std::function<int()>& chosen);

}  // namespace barm::cli
