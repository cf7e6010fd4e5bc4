#pragma once
// What changes, as server-sent events to every browser that listens.
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "server/exchange.h"

namespace barm::server {

/// A change of the daybook as an event.
struct NumberedChange {
  std::int64_t number = 0;
  std::string data;  ///< JSON in one line
};

/// What has changed since a number, as the daybook remembers it.
struct ChangesSince {
  std::vector<NumberedChange> changes;
  std::int64_t last = 0;   ///< the newest of all
  bool complete = true;    ///< false: too long ago, or of before a copy was put back
  std::int64_t epoch = 0;  ///< storage::Daybook::epoch
};

/// Hands events to the streams. May be called from any thread.
class Events {
 public:
  using Since = std::function<ChangesSince(std::int64_t number)>;

  /// `since` looks into the daybook; empty without one.
  explicit Events(Since since);

  /// Tells every stream, unless it was told that number already.
  void tell(const NumberedChange& change);

  /// Tells every stream something that is not remembered.
  void tell(const std::string& kind, const std::string& data);

  /// A stream from a change on; from now on without one. Refused when too many listen.
  /// Throws Refused.
  [[nodiscard]] Reply::Stream listen(std::optional<std::int64_t> after);

  /// Ends every stream.
  void stop();

  [[nodiscard]] int listeners() const;

  /// Of the last change told.
  [[nodiscard]] std::int64_t last_number() const;

  static constexpr int most_listeners = 32;

 private:
  struct Event {
    std::int64_t order = 0;  ///< of telling
    std::string text;
  };

  class Listener;

  std::string opening(std::optional<std::int64_t> after) const;
  bool next(std::int64_t& seen, std::string& out);

  Since since_;
  mutable std::mutex mutex_;
  std::condition_variable told_;
  std::deque<Event> recent_;
  std::int64_t order_ = 0;
  std::int64_t last_number_ = 0;
  std::int64_t epoch_ = 0;
  int listeners_ = 0;
  bool stopped_ = false;
};

}  // namespace barm::server
