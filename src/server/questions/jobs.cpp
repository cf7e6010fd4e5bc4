#include "server/questions/jobs.h"

#include <fmt/format.h>
#include <openssl/rand.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "base/complain.h"
#include "base/require.h"
#include "server/door/problem.h"

namespace barm::server {

namespace {

constexpr double a_step = 0.02;  // of progress, that is worth telling

std::string new_id() {
  std::array<unsigned char, 8> bytes{};
  require(RAND_bytes(bytes.data(), static_cast<int>(bytes.size())) == 1,
          "the machine has random numbers");
  std::string id;
  for (const unsigned char byte : bytes) id += fmt::format("{:02x}", byte);
  return id;
}

}  // namespace

Jobs::Jobs(Tell tell, int workers) : tell_(std::move(tell)) {
  for (int i = 0; i < workers; ++i) workers_.emplace_back([this] { run(); });
}

Jobs::~Jobs() { stop_all(); }

std::string Jobs::start(const std::string& ask, Work work) {
  const auto job = std::make_shared<Job>();
  job->id = new_id();
  job->ask = ask;
  job->work = std::move(work);
  const std::scoped_lock lock(mutex_);
  forget_old();
  const auto busy = std::count_if(jobs_.begin(), jobs_.end(), [](const auto& one) {
    return one->state == State::waiting || one->state == State::running;
  });
  if (stopping_ || static_cast<std::size_t>(busy) >= most) {
    Reply reply = problem(Refusal::too_busy, fmt::format("{} long questions wait already", most));
    throw Refused{std::move(reply.with("Retry-After", "5"))};
  }
  jobs_.push_back(job);
  work_there_.notify_one();
  return document(*job, false);
}

std::string Jobs::look(const std::string& id) {
  const std::scoped_lock lock(mutex_);
  return document(*find(id), true);
}

std::string Jobs::stop(const std::string& id) {
  std::string told;
  {
    const std::scoped_lock lock(mutex_);
    const auto job = find(id);
    job->to_stop = true;
    if (job->state == State::waiting) {
      job->state = State::stopped;
      job->ended = std::chrono::steady_clock::now();
    }
    told = document(*job, false);
  }
  tell_(told);
  return told;
}

void Jobs::tell_all_to_stop() {
  {
    const std::scoped_lock lock(mutex_);
    stopping_ = true;
    for (const auto& job : jobs_) job->to_stop = true;
  }
  work_there_.notify_all();
}

void Jobs::stop_all() {
  tell_all_to_stop();
  for (std::thread& worker : workers_) worker.join();
  workers_.clear();
}

void Jobs::run() {
  while (true) {
    std::shared_ptr<Job> job;
    {
      std::unique_lock lock(mutex_);
      work_there_.wait(lock, [&] {
        const auto waiting = std::find_if(jobs_.begin(), jobs_.end(), [](const auto& one) {
          return one->state == State::waiting;
        });
        job = waiting == jobs_.end() ? nullptr : *waiting;
        return stopping_ || job != nullptr;
      });
      if (stopping_) return;
      job->state = State::running;
    }
    run(job);
  }
}

void Jobs::run(const std::shared_ptr<Job>& job) {
  move(*job, State::running, 0);
  double told = 0;
  const Watch watch{[&] { return job->to_stop.load(); },
                    [&](double share) {
                      if (share < told + a_step) return;
                      told = share;
                      move(*job, State::running, std::min(share, 1.0));
                    }};
  Reply reply = reply_of(*job, watch);
  const bool stopped = job->to_stop && reply.status != 200;
  {
    const std::scoped_lock lock(mutex_);
    job->reply = std::move(reply);
    job->work = nullptr;
    job->ended = std::chrono::steady_clock::now();
  }
  if (stopped) {
    move(*job, State::stopped, told);
  } else if (job->reply.status == 200) {
    move(*job, State::done, 1);
  } else {
    move(*job, State::failed, told);
  }
}

// The words of a fault are for the terminal: they say nothing to who asked.
Reply Jobs::reply_of(const Job& job, const Watch& watch) {
  const auto fault = [&](const char* words) {
    complain(fmt::format("barm: the job {} ({}): {}", job.id, job.ask, words));
    return problem(Refusal::our_fault, "a fault of barm's own; the terminal has the words");
  };
  try {
    return job.work(watch);
  } catch (const Refused& refused) {
    return refused.reply;
  } catch (const std::exception& error) {
    return fault(error.what());
  } catch (...) {
    return fault("an error of no known kind");
  }
}

void Jobs::move(Job& job, State state, double progress) {
  std::string told;
  {
    const std::scoped_lock lock(mutex_);
    job.state = state;
    job.progress = progress;
    told = document(job, false);
  }
  tell_(told);
}

void Jobs::forget_old() {
  const auto now = std::chrono::steady_clock::now();
  const auto over = [](const Job& job) {
    return job.state != State::waiting && job.state != State::running;
  };
  std::erase_if(jobs_, [&](const auto& job) { return over(*job) && now - job->ended > kept_for; });
  while (jobs_.size() >= most_kept) {
    const auto oldest =
        std::find_if(jobs_.begin(), jobs_.end(), [&](const auto& job) { return over(*job); });
    if (oldest == jobs_.end()) return;
    jobs_.erase(oldest);
  }
}

std::shared_ptr<Jobs::Job> Jobs::find(const std::string& id) {
  for (const auto& job : jobs_) {
    if (job->id == id) return job;
  }
  throw Refused{
      problem(Refusal::no_route, "there is no such job; one that is done is kept for ten minutes")};
}

std::string Jobs::document(const Job& job, bool with_answer) {
  static constexpr std::array names{"waiting", "running", "done", "failed", "stopped"};
  const nlohmann::json head = {{"schema", "barm.job/1"},
                               {"id", job.id},
                               {"ask", job.ask},
                               {"state", names.at(static_cast<std::size_t>(job.state))},
                               {"progress", job.progress}};
  std::string out = head.dump();
  if (!with_answer) return out;
  // The answer is JSON already: it is put in as it stands.
  if (job.state == State::done) out.insert(out.size() - 1, ",\"answer\":" + job.reply.body);
  if (job.state == State::failed) out.insert(out.size() - 1, ",\"problem\":" + job.reply.body);
  return out;
}

}  // namespace barm::server
