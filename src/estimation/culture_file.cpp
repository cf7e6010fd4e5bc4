// A culture's memory as a text a baker can look at.
#include <fmt/format.h>
#include <toml++/toml.h>

#include <cmath>
#include <span>
#include <sstream>

#include "base/file_text.h"
#include "estimation/culture.h"

namespace barm::estimation {

namespace {

constexpr std::string_view head =
    "# A culture's memory. Each batch holds what its readings say of the culture, whatever was "
    "believed\n"
    "# before: ln p = push'x - x'sharpness x / 2 with x = ln(value / book value) of the parameters "
    "below,\n"
    "# in their order. Take a batch out and it has never been. 'barm culture show' says it in "
    "words.\n";

std::string_view parameter_name(std::size_t i) {
  return kinetics::priors()[static_cast<std::size_t>(culture_parameters[i])].name;
}

template <class Numbers>
std::string row(const Numbers& numbers, std::size_t from, std::size_t count) {
  std::string out;
  for (std::size_t i = 0; i < count; ++i)
    out += fmt::format("{}{:.17g}", i == 0 ? "" : ", ", numbers[from + i]);
  return out;
}

std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (static_cast<unsigned char>(c) >= 0x20) out += c;
  }
  return out + "\"";
}

tl::unexpected<Error> bad(const std::string& file, const toml::node& node, std::string words) {
  return failure(
      ErrorCode::bad_input, fmt::format("{}:{}", file, node.source().begin.line), std::move(words));
}

bool numbers(const toml::table& table, const char* key, std::span<double> into) {
  const toml::array* const array = table[key].as_array();
  if (array == nullptr || array->size() != into.size()) return false;
  for (std::size_t i = 0; i < into.size(); ++i) {
    const auto value = (*array)[i].value<double>();
    if (!value || !std::isfinite(*value)) return false;
    into[i] = *value;
  }
  return true;
}

}  // namespace

std::string to_toml(const Culture& culture) {
  std::string out(head);
  out += fmt::format("name = {}\nparameters = [", quoted(culture.name));
  for (std::size_t i = 0; i < culture_size; ++i)
    out += fmt::format("{}\"{}\"", i == 0 ? "" : ", ", parameter_name(i));
  out += "]\n";
  for (const BatchLesson& b : culture.batches) {
    out += fmt::format("\n[[batch]]\nname = {}\nday = {:.17g}\nreadings = {}\n",
                       quoted(b.batch),
                       b.day,
                       b.readings);
    if (b.levain_age_h) out += fmt::format("levain_age_h = {:.17g}\n", *b.levain_age_h);
    if (!b.bake.empty()) out += fmt::format("bake = {}\n", quoted(b.bake));
    if (!b.readings_file.empty())
      out += fmt::format("readings_file = {}\n", quoted(b.readings_file));
    if (!b.zone.empty()) out += fmt::format("zone = {}\n", quoted(b.zone));
    out += fmt::format("push = [{}]\nsharpness = [\n", row(b.push, 0, culture_size));
    for (std::size_t i = 0; i < culture_size; ++i)
      out += fmt::format("  {},\n", row(b.sharpness, i * culture_size, culture_size));
    out += "]\n";
  }
  return out;
}

Result<Culture> parse_culture(const std::string& text, const std::string& file) {
  toml::table table;
  try {
    table = toml::parse(text, file);
  } catch (const toml::parse_error& error) {
    return failure(ErrorCode::bad_input,
                   fmt::format("{}:{}", file, error.source().begin.line),
                   std::string(error.description()));
  }
  Culture culture;
  culture.name = table["name"].value_or(std::string());
  const toml::array* const names = table["parameters"].as_array();
  bool same = names != nullptr && names->size() == culture_size;
  for (std::size_t i = 0; same && i < culture_size; ++i)
    same = (*names)[i].value<std::string>() == std::string(parameter_name(i));
  if (!same)
    return failure(
        ErrorCode::bad_input,
        file,
        "is no culture's memory of this version; learn it again with 'barm culture learn'");
  const toml::array* const batches = table["batch"].as_array();
  if (batches == nullptr) return culture;
  for (const toml::node& node : *batches) {
    const toml::table* const one = node.as_table();
    if (one == nullptr) return bad(file, node, "a batch is a table [[batch]]");
    BatchLesson b;
    b.batch = (*one)["name"].value_or(std::string());
    b.day = (*one)["day"].value_or(0.0);
    b.readings = static_cast<int>((*one)["readings"].value_or(std::int64_t{0}));
    b.levain_age_h = (*one)["levain_age_h"].value<double>();
    if (b.levain_age_h && !std::isfinite(*b.levain_age_h))
      return bad(file, node, "levain_age_h needs hours past the peak, such as 3.5");
    b.bake = (*one)["bake"].value_or(std::string());
    b.readings_file = (*one)["readings_file"].value_or(std::string());
    b.zone = (*one)["zone"].value_or(std::string());
    if (b.batch.empty()) return bad(file, node, "a batch needs a name");
    if (!numbers(*one, "push", b.push) || !numbers(*one, "sharpness", b.sharpness))
      return bad(file,
                 node,
                 fmt::format("batch '{}' needs push with {} numbers and sharpness with {}",
                             b.batch,
                             culture_size,
                             culture_size * culture_size));
    for (const BatchLesson& other : culture.batches) {
      if (other.batch == b.batch) return bad(file, node, fmt::format("two batches '{}'", b.batch));
    }
    culture.batches.push_back(std::move(b));
  }
  return culture;
}

Result<Culture> read_culture(const std::string& path) {
  constexpr std::size_t most_bytes = 10'000'000;
  const auto text = file_text(path, most_bytes);
  if (!text) return failure(text);
  return parse_culture(*text, path);
}

}  // namespace barm::estimation
