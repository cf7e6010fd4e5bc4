#pragma once
// A file of the day: the house, when bread is wanted, which bakes. See docs/day.md.
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/result.h"
#include "service/bake/batch.h"
#include "service/oven/oven.h"
#include "time/instant.h"
#include "time/zone.h"

namespace barm::service {

/// Another way a bake may go, if the planner likes: each of what is said instead of the bake's own.
struct OtherWay {
  std::optional<Temperature> bulk;
  std::optional<std::pair<Time, Time>>
      fridge;     ///< shaped loaves, from and to, instead of the proof
  int loads = 1;  ///< of the oven
  std::optional<double> levain = std::nullopt;  ///< of flour, where the bowl states it so
};

/// A dough of the day.
struct KnownBake : Batch {
  std::string made_from;  ///< all of this as a text: while it stays, so does what follows

  /// When it was mixed, while somebody works at it.
  [[nodiscard]] std::optional<time::Instant> mixed() const {
    return now ? clock.instant(Time{}) : std::nullopt;
  }
};

/// The bowl's levain where it is stated as a share of the flour; else null.
[[nodiscard]] const formula::Portion* levain_of_flour(const formula::Bake& bake);

struct DayBake : KnownBake {
  std::string file;  ///< as the day's file names it
  int loaves = 1;
  time::Instant bread;  ///< cooled
  std::vector<OtherWay> others;
  std::map<std::string, time::Instant> done;  ///< steps that have begun: "feed", "mix", …
  FilePlace place;
  std::optional<OvenAnswer> oven;  ///< of with_ovens(); nothing as it is read
};

/// How many of each, at once.
struct House {
  int hands = 1;  ///< pairs
  int mixers = 1;
  int bench = 2;   ///< doughs that can lie there
  int fridge = 0;  ///< loaves
  int decks = 1;   ///< of the oven
  int loaves_on_a_deck = 6;
  std::vector<std::pair<time::Instant, time::Instant>> nobody;  ///< nights and days of rest
};

struct DayFile {
  std::string name, file;
  time::Instant begins;  ///< of the plan, to whole five minutes
  House house;
  std::vector<DayBake> bakes;
  time::Zone zone = time::Zone::fixed(0);
};

/// A digest of all that is known of its bakes; while it stays, so does a plan of them.
[[nodiscard]] std::string made_from(const DayFile& file);

/// The bake that a day names, and where it names it. Its errors stop the reading.
using NamedBake = std::function<Result<KnownBake>(const std::string& name, const FilePlace& place)>;

/// The text of a day; `origin` stands before the line in what is wrong; times are those of the wall
/// in `zone`. Planned again from `again` on, where that is later than it says. Errors: bad_input
/// with place and remedy; those of `bake`.
[[nodiscard]] Result<DayFile> parse_day(const std::string& text,
                                        const std::string& origin,
                                        const time::Zone& zone,
                                        const NamedBake& bake,
                                        std::optional<time::Instant> again = std::nullopt);

/// The same of a file, and the bake files it names beside itself. Errors: also those of
/// formula::read_bake().
[[nodiscard]] Result<DayFile> read_day(const std::string& path, const time::Zone& zone);

}  // namespace barm::service
