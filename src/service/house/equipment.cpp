#include "service/house/equipment.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/letters.h"
#include "service/internal/object.h"
#include "storage/record_json.h"

namespace barm::service {

using internal::object;
using nlohmann::json;
using storage::Equipment;

namespace {

std::string names_in(const Inventory& house, std::string_view what) {
  std::string out;
  for (const Equipment& one : house) {
    if (one.what == what) out += (out.empty() ? "there is " : ", ") + one.title;
  }
  return out.empty() ? fmt::format("there is no {} in the daybook yet", what) : out;
}

// What its lessons are called: an oven's are bakes.
std::string counted(std::string_view what, std::size_t lessons) {
  const std::string_view one = what == "oven" ? "bake" : what == "fridge" ? "load" : "dough";
  return fmt::format("{} {}{}", lessons, one, lessons == 1 ? "" : "s");
}

}  // namespace

Result<Inventory> house_of(storage::Daybook& daybook) { return daybook.list<Equipment>(); }

Result<std::optional<Equipment>> of_house(const Inventory& house,
                                          std::string_view what,
                                          const std::string& name) {
  std::vector<const Equipment*> found;
  for (const Equipment& one : house) {
    const bool called_so = name.empty() || small_letters(one.title) == small_letters(name);
    if (one.what == what && called_so) found.push_back(&one);
  }
  if (found.size() == 1) return std::optional(*found.front());
  if (name.empty()) return std::optional<Equipment>();
  return failure(ErrorCode::not_found,
                 "named",
                 fmt::format("no {} is called '{}': {}", what, name, names_in(house, what)));
}

Result<std::optional<Equipment>> of_house_or_new(const Inventory& house,
                                                 const std::string& what,
                                                 const std::string& name) {
  auto found = of_house(house, what, name);
  if (found && *found) return found;
  if (name.empty())
    return failure(ErrorCode::bad_input,
                   "named",
                   fmt::format("is needed to keep it, such as 'deck {}'", what));
  Equipment fresh;
  fresh.title = name;
  fresh.what = what;
  return std::optional(std::move(fresh));
}

std::string said(const Equipment& one, const time::Zone& zone) {
  const auto lessons = lessons_of(one);
  if (!lessons || lessons->empty()) return one.title;
  return fmt::format("{}, learned {} from {}",
                     one.title,
                     zone.day(lessons->back().at).in_words(),
                     counted(one.what, lessons->size()));
}

formula::Bake baked_in(formula::Bake bake, const Equipment& oven, const time::Zone& zone) {
  formula::HouseOven known{said(oven, zone), {}};
  if (const auto can = formula::parse_oven(oven.toml, "toml")) known.can = *can;
  bake.house_oven = std::move(known);
  return bake;
}

formula::Bake at_home(formula::Bake bake, const Inventory& house, const time::Zone& zone) {
  if (!bake.oven) return bake;
  const auto oven = of_house(house, "oven", bake.oven->name);
  if (oven && *oven) return baked_in(std::move(bake), **oven, zone);
  if (!oven)
    bake.house_oven = formula::HouseOven{
        fmt::format("'{}', of which nothing is known here", bake.oven->name), {}};
  return bake;
}

Result<bool> check_equipment(const Equipment& one) {
  const auto checked = [](const auto& table) -> Result<bool> {
    if (table) return true;
    return failure(
        ErrorCode::bad_input, "toml", table.error().where + ": " + table.error().message);
  };
  const std::string lines = "line";
  auto read = one.what == "fridge"  ? checked(formula::parse_fridge(one.toml, lines))
              : one.what == "mixer" ? checked(formula::parse_mixer(one.toml, lines))
                                    : checked(formula::parse_oven(one.toml, lines));
  if (!read) return read;
  const auto lessons = lessons_of(one);
  return lessons ? Result<bool>(true) : failure(lessons);
}

json to_json(const EquipmentAnswer& answer) {
  json list = json::array();
  for (const Equipment& one : answer.house) {
    json record = storage::to_json(one);
    record["said"] = said(one, answer.zone);
    list.push_back(std::move(record));
  }
  return object({{"schema", "barm.equipment/1"}, {"total", list.size()}, {"equipment", list}});
}

}  // namespace barm::service
