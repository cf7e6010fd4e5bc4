#include "dayplan/window.h"

#include <algorithm>
#include <cmath>

#include "dayplan/due.h"

namespace barm::dayplan {

namespace {

/// The share of the doughs that are let through at each slot, by the slots at which each of them
/// comes and goes.
std::vector<double> shares(const Leg& leg, Minutes grid, Minutes shift, int horizon) {
  const std::size_t doughs = std::max(leg.ready.size(), leg.lasts.size());
  std::vector<double> change(static_cast<std::size_t>(horizon) + 2);
  const auto slots = [&](double minutes) { return (minutes - shift) / grid; };
  for (std::size_t k = 0; k < doughs; ++k) {
    const double ready = draw(leg.ready, k);
    const double first = std::max(0.0, std::ceil(slots(ready)));
    const double last = std::min<double>(horizon, std::floor(slots(ready + draw(leg.lasts, k))));
    if (!(first <= last)) continue;
    change[static_cast<std::size_t>(first)] += 1;
    change[static_cast<std::size_t>(last) + 1] -= 1;
  }
  double sum = 0;
  for (double& at : change) {
    sum += at;
    at = sum / static_cast<double>(doughs);
  }
  change.pop_back();
  return change;
}

}  // namespace

double share(const Leg& leg, double apart) {
  const std::size_t doughs = std::max(leg.ready.size(), leg.lasts.size());
  std::size_t through = 0;
  for (std::size_t k = 0; k < doughs; ++k) {
    const double ready = draw(leg.ready, k);
    if (apart >= ready && apart <= ready + static_cast<double>(draw(leg.lasts, k))) ++through;
  }
  return static_cast<double>(through) / static_cast<double>(doughs);
}

std::vector<Leg> priced_legs(const Way& way) {
  std::vector<Leg> out;
  const std::size_t end = way.steps.size();
  for (const Leg& leg : way.legs) {
    if (leg.known() || (leg.to < end && way.steps[leg.to].begun)) continue;
    out.push_back(leg);
    Leg to_bread{"the bread", leg.from, end, {}};
    const std::size_t doughs = std::max(leg.ready.size(), leg.lasts.size());
    std::vector<double> begun(end);
    for (std::size_t k = 0; k < doughs; ++k) {
      // Steps in front of it lie so far back that they hold up nothing.
      std::fill(begun.begin(), begun.end(), -1e6);
      begun[leg.from] = 0;
      for (std::size_t i = leg.from + 1; i < end; ++i)
        begun[i] = due(way, i, k, begun.data()).ready;
      to_bread.ready.push_back(static_cast<float>(due(way, end, k, begun.data()).ready));
    }
    out.push_back(std::move(to_bread));
  }
  return out;
}

std::optional<Window> window(const Leg& leg, Minutes grid, Minutes shift, int horizon) {
  const std::vector<double> through = shares(leg, grid, shift, horizon);
  const auto some = [](double share) { return share > 0; };
  const auto first = std::find_if(through.begin(), through.end(), some);
  if (first == through.end()) return std::nullopt;
  const auto last = std::find_if(through.rbegin(), through.rend(), some).base();
  Window out;
  out.least = static_cast<int>(first - through.begin());
  for (auto at = first; at != last; ++at)
    out.cost.push_back(*at > 0 ? std::lround(-cost_unit * std::log(*at)) : Window::never);
  return out;
}

}  // namespace barm::dayplan
