#include "service/day/file.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/digest.h"
#include "formula/document.h"
#include "formula/reading.h"
#include "service/day/done.h"
#include "time/local_time.h"

namespace barm::service {

namespace {

using formula::Entry;
using formula::Node;
using formula::stop;

constexpr int most_of_anything = 500;
constexpr std::size_t most_bakes = 20;
constexpr std::int64_t five_minutes = 300;
constexpr double longest_plan_days = 7;

int whole(const Node& value, int least, int most) {
  if (value.kind == Node::Kind::whole && value.number >= least && value.number <= most)
    return static_cast<int>(value.number);
  stop(value.place, fmt::format("is a whole number from {} to {}", least, most));
}

const Node& needed(const Node& table, std::string_view key, std::string_view example) {
  if (const Node* found = formula::find(table, key)) return *found;
  stop(table.place,
       fmt::format("{} is missing: write {} = {}", formula::in_quotes(key), key, example));
}

/// "8 h to 16 h".
std::pair<Time, Time> from_to(const Node& value) {
  const std::string& text = formula::text_of(value, "8 h to 16 h");
  const std::size_t at = text.find(" to ");
  if (at == std::string::npos) stop(value.place, "says from when to when: write \"8 h to 16 h\"");
  const Time from = formula::at_place(formula::parse_time(text.substr(0, at)), value.place);
  const Time to = formula::at_place(formula::parse_time(text.substr(at + 4)), value.place);
  if (to <= from || to > 5.0 * day) stop(value.place, "ends after it begins, within 5 days");
  return {from, to};
}

class DayReader {
 public:
  DayReader(const std::string& origin,
            const time::Zone& zone,
            const NamedBake& named,
            std::optional<time::Instant> again)
      : named_(named), again_(again) {
    day_.zone = zone;
    day_.file = origin;
  }

  DayFile read(const Node& root) {
    formula::check_keys(
        root, "at the top of a day's file", {"name", "begins", "bread", "house", "bake"});
    day_.name = formula::text_of(needed(root, "name", "\"Saturday\""), "Saturday");
    const time::Instant written = moment(needed(root, "begins", "2026-11-27T05:00:00"));
    const time::Instant begins = std::max(written, again_.value_or(written));
    day_.begins = {(begins.seconds + five_minutes - 1) / five_minutes * five_minutes};
    bread_ = wanted(needed(root, "bread", "2026-11-28T08:00:00"));
    const Node& bakes = needed(root, "bake", "one [[bake]] or more");
    if (bakes.kind != Node::Kind::list || bakes.items.empty() || bakes.items.size() > most_bakes)
      stop(bakes.place, fmt::format("one to {} bakes: write [[bake]]", most_bakes));
    for (const Node& each : bakes.items) bake(each);
    house(needed(root, "house", "a table [house]"));
    return std::move(day_);
  }

 private:
  time::Instant moment(const Node& value) const {
    const auto local =
        value.kind == Node::Kind::date_time ? time::parse_local(value.text) : std::nullopt;
    if (!local || !local->date) stop(value.place, "is no day and time: write 2026-11-28T08:00:00");
    const auto at = day_.zone.instants(*local);
    if (at.empty()) stop(value.place, "is a time that the change of clocks leaves out");
    return at.front();
  }

  time::Instant wanted(const Node& value) const {
    const time::Instant at = moment(value);
    if (at.seconds % five_minutes != 0)
      stop(value.place, "goes to whole five minutes: 08:00 or 08:05");
    if (at <= day_.begins) stop(value.place, "is not after the plan begins");
    if ((at - day_.begins) > longest_plan_days * day)
      stop(value.place,
           fmt::format("is more than {:g} days after the plan begins", longest_plan_days));
    return at;
  }

  void bake(const Node& table) {
    if (table.kind != Node::Kind::table) stop(table.place, "is a table: write [[bake]]");
    formula::check_keys(table, "in [[bake]]", {"file", "loaves", "bread", "or", "done"});
    const Node& file = needed(table, "file", "\"mead-loaf.toml\"");
    const std::string& name = formula::text_of(file, "mead-loaf.toml");
    auto known = named_(name, file.place);
    if (!known) throw formula::Stopped{known.error()};
    DayBake out;
    static_cast<KnownBake&>(out) = std::move(*known);
    out.file = name;
    out.place = table.place;
    out.done = steps_done(out, day_.begins);
    const Node* loaves = formula::find(table, "loaves");
    out.loaves =
        loaves != nullptr ? whole(*loaves, 1, most_of_anything) : out.bake.pieces.value_or(1);
    const Node* bread = formula::find(table, "bread");
    out.bread = bread != nullptr ? wanted(*bread) : bread_;
    if (const Node* others = formula::find(table, "or")) {
      if (others->kind != Node::Kind::list)
        stop(others->place, "is a list: write or = [{ bulk = \"27 C\" }]");
      for (const Node& each : others->items) out.others.push_back(other(each, out.bake));
    }
    if (const Node* done = formula::find(table, "done")) {
      for (const Entry& each : done->entries) out.done[each.key] = moment(each.value);
    }
    day_.bakes.push_back(std::move(out));
  }

  static OtherWay other(const Node& table, const formula::Bake& bake) {
    if (table.kind != Node::Kind::table || table.entries.empty())
      stop(table.place,
           "is another way: write { bulk = \"27 C\" }, { fridge = \"8 h to 16 h\" }, { loads = 2 } "
           "or "
           "{ levain = \"30 %\" }");
    formula::check_keys(table, "in another way", {"bulk", "fridge", "loads", "levain"});
    OtherWay out;
    if (const Node* bulk = formula::find(table, "bulk")) {
      out.bulk = formula::at_place(formula::parse_temperature(formula::text_of(*bulk, "27 C")),
                                   bulk->place);
      if (out.bulk->celsius() < 10 || out.bulk->celsius() > 40)
        stop(bulk->place, "a bulk is planned from 10 C to 40 C");
    }
    if (const Node* fridge = formula::find(table, "fridge")) out.fridge = from_to(*fridge);
    if (const Node* loads = formula::find(table, "loads")) out.loads = whole(*loads, 1, 4);
    if (const Node* levain = formula::find(table, "levain")) {
      if (levain_of_flour(bake) == nullptr)
        stop(levain->place, "is for a bowl that states its levain as a share of the flour");
      out.levain = formula::share_of(*levain, "30 %", 0.01, 1.0);
    }
    return out;
  }

  void house(const Node& table) {
    if (table.kind != Node::Kind::table) stop(table.place, "is a table: write [house]");
    formula::check_keys(
        table,
        "in [house]",
        {"hands", "mixers", "bench", "fridge", "decks", "loaves_on_a_deck", "night", "rest"});
    House& house = day_.house;
    const auto count = [&](const char* key, int least, int& to) {
      if (const Node* value = formula::find(table, key))
        to = whole(*value, least, most_of_anything);
    };
    count("hands", 1, house.hands);
    count("mixers", 0, house.mixers);
    count("bench", 1, house.bench);
    count("fridge", 0, house.fridge);
    count("decks", 1, house.decks);
    count("loaves_on_a_deck", 1, house.loaves_on_a_deck);
    if (const Node* night = formula::find(table, "night")) nights(*night);
    if (const Node* rest = formula::find(table, "rest")) rests(*rest);
    std::sort(house.nobody.begin(), house.nobody.end());
  }

  [[nodiscard]] time::Instant last() const {
    time::Instant out = bread_;
    for (const DayBake& each : day_.bakes) out = std::max(out, each.bread);
    return out;
  }

  void nights(const Node& value) {
    const std::string& text = formula::text_of(value, "21:30 to 04:00");
    const std::size_t at = text.find(" to ");
    const auto from =
        at == std::string::npos ? std::nullopt : time::parse_local(text.substr(0, at));
    const auto to = at == std::string::npos ? std::nullopt : time::parse_local(text.substr(at + 4));
    if (!from || !to || from->date || to->date || *from == *to)
      stop(value.place, "is no night: write \"21:30 to 04:00\"");
    const bool past_midnight = to->second_of_day < from->second_of_day;
    for (time::Date date{day_.zone.day(day_.begins).days - 1}; date <= day_.zone.day(last());
         ++date.days) {
      const time::Date morning{date.days + (past_midnight ? 1 : 0)};
      day_.house.nobody.emplace_back(day_.zone.instant({date, from->second_of_day}),
                                     day_.zone.instant({morning, to->second_of_day}));
    }
  }

  void rests(const Node& value) {
    if (value.kind != Node::Kind::list)
      stop(value.place, "is a list of days: write rest = [2026-11-29]");
    for (const Node& each : value.items) {
      const auto date = each.kind == Node::Kind::date ? time::parse_date(each.text) : std::nullopt;
      if (!date) stop(each.place, "is no day: write 2026-11-29");
      day_.house.nobody.emplace_back(day_.zone.instant({date, 0}),
                                     day_.zone.instant({time::Date{date->days + 1}, 0}));
    }
  }

  const NamedBake& named_;
  std::optional<time::Instant> again_;
  DayFile day_;
  time::Instant bread_;
};

}  // namespace

const formula::Portion* levain_of_flour(const formula::Bake& bake) {
  for (const formula::Portion& portion : bake.bowl) {
    if (portion.levain && portion.measure == formula::Measure::of_flour) return &portion;
  }
  return nullptr;
}

std::string made_from(const DayFile& file) {
  std::string all;
  for (const DayBake& each : file.bakes) all += each.made_from + '\n';
  return digest(all);
}

Result<DayFile> parse_day(const std::string& text,
                          const std::string& origin,
                          const time::Zone& zone,
                          const NamedBake& bake,
                          std::optional<time::Instant> again) {
  const auto root = formula::parse_document(text, origin);
  if (!root) return failure(root);
  try {
    return DayReader(origin, zone, bake, again).read(*root);
  } catch (const formula::Stopped& stopped) {
    return failure(stopped.error);
  }
}

}  // namespace barm::service
