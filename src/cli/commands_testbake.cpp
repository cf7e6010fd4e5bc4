#include "cli/commands_testbake.h"

#include <CLI/CLI.hpp>
#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/print_testbake.h"
#include "formula/amount.h"

namespace barm::cli {

namespace {

struct Arguments {
  bool json = false, key = false, working = false, sheets = false;
  std::string file;
  std::string difference = "20%", tell = "50%";
  std::string temperature;
  int draws = 200;
  unsigned long long seed = 1;
  service::TasteRequest taste;
};

/// Answers a question about the test bake of the file; `on_paper` lays the answer out.
template <class Ask, class OnPaper>
int answer_for(const Arguments& arguments, const Ask& ask, const OnPaper& on_paper) {
  const auto test = testbakes::read_test_bake(arguments.file);
  using Answer = decltype(ask(*test));
  return answer(test ? ask(*test) : Answer(failure(test)), arguments.json, on_paper);
}

Result<double> share_of(const char* option, const std::string& text) {
  const auto amount = of_option(option, formula::parse_amount(text));
  if (!amount) return failure(amount);
  if (amount->kind != formula::WrittenAmount::Kind::percent)
    return failure(ErrorCode::bad_input, option, "a share such as 20%");
  return amount->value;
}

Result<forecast::Options> options_of(const Arguments& arguments) {
  forecast::Options options;
  options.draws = arguments.draws;
  options.seed = arguments.seed;
  if (!arguments.temperature.empty()) {
    const auto temperature = of_option("--at", formula::parse_temperature(arguments.temperature));
    if (!temperature) return failure(temperature);
    if (temperature->celsius() < 0 || temperature->celsius() > 45) {
      return failure(
          ErrorCode::bad_input, "--at", "a dough's temperature from 0 C to 45 C, such as 24C");
    }
    options.temperature = *temperature;
  }
  return options;
}

int do_plan(const Arguments& a) {
  return answer_for(
      a,
      [](const testbakes::TestBake& test) { return service::testbake_plan(test); },
      [&](const service::TestBakePlan& plan) { return PlanOnPaper{plan, a.key}; });
}

int do_before(const Arguments& a) {
  return answer_for(
      a,
      [&](const testbakes::TestBake& test) -> Result<service::TestBakeBefore> {
        const auto difference = share_of("--difference", a.difference);
        if (!difference) return failure(difference);
        const auto options = options_of(a);
        if (!options) return failure(options);
        return service::testbake_before(test, {*difference, *options});
      },
      [&](const service::TestBakeBefore& before) { return BeforeOnPaper{before, a.working}; });
}

int do_taste(const Arguments& a) {
  const auto ask = [&]() -> Result<service::TasteAnswer> {
    const auto tell = share_of("--tell", a.tell);
    if (!tell) return failure(tell);
    service::TasteRequest request = a.taste;
    request.tell = *tell;
    return service::testbake_taste(request);
  };
  return answer(ask(), a.json, [&](const service::TasteAnswer& taste) {
    return TasteOnPaper{taste, a.sheets};
  });
}

CLI::App* command(
    CLI::App& app, Arguments& a, const char* name, const char* what, const char* example) {
  CLI::App* sub = app.add_subcommand(name, what);
  sub->add_flag("--json", a.json, "the answer as JSON (docs/json.md)");
  sub->footer(std::string("Example:\n  ") + example);
  return sub;
}

void add_file(CLI::App* sub, Arguments& a) {
  sub->add_option("FILE", a.file, "a test bake file (docs/testbake-file.md)")->required();
}

void add_plan(CLI::App& group, Arguments& a, std::function<int()>& chosen) {
  CLI::App* plan = command(group,
                           a,
                           "plan",
                           "weigh-outs, jar places and blind labels",
                           "barm testbake plan examples/test-bakes/mead.toml");
  add_file(plan, a);
  plan->add_flag("--key", a.key, "only which label is which dough");
  plan->callback([&] { chosen = [&] { return do_plan(a); }; });
}

void add_before(CLI::App& group, Arguments& a, std::function<int()>& chosen) {
  CLI::App* before = command(group,
                             a,
                             "before",
                             "what these doughs can tell, before they are baked",
                             "barm testbake before examples/test-bakes/mead.toml --difference 20%");
  add_file(before, a);
  before->add_option("--difference", a.difference, "share of the speed that is to be shown");
  before->add_option("--at", a.temperature, "another temperature of the doughs, such as 26C");
  before->add_option("--draws", a.draws, "how many doughs to imagine")
      ->check(CLI::Range(20, 20000));
  before->add_option("--seed", a.seed, "another set of imagined doughs");
  before->add_flag("--working", a.working, "the numbers underneath");
  before->callback([&] { chosen = [&] { return do_before(a); }; });
}

void add_taste(CLI::App& group, Arguments& a, std::function<int()>& chosen) {
  CLI::App* taste = command(group,
                            a,
                            "taste",
                            "a triangle test: who tastes what, and what it shows",
                            "barm testbake taste --tasters 30 --right 12");
  taste->add_option("--tasters", a.taste.tasters, "how many people taste");
  taste->add_option("--right", a.taste.right, "how many found the odd one")
      ->check(CLI::Range(0, 1000));
  taste->add_option("--tell", a.tell, "share of people who can tell, that is worth finding");
  taste->add_option("--power", a.taste.power, "chance wanted to find it, such as 0.9");
  taste->add_option("--alpha", a.taste.alpha, "chance of a false alarm, such as 0.05");
  taste->add_option("--seed", a.taste.seed, "another random order");
  taste->add_option("--a", a.taste.a, "one dough");
  taste->add_option("--b", a.taste.b, "the other");
  taste->add_flag("--sheets", a.sheets, "the sheets the tasters fill in");
  taste->callback([&] { chosen = [&] { return do_taste(a); }; });
}

}  // namespace

void add_testbake(CLI::App& app, std::function<int()>& chosen) {
  // Lives as long as the callbacks that use it.
  static Arguments arguments;
  CLI::App* group = app.add_subcommand(
      "testbake", "test bakes: rival doughs, what they can tell, what they told");
  group->require_subcommand(1);
  add_plan(*group, arguments, chosen);
  add_before(*group, arguments, chosen);
  add_taste(*group, arguments, chosen);
}

}  // namespace barm::cli
