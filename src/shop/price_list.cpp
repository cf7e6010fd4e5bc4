#include "shop/price_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formula/reading.h"
#include "larder/larder.h"
#include "time/date.h"

namespace barm::shop {

using formula::amount_of;
using formula::at_place;
using formula::check_keys;
using formula::check_table;
using formula::Entry;
using formula::in_quotes;
using formula::Node;
using formula::share_of;
using formula::stop;
using formula::Stopped;
using formula::text_of;
using formula::WrittenAmount;

namespace {

constexpr int most_entries = 500;

class Reader {
 public:
  Reader(const Node& root, const std::string& file) : root_(root) { list_.file = file; }

  PriceList read() {
    check_keys(root_,
               "in a price file",
               {"name",
                "note",
                "currency",
                "date",
                "buy",
                "tax",
                "work",
                "oven",
                "wrap",
                "overhead",
                "sell"});
    read_top();
    if (const Node* tax = table("tax")) read_tax(*tax);
    each("buy", [&](const Node& one) { read_package(one); });
    if (const Node* work = table("work")) read_work(*work);
    if (const Node* oven = table("oven")) read_oven(*oven);
    each("wrap", [&](const Node& one) { read_wrapping(one); });
    each("overhead", [&](const Node& one) { read_overhead(one); });
    if (const Node* sell = table("sell")) read_selling(*sell);
    check_monthly();
    return list_;
  }

 private:
  // --- finding ---

  [[nodiscard]] const Entry* entry(std::string_view key) const {
    for (const Entry& one : root_.entries) {
      if (one.key == key) return &one;
    }
    return nullptr;
  }

  [[nodiscard]] const Node* table(std::string_view key) const {
    const Entry* one = entry(key);
    if (one == nullptr) return nullptr;
    check_table(*one, fmt::format("[{}]", key));
    return &one->value;
  }

  template <class Read>
  void each(std::string_view key, Read read) const {
    const Entry* one = entry(key);
    if (one == nullptr) return;
    const bool list = one->value.kind == Node::Kind::list;
    if (!list) stop(one->place, fmt::format("stands more than once: write [[{}]]", key));
    if (one->value.items.size() > most_entries) stop(one->place, "is a list of at most 500");
    for (const Node& item : one->value.items) {
      if (item.kind != Node::Kind::table) stop(item.place, fmt::format("write [[{}]]", key));
      read(item);
    }
  }

  static const Node& needed(const Node& table, std::string_view key, std::string_view example) {
    const Node* value = formula::find(table, key);
    if (value != nullptr) return *value;
    stop(table.place, fmt::format("has no {}: write {} = {}", key, key, example));
  }

  // --- single values ---

  /// A sum in the list's currency, not below zero.
  [[nodiscard]] Cash cash_of(const Node& value) const {
    const auto written = at_place(parse_cash(text_of(value, "9.60 EUR")), value.place);
    if (!(written.currency == list_.currency)) {
      stop(value.place,
           fmt::format("{} stands in a file of {}: write one currency in one file",
                       written.currency.code,
                       list_.currency.code));
    }
    if (written.cash < Cash()) stop(value.place, "a price is not negative");
    return written.cash;
  }

  static std::string date_of(const Node& value) {
    const bool date = value.kind == Node::Kind::date || value.kind == Node::Kind::text;
    if (date && time::parse_date(value.text)) return value.text;
    stop(value.place, "is no date: write 2026-11-20");
  }

  [[nodiscard]] std::string date_in(const Node& table) const {
    if (const Node* date = formula::find(table, "date")) return date_of(*date);
    if (!list_.date.empty()) return list_.date;
    stop(table.place,
         "has no date: write date = 2026-11-20 here, or once at the top for every price");
  }

  static double optional_share(const Node& table, std::string_view key, double otherwise) {
    const Node* value = formula::find(table, key);
    return value == nullptr ? otherwise : share_of(*value, "2 %", 0, 1);
  }

  static double lost_share(const Node& table, std::string_view key) {
    constexpr double most = 0.9;
    const Node* value = formula::find(table, key);
    return value == nullptr ? 0 : share_of(*value, "2 %", 0, most);
  }

  static Time optional_time(const Node& table, std::string_view key) {
    const Node* value = formula::find(table, key);
    return value == nullptr ? Time() : formula::time_of(*value);
  }

  static bool truth_of(const Node& value) {
    if (value.kind == Node::Kind::truth) return value.number != 0;
    stop(value.place, "is true or false");
  }

  static std::int64_t count_of(const Node& value, std::int64_t most) {
    const bool good = value.kind == Node::Kind::whole && value.number >= 1 &&
                      value.number <= static_cast<double>(most);
    if (!good) stop(value.place, fmt::format("is a whole number from 1 to {}", most));
    return static_cast<std::int64_t>(value.number);
  }

  static std::string word_of(const Node& table, std::string_view key, std::string_view example) {
    const Node& value = needed(table, key, fmt::format("\"{}\"", example));
    const std::string& word = text_of(value, example);
    constexpr std::size_t longest = 120;
    if (word.empty() || word.size() > longest) stop(value.place, "is a word or a few");
    return word;
  }

  /// Less the tax of that share in it, where such tax comes back: net = paid / (1 + tax).
  [[nodiscard]] Cash net_of(Cash paid, const Node& table) const {
    const Node* tax = formula::find(table, "tax");
    const double share = tax == nullptr ? 0 : share_of(*tax, "19 %", 0, 1);
    if (!list_.tax.reclaimed) return paid;
    constexpr std::int64_t whole = 1'000'000;
    return paid.times(whole, whole + std::llround(share * static_cast<double>(whole)));
  }

  // --- the tables ---

  void read_top() {
    if (const Entry* one = entry("name")) list_.name = text_of(one->value, "November");
    if (const Entry* one = entry("note")) list_.note = text_of(one->value, "A note");
    if (const Entry* one = entry("date")) list_.date = date_of(one->value);
    const Node& currency = needed(root_, "currency", "\"EUR\"");
    list_.currency = at_place(currency_of(text_of(currency, "EUR")), currency.place);
  }

  void read_tax(const Node& tax) {
    check_keys(tax, "of tax", {"name", "on_bread", "reclaimed", "bottles"});
    if (const Node* name = formula::find(tax, "name")) list_.tax.name = text_of(*name, "VAT");
    list_.tax.on_bread = optional_share(tax, "on_bread", 0);
    if (const Node* back = formula::find(tax, "reclaimed")) list_.tax.reclaimed = truth_of(*back);
    if (const Node* share = formula::find(tax, "bottles"))
      list_.tax.in_bottles = share_of(*share, "19 %", 0, 1);
  }

  void read_package(const Node& table) {
    check_keys(table,
               "of what is bought",
               {"what", "size", "price", "date", "tax", "deposit", "comes_back", "waste", "rest"});
    Package package;
    package.place = table.place;
    package.what = word_of(table, "what", "dry mead");
    const Node& size = needed(table, "size", "\"750 mL\"");
    read_size(size, package);
    package.paid = cash_of(needed(table, "price", "\"9.60 EUR\""));
    package.net = net_of(package.paid, table);
    package.date = date_in(table);
    if (const Node* deposit = formula::find(table, "deposit")) package.deposit = cash_of(*deposit);
    package.comes_back = optional_share(table, "comes_back", 1);
    package.waste = lost_share(table, "waste");
    if (const Node* rest = formula::find(table, "rest")) package.rest_is_lost = lost(*rest);
    list_.packages.push_back(std::move(package));
  }

  static void read_size(const Node& value, Package& package) {
    const WrittenAmount amount = amount_of(value);
    constexpr double most = 100;  // t or m3
    const bool mass = amount.kind == WrittenAmount::Kind::mass;
    const bool volume = amount.kind == WrittenAmount::Kind::volume;
    const double least = mass ? 1e-6 : 1e-9;  // 1 mg or 1 uL
    if ((!mass && !volume) || amount.value < least || amount.value > 1000 * most) {
      stop(value.place, "is no size: write \"25 kg\" or \"750 mL\"");
    }
    if (mass) package.mass = amount.value * kilogram;
    if (volume) package.volume = amount.value * cubic_metre;
    package.size = value.text;
  }

  static bool lost(const Node& value) {
    const std::string& word = text_of(value, "kept");
    if (word == "lost" || word == "kept") return word == "lost";
    stop(value.place, "says what becomes of an opened bottle's rest: write \"kept\" or \"lost\"");
  }

  void read_work(const Node& work) {
    check_keys(work, "of work", {"hourly", "step"});
    list_.hourly = cash_of(needed(work, "hourly", "\"18.50 EUR\""));
    const Node* steps = formula::find(work, "step");
    if (steps == nullptr) return;
    if (steps->kind != Node::Kind::list || steps->items.size() > most_entries) {
      stop(steps->place, "stands once for each step: write [[work.step]]");
    }
    for (const Node& one : steps->items) list_.steps.push_back(step_of(one));
  }

  WorkStep step_of(const Node& table) const {
    if (table.kind != Node::Kind::table) stop(table.place, "write [[work.step]]");
    check_keys(table, "of a step", {"do", "batch", "loaf", "hourly", "lost"});
    WorkStep step;
    step.name = word_of(table, "do", "shape");
    step.per_batch = optional_time(table, "batch");
    step.per_loaf = optional_time(table, "loaf");
    if (const Node* hourly = formula::find(table, "hourly")) step.hourly = cash_of(*hourly);
    step.lost = lost_share(table, "lost");
    return step;
  }

  void read_oven(const Node& table) {
    check_keys(table,
               "of the oven",
               {"energy", "power", "preheat", "bake", "loaves", "duty", "metered", "tax"});
    Oven oven;
    oven.per_kilowatt_hour =
        net_of(energy_price(needed(table, "energy", "\"0.32 EUR / kWh\"")), table);
    if (const Node* metered = formula::find(table, "metered")) {
      oven.metered = number_with(*metered, "kWh", "9 kWh");
    } else {
      oven.kilowatts = number_with(needed(table, "power", "\"6 kW\""), "kW", "6 kW");
      oven.bake = formula::time_of(needed(table, "bake", "\"40 min\""));
    }
    oven.preheat = optional_time(table, "preheat");
    if (const Node* bake = formula::find(table, "bake")) oven.bake = formula::time_of(*bake);
    if (const Node* loaves = formula::find(table, "loaves")) {
      oven.loaves_a_load = static_cast<int>(count_of(*loaves, 100'000));
    }
    oven.duty = optional_share(table, "duty", 1);
    list_.oven = oven;
  }

  [[nodiscard]] Cash energy_price(const Node& value) const {
    const std::string& text = text_of(value, "0.32 EUR / kWh");
    const std::size_t slash = text.find('/');
    std::string unit = slash == std::string::npos ? "" : text.substr(slash + 1);
    std::erase(unit, ' ');
    if (unit != "kWh") stop(value.place, "is per kilowatt hour: write \"0.32 EUR / kWh\"");
    Node sum = value;
    sum.text = text.substr(0, slash);
    return cash_of(sum);
  }

  static double number_with(const Node& value, std::string_view unit, std::string_view example) {
    const auto number = at_place(formula::parse_number(text_of(value, example)), value.place);
    constexpr double most = 100'000;
    if (number.unit == unit && number.value >= 0 && number.value <= most) return number.value;
    stop(value.place, fmt::format("is not in {} from 0 to 100000: write \"{}\"", unit, example));
  }

  void read_wrapping(const Node& table) {
    check_keys(table, "of wrapping", {"what", "price", "holds", "each", "tax", "date"});
    Wrapping wrapping;
    wrapping.what = word_of(table, "what", "paper bag");
    wrapping.net = net_of(cash_of(needed(table, "price", "\"24.00 EUR\"")), table);
    if (const Node* holds = formula::find(table, "holds")) {
      wrapping.holds = count_of(*holds, 10'000'000);
    }
    if (const Node* each = formula::find(table, "each")) {
      const bool number = each->kind == Node::Kind::whole || each->kind == Node::Kind::real;
      if (!number || !(each->number >= 0 && each->number <= 1000)) {
        stop(each->place, "is how many a loaf takes: write each = 1");
      }
      wrapping.per_loaf_millionths = std::llround(each->number * 1e6);
    }
    (void)date_in(table);
    list_.wrappings.push_back(std::move(wrapping));
  }

  void read_overhead(const Node& table) {
    check_keys(table, "of overhead", {"what", "month", "batch", "tax", "date"});
    Overhead overhead;
    overhead.what = word_of(table, "what", "rent");
    const Node* month = formula::find(table, "month");
    const Node* batch = formula::find(table, "batch");
    if ((month == nullptr) == (batch == nullptr)) {
      stop(table.place, "is by the month or by the batch: write month = \"620 EUR\"");
    }
    overhead.monthly = month != nullptr;
    overhead.net = net_of(cash_of(month != nullptr ? *month : *batch), table);
    (void)date_in(table);
    list_.overheads.push_back(std::move(overhead));
  }

  void read_selling(const Node& table) {
    check_keys(table,
               "of selling",
               {"margin",
                "mark_up",
                "hourly_pay",
                "wholesale_off",
                "slices",
                "step",
                "asked",
                "loaves_a_month"});
    Selling& selling = list_.selling;
    if (const Node* margin = formula::find(table, "margin")) {
      selling.margin = share_of(*margin, "60 %", 0, 0.99);
    }
    if (const Node* mark_up = formula::find(table, "mark_up")) {
      selling.mark_up = share_of(*mark_up, "150 %", 0, 100);
    }
    if (const Node* pay = formula::find(table, "hourly_pay")) selling.hourly_pay = cash_of(*pay);
    selling.wholesale_off = lost_share(table, "wholesale_off");
    if (const Node* slices = formula::find(table, "slices")) {
      selling.slices = static_cast<int>(count_of(*slices, 1000));
    }
    if (const Node* step = formula::find(table, "step")) {
      selling.step = cash_of(*step);
      if (selling.step->minor() < 1) stop(step->place, "is at least one cent: write \"0.10 EUR\"");
    }
    if (const Node* asked = formula::find(table, "asked")) selling.asked = cash_of(*asked);
    if (const Node* loaves = formula::find(table, "loaves_a_month")) {
      selling.loaves_a_month = count_of(*loaves, 100'000'000);
    }
  }

  void check_monthly() const {
    const bool monthly = std::any_of(list_.overheads.begin(),
                                     list_.overheads.end(),
                                     [](const Overhead& one) { return one.monthly; });
    if (!monthly || list_.selling.loaves_a_month > 0) return;
    stop(entry("overhead")->place,
         "is by the month: say over how many loaves, loaves_a_month = 400 in [sell]");
  }

  const Node& root_;
  PriceList list_;
};

std::string folded(std::string_view word) {
  std::string out;
  for (const char c : word) {
    if (c != ' ' && c != '-' && c != '_') {
      out += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    }
  }
  return out;
}

bool is_of(const Package& package, const larder::Ingredient& ingredient) {
  if (folded(package.what) == folded(ingredient.name)) return true;
  const larder::Ingredient* known = larder::find(package.what);
  return known != nullptr && known->key == ingredient.key;
}

}  // namespace

std::vector<const Package*> PriceList::packages_of(const larder::Ingredient& ingredient) const {
  std::vector<const Package*> found;
  for (const Package& package : packages) {
    if (is_of(package, ingredient)) found.push_back(&package);
  }
  return found;
}

std::string PriceList::oldest() const {
  std::string found = date;
  for (const Package& package : packages) {
    if (found.empty() || package.date < found) found = package.date;
  }
  return found;
}

std::string PriceList::newest() const {
  std::string found = date;
  for (const Package& package : packages) found = std::max(found, package.date);
  return found;
}

Result<PriceList> parse_prices(std::string_view text, const std::string& file) {
  const auto root = formula::parse_document(text, file);
  if (!root) return failure(root);
  Node whole = *root;
  whole.place = {file, 1, 1};
  try {
    return Reader(whole, file).read();
  } catch (const Stopped& stopped) {
    return tl::unexpected<Error>(stopped.error);
  }
}

Result<PriceList> read_prices(const std::string& path) {
  const auto text = formula::read_text(path);
  if (!text) return failure(text);
  return parse_prices(*text, path);
}

}  // namespace barm::shop
