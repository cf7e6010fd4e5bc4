#include "server/wire/internal/line.h"

#include <poll.h>

#include <array>
#include <boost/asio/ssl.hpp>
#include <boost/asio/write.hpp>
#include <tuple>
#include <utility>

namespace barm::server::internal {

namespace asio = boost::asio;
using boost::system::error_code;

namespace {

// Who reads nothing holds no more of the machine's memory than this; the system would give 4 MB.
constexpr int most_unsent = 262'144;

}  // namespace

Line::Line(Socket socket) : socket_(std::move(socket)) {
  error_code error;
  std::ignore = socket_.set_option(asio::ip::tcp::no_delay(true), error);
  std::ignore = socket_.set_option(asio::socket_base::send_buffer_size(most_unsent), error);
  const auto remote = socket_.remote_endpoint(error);
  if (!error) remote_ = remote.address().to_string();
  const auto local = socket_.local_endpoint(error);
  if (!error) local_ = local.address().to_string();
}

void Line::look(char& first, Told told) {
  socket_.async_receive(asio::buffer(&first, 1), Socket::message_peek, std::move(told));
}

void Line::secure(asio::ssl::context& context, Told told) {
  tls_.emplace(socket_, context);
  tls_->async_handshake(asio::ssl::stream_base::server,
                        [told = std::move(told)](const error_code& error) { told(error, 0); });
}

bool Line::has_their_end() {
  pollfd socket{.fd = socket_.native_handle(), .events = POLLRDHUP, .revents = 0};
  return poll(&socket, 1, 0) == 1;
}

void Line::read(const asio::mutable_buffer& into, Told told) {
  if (tls_) {
    tls_->async_read_some(into, std::move(told));
  } else {
    socket_.async_read_some(into, std::move(told));
  }
}

void Line::write(const std::string& head, const std::string& body, Told told) {
  const std::array<asio::const_buffer, 2> bytes{asio::buffer(head), asio::buffer(body)};
  if (tls_) {
    asio::async_write(*tls_, bytes, std::move(told));
  } else {
    asio::async_write(socket_, bytes, std::move(told));
  }
}

void Line::say_goodbye(Told told) {
  error_code ignored;
  if (tls_) {
    tls_->async_shutdown([told = std::move(told)](const error_code& error) { told(error, 0); });
  } else {
    std::ignore = socket_.shutdown(Socket::shutdown_send, ignored);
  }
}

void Line::close() {
  error_code ignored;
  std::ignore = socket_.close(ignored);
}

}  // namespace barm::server::internal
