#include "dayplan/told.h"

#include <fmt/format.h>

#include <algorithm>

#include "dayplan/busy.h"

namespace barm::dayplan {

namespace {

constexpr std::size_t most_doubts = 4;

std::string step_of(const Day& day, const Plan& plan, At at) {
  return fmt::format(
      "{} of the {}", way_of(day, plan, at.bake).steps[at.step].what, day.bakes[at.bake].name);
}

/// The bakes of these steps, each once.
std::vector<std::size_t> bakes_of(const std::vector<At>& steps) {
  std::vector<std::size_t> out;
  for (const At& at : steps) {
    if (std::find(out.begin(), out.end(), at.bake) == out.end()) out.push_back(at.bake);
  }
  return out;
}

/// "the mead loaf, the stout loaf and the perry loaf".
std::string names(const Day& day, const std::vector<std::size_t>& bakes) {
  std::string out;
  for (std::size_t i = 0; i < bakes.size(); ++i) {
    if (i > 0) out += i + 1 == bakes.size() ? " and " : ", ";
    out += "the " + day.bakes[bakes[i]].name;
  }
  return out;
}

std::string counted(const Resource& what, int amount) {
  return fmt::format("{} {}", amount, amount == 1 ? what.one : what.many);
}

std::string capital(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text;
}

/// The courses that bakes would have with the house to themselves, as a plan of a smaller day.
std::vector<std::string> met_alone(const Day& day,
                                   const std::vector<std::size_t>& bakes,
                                   const Planned& planned,
                                   const Clock& clock) {
  const Day fewer = only(day, bakes);
  Plan alone;
  for (const std::size_t b : bakes) alone.push_back(*planned.alone[b]);
  std::vector<std::string> out;
  for (const Clash& clash : clashes(fewer, alone)) {
    const Resource& what = day.house[clash.resource];
    out.push_back(fmt::format("Each at its own best hour, {} would take {} at {}; there {} {}.",
                              names(fewer, bakes_of(clash.takers)),
                              counted(what, clash.wanted),
                              clock(clash.when.from),
                              what.capacity == 1 ? "is" : "are",
                              what.capacity));
  }
  return out;
}

/// The bakes that would meet, each at its own best hour.
std::vector<std::size_t> who_meets(const Day& day, const Planned& planned) {
  Plan alone;
  for (const auto& course : planned.alone) alone.push_back(*course);
  std::vector<At> takers;
  for (const Clash& clash : clashes(day, alone))
    takers.insert(takers.end(), clash.takers.begin(), clash.takers.end());
  return bakes_of(takers);
}

std::string in_hours(Minutes minutes) {
  return fmt::format("{} h {:02}", minutes / 60, minutes % 60);
}

std::string too_much(const Day& day, const OverFull& full, const Clock& clock) {
  const Resource& what = day.house[full.resource];
  return fmt::format("From {} to {} they hold {} for {} at least; {} there {} for {} in all.",
                     clock(full.when.from),
                     clock(full.when.to),
                     what.many,
                     in_hours(full.needed),
                     counted(what, what.capacity),
                     what.capacity == 1 ? "is" : "are",
                     in_hours(full.there));
}

std::string no_way_alone(const Day& day, std::size_t bake, const Clock& clock) {
  const Bake& what = day.bakes[bake];
  const Minutes least = shortest(what);
  if (least > what.wanted) {
    return fmt::format(
        "The {} cannot be there by {}: from its first step to cooled bread it takes "
        "{} at least, and the plan begins only {} before.",
        what.name,
        clock(what.wanted),
        in_hours(least),
        in_hours(what.wanted));
  }
  return fmt::format("The {} cannot be there by {}, even with the house to itself.",
                     what.name,
                     clock(what.wanted));
}

}  // namespace

std::string say(const Day& day, const Plan& plan, const Fault& fault, const Clock& clock) {
  using Kind = Fault::Kind;
  if (fault.kind == Kind::no_course) return "a bake goes by a way that it has not";
  const Way& way = way_of(day, plan, fault.at.bake);
  const Minutes begin = plan[fault.at.bake].begin[fault.at.step];
  std::string at = step_of(day, plan, fault.at) + " at " + clock(begin) + ": ";
  switch (fault.kind) {
    case Kind::before_begin:
      return at + "that is before the plan begins";
    case Kind::off_grid:
      return at + fmt::format("the plan goes in steps of {} min", day.grid);
    case Kind::out_of_order:
      return at + way.steps[fault.at.step - 1].what + " is not done then";
    case Kind::too_early:
      return at + "too early for the " + way.legs[fault.leg].what;
    case Kind::too_late:
      return at + "too late for the " + way.legs[fault.leg].what +
             (way.legs[fault.leg].given_up.empty() ? "" : "; " + way.legs[fault.leg].given_up);
    case Kind::closed:
      return at + "nobody works then";
    case Kind::moved:
      return at + "it has begun at another time";
    case Kind::too_many:
      return at +
             fmt::format("with {} it takes more than {} from {} to {}",
                         names(day, bakes_of(fault.takers)),
                         counted(day.house[fault.resource], day.house[fault.resource].capacity),
                         clock(fault.when.from),
                         clock(fault.when.to));
    case Kind::no_course:
      break;
  }
  return at;
}

std::vector<std::string> why_not(const Day& day,
                                 const Planned& planned,
                                 const Clock& clock,
                                 const Offers& offers) {
  const std::vector<std::size_t>& bakes = planned.stuck.bakes;
  if (planned.plan || bakes.empty()) return {};
  std::vector<std::string> out;
  if (bakes.size() == 1 && !planned.alone[bakes.front()]) {
    out.push_back(no_way_alone(day, bakes.front(), clock));
  } else {
    out.push_back(capital(fmt::format("{} {} be had together by {}.",
                                      names(day, bakes),
                                      planned.stuck.surely ? "cannot" : "could not",
                                      clock(day.bakes[bakes.front()].wanted))));
    if (planned.stuck.full) out.push_back(too_much(day, *planned.stuck.full, clock));
    for (std::string& line : met_alone(day, bakes, planned, clock)) out.push_back(std::move(line));
  }
  const std::vector<std::string> remedies = what_would_free(day, bakes, offers);
  for (const std::string& remedy : remedies) out.push_back("It would go with " + remedy + ".");
  if (remedies.empty()) {
    out.emplace_back(
        "Nothing that was tried frees it: one or two more of each, another way of a bake, the "
        "nights worked, or the bread up to four hours later.");
  }
  if (!planned.stuck.surely)
    out.emplace_back("Not every timetable was looked at: there may be one all the same.");
  return out;
}

std::vector<std::string> collisions(const Day& day,
                                    const Planned& planned,
                                    const Clock& clock,
                                    const Offers& offers) {
  std::vector<std::size_t> all(day.bakes.size());
  for (std::size_t b = 0; b < all.size(); ++b) all[b] = b;
  const auto& alone = planned.alone;
  if (!planned.plan || std::any_of(alone.begin(), alone.end(), [](const auto& c) { return !c; }))
    return {};
  std::vector<std::string> out = met_alone(day, all, planned, clock);
  if (out.empty()) return out;
  for (const std::string& more : what_would_ease(day, who_meets(day, planned), offers))
    out.push_back("More doughs would come through with " + more + ".");
  return out;
}

std::vector<std::string> doubts(const Day& day, const Plan& plan, const Worked& worked) {
  std::vector<std::string> out;
  for (const Missed& missed : worked.missed) {
    if (out.size() == most_doubts) break;
    const Way& way = way_of(day, plan, missed.bake);
    const Leg& leg = way.legs[missed.leg];
    const double hundreds =
        100.0 * static_cast<double>(missed.draws) / static_cast<double>(worked.all.draws);
    if (hundreds < 1) continue;
    const std::string what = leg.to == way.steps.size()
                                 ? "its bread is late"
                                 : fmt::format("it waits too long to {}{}",
                                               way.steps[leg.to].what,
                                               leg.given_up.empty() ? "" : ": " + leg.given_up);
    out.push_back(fmt::format(
        "The {}: {} in {:.0f} of 100 draws.", day.bakes[missed.bake].name, what, hundreds));
  }
  return out;
}

}  // namespace barm::dayplan
