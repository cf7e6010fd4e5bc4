#pragma once
// The daybook as someone looks through it: lists, one bake with all that belongs to it, and the one
// line that says what was done.
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "service/now.h"
#include "storage/daybook.h"

namespace barm::service {

/// Bakes that match a query, newest first.
struct BakesAnswer {
  std::int64_t total = 0;  ///< that match; `lines` may hold fewer
  std::vector<storage::BakeLine> lines;
  time::Zone zone;
};

[[nodiscard]] Result<BakesAnswer> bakes(storage::Daybook& daybook,
                                        const storage::Query& query,
                                        const Now& now);

/// A bake with what belongs to it.
struct BakeView {
  storage::Bake bake;
  std::vector<storage::ReadingRecord> readings;
  std::vector<storage::Mark> marks;
  std::vector<storage::Loaf> loaves;
  std::vector<storage::Remark> remarks;
  std::vector<storage::Photo> photos;
  std::vector<storage::BakeVersion> versions;
  time::Zone zone;
};

/// By its id, or by words that only one title holds. Errors: not_found; bad_input when several do,
/// with their ids.
[[nodiscard]] Result<storage::Bake> find_bake(storage::Daybook& daybook, const std::string& words);

[[nodiscard]] Result<BakeView> view_bake(storage::Daybook& daybook,
                                         const std::string& words,
                                         const Now& now);

/// What is in the trash and until when it can be taken out.
struct TrashAnswer {
  std::vector<storage::Deleted> deleted;
  time::Zone zone;
};

[[nodiscard]] Result<TrashAnswer> trash(storage::Daybook& daybook, const Now& now);

/// Something was done: one sentence, and the record's id where there is one.
struct Done {
  std::string words;
  std::string id;
};

/// Whether the file is whole.
struct CheckAnswer {
  std::string path;
  std::vector<std::string> faults;
  std::int64_t bakes = 0, readings = 0, photos = 0;
};

[[nodiscard]] Result<CheckAnswer> check(storage::Daybook& daybook);

[[nodiscard]] nlohmann::json to_json(const BakesAnswer& answer);
[[nodiscard]] nlohmann::json to_json(const BakeView& view);
[[nodiscard]] nlohmann::json to_json(const TrashAnswer& answer);
[[nodiscard]] nlohmann::json to_json(const Done& done);
[[nodiscard]] nlohmann::json to_json(const CheckAnswer& answer);

}  // namespace barm::service
