#include "server/events.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <limits>
#include <memory>

#include "server/page_version.h"
#include "server/problem.h"

namespace barm::server {

namespace {

constexpr std::size_t most_recent = 1000;
constexpr std::int64_t from_the_end = std::numeric_limits<std::int64_t>::max();
constexpr auto ping_every = std::chrono::seconds(4);

std::string event(const std::string& kind, const std::string& data) {
  return fmt::format("event: {}\ndata: {}\n\n", kind, data);
}

std::string event(const NumberedChange& change) {
  return fmt::format("id: {}\nevent: change\ndata: {}\n\n", change.number, change.data);
}

std::string where_we_are(std::int64_t last, std::int64_t epoch) {
  return fmt::format(R"({{"last":{},"epoch":{},"version":"{}"}})", last, epoch, own_version());
}

}  // namespace

/// Counts itself in and out.
class Events::Listener {
 public:
  explicit Listener(Events& events) : events_(events) {
    const std::scoped_lock lock(events_.mutex_);
    if (events_.listeners_ >= most_listeners) {
      Reply reply = problem(Refusal::too_busy,
                            fmt::format("{} browsers listen already; close one", most_listeners));
      throw Refused{std::move(reply.with("Retry-After", "30"))};
    }
    ++events_.listeners_;
    seen = events_.order_;
  }

  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;

  ~Listener() {
    const std::scoped_lock lock(events_.mutex_);
    --events_.listeners_;
  }

  std::int64_t seen = 0;
  bool opened = false;

 private:
  Events& events_;
};

Events::Events(Since since) : since_(std::move(since)) {
  if (!since_) return;
  const ChangesSince now = since_(from_the_end);
  last_number_ = now.last;
  epoch_ = now.epoch;
}

void Events::tell(const NumberedChange& change) {
  {
    const std::scoped_lock lock(mutex_);
    if (change.number <= last_number_) return;
    last_number_ = change.number;
    recent_.push_back({++order_, event(change)});
    if (recent_.size() > most_recent) recent_.pop_front();
  }
  told_.notify_all();
}

void Events::tell(const std::string& kind, const std::string& data) {
  {
    const std::scoped_lock lock(mutex_);
    recent_.push_back({++order_, event(kind, data)});
    if (recent_.size() > most_recent) recent_.pop_front();
  }
  told_.notify_all();
}

Reply::Stream Events::listen(std::optional<std::int64_t> after) {
  // The place in the row is taken before the daybook is asked: a change may then come twice, but
  // never not at all.
  const auto listener = std::make_shared<Listener>(*this);
  return [this, listener, after](std::string& out) {
    if (listener->opened) return next(listener->seen, out);
    listener->opened = true;
    out = opening(after);
    return true;
  };
}

std::string Events::opening(std::optional<std::int64_t> after) const {
  const ChangesSince missed = since_ ? since_(after.value_or(from_the_end)) : ChangesSince{};
  std::string out = "retry: 2000\n\n" + event("hello", where_we_are(missed.last, missed.epoch));
  if (!after || !since_) return out;
  // A number from the future belongs to another daybook.
  if (!missed.complete || *after > missed.last)
    return out + event("reload", where_we_are(missed.last, missed.epoch));
  for (const NumberedChange& change : missed.changes) out += event(change);
  return out;
}

bool Events::next(std::int64_t& seen, std::string& out) {
  std::unique_lock lock(mutex_);
  const bool news = told_.wait_for(lock, ping_every, [&] { return stopped_ || order_ > seen; });
  if (stopped_) return false;
  if (!news) {
    out = ": still here\n\n";
    return true;
  }
  out.clear();
  if (!recent_.empty() && recent_.front().order > seen + 1)
    out = event("reload", where_we_are(last_number_, epoch_));
  for (const Event& one : recent_) {
    if (one.order > seen) out += one.text;
  }
  seen = order_;
  return true;
}

void Events::stop() {
  {
    const std::scoped_lock lock(mutex_);
    stopped_ = true;
  }
  told_.notify_all();
}

std::int64_t Events::last_number() const {
  const std::scoped_lock lock(mutex_);
  return last_number_;
}

int Events::listeners() const {
  const std::scoped_lock lock(mutex_);
  return listeners_;
}

}  // namespace barm::server
