#include "server/door/pairing.h"

#include <gmock/gmock.h>
#include <sys/stat.h>

#include <future>

#include "server/door/guard.h"
#include "server/running.h"
#include "support/matchers.h"

namespace barm::test {
namespace {

using namespace std::chrono_literals;
using nlohmann::json;
using server::Guess;
using server::Pairing;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

Pairing opened(const std::string& file = "") {
  auto pairing = Pairing::open(file);
  EXPECT_THAT(pairing, Holds());
  return std::move(*pairing);
}

constexpr Pairing::Clock::time_point start{};

server::Newcomer phone(const std::string& address = "192.168.1.31",
                       const std::string& cookie = "") {
  return {"phone", address, cookie};
}

TEST(Pairing, KnowsOnlyTheCookiesItGave) {
  Pairing pairing = opened();
  const Guess guess = pairing.guess(pairing.key(), phone(), start);
  ASSERT_THAT(guess.cookie, Not(IsEmpty()));
  EXPECT_TRUE(pairing.knows(guess.cookie));
  EXPECT_FALSE(pairing.knows(""));
  EXPECT_FALSE(pairing.knows(guess.cookie.substr(1)));
  std::string forged = guess.cookie;
  forged[0] = forged[0] == 'a' ? 'b' : 'a';
  EXPECT_FALSE(pairing.knows(forged));
  pairing.forget(guess.cookie);
  EXPECT_FALSE(pairing.knows(guess.cookie));
}

TEST(Pairing, TakesTheKeyAsPeopleTypeIt) {
  Pairing pairing = opened();
  std::string typed;
  for (const char c : pairing.key()) typed += c == '-' ? ' ' : static_cast<char>(std::tolower(c));
  EXPECT_THAT(pairing.guess(" " + typed, phone(), start).cookie, Not(IsEmpty()));
}

TEST(Pairing, MakesAnotherKeyEachTime) { EXPECT_NE(opened().key(), opened().key()); }

TEST(Pairing, GuessingAllKeysWouldTakeLongerThanAnyBakeryLasts) {
  // A guess whenever one may be made, for a day: so many are taken.
  Pairing pairing = opened();
  auto now = start;
  int taken = 0;
  while (now < start + 24h) {
    const Guess guess = pairing.guess("AAAA-AAAA", phone("192.168.1.66"), now);
    ASSERT_THAT(guess.cookie, IsEmpty());
    if (guess.wait_s == 0) ++taken;
    now += std::chrono::seconds(std::max(1, guess.wait_s));
  }
  EXPECT_LT(taken, 120);  // of 8.5e11 keys
  EXPECT_GT(taken, 5);
  // While it waits even the right key is not taken: a thief cannot tell it by trying in between.
  while (pairing.guess("AAAA-AAAA", phone("192.168.1.66"), now).wait_s > 0) now += 1s;
  EXPECT_GT(pairing.guess(pairing.key(), phone("192.168.1.66"), now).wait_s, 0);
}

TEST(Pairing, IsNotKeptLockedByOthers) {
  Pairing pairing = opened();
  auto now = start;
  for (int i = 0; i < 500; ++i) {
    (void)pairing.guess("AAAA-AAAA", phone("192.168.1.66"), now);
    (void)pairing.guess("AAAA-AAAA", phone("192.168.1." + std::to_string(100 + i % 100)), now);
    now += 1s;
  }
  EXPECT_GT(pairing.guess(pairing.key(), phone("192.168.1.66"), now).wait_s, 0);
  EXPECT_THAT(pairing.guess(pairing.key(), phone("192.168.1.31"), now).cookie, Not(IsEmpty()));
}

TEST(Pairing, PutsNobodyOut) {
  Pairing pairing = opened();
  const std::string first = pairing.guess(pairing.key(), phone(), start).cookie;
  std::size_t paired = 1;
  Guess last;
  while (paired <= Pairing::most_devices) {
    last = pairing.guess(pairing.key(), phone(), start);
    if (last.full) break;
    ++paired;
  }
  EXPECT_GE(paired, 52U);
  EXPECT_TRUE(last.full);
  EXPECT_THAT(last.cookie, IsEmpty());
  EXPECT_TRUE(pairing.knows(first));
  // Who pairs again takes the place of his own earlier pairing.
  const Guess again = pairing.guess(pairing.key(), phone("192.168.1.31", first), start);
  EXPECT_THAT(again.cookie, Not(IsEmpty()));
  EXPECT_FALSE(pairing.knows(first));
}

TEST(Pairing, RemembersDevicesButNotTheirCookies) {
  const Folder folder;
  const std::string file = folder / "devices";
  std::string cookie;
  {
    Pairing pairing = opened(file);
    cookie = pairing.guess(pairing.key(), {"phone\nof a thief", "192.168.1.66", ""}, start).cookie;
  }
  EXPECT_TRUE(opened(file).knows(cookie));
  EXPECT_THAT(file_text(file), Not(HasSubstr(cookie)));
  struct stat about{};
  ASSERT_EQ(::stat(file.c_str(), &about), 0);
  EXPECT_EQ(about.st_mode & 0777U, 0600U);
}

TEST(Pairing, RefusesAListThatIsNone) {
  const Folder folder;
  std::ofstream(folder / "devices") << "not a list\n";
  EXPECT_THAT(Pairing::open(folder / "devices"), FailsWith(ErrorCode::bad_input));
}

// --- who is let in ---

server::Request from(const std::string& remote,
                     const std::string& cookie = "",
                     bool secure = false) {
  server::Request request;
  request.method = "GET";
  request.path = "/api/bakes";
  request.remote = remote;
  request.local = "192.168.1.20";
  request.secure = secure;
  request.headers["host"] = "192.168.1.20:8410";
  if (!cookie.empty()) request.headers["cookie"] = server::cookie_name(secure) + "=" + cookie;
  return request;
}

TEST(Guard, LetsInThePairedAndTheMachineItself) {
  Pairing pairing = opened();
  const std::string cookie = pairing.guess(pairing.key(), phone(), start).cookie;
  server::Guard guard({"localhost"}, std::move(pairing));
  guard.set_port(8410);
  EXPECT_TRUE(guard.refuses(from("192.168.1.31"), false));
  EXPECT_FALSE(guard.refuses(from("192.168.1.31"), true)) << "the page itself, to give the key";
  EXPECT_FALSE(guard.refuses(from("192.168.1.31", cookie), false));
  EXPECT_FALSE(guard.refuses(from("192.168.1.31", cookie, true), false));
  EXPECT_TRUE(guard.refuses(from("192.168.1.31", "forged"), false));
  EXPECT_TRUE(guard.refuses(from("192.168.1.31", std::string(5000, 'a')), false));
  EXPECT_EQ(guard.refuses(from("192.168.1.31"), false)->status, 401);
}

TEST(Guard, TakesAnAddressInFiguresOnlyWhenItIsTheOneReached) {
  server::Guard guard({"localhost"}, opened());
  guard.set_port(8410);
  server::Request request = from("192.168.1.31");
  request.headers["host"] = "10.0.0.7:8410";
  EXPECT_EQ(guard.refuses(request, true)->status, 421);
}

// --- over the wire, with TLS ---

class Lan : public testing::Test {
 protected:
  Lan()
      : running_({.lan = true, .private_folder = folder_ / "lan", .patience = short_patience()}) {}

  Folder folder_;
  Running running_;
};

TEST_F(Lan, PairsByTheKeyAndSetsACookieThatScriptsCannotRead) {
  httplib::SSLClient client("127.0.0.1", running_.port());
  client.set_ca_cert_path(running_.server().certificate()->authority.c_str());
  client.enable_server_certificate_verification(true);
  const auto wrong = client.Post("/api/pair", R"({"key": "AAAA-AAAA"})", "application/json");
  ASSERT_TRUE(wrong) << "TLS with the authority's certificate: " << to_string(wrong.error());
  EXPECT_EQ(wrong->status, 400);
  const auto right = client.Post("/api/pair",
                                 json{{"key", running_.server().key()}, {"device", "phone"}}.dump(),
                                 "application/json");
  ASSERT_TRUE(right);
  ASSERT_EQ(right->status, 200) << right->body;
  const std::string cookie = right->get_header_value("Set-Cookie");
  for (const char* part : {"__Host-barm=", "HttpOnly", "SameSite=Strict", "Secure", "Path=/"})
    EXPECT_THAT(cookie, HasSubstr(part));
}

TEST_F(Lan, SlowsDownGuesses) {
  const auto client = running_.client();
  httplib::Result last = client->Post("/api/pair", R"({"key": "AAAA-AAAA"})", "application/json");
  for (int i = 0; i < 5 && last->status != 429; ++i)
    last = client->Post("/api/pair", R"({"key": "AAAA-AAAA"})", "application/json");
  EXPECT_EQ(last->status, 429);
  EXPECT_GE(std::stoi(last->get_header_value("Retry-After")), 1);
}

TEST_F(Lan, ServesPlainHttpOnTheSamePortAndSaysWhatIsMissing) {
  const auto reply = running_.client()->Get("/api/status");
  ASSERT_TRUE(reply);
  const json status = json::parse(reply->body);
  EXPECT_TRUE(status.at("lan"));
  EXPECT_TRUE(status.at("secure")) << "the machine itself is a secure context";
  EXPECT_THAT(status.at("missing"), IsEmpty());
}

TEST_F(Lan, AnswersPlainAndTlsSideBySide) {
  httplib::SSLClient tls("127.0.0.1", running_.port());
  tls.enable_server_certificate_verification(false);
  for (int i = 0; i < 3; ++i) {
    EXPECT_EQ(tls.Get("/api/status")->status, 200);
    EXPECT_EQ(running_.client()->Get("/api/status")->status, 200);
  }
}

TEST_F(Lan, PacksLongAnswersForOtherDevices) {
  const auto here = running_.client();
  const httplib::Headers takes_gzip{{"Accept-Encoding", "gzip"}};
  const auto plain = here->Get("/api/larder", takes_gzip);
  ASSERT_TRUE(plain && plain->status == 200);
  EXPECT_FALSE(plain->has_header("Content-Encoding")) << "the machine itself";

  httplib::Client device("127.0.0.1", running_.port());
  device.set_interface("127.0.0.2");
  const auto paired =
      device.Post("/api/pair", json{{"key", running_.server().key()}}.dump(), "application/json");
  ASSERT_TRUE(paired && paired->status == 200);
  const std::string cookie = paired->get_header_value("Set-Cookie");
  device.set_default_headers({{"Cookie", cookie.substr(0, cookie.find(';'))}});
  const auto unpacked = device.Get("/api/larder", takes_gzip);
  ASSERT_TRUE(unpacked && unpacked->status == 200);
  EXPECT_EQ(unpacked->get_header_value("Content-Encoding"), "gzip");
  EXPECT_EQ(unpacked->body, plain->body);
  device.set_decompress(false);
  EXPECT_LT(device.Get("/api/larder", takes_gzip)->body.size(), plain->body.size() / 3);
  EXPECT_EQ(device.Get("/api/larder", {{"Accept-Encoding", "identity"}})->body, plain->body);
}

// A device of the network, at another address of the loopback.
std::unique_ptr<httplib::SSLClient> device_at(const std::string& address, int port) {
  auto out = std::make_unique<httplib::SSLClient>("127.0.0.1", port);
  out->set_interface(address);
  out->enable_server_certificate_verification(false);
  return out;
}

// Its cookie, as it is to be sent.
std::string pair(httplib::SSLClient& device, const std::string& key) {
  const auto paired = device.Post("/api/pair", json{{"key", key}}.dump(), "application/json");
  if (!paired || paired->status != 200) return "";
  const std::string cookie = paired->get_header_value("Set-Cookie");
  return cookie.substr(0, cookie.find(';'));
}

TEST_F(Lan, GivesTheAuthorityToThePairedAlone) {
  const auto device = device_at("127.0.0.2", running_.port());
  EXPECT_EQ(device->Get("/authority.crt")->status, 401);
  EXPECT_TRUE(json::parse(device->Get("/api/status")->body).at("certificates").is_null());
  const std::string cookie = pair(*device, running_.server().key());
  ASSERT_THAT(cookie, Not(IsEmpty()));
  const httplib::Headers paired{{"Cookie", cookie}};
  const auto authority = device->Get("/authority.crt", paired);
  ASSERT_TRUE(authority);
  EXPECT_EQ(authority->status, 200);
  EXPECT_THAT(authority->body, HasSubstr("BEGIN CERTIFICATE"));
  const json said = json::parse(device->Get("/api/status", paired)->body).at("certificates");
  EXPECT_EQ(said.at("authority_sha256"), running_.server().certificate()->authority_fingerprint);
  EXPECT_EQ(said.at("server_sha256"), running_.server().certificate()->fingerprint);
  // Not on a plain line, where somebody between could hand out his own.
  httplib::Client plain("127.0.0.1", running_.port());
  plain.set_interface("127.0.0.2");
  const auto by_plain =
      plain.Post("/api/pair", json{{"key", running_.server().key()}}.dump(), "application/json");
  ASSERT_TRUE(by_plain && by_plain->status == 200);
  const std::string plain_cookie = by_plain->get_header_value("Set-Cookie");
  EXPECT_EQ(
      plain.Get("/authority.crt", {{"Cookie", plain_cookie.substr(0, plain_cookie.find(';'))}})
          ->status,
      401);
}

TEST_F(Lan, EndsTheStreamOfAForgottenDeviceAtOnce) {
  const auto listening = device_at("127.0.0.2", running_.port());
  const auto forgetting = device_at("127.0.0.2", running_.port());
  const std::string cookie = pair(*listening, running_.server().key());
  ASSERT_THAT(cookie, Not(IsEmpty()));
  std::promise<void> heard;
  std::chrono::steady_clock::time_point ended;
  std::thread stream([&] {
    bool first = true;
    (void)listening->Get("/api/events", {{"Cookie", cookie}}, [&](const char*, std::size_t) {
      if (first) heard.set_value();
      first = false;
      return true;
    });
    ended = std::chrono::steady_clock::now();
  });
  heard.get_future().wait();
  const auto begun = std::chrono::steady_clock::now();
  EXPECT_EQ(forgetting->Delete("/api/pair", {{"Cookie", cookie}})->status, 204);
  stream.join();
  EXPECT_LT(ended - begun, 1s);
}

TEST_F(Lan, HandsOutTheAuthorityButNoKey) {
  const auto reply = running_.client()->Get("/authority.crt");
  ASSERT_TRUE(reply);
  EXPECT_THAT(reply->body, HasSubstr("BEGIN CERTIFICATE"));
  EXPECT_THAT(reply->body, Not(HasSubstr("PRIVATE KEY")));
}

TEST_F(Lan, ShowsTheKeyOnTheMachineItself) {
  const auto reply = running_.client()->Get("/api/pair");
  ASSERT_EQ(reply->status, 200) << reply->body;
  const json code = json::parse(reply->body);
  EXPECT_EQ(code.at("key"), running_.server().key());
  for (const json& row : code.at("squares"))
    EXPECT_EQ(row.get<std::string>().size(), code.at("squares").size());
}

TEST(Loopback, HasNoPairing) {
  const Running running;
  EXPECT_EQ(
      running.client()->Post("/api/pair", R"({"key": "AAAA-AAAA"})", "application/json")->status,
      404);
  EXPECT_EQ(running.client()->Get("/api/pair")->status, 404);
  EXPECT_EQ(running.client()->Get("/authority.crt")->status, 404);
}

}  // namespace
}  // namespace barm::test
