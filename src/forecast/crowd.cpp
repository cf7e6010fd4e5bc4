#include "forecast/internal/crowd.h"

#include "forecast/dough_of.h"
#include "forecast/internal/for_each.h"

namespace barm::forecast::internal {

using kinetics::Factor;

namespace {

std::optional<Error> take_out(const formula::Bake& bake,
                              Draw& drawn,
                              const std::vector<Factor>& but) {
  if (but.empty()) return std::nullopt;
  for (const Factor factor : but) drawn.settled = without(bake, std::move(drawn.settled), factor);
  auto bowl = formula::in_the_bowl(bake, drawn.settled);
  if (!bowl) return bowl.error();
  drawn.dough = dough_of(*bowl, drawn.settled);
  return std::nullopt;
}

}  // namespace

Result<std::vector<Walking>> draw_doughs(const Plan& plan,
                                         const Options& options,
                                         std::span<const Draw> made,
                                         const std::vector<Factor>& but) {
  std::vector<Walking> doughs(static_cast<std::size_t>(options.draws));
  const auto make = [&](std::size_t i) -> std::optional<Error> {
    if (i < made.size() && but.empty()) {
      doughs[i] = Walking::of(made[i]);
      return std::nullopt;
    }
    auto drawn = draw(plan.bake, options.seed, static_cast<int>(i), *options.prior);
    if (!drawn) return drawn.error();
    if (auto error = take_out(plan.bake, *drawn, but)) return error;
    doughs[i] = Walking::of(*drawn);
    return std::nullopt;
  };
  if (auto error = for_each(doughs.size(), options.threads, options.cancelled, make))
    return failure(error->code, error->where, error->message);
  return doughs;
}

Crowd crowd_of(std::vector<Walking> doughs, Warmth warmth, Temperature kept) {
  Crowd crowd{std::move(doughs), {}, nullptr};
  std::vector<double> luck;
  for (const Walking& dough : crowd.doughs) luck.push_back(dough.transfer_luck);
  crowd.bulk = [luck = std::move(luck), warmth = std::move(warmth), kept](std::size_t i) {
    return warmth.follows() ? warmth.bulk(luck[i]) : heat::Track(kept);
  };
  return crowd;
}

CrowdOptions crowd_options(const Proving& proving, const Options& options) {
  CrowdOptions out;
  out.proving = proving;
  out.proving.accuracy = ManyOptions().proving.accuracy;
  out.threads = options.threads;
  out.cancelled = options.cancelled;
  out.until_past = options.until_past;
  return out;
}

}  // namespace barm::forecast::internal
