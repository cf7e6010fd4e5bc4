#include "service/oven/oven.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "generated/constants.h"
#include "service/bake/aim.h"
#include "service/oven/alcohol_cautions.h"
#include "service/oven/internal/asked.h"
#include "service/oven/internal/learns.h"
#include "service/oven/internal/loads.h"
#include "service/words.h"

namespace barm::service {

namespace {

// What is asked of the oven, and of the doughs that go into it.
struct Prepared {
  OvenAnswer answer;
  internal::Loading loading;
};

Result<Prepared> prepared(const formula::Bake& bake,
                          const OvenRequest& request,
                          forecast::Options options) {
  formula::Bake aimed = bake;
  if (aimed.target_follows && !(options.target > 0)) {
    forecast::Made made;
    const auto ready_for = aim(aimed, options, made);
    if (!ready_for) return failure(ready_for);
  }
  const auto dough = forecast::foresee_middle(aimed, options);
  if (!dough) return failure(dough);
  auto asked = internal::asked_of(*dough, request.said, bake);
  if (!asked) return failure(asked);
  OvenAnswer answer;
  answer.name = bake.name;
  answer.oven = asked->oven;
  answer.loaf = asked->loaf;
  answer.known = asked->known;
  answer.with = std::move(asked->with);
  answer.lasts = asked->lasts;
  answer.typed = asked->typed;
  answer.counted = asked->counted;
  answer.cools_at = asked->room;
  answer.assumed = std::move(asked->assumed);
  answer.ethanol = oven::ethanol_of(answer.loaf);
  return Prepared{std::move(answer),
                  {std::move(aimed), std::move(options), dough->bowl.pieces, asked->loads}};
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
                        const forecast::Options& options) {
  auto asked = prepared(bake, request, options);
  if (!asked) return failure(asked);
  OvenAnswer answer = std::move(asked->answer);
  const auto taught = internal::learn_from(request, answer);
  if (!taught) return failure(taught);
  answer.many = oven::many(answer.loaf,
                           answer.oven,
                           answer.known,
                           answer.lasts,
                           answer.cools_at,
                           options.draws,
                           options.seed,
                           options.threads);
  const auto loads = internal::tell_loads(asked->loading, answer);
  if (!loads) return failure(loads);
  answer.cautions = alcohol_cautions({answer});
  return answer;
}

Result<oven::Left> left_by_the_oven(const formula::Bake& bake, const forecast::Options& options) {
  const auto asked = prepared(bake, {}, options);
  if (!asked) return failure(asked);
  const OvenAnswer& answer = asked->answer;
  return oven::left_at_the_end(answer.loaf,
                               answer.oven,
                               answer.known,
                               answer.lasts,
                               options.draws,
                               options.seed,
                               options.threads);
}

oven::Range OvenAnswer::in_oven() const {
  return typed ? oven::Range{lasts.si(), lasts.si(), lasts.si()} : many.done_after;
}

forecast::InTheOven hours_of(const OvenAnswer& answer) {
  const auto bakes =
      answer.typed ? std::vector<double>{answer.lasts.in(hour)} : in_hours(answer.many.done);
  std::vector<double> longer;
  for (const FurtherLoad& one : answer.further) longer.push_back(one.longer.in(hour));
  return {bakes,
          in_hours(answer.many.cut),
          in_hours(answer.many.bag),
          1 + static_cast<int>(answer.further.size()),
          constants::baking::between_loads.value.in(hour),
          std::move(longer)};
}

Result<OvenAnswer> oven_as_written(const formula::Bake& bake, const forecast::Options& options) {
  return oven(bake, {}, as_written(options));
}

Result<std::optional<OvenAnswer>> its_oven(const formula::Bake& bake,
                                           const forecast::Options& options) {
  if (!bake.oven) return std::optional<OvenAnswer>();
  auto answer = oven_as_written(bake, options);
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
  return std::optional(OvenLeaves{
      .loss = many.loss.p50 + many.cooling_loss,
      .alcohol_kept = many.alcohol,
      .lasts = Time::from_si((*answer)->in_oven().p50),
      .loaves = (*answer)->counted ? std::optional((*answer)->oven.loaves) : std::nullopt});
}

formula::Bake with_loss(formula::Bake bake, const std::optional<OvenLeaves>& leaves) {
  if (leaves && !bake.bake_loss_given) bake.bake_loss = std::clamp(leaves->loss, 0.0, 0.6);
  return bake;
}

}  // namespace barm::service
