#pragma once
// What is worked out once for each question.
#include <condition_variable>
#include <cstddef>
#include <functional>
#include <list>
#include <map>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <utility>

namespace barm::server {

/// Who asks what was asked before is given the same answer; who asks what is being worked out waits
/// for it. What was not asked for longest is forgotten first. May be called from any thread.
template <class Answer>
class Once {
 public:
  /// The bytes an answer takes; nothing: it is kept for nobody.
  using Size = std::optional<std::size_t> (*)(const Answer& answer);

  /// `most_bytes`: what is kept, in questions and answers.
  Once(std::size_t most_bytes, Size size) : most_bytes_(most_bytes), size_(size) {}

  /// The answer to `question`. What `work` throws is kept for nobody: whoever waited for it works
  /// it out for himself.
  [[nodiscard]] Answer to(const std::string& question, const std::function<Answer()>& work) {
    {
      std::unique_lock lock(mutex_);
      done_.wait(lock, [&] { return !being_worked_out_.contains(question); });
      if (const auto found = where_.find(question); found != where_.end()) {
        kept_.splice(kept_.begin(), kept_, found->second);
        return kept_.front().answer;
      }
      being_worked_out_.insert(question);
    }
    const Worker worker(*this, question);
    Answer answer = work();
    if (const auto size = size_(answer)) keep({question, answer, question.size() + *size});
    return answer;
  }

 private:
  struct Kept {
    std::string question;
    Answer answer;
    std::size_t bytes;
  };

  /// Works on a question for as long as it lives, however the work ends.
  class Worker {
   public:
    Worker(Once& once, const std::string& question) : once_(once), question_(question) {}

    Worker(const Worker&) = delete;
    Worker& operator=(const Worker&) = delete;

    ~Worker() {
      {
        const std::scoped_lock lock(once_.mutex_);
        once_.being_worked_out_.erase(question_);
      }
      once_.done_.notify_all();
    }

   private:
    Once& once_;
    const std::string& question_;
  };

  void keep(Kept one) {
    const std::scoped_lock lock(mutex_);
    bytes_ += one.bytes;
    kept_.push_front(std::move(one));
    where_[kept_.front().question] = kept_.begin();
    while (bytes_ > most_bytes_) {
      bytes_ -= kept_.back().bytes;
      where_.erase(kept_.back().question);
      kept_.pop_back();
    }
  }

  std::size_t most_bytes_;
  Size size_;
  std::size_t bytes_ = 0;
  std::mutex mutex_;
  std::condition_variable done_;
  std::set<std::string> being_worked_out_;
  std::list<Kept> kept_;  ///< asked for last first
  std::map<std::string, typename std::list<Kept>::iterator> where_;
};

}  // namespace barm::server
