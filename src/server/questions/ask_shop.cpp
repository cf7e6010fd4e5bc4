// The questions of the till and of the label, and their sheets to print. Prices that a request
// leaves out are those of the daybook's setting "price-file".
#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <utility>

#include "formula/amount.h"
#include "generated/all_questions.h"
#include "server/door/internal/embedded.h"
#include "server/door/problem.h"
#include "server/questions/asked_now.h"
#include "server/questions/shop_routes.h"
#include "service/shop/label.h"
#include "service/shop/till.h"
#include "shop/buyers.h"
#include "shop/price_list.h"

namespace barm::server {

namespace {

constexpr const char* price_setting = "price-file";
constexpr const char* any_prices = "needs the text of a price file (docs/price-file.md)";

// The till names what it reads as the terminal does.
std::string till_field(const std::string& where) {
  static constexpr std::pair<std::string_view, const char*> table[] = {
      {"--margin", "/margin"},
      {"--markup", "/mark_up"},
      {"--pay", "/hourly_pay"},
      {"--asked", "/asked"},
      {"--price-rise", "/price_rise"},
      {"--rules", "/rules"},
      {"--portion", "/portion"},
      {"--width", "/width"},
      {"prices", "/prices"},
      {"buyers", "/buyers"},
      {"bake", "/bake"},
  };
  for (const auto& [name, field] : table) {
    if (where.starts_with(name)) return field;
  }
  return "";
}

template <class Answer>
Answer till_answer(Result<Answer> result) {
  if (!result) throw Refused{problem(result.error(), till_field(result.error().where))};
  return *std::move(result);
}

// --- prices ---

std::string price_text(const std::optional<std::string>& given, const StoredBakes& stored) {
  if (given) return *given;
  std::string kept = stored.setting ? stored.setting(price_setting) : "";
  if (kept.empty()) {
    refuse_field("/prices", fmt::format("{}; the daybook holds none yet", any_prices));
  }
  return kept;
}

Reply ask_prices(Fields& fields, const AskContext&) {
  const auto text = fields.needed(fields.text("prices", any_prices), "prices", any_prices);
  const shop::PriceList list = till_answer(shop::parse_prices(text, "prices"));
  Reply reply;
  reply.body = written({{"schema", "barm.prices/1"},
                        {"name", list.name},
                        {"currency", list.currency.code},
                        {"oldest", list.oldest()},
                        {"newest", list.newest()},
                        {"packages", list.packages.size()}});
  return reply;
}

// --- the till ---

service::TillWords till_words(Fields& fields) {
  service::TillWords words;
  const auto take = [&](const char* key, std::string& into, const char* what) {
    if (auto text = fields.text(key, what)) into = std::move(*text);
  };
  take("margin", words.margin, "a share of the net price such as 35 %");
  take("mark_up", words.mark_up, "a share of the cost such as 60 %");
  take("hourly_pay", words.hourly_pay, "what an hour is to earn, such as 28 EUR");
  take("asked", words.asked, "a price on the shelf such as 7.90 EUR");
  take("price_rise", words.price_rise, "money such as 2 EUR");
  words.most_loaves = static_cast<int>(
      fields.whole("most_loaves", 0, 10000, "a number of loaves up to 10000").value_or(0));
  return words;
}

service::TillRequest till_request(Fields& fields, const StoredBakes& stored) {
  const auto given = fields.text("prices", any_prices);
  shop::PriceList list = till_answer(shop::parse_prices(price_text(given, stored), "prices"));
  std::vector<shop::Answer> answers;
  if (const auto buyers = fields.text("buyers", "a CSV: buyer,price,would buy")) {
    answers = till_answer(shop::parse_answers(*buyers, "buyers", list.currency));
  }
  return till_answer(
      service::till_request(std::move(list), std::move(answers), till_words(fields)));
}

Reply ask_till(Fields& fields, const AskContext& context) {
  const service::TillRequest request = till_request(fields, context.stored);
  const auto answer = till_answer(service::till(asked_bake(fields, context.stored), request));
  Reply reply;
  reply.body = written(service::to_json(answer));
  return reply;
}

// --- the label ---

/// A field over the bake's [label]; what is wrong with it is said at it.
void add_label_field(std::string_view key, std::string text, service::LabelRequest& request) {
  formula::LabelFields tried;
  const auto set = formula::set_field(tried, key, text);
  if (!set) refuse_field("/" + std::string(key), set.error().message);
  request.fields.emplace_back(key, std::move(text));
}

service::LabelRequest label_request(const std::string& rules, const std::string& portion) {
  service::LabelRequest request;
  auto law = shop::law_of(rules);
  if (!law) throw Refused{problem(law.error(), "/rules")};
  request.law = *law;
  if (portion.empty()) return request;
  const auto amount = formula::parse_amount(portion);
  const bool mass = amount && amount->kind == formula::WrittenAmount::Kind::mass;
  if (!mass || amount->value < 0.001 || amount->value > 10)
    refuse_field("/portion", "needs a weight from 1g to 10kg, such as 50g");
  request.portion = amount->value * kilogram;
  return request;
}

Reply ask_label(Fields& fields, const AskContext& context) {
  const auto rules = fields.text("rules", "eu, uk or us").value_or("eu");
  const auto portion = fields.text("portion", "a weight such as 50g").value_or("");
  service::LabelRequest request = label_request(rules, portion);
  for (const std::string_view key : formula::label_field_keys()) {
    const std::string name(key);
    if (auto text = fields.text(name, "text")) add_label_field(key, std::move(*text), request);
  }
  request.draws = static_cast<int>(
      fields.whole("draws", 20, 5000, "how many loaves to simulate, from 20 to 5000")
          .value_or(200));
  request.cancelled = context.watch.cancelled;
  const auto answer = till_answer(service::label(asked_bake(fields, context.stored), request));
  Reply reply;
  reply.body = written(service::to_json(answer));
  return reply;
}

// --- sheets ---

std::string asked(const Request& request, const std::string& key, const std::string& otherwise) {
  const auto found = request.query.find(key);
  return found == request.query.end() ? otherwise : found->second;
}

shop::LabelSize label_size(const Request& request) {
  const auto number = formula::parse_number(asked(request, "width", "60mm"));
  constexpr double least = 30;
  constexpr double most = 200;
  const bool right = number && (number->unit == "mm" || number->unit.empty()) &&
                     number->value >= least && number->value <= most;
  if (!right) refuse_field("/width", "needs a width from 30mm to 200mm, such as 60mm");
  return {number->value * millimetre, asked(request, "small", "") == "1"};
}

Reply sheet(std::string html) {
  Reply reply;
  reply.type = "text/html; charset=utf-8";
  reply.body = std::move(html);
  reply.sheet = true;
  return reply;
}

service::TillAnswer till_of(const StoredBakes& stored, const std::string& id) {
  shop::PriceList list = till_answer(shop::parse_prices(price_text({}, stored), "prices"));
  const auto request =
      till_answer(service::till_request(std::move(list), {}, service::TillWords{}));
  return till_answer(service::till(stored.bake(id), request));
}

}  // namespace

std::vector<Question> shop_questions() {
  return {
      {.name = "till", .answer = ask_till},
      {.name = "label", .heavy = true, .answer = ask_label},
      {.name = "prices", .answer = ask_prices},
  };
}

void add_shop_routes(Router& router,
                     Turns& turns,
                     const std::function<StoredBakes(const service::Now&)>& stored) {
  const auto get = [&router](const char* path, Handler handler) {
    router.add({.method = "GET", .path = path, .handler = std::move(handler)});
  };
  const auto heavy = [&router](const char* path, Handler handler) {
    router.add({.method = "GET", .path = path, .handler = std::move(handler), .heavy = true});
  };
  heavy("/api/bakes/{id}/label.html", [stored, &turns](const Request& request, const Parts& parts) {
    const auto size = label_size(request);
    auto wanted = label_request(asked(request, "rules", "eu"), asked(request, "portion", ""));
    for (const std::string_view key : formula::label_field_keys()) {
      const auto found = request.query.find(std::string(key));
      if (found != request.query.end()) add_label_field(key, found->second, wanted);
    }
    wanted.cancelled = request.gone;
    const formula::Bake bake = stored(asked_now(request)).bake(parts.at("id"));
    const Turns::Turn turn(turns, request.gone);
    return sheet(service::label_sheet(till_answer(service::label(bake, wanted)), size));
  });
  heavy("/api/bakes/{id}/prices.html",
        [stored, &turns](const Request& request, const Parts& parts) {
          const StoredBakes bakes = stored(asked_now(request));
          const auto till = till_of(bakes, parts.at("id"));
          auto wanted = label_request(asked(request, "rules", "eu"), "");
          wanted.cancelled = request.gone;
          const Turns::Turn turn(turns, request.gone);
          const auto label = till_answer(service::label(bakes.bake(parts.at("id")), wanted));
          return sheet(service::price_sheet(till, label));
        });
  get("/api/bakes/{id}/till.csv", [stored](const Request& request, const Parts& parts) {
    Reply reply;
    reply.type = "text/csv; charset=utf-8";
    reply.body = service::to_csv(till_of(stored(asked_now(request)), parts.at("id")));
    reply.with("Content-Disposition", "attachment; filename=\"till.csv\"");
    return reply;
  });
  get("/api/prices/example", [](const Request&, const Parts&) {
    Reply reply;
    reply.body = written({{"schema", "barm.price-example/1"},
                          {"text", std::string(internal::price_example().front().bytes)}});
    return reply;
  });
}

}  // namespace barm::server
