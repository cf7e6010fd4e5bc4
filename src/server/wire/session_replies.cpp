#include <boost/asio/executor_work_guard.hpp>
#include <boost/asio/post.hpp>
#include <chrono>
#include <memory>
#include <string>
#include <utility>

#include "server/door/guard.h"
#include "server/door/problem.h"
#include "server/wire/internal/session.h"

namespace barm::server::internal {

namespace asio = boost::asio;
using boost::system::error_code;

namespace {

constexpr int most_requests = 1000;  // on one line
constexpr std::size_t body_bytes_a_second = 100'000;
constexpr std::size_t reply_bytes_a_second = 20'000;
constexpr Patience::Span goodbye{500};
constexpr Patience::Span sign_of_life_every{4000};  // on a stream where nothing happens

Patience::Span seconds_for(std::size_t bytes, std::size_t bytes_a_second) {
  return std::chrono::seconds(bytes / bytes_a_second);
}

}  // namespace

// --- answering ---

void Session::admit() {
  Request& request = incoming_->request();
  request.remote = line_.remote();
  request.local = line_.local();
  request.secure = line_.is_secure();
  request.gone = [gone = gone_] { return gone->load(); };
  Desk::Admission admission = house_.desk.admit(request);
  // Who was taken for a stranger and is none is let in after all.
  if (admission.known && !known_) turned_away_ = false;
  known_ = admission.known;
  if (turned_away_) return refuse(come_again("so many others ask that there is no place now", 2));
  heavy_ = admission.heavy;
  if (admission.refusal) {
    close_ = incoming_->has_body();
    return send(std::move(*admission.refusal));
  }
  const std::size_t length = incoming_->length().value_or(0);
  if (length > admission.most_bytes) return refuse(too_large(admission.most_bytes));
  incoming_->allow(admission.most_bytes);
  enter(State::body);
  within(house_.patience.body + seconds_for(length, body_bytes_a_second));
  if (!incoming_->waits_for_leave()) return take_body();
  static const std::string go_on = "HTTP/1.1 100 Continue\r\n\r\n";
  static const std::string nothing;
  line_.write(go_on, nothing, [me = shared_from_this()](const error_code& error, auto) {
    if (error) return me->drop();
    if (me->state_ == State::body) me->advance();
  });
}

void Session::ask() {
  enter(State::working);
  ++round_;
  timer_.cancel();
  // The request stays where it is: nothing is taken in its place before the reply is sent.
  auto work = [me = shared_from_this(),
               request = &std::as_const(*incoming_).request(),
               open = asio::make_work_guard(house_.io)] {
    auto reply = std::make_shared<Reply>(me->house_.desk.answer(*request));
    asio::post(me->house_.io, [me, reply] {
      if (me->state_ == State::working) me->send(std::move(*reply));
    });
  };
  if (house_.give(heavy_, std::move(work))) return read();
  Reply reply = come_again("so much is asked that this cannot be answered soon", 5);
  add_safety(reply);
  send(std::move(reply));
}

// What this layer refuses by itself: whatever else is on the line is not to be trusted.
void Session::refuse(Reply reply) {
  if (state_ == State::gone || state_ == State::leaving) return;
  add_safety(reply);
  close_ = true;
  send(std::move(reply));
}

Manner Session::manner_of(const Reply& reply) const {
  const Request& request = incoming_->request();
  Manner manner;
  manner.close = close_ || reply.close || their_end_ || house_.ending || turned_away_ ||
                 requests_ >= most_requests || !incoming_->may_go_on() || reply.stream != nullptr;
  manner.no_body = request.method == "HEAD";
  manner.chunks = incoming_->knows_chunks();
  manner.pack = !request.from_here() && request.takes_gzip();
  manner.idle_seconds = static_cast<int>(
      std::chrono::duration_cast<std::chrono::seconds>(house_.patience.idle).count());
  return manner;
}

void Session::send(Reply reply) {
  ++requests_;
  const Manner manner = manner_of(reply);
  close_ = manner.close;
  chunks_ = manner.chunks;
  if (!manner.no_body) stream_ = reply.stream;
  out_ = bytes_of(std::move(reply), manner);
  enter(State::writing);
  within(house_.patience.write +
         seconds_for(out_.head.size() + out_.body.size(), reply_bytes_a_second));
  line_.write(out_.head, out_.body, [me = shared_from_this()](const error_code& error, auto) {
    if (error || me->state_ != State::writing) return me->drop();
    me->sent();
  });
  read();
}

void Session::sent() {
  out_ = {};
  if (stream_ == nullptr) return close_ ? leave() : next_request();
  if (last_piece_) return leave();
  enter(State::streaming);
  stream_->when_there_is_more([me = weak_from_this(), more = more_, &io = house_.io] {
    if (more->exchange(true)) return;  // told already
    asio::post(io, [me] {
      const auto session = me.lock();
      if (session && session->state_ == State::streaming) session->pull();
    });
  });
  pull();
}

void Session::pull() {
  *more_ = false;
  std::string piece;
  last_piece_ = !stream_->next(piece) || house_.ending;
  if (last_piece_) piece.clear();
  if (last_piece_ && !chunks_) return leave();
  out_ = {chunks_ ? chunk_of(piece) : piece, ""};
  enter(State::writing);
  within(house_.patience.write);
  line_.write(out_.head, out_.body, [me = shared_from_this()](const error_code& error, auto) {
    if (error || me->state_ != State::writing) return me->drop();
    me->out_ = {};
    if (me->last_piece_) return me->leave();
    me->enter(State::streaming);
    me->within(sign_of_life_every);
    if (*me->more_ || me->house_.ending) me->pull();
  });
}

// Says goodbye and reads what the client is still sending, for a moment, so that it gets our reply.
void Session::leave() {
  stream_.reset();
  enter(State::leaving);
  within(goodbye);
  line_.say_goodbye([me = shared_from_this()](const error_code&, auto) {});
  advance();
}

}  // namespace barm::server::internal
