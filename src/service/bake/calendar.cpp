#include "service/bake/calendar.h"

#include <fmt/format.h>

#include <cctype>
#include <cmath>
#include <map>

#include "base/digest.h"
#include "service/bake/head.h"
#include "service/oven/words.h"
#include "service/words.h"

namespace barm::service {

namespace {

constexpr std::size_t longest_line = 75;  // octets, RFC 5545 3.1

// RFC 5545 3.3.11: a backslash before backslash, semicolon and comma; a line break is \n.
std::string as_calendar_text(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\' || c == ';' || c == ',') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (static_cast<unsigned char>(c) >= 0x20 && c != 0x7F) {
      out += c;
    }
  }
  return out;
}

// A line in pieces of at most 75 octets, each after the first begun by a blank; never within a
// character.
std::string folded(std::string_view line) {
  std::string out;
  std::size_t room = longest_line;
  while (line.size() > room) {
    std::size_t cut = room;
    while (cut > 0 && (static_cast<unsigned char>(line[cut]) & 0xC0U) == 0x80U) --cut;
    out += std::string(line.substr(0, cut)) + "\r\n ";
    line.remove_prefix(cut);
    room = longest_line - 1;
  }
  return out + std::string(line) + "\r\n";
}

// "20261128T060000Z".
std::string stamp(time::Instant at) {
  std::string out = at.text();
  std::erase_if(out, [](char c) { return c == '-' || c == ':'; });
  return out;
}

std::string trigger(Time before) {
  const long minutes = std::lround(before.in(minute));
  return minutes == 0 ? "PT0S" : fmt::format("-PT{}M", minutes);
}

std::string event(const std::string& name,
                  const CalendarEntry& entry,
                  const CalendarRequest& request) {
  std::string out = "BEGIN:VEVENT\r\n";
  const auto add = [&](const std::string& line) { out += folded(line); };
  // The same words give the same UID wherever they are said.
  add("UID:" + digest(name + '\n' + entry.key) + "@barmwright");
  add("DTSTAMP:" + stamp(request.made_at));
  add("DTSTART:" + stamp(entry.begins));
  if (entry.ends) add("DTEND:" + stamp(*entry.ends));
  add("SUMMARY:" + as_calendar_text(entry.title));
  if (!entry.words.empty()) add("DESCRIPTION:" + as_calendar_text(entry.words));
  out += "BEGIN:VALARM\r\nACTION:DISPLAY\r\n";
  add("TRIGGER:" + trigger(request.alarm_before));
  add("DESCRIPTION:" + as_calendar_text(entry.title));
  return out + "END:VALARM\r\nEND:VEVENT\r\n";
}

/// Gathers what is to be done, in hours after mixing.
class Entries {
 public:
  Entries(const formula::Bake& bake, const time::WallClock& wall) : bake_(bake), wall_(wall) {}

  void add(const std::string& key,
           const std::string& what,
           Time at,
           const std::string& words,
           std::optional<Time> until = std::nullopt) {
    CalendarEntry entry;
    entry.key = key;
    entry.title = bake_.name.empty() ? what : what + ": " + bake_.name;
    entry.words = words;
    entry.begins = to_the_minute(at);
    // An end at the beginning is none: RFC 5545 wants it later.
    if (until && to_the_minute(*until) > entry.begins) entry.ends = to_the_minute(*until);
    entries_.push_back(std::move(entry));
  }

  [[nodiscard]] const std::vector<CalendarEntry>& all() const { return entries_; }

 private:
  [[nodiscard]] time::Instant to_the_minute(Time at) const {
    return time::to_nearest(60, *wall_.instant(at));
  }

  const formula::Bake& bake_;
  const time::WallClock& wall_;
  std::vector<CalendarEntry> entries_;
};

void add_ready(Entries& entries, const ForeseeAnswer& answer, const time::WallClock& wall) {
  const forecast::Spread& ready = answer.forecast.ready;
  if (answer.look_again)
    entries.add("look", "Look at the dough", *answer.look_again, "A look tells most now.");
  if (!ready.p50) return;
  std::string words =
      "Most likely " + wall.moment(*ready.p50) + ", " + risen(answer.forecast.target) + ".";
  if (ready.p10 && ready.p90) {
    words += " 4 of 5 doughs like this one: " + wall.moment(*ready.p10) + " to " +
             wall.moment(*ready.p90) + ".";
  }
  const std::string never = odds(answer.forecast.never, answer.forecast.draws);
  if (answer.forecast.never.value() > 0)
    words += " Not within " + span(answer.forecast.horizon) + ": " + never + ".";
  entries.add("ready", "May be ready", ready.p10.value_or(*ready.p50), words, ready.p90);
}

std::string capital(std::string words) {
  if (!words.empty())
    words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
  return words;
}

// What the telephone in the pocket says to who stands there.
std::string at_the_oven(const forecast::ToDo& to_do, const OvenAnswer& oven) {
  if (to_do.act == forecast::Act::out_of_the_oven)
    return " " + capital(as_it_comes_out(oven)) + ".";
  if (to_do.act != forecast::Act::into_the_oven) return "";
  if (to_do.load > 1) return " " + capital(as_it_goes_in(oven, to_do.load)) + ".";
  const std::string vapour = vapour_in_short(oven);
  return fmt::format(" {}, {}: {}.{}",
                     how_to_load(oven),
                     how_long(oven),
                     as_it_comes_out(oven),
                     vapour.empty() ? "" : " " + vapour);
}

// Everything that hands are to do, by the same draws: an entry begins when half of such doughs are
// there and says when 4 of 5 are.
void add_to_do(Entries& entries, const ForeseeAnswer& answer, const time::WallClock& wall) {
  const forecast::Timeline& timeline = answer.forecast.timeline;
  std::map<std::string, int> numbers;
  for (const forecast::ToDo& one : timeline.to_do) {
    const std::string act(name(one.act));
    const std::string key = fmt::format("{}-{}", act, ++numbers[act]);
    if (!one.at.p50 || one.act == forecast::Act::mix) continue;
    entries.add(key,
                capital(service::what_to_do(one, timeline, answer.bowl.bake)),
                *one.at.p50,
                capital(about_when(one.at, wall, timeline.horizon)) + "." +
                    (answer.oven ? at_the_oven(one, *answer.oven) : ""));
  }
}

}  // namespace

Result<std::string> calendar(const ForeseeAnswer& answer, const CalendarRequest& request) {
  const formula::Bake& bake = answer.bowl.bake;
  const auto by_its_words = mixed_on(bake, request.zone);
  if (!bake.clock && !by_its_words) return failure(by_its_words);
  const time::WallClock wall = bake.clock ? *bake.clock : *by_its_words;
  if (!wall.instant(Time{})) {
    return failure(ErrorCode::bad_input,
                   "mixed",
                   "a calendar needs the day of mixing: write mixed = 2026-11-28T07:00:00");
  }
  Entries entries(bake, wall);
  entries.add("mix", "Mix", Time{}, "");
  add_ready(entries, answer, wall);
  add_to_do(entries, answer, wall);
  return calendar_file(bake.name + '\n' + bake.mixed_at->text(), entries.all(), request);
}

std::string calendar_file(const std::string& name,
                          const std::vector<CalendarEntry>& entries,
                          const CalendarRequest& request) {
  std::string out =
      "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Barmwright//barm//EN\r\nCALSCALE:GREGORIAN\r\n";
  for (const CalendarEntry& entry : entries) out += event(name, entry, request);
  return out + "END:VCALENDAR\r\n";
}

}  // namespace barm::service
