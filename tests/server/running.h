#pragma once
// A server that runs for a test, on a free port of the loopback, and clients for it.
#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <httplib.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <chrono>
#include <fstream>
#include <memory>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <thread>

#include "server/server.h"
#include "support/folder.h"

namespace barm::test {

inline std::string file_text(const std::string& path) {
  std::ostringstream out;
  out << std::ifstream(path, std::ios::binary).rdbuf();
  return out.str();
}

inline std::string example(const std::string& name) {
  return file_text(BARM_ROOT "/examples/" + name + ".toml");
}

/// Patience for tests: short, so that a slow client is found out soon.
inline server::Patience short_patience() {
  using namespace std::chrono_literals;
  server::Patience patience;
  patience.handshake = 1000ms;
  patience.head = 700ms;
  patience.body = 700ms;
  patience.write = 1000ms;
  patience.idle = 500ms;
  return patience;
}

class Running {
 public:
  explicit Running(server::ServerOptions options = {}) {
    auto opened = server::Server::open(options);
    if (!opened) throw std::runtime_error(opened.error().text());
    server_ = std::move(*opened);
    thread_ = std::thread([this] { server_->run(); });
  }

  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;

  ~Running() { stop(); }

  void stop() {
    if (!thread_.joinable()) return;
    server_->stop();
    thread_.join();
  }

  [[nodiscard]] server::Server& server() { return *server_; }

  [[nodiscard]] int port() const { return server_->port(); }

  /// As a browser on the machine would ask.
  [[nodiscard]] std::unique_ptr<httplib::Client> client() const {
    auto out = std::make_unique<httplib::Client>("127.0.0.1", port());
    out->set_read_timeout(600);
    return out;
  }

 private:
  std::unique_ptr<server::Server> server_;
  std::thread thread_;
};

/// A line on which a test sends what it likes.
class Raw {
 public:
  /// `from` is an address of the loopback, 127.0.0.1 to 127.255.255.254.
  explicit Raw(int port, const std::string& from = "127.0.0.1")
      : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in own{};
    own.sin_family = AF_INET;
    ::inet_pton(AF_INET, from.c_str(), &own.sin_addr);
    ::bind(socket_, reinterpret_cast<sockaddr*>(&own), sizeof own);
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(static_cast<std::uint16_t>(port));
    to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    connected_ = ::connect(socket_, reinterpret_cast<sockaddr*>(&to), sizeof to) == 0;
    timeval patience{10, 0};
    ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
  }

  Raw(const Raw&) = delete;
  Raw& operator=(const Raw&) = delete;

  ~Raw() { ::close(socket_); }

  bool send(const std::string& text) const {
    return connected_ && ::send(socket_, text.data(), text.size(), MSG_NOSIGNAL) ==
                             static_cast<ssize_t>(text.size());
  }

  void close_my_end() const { ::shutdown(socket_, SHUT_WR); }

  /// All until the server hangs up, or ten seconds without a byte.
  [[nodiscard]] std::string all() const {
    std::string out;
    std::array<char, 4096> buffer{};
    while (true) {
      const ssize_t count = ::recv(socket_, buffer.data(), buffer.size(), 0);
      if (count <= 0) return out;
      out.append(buffer.data(), static_cast<std::size_t>(count));
    }
  }

  /// Until the text has come, or the line has ended.
  [[nodiscard]] std::string until(const std::string& text) const {
    std::string out;
    std::array<char, 4096> buffer{};
    while (out.find(text) == std::string::npos) {
      const ssize_t count = ::recv(socket_, buffer.data(), buffer.size(), 0);
      if (count <= 0) return out;
      out.append(buffer.data(), static_cast<std::size_t>(count));
    }
    return out;
  }

 private:
  int socket_;
  bool connected_ = false;
};

/// The status of a reply as it came over the wire; 0 when there was none.
inline int status_of(const std::string& reply) {
  return reply.starts_with("HTTP/1.1 ") ? std::stoi(reply.substr(9, 3)) : 0;
}

/// A request on its line.
inline std::string request(const std::string& method,
                           const std::string& target,
                           int port,
                           const std::string& headers = "",
                           const std::string& body = "") {
  return method + " " + target + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port) +
         "\r\nConnection: close\r\n" + headers +
         (body.empty() ? "" : "Content-Length: " + std::to_string(body.size()) + "\r\n") + "\r\n" +
         body;
}

}  // namespace barm::test
