#include "service/oven.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "service/aim.h"
#include "service/internal/oven_asked.h"
#include "service/words.h"

namespace barm::service {

namespace {

Ripeness ripeness_of(const oven::Loaf& loaf) {
  constexpr double too_little_room = 0.1;
  constexpr double too_much_room = 0.9;
  if (loaf.room < too_little_room) return Ripeness::ripe;
  return loaf.room > too_much_room ? Ripeness::young : Ripeness::right;
}

std::string percent_of_air(double share) {
  return share >= 0.1 ? fmt::format("{:.0f} %", 100 * share) : fmt::format("{:.2g} %", 100 * share);
}

std::vector<std::string> cautions_of(const OvenAnswer& answer) {
  std::vector<std::string> out;
  const oven::Vapour& vapour = answer.many.vapour;
  const bool closed = vapour.closed >= vapour.warn_from;
  const bool vented = answer.many.vented.p90 >= vapour.warn_from;
  if (vented) {
    out.push_back(fmt::format(
        "Alcohol vapour: vented the oven may hold about {} of it (4 of 5: {} to {}), closed {}; it "
        "burns from {} on, and a quarter of that is where people act. Bakers open the vent or the "
        "door by a crack in the first third, no flame, face and sleeves away from the opening "
        "door. The oven maker's and local rules hold.",
        percent_of_air(answer.many.vented.p50),
        percent_of_air(answer.many.vented.p10),
        percent_of_air(answer.many.vented.p90),
        percent_of_air(vapour.closed),
        percent_of_air(vapour.limit)));
  } else if (closed) {
    out.push_back(fmt::format(
        "An oven that let nothing go could come to {} of alcohol vapour, and it burns from {} on: "
        "bakers leave the vent open in the first third. The oven maker's and local rules hold.",
        percent_of_air(vapour.closed),
        percent_of_air(vapour.limit)));
  }
  if (vented && answer.oven.loaves > vapour.loaves_at_once) {
    out.push_back(
        vapour.loaves_at_once > 0
            ? fmt::format(
                  "Fewer at once: {} {} stay under a quarter of the limit in an oven vented "
                  "as most; how yours is vented is not known.",
                  vapour.loaves_at_once,
                  vapour.loaves_at_once == 1 ? "loaf would" : "loaves would")
            : "Not even one loaf stays under a quarter of the limit in an oven vented as most; how "
              "yours is vented is not known.");
  }
  const bool sealed = answer.oven.steam.si() > 0 && closed;
  if (sealed) {
    out.emplace_back(
        "Ovens that seal for steam hold the vapour: bakers do not bake strong doughs "
        "in them closed.");
  }
  if (answer.ethanol.in(gram)*answer.many.alcohol.p90 > 0.5) {
    out.push_back(fmt::format(
        "Some alcohol stays: of {} in a loaf {} to {} (4 of 5). Bakers tell every guest, for some "
        "must avoid it; the label asks about it.",
        weight(answer.ethanol),
        grams(answer.many.alcohol.p10 * answer.ethanol),
        weight(answer.many.alcohol.p90 * answer.ethanol)));
  }
  return out;
}

Result<OvenAnswer> prepared(const formula::Bake& written,
                            const OvenRequest& request,
                            forecast::Options& options) {
  formula::Bake bake = written;
  if (bake.target_follows && !(options.target > 0)) {
    const auto ready_for = aim(bake, options);
    if (!ready_for) return failure(ready_for);
  }
  const auto dough = forecast::foresee_middle(bake, options);
  if (!dough) return failure(dough);
  auto asked = internal::asked_of(*dough, request.said, bake.oven.value_or(formula::OvenTable{}));
  if (!asked) return failure(asked);
  OvenAnswer answer;
  answer.name = bake.name;
  answer.oven = asked->oven;
  answer.loaf = asked->loaf;
  answer.known = asked->known;
  answer.lasts = asked->lasts;
  answer.typed = asked->typed;
  answer.room = asked->room;
  answer.assumed = std::move(asked->assumed);
  answer.ethanol = oven::ethanol_of(answer.loaf);
  answer.ripeness = ripeness_of(answer.loaf);
  return answer;
}

// So that every screen has one answer: of the bake as it is written, whatever was drawn, read or
// learned of its dough.
forecast::Options as_written(const forecast::Options& options) {
  forecast::Options out;
  out.temperature = options.temperature;
  out.target = options.target;
  out.threads = options.threads;
  out.cancelled = options.cancelled;
  return out;
}

std::vector<double> in_hours(const std::vector<double>& seconds) {
  constexpr double never = 1e9;
  std::vector<double> out;
  for (const double one : seconds)
    out.push_back(one < never ? one / 3600 : std::numeric_limits<double>::infinity());
  return out;
}

}  // namespace

Result<OvenAnswer> oven(const formula::Bake& bake,
                        const OvenRequest& request,
                        const forecast::Options& wanted) {
  forecast::Options options = wanted;
  auto answer = prepared(bake, request, options);
  if (!answer) return answer;
  if (!request.probe.empty() || request.weighed) {
    const auto learned =
        oven::learn({{answer->loaf, answer->oven, answer->lasts, request.probe, request.weighed}});
    if (!learned) return failure(learned);
    answer->learned = *learned;
    answer->known = learned->known;
  }
  answer->many = oven::many(answer->loaf,
                            answer->oven,
                            answer->known,
                            answer->lasts,
                            answer->room,
                            options.draws,
                            options.seed,
                            options.threads);
  answer->cautions = cautions_of(*answer);
  return answer;
}

oven::Range OvenAnswer::in_oven() const {
  return typed ? oven::Range{lasts.si(), lasts.si(), lasts.si()} : many.done_after;
}

forecast::InTheOven hours_of(const OvenAnswer& answer) {
  const auto bakes =
      answer.typed ? std::vector<double>{answer.lasts.in(hour)} : in_hours(answer.many.done);
  return {bakes, in_hours(answer.many.cut), in_hours(answer.many.bag)};
}

Result<std::optional<OvenAnswer>> its_oven(const formula::Bake& bake,
                                           const forecast::Options& options) {
  if (!bake.oven) return std::optional<OvenAnswer>();
  auto answer = oven(bake, {}, as_written(options));
  if (!answer) return failure(answer);
  return std::optional(*std::move(answer));
}

Result<std::optional<OvenAnswer>> through_the_oven(forecast::Timeline& timeline,
                                                   const formula::Bake& bake,
                                                   const forecast::Options& options) {
  auto answer = its_oven(bake, options);
  if (answer && *answer) forecast::add_oven_stages(timeline, hours_of(**answer), options.done);
  return answer;
}

Result<std::optional<OvenLeaves>> oven_leaves(const formula::Bake& bake) {
  const auto answer = its_oven(bake);
  if (!answer) return failure(answer);
  if (!*answer) return std::optional<OvenLeaves>();
  const oven::Many& many = (*answer)->many;
  return std::optional(OvenLeaves{.loss = many.loss.p50 + many.cooling_loss,
                                  .alcohol_kept = many.alcohol,
                                  .lasts = Time::from_si((*answer)->in_oven().p50)});
}

formula::Bake with_loss(formula::Bake bake, const std::optional<OvenLeaves>& leaves) {
  if (leaves && !bake.bake_loss_given) bake.bake_loss = std::clamp(leaves->loss, 0.0, 0.6);
  return bake;
}

}  // namespace barm::service
