// Twenty clients at once, each asking for forecasts of 200 draws one after the other, as twenty
// bakers who move a slider would: each forecast with a seed of its own, so that nothing is answered
// from memory, and then all of them the same, twenty screens that follow one bake, anew four times
// a second. Beside them, in the same run, a bare echo by the HTTP library, our trivial handler and
// the page: what the wire alone takes.
//
//     server_bench [SECONDS] [THINK_MS]
#include <fmt/format.h>
#include <httplib.h>

#include <atomic>
#include <chrono>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <string>
#include <thread>

#include "bench/asking.h"
#include "server/server.h"

namespace {

using barm::bench::ask_with_all;
using barm::bench::Clock;
using barm::bench::file_text;
using barm::bench::Load;
using barm::bench::say;

constexpr int clients = 20;

/// The HTTP library by itself: gives back what it is sent.
class Echo {
 public:
  Echo() {
    server_.Post("/echo", [](const httplib::Request& from, httplib::Response& to) {
      to.set_content(from.body, "application/json");
    });
    server_.new_task_queue = [] { return new httplib::ThreadPool(clients); };
    server_.set_tcp_nodelay(true);
    server_.set_keep_alive_max_count(1'000'000);
    port_ = server_.bind_to_any_port("127.0.0.1");
    thread_ = std::thread([this] { server_.listen_after_bind(); });
  }

  Echo(const Echo&) = delete;
  Echo& operator=(const Echo&) = delete;

  ~Echo() {
    server_.stop();
    thread_.join();
  }

  [[nodiscard]] int port() const { return port_; }

 private:
  httplib::Server server_;
  int port_ = 0;
  std::thread thread_;
};

}  // namespace

int main(int argc, char** argv) {
  Load busy;
  if (argc > 1) busy.seconds = std::max(1.0, std::atof(argv[1]));
  Load thinking = busy;
  thinking.think = std::chrono::milliseconds(argc > 2 ? std::atoi(argv[2]) : 250);

  auto opened = barm::server::Server::open({});
  if (!opened) {
    fmt::print(stderr, "{}\n", opened.error().text());
    return 1;
  }
  barm::server::Server& server = **opened;
  std::thread serving([&] { server.run(); });

  const std::string bake = file_text(BARM_ROOT "/examples/mead-loaf.toml");
  std::atomic<int> seed = 0;
  const auto trivial = [](httplib::Client& client) {
    const auto reply = client.Get("/api/status");
    return reply && reply->status == 200;
  };
  const auto page = [](httplib::Client& client) {
    const auto reply = client.Get("/");
    return reply && reply->status == 200;
  };
  const auto body_of = [&](int one_seed) {
    return nlohmann::json{{"bake", bake}, {"draws", 200}, {"seed", one_seed}}.dump();
  };
  const auto echo = [body = body_of(1)](httplib::Client& client) {
    const auto reply = client.Post("/echo", body, "application/json");
    return reply && reply->body == body;
  };
  const auto forecast = [&](httplib::Client& client, int one_seed) {
    const auto reply = client.Post("/api/foresee", body_of(one_seed), "application/json");
    return reply && reply->status == 200;
  };
  const auto own = [&](httplib::Client& client) { return forecast(client, ++seed); };
  const auto begin = Clock::now();
  const auto shared = [&](httplib::Client& client) {
    const auto quarters = (Clock::now() - begin) / std::chrono::milliseconds(250);
    return forecast(client, 1'000'000 + static_cast<int>(quarters));
  };
  const Echo bare;
  const auto compare = [&](const std::string& how, const Load& load) {
    const auto measure = [&](const std::string& what, int port, const auto& ask) {
      say(what + ", " + how, ask_with_all(clients, port, load, ask), load.seconds);
    };
    measure("bare echo", bare.port(), echo);
    measure("trivial handler", server.port(), trivial);
    measure("the page", server.port(), page);
    measure("200 draws, each its own", server.port(), own);
    measure("200 draws, all the same", server.port(), shared);
  };
  fmt::print("{} clients at once, {} cores\n", clients, std::thread::hardware_concurrency());
  compare(fmt::format("{} ms between", thinking.think.count()), thinking);
  compare("without a pause", busy);
  server.stop();
  serving.join();
}
