#include "base/together.h"

#include <algorithm>
#include <condition_variable>
#include <deque>
#include <mutex>
#include <thread>
#include <vector>

namespace barm {

namespace {

struct Job {
  const std::function<void()>& work;
  int wanted;    // hands that may still begin
  int busy = 0;  // that have begun and not ended
};

// Threads that wait for work.
class Hands {
 public:
  Hands() = default;
  Hands(const Hands&) = delete;
  Hands(Hands&&) = delete;
  Hands& operator=(const Hands&) = delete;
  Hands& operator=(Hands&&) = delete;

  ~Hands() {
    {
      const std::scoped_lock lock(guard_);
      over_ = true;
    }
    called_.notify_all();
  }

  void call(Job& job) {
    const int others = job.wanted;
    {
      const std::scoped_lock lock(guard_);
      while (hands_.size() < static_cast<std::size_t>(others))
        hands_.emplace_back([this] { wait_for_work(); });
      jobs_.push_back(&job);
    }
    for (int i = 0; i < others; ++i) called_.notify_one();
  }

  // Nobody begins it any more, and all who have begun have ended.
  void send_home(Job& job) {
    std::unique_lock lock(guard_);
    std::erase(jobs_, &job);
    ended_.wait(lock, [&] { return job.busy == 0; });
  }

 private:
  void wait_for_work() {
    std::unique_lock lock(guard_);
    while (true) {
      called_.wait(lock, [this] { return over_ || !jobs_.empty(); });
      if (over_) return;
      Job& job = *jobs_.front();
      if (--job.wanted == 0) jobs_.pop_front();
      ++job.busy;
      lock.unlock();
      job.work();
      lock.lock();
      if (--job.busy == 0) ended_.notify_all();
    }
  }

  std::mutex guard_;
  std::condition_variable called_, ended_;
  std::deque<Job*> jobs_;
  bool over_ = false;
  std::vector<std::jthread> hands_;  // last: they use all of the others
};

Hands& hands() {
  static Hands all;
  return all;
}

}  // namespace

int threads_for(int wanted) {
  if (wanted > 0) return wanted;
  return static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
}

void together(int threads, const std::function<void()>& work) {
  const int others = threads_for(threads) - 1;
  if (others == 0) return work();

  struct Called {
    Job job;

    explicit Called(const std::function<void()>& work, int others) : job{work, others} {
      hands().call(job);
    }

    Called(const Called&) = delete;
    Called(Called&&) = delete;
    Called& operator=(const Called&) = delete;
    Called& operator=(Called&&) = delete;

    ~Called() { hands().send_home(job); }
  };

  const Called called(work, others);
  work();
}

}  // namespace barm
