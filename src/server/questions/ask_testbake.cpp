// The questions of a test bake, from its plan to what to bake next. The test bake comes as
// `test_bake`, the text of its file or the same as an object, without the names of other files:
// the bake it is made from is `bake` or `bake_id`, the heights of its jars are `readings`.
#include <fmt/format.h>
#include <openssl/evp.h>

#include <nlohmann/json.hpp>
#include <utility>

#include "generated/all_questions.h"
#include "server/door/problem.h"
#include "service/bake/form.h"
#include "service/testbake/show.h"
#include "service/testbake/testbake.h"

namespace barm::server {

namespace {

constexpr const char* file_name = "test_bake";

template <class Answer>
Answer testbake_answer(Result<Answer> result) {
  if (result) return *std::move(result);
  const std::string& where = result.error().where;
  const char* field = where.starts_with(file_name)     ? "/test_bake"
                      : where.starts_with("readings")  ? "/readings"
                      : where.starts_with("candidate") ? "/candidates"
                                                       : "";
  throw Refused{problem(result.error(), field)};
}

std::string test_text(Fields& fields) {
  const std::string what = "needs a test bake: the text of its file, or the same as an object";
  const Json* given = fields.find("test_bake");
  if (given == nullptr) refuse_field("/test_bake", what);
  if (given->is_string()) return given->get<std::string>();
  if (!given->is_object()) refuse_field("/test_bake", what);
  auto written = service::bake_text(*given);
  if (written) return std::move(written->text);
  const Error& error = written.error();
  throw Refused{problem(Error{error.code, "", error.message}, "/test_bake" + error.where)};
}

testbakes::TestBake asked_test(Fields& fields, const AskContext& context) {
  const std::string text = test_text(fields);
  const formula::Bake base = asked_bake(fields, context.stored);
  return testbake_answer(testbakes::parse_test_bake(text, file_name, base));
}

std::optional<std::vector<testbakes::Watched>> asked_readings(Fields& fields,
                                                              const testbakes::TestBake& test) {
  const auto text = fields.text("readings", "a CSV: day,dough,jar,hours,height_mm");
  if (!text) return std::nullopt;
  return testbake_answer(testbakes::parse_observed(test, *text, "readings"));
}

unsigned long long seed(Fields& fields) {
  return static_cast<unsigned long long>(
      fields.whole("seed", 0, 1'000'000'000, "a whole number from 0 on").value_or(1));
}

Reply ask_plan(Fields& fields, const AskContext& context) {
  const auto test = asked_test(fields, context);
  (void)asked_readings(fields, test);
  return answered(service::to_json(testbake_answer(service::testbake_plan(test))));
}

Reply ask_before(Fields& fields, const AskContext& context) {
  const auto test = asked_test(fields, context);
  (void)asked_readings(fields, test);
  service::BeforeRequest request;
  request.difference =
      fields.number("difference", 0.01, 0.95, "a share of the speed such as 0.2").value_or(0.2);
  request.options.draws = static_cast<int>(
      fields.whole("draws", 20, 5000, "how many doughs to simulate, from 20 to 5000")
          .value_or(200));
  request.options.seed = seed(fields);
  request.options.threads = context.threads;
  request.options.cancelled = context.watch.cancelled;
  request.options.progress = context.watch.progress;
  return answered(service::to_json(testbake_answer(service::testbake_before(test, request))));
}

Reply ask_after(Fields& fields, const AskContext& context) {
  const auto test = asked_test(fields, context);
  const auto observed = asked_readings(fields, test);
  if (!observed) refuse_field("/readings", "needs the heights of the jars");
  testbakes::VerdictOptions options;
  options.threads = context.threads;
  options.seed = seed(fields);
  options.cancelled = context.watch.cancelled;
  options.progress = context.watch.progress;
  return answered(
      service::to_json(testbake_answer(service::testbake_after(test, *observed, options))));
}

Reply ask_next(Fields& fields, const AskContext& context) {
  const auto test = asked_test(fields, context);
  service::NextRequest request;
  request.observed = asked_readings(fields, test);
  if (fields.find("candidates") != nullptr) {
    request.candidates =
        fields.texts("candidates", "a list of doughs in words such as \"plain, match acid\"", 40);
  }
  request.options.threads = context.threads;
  request.options.seed = seed(fields);
  request.options.cancelled = context.watch.cancelled;
  request.options.progress = context.watch.progress;
  return answered(service::to_json(testbake_answer(service::testbake_next(test, request))));
}

std::string base64(const std::string& bytes) {
  std::string out(4 * ((bytes.size() + 2) / 3) + 1, '\0');  // the library ends it with a zero
  const int length = EVP_EncodeBlock(reinterpret_cast<unsigned char*>(out.data()),
                                     reinterpret_cast<const unsigned char*>(bytes.data()),
                                     static_cast<int>(bytes.size()));
  out.resize(static_cast<std::size_t>(length));
  return out;
}

service::ShowRequest asked_show(Fields& fields) {
  service::ShowRequest request;
  if (fields.find("with") == nullptr) return request;
  const std::string what = "a list of what is left out otherwise: remarks, prices";
  for (const std::string& word : fields.texts("with", what, 2)) {
    if (word != "remarks" && word != "prices")
      refuse_field("/with", fmt::format("'{}' is none; needs {}", word, what));
    (word == "remarks" ? request.remarks : request.prices) = true;
  }
  return request;
}

Reply ask_show(Fields& fields, const AskContext& context) {
  const auto test = asked_test(fields, context);
  service::ShowRequest request = asked_show(fields);
  request.observed = asked_readings(fields, test);
  testbakes::VerdictOptions options;
  options.threads = context.threads;
  options.seed = seed(fields);
  options.cancelled = context.watch.cancelled;
  options.progress = context.watch.progress;
  const auto show = testbake_answer(service::testbake_show(test, request, options));
  nlohmann::json answer = service::to_json(show);
  answer.erase("folder");
  for (std::size_t i = 0; i < show.files.size(); ++i)
    answer["files"][i]["base64"] = base64(show.files[i].bytes);
  return answered(answer);
}

}  // namespace

std::vector<Question> testbake_questions() {
  return {
      {.name = "testbake-plan", .answer = ask_plan},
      {.name = "testbake-before", .heavy = true, .as_a_job = true, .answer = ask_before},
      {.name = "testbake-after", .heavy = true, .as_a_job = true, .answer = ask_after},
      {.name = "testbake-next", .heavy = true, .as_a_job = true, .answer = ask_next},
      {.name = "testbake-show", .heavy = true, .as_a_job = true, .answer = ask_show},
  };
}

}  // namespace barm::server
