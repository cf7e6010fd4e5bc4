#pragma once
#include <functional>

namespace CLI {  // NOLINT(readability-identifier-naming): theirs
class App;
}

namespace barm::cli {

/// `barm manual`: sets `chosen` to what is to be run when it was given. Tells of all commands of
/// the app, also of those that are added later.
void add_manual(CLI::App& app, std::function<int()>& chosen);

}  // namespace barm::cli
