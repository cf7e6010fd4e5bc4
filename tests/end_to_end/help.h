#pragma once
// What the help of a command names.
#include <functional>
#include <sstream>
#include <string>
#include <vector>

#include "end_to_end/said.h"

namespace barm::test {

struct Helped {
  std::vector<std::string> options;  ///< short and long names
  std::vector<std::string> places;   ///< what is said without an option's name: BAKE
  std::vector<std::string> commands;
};

/// The help of a command; of barm itself for "". A heading stands at the edge, what it names is
/// indented by two.
inline Helped help_of(const std::string& command) {
  Helped helped;
  std::istringstream help(barm(command + " --help").out);
  std::string heading;
  for (std::string line; std::getline(help, line);) {
    if (!line.starts_with(' ')) heading = line;
    if (!line.starts_with("  ") || line.starts_with("   ")) continue;
    const std::string word = line.substr(2, line.find(' ', 2) - 2);
    if (heading == "Subcommands:") helped.commands.push_back(word);
    if (heading == "Positionals:") helped.places.push_back(word);
    if (heading != "Options:") continue;
    std::istringstream names(word);
    for (std::string name; std::getline(names, name, ',');) helped.options.push_back(name);
  }
  return helped;
}

/// Calls with the words of every command and its help.
inline void with_every_command(const std::function<void(const std::string&, const Helped&)>& look,
                               const std::string& words = "") {
  const Helped helped = help_of(words);
  look(words, helped);
  for (const std::string& below : helped.commands)
    with_every_command(look, words.empty() ? below : words + " " + below);
}

}  // namespace barm::test
