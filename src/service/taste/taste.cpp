#include "service/taste/taste.h"

#include <fmt/format.h>

#include <algorithm>

#include "formula/amount.h"
#include "formula/cautions.h"
#include "service/oven/oven.h"
#include "service/words.h"
#include "taste/words.h"

namespace barm::service {

namespace {

constexpr std::size_t most_doubts = 5;

void add_once(std::vector<std::string>& lines, const std::string& line) {
  if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(line);
}

std::vector<std::string> taste_doubts(const taste::Situation& situation,
                                      const taste::Tasted& tasted) {
  std::vector<std::string> out;
  for (const std::string& drink : situation.contents.unknown)
    out.push_back(fmt::format("the scent of {} is not known: nothing of it is counted", drink));
  for (const std::string& near : situation.contents.near) add_once(out, near);
  for (const taste::Note& note : tasted.notes) {
    const bool plain = !taste::says_which_drink(note.family);
    if (plain || (note.level == taste::Level::gone && note.noticed < 0.1)) continue;
    for (const std::string& decides : note.decides) {
      if (out.size() < most_doubts + situation.contents.near.size())
        add_once(out, fmt::format("its {} depends most on {}", note.family, decides));
    }
  }
  return out;
}

std::vector<std::string> taste_cautions(const formula::Bake& bake,
                                        const taste::Situation& situation,
                                        const taste::Tasted& tasted) {
  std::vector<std::string> out = formula::cautions(bake, situation.bowl);
  const double loaf = tasted.alcohol.p50 * situation.loaf().in(kilogram);
  if (loaf < 0.5) return out;
  out.push_back(
      fmt::format("About {:.0f} g of the drink's alcohol stays in a loaf ({:.0f} to {:.0f} g): not "
                  "for children, in pregnancy, "
                  "or for those who drink none; bakers say so. Your label law holds.",
                  loaf,
                  tasted.alcohol.p10 * situation.loaf().in(kilogram),
                  tasted.alcohol.p90 * situation.loaf().in(kilogram)));
  return out;
}

/// With what the oven says of this loaf, so that one question has one answer: the alcohol that
/// stays, and the loss where the file has an [oven] and types none. A bake that tells no oven and
/// of whose loaf none can be worked out is answered without.
Result<taste::OvenSays> with_oven(const formula::Bake& bake, taste::OvenSays says) {
  forecast::Options options;
  options.curves = false;
  const auto keep = [&](const oven::Range& kept) {
    says.alcohol_kept = {kept.p10, kept.p50, kept.p90};
  };
  if (!says.loss && bake.oven && !bake.bake_loss_given) {
    const auto asked = oven(bake, {}, options);
    if (!asked) return failure(asked);
    keep(asked->many.alcohol);
    says.loss = asked->many.loss.p50 + asked->many.cooling_loss;
    return says;
  }
  const auto left = left_by_the_oven(bake, options);
  if (!left && bake.oven) return failure(left);
  if (left) keep(left->alcohol);
  return says;
}

Result<Time> deadline(const std::string& text, const time::WallClock& clock) {
  if (const auto local = clock.next(text, Time{})) return *local;
  if (const auto hours = formula::parse_time(text)) return *hours;
  return failure(
      ErrorCode::bad_input,
      "by",
      fmt::format("'{}' is no moment; write hours after mixing such as 30h, or 08:00, or "
                  "2026-11-29T08:00{}",
                  text,
                  clock.known() ? "" : " where the bake says when it was mixed"));
}

}  // namespace

Result<ThroughAnswer> comes_through(const formula::Bake& bake, const ThroughRequest& request) {
  std::vector<taste::Tasting> tastings;
  for (const std::string& text : request.tasted) {
    auto one = taste::parse_tasting(text);
    if (!one) return failure(one);
    tastings.push_back(*std::move(one));
  }
  const auto oven = with_oven(bake, request.oven);
  if (!oven) return failure(oven);
  auto situation = taste::situation_of(bake, *oven, request.options);
  if (!situation) return failure(situation);
  taste::Luck luck(request.options.draws, request.options.seed);
  auto tasted = taste::tasted(*situation, luck);
  if (!tasted) return failure(tasted);
  ThroughAnswer out;
  out.bake = bake;
  out.line = taste::in_a_line(*tasted);
  if (!tastings.empty()) {
    auto judged = taste::judged(*tasted, tastings);
    if (!judged) return failure(judged);
    out.judged = *std::move(judged);
  }
  out.doubts = taste_doubts(*situation, *tasted);
  out.cautions = taste_cautions(bake, *situation, *tasted);
  out.situation = *std::move(situation);
  out.tasted = *std::move(tasted);
  out.draws = request.options.draws;
  return out;
}

Result<MoreTasteAnswer> more_taste(const formula::Bake& bake, const MoreTasteRequest& request) {
  if (request.money && !request.by.empty())
    return failure(ErrorCode::bad_input,
                   "money",
                   "the same money or no later than: ask one of them at a time");
  const auto oven = with_oven(bake, request.question.oven);
  if (!oven) return failure(oven);
  taste::RoutesQuestion question = request.question;
  question.oven = *oven;
  MoreTasteAnswer out;
  out.bake = bake;
  auto clock = clock_in("", bake);
  if (!clock) return failure(clock);
  out.clock = *std::move(clock);
  out.money = request.money;
  out.draws = request.question.options.draws;
  if (!request.by.empty()) {
    const auto by = deadline(request.by, out.clock);
    if (!by) return failure(by);
    out.by = *by;
    auto found = taste::as_much_within(bake, question, *by);
    if (!found) return failure(found);
    out.routes = found->with;
    out.in_time = *std::move(found);
  } else {
    auto found = request.money ? taste::for_money(bake, question, *request.money)
                               : taste::routes(bake, question);
    if (!found) return failure(found);
    out.routes = *std::move(found);
  }
  for (const taste::Gain& gain : out.routes.gains) {
    for (const std::string& caution : gain.route.cautions) add_once(out.cautions, caution);
  }
  return out;
}

Result<TasteAcrossAnswer> taste_across(const formula::Bake& bake,
                                       const taste::CorridorQuestion& question) {
  auto corridor = taste::corridor(bake, question);
  if (!corridor) return failure(corridor);
  return TasteAcrossAnswer{bake, question, *std::move(corridor)};
}

}  // namespace barm::service
