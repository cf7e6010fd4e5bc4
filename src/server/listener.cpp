#include "server/listener.h"

#include <arpa/inet.h>
#include <fmt/format.h>
#include <httplib.h>
#include <netinet/in.h>
#include <openssl/ssl.h>
#include <poll.h>
#include <sys/eventfd.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <condition_variable>
#include <cstring>
#include <deque>
#include <mutex>
#include <set>
#include <thread>
#include <vector>

#include "base/require.h"
#include "server/internal/connection.h"
#include "server/problem.h"

namespace barm::server {

namespace {

using internal::Connection;
using Clock = Connection::Clock;

constexpr std::size_t most_of_head = 65'536;
constexpr std::size_t request_line_most = 8192;
constexpr int most_requests = 1000;  // on one connection
constexpr int backlog = 512;
constexpr std::size_t least_to_pack = 1400;  // bytes: less goes in one packet as it is
constexpr int look_again_ms = 200;           // for a place, when there was none

/// What the HTTP library reads from and writes to.
class Wire : public httplib::Stream {
 public:
  Wire(Connection& connection, const Patience& patience)
      : connection_(connection), patience_(patience) {}

  bool is_readable() const override { return true; }

  bool is_writable() const override { return !connection_.is_gone(); }

  ssize_t read(char* to, std::size_t size) override { return connection_.read(to, size); }

  ssize_t write(const char* from, std::size_t size) override {
    return connection_.write(from, size, patience_.write);
  }

  void get_remote_ip_and_port(std::string& ip, int& port) const override {
    ip = connection_.remote();
    port = 0;
  }

  void get_local_ip_and_port(std::string& ip, int& port) const override {
    ip = connection_.local();
    port = 0;
  }

  socket_t socket() const override { return connection_.socket(); }

 private:
  Connection& connection_;
  const Patience& patience_;
};

std::string lower(const std::string& text) {
  std::string out = text;
  std::transform(out.begin(), out.end(), out.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return out;
}

Request request_of(const httplib::Request& from, const Connection& connection) {
  Request out;
  out.method = from.method;
  out.path = from.path;
  for (const auto& [key, value] : from.params) out.query.emplace(key, value);
  // The library adds these for its own use; a client's own would be a lie.
  static const std::set<std::string> added{
      "remote_addr", "remote_port", "local_addr", "local_port"};
  for (const auto& [key, value] : from.headers) {
    const std::string name = lower(key);
    if (added.contains(name)) continue;
    if (name == "host" && out.headers.contains(name)) out.repeated_host = true;
    out.headers[name] = value;
  }
  out.remote = connection.remote();
  out.local = connection.local();
  out.secure = connection.is_secure();
  out.gone = [&connection] { return connection.is_gone(); };
  return out;
}

std::size_t length_of(const Request& request) {
  const std::string text = request.header("content-length");
  std::size_t length = 0;
  for (const char c : text) {
    if (c < '0' || c > '9' || length > 1'000'000'000'000) return 1'000'000'000'000;
    length = 10 * length + static_cast<std::size_t>(c - '0');
  }
  return length;
}

bool has_body(const Request& request) {
  return length_of(request) > 0 || request.headers.contains("transfer-encoding");
}

bool has_control_characters(const std::string& path) {
  return std::any_of(path.begin(), path.end(), [](char c) {
    return static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
  });
}

// Two ways to say where the body ends may be read in two ways, and a body where none belongs would
// be read as the next request.
std::optional<std::string> ambiguity(const httplib::Request& from, const Request& request) {
  if (from.get_header_value_count("Content-Length") > 1 ||
      from.get_header_value_count("Transfer-Encoding") > 1 ||
      (request.headers.contains("content-length") && request.headers.contains("transfer-encoding")))
    return "the request says in two ways how long its body is";
  const std::string coding = lower(request.header("transfer-encoding"));
  if (!coding.empty() && coding != "chunked")
    return "the body's transfer encoding is not known here";
  const bool bodiless =
      request.method == "GET" || request.method == "HEAD" || request.method == "OPTIONS";
  if (bodiless && has_body(request)) return "this request takes no body";
  return std::nullopt;
}

/// What is known about the request that this thread serves.
struct Serving {
  Connection* connection = nullptr;
  Request request;
  std::optional<std::string> ambiguous;
  bool admitted = false;  ///< the desk has seen it
  bool close = false;
};

thread_local Serving serving;

/// The HTTP library's server without its own sockets and threads: it reads a request from a wire,
/// asks us and writes the reply.
class Http : public httplib::Server {
 public:
  Http(Desk& desk, const Patience& patience) : desk_(desk), patience_(patience) {
    keep_alive_max_count_ = most_requests;
    keep_alive_timeout_sec_ = std::chrono::ceil<std::chrono::seconds>(patience.idle).count();
    set_pre_routing_handler([this](const auto&, auto& to) { return admit(to); });
    set_exception_handler([](const auto&, auto& to, const std::exception_ptr&) {
      put(problem(Refusal::our_fault, "a fault of barm's own"), to);
    });
    set_error_handler(HandlerWithResponse([](const auto&, auto& to) { return explain(to); }));
    const auto with_body = [this](const auto&, auto& to, const auto& reader) {
      read_and_answer(to, reader);
    };
    const auto without = [this](const auto&, auto& to) { answer(to); };
    // Any path; the router knows better.
    Get(".*", without);
    Options(".*", without);
    Post(".*", HandlerWithContentReader(with_body));
    Put(".*", HandlerWithContentReader(with_body));
    Patch(".*", HandlerWithContentReader(with_body));
    Delete(".*", HandlerWithContentReader(with_body));
  }

  /// The library ends streams when its own socket is none.
  void set_streams(bool on) { svr_sock_ = on ? 0 : INVALID_SOCKET; }

  /// Serves one request; false when the connection is to be closed.
  bool serve(Connection& connection, bool last) {
    serving = {};
    serving.connection = &connection;
    connection.allow(patience_.head, most_of_head);
    Wire wire(connection, patience_);
    bool closed = false;
    const bool served = process_request(
        wire, last, closed, [&](httplib::Request& from) { meet(from, connection); });
    const bool go_on = served && !closed && serving.admitted && !serving.close;
    serving = {};
    return go_on;
  }

 private:
  static void meet(httplib::Request& from, const Connection& connection) {
    serving.request = request_of(from, connection);
    serving.ambiguous = ambiguity(from, serving.request);
    // Without a length there is no body (RFC 9112, 6.3); the library would read on until the end.
    if (!from.has_header("Content-Length") && !from.has_header("Transfer-Encoding"))
      from.headers.emplace("Content-Length", "0");
    from.ranges.clear();                    // whole files only
    from.headers.erase("Accept-Encoding");  // put() decides what is worth packing
  }

  HandlerResponse admit(httplib::Response& to) {
    serving.admitted = true;
    const Request& request = serving.request;
    if (serving.ambiguous) return refuse(problem(Refusal::bad_request, *serving.ambiguous), to);
    if (has_control_characters(request.path))
      return refuse(problem(Refusal::no_route, "there is no such path"), to);
    auto admission = desk_.admit(request);
    if (admission.refusal) return refuse(*admission.refusal, to);
    const std::size_t length = length_of(request);
    if (length > admission.most_bytes) return refuse(too_large(admission.most_bytes), to);
    most_bytes() = admission.most_bytes;
    const std::size_t seconds = length / 100'000;
    serving.connection->allow(patience_.body + std::chrono::seconds(seconds),
                              2 * admission.most_bytes + most_of_head);
    return HandlerResponse::Unhandled;
  }

  HandlerResponse refuse(const Reply& reply, httplib::Response& to) {
    if (has_body(serving.request)) serving.close = true;
    put(reply, to);
    return HandlerResponse::Handled;
  }

  static Reply too_large(std::size_t most) {
    return problem(Refusal::too_large,
                   fmt::format("a body of at most {} bytes is taken here", most));
  }

  static std::size_t& most_bytes() {
    thread_local std::size_t most = 0;
    return most;
  }

  void read_and_answer(httplib::Response& to, const httplib::ContentReader& reader) {
    bool over = false;
    std::string& body = serving.request.body;
    const bool whole = reader([&](const char* data, std::size_t size) {
      over = body.size() + size > most_bytes();
      if (!over) body.append(data, size);
      return !over;
    });
    if (over) {
      serving.close = true;
      return put(too_large(most_bytes()), to);
    }
    if (!whole) {
      serving.close = true;
      return put(
          problem(Refusal::bad_request, "the body ended early, or is not what its headers say"),
          to);
    }
    answer(to);
  }

  void answer(httplib::Response& to) {
    serving.connection->set_state(Connection::State::working);
    put(desk_.answer(serving.request), to);
  }

  // JSON over a network, to who can unpack it. On the machine itself packing takes longer than it
  // saves; the page is packed already.
  static bool is_worth_packing(const Reply& reply) {
    return reply.type == "application/json" && reply.body.size() > least_to_pack &&
           !serving.request.from_here() && serving.request.takes_gzip();
  }

  static void put_packed(const Reply& reply, httplib::Response& to) {
    std::string packed;
    httplib::detail::gzip_compressor gzip;
    gzip.compress(
        reply.body.data(), reply.body.size(), true, [&](const char* data, std::size_t size) {
          packed.append(data, size);
          return true;
        });
    to.set_header("Content-Encoding", "gzip");
    to.set_header("Vary", "Accept-Encoding");
    to.set_content(packed, reply.type);
  }

  static void put(const Reply& reply, httplib::Response& to) {
    to.status = reply.status;
    for (const auto& [name, value] : reply.headers) to.set_header(name, value);
    if (reply.close) serving.close = true;
    if (serving.close) to.set_header("Connection", "close");
    if (!reply.stream) {
      if (reply.status == 204 || reply.status == 304) return;
      if (is_worth_packing(reply)) return put_packed(reply, to);
      return to.set_content(reply.body, reply.type);
    }
    if (serving.request.method == "HEAD") return to.set_content("", reply.type);
    serving.connection->set_state(Connection::State::streaming);
    to.set_chunked_content_provider(
        reply.type, [stream = reply.stream](std::size_t, httplib::DataSink& sink) {
          std::string piece;
          bool more = false;
          try {
            more = stream(piece);
          } catch (const std::exception&) {
            return false;
          } catch (const Refused&) {
            return false;
          }
          if (!more) {
            sink.done();
            return true;
          }
          return sink.is_writable() && sink.write(piece.data(), piece.size());
        });
  }

  // What the library refuses by itself.
  static HandlerResponse explain(httplib::Response& to) {
    if (!to.body.empty() || serving.admitted) return HandlerResponse::Unhandled;
    serving.close = true;
    put(to.status == 414
            ? problem(Refusal::too_long,
                      fmt::format("the address is longer than {} bytes", request_line_most))
            : problem(Refusal::bad_request, "this is not HTTP as it is understood here"),
        to);
    return HandlerResponse::Handled;
  }

  Desk& desk_;
  const Patience& patience_;
};

/// Threads, one for each connection served.
class RealListener final : public Listener {
 public:
  RealListener(ListenerOptions options, Desk& desk, int socket, SSL_CTX* tls)
      : options_(std::move(options)),
        http_(desk, options_.patience),
        tls_(tls, SSL_CTX_free),
        socket_(socket),
        wake_(::eventfd(0, EFD_CLOEXEC)) {
    require(wake_ >= 0, "the system has an event descriptor");
    sockaddr_in bound{};
    socklen_t size = sizeof bound;
    ::getsockname(socket_, reinterpret_cast<sockaddr*>(&bound), &size);
    port_ = ntohs(bound.sin_port);
    http_.set_streams(true);
  }

  ~RealListener() override {
    ::close(socket_);
    ::close(wake_);
  }

  int port() const override { return port_; }

  void run() override {
    std::vector<std::thread> threads;
    threads.reserve(static_cast<std::size_t>(options_.places));
    for (int i = 0; i < options_.places; ++i) threads.emplace_back([this] { work(); });
    accept_all();
    {
      const std::scoped_lock lock(mutex_);
      over_ = true;
      http_.set_streams(false);
      for (Connection* one : open_) {
        if (one->state() != Connection::State::working) one->hang_up();
      }
    }
    there_.notify_all();
    for (std::thread& thread : threads) thread.join();
    for (const int one : waiting_) ::close(one);
    waiting_.clear();
  }

  void stop() override {
    stopping_ = true;
    const std::uint64_t one = 1;
    [[maybe_unused]] const ssize_t written = ::write(wake_, &one, sizeof one);
  }

 private:
  void accept_all() {
    while (!stopping_) {
      std::array<pollfd, 2> ready{pollfd{socket_, POLLIN, 0}, pollfd{wake_, POLLIN, 0}};
      const int count = ::poll(ready.data(), ready.size(), is_crowded() ? look_again_ms : -1);
      if (count == 0) make_room();
      if (count <= 0 || (ready[0].revents & POLLIN) == 0) continue;
      const int client = ::accept4(socket_, nullptr, nullptr, SOCK_CLOEXEC);
      if (client >= 0) {
        take(client);
      } else if (errno == EMFILE || errno == ENFILE || errno == ENOBUFS || errno == ENOMEM) {
        make_room();
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
      }
    }
  }

  void take(int client) {
    bool crowded = false;
    {
      const std::scoped_lock lock(mutex_);
      if (waiting_.size() >= backlog) {
        ::close(client);
        return;
      }
      waiting_.push_back(client);
      crowded = waiting_.size() > free_;
    }
    there_.notify_one();
    if (crowded) make_room();
  }

  /// Hangs up on whoever has idled or dawdled longest.
  void make_room() {
    const std::scoped_lock lock(mutex_);
    Connection* longest = nullptr;
    for (Connection* one : open_) {
      const auto state = one->state();
      if (state != Connection::State::idle && state != Connection::State::reading) continue;
      if (longest == nullptr || one->since() < longest->since()) longest = one;
    }
    if (longest == nullptr) return;
    const bool idle = longest->state() == Connection::State::idle;
    if (idle || Clock::now() - longest->since() > Clock::duration(options_.patience.crowded))
      longest->hang_up();
  }

  void work() {
    while (true) {
      int client = -1;
      {
        std::unique_lock lock(mutex_);
        ++free_;
        // Who waits for a place is looked after while it waits.
        there_.wait(lock, [&] { return over_ || !waiting_.empty(); });
        --free_;
        if (over_) return;
        client = waiting_.front();
        waiting_.pop_front();
      }
      serve(client);
    }
  }

  void serve(int client) {
    Connection connection(client);
    if (!enter(connection)) return;
    try {
      talk(connection);
    } catch (const std::exception&) {
      connection.hang_up();  // out of memory, or the HTTP library gave up: the others go on
    }
    leave(connection);
  }

  bool enter(Connection& connection) {
    const std::scoped_lock lock(mutex_);
    if (over_) return false;
    open_.insert(&connection);
    return true;
  }

  void leave(Connection& connection) {
    const std::scoped_lock lock(mutex_);
    open_.erase(&connection);
  }

  void talk(Connection& connection) {
    const Patience& patience = options_.patience;
    if (!connection.begin(tls_.get(), patience.handshake)) return;
    for (int left = most_requests; left > 0 && !stopping_; --left) {
      if (!connection.wait_for_request(patience.idle)) return;
      if (!http_.serve(connection, left == 1)) break;
      if (is_crowded()) break;
    }
    connection.linger();
  }

  bool is_crowded() {
    const std::scoped_lock lock(mutex_);
    return !waiting_.empty() && free_ == 0;
  }

  ListenerOptions options_;
  Http http_;
  std::unique_ptr<SSL_CTX, decltype(&SSL_CTX_free)> tls_;
  int socket_;
  int wake_;
  int port_ = 0;
  std::atomic<bool> stopping_ = false;
  std::mutex mutex_;
  std::condition_variable there_;
  std::deque<int> waiting_;
  std::set<Connection*> open_;
  std::size_t free_ = 0;
  bool over_ = false;
};

Result<SSL_CTX*> tls_context(const Certificate& certificate) {
  SSL_CTX* context = SSL_CTX_new(TLS_server_method());
  require(context != nullptr, "OpenSSL makes a context");
  SSL_CTX_set_min_proto_version(context, TLS1_2_VERSION);
  SSL_CTX_set_options(context, SSL_OP_NO_RENEGOTIATION | SSL_OP_IGNORE_UNEXPECTED_EOF);
  SSL_CTX_set_mode(context, SSL_MODE_ENABLE_PARTIAL_WRITE | SSL_MODE_ACCEPT_MOVING_WRITE_BUFFER);
  const bool good =
      SSL_CTX_use_certificate_chain_file(context, certificate.chain.c_str()) == 1 &&
      SSL_CTX_use_PrivateKey_file(context, certificate.private_key.c_str(), SSL_FILETYPE_PEM) == 1;
  if (good) return context;
  SSL_CTX_free(context);
  return failure(
      ErrorCode::bad_input, certificate.chain, "is no certificate with its key beside it");
}

Result<int> bound_socket(const std::string& address, int port) {
  const int socket = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  require(socket >= 0, "the system has a socket");
  const int on = 1;
  // Not SO_REUSEPORT: two servers on one port would share its clients unnoticed.
  ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &on, sizeof on);
  sockaddr_in to{};
  to.sin_family = AF_INET;
  to.sin_port = htons(static_cast<std::uint16_t>(port));
  ::inet_pton(AF_INET, address.c_str(), &to.sin_addr);
  if (::bind(socket, reinterpret_cast<const sockaddr*>(&to), sizeof to) == 0 &&
      ::listen(socket, backlog) == 0)
    return socket;
  const int reason = errno;
  ::close(socket);
  return failure(
      ErrorCode::bad_input,
      "port",
      reason == EADDRINUSE
          ? fmt::format("port {} is taken by another program; choose another with --port", port)
          : fmt::format("port {} cannot be used: {}", port, std::strerror(reason)));
}

}  // namespace

Result<std::unique_ptr<Listener>> Listener::open(const ListenerOptions& options, Desk& desk) {
  SSL_CTX* tls = nullptr;
  if (options.certificate) {
    const auto context = tls_context(*options.certificate);
    if (!context) return failure(context);
    tls = *context;
  }
  const auto socket = bound_socket(options.address, options.port);
  if (!socket) {
    SSL_CTX_free(tls);
    return failure(socket);
  }
  return std::make_unique<RealListener>(options, desk, *socket, tls);
}

}  // namespace barm::server
