#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/manual/manual.h"

namespace barm::cli {

namespace {

constexpr std::string_view how_fish_completes = R"(
# Whether the line is at this command so far.
function __barm_at
    set -l at ''
    for word in (commandline -opc)[2..-1]
        set -l next (string trim -- "$at $word")
        if contains -- $next $__barm_commands
            set at $next
        end
    end
    test "$at" = "$argv[1]"
end

complete -c barm -f
)";

// Between single quotes fish, unlike the other two, has its backslash before a quote.
std::string fish_quoted(const std::string& text) { return "'" + guarded(text, "'\\") + "'"; }

std::string fish_taken(const ManualOption& option) {
  if (option.value.empty()) return "";
  if (!option.choices.empty())
    return " -x -a " + fish_quoted(fmt::format("{}", fmt::join(option.choices, " ")));
  if (option.value == "FILE") return " -r -F";
  if (option.value == "FOLDER") return " -x -a '(__fish_complete_directories)'";
  if (option.value == "NAME") return " -x -a '$__barm_names'";
  return " -x";
}

std::string fish_names(const ManualOption& option) {
  std::string out;
  for (const std::string& name : option.names)
    out += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
  return out;
}

std::string told_to_fish(const ManualCommand& command) {
  const std::string here =
      "complete -c barm -n " + fish_quoted("__barm_at " + fish_quoted(command.words));
  std::string out;
  for (const ManualOption& option : command.options)
    out +=
        here + fish_names(option) + fish_taken(option) + " -d " + fish_quoted(option.what) + "\n";
  for (const ManualCommand& below : command.commands) {
    const std::string name = last_word(below.words);
    out += here + " -a " + name + " -d " + fish_quoted(below.what) + "\n";
  }
  if (command.places.empty()) return out;
  const ManualOption& place = command.places.front();
  if (place.value == "FILE") out += here + " -F\n";
  if (place.value == "NAME") out += here + " -a '$__barm_names'\n";
  if (!place.choices.empty())
    out += here + " -a " + fish_quoted(fmt::format("{}", fmt::join(place.choices, " "))) + "\n";
  return out;
}

}  // namespace

std::string fish_completion(const ManualCommand& program, const std::vector<std::string>& names) {
  std::string out = "# Completions of barm for fish, written by barm manual fish.\n\n";
  out += "set -g __barm_commands";
  for (const ManualCommand* command : every_command(program)) {
    if (command != &program) out += " " + fish_quoted(command->words);
  }
  out += "\nset -g __barm_names";
  for (const std::string& name : names) out += " " + fish_quoted(name);
  out.append("\n").append(how_fish_completes).append("\n");
  for (const ManualCommand* command : every_command(program)) out += told_to_fish(*command);
  return out;
}

}  // namespace barm::cli
