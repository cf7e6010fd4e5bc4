// What nobody well-meaning would send: each is refused in one clear way, and the server goes on.
#include <gmock/gmock.h>

#include "server/running.h"

namespace barm::test {
namespace {

using nlohmann::json;
using testing::AnyOf;
using testing::HasSubstr;
using testing::Not;

class Hostile : public testing::Test {
 protected:
  explicit Hostile(const server::Patience& patience = {})
      : running_({.daybook = folder_ / "daybook.barm", .places = 8, .patience = patience}) {}

  std::string say(const std::string& text) const {
    const Raw raw(running_.port());
    (void)raw.send(text);
    return raw.all();
  }

  std::string ask(const std::string& method,
                  const std::string& target,
                  const std::string& headers = "",
                  const std::string& body = "") const {
    return say(request(method, target, running_.port(), headers, body));
  }

  std::string post(const std::string& target, const std::string& body) const {
    return ask("POST", target, "Content-Type: application/json\r\n", body);
  }

  std::string host(const std::string& name) const {
    return "Host: " + name + ":" + std::to_string(running_.port()) + "\r\n";
  }

  void expect_alive() const {
    const auto reply = running_.client()->Get("/api/status");
    ASSERT_TRUE(reply) << "the server does not answer any more";
    EXPECT_EQ(reply->status, 200) << reply->body;
  }

  void TearDown() override { expect_alive(); }

  Folder folder_;
  Running running_;
};

/// With a server that waits for nobody long.
class Slow : public Hostile {
 protected:
  Slow() : Hostile(short_patience()) {}
};

TEST_F(Hostile, AHostThatIsNotOurs) {
  // DNS rebinding: a stranger's name that leads to this machine.
  const std::string port = std::to_string(running_.port());
  for (const std::string name : {"evil.example",
                                 "localhost.evil.example",
                                 "127.0.0.1.evil.example",
                                 "0.0.0.0",
                                 "192.168.1.1"}) {
    EXPECT_EQ(
        status_of(say("GET /api/status HTTP/1.1\r\n" + host(name) + "Connection: close\r\n\r\n")),
        421)
        << name;
    EXPECT_EQ(status_of(say("GET / HTTP/1.1\r\n" + host(name) + "Connection: close\r\n\r\n")), 421)
        << name;
  }
  for (const std::string line : {"Host: localhost\r\n",
                                 "Host: localhost:1\r\n",
                                 "Host: \r\n",
                                 "",
                                 "Host: localhost:99999999999\r\n",
                                 "Host: [::1]:\r\n"})
    EXPECT_THAT(status_of(say("GET /api/status HTTP/1.1\r\n" + line + "Connection: close\r\n\r\n")),
                AnyOf(421, 400))
        << line;
  EXPECT_EQ(status_of(say("GET /api/status HTTP/1.1\r\n" + host("localhost") +
                          host("evil.example") + "Connection: close\r\n\r\n")),
            421);
  EXPECT_EQ(status_of(say("GET /api/status HTTP/1.1\r\n" + host("LocalHost") +
                          "Connection: close\r\n\r\n")),
            200);
  EXPECT_EQ(status_of(say("GET /api/status HTTP/1.1\r\n" + host("127.0.0.1") +
                          "Connection: close\r\n\r\n")),
            200);
}

TEST_F(Hostile, AnOriginThatIsNotOurs) {
  const std::string port = std::to_string(running_.port());
  const std::string json_header = "Content-Type: application/json\r\n";
  const std::string body = R"({"key": "AAAA-AAAA"})";
  for (const std::string origin : {"http://evil.example",
                                   "null",
                                   "http://localhost",
                                   "https://127.0.0.1:",
                                   "http://127.0.0.1:1"}) {
    EXPECT_EQ(status_of(ask("POST", "/api/pair", json_header + "Origin: " + origin + "\r\n", body)),
              403)
        << origin;
    EXPECT_EQ(status_of(ask("GET", "/api/larder", "Origin: " + origin + "\r\n")), 403) << origin;
  }
  EXPECT_EQ(status_of(ask("GET", "/api/status", "Origin: http://127.0.0.1:" + port + "\r\n")), 200);
  EXPECT_EQ(status_of(ask("GET", "/api/status", "Sec-Fetch-Site: cross-site\r\n")), 403);
  EXPECT_EQ(status_of(ask("GET", "/", "Sec-Fetch-Site: cross-site\r\n")), 200)
      << "a link to the page is no attack";
  EXPECT_THAT(ask("GET", "/api/status"), Not(HasSubstr("Access-Control")));
  EXPECT_EQ(
      status_of(ask("OPTIONS",
                    "/api/bowl",
                    "Origin: http://evil.example\r\nAccess-Control-Request-Method: POST\r\n")),
      403);
}

TEST_F(Hostile, ABodyThatIsTooLarge) {
  const std::string much(1'100'000, ' ');
  EXPECT_EQ(status_of(post("/api/bowl", much)), 413);
  EXPECT_EQ(
      status_of(ask("POST",
                    "/api/bowl",
                    "Content-Type: application/json\r\nContent-Length: 9999999999999999\r\n")),
      413);
  // A length that no machine can count to is none.
  EXPECT_EQ(
      status_of(ask("POST",
                    "/api/bowl",
                    "Content-Type: application/json\r\nContent-Length: 99999999999999999999\r\n")),
      400);
  // The same in chunks, where no header says how much there is.
  std::string chunks =
      "POST /api/bowl HTTP/1.1\r\n" + host("127.0.0.1") +
      "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\nConnection: close\r\n\r\n";
  for (int i = 0; i < 12; ++i) chunks += "186A0\r\n" + std::string(100'000, ' ') + "\r\n";
  EXPECT_EQ(status_of(say(chunks + "0\r\n\r\n")), 413);
  // And packed: a few kilobytes that would become many.
  EXPECT_THAT(status_of(ask("POST",
                            "/api/bowl",
                            "Content-Type: application/json\r\nContent-Encoding: gzip\r\n",
                            "\x1f\x8b nonsense")),
              AnyOf(400, 413));
}

TEST_F(Hostile, ABodyOfTheWrongKind) {
  EXPECT_EQ(status_of(ask("POST", "/api/bowl", "Content-Type: text/plain\r\n", "{}")), 415);
  EXPECT_EQ(status_of(ask("POST", "/api/bowl", "", "{}")), 415);
  EXPECT_EQ(status_of(ask(
                "POST", "/api/bowl", "Content-Type: multipart/form-data; boundary=x\r\n", "--x--")),
            415);
  EXPECT_EQ(status_of(ask("GET", "/api/larder", "", "{}")), 400)
      << "a body where none belongs is the next request";
}

TEST_F(Hostile, TwoLengthsOfOneBody) {
  const std::string type = "Content-Type: application/json\r\n";
  EXPECT_EQ(
      status_of(ask(
          "POST", "/api/bowl", type + "Content-Length: 2\r\nTransfer-Encoding: chunked\r\n", "{}")),
      400);
  EXPECT_EQ(status_of(ask("POST", "/api/bowl", type + "Content-Length: 4\r\n", "{}")), 400);
  EXPECT_EQ(status_of(ask("POST", "/api/bowl", type + "Transfer-Encoding: gzip, chunked\r\n")),
            400);
}

TEST_F(Hostile, JsonThatIsNone) {
  const std::vector<std::string> bodies = {"",
                                           "{",
                                           "nonsense",
                                           "[1,2",
                                           "{\"bake\": }",
                                           "\xff\xfe",
                                           "{\"bake\": \"\xc3\x28\"}",
                                           "{\"bake\":1e999}",
                                           "{\"bake\":\"a\",\"bake\":\"b\"}",
                                           std::string(100'000, '['),
                                           "{}{}",
                                           "\"text\"",
                                           "null",
                                           "[]",
                                           "12",
                                           "{\"bake\": NaN}",
                                           "{\"bake\": null}",
                                           "{\"bake\": 7}",
                                           "{\"bake\": [1]}",
                                           "{\"bake\": {\"bowl\": null}}"};
  for (const std::string& body : bodies) {
    const std::string reply = post("/api/bowl", body);
    EXPECT_EQ(status_of(reply), 400) << body.substr(0, 40) << reply;
    EXPECT_THAT(reply, HasSubstr("application/problem+json")) << body.substr(0, 40);
  }
}

TEST_F(Slow, HttpThatIsNone) {
  struct Nonsense {
    std::string text;
    int status;
  };

  const std::string tls_record("\x16\x03\x01\x02\x00\x01\x00", 7);
  for (const Nonsense& one : {Nonsense{"\r\n\r\n", 400},
                              {"nonsense\r\n\r\n", 400},
                              {"GET\r\n\r\n", 400},
                              {"GET / HTTP/9.9\r\n\r\n", 400},
                              {"GET / HTTP/1.1\r\nbroken header\r\n\r\n", 400},
                              {tls_record, 400},  // its first byte begins no request
                              {"TRACE / HTTP/1.1\r\n" + host("127.0.0.1") + "\r\n", 400},
                              {"CONNECT marsh:80 HTTP/1.1\r\n" + host("127.0.0.1") + "\r\n", 400},
                              {"BREW / HTTP/1.1\r\n" + host("127.0.0.1") + "\r\n", 400}}) {
    const Raw raw(running_.port());
    ASSERT_TRUE(raw.send(one.text));
    const auto begun = std::chrono::steady_clock::now();
    EXPECT_EQ(status_of(raw.all()), one.status) << one.text;
    EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(8))
        << "the server did not hang up after " << one.text;
  }
  EXPECT_EQ(status_of(ask("GET", "/" + std::string(9000, 'a'))), 414);
  const std::string many_headers = [] {
    std::string out;
    for (int i = 0; i < 5000; ++i)
      out += "X-" + std::to_string(i) + ": " + std::string(20, 'a') + "\r\n";
    return out;
  }();
  EXPECT_THAT(status_of(ask("GET", "/api/status", many_headers)), AnyOf(0, 400));
  EXPECT_THAT(status_of(ask("GET", "/api/status", "X-Long: " + std::string(20'000, 'a') + "\r\n")),
              AnyOf(0, 400));
}

TEST_F(Hostile, PathsThatLeaveTheHouse) {
  for (const std::string path : {"/../../../../etc/passwd",
                                 "/..%2f..%2f..%2fetc/passwd",
                                 "/%2e%2e/%2e%2e/etc/passwd",
                                 "//etc/passwd",
                                 "/assets/../../etc/passwd",
                                 "/etc/passwd%00.html",
                                 "/api/../etc/passwd",
                                 "/..\\..\\etc\\passwd",
                                 "/api/photos/..%2f..%2fdaybook.barm/picture",
                                 "/%0a",
                                 "/api/bakes/%00"}) {
    const std::string reply = ask("GET", path);
    EXPECT_THAT(reply, Not(HasSubstr("root:"))) << path;
    EXPECT_THAT(reply, Not(HasSubstr("SQLite format"))) << path;
    // A path without a dot in its last step is the page's own; it draws "there is no such place".
    EXPECT_THAT(status_of(reply), AnyOf(200, 400, 404)) << path;
    if (status_of(reply) == 200) {
      EXPECT_THAT(reply, HasSubstr("<!doctype html>")) << path;
    }
  }
}

TEST_F(Hostile, ScriptInEveryTextFieldComesBackAsInertJson) {
  const std::string script = "</script><script>alert(1)</script>'\"><img src=x onerror=alert(1)>";
  const auto client = running_.client();
  const std::vector<std::pair<std::string, json>> records = {
      {"bakes",
       {{"state", "draft"},
        {"title", script},
        {"toml", script},
        {"note", script},
        {"tags", {script}}}},
      {"cultures",
       {{"title", script}, {"starter", "stiff ripe levain"}, {"flour", script}, {"note", script}}},
      {"settings", {{"id", "greeting"}, {"value", script}}},
      {"scales", {{"title", script}, {"low_words", script}, {"high_words", script}}},
      {"test-bakes", {{"title", script}, {"question", script}}},
  };
  for (const auto& [kind, record] : records) {
    const auto made = client->Post("/api/" + kind, record.dump(), "application/json");
    ASSERT_EQ(made->status, 201) << kind << made->body;
    const auto read =
        client->Get("/api/" + kind + "/" + json::parse(made->body).at("id").get<std::string>());
    EXPECT_EQ(read->get_header_value("Content-Type"), "application/json") << kind;
    EXPECT_EQ(read->get_header_value("X-Content-Type-Options"), "nosniff") << kind;
    for (const auto& [key, value] : record.items())
      EXPECT_EQ(json::parse(read->body).at(key), value) << kind << key;
  }
  // An error says back what was sent, as JSON and never as a page.
  const auto error =
      client->Post("/api/thin",
                   json{{"drink", script}, {"strength", "10 % vol"}, {"need_g", 1}}.dump(),
                   "application/json");
  EXPECT_EQ(error->status, 404);
  EXPECT_EQ(error->get_header_value("Content-Type"), "application/problem+json");
}

TEST_F(Hostile, WordsOfTheQueryLanguageAreWords) {
  const auto client = running_.client();
  const std::string words = "'; DROP TABLE bake; --";
  ASSERT_EQ(
      client
          ->Post("/api/settings", json{{"id", "kept"}, {"value", words}}.dump(), "application/json")
          ->status,
      201);
  EXPECT_EQ(client->Get("/api/bakes?text=%27%3B+DROP+TABLE+bake%3B+--")->status, 200);
  EXPECT_THAT(client->Get("/api/bakes?owner=%27+OR+1%3D1+--")->status, AnyOf(200, 400));
  EXPECT_EQ(client->Get("/api/bakes/%27%20OR%201%3D1")->status, 404);
  EXPECT_EQ(json::parse(client->Get("/api/settings/kept")->body).at("value"), words);
  EXPECT_EQ(client->Get("/api/bakes?limit=0")->status, 400);
  EXPECT_EQ(client->Get("/api/bakes?limit=1e9")->status, 400);
  EXPECT_EQ(client->Get("/api/bakes?offset=-1")->status, 400);
}

TEST_F(Slow, ManySlowClientsHoldNothing) {
  // Twice as many as there are places: each sends a byte of its head now and then.
  std::vector<std::unique_ptr<Raw>> slow;
  for (int i = 0; i < 16; ++i) {
    slow.push_back(std::make_unique<Raw>(running_.port()));
    (void)slow.back()->send("GET /api/st");
  }
  for (int round = 0; round < 5; ++round) {
    for (const auto& one : slow) (void)one->send("a");
    expect_alive();
  }
}

TEST_F(Slow, ClientsThatSayNothingHoldNothing) {
  std::vector<std::unique_ptr<Raw>> silent;
  for (int i = 0; i < 40; ++i) silent.push_back(std::make_unique<Raw>(running_.port()));
  expect_alive();
}

TEST_F(Slow, ASlowHeadIsHungUpOn) {
  const Raw raw(running_.port());
  ASSERT_TRUE(raw.send("GET /api/status HTTP/1.1\r\nHost: "));
  EXPECT_NE(status_of(raw.all()),
            200);  // ends, for the server hangs up: all() would wait ten seconds
}

TEST_F(Slow, ABodyThatNeverComesIsNotWaitedFor) {
  const Raw raw(running_.port());
  ASSERT_TRUE(raw.send(request("POST",
                               "/api/bowl",
                               running_.port(),
                               "Content-Type: application/json\r\nContent-Length: 100\r\n") +
                       "{"));
  EXPECT_THAT(status_of(raw.all()), AnyOf(0, 400));
}

TEST_F(Hostile, AHalfOpenLineIsAnswered) {
  const Raw raw(running_.port());
  ASSERT_TRUE(raw.send(request("GET", "/api/status", running_.port())));
  raw.close_my_end();
  EXPECT_EQ(status_of(raw.all()), 200);
}

TEST_F(Hostile, AClientThatHangsUpEarlyIsForgotten) {
  const std::string question = request("POST",
                                       "/api/foresee",
                                       running_.port(),
                                       "Content-Type: application/json\r\n",
                                       json{{"bake", example("mead-loaf")}}.dump());
  // Whatever the server has read of them when the next one comes.
  for (int times = 0; times < 60; ++times) {
    for (int i = 0; i < 30; ++i) {
      const Raw raw(running_.port());
      (void)raw.send(question);
    }
    expect_alive();
  }
}

TEST_F(Slow, AReaderOfNothingIsHungUpOn) {
  // Asks for large replies on one line and reads none of them.
  const Raw raw(running_.port());
  std::string many;
  for (int i = 0; i < 200; ++i)
    many += "GET /api/sources HTTP/1.1\r\n" + host("127.0.0.1") + "\r\n";
  (void)raw.send(many);
  expect_alive();
}

TEST_F(Hostile, EveryReplyCarriesTheSafetyHeaders) {
  const std::string json_type = "Content-Type: application/json\r\n";
  const std::string both = json_type + "Content-Length: 2\r\nTransfer-Encoding: chunked\r\n";
  for (const std::string& reply : {ask("GET", "/"),
                                   ask("GET", "/api/status"),
                                   ask("GET", "/api/nothing"),
                                   ask("GET", "/nothing.js"),
                                   ask("HEAD", "/"),
                                   ask("TRACE", "/"),
                                   ask("CONNECT", "marsh:80"),
                                   ask("BREW", "/"),
                                   ask("GET", "nowhere"),
                                   ask("GET", "/%0a"),
                                   ask("GET", "/" + std::string(9000, 'a')),
                                   ask("POST", "/api/bowl", both, "{}"),
                                   post("/api/bowl", std::string(1'100'000, ' ')),
                                   say("nonsense\r\n\r\n")}) {
    EXPECT_THAT(reply,
                HasSubstr("Content-Security-Policy: default-src 'none'; script-src 'self';"));
    EXPECT_THAT(reply, HasSubstr("X-Content-Type-Options: nosniff")) << reply;
    EXPECT_THAT(reply, HasSubstr("X-Frame-Options: DENY")) << reply;
    EXPECT_THAT(reply, HasSubstr("Referrer-Policy: no-referrer")) << reply;
    EXPECT_THAT(reply, HasSubstr("Cache-Control: ")) << reply;
    EXPECT_THAT(reply, HasSubstr("\r\nDate: ")) << reply;
    EXPECT_THAT(reply, Not(HasSubstr("unsafe-inline"))) << reply;
  }
}

TEST_F(Hostile, OneReplyAfterBadFraming) {
  // Whatever follows is not to be trusted: it may be the body, read as a request.
  const std::string good = "GET /api/status HTTP/1.1\r\n" + host("127.0.0.1") + "\r\n";
  const std::string type = "Content-Type: application/json\r\n";
  for (const std::string& bad :
       {"POST /api/bowl HTTP/1.1\r\n" + host("127.0.0.1") + type +
            "Content-Length: 4\r\nTransfer-Encoding: chunked\r\n\r\n",
        "POST /api/bowl HTTP/1.1\r\n" + host("127.0.0.1") + type +
            "Content-Length: 4\r\nContent-Length: 5\r\n\r\n",
        "POST /api/bowl HTTP/1.1\r\n" + host("127.0.0.1") + type +
            "Transfer-Encoding: chunked\r\n\r\nno number\r\n",
        "GET /api/larder HTTP/1.1\r\n" + host("127.0.0.1") + "Content-Length: 9\r\n\r\n",
        "POST /api/bowl HTTP/1.1\r\n" + host("127.0.0.1") + type + "Content-Length: -1\r\n\r\n",
        "GET /\r\n" + host("127.0.0.1") + "\r\n",
        std::string("nonsense\r\n\r\n")}) {
    const std::string all = say(good + bad + good + good);
    std::size_t replies = 0;
    for (std::size_t at = all.find("HTTP/1.1 "); at != std::string::npos;
         at = all.find("HTTP/1.1 ", at + 1))
      ++replies;
    EXPECT_EQ(replies, 2U) << bad << all;
    EXPECT_THAT(all, HasSubstr("HTTP/1.1 200")) << bad;
    EXPECT_THAT(all, HasSubstr("HTTP/1.1 400")) << bad;
  }
}

TEST_F(Hostile, SaysToGoOnToWhoWaitsForIt) {
  const Raw raw(running_.port());
  const std::string body = R"({"drink": "dry mead"})";
  ASSERT_TRUE(raw.send(request("POST",
                               "/api/thin",
                               running_.port(),
                               "Content-Type: application/json\r\nExpect: 100-continue\r\n"
                               "Content-Length: " +
                                   std::to_string(body.size()) + "\r\n")));
  EXPECT_THAT(raw.until("\r\n\r\n"), HasSubstr("HTTP/1.1 100 Continue"));
  ASSERT_TRUE(raw.send(body));
  EXPECT_EQ(status_of(raw.all()), 400) << "the strength is missing";
}

}  // namespace
}  // namespace barm::test
