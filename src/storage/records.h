#pragma once
// What a daybook keeps, one struct a kind. Plain numbers as the file holds them, each with its unit
// in its name: these are notes of what a baker saw, not quantities of a computation.
#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "time/instant.h"

namespace barm::storage {

enum class Kind {
  bake,
  culture,
  feeding,
  bottle,
  reading,
  mark,
  photo,
  loaf,
  scale,
  remark,
  setting,
  test_bake,
  test_member,
  equipment,
};

/// Each of them, in the order in which they are listed.
inline constexpr std::array all_kinds{Kind::bake,
                                      Kind::culture,
                                      Kind::feeding,
                                      Kind::bottle,
                                      Kind::reading,
                                      Kind::mark,
                                      Kind::photo,
                                      Kind::loaf,
                                      Kind::scale,
                                      Kind::remark,
                                      Kind::setting,
                                      Kind::test_bake,
                                      Kind::test_member,
                                      Kind::equipment};

/// "bake", "test_member": as in the file, in JSON and in addresses.
[[nodiscard]] std::string_view name(Kind kind);
[[nodiscard]] std::optional<Kind> kind_of(std::string_view name);

/// What every record has. A record is saved with the revision it was read at, 0 for a new one; the
/// answer holds the next. An empty id is filled in.
struct Record {
  std::string id;  ///< 1 to 64 of A-Z a-z 0-9 - _ ; a client may choose it
  std::int64_t revision = 0;
  time::Instant saved_at;                   ///< set by the daybook
  std::optional<time::Instant> deleted_at;  ///< in the trash since; set by the daybook

  friend bool operator==(const Record&, const Record&) = default;
};

/// A bake. The bake file's text is the truth; title and mixed_at are read from it when it is saved
/// through service::save_bake. Every save keeps the version before it.
struct Bake : Record {
  std::string title;
  std::vector<std::string> tags;
  std::string state = "planned";  ///< draft, planned, live, finished, given_up
  std::string toml;               ///< docs/bake-file.md; a draft need not be a bake yet
  std::optional<std::string> culture;
  std::optional<time::Instant> mixed_at;  ///< planned or true, by the state
  std::optional<time::Instant> finished_at;
  std::string note;

  friend bool operator==(const Bake&, const Bake&) = default;
};

/// One kept version of a bake, oldest first in a history; the last is the bake as it is.
struct BakeVersion {
  std::string bake;
  std::int64_t revision = 0;
  time::Instant saved_at;
  std::string title;
  std::string toml;

  friend bool operator==(const BakeVersion&, const BakeVersion&) = default;
};

/// A culture the bakery keeps, with what its batches have taught.
struct Culture : Record {
  std::string title;
  std::string starter;                  ///< as the larder calls such a starter
  std::string flour;                    ///< it is fed, as the larder calls it
  std::string feed = "1:2:1";           ///< ripe : flour : water
  double temperature_C = 26;            ///< where it stands
  std::optional<double> feed_every_h;   ///< empty: no habit
  std::optional<double> ripe_weight_g;  ///< wanted after a feeding
  std::string memory;  ///< batches that are no bakes of this daybook, by estimation; opaque here
  std::string note;
  std::vector<std::string> left_out;  ///< bakes from which it does not learn, by their ids

  friend bool operator==(const Culture&, const Culture&) = default;
};

struct Feeding : Record {
  std::string culture;
  time::Instant at;
  double ripe_g = 0, flour_g = 0, water_g = 0;
  std::string flour;
  std::optional<double> temperature_C;
  std::string remark;

  friend bool operator==(const Feeding&, const Feeding&) = default;
};

/// A bottle or bag on the shelf. `stock` is what is left of it, opened or not.
struct Bottle : Record {
  std::string title;
  std::string ingredient;          ///< as the larder calls it
  std::string price;               ///< of the whole bottle, decimal: "9.60"; empty when not known
  std::string currency;            ///< "EUR"; needed with a price
  std::string priced_on;           ///< "2026-11-20"
  double size_mL = 0, size_g = 0;  ///< one of the two is over zero
  double left_mL = 0, left_g = 0;  ///< in the measure of the size
  double whole_bottles = 0;        ///< unopened ones beside it
  std::optional<double> strength_percent_vol;
  std::optional<double> sugar_g_per_L;
  std::optional<std::string> opened_on;  ///< "2026-11-20"
  std::string toml;                      ///< further lines of its [bottle] table
  std::string remark;

  friend bool operator==(const Bottle&, const Bottle&) = default;
};

/// One look at a dough; at least one number or a remark. With an id of the client's a resend is
/// harmless.
struct ReadingRecord : Record {
  std::string bake;
  time::Instant at;
  std::optional<double> height_mm;  ///< of the sample in its jar
  std::optional<double> edge_mm, dome_mm;
  std::optional<double> ratio;  ///< height over the height at the start
  std::optional<double> sample_C, bulk_C, room_C;
  std::optional<double> ph;
  std::string remark;

  friend bool operator==(const ReadingRecord&, const ReadingRecord&) = default;
};

/// Something done and ticked off: a stage of the bake, a line weighed, with what was really poured.
struct Mark : Record {
  std::string bake;
  std::string what;                   ///< "weigh", or the stage's word: mix, bulk, …; into_the_oven
  std::string of;                     ///< the ingredient for "weigh"
  std::optional<std::int64_t> stage;  ///< its place in the bake file, 0 the first
  std::optional<double> poured_g;
  time::Instant at;

  friend bool operator==(const Mark&, const Mark&) = default;
};

/// A picture of a bake, a loaf or a culture; its bytes are asked for apart.
struct Photo : Record {
  std::optional<std::string> bake, loaf, culture;
  time::Instant taken_at;
  std::string caption;
  std::int64_t width_px = 0, height_px = 0, size_bytes = 0;  ///< set by the daybook

  friend bool operator==(const Photo&, const Photo&) = default;
};

/// A finished loaf.
struct Loaf : Record {
  std::string bake;
  std::string title;  ///< "the one with seeds", "3 of 6"
  time::Instant baked_at;
  std::optional<double> dough_g, baked_g;
  std::optional<double> height_mm, width_mm, length_mm;
  std::optional<double> spring;  ///< height after over height before the oven
  std::string crumb, crust, taste;
  std::map<std::string, double> scores;  ///< by the title of a Scale

  friend bool operator==(const Loaf&, const Loaf&) = default;
};

/// A score one defines oneself.
struct Scale : Record {
  std::string title;
  double low = 1, high = 5;
  std::string low_words, high_words;

  friend bool operator==(const Scale&, const Scale&) = default;
};

struct Remark : Record {
  std::optional<std::string> bake, culture;
  time::Instant at;
  std::string text;

  friend bool operator==(const Remark&, const Remark&) = default;
};

/// One setting; its id is its name ("weight_unit").
struct Setting : Record {
  std::string value;

  friend bool operator==(const Setting&, const Setting&) = default;
};

/// A test bake; its document belongs to whoever plans and judges it.
struct TestBake : Record {
  std::string title;
  std::string question;
  std::string state = "planned";  ///< planned, live, finished, given_up
  std::string document;

  friend bool operator==(const TestBake&, const TestBake&) = default;
};

/// A bake's part in a test bake.
struct TestMember : Record {
  std::string test_bake;
  std::string bake;
  std::string label;

  friend bool operator==(const TestMember&, const TestMember&) = default;
};

/// An oven, a fridge or a mixer of the house, and what was learned of it.
struct Equipment : Record {
  std::string title;
  std::string what = "oven";  ///< oven, fridge, mixer
  std::string toml;           ///< the lines of its table (docs/bake-file.md)
  std::string measured;       ///< what it was learned from, a JSON list; opaque here
  std::string remark;

  friend bool operator==(const Equipment&, const Equipment&) = default;
};

/// Calls f with an empty record of the kind: f(ReadingRecord{}) for Kind::reading.
template <class F>
auto with_record_of(Kind kind, F f) -> decltype(f(Bake{})) {
  switch (kind) {
    case Kind::bake:
      break;
    case Kind::culture:
      return f(Culture{});
    case Kind::feeding:
      return f(Feeding{});
    case Kind::bottle:
      return f(Bottle{});
    case Kind::reading:
      return f(ReadingRecord{});
    case Kind::mark:
      return f(Mark{});
    case Kind::photo:
      return f(Photo{});
    case Kind::loaf:
      return f(Loaf{});
    case Kind::scale:
      return f(Scale{});
    case Kind::remark:
      return f(Remark{});
    case Kind::setting:
      return f(Setting{});
    case Kind::test_bake:
      return f(TestBake{});
    case Kind::test_member:
      return f(TestMember{});
    case Kind::equipment:
      return f(Equipment{});
  }
  return f(Bake{});
}

}  // namespace barm::storage
