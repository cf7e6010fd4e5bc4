#pragma once
// What the build-time tools share: reading data/, writing C++ literals, stopping with file, line
// and key.
#include <fmt/format.h>
#include <toml++/toml.h>

#include <cmath>
#include <fstream>
#include <iostream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace barm::tools {

inline std::string base_name(const std::string& path) {
  const auto slash = path.find_last_of('/');
  return slash == std::string::npos ? path : path.substr(slash + 1);
}

inline std::string stem(const std::string& path) {
  const std::string file = base_name(path);
  return file.substr(0, file.find_last_of('.'));
}

[[noreturn]] inline void stop(const std::string& where, const std::string& message) {
  throw std::runtime_error(where + ": " + message);
}

inline std::string place(const std::string& file, const toml::node& node) {
  return fmt::format("{}:{}", file, node.source().begin.line);
}

/// A C++ string literal of the text.
inline std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (c == '\n') {
      out += "\\n";
    } else {
      out += c;
    }
  }
  return out + "\"";
}

/// A C++ double literal with every digit.
inline std::string literal(double value) {
  if (std::isnan(value)) return "std::numeric_limits<double>::quiet_NaN()";
  std::string text = fmt::format("{:.17g}", value);
  if (text.find_first_of(".e") == std::string::npos) text += ".0";
  return text;
}

inline toml::table parse_toml(const std::string& path) {
  try {
    return toml::parse_file(path);
  } catch (const toml::parse_error& error) {
    std::ostringstream message;
    message << error;
    stop(path, message.str());
  }
}

/// Splits one CSV line; quotes as in RFC 4180.
inline std::vector<std::string> split_csv(const std::string& line) {
  std::vector<std::string> cells(1);
  bool inside = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (inside && c == '"' && i + 1 < line.size() && line[i + 1] == '"') {
      cells.back() += '"';
      ++i;
    } else if (c == '"') {
      inside = !inside;
    } else if (c == ',' && !inside) {
      cells.emplace_back();
    } else if (c != '\r') {
      cells.back() += c;
    }
  }
  return cells;
}

struct Csv {
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;
};

/// Reads a CSV with '#' comment lines above a header row.
inline Csv read_csv(const std::string& path) {
  std::ifstream in(path);
  if (!in) stop(path, "cannot be read");
  Csv csv;
  std::string line;
  int number = 0;
  while (std::getline(in, line)) {
    ++number;
    if (line.empty() || line[0] == '#') continue;
    auto cells = split_csv(line);
    if (csv.columns.empty()) {
      csv.columns = std::move(cells);
      continue;
    }
    if (cells.size() != csv.columns.size()) {
      stop(fmt::format("{}:{}", path, number),
           fmt::format("{} cells, but the header names {}", cells.size(), csv.columns.size()));
    }
    csv.rows.push_back(std::move(cells));
  }
  if (csv.rows.empty()) stop(path, "no rows");
  return csv;
}

/// Writes the text unless the file holds it already, so that nothing rebuilds for nothing.
inline void write_if_changed(const std::string& path, const std::string& text) {
  std::ifstream in(path);
  std::stringstream old;
  old << in.rdbuf();
  if (in && old.str() == text) return;
  std::ofstream out(path);
  out << text;
  if (!out) stop(path, "cannot be written");
}

/// Runs a tool's main body: a stop() becomes one line and exit status 1.
template <class Body>
int run_tool(Body body) {
  try {
    body();
    return 0;
  } catch (const std::exception& error) {
    std::cerr << error.what() << "\n";
    return 1;
  }
}

}  // namespace barm::tools
