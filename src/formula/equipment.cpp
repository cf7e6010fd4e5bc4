#include "formula/equipment.h"

#include <fmt/format.h>

#include "formula/internal/oven_reader.h"
#include "formula/internal/reading.h"
#include "formula/words.h"

namespace barm::formula {

namespace {

// The lines as the table they are of.
template <class Table, class Read>
Result<Table> table_of(std::string_view toml, const std::string& origin, const Read& read) {
  auto root = parse_document(toml, origin);
  if (!root) return failure(root);
  try {
    return read(*root);
  } catch (const Stopped& stopped) {
    return tl::unexpected<Error>(stopped.error);
  }
}

double measured_in(
    const Node& value, const char* unit, double least, double most, const std::string& right) {
  const auto number = at_place(parse_number(text_of(value, right)), value.place);
  if (folded(number.unit) == folded(unit) && number.value >= least && number.value <= most)
    return number.value;
  stop(value.place,
       fmt::format("lies between {:g} and {:g} {}: write \"{}\"", least, most, unit, right));
}

std::string truth(const char* key, const std::optional<bool>& value) {
  return value ? fmt::format("{} = {}\n", key, *value) : "";
}

std::string measure(const char* key, const std::optional<double>& value, const char* unit) {
  return value ? fmt::format("{} = \"{:.6g} {}\"\n", key, *value, unit) : "";
}

template <class T>
const std::optional<T>& first_of(const std::optional<T>& one, const std::optional<T>& other) {
  return one ? one : other;
}

}  // namespace

Result<OvenTable> parse_oven(std::string_view toml, const std::string& origin) {
  return table_of<OvenTable>(toml, origin, [](const Node& root) {
    check_keys(root, "of an oven", {"stone", "fan", "holds", "cavity", "power", "learned"});
    return internal::read_oven({"oven", root.place, root});
  });
}

Result<FridgeTable> parse_fridge(std::string_view toml, const std::string& origin) {
  return table_of<FridgeTable>(toml, origin, [](const Node& root) {
    check_keys(root, "of a fridge", {"set", "power", "air"});
    FridgeTable out;
    if (const Node* set = find(root, "set")) {
      const Temperature at = at_place(parse_temperature(text_of(*set, "4 C")), set->place);
      if (!(at.celsius() >= -2 && at.celsius() <= 15))
        stop(set->place, "a fridge is set from -2 C to 15 C: write \"4 C\"");
      out.set = at;
    }
    if (const Node* power = find(root, "power"))
      out.watts = measured_in(*power, "W", 10, 50000, "120 W");
    if (const Node* air = find(root, "air"))
      out.kilojoules_per_kelvin = measured_in(*air, "kJ/K", 0.5, 50000, "20 kJ/K");
    return out;
  });
}

Result<MixerTable> parse_mixer(std::string_view toml, const std::string& origin) {
  return table_of<MixerTable>(toml, origin, [](const Node& root) {
    check_keys(root, "of a mixer", {"friction", "spread"});
    MixerTable out;
    if (const Node* friction = find(root, "friction"))
      out.watts_per_kilogram = measured_in(*friction, "W/kg", 0, 500, "20 W/kg");
    if (const Node* spread = find(root, "spread"))
      out.spread_watts_per_kilogram = measured_in(*spread, "W/kg", 0, 500, "4 W/kg");
    return out;
  });
}

std::string lines_of(const OvenTable& table) {
  std::string out;
  if (table.holds) out += fmt::format("holds = {}\n", *table.holds);
  if (table.cavity) out += measure("cavity", table.cavity->in(litre), "L");
  out += measure("power", table.kilowatts, "kW");
  out += truth("stone", table.stone) + truth("fan", table.fan);
  if (table.learned.empty()) return out;
  std::string numbers;
  for (const double one : table.learned)
    numbers += fmt::format("{}{:.2f}", numbers.empty() ? "" : ", ", one);
  return out + fmt::format("learned = [{}]\n", numbers);
}

std::string lines_of(const FridgeTable& table) {
  std::string out;
  if (table.set) out += measure("set", table.set->celsius(), "C");
  return out + measure("power", table.watts, "W") +
         measure("air", table.kilojoules_per_kelvin, "kJ/K");
}

std::string lines_of(const MixerTable& table) {
  return measure("friction", table.watts_per_kilogram, "W/kg") +
         measure("spread", table.spread_watts_per_kilogram, "W/kg");
}

OvenTable laid_over(const OvenTable& first, const OvenTable& then) {
  OvenTable out;
  out.name = first.name.empty() ? then.name : first.name;
  out.form = first.form.empty() ? then.form : first.form;
  out.set = first.set.empty() ? then.set : first.set;
  out.bake = first_of(first.bake, then.bake);
  out.steam = first_of(first.steam, then.steam);
  out.lid = first_of(first.lid, then.lid);
  out.stone = first_of(first.stone, then.stone);
  out.fan = first_of(first.fan, then.fan);
  out.loaves = first_of(first.loaves, then.loaves);
  out.holds = first_of(first.holds, then.holds);
  out.cavity = first_of(first.cavity, then.cavity);
  out.kilowatts = first_of(first.kilowatts, then.kilowatts);
  out.room = first_of(first.room, then.room);
  out.learned = first.learned.empty() ? then.learned : first.learned;
  return out;
}

}  // namespace barm::formula
