#include "formula/document.h"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>

#include "base/file_text.h"
#include "base/visible.h"

namespace barm::formula {

namespace {

constexpr std::size_t most_bytes = 1'000'000;
constexpr int deepest = 8;              // a bake needs three
constexpr std::size_t most_dots = 200;  // in one line

// --- bytes ---

/// The place of a byte, counting characters as editors do.
FilePlace place_of(std::string_view text, std::size_t byte, const std::string& file) {
  FilePlace place{file, 1, 1};
  for (std::size_t i = 0; i < byte; ++i) {
    if (text[i] == '\n') {
      ++place.line;
      place.column = 1;
    } else if ((static_cast<unsigned char>(text[i]) & 0xC0) != 0x80) {
      ++place.column;
    }
  }
  return place;
}

/// Dots outside quotes part nested keys, "a.b.c". The TOML library follows them without a limit.
bool nests_by_dots(std::string_view line) {
  std::size_t dots = 0;
  char quote = 0;
  for (const char c : line) {
    if (quote == 0 && c == '.') ++dots;
    if (quote == 0 && (c == '"' || c == '\'')) {
      quote = c;
    } else if (c == quote) {
      quote = 0;
    }
  }
  return dots > most_dots;
}

Result<bool> check_dots(std::string_view text, const std::string& file) {
  for (int line = 1; !text.empty(); ++line) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    if (nests_by_dots(text.substr(0, end))) {
      return failure(ErrorCode::bad_input,
                     FilePlace{file, line, 1},
                     "has too many dots outside quotes: keys are not nested so deeply");
    }
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return true;
}

Result<bool> check_bytes(std::string_view text, const std::string& file) {
  if (text.size() > most_bytes) {
    return failure(ErrorCode::bad_input, file, "is over 1 MB: that is no such file");
  }
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = character_length(text.substr(i));
    if (length == 0 || text[i] == '\0') {
      const char* what = length == 0 ? "is not UTF-8 here: save the file as UTF-8"
                                     : "has a NUL byte here: that is not a text file";
      return failure(ErrorCode::bad_input, place_of(text, i, file), what);
    }
    i += length;
  }
  return check_dots(text, file);
}

// --- the tree ---

struct Unreadable {
  FilePlace place;
  std::string message;
};

class Reader {
 public:
  explicit Reader(const std::string& file) : file_(file) {}

  Node read(const toml::node& node, int depth) const {
    Node out;
    out.place = place(node.source());
    if (depth > deepest) throw Unreadable{out.place, "is nested too deeply"};
    if (const auto* table = node.as_table()) {
      out.kind = Node::Kind::table;
      out.entries = entries(*table, depth);
    } else if (const auto* list = node.as_array()) {
      out.kind = Node::Kind::list;
      for (const toml::node& item : *list) out.items.push_back(read(item, depth + 1));
    } else {
      read_value(node, out);
    }
    return out;
  }

 private:
  FilePlace place(const toml::source_region& region) const {
    return {file_, static_cast<int>(region.begin.line), static_cast<int>(region.begin.column)};
  }

  /// toml++ sorts by key; a baker's order is that of the file.
  std::vector<Entry> entries(const toml::table& table, int depth) const {
    std::vector<Entry> out;
    for (const auto& [key, value] : table) {
      out.push_back({std::string(key.str()), place(key.source()), read(value, depth + 1)});
    }
    std::stable_sort(out.begin(), out.end(), [](const Entry& a, const Entry& b) {
      return std::pair(a.place.line, a.place.column) < std::pair(b.place.line, b.place.column);
    });
    return out;
  }

  void read_value(const toml::node& node, Node& out) const {
    if (const auto* text = node.as_string()) {
      out.text = text->get();
    } else if (const auto* whole = node.as_integer()) {
      out.kind = Node::Kind::whole;
      out.number = static_cast<double>(whole->get());
    } else if (const auto* real = node.as_floating_point()) {
      out.kind = Node::Kind::real;
      out.number = real->get();
    } else if (const auto* truth = node.as_boolean()) {
      out.kind = Node::Kind::truth;
      out.number = truth->get() ? 1 : 0;
    } else {
      out.kind = node.is_date() ? Node::Kind::date : Node::Kind::date_time;
      out.text = moment(node, out.place);
    }
  }

  static std::string written(const toml::time& time) {
    return fmt::format("{:02}:{:02}", static_cast<int>(time.hour), static_cast<int>(time.minute));
  }

  static std::string written(const toml::date& date) {
    return fmt::format("{:04}-{:02}-{:02}",
                       static_cast<int>(date.year),
                       static_cast<int>(date.month),
                       static_cast<int>(date.day));
  }

  static std::string moment(const toml::node& node, const FilePlace& at) {
    if (const auto* time = node.as_time()) return written(time->get());
    if (const auto* date = node.as_date()) return written(date->get());
    const auto* both = node.as_date_time();
    if (both->get().offset) throw Unreadable{at, "names a time zone: write local time without one"};
    return written(both->get().date) + "T" + written(both->get().time);
  }

  const std::string& file_;
};

}  // namespace

const Node* find(const Node& table, std::string_view key) {
  for (const Entry& entry : table.entries) {
    if (entry.key == key) return &entry.value;
  }
  return nullptr;
}

Result<std::string> read_text(const std::string& path) { return file_text(path, most_bytes); }

Result<Node> parse_document(std::string_view text, const std::string& file) {
  const auto checked = check_bytes(text, file);
  if (!checked) return failure(checked);
  try {
    const toml::table table = toml::parse(text, file);
    return Reader(file).read(table, 0);
  } catch (const toml::parse_error& error) {
    const auto& begin = error.source().begin;
    const FilePlace place{file, static_cast<int>(begin.line), static_cast<int>(begin.column)};
    return failure(ErrorCode::bad_input, place, "is not TOML: " + std::string(error.description()));
  } catch (const Unreadable& refused) {
    return failure(ErrorCode::bad_input, refused.place, refused.message);
  }
}

}  // namespace barm::formula
