#include "cli/commands_swap.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <fstream>
#include <memory>
#include <sstream>

#include "cli/answer.h"
#include "cli/print.h"
#include "formula/amount.h"
#include "formula/read.h"
#include "service/swap.h"
#include "service/words.h"

namespace barm::cli {

namespace {

struct SwapArguments {
  bool json = false;
  std::string bake, drink, share = "50 %", write;
};

void print(Paper& paper, const service::SwapAnswer& answer) {
  paper.heading("SWAP    " + answer.bowl.bake.name,
                fmt::format("{} {}", service::share(answer.share), answer.drink));
  for (const std::string& step : answer.working) paper.item("      ·", step);
  paper.line();
  paper.heading("WEIGH OUT");
  for (const formula::Weighed& line : answer.bowl.bowl.lines)
    paper.line(padded("", 8) + padded(line.name, 30) + right(service::weight(line.plan), 10));
}

Result<double> share_of(const std::string& text) {
  const auto amount = formula::parse_amount(text);
  if (!amount || amount->kind != formula::WrittenAmount::Kind::percent || amount->value > 1)
    return failure(ErrorCode::bad_input, "--share", "a share from 0 % to 100 %, such as '50 %'");
  return amount->value;
}

// Never over a file that is there: the bake before the swap may be wanted again.
Result<bool> keep(const std::string& text, const std::string& file) {
  if (std::filesystem::exists(file))
    return failure(ErrorCode::bad_input, file, "is there already: name a new file");
  std::ofstream out(file, std::ios::binary);
  out << text;
  out.close();
  if (!out)
    return failure(ErrorCode::bad_input, file, "cannot be written: name one in a folder of yours");
  return true;
}

Result<service::SwapAnswer> swap(const SwapArguments& arguments) {
  const auto share = share_of(arguments.share);
  if (!share) return failure(share);
  const auto read = formula::read_bake(arguments.bake);  // its errors name the file
  if (!read) return failure(read);
  std::ostringstream text;
  text << std::ifstream(arguments.bake, std::ios::binary).rdbuf();
  auto swapped = service::swap_drink(text.str(), arguments.drink, *share);
  if (!swapped) return failure(swapped);
  if (!arguments.write.empty()) {
    const auto kept = keep(swapped->text, arguments.write);
    if (!kept) return failure(kept);
  }
  return swapped;
}

int run(const SwapArguments& arguments) {
  const auto swapped = swap(arguments);
  // Its JSON keeps the order of the bake file; the answers without a file do not need to.
  if (swapped && arguments.json) {
    fmt::print("{}\n", service::to_json(*swapped).dump(2));
    return 0;
  }
  if (!swapped) return answer(Result<service::BowlAnswer>(failure(swapped)), arguments.json);
  Paper paper(colour_wanted());
  print(paper, *swapped);
  fmt::print("{}", paper.text());
  return 0;
}

}  // namespace

void add_swap(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<SwapArguments>();
  CLI::App* sub =
      app.add_subcommand("swap", "a drink for a share of the water, the real water held");
  sub->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  sub->add_option("--drink", arguments->drink, "a drink of the larder or of the bake")
      ->type_name("NAME")
      ->required();
  sub->add_option("--share", arguments->share, "of drink and water together, such as '50 %'");
  sub->add_option("--write", arguments->write, "write the bake file after the swap; a new file")
      ->type_name("FILE");
  sub->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  sub->footer(
      "Example:\n  barm swap examples/plain-loaf.toml --drink \"dry mead\" --share \"50 %\"");
  sub->callback([arguments, &chosen] { chosen = [arguments] { return run(*arguments); }; });
}

}  // namespace barm::cli
