#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <memory>

#include "cli/answer.h"
#include "cli/new_files.h"
#include "cli/print.h"
#include "formula/amount.h"
#include "formula/document.h"
#include "formula/read.h"
#include "generated/commands.h"
#include "service/bake/swap.h"
#include "service/words.h"

namespace barm::cli {

namespace {

struct SwapArguments {
  bool json = false;
  std::string bake, drink, share = "50 %", write;
  bool replace = false;
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

Result<service::SwapAnswer> swap(const SwapArguments& arguments) {
  const auto share = share_of(arguments.share);
  if (!share) return failure(share);
  NewFiles files(arguments.replace, {arguments.bake});
  const auto planned = files.plan(arguments.write);
  if (!planned) return failure(planned);
  const auto text = formula::read_text(arguments.bake);
  if (!text) return failure(text);
  const auto read = formula::parse_bake(*text, arguments.bake);  // its errors name the file
  if (!read) return failure(read);
  auto swapped = service::swap_drink(*text, arguments.drink, *share);
  if (!swapped) return failure(swapped);
  if (!arguments.write.empty()) {
    const auto kept = files.write(arguments.write, swapped->text);
    if (!kept) return failure(kept);
  }
  return swapped;
}

int run(const SwapArguments& arguments) {
  const auto swapped = swap(arguments);
  // Its JSON keeps the order of the bake file; the answers without a file do not need to.
  if (swapped && arguments.json) {
    put_out_json(service::to_json(*swapped));
    return 0;
  }
  if (!swapped) return answer(Result<service::BowlAnswer>(failure(swapped)), arguments.json);
  Paper paper(colour_wanted());
  print(paper, *swapped);
  put_out(paper.text());
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
  sub->add_flag("--replace", arguments->replace, "write over a file that is there");
  sub->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  sub->footer(
      "Example:\n  barm swap examples/plain-loaf.toml --drink \"dry mead\" --share \"50 %\"");
  sub->callback([arguments, &chosen] { chosen = [arguments] { return run(*arguments); }; });
}

}  // namespace barm::cli
