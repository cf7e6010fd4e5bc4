#include "cli/manual/manual.h"

#include <CLI/CLI.hpp>
#include <algorithm>

namespace barm::cli {

namespace {

constexpr std::string_view example_begins = "Example:\n  ";

// A check says itself in the type: "TEXT:{draft,planned}", "INT:INT in [20 - 20000]".
void read_type(const std::string& type, ManualOption& option) {
  const std::size_t colon = type.find(':');
  option.value = type.substr(0, colon);
  if (colon == std::string::npos) return;
  const std::string check = type.substr(colon + 1);
  if (check.starts_with('{')) {
    option.choices = CLI::detail::split(check.substr(1, check.find('}') - 1), ',');
  } else if (const std::size_t range = check.find(" in ["); range != std::string::npos) {
    const std::string limits = check.substr(range + 5, check.find(']') - range - 5);
    option.limits = CLI::detail::find_and_replace(limits, " - ", " to ");
  }
}

ManualOption manual_of(const CLI::Option& declared) {
  ManualOption option;
  for (const std::string& name : declared.get_snames()) option.names.push_back("-" + name);
  for (const std::string& name : declared.get_lnames()) option.names.push_back("--" + name);
  if (declared.get_positional()) option.names = {declared.get_name(true)};
  if (declared.get_type_size() != 0) read_type(declared.get_type_name(), option);
  option.what = declared.get_description();
  option.required = declared.get_required();
  option.repeated = declared.get_expected_max() == CLI::detail::expected_max_vector_size;
  return option;
}

ManualCommand manual_of(const CLI::App& declared, const std::string& words) {
  ManualCommand command;
  command.words = words;
  command.what = declared.get_description();
  command.example = declared.get_footer();
  if (command.example.starts_with(example_begins)) command.example.erase(0, example_begins.size());
  for (const CLI::Option* option : declared.get_options()) {
    (option->get_positional() ? command.places : command.options).push_back(manual_of(*option));
  }
  for (const CLI::App* below : declared.get_subcommands({})) {
    command.commands.push_back(
        manual_of(*below, words.empty() ? below->get_name() : words + " " + below->get_name()));
  }
  return command;
}

void collect_commands(const ManualCommand& command, std::vector<const ManualCommand*>& all) {
  all.push_back(&command);
  for (const ManualCommand& below : command.commands) collect_commands(below, all);
}

}  // namespace

ManualCommand manual_of(const CLI::App& program) { return manual_of(program, ""); }

std::vector<const ManualCommand*> every_command(const ManualCommand& program) {
  std::vector<const ManualCommand*> all;
  collect_commands(program, all);
  return all;
}

std::string last_word(const std::string& words) { return words.substr(words.rfind(' ') + 1); }

std::string guarded(const std::string& text, const std::string& special) {
  std::string out;
  for (const char letter : text) {
    if (special.find(letter) != std::string::npos) out += '\\';
    out += letter;
  }
  return out;
}

std::string shell_quoted(const std::string& text) {
  return "'" + CLI::detail::find_and_replace(text, "'", "'\\''") + "'";
}

}  // namespace barm::cli
