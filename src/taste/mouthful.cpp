#include "taste/internal/mouthful.h"

#include <algorithm>

#include "generated/constants.h"

namespace barm::taste::internal {

namespace {

constexpr double micrograms = 1e3;  // in a milligram

template <class Value>
double drawn(const Value& value, double normal) {
  return value.value.si() * std::exp(value.doubt * normal);
}

}  // namespace

Result<Bake> middle_bake(const Contents& contents, const Baking& baking) {
  const auto crust = crust_share(contents.phases, baking);
  if (!crust) return failure(crust);
  Bake out{contents.phases, baking, *crust};
  const double water = contents.phases.water;
  out.crumb_is = 1 - baking.vented * water;
  out.crust_is = 1 - (1 - std::exp(-baking.crust_depth)) * water;
  out.dilution = constants::mouth::dilution.value.si();
  return out;
}

Result<Bake> drawn_bake(const Question& question, const Luck::OfDraw& draw) {
  Contents contents;
  contents.phases = question.contents->phases;
  contents.phases.fat +=
      question.contents->flour_fat *
      std::expm1(constants::dough_phases::flour_fat.doubt * z(draw, Common::fat));
  Baking baking = question.baking;
  baking.starch_share = baking.starch_share * std::exp(constants::dough_phases::starch_share.doubt *
                                                       z(draw, Common::flour));
  baking.gas *= std::exp(constants::proof_gas::litres.doubt * z(draw, Common::gas));
  baking.vented *= std::exp(constants::oven_scent::vented.doubt * z(draw, Common::vented));
  auto out = middle_bake(contents, baking);
  if (out) out->dilution = drawn(constants::mouth::dilution, z(draw, Common::dilution));
  return out;
}

std::vector<Sum> sums_of(const Question& question) {
  std::map<std::size_t, Sum> by;
  for (const Brought& one : question.contents->scents) by[one.scent].brought.push_back(&one);
  for (const Applied& applied : question.applied) {
    for (const Brought& one : applied.scents) by[one.scent].applied.emplace_back(&applied, &one);
  }
  std::vector<Sum> out;
  for (auto& [scent, sum] : by) {
    sum.scent = scent;
    out.push_back(std::move(sum));
  }
  return out;
}

Found found(const Sum& sum, const Bake& bake, const Luck::OfScent& luck) {
  const Scent& scent = scents()[sum.scent];
  const auto of = [&](Own what) { return z(luck, what); };
  Found out;
  for (const Brought* one : sum.brought) out.brought += one->amount.at(of(Own::content));
  const double volatility =
      scent.volatility *
      std::exp(constants::oven_scent::volatility_doubt.value.si() * of(Own::volatility)) *
      scent.hcp.middle / scent.hcp.at(of(Own::solubility));
  out.passage = passage(scent,
                        scent.hcp.at(of(Own::solubility)),
                        volatility,
                        scent.microbes.at(of(Own::microbes)),
                        bake.phases,
                        bake.baking,
                        bake.crust);
  out.crumb = out.brought * out.passage.proved() * out.passage.crumb / bake.crumb_is;
  out.crust = out.brought * out.passage.proved() * out.passage.crust / bake.crust_is;
  for (const auto& [applied, one] : sum.applied) {
    const double kept =
        std::min(1.0, applied->kept * std::exp(applied->kept_doubt * of(Own::kept)));
    out.crust += one->amount.at(of(Own::content)) * kept / applied->onto.in(kilogram);
  }
  const double doubt =
      std::max(scent.threshold.doubt(), constants::mouth::threshold_doubt.value.si());
  out.threshold = scent.threshold.middle * std::exp(doubt * of(Own::threshold));
  out.matrix = matrix(scent, bake.phases, bake.baking, bake.dilution);
  return out;
}

double in_drink_activity(const Sum& sum) {
  const Scent& scent = scents()[sum.scent];
  double most = 0;
  const auto look = [&](const Brought& one) {
    const double threshold = one.strong && scent.in_wine ? *scent.in_wine : scent.threshold.middle;
    most = std::max(most, one.in_drink / threshold);
  };
  for (const Brought* one : sum.brought) look(*one);
  for (const auto& [applied, one] : sum.applied) look(*one);
  return most;
}

Cover cover_of(std::size_t scent) {
  const auto crumb = own_of_crumb(scent);
  const auto crust = own_of_crust(scent);
  const double in_crumb = crumb ? crumb->middle / micrograms : 0;
  return {in_crumb, crust ? crust->middle / micrograms : in_crumb};
}

bool stands_out(double added, double own) {
  return added > 0 && added >= constants::level::same_note_masks.value.si() * own;
}

double uncovered(const Found& one, const Cover& own) {
  const double crumb = stands_out(one.crumb, own.crumb) ? one.activity(one.crumb) : 0;
  const double crust = stands_out(one.crust, own.crust) ? one.activity(one.crust) : 0;
  return std::max(crumb, crust);
}

std::map<std::string_view, std::pair<double, std::string_view>> own_notes(const Bake& bake) {
  std::map<std::string_view, std::pair<double, std::string_view>> out;
  for (std::size_t i = 0; i < scents().size(); ++i) {
    const Scent& scent = scents()[i];
    const auto own = own_of_crumb(i);
    if (!own) continue;
    const double activity = own->middle / scent.threshold.middle /
                            matrix(scent, bake.phases, bake.baking, bake.dilution);
    auto& loudest = out[scent.family];
    if (activity > loudest.first) loudest = {activity, scent.name};
  }
  return out;
}

}  // namespace barm::taste::internal
