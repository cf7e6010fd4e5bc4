#include "server/wire/internal/session.h"

#include <utility>

#include "server/door/problem.h"

namespace barm::server::internal {

namespace asio = boost::asio;
using boost::system::error_code;

namespace {

constexpr std::size_t most_ahead = 65'536;  // bytes of what is asked before its turn
constexpr std::size_t most_thrown_away = 4'000'000;
constexpr Patience::Span time_to_read{1000};  // a reply, for a stranger when places are wanted

}  // namespace

Reply come_again(const std::string& why, int seconds) {
  return problem(Refusal::too_busy, why).with("Retry-After", std::to_string(seconds));
}

Session::Session(Line::Socket socket, House& house)
    : house_(house), line_(std::move(socket)), timer_(house.io) {
  known_ = line_.remote() == "127.0.0.1";
}

// --- its place ---

void Session::begin(bool turned_away) {
  turned_away_ = turned_away;
  within(house_.patience.handshake);
  if (house_.tls == nullptr) return talk();
  line_.look(chunk_[0], [me = shared_from_this()](const error_code& error, std::size_t) {
    if (error) return me->drop();
    if (me->chunk_[0] != Line::tls_begins) return me->talk();
    me->line_.secure(*me->house_.tls, [me](const error_code& failed, std::size_t) {
      if (failed) return me->drop();
      me->talk();
    });
  });
}

void Session::turn_out() {
  // Who has had an answer and asks nothing is hung up on: that is what an idle line may expect.
  const bool is_silent = state_ == State::greeting || state_ == State::writing ||
                         (state_ == State::idle && requests_ > 0);
  if (is_silent) return drop();
  refuse(come_again("so many others ask that there is no place now", 2));
}

void Session::end() {
  *gone_ = true;  // heavy work stops
  if (state_ == State::working || state_ == State::writing) return;
  if (state_ == State::streaming) return pull();
  if (state_ == State::head || state_ == State::body)
    return refuse(come_again("the server is being closed", 5));
  drop();
}

void Session::drop() {
  if (state_ == State::gone) return;
  enter(State::gone);
  *gone_ = true;
  ++round_;
  timer_.cancel();
  stream_.reset();
  line_.close();
  house_.left(shared_from_this());
}

bool Session::is_answered() const { return state_ == State::working || state_ == State::writing; }

void Session::look_for_their_end() {
  if (is_answered()) hung_up_ = line_.has_their_end();
}

bool Session::holds_a_place() const {
  const bool waits_for_nothing = is_answered() && (their_end_ || hung_up_);
  return state_ != State::leaving && state_ != State::gone && !turned_away_ && !waits_for_nothing;
}

Holder Session::holder() const {
  const bool waits = state_ == State::greeting || state_ == State::idle || state_ == State::head ||
                     state_ == State::body;
  const bool reads_nothing =
      !known_ && state_ == State::writing && Clock::now() - since_ > time_to_read;
  return {line_.remote(), known_, !waits && !reads_nothing, since_};
}

// --- time ---

void Session::enter(State state) {
  state_ = state;
  since_ = Clock::now();
}

void Session::within(Patience::Span span) {
  const std::uint64_t round = ++round_;
  timer_.expires_after(span);
  timer_.async_wait([me = shared_from_this(), round](const error_code& error) {
    if (!error && round == me->round_) me->late();
  });
}

void Session::late() {
  if (state_ == State::streaming) return pull();
  if (state_ != State::body) return drop();
  refuse(problem(Refusal::bad_request, "the body did not come in time"));
}

// --- reading ---

void Session::talk() {
  if (state_ != State::greeting) return;
  next_request();
}

bool Session::wants_more() const {
  if (state_ == State::gone || reading_ || their_end_) return false;
  const bool takes = state_ == State::head || state_ == State::body || state_ == State::leaving;
  return takes || bytes_.size() < most_ahead;
}

// There is always one reading under way: so a client that hangs up is noticed whatever it waits
// for.
void Session::read() {
  if (!wants_more()) return;
  reading_ = true;
  line_.read(asio::buffer(chunk_),
             [me = shared_from_this()](const error_code& error, std::size_t count) {
               me->heard(error, count);
             });
}

void Session::heard(const error_code& error, std::size_t count) {
  reading_ = false;
  if (state_ == State::gone) return;
  bytes_.append(chunk_.data(), count);
  if (error) {
    their_end_ = true;
    *gone_ = true;
  }
  advance();
}

void Session::advance() {
  if (state_ == State::idle && !bytes_.empty()) {
    enter(State::head);
    within(house_.patience.head);
  }
  switch (state_) {
    case State::head:
      take_head();
      break;
    case State::body:
      take_body();
      break;
    case State::leaving:
      thrown_away_ += bytes_.size();
      bytes_.clear();
      if (their_end_ || thrown_away_ > most_thrown_away) drop();
      break;
    case State::idle:
    case State::streaming:
      if (their_end_) drop();
      break;
    default:
      break;
  }
  read();
}

void Session::next_request() {
  enter(State::idle);
  incoming_ = std::make_unique<Incoming>();
  close_ = false;
  within(house_.patience.idle);
  advance();
}

void Session::take_head() {
  switch (incoming_->take(bytes_)) {
    case Incoming::State::more:
      if (their_end_) drop();
      break;
    case Incoming::State::wrong:
      refuse(incoming_->refusal());
      break;
    default:
      admit();
  }
}

void Session::take_body() {
  switch (incoming_->take(bytes_)) {
    case Incoming::State::more:
      if (their_end_)
        refuse(
            problem(Refusal::bad_request, "the body ended early, or is not what its headers say"));
      break;
    case Incoming::State::whole:
      ask();
      break;
    default:
      refuse(incoming_->refusal());
  }
}

}  // namespace barm::server::internal
