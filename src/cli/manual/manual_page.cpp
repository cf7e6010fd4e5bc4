#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/error.h"
#include "cli/exit.h"
#include "cli/manual/manual.h"
#include "cli/version.h"

namespace barm::cli {

namespace {

// As running text of man(7). Hyphens stay what they are on a keyboard, so that they can be copied.
std::string plain(const std::string& text) {
  std::string out;
  for (const char letter : text) {
    switch (letter) {
      case '\\':
        out += "\\(rs";
        break;
      case '-':
        out += "\\-";
        break;
      case '\'':
        out += "\\(aq";
        break;
      case '"':
        out += "\\(dq";
        break;
      default:
        out += letter;
    }
  }
  return out.starts_with('.') ? "\\&" + out : out;
}

std::string bold(const std::string& text) { return "\\fB" + plain(text) + "\\fR"; }

std::string italic(const std::string& text) { return "\\fI" + plain(text) + "\\fR"; }

std::string value_of(const ManualOption& option) {
  if (!option.choices.empty()) return fmt::format("{}", fmt::join(option.choices, "|"));
  const bool number = option.value == "INT" || option.value == "UINT" || option.value == "FLOAT";
  return number ? "NUMBER" : option.value;
}

// "--at TEXT", or "BAKE" for what stands in its place.
std::string head_of(const ManualOption& option, bool in_place) {
  if (in_place) return italic(option.names.front()) + (option.required ? "" : " (may be left out)");
  std::string out;
  for (const std::string& name : option.names) out += (out.empty() ? "" : ", ") + bold(name);
  if (!option.value.empty()) out += " " + italic(value_of(option));
  return out;
}

std::string remarks_on(const ManualOption& option, bool in_place) {
  std::string out;
  if (!option.limits.empty()) out += "; " + option.limits;
  if (in_place && !option.choices.empty())
    out += fmt::format("; {}", fmt::join(option.choices, ", "));
  if (!in_place && option.required) out += "; must be given";
  return out;
}

std::string entry(const ManualOption& option, bool in_place) {
  return fmt::format(".TP\n{}\n{}\n",
                     head_of(option, in_place),
                     plain(option.what + remarks_on(option, in_place)));
}

std::string entry(const std::string& head, const std::string& what) {
  return fmt::format(".TP\n{}\n{}\n", head, what);
}

bool of_every_command(const ManualOption& option) {
  return option.names.back().starts_with("--help");
}

std::string usage(const ManualCommand& command) {
  std::string out = "barm";
  if (!command.words.empty()) out += " " + command.words;
  for (const ManualOption& option : command.options) {
    if (option.required) out += fmt::format(" {} {}", option.names.back(), value_of(option));
  }
  for (const ManualOption& place : command.places) {
    const std::string& name = place.names.front();
    out += place.required ? " " + name : " [" + name + "]";
  }
  return out + (command.commands.empty() ? " [OPTION]..." : " COMMAND");
}

std::string section(const ManualCommand& command) {
  std::string out = fmt::format(".SS {}\n{}\n", plain(usage(command)), plain(command.what));
  for (const ManualOption& place : command.places) out += entry(place, true);
  for (const ManualOption& option : command.options) {
    if (!of_every_command(option)) out += entry(option, false);
  }
  if (command.commands.empty() && !command.example.empty())
    out += fmt::format(".PP\nExample:\n.PP\n.in +4n\n.EX\n{}\n.EE\n.in\n", plain(command.example));
  return out;
}

std::string exit_statuses() {
  const auto row = [](int status, const char* what) {
    return entry(bold(std::to_string(status)), what);
  };
  const auto failed = [&](ErrorCode code, const char* what) {
    return row(exit_status(code), what);
  };
  return row(0, "answered") +
         failed(ErrorCode::bad_input, "a file or an option says something that cannot be") +
         failed(ErrorCode::not_found, "no such ingredient, file, source or record") +
         failed(ErrorCode::cannot_be_met, "the question is well put but has no answer") +
         failed(ErrorCode::no_convergence, "a numerical method gave up") +
         failed(ErrorCode::conflict, "someone else changed it since it was read") +
         failed(ErrorCode::unavailable, "no room, no right to write, or another program has it") +
         row(wrong_usage, "the command line could not be understood") +
         row(our_fault, "a fault of barm's own") +
         failed(ErrorCode::cancelled, "stopped by the user");
}

std::string files() {
  return entry(italic("daybook.barm"),
               "What a bakery keeps, one file in the folder where barm is called, unless\n.B "
               "\\-\\-daybook\nor\n.B BARM_DAYBOOK\nnames another.") +
         entry(italic("daybook.barm.backups/"),
               "Its copies, by\n.B barm open\non each day of writing and by\n.BR \"barm daybook "
               "backup\" .") +
         entry(italic("daybook.barm.lan/"),
               "The key and the certificate for other devices, by\n.BR \"barm open \\-\\-lan\" .") +
         entry(italic("/usr/share/doc/barmwright/examples/"),
               "Bakes, readings and prices of an invented bakery, to begin from.") +
         entry(italic("/usr/lib/systemd/user/barmwright.service"),
               "Keeps the page open for the house:\n.BR \"systemctl \\-\\-user enable \\-\\-now "
               "barmwright\" .");
}

std::string environment() {
  return entry(bold("BARM_DAYBOOK"), "The usual daybook.") +
         entry(bold("NO_COLOR"), "When set, nothing is coloured.") +
         entry(bold("TZ"), "The zone of the clock on the wall, when it is not the machine\\(aqs.");
}

}  // namespace

std::string man_page(const ManualCommand& program) {
  std::string out =
      fmt::format(".TH BARM 1 {} \"barmwright {}\"\n", version().date, version().number);
  out += ".SH NAME\nbarm \\- what is really in the bowl, and when the dough is ready\n";
  out += ".SH SYNOPSIS\n.B barm\n.I COMMAND\n.RI [ OPTION ]...\n.RI [ WORD ]...\n";
  out +=
      ".SH DESCRIPTION\nFor breads whose water is replaced by mead, perry, stout, wine or cold "
      "coffee.\nFrom a bake file\n.B barm\nsays what is really in the bowl, whether and when the "
      "dough will be ready and\nhow sure that is, the hours that alcohol, salt, acid and sulphite "
      "cost, and how\nfar the drink can go.\nIt keeps a daybook and opens a page for it in the "
      "browser.\n";
  out += ".SH OPTIONS\n";
  for (const ManualOption& option : program.options) out += entry(option, false);
  out += ".SH COMMANDS\n";
  for (const ManualCommand* command : every_command(program)) {
    if (command != &program) out += section(*command);
  }
  out += ".SH FILES\n" + files();
  out += ".SH ENVIRONMENT\n" + environment();
  out += ".SH EXIT STATUS\n" + exit_statuses();
  out +=
      ".SH SEE ALSO\nThe texts in\n.I /usr/share/doc/barmwright/docs/\non the bake file, readings, "
      "prices, test bakes, the daybook and what can hurt.\n";
  return out;
}

}  // namespace barm::cli
