#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/manual/manual.h"

namespace barm::cli {

namespace {

constexpr std::string_view how_zsh_completes = R"(
_barm() {
  local at= next word
  integer i last=1
  for (( i = 2; i < CURRENT; i++ )); do
    next=${at:+$at }${words[i]}
    if (( ${_barm_commands[(Ie)$next]} )); then
      at=$next
      last=i
    fi
  done
  words=(barm "${(@)words[last+1,-1]}")
  (( CURRENT -= last - 1 ))
  _barm_told "$at"
}

if [[ $funcstack[1] == _barm ]]; then
  _barm "$@"
else
  compdef _barm barm
fi
)";

std::string zsh_action(const ManualOption& option) {
  if (!option.choices.empty()) return fmt::format("({})", fmt::join(option.choices, " "));
  if (option.value == "FILE") return "_files";
  if (option.value == "FOLDER") return "_files -/";
  if (option.value == "NAME") return "_barm_names";
  return " ";
}

// --name[what]:VALUE:action
std::string zsh_spec(const std::string& name, const ManualOption& option) {
  std::string out = (option.repeated ? "*" : "") + name + "[" + guarded(option.what, "[]\\:") + "]";
  if (!option.value.empty()) out += ":" + option.value + ":" + zsh_action(option);
  return shell_quoted(out);
}

std::string told_to_zsh(const ManualCommand& command) {
  std::string out = fmt::format("    {})\n", shell_quoted(command.words));
  std::string specs;
  for (const ManualOption& option : command.options) {
    for (const std::string& name : option.names) specs += " \\\n        " + zsh_spec(name, option);
  }
  int place_number = 0;
  for (const ManualOption& place : command.places) {
    specs += " \\\n        " + shell_quoted(fmt::format("{}{}:{}:{}",
                                                        ++place_number,
                                                        place.required ? "" : ":",
                                                        place.names.front(),
                                                        zsh_action(place)));
  }
  if (!command.commands.empty()) {
    out += "      local -a below=(\n";
    for (const ManualCommand& below : command.commands) {
      const std::string name = last_word(below.words);
      out += "        " + shell_quoted(name + ":" + guarded(below.what, ":\\")) + "\n";
    }
    out += "      )\n";
    specs += " \\\n        '1:command:{ _describe command below }'";
  }
  return out + "      _arguments" + specs + "\n      ;;\n";
}

}  // namespace

std::string zsh_completion(const ManualCommand& program, const std::vector<std::string>& names) {
  std::string out = "#compdef barm\n# Completions of barm for zsh, written by barm manual zsh.\n\n";
  out += "typeset -ga _barm_commands=(\n";
  for (const ManualCommand* command : every_command(program)) {
    if (command != &program) out += "  " + shell_quoted(command->words) + "\n";
  }
  out += ")\n\n_barm_names() {\n  local -a names=(\n";
  for (const std::string& name : names) out += "    " + shell_quoted(name) + "\n";
  out += "  )\n  compadd -a names\n}\n\n_barm_told() {\n  case $1 in\n";
  for (const ManualCommand* command : every_command(program)) out += told_to_zsh(*command);
  out += "  esac\n}\n";
  return out.append(how_zsh_completes);
}

}  // namespace barm::cli
