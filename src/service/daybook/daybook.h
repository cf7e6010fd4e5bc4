#pragma once
// What a baker does with the daybook, each as one function that the terminal and the server call.
// Who asks brings the open daybook and the clock. Errors: as storage::Daybook, and those named.
#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "formula/bake.h"
#include "service/day/kept_day.h"
#include "service/daybook/kept_ready.h"
#include "service/house/equipment.h"
#include "service/now.h"
#include "storage/daybook.h"

namespace barm::service {

/// Saves a bake; its file must be one unless it is a draft. The title is the file's name. Of
/// the record's moment of mixing and the file's the one that was changed last holds, the record's
/// where both were; the file then says it too. A live bake without either is mixed now. Errors:
/// bad_input with the place in the file ("bake:14:9").
[[nodiscard]] Result<storage::Bake> save_bake(storage::Daybook& daybook,
                                              storage::Bake bake,
                                              const Now& now);

/// Saves an oven, a fridge or a mixer. Errors: bad_input for lines that are none, or a name that
/// another of its kind has.
[[nodiscard]] Result<storage::Equipment> save_equipment(storage::Daybook& daybook,
                                                        storage::Equipment one,
                                                        const Now& now);

/// A bake of the daybook as the forecast takes it: read from its file, mixed when the record says,
/// with what its marks say was poured, in the house's oven. Errors: bad_input for a draft that is
/// no bake yet.
[[nodiscard]] Result<formula::Bake> stored_bake(storage::Daybook& daybook,
                                                const std::string& id,
                                                const Now& now);
[[nodiscard]] Result<formula::Bake> stored_bake(const storage::Bake& record,
                                                const std::vector<storage::Mark>& marks,
                                                const Inventory& house,
                                                const Now& now);

/// The same with another text in the place of its file, as it would be were that saved now: what
/// was poured stays poured, and its moment of mixing is the one that save_bake() would keep.
[[nodiscard]] Result<formula::Bake> unsaved_bake(storage::Daybook& daybook,
                                                 const std::string& id,
                                                 std::string toml,
                                                 const Now& now);

/// Any record by its kind, as JSON (storage/record_json.h): what HTTP and import speak. Fields that
/// an object leaves out keep what is stored, or the start value of a new record. Bakes go through
/// save_bake.
[[nodiscard]] Result<nlohmann::json> save_record(storage::Daybook& daybook,
                                                 storage::Kind kind,
                                                 const nlohmann::json& object,
                                                 const Now& now);

/// Many of one kind, all or none: readings kept while the server was away.
[[nodiscard]] Result<nlohmann::json> save_records(storage::Daybook& daybook,
                                                  storage::Kind kind,
                                                  const nlohmann::json& list,
                                                  const Now& now);
[[nodiscard]] Result<nlohmann::json> get_record(storage::Daybook& daybook,
                                                storage::Kind kind,
                                                const std::string& id);

/// {"schema": "barm.bakes/1", "total": 2000, "bakes": […]}; bakes without their files.
[[nodiscard]] Result<nlohmann::json> list_records(storage::Daybook& daybook,
                                                  storage::Kind kind,
                                                  const storage::Query& query);

/// "bakes", "loaves", "test-bakes": what a list of a kind is called in addresses and JSON.
[[nodiscard]] std::string plural(storage::Kind kind);
[[nodiscard]] std::optional<storage::Kind> kind_of_plural(const std::string& words);

/// A dough that is mixed, or to be mixed soon.
struct DoughToday {
  std::string bake, title, state;
  std::optional<time::Instant> mixed_at;
  std::string head;  ///< the next thing to do and the bread, with their ranges
  std::string next;  ///< the next thing to do, in words
  std::optional<time::Instant> next_at;
  std::optional<time::Instant> ready_p10, ready_p50, ready_p90;
  std::string ready;     ///< in words: "Sat 16:45, 13:15 to Sun 04:30"
  std::string rests_on;  ///< beyond its file: "4 readings and what Sluice has taught"; may be empty
  bool late = false;     ///< 9 of 10 like it would be ready by now, or half of them never are
};

/// A culture, fed at some time.
struct LevainToday {
  std::string culture, title;
  std::optional<time::Instant> fed_at;
  std::optional<time::Instant> peak_p10, peak_at, peak_p90;
  std::string next;
  std::optional<time::Instant> next_at;
  std::string wanted;  ///< "150 g Tue 00:30; a feeding makes 120 g"; empty: by no planned bake
};

struct WeighToday {
  std::string ingredient;
  Mass mass;
};

/// What is alive and what to do about it.
struct TodayAnswer {
  time::Instant now;
  bool invented = false;             ///< the daybook says it is a demonstration
  std::optional<std::string> clock;  ///< what is odd about the machine's clock (service/clock.h)
  std::vector<DoughToday> doughs;    ///< by their next time
  std::vector<LevainToday> levains;
  std::vector<std::string> feed_tonight;  ///< up to noon of the next day
  std::vector<std::string> buy;           ///< short for the bakes of two days
  std::string weigh_day;                  ///< the next on which ordinary breads are mixed
  std::vector<std::string> ordinary;      ///< titles of that day's bakes without a drink
  std::vector<WeighToday> weigh;          ///< what those take together
  std::optional<KeptDay> day;             ///< the plan the house goes by
};

/// `cancelled`, asked now and then, stops it; `as_read` as for kept_ready().
[[nodiscard]] Result<TodayAnswer> today(storage::Daybook& daybook,
                                        const Now& now,
                                        const std::function<bool()>& cancelled = nullptr,
                                        const AsRead& as_read = nullptr);
[[nodiscard]] nlohmann::json to_json(const TodayAnswer& answer);

}  // namespace barm::service
