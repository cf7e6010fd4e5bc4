#pragma once
// One client's line, plain or TLS, on which nothing waits: each call comes back at once and says
// later how it went.
#include <boost/asio/buffer.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/ssl/context.hpp>
#include <boost/asio/ssl/stream.hpp>
#include <boost/system/error_code.hpp>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>

namespace barm::server::internal {

class Line {
 public:
  using Socket = boost::asio::ip::tcp::socket;
  using Told = std::function<void(const boost::system::error_code&, std::size_t)>;

  explicit Line(Socket socket);

  [[nodiscard]] const std::string& remote() const { return remote_; }

  [[nodiscard]] const std::string& local() const { return local_; }

  [[nodiscard]] bool is_secure() const { return tls_.has_value(); }

  /// Looks at the client's first byte and leaves it; TLS begins with `tls_begins`.
  void look(char& first, Told told);
  static constexpr char tls_begins = 0x16;  // a handshake record, RFC 8446 5.1

  /// From here on by TLS.
  void secure(boost::asio::ssl::context& context, Told told);

  /// Whether the client has hung up, or will say nothing more, even where what it said is unread.
  [[nodiscard]] bool has_their_end();

  /// One reading and one writing at a time.
  void read(const boost::asio::mutable_buffer& into, Told told);
  void write(const std::string& head, const std::string& body, Told told);

  /// Says that nothing more will be written; may still read.
  void say_goodbye(Told told);

  /// Whoever still waits is told that it failed.
  void close();

 private:
  Socket socket_;
  std::optional<boost::asio::ssl::stream<Socket&>> tls_;
  std::string remote_, local_;
};

}  // namespace barm::server::internal
