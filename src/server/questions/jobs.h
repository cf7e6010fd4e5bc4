#pragma once
// Long work that goes on while the client waits, looks away or stops it.
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "server/wire/exchange.h"

namespace barm::server {

/// What a piece of work is given: whether to stop, and whom to tell the share done.
struct Watch {
  std::function<bool()> cancelled;
  std::function<void(double)> progress;
};

/// Long work, in the order in which it came. May be called from any thread.
class Jobs {
 public:
  /// Does the work and gives the reply that the route of that name would.
  using Work = std::function<Reply(const Watch&)>;
  /// Told the job as JSON, without its answer, whenever it moves.
  using Tell = std::function<void(const std::string& job)>;

  /// So many are done at once.
  explicit Jobs(Tell tell, int workers = 2);
  ~Jobs();

  Jobs(const Jobs&) = delete;
  Jobs& operator=(const Jobs&) = delete;

  /// The new job as JSON. Throws Refused when too many wait or run.
  [[nodiscard]] std::string start(const std::string& ask, Work work);

  /// The job as JSON, in the end with its answer or problem. Throws Refused when there is none.
  [[nodiscard]] std::string look(const std::string& id);

  /// Asks it to stop. Throws Refused when there is none.
  [[nodiscard]] std::string stop(const std::string& id);

  /// Tells all to stop, and takes no more.
  void tell_all_to_stop();

  /// The same, and waits for them.
  void stop_all();

  static constexpr std::size_t most = 4;                      ///< that wait or run
  static constexpr auto kept_for = std::chrono::minutes(10);  ///< when done
  static constexpr std::size_t most_kept = 64;

 private:
  enum class State { waiting, running, done, failed, stopped };

  struct Job {
    std::string id, ask;
    Work work;
    State state = State::waiting;
    double progress = 0;
    std::atomic<bool> to_stop = false;
    Reply reply;
    std::chrono::steady_clock::time_point ended;
  };

  void run();
  void run(const std::shared_ptr<Job>& job);
  static Reply reply_of(const Job& job, const Watch& watch);
  void move(Job& job, State state, double progress);
  void forget_old();
  std::shared_ptr<Job> find(const std::string& id);
  static std::string document(const Job& job, bool with_answer);

  Tell tell_;
  std::mutex mutex_;
  std::condition_variable work_there_;
  std::vector<std::shared_ptr<Job>> jobs_;
  bool stopping_ = false;
  std::vector<std::thread> workers_;
};

}  // namespace barm::server
