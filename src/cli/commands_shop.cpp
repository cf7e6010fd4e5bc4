#include "cli/commands_shop.h"

#include <CLI/CLI.hpp>
#include <fstream>
#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/print_shop.h"
#include "formula/read.h"
#include "service/till.h"

namespace barm::cli {

namespace {

struct Arguments {
  bool json = false;
  std::string bake, prices, csv;
  service::TillWords till;
};

/// Writes a file in one go; nothing is left of it when that fails.
Result<bool> written(const std::string& path, const std::string& text) {
  std::ofstream out(path, std::ios::binary);
  out << text;
  out.close();
  if (out) return true;
  return failure(ErrorCode::not_found, path, "cannot be written");
}

Result<service::TillAnswer> till_of(const Arguments& arguments) {
  const auto bake = formula::read_bake(arguments.bake);
  if (!bake) return failure(bake);
  const auto request = service::till_request(arguments.prices, arguments.till);
  if (!request) return failure(request);
  auto answer = service::till(*bake, *request);
  if (!answer || arguments.csv.empty()) return answer;
  const auto saved = written(arguments.csv, service::to_csv(*answer));
  if (!saved) return failure(saved);
  return answer;
}

void add_till(CLI::App& app,
              const std::shared_ptr<Arguments>& arguments,
              std::function<int()>& chosen) {
  CLI::App* till = app.add_subcommand(
      "till", "what a loaf costs and what to ask for it; whole bottles; what buyers say");
  till->footer("Example:\n  barm till examples/mead-loaf.toml --prices examples/marsh-prices.toml");
  till->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  till->add_option("BAKE", arguments->bake, "a bake file")->required();
  till->add_option("--prices", arguments->prices, "a price file (docs/price-file.md)")->required();
  till->add_option("--margin", arguments->till.margin, "of the net price, such as 35%");
  till->add_option("--markup", arguments->till.mark_up, "on top of the cost, such as 60%");
  till->add_option("--pay", arguments->till.hourly_pay, "what an hour is to earn, such as 28EUR");
  till->add_option("--asked", arguments->till.asked, "a price on the shelf, such as 7.90EUR");
  till->add_option("--dearer", arguments->till.dearer, "each bottle by so much, such as 2EUR");
  till->add_option("--loaves", arguments->till.most_loaves, "look at whole bottles up to so many")
      ->check(CLI::Range(1, 10000));
  till->add_option("--buyers", arguments->till.buyers, "a CSV: buyer,price,would buy");
  till->add_flag("--open", arguments->till.open, "the cost down to its last part");
  till->add_option("--csv", arguments->csv, "write the cost as a CSV too");
  till->callback([arguments, &chosen] {
    chosen = [arguments] { return answer(till_of(*arguments), arguments->json); };
  });
}

}  // namespace

void add_shop(CLI::App& app, std::function<int()>& chosen) {
  add_till(app, std::make_shared<Arguments>(), chosen);
}

}  // namespace barm::cli
