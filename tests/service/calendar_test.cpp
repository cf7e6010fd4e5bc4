// RFC 5545: lines end with CR LF and have at most 75 octets (3.1), text is escaped (3.3.11), an
// event has UID and DTSTAMP (3.6.1), an alarm that displays has TRIGGER and DESCRIPTION (3.6.6).
#include "service/bake/calendar.h"

#include <gmock/gmock.h>

#include <fstream>
#include <map>
#include <sstream>

#include "formula/read.h"
#include "support/in_central_europe.h"
#include "support/matchers.h"

namespace barm::service {
namespace {

using test::FailsWith;
using test::Holds;
using testing::Contains;
using testing::HasSubstr;
using testing::SizeIs;

const CalendarRequest request{
    15.0 * minute, time::parse_instant("2026-11-25T18:00:00Z").value(), time::Zone::fixed(3600)};

/// Content lines as a calendar program reads them: unfolded, each with its property and value.
std::vector<std::pair<std::string, std::string>> read(const std::string& text) {
  std::vector<std::pair<std::string, std::string>> out;
  std::string whole;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find("\r\n", at);
    EXPECT_NE(end, std::string::npos) << "a line without its end";
    if (end == std::string::npos) break;
    EXPECT_LE(end - at, 75U) << text.substr(at, end - at);
    std::string line = text.substr(at, end - at);
    EXPECT_EQ(line.find('\n'), std::string::npos);
    // No line begins within a character of several octets.
    EXPECT_NE(static_cast<unsigned char>(line.size() > 1 && line[0] == ' ' ? line[1] : ' ') & 0xC0U,
              0x80U);
    if (line.starts_with(' ')) {
      out.back().second += line.substr(1);
    } else {
      const std::size_t colon = line.find(':');
      out.emplace_back(line.substr(0, colon), line.substr(colon + 1));
    }
    at = end + 2;
  }
  return out;
}

std::string unescaped(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\') {
      out += text[i];
    } else {
      ++i;
      out += text[i] == 'n' ? '\n' : text[i];
    }
  }
  return out;
}

CalendarEntry entry(const std::string& key, const std::string& title) {
  const time::Instant seven = time::parse_instant("2026-11-28T07:00:00+01:00").value();
  return {key, seven, seven + 5400, title, "words"};
}

TEST(Calendar, TextComesBackAsItWas) {
  const std::string sly =
      "Half, and; half\\n\nEND:VEVENT " + std::string(90, 'x') + " \u00e9\u00e8\u20ac\U0001F35E";
  for (int pad = 0; pad < 80; ++pad) {
    const std::string title = std::string(static_cast<std::size_t>(pad), 'p') + sly;
    const auto lines = read(calendar_file("x", {entry("a", title)}, request));
    const auto summary = std::find_if(
        lines.begin(), lines.end(), [](const auto& line) { return line.first == "SUMMARY"; });
    ASSERT_NE(summary, lines.end());
    EXPECT_EQ(unescaped(summary->second), title);
  }
}

TEST(Calendar, EveryEventHasWhatItMustHave) {
  const auto lines = read(calendar_file("x", {entry("a", "one"), entry("b", "two")}, request));
  std::map<std::string, int> count;
  for (const auto& [property, value] : lines) ++count[property];
  EXPECT_EQ(lines.front(), std::pair(std::string("BEGIN"), std::string("VCALENDAR")));
  EXPECT_EQ(lines.back(), std::pair(std::string("END"), std::string("VCALENDAR")));
  EXPECT_EQ(count["VERSION"], 1);
  EXPECT_EQ(count["PRODID"], 1);
  for (const char* property : {"UID", "DTSTAMP", "DTSTART", "SUMMARY", "TRIGGER", "ACTION"})
    EXPECT_EQ(count[property], 2) << property;
  EXPECT_EQ(count["BEGIN"], count["END"]);
  EXPECT_THAT(lines, Contains(std::pair(std::string("TRIGGER"), std::string("-PT15M"))));
  EXPECT_THAT(lines, Contains(std::pair(std::string("DTSTART"), std::string("20261128T060000Z"))));
  EXPECT_THAT(lines, Contains(std::pair(std::string("DTEND"), std::string("20261128T073000Z"))));
}

TEST(Calendar, AnEventKeepsItsUidWhenItsTimeMoves) {
  CalendarEntry moved = entry("ready", "ready");
  moved.begins = moved.begins + 7200;
  const auto uid = [](const std::string& text) { return text.substr(text.find("UID:"), 30); };
  const std::string before = uid(calendar_file("x", {entry("ready", "ready")}, request));
  EXPECT_EQ(before, uid(calendar_file("x", {moved}, request)));
  EXPECT_NE(before, uid(calendar_file("y", {moved}, request)));
  EXPECT_NE(before, uid(calendar_file("x", {entry("mix", "ready")}, request)));
}

class OfABake : public testing::Test {
 protected:
  static Result<std::string> of(const std::string& text, const CalendarRequest& asked = request) {
    const auto bake = formula::parse_bake(text, "bake");
    if (!bake) return failure(bake);
    forecast::Options options;
    options.draws = 40;
    const auto foreseen = service::foresee(*bake, options);
    if (!foreseen) return failure(foreseen);
    return calendar(*foreseen, asked);
  }

  static std::string mead() {
    std::ostringstream out;
    out << std::ifstream(BARM_ROOT "/examples/mead-loaf.toml").rdbuf();
    return out.str();
  }
};

TEST_F(OfABake, HasMixingFoldsTheReadyWindowAndWhatFollows) {
  const auto text = of(mead());
  ASSERT_THAT(text, Holds());
  const auto lines = read(*text);
  std::vector<std::string> titles;
  for (const auto& [property, value] : lines) {
    if (property == "SUMMARY") titles.push_back(value.substr(0, value.find(':')));
  }
  for (const char* title : {"Mix",
                            "Fold",
                            "Look at the dough",
                            "May be ready",
                            "Divide into 6",
                            "Shape",
                            "Into the oven"})
    EXPECT_THAT(titles, Contains(title));
  EXPECT_THAT(lines, Contains(std::pair(std::string("DTSTART"), std::string("20261128T070000Z"))))
      << "the fold, an hour on";
}

TEST_F(OfABake, SaysAtTheOvenHowToLoadItAndWhatComesOut) {
  const auto text = of(mead() +
                       "[oven]\nset = [\"250 C\", \"15 min 220 C\"]\nbake = \"45 min\"\nsteam = "
                       "\"10 min\"\nloaves = 2\n");
  ASSERT_THAT(text, Holds());
  const auto lines = read(*text);
  const auto after_title = [&](const std::string& title) -> std::string {
    for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
      if (lines[i].first == "SUMMARY" && lines[i].second.starts_with(title))
        return unescaped(lines[i + 1].second);
    }
    return "";
  };
  const std::string in = after_title("Into the oven");
  EXPECT_THAT(
      in, HasSubstr("250 °C, from 15 min on 220 °C, steam for 10 min, 2 loaves at once, 45 min"));
  EXPECT_THAT(in, HasSubstr("core "));
  EXPECT_THAT(in, HasSubstr("% lighter"));
  EXPECT_THAT(in, HasSubstr("The oven maker's and local rules hold"));
  EXPECT_THAT(after_title("Out of the oven"), HasSubstr("Core "));
  EXPECT_THAT(after_title("Cool enough to cut"), testing::StartsWith("About"));
  EXPECT_THAT(after_title("Cool enough to bag"), testing::StartsWith("About"));
}

// Nights of the IANA time zone database: Europe/Berlin is put back at 01:00 UTC on 25 October 2026
// and forward at 01:00 UTC on 29 March 2026, America/New_York back at 06:00 UTC on 1 November 2026.
// The machine's own zone plays no part where the bakery's is named.
TEST_F(OfABake, FollowsTheClockThatIsChangedInTheNight) {
  const struct {
    const char *zone, *mixed, *mixing, *fold;
  } nights[] = {
      {"Europe/Berlin", "2026-10-25T00:00:00", "20261024T220000Z", "20261025T020000Z"},
      {"Europe/Berlin", "2026-03-29T00:30:00", "20260328T233000Z", "20260329T033000Z"},
      {"America/New_York", "2026-10-31T23:00:00", "20261101T030000Z", "20261101T070000Z"},
  };

  const test::InCentralEurope here;
  for (const auto& night : nights) {
    std::string text = mead();
    const auto write = [&](const std::string& from, const std::string& to) {
      text.replace(text.find(from), from.size(), to);
    };
    write("2026-11-28T07:00:00", night.mixed);
    write("after = \"1 h\"", "after = \"4 h\"");
    const auto file = of(text, {15.0 * minute, {}, time::Zone::named(night.zone).value()});
    ASSERT_THAT(file, Holds());
    const auto lines = read(*file);
    for (const char* moment : {night.mixing, night.fold})
      EXPECT_THAT(lines, Contains(std::pair(std::string("DTSTART"), std::string(moment))))
          << night.zone << ' ' << night.mixed;
  }
}

TEST_F(OfABake, GoesByItsOwnClockWhereItHasOne) {
  auto bake = formula::parse_bake(mead(), "bake");
  ASSERT_THAT(bake, Holds());
  // The second hour between two and three of that night.
  const time::Instant second_time = time::parse_instant("2026-10-25T01:30:00Z").value();
  bake->clock.emplace(second_time, time::Zone::named("Europe/Berlin").value());
  bake->mixed_at = time::parse_local("2026-10-25T02:30");
  forecast::Options options;
  options.draws = 40;
  const auto foreseen = service::foresee(*bake, options);
  ASSERT_THAT(foreseen, Holds());
  const auto file = calendar(*foreseen, request);
  ASSERT_THAT(file, Holds());
  EXPECT_THAT(read(*file),
              Contains(std::pair(std::string("DTSTART"), std::string("20261025T013000Z"))));
}

TEST_F(OfABake, NeedsTheDay) {
  std::string text = mead();
  text.replace(text.find("2026-11-28T07:00:00"), 19, "\"07:00\"");
  EXPECT_THAT(of(text), FailsWith(ErrorCode::bad_input));
}

}  // namespace
}  // namespace barm::service
