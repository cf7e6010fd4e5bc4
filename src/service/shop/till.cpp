#include "service/shop/till.h"

#include <fmt/format.h>

#include <algorithm>

#include "formula/amount.h"
#include "generated/constants.h"
#include "service/oven/oven.h"
#include "shop/csv.h"
#include "time/date.h"

namespace barm::service {

using shop::Cash;

namespace {

template <class T>
Result<T> of_option(const char* option, Result<T> parsed) {
  if (!parsed) return failure(parsed.error().code, option, parsed.error().message);
  return parsed;
}

Result<double> share_of(const char* option, const std::string& text, double most) {
  const auto amount = of_option(option, formula::parse_amount(text));
  if (!amount) return failure(amount);
  const bool share = amount->kind == formula::WrittenAmount::Kind::percent && !amount->of_liquid &&
                     !amount->by_volume && amount->value >= 0 && amount->value <= most;
  if (share) return amount->value;
  return failure(ErrorCode::bad_input,
                 option,
                 fmt::format("a share from 0 % to {:g} %, such as 60%", 100 * most));
}

Result<Cash> cash_of(const char* option, const std::string& text, const shop::Currency& currency) {
  const bool bare = text.find_first_not_of("-+0123456789., ") == std::string::npos;
  const auto written =
      of_option(option, shop::parse_cash(bare ? text + " " + currency.code : text));
  if (!written) return failure(written);
  if (!(written->currency == currency)) {
    return failure(
        ErrorCode::bad_input,
        option,
        fmt::format("{} beside a price file in {}", written->currency.code, currency.code));
  }
  if (written->cash < Cash())
    return failure(
        ErrorCode::bad_input, option, fmt::format("a sum of money from 0 {} up", currency.code));
  return written->cash;
}

Result<bool> lay_over(const TillWords& words, shop::PriceList& prices) {
  shop::Selling& selling = prices.selling;
  const bool any = !words.margin.empty() || !words.mark_up.empty() || !words.hourly_pay.empty() ||
                   !words.asked.empty();
  if (any) {
    selling.margin.reset();
    selling.mark_up.reset();
    selling.hourly_pay.reset();
  }
  if (!words.margin.empty()) {
    const auto share = share_of("--margin", words.margin, 0.99);
    if (!share) return failure(share);
    selling.margin = *share;
  }
  if (!words.mark_up.empty()) {
    const auto share = share_of("--markup", words.mark_up, 100);
    if (!share) return failure(share);
    selling.mark_up = *share;
  }
  if (!words.hourly_pay.empty()) {
    const auto pay = cash_of("--pay", words.hourly_pay, prices.currency);
    if (!pay) return failure(pay);
    selling.hourly_pay = *pay;
  }
  if (!words.asked.empty()) {
    const auto asked = cash_of("--asked", words.asked, prices.currency);
    if (!asked) return failure(asked);
    selling.asked = *asked;
  }
  return true;
}

bool has_package(const shop::PriceList& prices, const formula::Portion& portion) {
  return !prices.packages_of(portion.ingredient).empty();
}

Result<std::vector<shop::PriceRise>> price_rises(const formula::Bake& bake,
                                                 const TillRequest& request,
                                                 const shop::Offer& offer) {
  std::vector<shop::PriceRise> out;
  for (const formula::Portion& portion : bake.bowl) {
    if (portion.ingredient.group != larder::Group::drink || !has_package(request.prices, portion))
      continue;
    const Cash price = request.prices.packages_of(portion.ingredient).front()->net;
    const Cash by = request.price_rise.value_or(price.times(1, 10));
    auto one = shop::price_rise(bake, request.prices, portion.ingredient, by, offer);
    if (!one) return failure(one);
    out.push_back(*std::move(one));
  }
  return out;
}

/// Old prices are spoken of, measured at the bake's own date or at the newest price.
void say_old_prices(const formula::Bake& bake, TillAnswer& answer) {
  const auto first = time::parse_date(answer.prices.oldest());
  const auto newest = time::parse_date(answer.prices.newest());
  if (!first || !newest) return;
  const time::Date last =
      bake.mixed_at ? std::max(bake.mixed_at->date.value_or(*newest), *newest) : *newest;
  const long days = last.days - first->days;
  if (static_cast<double>(days) * day <= constants::prices::stale.value) return;
  answer.doubts.push_back(
      fmt::format("the oldest price is of {}, {} days before {}: look it up again",
                  answer.prices.oldest(),
                  days,
                  last.text()));
}

void say_sizes_left_out(const formula::Bake& bake, TillAnswer& answer) {
  for (const formula::Portion& portion : bake.bowl) {
    const auto packages = answer.prices.packages_of(portion.ingredient);
    if (packages.size() < 2) continue;
    answer.doubts.push_back(fmt::format(
        "{}: the cost is worked out with the first size, {}; whole bottles look at every "
        "size",
        portion.ingredient.name,
        packages.front()->size));
  }
}

/// The oven runs as long as this loaf takes in it, and takes as many at once as the bake says.
TillRequest in_its_oven(const std::optional<OvenLeaves>& leaves, TillRequest request) {
  if (!leaves || !request.prices.oven) return request;
  request.prices.oven->bake = leaves->lasts;
  if (leaves->loaves) request.prices.oven->loaves_a_load = *leaves->loaves;
  return request;
}

/// The price file's minutes, beside those that every other screen has.
Result<bool> say_usual_oven(const formula::Bake& bake, TillAnswer& answer) {
  if (!answer.prices.oven || answer.prices.oven->metered) return true;
  const auto usual = oven_as_written(bake);
  if (!usual) return failure(usual);
  answer.doubts.push_back(
      fmt::format("the bake names no [oven]: the cost goes by the price file's {:.0f} min in it, a "
                  "usual oven takes about {:.0f} min (4 of 5: {:.0f} to {:.0f})",
                  answer.prices.oven->bake.in(minute),
                  usual->in_oven().p50 / 60,
                  usual->in_oven().p10 / 60,
                  usual->in_oven().p90 / 60));
  return true;
}

Result<bool> say_oven(const formula::Bake& bake, TillAnswer& answer) {
  if (!bake.oven) return say_usual_oven(bake, answer);
  if (!bake.bake_loss_given) {
    answer.doubts.emplace_back(
        "how much lighter the loaf gets is worked out from the bake's [oven]: weigh one, and write "
        "loss = { bake = \"12 %\" }");
  }
  if (answer.prices.oven && !answer.prices.oven->metered) {
    answer.doubts.emplace_back(
        bake.oven->bake
            ? "the oven's time is that of the bake's [oven], not the price file's"
            : "the oven's time is worked out from the bake's [oven], not the price file's");
  }
  return true;
}

}  // namespace

Result<TillRequest> till_request(shop::PriceList prices,
                                 std::vector<shop::Answer> answers,
                                 const TillWords& words) {
  TillRequest request;
  request.prices = std::move(prices);
  request.answers = std::move(answers);
  if (const auto laid = lay_over(words, request.prices); !laid) return failure(laid);
  if (!words.price_rise.empty()) {
    const auto by = cash_of("--price-rise", words.price_rise, request.prices.currency);
    if (!by) return failure(by);
    request.price_rise = *by;
  }
  request.most_loaves = words.most_loaves;
  request.open = words.open;
  return request;
}

Result<TillRequest> till_request(const std::string& prices, const TillWords& words) {
  auto list = shop::read_prices(prices);
  if (!list) return failure(list);
  if (words.buyers.empty()) return till_request(*std::move(list), {}, words);
  auto answers = shop::read_answers(words.buyers, list->currency);
  if (!answers) return failure(answers);
  return till_request(*std::move(list), *std::move(answers), words);
}

Result<TillAnswer> till(const formula::Bake& as_written, const TillRequest& asked) {
  const auto leaves = oven_leaves(as_written);
  if (!leaves) return failure(leaves);
  const formula::Bake bake = with_loss(as_written, *leaves);
  const TillRequest request = in_its_oven(*leaves, asked);
  TillAnswer answer;
  answer.name = bake.name;
  answer.prices = request.prices;
  answer.open = request.open;
  auto costing = shop::cost(bake, request.prices);
  if (!costing) return failure(costing);
  answer.costing = *std::move(costing);
  auto effects = shop::effects(bake, request.prices);
  if (!effects) return failure(effects);
  answer.effects = *std::move(effects);
  answer.offers = shop::offers(answer.costing, request.prices);
  auto bottles = shop::in_bottles(bake, request.prices, request.most_loaves);
  if (!bottles) return failure(bottles);
  answer.bottles = *std::move(bottles);
  auto rises = price_rises(bake, request, answer.offers.front());
  if (!rises) return failure(rises);
  answer.price_rises = *std::move(rises);
  if (!request.answers.empty()) {
    answer.buyers =
        shop::judge(request.answers, answer.costing.all.loaf, request.prices.tax.on_bread);
  }
  say_old_prices(bake, answer);
  say_sizes_left_out(bake, answer);
  const auto said = say_oven(as_written, answer);
  if (!said) return failure(said);
  return answer;
}

}  // namespace barm::service
