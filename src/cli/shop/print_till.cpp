#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/shop/print_shop.h"
#include "service/words.h"

namespace barm::cli {

using shop::Cash;

namespace {

constexpr int name_width = 27;
constexpr int money_width = 10;

class Till {
 public:
  Till(Paper& paper, const service::TillAnswer& answer)
      : paper_(paper), answer_(answer), currency_(answer.prices.currency) {}

  void print() {
    print_head();
    print_cost();
    print_yields();
    print_effects();
    print_offers();
    for (const auto& drink : answer_.bottles) print_bottles(drink);
    for (const auto& one : answer_.price_rises) print_price_rise(one);
    if (answer_.buyers) print_buyers(*answer_.buyers);
    print_doubts();
  }

 private:
  [[nodiscard]] std::string money(Cash cash, int more = 0) const {
    return shop::digits_of(cash, currency_, more);
  }

  [[nodiscard]] std::string with_code(Cash cash, int more = 0) const {
    return shop::text(cash, currency_, more);
  }

  [[nodiscard]] std::string shown(std::int64_t minor) const {
    return shop::digits_of(Cash::from_minor(minor), currency_);
  }

  [[nodiscard]] std::string asking(const shop::Offer& offer) const {
    const std::string shelf = with_code(offer.shelf);
    if (offer.basis == "asked today") return shelf + " is asked on the shelf today";
    return fmt::format("ask {} on the shelf for {}",
                       shelf,
                       offer.basis == "no profit" ? "no profit at all" : offer.basis);
  }

  void print_head() {
    const std::string from = answer_.prices.oldest();
    const std::string to = answer_.prices.newest();
    paper_.heading(answer_.name,
                   from == to ? "prices of " + from : "prices of " + from + " to " + to);
    if (!answer_.prices.note.empty()) paper_.wrapped(answer_.prices.note);
    paper_.line();
    const shop::Offer& offer = answer_.offers.front();
    paper_.heading("A LOAF COSTS",
                   fmt::format("{} loaves of {} baked, {:.3g} of them sold",
                               answer_.costing.pieces,
                               service::weight(answer_.costing.loaf),
                               answer_.costing.sold()));
    paper_.wrapped(with_code(answer_.costing.all.loaf) + "; " + asking(offer));
    paper_.line();
  }

  void print_part(const shop::CostPart& part, int depth) {
    const std::string name = std::string(static_cast<std::size_t>(2 * depth), ' ') + part.name;
    std::string line = padded("", 8) + padded(fitted(name, name_width - 1), name_width);
    line +=
        right(shown(part.shown_batch), money_width) + right(shown(part.shown_loaf), money_width);
    const int left = sheet_width - columns(line) - 2;
    if (columns(part.words) <= left) {
      paper_.line(line + (part.words.empty() ? "" : "  " + part.words));
    } else {
      paper_.line(line);
      paper_.wrapped(part.words, 10 + 2 * depth);
    }
    if (depth > 0 && !answer_.open) return;
    for (const shop::CostPart& one : part.parts) print_part(one, depth + 1);
  }

  void print_cost() {
    paper_.heading("WHAT IT IS MADE OF");
    paper_.line(padded(padded("", 8) + currency_.code, 8 + name_width) +
                right("batch", money_width) + right("loaf sold", money_width));
    for (const shop::CostPart& part : answer_.costing.all.parts) print_part(part, 0);
    paper_.line(padded("", 8) + padded("together", name_width) +
                right(shown(answer_.costing.all.shown_batch), money_width) +
                right(shown(answer_.costing.all.shown_loaf), money_width));
    if (answer_.prices.tax.reclaimed) {
      paper_.wrapped("without the " + answer_.prices.tax.name + " you get back");
    }
    if (!answer_.open) paper_.wrapped("--open shows each part down to its last");
    for (const std::string& missing : answer_.costing.not_counted) {
      paper_.item("        not", missing, 16);
    }
    paper_.line();
  }

  void print_yields() {
    paper_.heading("WHAT IS LEFT AT EACH STEP");
    for (const shop::Yield& one : answer_.costing.yields) {
      const double lost = 1 - one.after / one.before;
      std::string line = padded("", 8) + padded(fitted(one.step, name_width - 1), name_width);
      line += right(service::weight(one.after), money_width);
      line += right(lost < 5e-5 ? "nothing" : fmt::format("{:.1f} %", 100 * lost), money_width);
      line += " lost";
      if (one.sunk > Cash()) line += fmt::format(", {}", with_code(one.sunk));
      paper_.line(line);
    }
    paper_.line();
  }

  void print_effects() {
    paper_.heading("WHAT A CHANGE DOES", "to a loaf");
    constexpr std::size_t most = 10;
    for (std::size_t i = 0; i < std::min(most, answer_.effects.size()); ++i) {
      const shop::Effect& one = answer_.effects[i];
      const std::string sign = one.loaf < Cash() ? "" : "+";
      const std::string per_kilogram =
          (one.kilogram < Cash() ? "" : "+") + money(one.kilogram, 1) + " a kilogram";
      paper_.line(padded("", 8) + padded(fitted(one.part, 29), 30) + padded(one.change, 23) +
                  right(sign + money(one.loaf, 1), 9));
      if (one.loaf == Cash()) paper_.wrapped(per_kilogram + ": the loaf weighs less", 10);
    }
    paper_.line();
  }

  void print_offers() {
    paper_.heading("WHAT TO ASK", currency_.code);
    paper_.line(padded("", 8) + padded("", 18) + right("shelf", 9) + right("net", 9) +
                right("profit", 9) + right("an hour", 9) + right("to shops", 9) +
                right("profit", 9));
    for (const shop::Offer& offer : answer_.offers) {
      paper_.line(padded("", 8) + padded(fitted(offer.basis, 17), 18) +
                  right(money(offer.shelf), 9) + right(money(offer.net), 9) +
                  right(money(offer.profit), 9) +
                  right(offer.an_hour ? money(*offer.an_hour) : "", 9) +
                  right(money(offer.wholesale), 9) + right(money(offer.wholesale_profit), 9));
    }
    const shop::Offer& first = answer_.offers.front();
    paper_.wrapped(fmt::format("shelf prices hold {:g} % {}; to shops the net price less {:g} %",
                               100 * answer_.prices.tax.on_bread,
                               answer_.prices.tax.name,
                               100 * answer_.prices.selling.wholesale_off));
    if (first.wholesale_profit < Cash()) {
      paper_.wrapped(fmt::format("at {} each loaf to a shop loses {}",
                                 with_code(first.wholesale),
                                 with_code(Cash() - first.wholesale_profit)));
    }
    print_break_even(first);
    paper_.line();
  }

  void print_break_even(const shop::Offer& offer) {
    const std::string at = fmt::format("at {}: ", with_code(offer.shelf));
    if (!offer.break_even_batch) {
      paper_.wrapped(at + "no number of loaves earns the batch's work and heat");
    } else {
      const bool enough = *offer.break_even_batch <= answer_.costing.pieces;
      paper_.wrapped(
          fmt::format("{}{} {} of a batch pay for its work and heat{}",
                      at,
                      *offer.break_even_batch,
                      *offer.break_even_batch == 1 ? "loaf" : "loaves",
                      enough ? "" : fmt::format(", more than its {}", answer_.costing.pieces)));
    }
    if (answer_.costing.monthly <= Cash()) return;
    paper_.wrapped(offer.break_even_month
                       ? fmt::format("{} loaves pay for the month's {} of overhead",
                                     *offer.break_even_month,
                                     with_code(answer_.costing.monthly))
                       : std::string("no number of loaves pays for the month's overhead"));
  }

  static std::string bottles_of(const shop::BottlePlan& plan,
                                const std::vector<std::string>& sizes) {
    std::string out;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
      if (plan.bottles[i] == 0) continue;
      out += fmt::format("{}{} × {}", out.empty() ? "" : " and ", plan.bottles[i], sizes[i]);
    }
    return out;
  }

  [[nodiscard]] std::string plan_of(const shop::BottlePlan& plan,
                                    const std::vector<std::string>& sizes) const {
    const double rest = static_cast<double>(plan.rest_tenths) / 10;
    return fmt::format("{} {}: {}, {}; {} left over ({}); {} a loaf if that is poured away",
                       plan.loaves,
                       plan.loaves == 1 ? "loaf" : "loaves",
                       bottles_of(plan, sizes),
                       with_code(plan.price),
                       service::volume(rest * millilitre),
                       with_code(plan.rest),
                       with_code(plan.loaf));
  }

  void print_bottles(const shop::DrinkInBottles& drink) {
    paper_.heading("WHOLE BOTTLES · " + drink.drink,
                   fmt::format("{} a loaf", service::volume(drink.loaf)));
    paper_.item("        now", plan_of(drink.batch, drink.sizes), 20);
    if (drink.whole.empty()) {
      paper_.item(
          "        used up",
          fmt::format("up to {} loaves there is always more than 1 % left over", drink.most),
          20);
    } else {
      paper_.item("        used up", plan_of(drink.whole.front(), drink.sizes), 20);
    }
    paper_.item("        cheapest",
                plan_of(drink.cheapest, drink.sizes) + fmt::format(" (of 1 to {})", drink.most),
                20);
    paper_.line();
  }

  void print_price_rise(const shop::PriceRise& one) {
    paper_.heading("IF A BOTTLE COSTS MORE · " + one.drink, with_code(one.by) + " more, net");
    std::string words = fmt::format("a loaf costs {} more", with_code(one.loaf, 1));
    if (one.slice) words += fmt::format(", a slice {}", with_code(*one.slice, 2));
    words += fmt::format("; on the shelf {} for the same margin", with_code(one.shelf, 1));
    if (one.shelf_slice) words += fmt::format(", {} a slice", with_code(*one.shelf_slice, 2));
    paper_.wrapped(words);
    paper_.line();
  }

  void print_buyers(const shop::Buyers& buyers) {
    paper_.heading("WHAT BUYERS SAY",
                   fmt::format("{} {} asked", buyers.people, buyers.people == 1 ? "was" : "were"));
    for (const shop::Share& one : buyers.shares) {
      const int filled = static_cast<int>(std::lround(20 * one.share));
      std::string line = padded("", 8) + right(money(one.price), 8) + "  " +
                         padded(bar(static_cast<double>(filled)), 21);
      line += right(fmt::format("{} of {}", one.yes, one.asked), 10);
      line += right(fmt::format("{:.0f} to {:.0f} %", 100 * one.low, 100 * one.high), 13);
      line += right(money(one.profit), 11);
      paper_.line(line);
    }
    paper_.wrapped(
        "would buy; the share of all such buyers, right 4 times of 5; profit of a hundred people");
    if (!buyers.shares.empty() && !buyers.too_few) {
      const auto price = [&](std::size_t i) { return money(buyers.shares[i].price); };
      paper_.wrapped(
          fmt::format("most profit at {}; between {} and {} 4 times of 5 had others been asked",
                      with_code(buyers.shares[buyers.best].price),
                      price(buyers.best_low),
                      price(buyers.best_high)));
    }
    paper_.item("        but", buyers.word, 12);
    paper_.line();
  }

  void print_doubts() {
    for (const std::string& doubt : answer_.doubts) paper_.item("        doubt", doubt, 16);
  }

  Paper& paper_;
  const service::TillAnswer& answer_;
  const shop::Currency& currency_;
};

}  // namespace

void print(Paper& paper, const service::TillAnswer& answer) { Till(paper, answer).print(); }

}  // namespace barm::cli
