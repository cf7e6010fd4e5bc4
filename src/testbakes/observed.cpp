#include "testbakes/observed.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <optional>
#include <sstream>
#include <tuple>

#include "base/csv.h"
#include "base/file_text.h"
#include "formula/words.h"

namespace barm::testbakes {

namespace {

using formula::folded;

constexpr double first_mark_until = 0.34;  // [h]
constexpr std::size_t most_rows = 20000;

std::optional<double> number(const std::string& text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value))
    return std::nullopt;
  return value;
}

class ObservedReader {
 public:
  ObservedReader(const TestBake& test, const std::string& file) : test_(test), file_(file) {
    if (test.seed) plan_ = plan(test);
  }

  Result<std::vector<Watched>> read(std::string_view text) {
    const csv::Table table = csv::table_of(text);
    if (table.open_quote > 0) {
      line_ = table.open_quote;
      return bad("opens a quote that never closes");
    }
    for (const csv::Row& row : table.rows) {
      line_ = row.front().line;
      const auto done = columns_.empty() ? read_names(row) : read_row(row);
      if (!done) return failure(done);
      if (++rows_ > most_rows) return bad("is over 20000 lines: a few looks at each jar will do");
    }
    if (jars_.empty())
      return bad("holds no readings: day, label, hours, height_mm and a line a look");
    return finished();
  }

 private:
  using Key = std::tuple<std::size_t, std::size_t, int>;

  tl::unexpected<Error> bad(const std::string& message) const {
    return failure(
        ErrorCode::bad_input, line_ > 0 ? fmt::format("{}:{}", file_, line_) : file_, message);
  }

  Result<bool> read_names(const csv::Row& row) {
    for (const csv::Cell& cell : row) {
      const std::string name = folded(cell.text);
      for (const char* known :
           {"day", "label", "dough", "jar", "hours", "height_mm", "ratio", "remark"}) {
        if (name == known) {
          columns_.push_back(name);
          break;
        }
      }
      if (columns_.empty() || columns_.back() != name) {
        return bad(
            "\"" + cell.text +
            "\" is no column. There are: day, label, dough, jar, hours, height_mm, ratio, remark");
      }
    }
    const auto there = [&](const char* name) {
      return std::count(columns_.begin(), columns_.end(), name) > 0;
    };
    if (!there("label") && !there("dough")) return bad("needs a column label or dough");
    if (!there("hours")) return bad("needs a column hours, after mixing");
    if (!there("height_mm") && !there("ratio")) return bad("needs a column height_mm or ratio");
    if (!there("day") && test_.days.size() > 1) return bad("needs a column day: there are several");
    return true;
  }

  Result<bool> read_row(const csv::Row& values) {
    if (values.size() != columns_.size())
      return bad(fmt::format("has {} cells, not {}", values.size(), columns_.size()));
    std::map<std::string, std::string> row;
    for (std::size_t i = 0; i < values.size(); ++i) row[columns_[i]] = values[i].text;
    const auto day = day_of(row);
    if (!day) return failure(day);
    const auto key = key_of(*day, row);
    if (!key) return failure(key);
    const auto hours = number(row["hours"]);
    if (!hours || *hours < 0 || *hours > 1440)
      return bad("\"" + row["hours"] + "\" is no time: hours after mixing, such as 6.5");
    if (!row["height_mm"].empty()) return add_height(*key, *hours, row["height_mm"]);
    const auto ratio = number(row["ratio"]);
    if (!ratio || *ratio < 0.3 || *ratio > 12)
      return bad("\"" + row["ratio"] + "\" is no ratio: 1 at the first mark, 2 when doubled");
    jars_[*key].looks.push_back({*hours, *ratio});
    return true;
  }

  Result<bool> add_height(const Key& key, double hours, const std::string& text) {
    const auto height = number(text);
    if (!height || *height < 2 || *height > 2000)
      return bad("\"" + text + "\" is no height in mm, such as 85");
    heights_[key].push_back({hours, *height});
    jars_[key];
    return true;
  }

  Result<std::size_t> day_of(std::map<std::string, std::string>& row) const {
    if (row["day"].empty() && test_.days.size() == 1) return std::size_t{0};
    const auto at = std::find(test_.days.begin(), test_.days.end(), row["day"]);
    if (at == test_.days.end())
      return bad("\"" + row["day"] + "\" is no day of the test bake; it has " + listed(test_.days));
    return static_cast<std::size_t>(at - test_.days.begin());
  }

  static std::string listed(const std::vector<std::string>& words) {
    std::string out;
    for (const auto& word : words) out += (out.empty() ? "" : ", ") + word;
    return out;
  }

  Result<Key> key_of(std::size_t day, std::map<std::string, std::string>& row) const {
    if (!row["label"].empty()) {
      if (!test_.seed)
        return bad(
            "has labels, but the test bake names no seed from which they were drawn: "
            "barm testbake plan draws one and keeps it");
      for (const Jar& jar : plan_) {
        if (jar.day == day && jar.label == row["label"]) return Key{day, jar.dough, jar.repeat};
      }
      return bad("\"" + row["label"] + "\" is no label of that day; barm testbake plan lists them");
    }
    for (std::size_t d = 0; d < test_.doughs.size(); ++d) {
      if (folded(test_.doughs[d].name) != folded(row["dough"])) continue;
      const double jar = row["jar"].empty() ? 1 : number(row["jar"]).value_or(0);
      if (jar < 1 || jar > test_.jars || jar != std::floor(jar))
        return bad(fmt::format("\"{}\" is no jar: 1 to {}", row["jar"], test_.jars));
      return Key{day, d, static_cast<int>(jar)};
    }
    return bad("\"" + row["dough"] + "\" is no dough of the test bake");
  }

  Result<std::vector<Watched>> finished() {
    std::vector<Watched> out;
    line_ = 0;
    for (auto& [key, jar] : jars_) {
      std::tie(jar.day, jar.dough, jar.repeat) = key;
      jar.start = test_.jar;
      const auto by_time = [](const auto& a, const auto& b) { return a.hours < b.hours; };
      auto& heights = heights_[key];
      std::stable_sort(heights.begin(), heights.end(), by_time);
      if (!heights.empty() && heights.front().hours <= first_mark_until)
        jar.start = heights.front().ratio * millimetre;
      for (const Look& look : heights)
        jar.looks.push_back({look.hours, look.ratio / jar.start.in(millimetre)});
      std::stable_sort(jar.looks.begin(), jar.looks.end(), by_time);
      const auto at_the_start = [](const Look& look) { return look.hours <= first_mark_until; };
      jar.looks.erase(std::remove_if(jar.looks.begin(), jar.looks.end(), at_the_start),
                      jar.looks.end());
      if (jar.looks.empty()) {
        return bad(fmt::format("has no look at \"{}\" on {} after the first mark",
                               test_.doughs[jar.dough].name,
                               test_.days[jar.day]));
      }
      out.push_back(std::move(jar));
    }
    return out;
  }

  const TestBake& test_;
  const std::string& file_;
  std::vector<Jar> plan_;
  std::vector<std::string> columns_;
  std::map<Key, Watched> jars_;
  std::map<Key, std::vector<Look>> heights_;  // `ratio` holds mm
  int line_ = 0;
  std::size_t rows_ = 0;
};

}  // namespace

Result<std::vector<Watched>> parse_observed(const TestBake& test,
                                            std::string_view text,
                                            const std::string& file) {
  return ObservedReader(test, file).read(text);
}

Result<std::vector<Watched>> read_observed(const TestBake& test) {
  if (!test.readings) {
    return failure(ErrorCode::not_found,
                   test.file,
                   "names no readings: write readings = \"readings.csv\", a file beside it");
  }
  constexpr std::size_t most_bytes = 10'000'000;
  const auto text = file_text(*test.readings, most_bytes);
  if (!text) return failure(text);
  return parse_observed(test, *text, *test.readings);
}

}  // namespace barm::testbakes
