#include "service/oven/alcohol_cautions.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "service/words.h"

namespace barm::service {

namespace {

using BakedOnes = std::vector<const OvenAnswer*>;

std::string percent_of_air(double share) {
  return share >= 0.1 ? fmt::format("{:.0f} %", 100 * share) : fmt::format("{:.2g} %", 100 * share);
}

bool vapour_vented(const OvenAnswer& one) {
  return one.many.vented.p90 >= one.many.vapour.warn_from;
}

bool vapour_closed(const OvenAnswer& one) {
  return one.many.vapour.closed >= one.many.vapour.warn_from;
}

bool vapour_sealed(const OvenAnswer& one) { return one.oven.steam.si() > 0 && vapour_closed(one); }

bool too_many_at_once(const OvenAnswer& one) {
  return vapour_vented(one) && one.oven.loaves > one.many.vapour.loaves_at_once;
}

bool none_at_once(const OvenAnswer& one) {
  return too_many_at_once(one) && one.many.vapour.loaves_at_once == 0;
}

bool some_at_once(const OvenAnswer& one) {
  return too_many_at_once(one) && one.many.vapour.loaves_at_once > 0;
}

bool alcohol_stays(const OvenAnswer& one) {
  return one.ethanol.in(gram)*one.many.alcohol.p90 > 0.5;
}

class Cautions {
 public:
  explicit Cautions(const std::vector<OvenAnswer>& baked) : named_(baked.size() > 1) {
    for (const OvenAnswer& one : baked) all_.push_back(&one);
  }

  std::vector<std::string> told() {
    vapour();
    at_once();
    if (std::any_of(
            all_.begin(), all_.end(), [](const auto* one) { return vapour_sealed(*one); })) {
      out_.emplace_back(
          "Ovens that seal for steam hold the vapour: bakers do not bake strong doughs in them "
          "closed.");
    }
    if (const BakedOnes some = those(alcohol_stays); !some.empty()) {
      out_.push_back("Some alcohol stays: " +
                     each(some,
                          [](const OvenAnswer& one) {
                            return fmt::format("of {} in a loaf {} to {} (4 of 5)",
                                               weight(one.ethanol),
                                               grams(one.many.alcohol.p10 * one.ethanol),
                                               weight(one.many.alcohol.p90 * one.ethanol));
                          }) +
                     ". Bakers tell every guest, for some must avoid it; the label asks about it.");
    }
    return std::move(out_);
  }

 private:
  [[nodiscard]] BakedOnes those(bool (*is)(const OvenAnswer&)) const {
    BakedOnes out;
    std::copy_if(all_.begin(), all_.end(), std::back_inserter(out), [&](const auto* one) {
      return is(*one);
    });
    return out;
  }

  /// What is said of each, one after the other.
  [[nodiscard]] std::string each(const BakedOnes& some,
                                 const std::function<std::string(const OvenAnswer&)>& said) const {
    std::string out;
    for (const OvenAnswer* one : some)
      out += (out.empty() ? "" : "; ") + (named_ ? one->name + ": " : "") + said(*one);
    return out;
  }

  void vapour() {
    const BakedOnes vented = those(vapour_vented);
    const BakedOnes closed = those(vapour_closed);
    if (!vented.empty()) {
      out_.push_back(
          "Alcohol vapour: " +
          each(vented,
               [](const OvenAnswer& one) {
                 return fmt::format(
                     "vented the oven may hold about {} of it (4 of 5: {} to {}), closed "
                     "{}",
                     percent_of_air(one.many.vented.p50),
                     percent_of_air(one.many.vented.p10),
                     percent_of_air(one.many.vented.p90),
                     percent_of_air(one.many.vapour.closed));
               }) +
          fmt::format("; it burns from {} on, and a quarter of that is where people act. Bakers "
                      "open the vent or the door by a crack in the first third, no flame, face and "
                      "sleeves away from the opening door. The oven maker's and local rules hold.",
                      percent_of_air(vented.front()->many.vapour.limit)));
    } else if (!closed.empty()) {
      const auto* most = *std::max_element(closed.begin(), closed.end(), [](auto* a, auto* b) {
        return a->many.vapour.closed < b->many.vapour.closed;
      });
      out_.push_back(fmt::format(
          "An oven that let nothing go could come to {} of alcohol vapour, and it burns from {} "
          "on: bakers leave the vent open in the first third. The oven maker's and local rules "
          "hold.",
          percent_of_air(most->many.vapour.closed),
          percent_of_air(most->many.vapour.limit)));
    }
  }

  void at_once() {
    const BakedOnes some = those(some_at_once);
    if (!some.empty()) {
      out_.push_back("Fewer at once: " +
                     each(some,
                          [](const OvenAnswer& one) {
                            const int loaves = one.many.vapour.loaves_at_once;
                            return fmt::format("{} {} stay under a quarter of the limit",
                                               loaves,
                                               loaves == 1 ? "loaf would" : "loaves would");
                          }) +
                     " in an oven vented as most; how yours is vented is not known.");
    }
    const BakedOnes none = those(none_at_once);
    if (!none.empty()) {
      out_.push_back("Not even one loaf" + (named_ ? " of " + names(none) : std::string()) +
                     " stays under a quarter of the limit in an oven vented as most; how yours is "
                     "vented is not known.");
    }
  }

  static std::string names(const BakedOnes& some) {
    std::string out;
    for (std::size_t i = 0; i < some.size(); ++i) {
      if (i > 0) out += i + 1 == some.size() ? " or " : ", ";
      out += "the " + some[i]->name;
    }
    return out;
  }

  bool named_;
  BakedOnes all_;
  std::vector<std::string> out_;
};

}  // namespace

std::vector<std::string> alcohol_cautions(const std::vector<OvenAnswer>& baked) {
  return Cautions(baked).told();
}

}  // namespace barm::service
