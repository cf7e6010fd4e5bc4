#pragma once
// One client's line, plain or TLS, that never waits longer than it may.
#include <openssl/ssl.h>

#include <array>
#include <atomic>
#include <chrono>
#include <cstddef>
#include <memory>
#include <string>

namespace barm::server::internal {

/// Bytes in and out with deadlines. One thread at a time, but for hang_up() and what is atomic.
class Connection {
 public:
  using Clock = std::chrono::steady_clock;
  enum class State { idle, reading, working, streaming };

  /// Takes the socket over and closes it at the end.
  explicit Connection(int socket);
  ~Connection();

  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  /// TLS when the client's first byte begins it; false when it hangs up or is too slow.
  [[nodiscard]] bool begin(SSL_CTX* tls, Clock::duration patience);

  [[nodiscard]] bool is_secure() const { return ssl_ != nullptr; }

  /// Waits for the first byte of a request.
  [[nodiscard]] bool wait_for_request(Clock::duration patience);

  /// Reading fails after this moment, and after so many bytes.
  void allow(Clock::duration time, std::size_t bytes);

  /// At most `size` bytes; 0 at the end, -1 when it failed or took too long.
  [[nodiscard]] long read(char* to, std::size_t size);

  /// All bytes, or -1 when the client is slower than so long and 20 kB a second.
  [[nodiscard]] long write(const char* from, std::size_t size, Clock::duration patience);

  /// The client has closed its end.
  [[nodiscard]] bool is_gone() const;

  /// Ends what another thread waits for on this line.
  void hang_up();

  /// Says goodbye: reads what the client is still sending, for a moment, so that it gets our reply.
  void linger();

  void set_state(State state);

  [[nodiscard]] State state() const { return state_; }

  [[nodiscard]] Clock::time_point since() const {
    return Clock::time_point(Clock::duration(since_));
  }

  [[nodiscard]] int socket() const { return socket_; }

  [[nodiscard]] const std::string& remote() const { return remote_; }

  [[nodiscard]] const std::string& local() const { return local_; }

 private:
  /// Waits until the socket is ready for `events`; false after the deadline.
  bool wait(short events, Clock::time_point until) const;
  long receive(char* to, std::size_t size, Clock::time_point until);
  bool handshake(Clock::time_point until);
  bool fill(Clock::time_point until);

  int socket_;
  std::unique_ptr<SSL, decltype(&SSL_free)> ssl_{nullptr, SSL_free};
  std::string remote_, local_;
  std::array<char, 16384> buffer_{};
  std::size_t begin_ = 0, end_ = 0;
  Clock::time_point read_until_{};
  std::size_t may_read_ = 0;
  std::atomic<State> state_ = State::reading;
  std::atomic<Clock::rep> since_;
};

}  // namespace barm::server::internal
