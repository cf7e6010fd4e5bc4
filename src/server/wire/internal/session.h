#pragma once
// What is said on one line, from its first byte to the last: request after request, each with its
// reply, each step within its time. Everything but `gone` happens on the listener's one thread.
#include <array>
#include <atomic>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ssl/context.hpp>
#include <boost/asio/steady_timer.hpp>
#include <chrono>
#include <functional>
#include <memory>
#include <string>

#include "server/wire/internal/incoming.h"
#include "server/wire/internal/line.h"
#include "server/wire/internal/outgoing.h"
#include "server/wire/internal/places.h"
#include "server/wire/listener.h"

namespace barm::server::internal {

class Session;

/// What all sessions share.
struct House {
  boost::asio::io_context& io;
  Desk& desk;
  const Patience& patience;
  boost::asio::ssl::context* tls = nullptr;  ///< none: plain only
  /// Has it done by one of the threads for such work; false when too much waits already.
  std::function<bool(bool heavy, std::function<void()> work)> give = nullptr;
  std::function<void(const std::shared_ptr<Session>&)> left = nullptr;
  bool ending = false;
};

class Session : public std::enable_shared_from_this<Session> {
 public:
  using Clock = std::chrono::steady_clock;

  Session(Line::Socket socket, House& house);

  /// Begins to listen to the client. `turned_away`: there is no place, whatever it asks.
  void begin(bool turned_away);

  /// Its place is wanted: says so if the client has asked or may be asking, and hangs up.
  void turn_out();

  /// The server ends: what is under way is finished, the rest hung up on.
  void end();

  /// Hangs up at once.
  void drop();

  /// Sees a client that has hung up while it was waiting, before that is read.
  void look_for_their_end();

  /// Holds no place when it is only saying goodbye, or its client has hung up.
  [[nodiscard]] bool holds_a_place() const;
  [[nodiscard]] Holder holder() const;

 private:
  enum class State { greeting, idle, head, body, working, writing, streaming, leaving, gone };

  [[nodiscard]] bool is_answered() const;

  void talk();
  void read();
  void heard(const boost::system::error_code& error, std::size_t count);
  void advance();
  void next_request();
  void take_head();
  void take_body();
  void admit();
  void ask();
  void refuse(Reply reply);
  void send(Reply reply);
  void sent();
  void pull();
  void leave();
  void late();
  void within(Patience::Span span);
  void enter(State state);
  [[nodiscard]] Manner manner_of(const Reply& reply) const;
  [[nodiscard]] bool wants_more() const;

  House& house_;
  Line line_;
  boost::asio::steady_timer timer_;
  std::uint64_t round_ = 0;  ///< of the timer
  State state_ = State::greeting;
  Clock::time_point since_ = Clock::now();

  std::array<char, 16384> chunk_{};
  std::string bytes_;  ///< come, and not yet taken
  bool reading_ = false;
  bool their_end_ = false;  ///< the client has closed its end
  bool hung_up_ = false;    ///< and that is not read yet

  std::unique_ptr<Incoming> incoming_ = std::make_unique<Incoming>();
  std::shared_ptr<std::atomic<bool>> gone_ = std::make_shared<std::atomic<bool>>(false);
  int requests_ = 0;
  bool known_ = false;
  bool heavy_ = false;
  bool turned_away_ = false;
  bool close_ = false;

  Bytes out_;
  std::shared_ptr<Stream> stream_;
  bool chunks_ = false;
  bool last_piece_ = false;
  std::shared_ptr<std::atomic<bool>> more_ = std::make_shared<std::atomic<bool>>(false);
  std::size_t thrown_away_ = 0;
};

/// The refusal of who comes when there is no place.
[[nodiscard]] Reply come_again(const std::string& why, int seconds);

}  // namespace barm::server::internal
