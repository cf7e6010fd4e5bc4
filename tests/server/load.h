#pragma once
// Many clients at once, for tests of a few seconds and of a minute.
#include <sys/resource.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <memory>
#include <string>
#include <thread>
#include <vector>

#include "server/running.h"

namespace barm::test {

using Instant = std::chrono::steady_clock;

inline double seconds_since(Instant::time_point begun) {
  return std::chrono::duration<double>(Instant::now() - begun).count();
}

/// Room for so many lines in this process, of which each takes two files.
inline void allow_lines(rlim_t lines) {
  rlimit limit{};
  ::getrlimit(RLIMIT_NOFILE, &limit);
  limit.rlim_cur = std::min(limit.rlim_max, std::max(limit.rlim_cur, 2 * lines + 500));
  ::setrlimit(RLIMIT_NOFILE, &limit);
}

inline std::string forecast(int draws, int seed) {
  static const std::string bake = example("mead-loaf");
  return nlohmann::json{{"bake", bake}, {"draws", draws}, {"seed", seed}}.dump();
}

/// Asks a forecast of a line that stays open.
inline void ask_forecast(const Raw& line, int port, int draws, int seed) {
  (void)line.send(request(
      "POST", "/api/foresee", port, "Content-Type: application/json\r\n", forecast(draws, seed)));
}

/// What became of many requests.
struct Tally {
  std::atomic<int> answered = 0, come_again = 0, without_a_time = 0, without_a_reply = 0;
};

/// So many clients for so long, each asking one thing after the other: mostly what is quick.
inline void ask_with_many(int port, int clients, std::chrono::milliseconds span, Tally& tally) {
  const auto end = Instant::now() + span;
  std::vector<std::thread> threads;
  std::atomic<int> seed = 0;
  for (int c = 0; c < clients; ++c) {
    threads.emplace_back([&, c] {
      httplib::Client client("127.0.0.1", port);
      client.set_keep_alive(c % 2 == 0);
      client.set_read_timeout(120);
      client.set_connection_timeout(60);
      for (int i = c; Instant::now() < end; ++i) {
        const auto reply =
            i % 10 == 0 ? client.Post("/api/foresee", forecast(20, ++seed), "application/json")
                        : client.Get(i % 2 == 0 ? "/api/status" : "/");
        if (!reply) {
          ++tally.without_a_reply;
        } else if (reply->status == 200) {
          ++tally.answered;
        } else if (reply->status == 503 && reply->has_header("Retry-After")) {
          ++tally.come_again;
          std::this_thread::sleep_for(std::chrono::milliseconds(100));
        } else {
          ++tally.without_a_time;
        }
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
}

}  // namespace barm::test
