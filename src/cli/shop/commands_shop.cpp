#include <CLI/CLI.hpp>
#include <memory>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "cli/daybook/at_home.h"
#include "cli/new_files.h"
#include "cli/shop/print_shop.h"
#include "formula/amount.h"
#include "formula/read.h"
#include "generated/commands.h"
#include "service/shop/label.h"
#include "service/shop/till.h"

namespace barm::cli {

namespace {

struct ShopArguments {
  bool json = false;
  std::string bake, prices, csv, print;
  std::string rules = "eu", portion, width = "60", language;
  std::vector<std::string> fields;
  bool small_pack = false;
  bool replace = false;
  int draws = 200;
  service::TillWords till;
  HomeArguments home;
};

Result<service::TillAnswer> till_of(const ShopArguments& arguments) {
  NewFiles files(arguments.replace, {arguments.bake, arguments.prices, arguments.till.buyers});
  for (const std::string& path : {arguments.csv, arguments.print}) {
    const auto planned = files.plan(path);
    if (!planned) return failure(planned);
  }
  const auto bake = read_at_home(arguments.bake, arguments.home);
  if (!bake) return failure(bake);
  const auto request = service::till_request(arguments.prices, arguments.till);
  if (!request) return failure(request);
  auto answer = service::till(*bake, *request);
  if (!answer) return answer;
  if (!arguments.csv.empty()) {
    const auto saved = files.write(arguments.csv, service::to_csv(*answer));
    if (!saved) return failure(saved);
  }
  if (!arguments.print.empty()) {
    const auto label = service::label(*bake, {});
    if (!label) return failure(label);
    const auto saved = files.write(arguments.print, service::price_sheet(*answer, *label));
    if (!saved) return failure(saved);
  }
  return answer;
}

Result<Length> width_of(const std::string& text) {
  const auto number = of_option("--width", formula::parse_number(text));
  if (!number) return failure(number);
  const bool millimetres = number->unit.empty() || number->unit == "mm";
  constexpr double least = 30;
  constexpr double most = 200;
  if (millimetres && number->value >= least && number->value <= most)
    return number->value * millimetre;
  return failure(ErrorCode::bad_input, "--width", "a width from 30mm to 200mm, such as 60mm");
}

/// "lot=L 332": a field over the bake's [label].
Result<bool> add_field(const std::string& text, service::LabelRequest& request) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos)
    return failure(ErrorCode::bad_input, "--field", "write NAME=TEXT, such as lot=L332");
  std::string key = text.substr(0, equals);
  std::string value = text.substr(equals + 1);
  formula::LabelFields tried;
  const auto set = formula::set_field(tried, key, value);
  if (!set) return failure(set.error().code, "--field " + key, set.error().message);
  request.fields.emplace_back(std::move(key), std::move(value));
  return true;
}

Result<service::LabelRequest> label_request(const ShopArguments& arguments) {
  service::LabelRequest request;
  const auto law = of_option("--rules", shop::law_of(arguments.rules));
  if (!law) return failure(law);
  request.law = *law;
  request.draws = arguments.draws;
  std::vector<std::string> fields = arguments.fields;
  if (!arguments.language.empty()) fields.push_back("language=" + arguments.language);
  for (const std::string& field : fields) {
    if (const auto added = add_field(field, request); !added) return failure(added);
  }
  if (arguments.portion.empty()) return request;
  const auto portion = of_option("--portion", formula::parse_amount(arguments.portion));
  if (!portion) return failure(portion);
  const bool mass = portion->kind == formula::WrittenAmount::Kind::mass;
  if (!mass || portion->value < 0.001 || portion->value > 10) {
    return failure(ErrorCode::bad_input, "--portion", "a weight from 1g to 10kg, such as 50g");
  }
  request.portion = portion->value * kilogram;
  return request;
}

Result<service::LabelAnswer> label_of(const ShopArguments& arguments) {
  NewFiles files(arguments.replace, {arguments.bake});
  const auto planned = files.plan(arguments.print);
  if (!planned) return failure(planned);
  const auto request = label_request(arguments);
  if (!request) return failure(request);
  const auto width = width_of(arguments.width);
  if (!width) return failure(width);
  const auto bake = read_at_home(arguments.bake, arguments.home);
  if (!bake) return failure(bake);
  auto answer = service::label(*bake, *request);
  if (!answer || arguments.print.empty()) return answer;
  const auto saved =
      files.write(arguments.print, service::label_sheet(*answer, {*width, arguments.small_pack}));
  if (!saved) return failure(saved);
  return answer;
}

void add_label(CLI::App& app,
               const std::shared_ptr<ShopArguments>& arguments,
               std::function<int()>& chosen) {
  CLI::App* label = app.add_subcommand(
      "label", "a draft of the bread's label: ingredients, allergens, sulphites, nutrition");
  label->footer("Example:\n  barm label examples/mead-loaf.toml --rules eu --print label.html");
  label->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  label->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  add_home_options(*label, arguments->home);
  label->add_option("--rules", arguments->rules, "whose law: eu, uk or us");
  label->add_option("--portion", arguments->portion, "values by the portion too, such as 50g");
  label->add_option(
      "--language", arguments->language, "of the sale in the Union: en, de, fr, it, es");
  label
      ->add_option("--field",
                   arguments->fields,
                   "over the bake's [label], such as lot=L332; may be repeated")
      ->type_name("NAME=TEXT");
  label->add_option("--draws", arguments->draws, "how many loaves to simulate")
      ->check(CLI::Range(20, 5000));
  label->add_option("--print", arguments->print, "write the label as a page to print")
      ->type_name("FILE");
  label->add_flag("--replace", arguments->replace, "write over a file that is there");
  label->add_option("--width", arguments->width, "of the printed label, such as 60mm");
  label->add_flag("--small", arguments->small_pack, "a pack whose largest side is under 80 cm2");
  label->callback([arguments, &chosen] {
    chosen = [arguments] { return answer(label_of(*arguments), arguments->json); };
  });
}

void add_till(CLI::App& app,
              const std::shared_ptr<ShopArguments>& arguments,
              std::function<int()>& chosen) {
  CLI::App* till = app.add_subcommand(
      "till", "what a loaf costs and what to ask for it; whole bottles; what buyers say");
  till->footer("Example:\n  barm till examples/mead-loaf.toml --prices examples/marsh-prices.toml");
  till->add_flag("--json", arguments->json, "the answer as JSON (docs/json.md)");
  till->add_option("BAKE", arguments->bake, "a bake file")->type_name("FILE")->required();
  add_home_options(*till, arguments->home);
  till->add_option("--prices", arguments->prices, "a price file (docs/price-file.md)")
      ->type_name("FILE")
      ->required();
  till->add_option("--margin", arguments->till.margin, "of the net price, such as 35%");
  till->add_option("--markup", arguments->till.mark_up, "on top of the cost, such as 60%");
  till->add_option("--pay", arguments->till.hourly_pay, "what an hour is to earn, such as 28EUR");
  till->add_option("--asked", arguments->till.asked, "a price on the shelf, such as 7.90EUR");
  till->add_option(
      "--price-rise", arguments->till.price_rise, "how much a bottle goes up, such as 2EUR");
  till->add_option("--loaves", arguments->till.most_loaves, "look at whole bottles up to so many")
      ->check(CLI::Range(1, 10000));
  till->add_option("--buyers", arguments->till.buyers, "a CSV: buyer,price,would buy")
      ->type_name("FILE");
  till->add_flag("--open", arguments->till.open, "the cost down to its last part");
  till->add_option("--csv", arguments->csv, "write the cost as a CSV too")->type_name("FILE");
  till->add_option("--print", arguments->print, "write shelf card and price sheet as a page")
      ->type_name("FILE");
  till->add_flag("--replace", arguments->replace, "write over files that are there");
  till->callback([arguments, &chosen] {
    chosen = [arguments] { return answer(till_of(*arguments), arguments->json); };
  });
}

}  // namespace

void add_shop(CLI::App& app, std::function<int()>& chosen) {
  add_till(app, std::make_shared<ShopArguments>(), chosen);
  add_label(app, std::make_shared<ShopArguments>(), chosen);
}

}  // namespace barm::cli
