#pragma once
// The bake that a question is about.
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/error.h"
#include "base/result.h"
#include "formula/bake.h"
#include "server/questions/fields.h"
#include "server/questions/jobs.h"
#include "service/day/anew.h"
#include "service/day/file.h"
#include "service/daybook/kept_bake.h"
#include "service/daybook/kept_culture.h"
#include "service/house/equipment.h"

namespace barm::server {

/// A bake whose start is asked for.
struct Starting {
  const formula::Bake& bake;
  std::string bake_id;                 ///< of the daybook; empty: none
  std::optional<std::string> culture;  ///< its id; "": none; not said: that of the bake
};

/// Bakes and cultures of the daybook by their id. All throw Refused when there is none.
struct StoredBakes {
  service::Now now;                                          ///< on the wall of whoever asks
  std::function<formula::Bake(const std::string& id)> bake;  ///< with what its marks say
  /// The same with a text that is not saved yet in the place of its file.
  std::function<formula::Bake(const std::string& id, const std::string& text)> unsaved;
  std::function<std::string(const std::string& id)> text;    ///< of its file
  std::function<formula::Bake(formula::Bake bake)> at_home;  ///< in the house's oven
  /// The bake of an id or a title with what is known of it. Errors: not_found, bad_input; throws
  /// Refused without a daybook.
  std::function<Result<service::KnownBake>(const std::string& words)> named;
  std::function<service::Inventory()>
      house;  ///< its ovens, fridges, mixers; none without a daybook
  std::function<std::vector<storage::Bottle>()> shelf;
  /// A plan of the day made again (service/day/anew.h).
  std::function<std::optional<service::DayAnew>(const service::MadePlan& made, const Watch& watch)>
      anew;
  std::function<service::KeptBake(const std::string& id)> kept;  ///< with marks and readings
  /// A setting of the bakery; empty when there is none.
  std::function<std::string(const std::string& id)> setting;
  /// What a bake starts from: the culture of the id, or that of the bake of the daybook; the bake's
  /// own readings play no part.
  std::function<service::Begun(const Starting& starting, const Watch& watch)> begun;
  /// What the bakes of a culture have taught; `anew`: each is learned from once more.
  std::function<service::KeptCulture(const std::string& id, bool anew, const Watch& watch)> culture;
};

/// What the bake of a request starts from, by `culture_id` or `bake_id`. Throws Refused.
[[nodiscard]] service::Begun asked_start(Fields& fields,
                                         const formula::Bake& bake,
                                         const StoredBakes& stored,
                                         const Watch& watch);

/// The text of a bake in a request, given as text, as an object, or by an id.
struct AskedText {
  std::string text;
  std::string field;                  ///< its JSON pointer
  std::vector<std::string> pointers;  ///< of each line, when it was an object
};

/// Of the member `key`, else of `id_key`: "bake" and "bake_id". With both the bake is what is not
/// saved yet of the other. Throws Refused.
[[nodiscard]] AskedText asked_text(Fields& fields,
                                   const std::string& key,
                                   const std::string& id_key,
                                   const StoredBakes& stored);

/// The bake of a text. Throws Refused with line, column and field.
[[nodiscard]] formula::Bake bake_of(const AskedText& asked);

/// The bake of those members, `weighed_g` laid over it, on the clock of whoever asks. Beside
/// `bake_id` the text of `bake` is what is not saved yet: it goes the way it would be saved. Throws
/// Refused.
[[nodiscard]] formula::Bake asked_bake(Fields& fields, const StoredBakes& stored);
[[nodiscard]] formula::Bake asked_bake(Fields& fields,
                                       const std::string& key,
                                       const std::string& id_key,
                                       const StoredBakes& stored);

}  // namespace barm::server
