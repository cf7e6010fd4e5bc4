#pragma once
// What the program can be told, as its own help declares it, in the forms other programs read: a
// page for man, completions for three shells.
#include <string>
#include <vector>

namespace CLI {  // NOLINT(readability-identifier-naming): theirs
class App;
}

namespace barm::cli {

/// An option, a flag, or a word that stands in its place.
struct ManualOption {
  std::vector<std::string> names;    ///< "-h", "--help"; of a word in its place "BAKE"
  std::string value;                 ///< what it takes: "FILE", "NAME", "TEXT"; of a flag empty
  std::string limits;                ///< "20 to 20000"; mostly empty
  std::vector<std::string> choices;  ///< all that it takes, where that is a list
  std::string what;
  bool required = false;
  bool repeated = false;  ///< may be given more than once
};

/// A command and those below it. That of the program itself has no words.
struct ManualCommand {
  std::string words;  ///< "foresee", "daybook add"
  std::string what;
  std::string example;
  std::vector<ManualOption> options;
  std::vector<ManualOption> places;
  std::vector<ManualCommand> commands;
};

[[nodiscard]] ManualCommand manual_of(const CLI::App& program);

/// The command and all below it, each before those below it.
[[nodiscard]] std::vector<const ManualCommand*> every_command(const ManualCommand& program);

/// A page in groff's man(7).
[[nodiscard]] std::string man_page(const ManualCommand& program);

/// What the shell needs to complete a line that begins with barm. Where a NAME is wanted, `names`
/// are offered.
[[nodiscard]] std::string bash_completion(const ManualCommand& program,
                                          const std::vector<std::string>& names);
[[nodiscard]] std::string zsh_completion(const ManualCommand& program,
                                         const std::vector<std::string>& names);
[[nodiscard]] std::string fish_completion(const ManualCommand& program,
                                          const std::vector<std::string>& names);

/// "add" of "daybook add".
[[nodiscard]] std::string last_word(const std::string& words);

/// The text with a backslash before each letter that is among `special`.
[[nodiscard]] std::string guarded(const std::string& text, const std::string& special);

/// The text between single quotes, as all three shells read it.
[[nodiscard]] std::string shell_quoted(const std::string& text);

}  // namespace barm::cli
