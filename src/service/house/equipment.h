#pragma once
// The house's own: its ovens, fridges and mixers, as the daybook keeps them, and which of them a
// bake uses.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "formula/bake.h"
#include "formula/equipment.h"
#include "oven/calibrate.h"
#include "service/now.h"
#include "storage/daybook.h"

namespace barm::service {

using Inventory = std::vector<storage::Equipment>;

/// All that is not in the trash.
[[nodiscard]] Result<Inventory> house_of(storage::Daybook& daybook);

/// Of that kind the one of the name, in whatever letters; without a name the only one, and nothing
/// where there is none or more than one. Errors: not_found, with the names there are.
[[nodiscard]] Result<std::optional<storage::Equipment>> of_house(const Inventory& house,
                                                                 std::string_view what,
                                                                 const std::string& name);

/// What is to be kept of a measurement: of_house(), else a new one of that name, which nothing has
/// kept yet. Errors: bad_input without a name where it is not clear which.
[[nodiscard]] Result<std::optional<storage::Equipment>> of_house_or_new(const Inventory& house,
                                                                        const std::string& what,
                                                                        const std::string& name);

/// "Deck oven, learned 28 Nov 2026 from 2 bakes"; the name alone where nothing was measured.
[[nodiscard]] std::string said(const storage::Equipment& one, const time::Zone& zone);

/// The bake in the oven that its file names, else in the only one of the house; where the name is
/// nobody's it says so. A bake without an [oven] stays as it is.
[[nodiscard]] formula::Bake at_home(formula::Bake bake,
                                    const Inventory& house,
                                    const time::Zone& zone);

/// The bake in this oven, whatever its file names.
[[nodiscard]] formula::Bake baked_in(formula::Bake bake,
                                     const storage::Equipment& oven,
                                     const time::Zone& zone);

/// The lines of a record that is one. Errors: bad_input at `toml` or `measured`.
[[nodiscard]] Result<bool> check_equipment(const storage::Equipment& one);

/// One bake, load or dough that it was learned from.
struct Lesson {
  time::Instant at;
  std::string bake;  ///< its title
  std::optional<oven::Measured> baked;
};

/// From so many it is learned at most, the newest: an oven ages.
inline constexpr std::size_t most_lessons = 12;

/// Errors: bad_input for what this program did not write.
[[nodiscard]] Result<std::vector<Lesson>> lessons_of(const storage::Equipment& one);

/// The newest of them.
[[nodiscard]] std::string lessons_text(const std::vector<Lesson>& lessons);

/// The ten numbers of `learned` in an [oven], and back.
[[nodiscard]] std::vector<double> numbers_of(const oven::LearnedOven& known);
[[nodiscard]] oven::LearnedOven known_of(const std::vector<double>& numbers);

/// What the house has, for a look.
struct EquipmentAnswer {
  Inventory house;
  time::Zone zone;
};

/// "barm.equipment/1", with what is said of each.
[[nodiscard]] nlohmann::json to_json(const EquipmentAnswer& answer);

}  // namespace barm::service
