#include "typed_texts.h"

#include <cmath>

#include "base/require.h"
#include "estimation/readings.h"
#include "formula/read.h"
#include "shop/buyers.h"
#include "shop/drinks.h"
#include "shop/price.h"

namespace barm::fuzz {

namespace {

template <class T>
bool read_or_refused(const Result<T>& result) {
  if (!result) require(!result.error().message.empty(), "a refusal has words");
  return result.has_value();
}

const formula::Bake& mead_loaf() {
  static const formula::Bake bake = *formula::parse_bake(
      "pieces = 6\n[bowl]\n\"white bread flour\" = \"3 kg\"\n\"dry mead\" = \"900 mL\"\n"
      "water = \"1.2 kg\"\nsalt = \"60 g\"\n",
      "fuzz.toml");
  return bake;
}

/// The shown parts of every level sum to the whole shown.
void hold_sums(const shop::CostPart& part) {
  if (part.parts.empty()) return;
  std::int64_t batch = 0;
  std::int64_t loaf = 0;
  for (const shop::CostPart& one : part.parts) {
    batch += one.shown_batch;
    loaf += one.shown_loaf;
    hold_sums(one);
  }
  require(batch == part.shown_batch && loaf == part.shown_loaf, "parts sum to the whole");
}

}  // namespace

void prices(std::string_view text) {
  const auto list = shop::parse_prices(text, "fuzz.toml");
  if (!read_or_refused(list)) return;
  if (!list->packages.empty())
    require(!list->oldest().empty() && list->oldest() <= list->newest(), "a price has its date");
  const auto costing = shop::cost(mead_loaf(), *list);
  if (!read_or_refused(costing)) return;
  hold_sums(costing->all);
  read_or_refused(shop::effects(mead_loaf(), *list));
  read_or_refused(shop::in_bottles(mead_loaf(), *list));
  for (const shop::Offer& offer : shop::offers(*costing, *list))
    require(offer.net + offer.tax == offer.shelf, "net and tax are the price on the shelf");
}

void answers(std::string_view text) {
  const auto read = shop::parse_answers(text, "fuzz.csv", shop::Currency{});
  if (!read_or_refused(read) || read->empty()) return;
  const auto told = shop::judge(*read, shop::Cash::from_minor(300), 0.07, 20);
  require(!told.word.empty(), "what buyers say has words");
  for (const shop::Share& share : told.shares)
    require(0 <= share.low && share.low <= share.high && share.high <= 1, "a share is one");
}

void readings(std::string_view text) {
  // The night in which Berlin puts its clocks back.
  static const auto clock =
      time::WallClock::mixed("2026-10-24T22:00", time::Zone::named("Europe/Berlin").value());
  const auto read = estimation::parse_readings(text, "fuzz.csv", {.clock = clock.value()});
  if (!read_or_refused(read)) return;
  Time before;
  for (const estimation::Reading& row : read->rows) {
    require(std::isfinite(row.at.si()) && row.at >= before, "readings stand in order of time");
    require(!row.height || std::isfinite(row.height->si()), "a height is a number");
    require(!row.ph || (*row.ph >= 0 && *row.ph <= 14), "a pH is one");
    before = row.at;
  }
}

}  // namespace barm::fuzz
