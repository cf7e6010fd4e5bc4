#include "server/records/events.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <utility>

#include "server/door/page_version.h"
#include "server/door/problem.h"

namespace barm::server {

namespace {

constexpr std::size_t most_recent = 1000;
constexpr std::int64_t from_the_end = std::numeric_limits<std::int64_t>::max();

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

/// One browser that listens. Counts itself in and out.
class Events::Listener final : public Stream {
 public:
  Listener(Events& events, std::string device) : events_(events), device_(std::move(device)) {
    const std::scoped_lock lock(events_.mutex_);
    if (events_.listeners_.size() >= most_listeners) {
      Reply reply = problem(Refusal::too_busy,
                            fmt::format("{} browsers listen already; close one", most_listeners));
      throw Refused{std::move(reply.with("Retry-After", "30"))};
    }
    events_.listeners_.push_back(this);
    seen_ = events_.order_;
  }

  ~Listener() override {
    const std::scoped_lock lock(events_.mutex_);
    std::erase(events_.listeners_, this);
  }

  void open(std::string text) { opening_ = std::move(text); }

  bool next(std::string& out) override {
    const std::scoped_lock lock(events_.mutex_);
    if (events_.stopped_ || ended_) return false;
    out = std::exchange(opening_, "");
    const auto& recent = events_.recent_;
    if (!recent.empty() && recent.front().order > seen_ + 1)
      out += event("reload", where_we_are(events_.last_number_, events_.epoch_));
    for (const Event& one : recent) {
      if (one.order > seen_) out += one.text;
    }
    seen_ = events_.order_;
    if (out.empty()) out = ": still here\n\n";
    return true;
  }

  void when_there_is_more(std::function<void()> tell) override {
    const std::scoped_lock lock(events_.mutex_);
    tell_ = std::move(tell);
  }

  // --- by Events, which has locked ---

  void end_if(const std::string& device) { ended_ = ended_ || device_ == device; }

  [[nodiscard]] const std::function<void()>& tell() const { return tell_; }

 private:
  Events& events_;
  std::string device_;
  std::string opening_;
  std::int64_t seen_ = 0;
  bool ended_ = false;
  std::function<void()> tell_;
};

Events::Events(Since since) : since_(std::move(since)) {
  if (!since_) return;
  const ChangesSince now = since_(from_the_end);
  last_number_ = now.last;
  epoch_ = now.epoch;
}

void Events::remember(std::string text) {
  recent_.push_back({++order_, std::move(text)});
  if (recent_.size() > most_recent) recent_.pop_front();
}

void Events::tell(const NumberedChange& change) {
  {
    const std::scoped_lock lock(mutex_);
    if (change.number <= last_number_) return;
    last_number_ = change.number;
    remember(event(change));
  }
  wake_all();
}

void Events::tell(const std::string& kind, const std::string& data) {
  {
    const std::scoped_lock lock(mutex_);
    remember(event(kind, data));
  }
  wake_all();
}

// Not under the lock: whoever is told may ask at once.
void Events::wake_all() const {
  std::vector<std::function<void()>> all;
  {
    const std::scoped_lock lock(mutex_);
    for (const Listener* one : listeners_) {
      if (one->tell()) all.push_back(one->tell());
    }
  }
  for (const auto& tell : all) tell();
}

std::shared_ptr<Stream> Events::listen(std::optional<std::int64_t> after,
                                       const std::string& device) {
  // The place in the row is taken before the daybook is asked: a change may then come twice, but
  // never not at all.
  const auto listener = std::make_shared<Listener>(*this, device);
  listener->open(opening(after));
  return listener;
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

void Events::end(const std::string& device) {
  {
    const std::scoped_lock lock(mutex_);
    for (Listener* one : listeners_) one->end_if(device);
  }
  wake_all();
}

void Events::stop() {
  {
    const std::scoped_lock lock(mutex_);
    stopped_ = true;
  }
  wake_all();
}

std::int64_t Events::last_number() const {
  const std::scoped_lock lock(mutex_);
  return last_number_;
}

int Events::listeners() const {
  const std::scoped_lock lock(mutex_);
  return static_cast<int>(listeners_.size());
}

}  // namespace barm::server
