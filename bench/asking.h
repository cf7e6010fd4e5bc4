#pragma once
// Clients that ask a server one question after the other, and how long each answer took.
#include <fmt/format.h>
#include <httplib.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>
#include <thread>
#include <vector>

namespace barm::bench {

using Clock = std::chrono::steady_clock;

struct Load {
  double seconds = 5;
  std::chrono::milliseconds think{0};  ///< between an answer and the next question
};

inline std::string file_text(const std::string& path) {
  std::ostringstream out;
  out << std::ifstream(path).rdbuf();
  return out.str();
}

/// Milliseconds of each answer.
template <class Ask>
std::vector<double> ask_with_all(int clients, int port, const Load& load, const Ask& ask) {
  std::vector<std::vector<double>> each(static_cast<std::size_t>(clients));
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

inline void say(const std::string& what, const std::vector<double>& sorted, double seconds) {
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

}  // namespace barm::bench
