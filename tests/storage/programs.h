#pragma once
// Programs started by a test: their output read, their end waited for or brought about.
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <random>
#include <string>
#include <utility>
#include <vector>

extern char** environ;

namespace barm::storage::test {

class Program {
 public:
  explicit Program(std::vector<std::string> words) {
    std::array<int, 2> ends{};
    if (pipe2(ends.data(), O_CLOEXEC) != 0) return;
    output_ = ends[0];
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, ends[1], STDOUT_FILENO);
    std::vector<char*> arguments;
    for (std::string& word : words) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    posix_spawn(&id_, arguments[0], &actions, nullptr, arguments.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    close(ends[1]);
  }

  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;

  ~Program() {
    if (id_ > 0) kill_now();
    close(output_);
  }

  /// Ends it as a power cut would: it can do nothing about it.
  void kill_now() {
    kill(id_, SIGKILL);
    wait_for_end();
  }

  /// Exit status, or 128 and more when it was killed.
  int wait_for_end() {
    int status = 0;
    waitpid(id_, &status, 0);
    id_ = 0;
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  }

  /// The next line it writes; empty at its end.
  [[nodiscard]] std::string line() const {
    std::string found;
    char c = 0;
    while (read(output_, &c, 1) == 1 && c != '\n') found += c;
    return found;
  }

  /// All whole lines it has written, to the end of its output.
  std::vector<std::string> lines() {
    std::vector<std::string> found;
    std::string line;
    std::array<char, 4096> buffer{};
    ssize_t n = 0;
    while ((n = read(output_, buffer.data(), buffer.size())) > 0) {
      for (ssize_t i = 0; i < n; ++i) {
        const char c = buffer[static_cast<std::size_t>(i)];
        if (c != '\n') {
          line += c;
        } else {
          found.push_back(std::exchange(line, ""));
        }
      }
    }
    return found;
  }

 private:
  pid_t id_ = 0;
  int output_ = -1;
};

/// How long a program that makes one change may live, time after time: longer after a kill that
/// came too early and shorter after one too late, so that the kills stay about the moment of the
/// change however busy the machine.
class AboutTheChange {
 public:
  AboutTheChange(std::chrono::duration<double> unharmed, unsigned seed)
      : life_(unharmed), random_(seed) {}

  std::chrono::duration<double> next() { return part_(random_) * life_; }

  void seen(bool changed) { life_ *= changed ? 0.8 : 1.25; }

 private:
  std::chrono::duration<double> life_;
  std::mt19937 random_;
  std::uniform_real_distribution<double> part_{0.5, 1.1};
};

}  // namespace barm::storage::test
