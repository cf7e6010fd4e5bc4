// Twenty clients at once, each asking for forecasts of 200 draws one after the other, as twenty
// bakers who move a slider would: each forecast with a seed of its own, so that nothing is answered
// from memory, and then all of them the same, twenty screens that follow one bake, anew four times
// a second. Beside them, in the same run, a bare echo by the HTTP library, our trivial handler and
// the page: what the wire alone takes.
//
//     server_bench [SECONDS] [THINK_MS]
#include <fmt/format.h>
#include <httplib.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <thread>
#include <vector>

#include "server/server.h"

namespace {

using Clock = std::chrono::steady_clock;

constexpr int clients = 20;

struct Load {
  double seconds = 5;
  std::chrono::milliseconds think{0};  ///< between an answer and the next question
};

std::string file_text(const std::string& path) {
  std::ostringstream out;
  out << std::ifstream(path).rdbuf();
  return out.str();
}

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

/// Milliseconds of each answer.
template <class Ask>
std::vector<double> ask_with_all(int port, const Load& load, const Ask& ask) {
  std::vector<std::vector<double>> each(clients);
  std::vector<std::thread> threads;
  std::atomic<int> failed = 0;
  const auto end = Clock::now() + std::chrono::duration<double>(load.seconds);
  for (int c = 0; c < clients; ++c) {
    threads.emplace_back([&, c] {
      httplib::Client client("127.0.0.1", port);
      client.set_keep_alive(true);
      client.set_tcp_nodelay(true);
      // Not all in the same instant.
      std::this_thread::sleep_for(load.think * c / clients);
      while (Clock::now() < end) {
        const auto begin = Clock::now();
        if (!ask(client)) ++failed;
        each[static_cast<std::size_t>(c)].push_back(
            std::chrono::duration<double, std::milli>(Clock::now() - begin).count());
        std::this_thread::sleep_for(load.think);
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
  if (failed > 0) {
    fmt::print(stderr, "{} questions were not answered\n", failed.load());
    std::exit(1);
  }
  std::vector<double> all;
  for (const auto& one : each) all.insert(all.end(), one.begin(), one.end());
  std::sort(all.begin(), all.end());
  return all;
}

void say(const std::string& what, const std::vector<double>& sorted, double seconds) {
  const auto at = [&](double share) {
    return sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1))];
  };
  fmt::print(
      "{:<44}{:>8.0f}/s   half under {:>7.2f} ms   99 % under {:>7.2f} ms   worst {:>7.2f} ms\n",
      what,
      static_cast<double>(sorted.size()) / seconds,
      at(0.5),
      at(0.99),
      sorted.back());
}

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
      say(what + ", " + how, ask_with_all(port, load, ask), load.seconds);
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
