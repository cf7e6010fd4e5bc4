#include "server/questions/answers.h"

namespace barm::server {

/// Works on a question for as long as it lives, however the work ends.
class Answers::Worker {
 public:
  Worker(Answers& answers, const std::string& question) : answers_(answers), question_(question) {}

  Worker(const Worker&) = delete;
  Worker& operator=(const Worker&) = delete;

  ~Worker() {
    {
      const std::scoped_lock lock(answers_.mutex_);
      answers_.being_worked_out_.erase(question_);
    }
    answers_.done_.notify_all();
  }

 private:
  Answers& answers_;
  const std::string& question_;
};

Reply Answers::to(const std::string& question, const std::function<Reply()>& work) {
  {
    std::unique_lock lock(mutex_);
    done_.wait(lock, [&] { return !being_worked_out_.contains(question); });
    if (const auto found = where_.find(question); found != where_.end()) {
      kept_.splice(kept_.begin(), kept_, found->second);
      return kept_.front().reply;
    }
    being_worked_out_.insert(question);
  }
  const Worker worker(*this, question);
  Reply reply = work();
  if (reply.status == 200) keep(question, reply);
  return reply;
}

void Answers::keep(const std::string& question, const Reply& reply) {
  const std::scoped_lock lock(mutex_);
  kept_.push_front({question, reply});
  where_[question] = kept_.begin();
  bytes_ += bytes_of(kept_.front());
  while (bytes_ > most_bytes_) {
    bytes_ -= bytes_of(kept_.back());
    where_.erase(kept_.back().question);
    kept_.pop_back();
  }
}

}  // namespace barm::server
