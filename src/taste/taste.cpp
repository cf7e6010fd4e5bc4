#include "taste/taste.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>

#include "generated/constants.h"
#include "numerics/quantiles.h"
#include "taste/internal/mouthful.h"

namespace barm::taste {

using internal::Bake;
using internal::Found;
using internal::Sum;

namespace {

/// The draws of all scents of one family.
struct Family {
  std::vector<std::size_t> sums;
  std::vector<double> left, left_crumb, left_crust, crumb, crust;
  std::vector<double> open;     ///< activity that the bread's own does not cover
  std::vector<double> unmoved;  ///< share of tasters who notice none of it

  void begin(std::size_t draws) {
    for (auto* one : {&left, &left_crumb, &left_crust, &crumb, &crust, &open})
      one->assign(draws, 0.0);
    unmoved.assign(draws, 1.0);
  }
};

double mean(const std::vector<double>& of) {
  return std::accumulate(of.begin(), of.end(), 0.0) / static_cast<double>(of.size());
}

/// Of tasters whose noses differ.
double share_who_notice(double activity) {
  if (activity <= 0) return 0;
  return 0.5 *
         std::erfc(-std::log(activity) / constants::mouth::noses.value.si() / std::numbers::sqrt2);
}

Level weaker(Level level) {
  return level == Level::gone ? level : static_cast<Level>(static_cast<int>(level) - 1);
}

}  // namespace

Range range_of(std::vector<double> sample) {
  const auto sorted = numerics::sorted(std::move(sample));
  return {numerics::quantile(sorted, 0.1),
          numerics::quantile(sorted, 0.5),
          numerics::quantile(sorted, 0.9)};
}

Level level_of(double activity) {
  if (activity < constants::level::hint.value.si()) return Level::gone;
  if (activity < constants::level::there.value.si()) return Level::hint;
  return activity < constants::level::loud.value.si() ? Level::there : Level::loud;
}

bool says_which_drink(std::string_view family) { return family != "alcohol" && family != "fusel"; }

std::string_view name(Level level) {
  constexpr std::string_view words[] = {"gone", "a hint", "there", "loud"};
  return words[static_cast<std::size_t>(level)];
}

namespace {

/// Everything of one question while it is worked out.
class Taster {
 public:
  Taster(const Question& question, Luck& luck) : question_(question), luck_(luck) {}

  Result<Tasted> answer() {
    const auto middle = internal::middle_bake(*question_.contents, question_.baking);
    if (!middle) return failure(middle);
    sums_ = internal::sums_of(question_);
    for (std::size_t i = 0; i < sums_.size(); ++i)
      families_[scents()[sums_[i].scent].family].sums.push_back(i);
    for (const auto& draw : luck_.common()) {
      auto bake = internal::drawn_bake(question_, draw);
      if (!bake) return failure(bake);
      bakes_.push_back(*std::move(bake));
    }
    draw_all();
    own_ = internal::own_notes(*middle);
    out_.crust_share = middle->crust;
    for (const auto& [name, family] : families_) out_.notes.push_back(note(name, family, *middle));
    std::stable_sort(out_.notes.begin(), out_.notes.end(), [](const Note& a, const Note& b) {
      if (says_which_drink(a.family) != says_which_drink(b.family))
        return says_which_drink(a.family);
      if (a.level != b.level) return a.level > b.level;
      return std::max(a.crumb.p50, a.crust.p50) > std::max(b.crumb.p50, b.crust.p50);
    });
    alcohol();
    out_.tongue =
        tongue(*question_.contents, question_.baking, question_.dough, acetic_left(*middle), luck_);
    for (const Sense& sense : out_.tongue.senses) {
      for (std::size_t d = 0; d < sense.drink.size(); ++d) {
        out_.strength[d] += sense.drink[d];
        if (sense.drink[d] >= 1) out_.tells[d] = 1;
      }
    }
    return std::move(out_);
  }

 private:
  void draw_all() {
    const auto draws = bakes_.size();
    out_.strength.assign(draws, 0);
    std::vector<double> unmoved(draws, 1.0);
    std::vector<double> unsmelt(draws, 1.0);
    log_activity_.assign(sums_.size(), std::vector<double>(draws));
    for (auto& [name, family] : families_) {
      draw_family(family);
      for (std::size_t d = 0; d < draws; ++d) {
        unmoved[d] *= family.unmoved[d];
        if (!says_which_drink(name)) continue;
        unsmelt[d] *= family.unmoved[d];
        out_.strength[d] += family.open[d];
      }
    }
    for (const double share : unmoved) out_.tells.push_back(1 - share);
    out_.noticed = 1 - mean(unsmelt);
  }

  void draw_family(Family& family) {
    const std::size_t draws = bakes_.size();
    family.begin(draws);
    std::vector<double> weight(draws, 0.0);
    for (const std::size_t i : family.sums) {
      const Sum& sum = sums_[i];
      const auto& luck = luck_.of(sum.scent);
      const internal::Cover own = internal::cover_of(sum.scent);
      for (std::size_t d = 0; d < draws; ++d) {
        const Found one = internal::found(sum, bakes_[d], luck[d]);
        const double worth = one.brought / one.threshold;
        weight[d] += worth;
        family.left[d] += worth * one.passage.left();
        family.left_crumb[d] += worth * one.passage.proved() * one.passage.crumb;
        family.left_crust[d] += worth * one.passage.proved() * one.passage.crust;
        const double crumb = one.activity(one.crumb);
        const double crust = one.activity(one.crust);
        family.crumb[d] = std::max(family.crumb[d], crumb);
        family.crust[d] = std::max(family.crust[d], crust);
        const double open = internal::uncovered(one, own);
        family.open[d] += open;
        family.unmoved[d] *= 1 - share_who_notice(open);
        log_activity_[i][d] = std::log(std::max({crumb, crust, 1e-12}));
      }
    }
    for (std::size_t d = 0; d < draws; ++d) {
      if (weight[d] <= 0) continue;
      for (auto* share : {&family.left, &family.left_crumb, &family.left_crust})
        (*share)[d] /= weight[d];
    }
  }

  Note note(std::string_view name, const Family& family, const Bake& middle) {
    Note out{.family = name};
    out.left = range_of(family.left);
    out.left_crumb = range_of(family.left_crumb);
    out.left_crust = range_of(family.left_crust);
    out.crumb = range_of(family.crumb);
    out.crust = range_of(family.crust);
    std::size_t strongest = family.sums.front();
    double most = -1;
    Found best;
    for (const std::size_t i : family.sums) {
      out.in_drink = std::max(out.in_drink, internal::in_drink_activity(sums_[i]));
      const Found one = internal::found(sums_[i], middle, {});
      const double here = std::max(one.activity(one.crumb), one.activity(one.crust));
      if (here <= most) continue;
      most = here;
      strongest = i;
      best = one;
    }
    const Sum& sum = sums_[strongest];
    out.scent = scents()[sum.scent].name;
    out.plain = out.level = level_of(std::max(out.crumb.p50, out.crust.p50));
    const internal::Cover own = internal::cover_of(sum.scent);
    if (!internal::stands_out(best.crumb, own.crumb) &&
        !internal::stands_out(best.crust, own.crust)) {
      out.level = weaker(out.level);
      out.cover = scents()[sum.scent].name;
    }
    const auto loud = own_.find(name);
    if (loud != own_.end() && loud->second.first > constants::level::family_masks.value.si() &&
        most < loud->second.first) {
      out.level = weaker(out.level);
      out.cover = loud->second.second;
    }
    out.noticed = 1 - mean(family.unmoved);
    out.decides = internal::deciders(sum, log_activity_[strongest], luck_);
    return out;
  }

  void alcohol() {
    const auto found_at = families_.find("alcohol");
    if (found_at == families_.end()) return;
    out_.alcohol_left = question_.baking.alcohol_kept.value_or(range_of(found_at->second.left));
    for (Note& note : out_.notes) {
      if (note.family == "alcohol") note.left = out_.alcohol_left;
    }
    const double bread = question_.contents->ethanol / (1 - question_.baking.loss);
    out_.alcohol = {bread * out_.alcohol_left.p10,
                    bread * out_.alcohol_left.p50,
                    bread * out_.alcohol_left.p90};
  }

  [[nodiscard]] double acetic_left(const Bake& middle) const {
    const Scent& acetic = scents()[*scent_named("acetic acid")];
    return passage(acetic,
                   acetic.hcp.middle,
                   acetic.volatility,
                   1,
                   middle.phases,
                   middle.baking,
                   middle.crust)
        .loaf;
  }

  const Question& question_;
  Luck& luck_;
  Tasted out_;
  std::vector<Sum> sums_;
  std::vector<Bake> bakes_;
  std::map<std::string_view, Family> families_;
  std::map<std::string_view, std::pair<double, std::string_view>> own_;
  std::vector<std::vector<double>> log_activity_;
};

}  // namespace

Result<Tasted> tasted(const Question& question, Luck& luck) {
  return Taster(question, luck).answer();
}

}  // namespace barm::taste
