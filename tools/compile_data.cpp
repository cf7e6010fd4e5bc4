// Turns data/ into headers: every number with its unit and its source, checked by the compiler.
//
//   compile_data sources   OUT data/sources.toml
//   compile_data constants OUT data/constants.toml data/growth.toml …
//   compile_data tables    OUT data/tables/a.csv …
//   compile_data prior     OUT data/day_one_prior.toml
#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>

#include "data_reader.h"

namespace barm::tools {

namespace {

constexpr std::string_view standings[] = {
    "published", "derived", "common_practice", "remembered", "guess"};

std::string required_text(const std::string& file,
                          const toml::table& row,
                          const std::string& name,
                          const char* key) {
  const auto text = row[key].value<std::string>();
  if (!text) stop(place(file, row), fmt::format("'{}' has no {}", name, key));
  return *text;
}

std::string compile_sources(const std::string& file) {
  std::string out = "#pragma once\n#include \"data/source.h\"\n\nnamespace barm::source {\n\n";
  std::string list;
  for (const auto& [key, node] : parse_toml(file)) {
    const toml::table* row = node.as_table();
    if (row == nullptr) stop(place(file, node), "a source is a table");
    const std::string name(key.str());
    const std::string standing = required_text(file, *row, name, "standing");
    if (std::find(std::begin(standings), std::end(standings), standing) == std::end(standings)) {
      stop(place(file, *row), fmt::format("'{}' has an unknown standing '{}'", name, standing));
    }
    out += fmt::format("inline constexpr data::Source {}{{{}, {}, data::Standing::{}}};\n",
                       name,
                       quoted(name),
                       quoted(required_text(file, *row, name, "title")),
                       standing);
    list += "&" + name + ", ";
  }
  return out + "\ninline constexpr const data::Source* all[] = {" + list +
         "};\n\n}  // namespace barm::source\n";
}

// The unit string is a C++ expression of units/units.h, or one of the two that are points on a
// scale.
std::string typed_value(const std::string& unit, double value) {
  if (unit == "celsius") return fmt::format("Temperature::from_celsius({})", literal(value));
  if (unit == "ph") return fmt::format("Ph({})", literal(value));
  return fmt::format("{} * ({})", literal(value), unit);
}

std::string type_of(const std::string& unit) {
  if (unit == "celsius") return "Temperature";
  if (unit == "ph") return "Ph";
  return fmt::format("std::remove_cvref_t<decltype(1.0 * ({}))>", unit);
}

void compile_constant(const std::string& file,
                      const std::string& group,
                      const std::string& name,
                      const toml::table& row,
                      std::string& values,
                      std::string& catalogue) {
  const auto value = row["value"].value<double>();
  if (!value) stop(place(file, row), fmt::format("'{}' has no value", name));
  const std::string unit = required_text(file, row, name, "unit");
  const std::string source = required_text(file, row, name, "source");
  const double doubt = row["doubt"].value_or(0.0);
  const std::string at = row["at"].value_or(std::string());
  const std::string note = row["note"].value_or(std::string());
  values += fmt::format("inline constexpr data::Sourced<{}> {}{{{}, {}, &source::{}, {}}};\n",
                        type_of(unit),
                        name,
                        typed_value(unit, *value),
                        literal(doubt),
                        source,
                        quoted(at));
  const std::string full = group.empty() ? name : group + "." + name;
  catalogue += fmt::format("    {{{}, {}, {}, {}, &source::{}, {}, {}, {}}},\n",
                           quoted(full),
                           literal(*value),
                           quoted(unit),
                           literal(doubt),
                           source,
                           quoted(at),
                           quoted(note),
                           quoted(base_name(file)));
}

std::string compile_constants(const std::vector<std::string>& files) {
  std::string values;
  std::string catalogue;
  for (const std::string& file : files) {
    for (const auto& [key, node] : parse_toml(file)) {
      const std::string group(key.str());
      const toml::table* table = node.as_table();
      if (table == nullptr) stop(place(file, node), "only groups of values stand at the top");
      values += "namespace " + group + " {\n";
      for (const auto& [inner, row] : *table) {
        const std::string name(inner.str());
        if (!row.is_table())
          stop(place(file, row), fmt::format("'{}' is not {{ value, unit, source }}", name));
        compile_constant(file, group, name, *row.as_table(), values, catalogue);
      }
      values += "}  // namespace " + group + "\n\n";
    }
  }
  return "#pragma once\n#include <type_traits>\n\n#include \"data/source.h\"\n#include "
         "\"generated/sources.h\"\n"
         "#include \"units/fraction.h\"\n#include \"units/temperature.h\"\n\nnamespace "
         "barm::constants {\n\n" +
         values + "inline constexpr data::Entry catalogue[] = {\n" + catalogue +
         "};\n\n}  // namespace barm::constants\n";
}

bool number(const std::string& cell, double& value) {
  const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
  return error == std::errc() && end == cell.data() + cell.size();
}

bool numeric_column(const Csv& csv, std::size_t column) {
  double ignored = 0;
  for (const auto& row : csv.rows) {
    if (!row[column].empty() && !number(row[column], ignored)) return false;
  }
  return true;
}

std::string identifier(std::string name) {
  for (char& c : name)
    c = static_cast<char>(std::isalnum(static_cast<unsigned char>(c)) ? std::tolower(c) : '_');
  return name;
}

std::string compile_table(const std::string& file) {
  const Csv csv = read_csv(file);
  const std::string name = stem(file);
  std::string fields;
  std::vector<bool> numeric;
  for (std::size_t c = 0; c < csv.columns.size(); ++c) {
    numeric.push_back(numeric_column(csv, c));
    fields += fmt::format(
        "  {} {};\n", numeric[c] ? "double" : "std::string_view", identifier(csv.columns[c]));
  }
  std::string rows;
  for (const auto& row : csv.rows) {
    rows += "    {";
    for (std::size_t c = 0; c < row.size(); ++c) {
      double value = std::nan("");
      if (numeric[c]) number(row[c], value);
      rows += (numeric[c] ? literal(value) : quoted(row[c])) + ", ";
    }
    rows += "},\n";
  }
  return fmt::format(
      "/// data/tables/{}.csv; an empty cell is NaN or an empty text.\nstruct {}_row {{\n{}}};\n\n"
      "inline constexpr {}_row {}[] = {{\n{}}};\n\n",
      name,
      name,
      fields,
      name,
      name,
      rows);
}

// A prior of several parameters together: their names in order, the centre of each and the rows of
// a lower triangle.
std::string compile_prior(const std::string& file) {
  const toml::table all = parse_toml(file);
  const toml::array* rows = all["parameter"].as_array();
  if (rows == nullptr) stop(file, "no [[parameter]]");
  const std::size_t count = rows->size();
  std::string names;
  std::string centre;
  std::string factor;
  for (std::size_t i = 0; i < count; ++i) {
    const toml::table* row = rows->get(i)->as_table();
    if (row == nullptr) stop(place(file, *rows->get(i)), "a parameter is a table");
    names += quoted(required_text(file, *row, "parameter", "name")) + ", ";
    const auto at = (*row)["centre"].value<double>();
    const toml::array* numbers = (*row)["factor"].as_array();
    if (!at || numbers == nullptr || numbers->size() != i + 1) {
      stop(place(file, *row), fmt::format("needs a centre and a factor of {} numbers", i + 1));
    }
    centre += literal(*at) + ", ";
    factor += "    {";
    for (const toml::node& number : *numbers) factor += literal(number.value_or(0.0)) + ", ";
    factor += "},\n";
  }
  return fmt::format(
      "#pragma once\n#include <string_view>\n\n/// {}\nnamespace barm::generated::day_one_prior "
      "{{\n\ninline constexpr std::string_view names[] = {{{}}};\ninline constexpr double centre[] "
      "= "
      "{{{}}};\ninline constexpr double factor[{}][{}] = {{\n{}}};\n\n}}  // namespace "
      "barm::generated::day_one_prior\n",
      base_name(file),
      names,
      centre,
      count,
      count,
      factor);
}

void compile(const std::vector<std::string>& arguments) {
  if (arguments.size() < 3) stop("compile_data", "MODE OUT FILE…");
  const std::string& mode = arguments[0];
  const std::vector<std::string> files(arguments.begin() + 2, arguments.end());
  std::string text = "// Written by tools/compile_data from data/. Do not edit.\n";
  if (mode == "sources") {
    text += compile_sources(files.front());
  } else if (mode == "constants") {
    text += compile_constants(files);
  } else if (mode == "tables") {
    text +=
        "#pragma once\n#include <limits>\n#include <string_view>\n\nnamespace barm::tables {\n\n";
    for (const std::string& file : files) text += compile_table(file);
    text += "}  // namespace barm::tables\n";
  } else if (mode == "prior") {
    text += compile_prior(files.front());
  } else {
    stop("compile_data", "unknown mode " + mode);
  }
  write_if_changed(arguments[1], text);
}

}  // namespace

}  // namespace barm::tools

int main(int argc, char** argv) {
  return barm::tools::run_tool(
      [&] { barm::tools::compile(std::vector<std::string>(argv + 1, argv + argc)); });
}
