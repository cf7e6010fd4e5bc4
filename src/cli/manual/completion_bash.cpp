#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/manual/manual.h"

namespace barm::cli {

namespace {

// The same for every program; what barm can be told stands in _barm_told before it.
constexpr std::string_view how_bash_completes = R"(
_barm_offer() {
  local bare=${current#[\"\']} line
  bare=${bare//\\/}
  while IFS= read -r line; do
    [[ ${line,,} == "${bare,,}"* ]] && COMPREPLY+=("$line")
  done
  compopt -o filenames
}

_barm_offer_kind() {
  case $1 in
    FILE) mapfile -t COMPREPLY < <(compgen -f -- "$current") && compopt -o filenames ;;
    FOLDER) mapfile -t COMPREPLY < <(compgen -d -- "$current") && compopt -o filenames ;;
    NAME) _barm_offer <<< "$_barm_names" ;;
    *' '*) mapfile -t COMPREPLY < <(compgen -W "$1" -- "$current") ;;
  esac
}

_barm() {
  COMPREPLY=()
  local current=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} at= word
  if [[ $current == = ]]; then
    current=
  elif [[ $before == = ]]; then
    before=${COMP_WORDS[COMP_CWORD-2]}
  fi
  local commands options place
  local -A values
  _barm_told ''
  for word in "${COMP_WORDS[@]:1:COMP_CWORD-1}"; do
    if [[ " $commands " == *" $word "* ]]; then
      at=${at:+$at }$word
      _barm_told "$at"
    fi
  done
  if [[ -n ${values[$before]-} ]]; then
    _barm_offer_kind "${values[$before]}"
  elif [[ $current == -* ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$options" -- "$current")
  elif [[ -n $commands ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$commands" -- "$current")
  else
    _barm_offer_kind "$place"
  fi
}

complete -F _barm barm
)";

// "FILE", "NAME", "draft planned live": what _barm_offer_kind understands.
std::string kind_for_bash(const ManualOption& option) {
  return option.choices.empty() ? option.value : fmt::format("{}", fmt::join(option.choices, " "));
}

std::string told_to_bash(const ManualCommand& command) {
  std::string options;
  std::string values;
  for (const ManualOption& option : command.options) {
    for (const std::string& name : option.names) {
      options += (options.empty() ? "" : " ") + name;
      if (!option.value.empty())
        values += fmt::format(" [{}]={}", name, shell_quoted(kind_for_bash(option)));
    }
  }
  std::string commands;
  for (const ManualCommand& below : command.commands)
    commands += (commands.empty() ? "" : " ") + last_word(below.words);
  const std::string place = command.places.empty() ? "" : kind_for_bash(command.places.front());
  return fmt::format(
      "    {})\n      commands={} place={}\n      options={}\n      values=({} )\n      ;;\n",
      shell_quoted(command.words),
      shell_quoted(commands),
      shell_quoted(place),
      shell_quoted(options),
      values);
}

}  // namespace

std::string bash_completion(const ManualCommand& program, const std::vector<std::string>& names) {
  std::string out = "# Completions of barm for bash, written by barm manual bash.\n\n";
  out += "_barm_told() {\n  case $1 in\n";
  for (const ManualCommand* command : every_command(program)) out += told_to_bash(*command);
  out += "  esac\n}\n\n";
  out += fmt::format("_barm_names={}\n", shell_quoted(fmt::format("{}", fmt::join(names, "\n"))));
  return out.append(how_bash_completes);
}

}  // namespace barm::cli
