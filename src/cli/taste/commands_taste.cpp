#include <CLI/CLI.hpp>
#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/daybook/at_home.h"
#include "cli/taste/print_taste.h"
#include "formula/amount.h"
#include "formula/read.h"
#include "generated/commands.h"

namespace barm::cli {

namespace {

struct TasteArguments {
  bool json = false, more = false, across = false;
  std::string bake, drink, loss, by, within = "14h";
  std::optional<double> money;
  double chance = 0.8, noticed = 0.5;
  std::vector<std::string> tasted;
  forecast::Options options;
  HomeArguments home;
};

Result<taste::OvenSays> oven_of(const TasteArguments& arguments) {
  taste::OvenSays oven;
  if (arguments.loss.empty()) return oven;
  const auto loss = formula::parse_amount(arguments.loss);
  if (!loss || loss->kind != formula::WrittenAmount::Kind::percent || loss->value >= 1)
    return failure(ErrorCode::bad_input, "--loss", "a share of the dough's weight, such as '14 %'");
  oven.loss = loss->value;
  return oven;
}

template <class Answer>
Result<Answer> with_bake(
    const TasteArguments& arguments,
    const std::function<Result<Answer>(const formula::Bake&, const taste::OvenSays&)>& ask) {
  const auto oven = oven_of(arguments);
  if (!oven) return failure(oven);
  const auto bake = read_at_home(arguments.bake, arguments.home);
  if (!bake) return failure(bake);
  return ask(*bake, *oven);
}

Result<service::ThroughAnswer> through(const TasteArguments& arguments) {
  return with_bake<service::ThroughAnswer>(arguments, [&](const auto& bake, const auto& oven) {
    return service::comes_through(bake, {oven, arguments.options, arguments.tasted});
  });
}

Result<service::MoreTasteAnswer> more(const TasteArguments& arguments) {
  return with_bake<service::MoreTasteAnswer>(arguments, [&](const auto& bake, const auto& oven) {
    return service::more_taste(
        bake, {{oven, arguments.options, arguments.drink}, arguments.money, arguments.by});
  });
}

Result<service::TasteAcrossAnswer> across(const TasteArguments& arguments) {
  const auto within = of_option("--within", formula::parse_time(arguments.within));
  if (!within) return failure(within);
  return with_bake<service::TasteAcrossAnswer>(arguments, [&](const auto& bake, const auto& oven) {
    taste::CorridorQuestion question;
    question.oven = oven;
    question.options = arguments.options;
    question.drink = arguments.drink;
    question.within = *within;
    question.chance = arguments.chance;
    question.noticed = arguments.noticed;
    return service::taste_across(bake, question);
  });
}

int do_taste(const TasteArguments& arguments) {
  if (arguments.across) return answer(across(arguments), arguments.json);
  const bool wants_more = arguments.more || arguments.money || !arguments.by.empty();
  if (wants_more) return answer(more(arguments), arguments.json);
  return answer(through(arguments), arguments.json);
}

}  // namespace

void add_taste(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<TasteArguments>();
  arguments->options.draws = 200;
  CLI::App* sub =
      app.add_subcommand("taste", "what of the drink comes through, and what would bring more");
  sub->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  add_home_options(*sub, arguments->home);
  sub->add_option("--loss",
                  arguments->loss,
                  "what the oven takes of the weight, such as '14 %'; without it the bake's own");
  sub->add_option("--tasted",
                  arguments->tasted,
                  "what a panel found: '9 of 12 right', or 'gone, a hint, there, loud'");
  sub->add_flag("--more", arguments->more, "the ways to more taste, best first");
  sub->add_option("--money", arguments->money, "the ways for so much more a loaf, such as 0.20");
  sub->add_option("--by", arguments->by, "as much taste, ready no later, such as 08:00 or 14h");
  sub->add_flag("--across", arguments->across, "taste and rise over the drink's share");
  sub->add_option("--of", arguments->drink, "the drink; without it the strongest")
      ->type_name("NAME");
  sub->add_option("--within", arguments->within, "with --across: the time allowed, such as 14h");
  sub->add_option("--chance", arguments->chance, "with --across: the chance wanted, such as 0.8");
  sub->add_option(
      "--noticed", arguments->noticed, "with --across: the tasters wanted, such as 0.5");
  sub->add_option("--draws", arguments->options.draws, "how many doughs and tasters to simulate")
      ->check(CLI::Range(20, 20000));
  sub->add_option("--seed", arguments->options.seed, "another set of them");
  sub->add_option("--threads", arguments->options.threads, "0: all of the machine's")
      ->check(CLI::Range(0, 64));
  sub->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  sub->footer("Example:\n  barm taste examples/mead-loaf.toml --more");
  sub->callback([arguments, &chosen] { chosen = [arguments] { return do_taste(*arguments); }; });
}

}  // namespace barm::cli
