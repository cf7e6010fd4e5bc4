#include "server/wire/listener.h"

#include <fmt/format.h>
#include <openssl/ssl.h>
#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <boost/asio/error.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/ssl/context.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <exception>
#include <functional>
#include <memory>
#include <set>
#include <tuple>
#include <utility>
#include <vector>

#include "base/complain.h"
#include "server/door/problem.h"
#include "server/wire/internal/places.h"
#include "server/wire/internal/session.h"

namespace barm::server {

namespace asio = boost::asio;
using asio::ip::tcp;
using boost::system::error_code;
using internal::House;
using internal::Session;

namespace {

constexpr int backlog = 512;
constexpr std::size_t most_goodbyes = 256;  // lines that hold no place any more, or got none
constexpr int spare_files = 200;            // for everything that is no line
constexpr Patience::Span out_of_files{50};  // until it is tried again

/// Threads for one kind of work, with a row of what waits for them.
class Hands {
 public:
  Hands(std::size_t threads, std::size_t most_waiting) : threads_(threads), most_(most_waiting) {}

  bool give(std::function<void()> work) {
    if (waiting_ >= most_) return false;
    ++waiting_;
    asio::post(threads_, [this, work = std::move(work)] {
      --waiting_;
      work();
    });
    return true;
  }

  void join() { threads_.join(); }

 private:
  asio::thread_pool threads_;
  std::size_t most_;
  std::atomic<std::size_t> waiting_ = 0;
};

void allow_files(std::size_t wanted) {
  rlimit limit{};
  if (::getrlimit(RLIMIT_NOFILE, &limit) != 0 || limit.rlim_cur >= wanted) return;
  limit.rlim_cur = std::min<rlim_t>(wanted, limit.rlim_max);
  ::setrlimit(RLIMIT_NOFILE, &limit);
}

/// One thread that talks with everybody, others that answer.
class RealListener final : public Listener {
 public:
  RealListener(ListenerOptions options, Desk& desk, std::unique_ptr<asio::ssl::context> tls)
      : options_(std::move(options)),
        tls_(std::move(tls)),
        house_{.io = io_, .desk = desk, .patience = options_.patience, .tls = tls_.get()} {
    house_.give = [this](bool heavy, std::function<void()> work) {
      return (heavy ? heavy_ : quick_).give(std::move(work));
    };
    house_.left = [this](const std::shared_ptr<Session>& one) {
      sessions_.erase(one);
      if (house_.ending && sessions_.empty()) timer_.cancel();
    };
    allow_files(places() + most_goodbyes + spare_files);
  }

  error_code bind() {
    error_code error;
    const tcp::endpoint at(asio::ip::make_address(options_.address, error),
                           static_cast<unsigned short>(options_.port));
    if (!error) error = acceptor_.open(at.protocol(), error);
    // Not SO_REUSEPORT: two servers on one port would share its clients unnoticed.
    if (!error) error = acceptor_.set_option(tcp::acceptor::reuse_address(true), error);
    if (!error) error = acceptor_.bind(at, error);
    if (!error) error = acceptor_.listen(backlog, error);
    if (!error) port_ = acceptor_.local_endpoint(error).port();
    return error;
  }

  int port() const override { return port_; }

  void run() override {
    accept();
    while (!io_.stopped()) {
      try {
        io_.run();
      } catch (const std::exception& fault) {  // out of memory, say: the others go on
        complain(fmt::format("barm: on the line: {}", fault.what()));
      }
    }
    quick_.join();
    heavy_.join();
  }

  void stop() override {
    asio::post(io_, [this] { end(); });
  }

 private:
  [[nodiscard]] std::size_t places() const { return static_cast<std::size_t>(options_.places); }

  void accept() {
    acceptor_.async_accept([this](const error_code& error, tcp::socket socket) {
      if (house_.ending) return;
      if (!error) {
        accept();
        return take(std::move(socket));
      }
      // No more files for now.
      timer_.expires_after(out_of_files);
      timer_.async_wait([this](const error_code& cancelled) {
        if (!cancelled && !house_.ending) accept();
      });
    });
  }

  void take(tcp::socket socket) {
    const auto fresh = std::make_shared<Session>(std::move(socket), house_);
    auto [room, who] = room_beside(*fresh);
    if (!room.there) {
      for (const auto& one : sessions_) one->look_for_their_end();
      std::tie(room, who) = room_beside(*fresh);
    }
    if (sessions_.size() - who.size() >= most_goodbyes) drop_a_goodbye();
    if (room.turned_out) who[*room.turned_out]->turn_out();
    sessions_.insert(fresh);
    fresh->begin(!room.there);
  }

  // With those whom it may turn out.
  std::pair<internal::Room, std::vector<std::shared_ptr<Session>>> room_beside(
      const Session& fresh) const {
    std::vector<internal::Holder> holders;
    std::vector<std::shared_ptr<Session>> who;
    for (const auto& one : sessions_) {
      if (!one->holds_a_place()) continue;
      holders.push_back(one->holder());
      who.push_back(one);
    }
    holders.push_back(fresh.holder());
    return {internal::room_for_the_last(holders, places()), std::move(who)};
  }

  // The one that has been at it longest.
  void drop_a_goodbye() {
    std::shared_ptr<Session> oldest;
    for (const auto& one : sessions_) {
      if (one->holds_a_place()) continue;
      if (oldest == nullptr || one->holder().since < oldest->holder().since) oldest = one;
    }
    oldest->drop();
  }

  void end() {
    if (house_.ending) return;
    house_.ending = true;
    error_code ignored;
    std::ignore = acceptor_.close(ignored);
    const auto all = sessions_;  // they leave the set
    for (const auto& one : all) one->end();
    timer_.cancel();
    if (sessions_.empty()) return;
    timer_.expires_after(options_.patience.ending);
    timer_.async_wait([this](const error_code& cancelled) {
      if (cancelled) return;
      const auto left = sessions_;
      for (const auto& one : left) one->drop();
    });
  }

  ListenerOptions options_;
  std::unique_ptr<asio::ssl::context> tls_;
  asio::io_context io_;
  tcp::acceptor acceptor_{io_};
  asio::steady_timer timer_{io_};
  House house_;
  std::set<std::shared_ptr<Session>> sessions_;
  Hands quick_{16, 512};
  Hands heavy_{16, 256};
  int port_ = 0;
};

Result<std::unique_ptr<asio::ssl::context>> tls_context(const Certificate& certificate) {
  auto context = std::make_unique<asio::ssl::context>(asio::ssl::context::tls_server);
  SSL_CTX_set_min_proto_version(context->native_handle(), TLS1_2_VERSION);
  SSL_CTX_set_options(context->native_handle(), SSL_OP_NO_RENEGOTIATION);
  error_code error;
  error = context->use_certificate_chain_file(certificate.chain, error);
  if (!error)
    error = context->use_private_key_file(certificate.private_key, asio::ssl::context::pem, error);
  if (!error) return context;
  return failure(
      ErrorCode::bad_input, certificate.chain, "is no certificate with its key beside it");
}

}  // namespace

Result<std::unique_ptr<Listener>> Listener::open(const ListenerOptions& options, Desk& desk) {
  std::unique_ptr<asio::ssl::context> tls;
  if (options.certificate) {
    auto context = tls_context(*options.certificate);
    if (!context) return failure(context);
    tls = std::move(*context);
  }
  auto listener = std::make_unique<RealListener>(options, desk, std::move(tls));
  const error_code error = listener->bind();
  if (!error) return listener;
  return failure(
      ErrorCode::bad_input,
      "port",
      error == asio::error::address_in_use
          ? fmt::format("port {} is taken by another program; choose another with --port",
                        options.port)
          : fmt::format("port {} cannot be used: {}", options.port, error.message()));
}

}  // namespace barm::server
