#include "server/internal/connection.h"

#include <arpa/inet.h>
#include <fcntl.h>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <openssl/err.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>

namespace barm::server::internal {

namespace {

constexpr std::size_t slowest_bytes_a_second = 20'000;
constexpr unsigned char tls_begins = 0x16;  // a handshake record, RFC 8446 5.1

std::string address(const sockaddr_in& of) {
  std::array<char, INET_ADDRSTRLEN> text{};
  return inet_ntop(AF_INET, &of.sin_addr, text.data(), text.size()) == nullptr ? "" : text.data();
}

template <class Ask>
std::string address_by(int socket, Ask ask) {
  sockaddr_in of{};
  socklen_t size = sizeof of;
  return ask(socket, reinterpret_cast<sockaddr*>(&of), &size) == 0 ? address(of) : "";
}

}  // namespace

Connection::Connection(int socket)
    : socket_(socket), since_(Clock::now().time_since_epoch().count()) {
  const int on = 1;
  ::setsockopt(socket, IPPROTO_TCP, TCP_NODELAY, &on, sizeof on);
  ::fcntl(socket, F_SETFL, ::fcntl(socket, F_GETFL) | O_NONBLOCK);
  remote_ = address_by(socket, ::getpeername);
  local_ = address_by(socket, ::getsockname);
}

Connection::~Connection() { ::close(socket_); }

bool Connection::wait(short events, Clock::time_point until) const {
  while (true) {
    const auto left = std::chrono::ceil<std::chrono::milliseconds>(until - Clock::now()).count();
    if (left <= 0) return false;
    pollfd ready{socket_, events, 0};
    const int count = ::poll(&ready, 1, static_cast<int>(std::min<long>(left, 60000)));
    if (count > 0) return true;
    if (count < 0 && errno != EINTR) return false;
  }
}

bool Connection::begin(SSL_CTX* tls, Clock::duration patience) {
  const auto until = Clock::now() + patience;
  if (tls == nullptr) return true;
  unsigned char first = 0;
  if (!wait(POLLIN, until) || ::recv(socket_, &first, 1, MSG_PEEK) != 1) return false;
  if (first != tls_begins) return true;
  ssl_.reset(SSL_new(tls));
  return ssl_ != nullptr && SSL_set_fd(ssl_.get(), socket_) == 1 && handshake(until);
}

bool Connection::handshake(Clock::time_point until) {
  while (true) {
    ERR_clear_error();
    const int done = SSL_accept(ssl_.get());
    if (done == 1) return true;
    const int wants = SSL_get_error(ssl_.get(), done);
    if (wants == SSL_ERROR_WANT_READ && wait(POLLIN, until)) continue;
    if (wants == SSL_ERROR_WANT_WRITE && wait(POLLOUT, until)) continue;
    return false;
  }
}

long Connection::receive(char* to, std::size_t size, Clock::time_point until) {
  while (true) {
    if (ssl_ == nullptr) {
      const ssize_t count = ::recv(socket_, to, size, 0);
      if (count >= 0) return count;
      if (errno == EINTR || (errno == EAGAIN && wait(POLLIN, until))) continue;
      return -1;
    }
    ERR_clear_error();
    const int count = SSL_read(ssl_.get(), to, static_cast<int>(size));
    if (count > 0) return count;
    const int wants = SSL_get_error(ssl_.get(), count);
    if (wants == SSL_ERROR_ZERO_RETURN) return 0;
    if (wants == SSL_ERROR_WANT_READ && wait(POLLIN, until)) continue;
    if (wants == SSL_ERROR_WANT_WRITE && wait(POLLOUT, until)) continue;
    return -1;
  }
}

bool Connection::fill(Clock::time_point until) {
  if (begin_ < end_) return true;
  const long count = receive(buffer_.data(), buffer_.size(), until);
  begin_ = 0;
  end_ = count > 0 ? static_cast<std::size_t>(count) : 0;
  return count > 0;
}

bool Connection::wait_for_request(Clock::duration patience) {
  set_state(State::idle);
  const bool there = fill(Clock::now() + patience);
  set_state(State::reading);
  return there;
}

void Connection::allow(Clock::duration time, std::size_t bytes) {
  read_until_ = Clock::now() + time;
  may_read_ = bytes;
}

long Connection::read(char* to, std::size_t size) {
  if (may_read_ == 0 || Clock::now() >= read_until_) return -1;
  if (!fill(read_until_)) return -1;
  const std::size_t count = std::min({size, end_ - begin_, may_read_});
  std::copy_n(buffer_.data() + begin_, count, to);
  begin_ += count;
  may_read_ -= count;
  return static_cast<long>(count);
}

long Connection::write(const char* from, std::size_t size, Clock::duration patience) {
  // Not anew with every byte: who takes one a second would hold us for ever.
  const auto until = Clock::now() + patience + std::chrono::seconds(size / slowest_bytes_a_second);
  std::size_t at = 0;
  while (at < size) {
    if (ssl_ == nullptr) {
      const ssize_t count = ::send(socket_, from + at, size - at, MSG_NOSIGNAL);
      if (count > 0) {
        at += static_cast<std::size_t>(count);
      } else if (count == 0 || (errno != EINTR && (errno != EAGAIN || !wait(POLLOUT, until)))) {
        return -1;
      }
      continue;
    }
    ERR_clear_error();
    const int piece = static_cast<int>(std::min<std::size_t>(size - at, 1 << 20));
    const int count = SSL_write(ssl_.get(), from + at, piece);
    if (count > 0) {
      at += static_cast<std::size_t>(count);
      continue;
    }
    const int wants = SSL_get_error(ssl_.get(), count);
    if (wants == SSL_ERROR_WANT_READ && wait(POLLIN, until)) continue;
    if (wants == SSL_ERROR_WANT_WRITE && wait(POLLOUT, until)) continue;
    return -1;
  }
  return static_cast<long>(size);
}

bool Connection::is_gone() const {
  pollfd ready{socket_, POLLRDHUP, 0};
  return ::poll(&ready, 1, 0) > 0 && (ready.revents & (POLLRDHUP | POLLHUP | POLLERR)) != 0;
}

void Connection::hang_up() { ::shutdown(socket_, SHUT_RDWR); }

void Connection::linger() {
  if (ssl_ != nullptr) SSL_shutdown(ssl_.get());
  ::shutdown(socket_, SHUT_WR);
  const auto until = Clock::now() + std::chrono::milliseconds(500);
  std::size_t left = 4'000'000;
  while (wait(POLLIN, until)) {
    const ssize_t count = ::recv(socket_, buffer_.data(), buffer_.size(), 0);
    if (count <= 0 || static_cast<std::size_t>(count) >= left) return;
    left -= static_cast<std::size_t>(count);
  }
}

void Connection::set_state(State state) {
  since_ = Clock::now().time_since_epoch().count();
  state_ = state;
}

}  // namespace barm::server::internal
