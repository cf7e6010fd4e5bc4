#pragma once
// What changes, as server-sent events to every browser that listens.
#include <cstdint>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "server/wire/exchange.h"

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

  /// A stream from a change on; from now on without one. `device` is who listens, "" the machine
  /// itself. Throws Refused when too many listen, or when the daybook cannot be read.
  [[nodiscard]] std::shared_ptr<Stream> listen(std::optional<std::int64_t> after,
                                               const std::string& device = "");

  /// Ends the streams of a device.
  void end(const std::string& device);

  /// Ends every stream, and those to come.
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
  void remember(std::string text);
  void wake_all() const;

  Since since_;
  mutable std::mutex mutex_;
  std::deque<Event> recent_;
  std::int64_t order_ = 0;
  std::int64_t last_number_ = 0;
  std::int64_t epoch_ = 0;
  std::vector<Listener*> listeners_;
  bool stopped_ = false;
};

}  // namespace barm::server
