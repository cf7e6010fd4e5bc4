#pragma once
#include <memory>
#include <string>

namespace CLI {  // NOLINT(readability-identifier-naming): the library's own
class App;
}

namespace barm::cli {

/// A command with its one example, and --json for the answer as JSON.
CLI::App* add_command(
    CLI::App& app, const char* name, const char* what, const char* example, bool& json);

}  // namespace barm::cli
