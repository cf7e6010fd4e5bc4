#pragma once
// Answers that follow from the question alone, worked out once.
#include <condition_variable>
#include <cstddef>
#include <functional>
#include <list>
#include <map>
#include <mutex>
#include <set>
#include <string>

#include "server/wire/exchange.h"

namespace barm::server {

/// Who asks what was asked before is given the same answer; who asks what is being worked out waits
/// for it. What was not asked for longest is forgotten first. May be called from any thread.
class Answers {
 public:
  /// The most that is kept, in bytes of questions and answers.
  explicit Answers(std::size_t most_bytes = 8'000'000) : most_bytes_(most_bytes) {}

  /// The answer to `question`. What `work` throws or replies with a status other than 200 is kept
  /// for nobody: whoever waited for it works it out for himself.
  [[nodiscard]] Reply to(const std::string& question, const std::function<Reply()>& work);

 private:
  struct Kept {
    std::string question;
    Reply reply;
  };

  class Worker;

  void keep(const std::string& question, const Reply& reply);

  static std::size_t bytes_of(const Kept& one) {
    return one.question.size() + one.reply.body.size();
  }

  std::size_t most_bytes_;
  std::size_t bytes_ = 0;
  std::mutex mutex_;
  std::condition_variable done_;
  std::set<std::string> being_worked_out_;
  std::list<Kept> kept_;  ///< asked for last first
  std::map<std::string, std::list<Kept>::iterator> where_;
};

}  // namespace barm::server
