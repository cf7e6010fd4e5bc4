#pragma once
// A price file: what things cost and when they did, what people and the oven cost, how the shop
// sells. docs/price-file.md has it for a baker.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "formula/bake.h"
#include "shop/money.h"
#include "units/units.h"

namespace barm::shop {

/// A package as it is bought: a sack, a bottle, a keg.
struct Package {
  std::string what;              ///< an ingredient, by any of its names
  std::optional<Mass> mass;      ///< what it holds: by weight,
  std::optional<Volume> volume;  ///< or by volume at 20 C; one of the two
  std::string size;              ///< as written, "750 mL"
  Cash paid;                     ///< for one, as the bill says
  Cash net;                      ///< less the tax that comes back
  Cash deposit;                  ///< for the empty
  double comes_back = 1;         ///< share of the empties whose deposit comes back, 0..1
  double waste = 0;              ///< share that never gets into a bowl, 0..1
  bool rest_is_lost = false;     ///< what an opened one holds after the bake is poured away
  std::string date;              ///< when it cost so much, "2026-11-20"
  FilePlace place;
};

/// Work at one step.
struct WorkStep {
  std::string name;
  Time per_batch;
  Time per_loaf;
  std::optional<Cash> hourly;  ///< instead of the list's own
  double lost = 0;  ///< share of the loaves that this step costs: torn, burnt, not sold; 0..1
};

struct Oven {
  Cash per_kilowatt_hour;
  double kilowatts = 0;           ///< drawn while it heats
  Time preheat;                   ///< once a batch
  Time bake;                      ///< once a load
  int loaves_a_load = 0;          ///< 0: the whole batch at once
  double duty = 1;                ///< share of the time that it heats while baking, 0..1
  std::optional<double> metered;  ///< [kWh] a batch, measured: goes before the rest
};

/// What a loaf is wrapped in.
struct Wrapping {
  std::string what;
  Cash net;  ///< of a pack
  std::int64_t holds = 1;
  std::int64_t per_loaf_millionths = 1'000'000;  ///< how many a loaf takes, in millionths
};

/// What is paid whether a loaf is baked or not.
struct Overhead {
  std::string what;
  Cash net;
  bool monthly = true;  ///< else by the batch
};

struct Tax {
  std::string name = "tax";
  double on_bread = 0;               ///< on top of the net price, 0..1
  bool reclaimed = false;            ///< tax in what is bought comes back
  std::optional<double> in_bottles;  ///< the share inside prices that stand in a bake file
};

/// How the shop sells.
struct Selling {
  std::optional<double> margin;     ///< of the net price that is not cost, 0..1
  std::optional<double> mark_up;    ///< of the cost, on top
  std::optional<Cash> hourly_pay;   ///< what an hour of work is to earn
  double wholesale_off = 0;         ///< off the net price, 0..1
  int slices = 0;                   ///< of a loaf
  std::optional<Cash> step;         ///< shelf prices are whole multiples of it
  std::optional<Cash> asked;        ///< today's price on the shelf, tax included
  std::int64_t loaves_a_month = 0;  ///< over which monthly overhead is spread
};

struct PriceList {
  std::string name;
  std::string file;
  std::string note;
  Currency currency;
  std::string date;  ///< of every price that names none; may be empty when each does
  Cash hourly;       ///< of an hour of work
  std::vector<Package> packages;
  std::vector<WorkStep> steps;
  std::optional<Oven> oven;
  std::vector<Wrapping> wrappings;
  std::vector<Overhead> overheads;
  Tax tax;
  Selling selling;

  /// The packages of an ingredient, in the order of the file.
  [[nodiscard]] std::vector<const Package*> packages_of(const larder::Ingredient& ingredient) const;

  /// The earliest and the latest date of a price.
  [[nodiscard]] std::string oldest() const;
  [[nodiscard]] std::string newest() const;
};

/// Reads a price file. Errors: not_found (no such file), bad_input with file:line:column (wrong
/// TOML, unknown key, a negative price, two currencies, a price without a date, a package without a
/// size, a share outside its range).
[[nodiscard]] Result<PriceList> read_prices(const std::string& path);

/// The same from text; `file` names it in errors.
[[nodiscard]] Result<PriceList> parse_prices(std::string_view text, const std::string& file);

}  // namespace barm::shop
