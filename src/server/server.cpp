#include "server/server.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>
#include <thread>
#include <utility>

#include "server/door/front_desk.h"
#include "server/door/guard.h"
#include "server/door/internal/embedded.h"
#include "server/door/pairing_routes.h"
#include "server/door/problem.h"
#include "server/questions/fields.h"
#include "server/questions/jobs.h"
#include "server/questions/question_routes.h"
#include "server/questions/shop_routes.h"
#include "server/questions/turns.h"
#include "server/records/diary.h"
#include "server/records/events.h"
#include "server/records/watchman.h"
#include "server/status.h"
#include "server/wire/network.h"

namespace barm::server {

namespace {

std::optional<std::int64_t> number(const std::string& text) {
  std::int64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || value < 0) return std::nullopt;
  return value;
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

class RealServer final : public Server {
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
        questions_(
            turns_,
            jobs_,
            [this](const service::Now& now) { return diary_->stored_bakes(now); },
            [this] { return diary_->last_change(); }),
        desk_(router_, guard_),
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
    auto opened = Listener::open(wire, desk_);
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

  Reply answer(const Request& request) override { return desk_.answer(request); }

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

 private:
  void add_routes() {
    questions_.add_to(router_);
    add_shop_routes(
        router_, turns_, [this](const service::Now& now) { return diary_->stored_bakes(now); });
    add_pairing_routes(router_, guard_, events_, certificate_, [this] { return addresses(); });
    diary_->add_routes(
        router_,
        turns_,
        [this] { watchman_.ring(); },
        [this](const std::string& bake_id, const Request& request) {
          return questions_.as_read(bake_id, request);
        });
    add_open("/api/status",
             [this](const Request& request) { return status_reply(status(request)); });
    add_open("/api/openapi.json", [](const Request&) {
      Reply reply;
      reply.body = std::string(internal::contract().front().bytes);
      return reply;
    });
    router_.add(
        {.method = "GET",
         .path = "/api/events",
         .handler = [this](const Request& request, const Parts&) { return listen(request); }});
  }

  /// Also for those who are not paired.
  void add_open(const std::string& path, std::function<Reply(const Request&)> handler) {
    router_.add({.method = "GET",
                 .path = path,
                 .handler = [handler = std::move(handler)](
                                const Request& request, const Parts&) { return handler(request); },
                 .open = true});
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
  QuestionRoutes questions_;
  FrontDesk desk_;
  storage::Saving told_saving_;  ///< of the one thread that looks
  Watchman watchman_;
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
