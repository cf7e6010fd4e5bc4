#include "server/server.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <thread>
#include <utility>

#include "base/complain.h"
#include "base/require.h"
#include "server/answers.h"
#include "server/ask.h"
#include "server/ask_shop.h"
#include "server/diary.h"
#include "server/events.h"
#include "server/fields.h"
#include "server/guard.h"
#include "server/internal/embedded.h"
#include "server/jobs.h"
#include "server/network.h"
#include "server/page.h"
#include "server/page_version.h"
#include "server/problem.h"
#include "server/qr.h"
#include "server/status.h"
#include "server/turns.h"
#include "server/watchman.h"

namespace barm::server {

namespace {

const std::string json_type = "application/json";

Reply json_reply(std::string body, int status = 200) {
  Reply reply;
  reply.status = status;
  reply.body = std::move(body);
  return reply;
}

Reply nothing() {
  Reply reply;
  reply.status = 204;
  return reply;
}

std::optional<std::int64_t> number(const std::string& text) {
  std::int64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || value < 0) return std::nullopt;
  return value;
}

// "application/json; charset=utf-8" without what follows.
std::string media_type(const Request& request) {
  std::string type = request.header("content-type");
  type = type.substr(0, type.find(';'));
  while (!type.empty() && type.back() == ' ') type.pop_back();
  std::transform(type.begin(), type.end(), type.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return type;
}

// Two at the least: a long job must not keep every short question waiting.
int turns_at_once() { return static_cast<int>(std::max(2U, std::thread::hardware_concurrency())); }

std::vector<std::string> names(bool lan) {
  std::vector<std::string> out{"localhost", "127.0.0.1"};
  if (!lan) return out;
  const std::string name = own_name();
  if (name != "localhost") {
    out.push_back(name);
    if (name.find('.') == std::string::npos) out.push_back(name + ".local");
  }
  return out;
}

class RealServer final : public Server, private Desk {
 public:
  RealServer(const ServerOptions& options,
             Guard guard,
             std::optional<Certificate> certificate,
             std::unique_ptr<Diary> diary)
      : lan_(options.lan),
        certificate_(std::move(certificate)),
        guard_(std::move(guard)),
        diary_(std::move(diary)),
        events_([this](std::int64_t number) { return diary_->changes_since(number); }),
        turns_(turns_at_once()),
        jobs_([this](const std::string& job) { events_.tell("job", job); }, turns_.places() - 1),
        told_saving_(diary_->saving()),
        watchman_([this] { look_for_changes(); }) {
    add_routes();
  }

  Result<bool> listen(const ServerOptions& options) {
    ListenerOptions wire;
    wire.address = lan_ ? "0.0.0.0" : "127.0.0.1";
    wire.port = options.port;
    wire.certificate = certificate_;
    wire.places = options.places;
    wire.patience = options.patience;
    auto opened = Listener::open(wire, *this);
    if (!opened) return failure(opened);
    listener_ = std::move(*opened);
    guard_.set_port(listener_->port());
    return true;
  }

  int port() const override { return listener_->port(); }

  std::vector<std::string> addresses() const override {
    std::vector<std::string> out{fmt::format("http://localhost:{}", port())};
    if (!lan_) return out;
    const auto own = own_addresses();
    for (const std::string& one : own) out.push_back(fmt::format("https://{}:{}", one, port()));
    for (const std::string& one : own) out.push_back(fmt::format("http://{}:{}", one, port()));
    return out;
  }

  std::string key() const override {
    const Pairing* pairing = guard_.pairing();
    return pairing == nullptr ? "" : pairing->key();
  }

  std::optional<Certificate> certificate() const override { return certificate_; }

  const Router& router() const override { return router_; }

  void run() override {
    std::thread watching([this] { watchman_.run(); });
    listener_->run();
    watchman_.stop();
    watching.join();
    events_.stop();
    jobs_.stop_all();
  }

  void stop() override {
    events_.stop();
    jobs_.tell_all_to_stop();
    listener_->stop();
  }

  // --- the desk ---

  Admission admit(const Request& head) override {
    const auto found = router_.find(asked_method(head), head.path);
    const bool open = found.route == nullptr ? !is_api(head.path) : found.route->open;
    Admission out;
    out.known = guard_.is_paired(head);
    if (auto refusal = guard_.refuses(head, open)) {
      out.refusal = safe(std::move(*refusal));
    } else if (found.route != nullptr && !found.route->takes.empty() &&
               !takes(*found.route, head)) {
      out.refusal = safe(wrong_type(*found.route));
    } else if (found.route != nullptr) {
      out.most_bytes = found.route->takes.empty() ? 1000 : found.route->most_bytes;
      out.heavy = found.route->heavy;
    }
    return out;
  }

  Reply answer(const Request& request) override {
    try {
      return safe(dispatch(request));
    } catch (const Refused& refused) {
      return safe(refused.reply);
    } catch (const std::exception& error) {
      return fault(request, error.what());
    } catch (...) {
      return fault(request, "an error of no known kind");
    }
  }

 private:
  static Reply fault(const Request& request, const char* words) {
    complain(fmt::format("barm: {} {}: {}", request.method, printable(request.path), words));
    return safe(problem(Refusal::our_fault, "a fault of barm's own; the terminal has the words"));
  }

  static bool is_api(const std::string& path) {
    return path == "/api" || path.starts_with("/api/");
  }

  static std::string asked_method(const Request& request) {
    return request.method == "HEAD" ? "GET" : request.method;
  }

  static std::string printable(const std::string& path) {
    std::string out;
    for (const char c : path.substr(0, 200)) out += c >= 0x20 && c < 0x7F ? c : '?';
    return out;
  }

  static Reply safe(Reply reply) {
    add_safety(reply);
    reply.with(version_header, own_version());
    return reply;
  }

  static bool takes(const Route& route, const Request& request) {
    return std::find(route.takes.begin(), route.takes.end(), media_type(request)) !=
           route.takes.end();
  }

  static Reply wrong_type(const Route& route) {
    std::string wanted;
    for (const std::string& type : route.takes) wanted += (wanted.empty() ? "" : " or ") + type;
    return problem(Refusal::wrong_type, "the body must come as " + wanted);
  }

  Reply dispatch(const Request& request) {
    if (auto stale = refuse_stale_page(request)) return std::move(*stale);
    const auto found = router_.find(asked_method(request), request.path);
    if (found.route != nullptr) {
      // It waited long: is it still wanted?
      if (found.route->heavy && request.gone && request.gone())
        return problem(Error{ErrorCode::cancelled, "", "stopped before its turn came"});
      Reply reply = found.route->handler(request, found.parts);
      if (may_be_kept(*found.route, reply)) reply.with("Cache-Control", "private, no-cache");
      return reply;
    }
    if (!found.methods.empty()) return wrong_method(found.methods);
    if (is_api(request.path))
      return problem(Refusal::no_route, "there is no such route; docs/api.md lists them");
    if (asked_method(request) != "GET") return wrong_method({"GET"});
    return page_file(request);
  }

  // The page shows its last answers while the server is away. Everything else is no-store.
  static bool may_be_kept(const Route& route, const Reply& reply) {
    return route.method == "GET" && route.kept && reply.status == 200 && !reply.stream &&
           !reply.sheet && !reply.has("Cache-Control");
  }

  static Reply wrong_method(const std::vector<std::string>& methods) {
    std::string allowed;
    for (const std::string& method : methods) allowed += (allowed.empty() ? "" : ", ") + method;
    return problem(Refusal::wrong_method, "this route is asked by " + allowed)
        .with("Allow", allowed);
  }

  // --- routes ---

  void add_routes() {
    add_questions();
    add_jobs();
    add_own();
    diary_->add_routes(router_, turns_, [this] { watchman_.ring(); });
  }

  void get(const std::string& path,
           std::function<Reply(const Request&, const Parts&)> handler,
           bool open = false) {
    router_.add({.method = "GET", .path = path, .handler = std::move(handler), .open = open});
  }

  void post(const std::string& path,
            std::function<Reply(const Request&, const Parts&)> handler,
            bool heavy = false) {
    router_.add({.method = "POST",
                 .path = path,
                 .handler = std::move(handler),
                 .takes = {json_type},
                 .heavy = heavy});
  }

  void add_questions() {
    for (const Question& one : questions()) {
      post(
          "/api/" + one.name,
          [this, &one](const Request& request, const Parts&) { return ask_now(one, request); },
          one.heavy);
    }
    get("/api/larder",
        [](const Request& request, const Parts&) { return larder_reply(request.asked("words")); });
    get("/api/larder/{key}",
        [](const Request&, const Parts& parts) { return ingredient_reply(parts.at("key")); });
    get("/api/sources",
        [](const Request& request, const Parts&) { return sources_reply(request.asked("words")); });
    get("/api/examples", [](const Request&, const Parts&) { return examples_reply(); });
    add_shop_routes(router_, turns_, [this] { return diary_->stored_bakes(); });
  }

  Reply ask_now(const Question& one, const Request& request) {
    const Json body = parse_json(request.body);
    if (!one.heavy) return ask(one, body, context({}));
    const auto work = [&] {
      const Turns::Turn turn(turns_, request.gone);
      return ask(one, body, context({request.gone, {}}));
    };
    if (!one.follows_from_itself || names_a_record(body)) return work();
    return answers_.to(one.name + request.body, work);
  }

  // Whether it asks about a bake or a culture of the daybook, which may be another one next time.
  static bool names_a_record(const Json& body) {
    return body.contains("bake_id") || body.contains("culture_id");
  }

  AskContext context(Watch watch) const {
    AskContext out;
    out.watch = std::move(watch);
    out.stored = diary_->stored_bakes();
    return out;
  }

  void add_jobs() {
    post("/api/jobs", [this](const Request& request, const Parts&) { return start_job(request); });
    router_.add(
        {.method = "GET",
         .path = "/api/jobs/{job}",
         .handler = [this](const Request&,
                           const Parts& parts) { return json_reply(jobs_.look(parts.at("job"))); },
         .kept = false});
    router_.add({.method = "DELETE",
                 .path = "/api/jobs/{job}",
                 .handler = [this](const Request&, const Parts& parts) {
                   return json_reply(jobs_.stop(parts.at("job")));
                 }});
  }

  /// "foresee, read or reach": what may be asked as long work.
  static std::string long_work() {
    std::vector<std::string> names;
    for (const Question& one : questions()) {
      if (one.as_a_job) names.push_back(one.name);
    }
    const std::string last = names.back();
    names.pop_back();
    return fmt::format("{} or {}", fmt::join(names, ", "), last);
  }

  Reply start_job(const Request& request) {
    const Json body = parse_json(request.body);
    Fields fields(body);
    const std::string what = long_work();
    const auto name = fields.needed(fields.text("ask", what), "ask", "wants " + what);
    const Question* one = question(name);
    if (one == nullptr || !one->as_a_job) refuse_field("/ask", "wants " + what);
    const Json* with = fields.find("with");
    if (with == nullptr) refuse_field("/with", "wants what the route of that name takes");
    fields.check_all_taken();
    return json_reply(jobs_.start(name,
                                  [this, one, asked = *with](const Watch& watch) {
                                    const Turns::Turn turn(turns_, watch.cancelled);
                                    return ask(*one, asked, context(watch));
                                  }),
                      202);
  }

  void add_own() {
    get(
        "/api/status",
        [this](const Request& request, const Parts&) { return status_reply(status(request)); },
        true);
    get(
        "/api/openapi.json",
        [](const Request&, const Parts&) {
          return json_reply(std::string(internal::contract().front().bytes));
        },
        true);
    get("/api/events", [this](const Request& request, const Parts&) { return listen(request); });
    router_.add({.method = "POST",
                 .path = "/api/pair",
                 .handler = [this](const Request& request, const Parts&) { return pair(request); },
                 .open = true,
                 .takes = {json_type},
                 .most_bytes = 1000});
    get("/api/pair", [this](const Request& request, const Parts&) { return pair_code(request); });
    router_.add(
        {.method = "DELETE",
         .path = "/api/pair",
         .handler = [this](const Request& request, const Parts&) { return forget(request); }});
    if (certificate_)
      router_.add(
          {.method = "GET",
           .path = "/authority.crt",
           .handler = [this](const Request& request, const Parts&) { return authority(request); },
           .kept = false});
  }

  /// What another device needs to be let in: shown on this machine alone, as in its terminal.
  Reply pair_code(const Request& request) const {
    if (!request.from_here() || guard_.pairing() == nullptr)
      throw Refused{problem(Refusal::no_route,
                            "the key of the house is shown on the machine itself, where the server "
                            "was started with barm open --lan")};
    json out = {{"schema", "barm.pair-code/1"}, {"key", key()}, {"address", ""}};
    for (const std::string& address : addresses()) {
      if (address.starts_with("https:") && out["address"] == "") out["address"] = address;
    }
    out["squares"] = out["address"] == ""
                         ? std::vector<std::string>{}
                         : qr_squares(out["address"].get<std::string>() + "/#pair=" + key());
    return json_reply(out.dump());
  }

  Status status(const Request& request) const {
    Status out;
    out.lan = lan_;
    out.secure = request.secure || request.from_here();
    out.paired = guard_.is_paired(request);
    out.daybook = diary_->is_there();
    out.epoch = diary_->epoch();
    out.saving = storage::name(diary_->saving());
    if (!certificate_) return out;
    out.secure_address = "https://" + request.header("host");
    // What is shown to strangers proves nothing to those who are paired.
    if (out.paired) {
      out.server_fingerprint = certificate_->fingerprint;
      out.authority_fingerprint = certificate_->authority_fingerprint;
    }
    return out;
  }

  Reply listen(const Request& request) {
    std::string after = request.header("last-event-id");
    if (after.empty()) after = request.asked("after");
    Reply reply;
    reply.type = "text/event-stream";
    reply.stream = events_.listen(number(after), guard_.device(request));
    // Forgotten meanwhile: then its streams were ended before this one began.
    if (!guard_.is_paired(request))
      throw Refused{problem(Refusal::not_paired, "this device is not paired any more")};
    return reply;
  }

  Reply pair(const Request& request) {
    const Json body = parse_json(request.body);
    Fields fields(body);
    const auto key = fields.needed(
        fields.text("key", "the key in the terminal"), "key", "wants the key in the terminal");
    const std::string device =
        fields.text("device", "a name to know this device by").value_or("a device");
    fields.check_all_taken();
    Pairing* pairing = guard_.pairing();
    if (pairing == nullptr)
      throw Refused{
          problem(Refusal::no_route, "pairing is for --lan; this server is for its own machine")};
    const Guess guess =
        pairing->guess(key,
                       {device, request.remote, request.cookie(cookie_name(request.secure))},
                       Pairing::Clock::now());
    if (guess.full) {
      throw Refused{problem(Error{
          ErrorCode::conflict,
          "",
          fmt::format("{} devices are paired already: have one that is not used any more forget "
                      "this server, or start the server anew without the file that ends in "
                      ".lan/devices and pair all again",
                      Pairing::most_devices)})};
    }
    if (guess.wait_s > 0) {
      return problem(Refusal::too_many, fmt::format("too many wrong keys: wait {} s", guess.wait_s))
          .with("Retry-After", std::to_string(guess.wait_s));
    }
    if (guess.cookie.empty()) refuse_field("/key", "is not the key shown in the terminal");
    return json_reply(written({{"schema", "barm.paired/1"}, {"device", device}}))
        .with("Set-Cookie", cookie(request, guess.cookie, 400 * 86400));
  }

  static std::string cookie(const Request& request, const std::string& value, int seconds) {
    return fmt::format("{}={}; Path=/; Max-Age={}; HttpOnly; SameSite=Strict{}",
                       cookie_name(request.secure),
                       value,
                       seconds,
                       request.secure ? "; Secure" : "");
  }

  Reply forget(const Request& request) {
    const std::string device = guard_.device(request);
    if (Pairing* pairing = guard_.pairing())
      pairing->forget(request.cookie(cookie_name(request.secure)));
    if (!device.empty()) events_.end(device);
    return nothing().with("Set-Cookie", cookie(request, "", 0));
  }

  // On a plain line somebody between could hand out one of his own.
  Reply authority(const Request& request) const {
    if (!request.secure && !request.from_here())
      return problem(Refusal::not_paired,
                     "the certificate is handed out over https alone: open " +
                         ("https://" + request.header("host")) + " and pair there");
    std::ostringstream text;
    text << std::ifstream(certificate_->authority).rdbuf();
    Reply reply;
    reply.type = "application/x-x509-ca-cert";
    reply.body = text.str();
    return reply;
  }

  void tell_of_saving() {
    diary_->look_whether_it_saves();
    if (diary_->saving() == told_saving_) return;
    told_saving_ = diary_->saving();
    events_.tell("saving", written({{"saving", storage::name(told_saving_)}}));
  }

  // Tells the browsers what has changed, by us or by another program on the same file.
  void look_for_changes() {
    tell_of_saving();
    const std::int64_t known = events_.last_number();
    if (diary_->last_change() == known) return;
    for (const NumberedChange& change : diary_->changes_since(known).changes) events_.tell(change);
  }

  bool lan_;
  std::optional<Certificate> certificate_;
  Guard guard_;
  std::unique_ptr<Diary> diary_;
  Router router_;
  Events events_;
  Turns turns_;
  Jobs jobs_;
  storage::Saving told_saving_;  ///< of the one thread that looks
  Watchman watchman_;
  Answers answers_;
  std::unique_ptr<Listener> listener_;
};

}  // namespace

Result<std::unique_ptr<Server>> Server::open(const ServerOptions& options) {
  std::optional<Pairing> pairing;
  std::optional<Certificate> paper;
  std::vector<std::string> known = names(options.lan);
  if (options.lan) {
    std::vector<std::string> on_paper = known;
    for (const std::string& address : own_addresses()) on_paper.push_back(address);
    auto made = server::certificate(options.private_folder, on_paper);
    if (!made) return failure(made);
    paper = std::move(*made);
    auto opened = Pairing::open(options.private_folder + "/devices");
    if (!opened) return failure(opened);
    pairing.emplace(std::move(*opened));
  }
  auto diary = Diary::open(options.daybook);
  if (!diary) return failure(diary);
  auto server = std::make_unique<RealServer>(
      options, Guard(std::move(known), std::move(pairing)), std::move(paper), std::move(*diary));
  const auto listening = server->listen(options);
  if (!listening) return failure(listening);
  return server;
}

}  // namespace barm::server
