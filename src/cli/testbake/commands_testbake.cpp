#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <csignal>
#include <filesystem>
#include <string>

#include "base/file_text.h"
#include "cli/answer.h"
#include "cli/new_files.h"
#include "cli/output.h"
#include "cli/testbake/print_testbake.h"
#include "formula/amount.h"
#include "generated/commands.h"
#include "service/bake/begun.h"

namespace {

volatile std::sig_atomic_t stop_asked = 0;

}  // namespace

extern "C" {
static void barm_ask_to_stop(int) { stop_asked = 1; }
}

namespace barm::cli {

namespace {

struct TestbakeArguments {
  bool json = false, key = false, working = false, sheets = false;
  std::string file;
  std::string difference = "20%", tell = "50%";
  std::string temperature, culture;
  int draws = 200;
  unsigned long long seed = 1;
  service::TasteRequest taste;
  std::vector<std::string> candidates;
  bool before_readings = false;
  int most = 8;
  bool remarks = false, prices = false, replace = false;
  std::string folder;
  std::string drink, up = "temperature", from, to, within;
};

bool interrupted() { return stop_asked != 0; }

/// From here on Ctrl-C asks the work to stop; it ends with its own exit status and nothing
/// half-written.
std::function<bool()> stoppable() {
  std::signal(SIGINT, barm_ask_to_stop);
  return interrupted;
}

/// Answers a question about the test bake of the file; `on_paper` lays the answer out.
template <class Ask, class OnPaper>
int answer_for(const TestbakeArguments& arguments, const Ask& ask, const OnPaper& on_paper) {
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

Result<forecast::Options> options_of(const TestbakeArguments& arguments) {
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

/// Keeps the seed that was drawn in the file of the test bake, where its labels are looked up
/// later.
Result<bool> keep_seed(const std::string& path, unsigned long long seed) {
  const auto text = file_text(path, 10'000'000);
  if (!text) return failure(text);
  NewFiles files(true, {});
  auto kept = files.plan(path);
  if (kept) kept = files.write(path, testbakes::with_seed(*text, seed));
  if (!kept) {
    return failure(
        kept.error().code,
        path,
        fmt::format("names no seed and cannot be written: write \"seed = {}\" into it, so that "
                    "its labels stay what they are",
                    seed));
  }
  put_beside(fmt::format("seed = {} was drawn and is kept in {}\n", seed, path));
  return true;
}

int do_plan(const TestbakeArguments& a) {
  return answer_for(
      a,
      [&](const testbakes::TestBake& test) -> Result<service::TestBakePlan> {
        auto plan = service::testbake_plan(test);
        if (!plan || test.seed) return plan;
        const auto kept = keep_seed(a.file, *plan->test.seed);
        if (!kept) return failure(kept);
        return plan;
      },
      [&](const service::TestBakePlan& plan) { return PlanOnPaper{plan, a.key}; });
}

int do_before(const TestbakeArguments& a) {
  return answer_for(
      a,
      [&](const testbakes::TestBake& test) -> Result<service::TestBakeBefore> {
        const auto difference = share_of("--difference", a.difference);
        if (!difference) return failure(difference);
        auto options = options_of(a);
        if (!options) return failure(options);
        const auto start = service::begun(a.culture, test.base, *options->prior);
        if (!start) return failure(start);
        options->prior = &start->prior;
        auto before = service::testbake_before(test, {*difference, *options});
        if (before) before->culture = start->culture;
        return before;
      },
      [&](const service::TestBakeBefore& before) { return BeforeOnPaper{before, a.working}; });
}

int do_after(const TestbakeArguments& a) {
  return answer_for(
      a,
      [&](const testbakes::TestBake& test) {
        testbakes::VerdictOptions options;
        options.seed = a.seed;
        options.progress = said_on_terminal();
        options.cancelled = stoppable();
        return service::testbake_after(test, options);
      },
      [&](const service::TestBakeAfter& after) { return AfterOnPaper{after, a.working}; });
}

int do_next(const TestbakeArguments& a) {
  return answer_for(
      a,
      [&](const testbakes::TestBake& test) {
        service::NextRequest request;
        request.candidates = a.candidates;
        request.ignore_readings = a.before_readings;
        request.options.seed = a.seed;
        request.options.progress = said_on_terminal();
        request.options.cancelled = stoppable();
        return service::testbake_next(test, request);
      },
      [&](const service::TestBakeNext& next) { return NextOnPaper{next, a.most}; });
}

Result<double> end_of_axis(const char* option,
                           testbakes::Upward up,
                           const std::string& text,
                           double usual) {
  if (text.empty()) return usual;
  switch (up) {
    case testbakes::Upward::temperature: {
      const auto value = of_option(option, formula::parse_temperature(text));
      if (!value) return failure(value);
      return value->celsius();
    }
    case testbakes::Upward::starter:
      return share_of(option, text);
    case testbakes::Upward::time: {
      const auto value = of_option(option, formula::parse_time(text));
      if (!value) return failure(value);
      return value->in(hour);
    }
  }
  return usual;
}

Result<testbakes::MapQuestion> map_question(const TestbakeArguments& a, Time within) {
  testbakes::MapQuestion question;
  question.drink = a.drink;
  question.seed = a.seed;
  question.draws = a.draws;
  question.within = within;
  question.cancelled = stoppable();
  double least = 16;
  double most = 32;
  if (a.up == testbakes::name(testbakes::Upward::starter)) {
    question.upward = testbakes::Upward::starter;
    least = 0.05;
    most = 0.4;
  } else if (a.up == testbakes::name(testbakes::Upward::time)) {
    question.upward = testbakes::Upward::time;
    least = 2;
    most = 36;
  } else if (a.up != testbakes::name(testbakes::Upward::temperature)) {
    return failure(ErrorCode::bad_input, "--up", "temperature, starter or time");
  }
  const auto from = end_of_axis("--from", question.upward, a.from, least);
  if (!from) return failure(from);
  const auto to = end_of_axis("--to", question.upward, a.to, most);
  if (!to) return failure(to);
  question.least = *from;
  question.most = *to;
  if (a.within.empty()) return question;
  const auto time = of_option("--within", formula::parse_time(a.within));
  if (!time) return failure(time);
  question.within = *time;
  return question;
}

int do_map(const TestbakeArguments& a) {
  return answer_for(
      a,
      [&](const testbakes::TestBake& test) -> Result<service::TestBakeMap> {
        auto question = map_question(a, test.within);
        if (!question) return failure(question);
        const auto start = service::begun(a.culture, test.base, *question->prior);
        if (!start) return failure(start);
        question->prior = &start->prior;
        auto map = service::testbake_map(test.base, *question);
        if (map) map->culture = start->culture;
        return map;
      },
      std::identity{});
}

/// Writes none unless each may be written.
Result<service::TestBakeShow> written(service::TestBakeShow show, const TestbakeArguments& a) {
  namespace fs = std::filesystem;
  std::error_code trouble;
  fs::create_directories(a.folder, trouble);
  if (trouble)
    return failure(ErrorCode::bad_input,
                   "--out",
                   "the folder \"" + a.folder + "\" cannot be made: name one that can be written");
  NewFiles files(a.replace, {a.file});
  const auto place = [&](const auto& file) { return (fs::path(a.folder) / file.name).string(); };
  for (const auto& file : show.files) {
    const auto planned = files.plan(place(file));
    if (!planned) return failure(planned);
  }
  for (const auto& file : show.files) {
    const auto done = files.write(place(file), file.bytes);
    if (!done) return failure(done);
  }
  show.folder = a.folder;
  return show;
}

int do_show(const TestbakeArguments& a) {
  return answer_for(
      a,
      [&](const testbakes::TestBake& test) -> Result<service::TestBakeShow> {
        testbakes::VerdictOptions options;
        options.seed = a.seed;
        options.progress = said_on_terminal();
        options.cancelled = stoppable();
        auto show = service::testbake_show(test, {a.remarks, a.prices}, options);
        if (!show) return failure(show);
        return written(*std::move(show), a);
      },
      std::identity{});
}

int do_taste(const TestbakeArguments& a) {
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
    CLI::App& app, TestbakeArguments& a, const char* name, const char* what, const char* example) {
  CLI::App* sub = app.add_subcommand(name, what);
  sub->add_flag("--json", a.json, "the answer as JSON (docs/json.md)");
  sub->footer(std::string("Example:\n  ") + example);
  return sub;
}

void add_file(CLI::App* sub, TestbakeArguments& a) {
  sub->add_option("FILE", a.file, "a test bake file (docs/testbake-file.md)")
      ->type_name("FILE")
      ->required();
}

void add_culture_option(CLI::App* sub, TestbakeArguments& a) {
  sub->add_option(
         "--culture", a.culture, "start from what a culture has taught, not from a typical starter")
      ->type_name("FILE");
}

void add_plan(CLI::App& group, TestbakeArguments& a, std::function<int()>& chosen) {
  CLI::App* plan = command(group,
                           a,
                           "plan",
                           "weigh-outs, jar places and blind labels",
                           "barm testbake plan examples/test-bakes/mead.toml");
  add_file(plan, a);
  plan->add_flag("--key", a.key, "only which label is which dough");
  plan->callback([&] { chosen = [&] { return do_plan(a); }; });
}

void add_before(CLI::App& group, TestbakeArguments& a, std::function<int()>& chosen) {
  CLI::App* before = command(group,
                             a,
                             "before",
                             "what these doughs can tell, before they are baked",
                             "barm testbake before examples/test-bakes/mead.toml --difference 20%");
  add_file(before, a);
  before->add_option("--difference", a.difference, "share of the speed that is to be shown");
  before->add_option("--at", a.temperature, "another temperature of the doughs, such as 26C");
  before->add_option("--draws", a.draws, "how many doughs to simulate")
      ->check(CLI::Range(20, 20000));
  add_culture_option(before, a);
  before->add_option("--seed", a.seed, "another set of simulated doughs");
  before->add_flag("--working", a.working, "the numbers underneath");
  before->callback([&] { chosen = [&] { return do_before(a); }; });
}

void add_after(CLI::App& group, TestbakeArguments& a, std::function<int()>& chosen) {
  CLI::App* after = command(group,
                            a,
                            "after",
                            "the verdict, by the readings of all jars",
                            "barm testbake after examples/test-bakes/mead.toml");
  add_file(after, a);
  after->add_option("--seed", a.seed, "another set of simulated doughs for the ranges");
  after->add_flag("--working", a.working, "the numbers underneath");
  after->callback([&] { chosen = [&] { return do_after(a); }; });
}

void add_next(CLI::App& group, TestbakeArguments& a, std::function<int()>& chosen) {
  CLI::App* next = command(group,
                           a,
                           "next",
                           "what to bake next, and why",
                           "barm testbake next examples/test-bakes/mead.toml");
  add_file(next, a);
  next->add_option("--candidate",
                   a.candidates,
                   "a dough in words, such as 'plain, match acid'; without one the usual ones");
  next->add_flag("--before", a.before_readings, "as if nothing had been read yet");
  next->add_option("--most", a.most, "how many to list")->check(CLI::Range(1, 40));
  next->add_option("--seed", a.seed, "another set of simulated doughs");
  next->callback([&] { chosen = [&] { return do_next(a); }; });
}

void add_map(CLI::App& group, TestbakeArguments& a, std::function<int()>& chosen) {
  CLI::App* map = command(group,
                          a,
                          "map",
                          "how far a drink can go, as a picture of chances",
                          "barm testbake map examples/test-bakes/mead.toml --up temperature");
  add_file(map, a);
  map->add_option("--of", a.drink, "the drink; without it the strongest")->type_name("NAME");
  map->add_option("--up", a.up, "the second axis: temperature, starter or time");
  map->add_option("--from", a.from, "where the second axis begins, such as 18C, 5% or 4h");
  map->add_option("--to", a.to, "where it ends");
  map->add_option("--within", a.within, "the time allowed; without it the test bake's own");
  map->add_option("--draws", a.draws, "how many doughs to simulate")->check(CLI::Range(20, 5000));
  add_culture_option(map, a);
  map->add_option("--seed", a.seed, "another set of simulated doughs");
  map->callback([&] { chosen = [&] { return do_map(a); }; });
}

void add_show(CLI::App& group, TestbakeArguments& a, std::function<int()>& chosen) {
  CLI::App* show = command(group,
                           a,
                           "show",
                           "a page and pictures of the test bake, to be shown",
                           "barm testbake show examples/test-bakes/mead.toml --out shown");
  add_file(show, a);
  show->add_option("--out", a.folder, "the folder to write to")->type_name("FOLDER")->required();
  show->add_flag("--replace", a.replace, "write over files that are there");
  show->add_flag("--remarks", a.remarks, "show the private remark too");
  show->add_flag("--prices", a.prices, "show prices too");
  show->add_option("--seed", a.seed, "another set of simulated doughs for the ranges");
  show->callback([&] { chosen = [&] { return do_show(a); }; });
}

void add_tasters(CLI::App& group, TestbakeArguments& a, std::function<int()>& chosen) {
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
  static TestbakeArguments arguments;
  CLI::App* group = app.add_subcommand(
      "testbake", "test bakes: rival doughs, what they can tell, what they told");
  group->require_subcommand(1);
  add_plan(*group, arguments, chosen);
  add_before(*group, arguments, chosen);
  add_tasters(*group, arguments, chosen);
  add_after(*group, arguments, chosen);
  add_next(*group, arguments, chosen);
  add_map(*group, arguments, chosen);
  add_show(*group, arguments, chosen);
}

}  // namespace barm::cli
