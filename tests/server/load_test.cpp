// Many at once: nobody keeps the others out, and nothing keeps the server from ending.
#include "server/load.h"

#include <gmock/gmock.h>

#include <map>

#include "server/door/problem.h"
#include "server/questions/turns.h"

namespace barm::test {
namespace {

using namespace std::chrono_literals;
using nlohmann::json;

/// A server for the network, with a phone that is paired.
class Crowd : public testing::Test {
 protected:
  Crowd() : running_({.lan = true, .private_folder = folder_ / "lan"}) {
    allow_lines(1500);
    httplib::Client phone("127.0.0.1", running_.port());
    phone.set_interface("127.0.0.2");
    const auto paired =
        phone.Post("/api/pair", json{{"key", running_.server().key()}}.dump(), "application/json");
    const std::string cookie = paired ? paired->get_header_value("Set-Cookie") : "";
    cookie_ = cookie.substr(0, cookie.find(';'));
  }

  /// Lines of strangers, from so many addresses in turn, each having said `text`.
  void come(int lines, int addresses, const std::string& text) {
    for (int i = 0; i < lines; ++i) {
      strangers_.push_back(
          std::make_unique<Raw>(running_.port(), "127.0.0." + std::to_string(10 + i % addresses)));
      if (!text.empty()) (void)strangers_.back()->send(text);
    }
  }

  /// The phone asks for the larder, by a line of its own.
  void expect_the_phone_is_served() const {
    httplib::Client phone("127.0.0.1", running_.port());
    phone.set_interface("127.0.0.2");
    phone.set_read_timeout(20);
    const auto begun = Instant::now();
    const auto reply = phone.Get("/api/larder?words=mead", {{"Cookie", cookie_}});
    const double waited = seconds_since(begun);
    RecordProperty("phone_waited_ms", std::to_string(1000 * waited));
    EXPECT_LT(waited, 1);
    ASSERT_TRUE(reply) << to_string(reply.error());
    EXPECT_EQ(reply->status, 200) << reply->body;
  }

  Folder folder_;
  Running running_;
  std::string cookie_;
  std::vector<std::unique_ptr<Raw>> strangers_;
};

TEST_F(Crowd, AThousandIdleLinesKeepNoPairedPhoneWaiting) {
  come(1000, 20, "");
  expect_the_phone_is_served();
}

TEST_F(Crowd, HeadsThatNeverEndKeepNoPairedPhoneWaiting) {
  come(700, 1, "GET / HTTP/1.1\r\nX-");
  expect_the_phone_is_served();
  come(300, 100, "GET / HTTP/1.1\r\nX-");
  expect_the_phone_is_served();
}

TEST_F(Crowd, ThoseWhoReadNothingKeepNoPairedPhoneWaiting) {
  std::string many;
  for (int i = 0; i < 40; ++i)
    many += "GET /api/openapi.json HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(running_.port()) +
            "\r\n\r\n";
  come(400, 4, many);
  expect_the_phone_is_served();
}

TEST_F(Crowd, AStrangerIsToldToComeAgain) {
  const std::string ask =
      "GET /api/status HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(running_.port()) + "\r\n\r\n";
  come(300, 1, "GET / HTTP/1.1\r\nX-");
  const Raw one_more(running_.port(), "127.0.0.10");
  ASSERT_TRUE(one_more.send(ask));
  EXPECT_EQ(status_of(one_more.until("\r\n\r\n")), 200) << "the longest idle made room";
  const std::string first = strangers_.front()->all();
  EXPECT_EQ(status_of(first), 503) << first;
  EXPECT_THAT(first, testing::HasSubstr("Retry-After: "));
}

TEST(Load, StatusIsQuickWhileManyForecastsAreAskedAndTheServerEnds) {
  Running running;
  std::vector<std::unique_ptr<Raw>> lines;
  for (int i = 0; i < 140; ++i) {
    lines.push_back(std::make_unique<Raw>(running.port()));
    ask_forecast(*lines.back(), running.port(), 20'000, i);
  }
  const auto client = running.client();
  std::vector<double> waits;
  for (int i = 0; i < 30; ++i) {
    const auto begun = Instant::now();
    const auto reply = client->Get("/api/status");
    waits.push_back(seconds_since(begun));
    ASSERT_TRUE(reply);
    EXPECT_EQ(reply->status, 200);
    std::this_thread::sleep_for(20ms);
  }
  std::sort(waits.begin(), waits.end());
  RecordProperty("status_worst_ms", std::to_string(1000 * waits.back()));
  EXPECT_LT(waits[waits.size() * 9 / 10], 0.1);
  const auto begun = Instant::now();
  running.stop();
  const double ended = seconds_since(begun);
  RecordProperty("ended_in_ms", std::to_string(1000 * ended));
  EXPECT_LT(ended, 2);
  for (const auto& line : lines) EXPECT_THAT(status_of(line->all()), testing::AnyOf(499, 503));
}

TEST(Load, WhoHangsUpIsNotWorkedFor) {
  const Running running;
  {
    std::vector<std::unique_ptr<Raw>> lines;
    for (int i = 0; i < 60; ++i) {
      lines.push_back(std::make_unique<Raw>(running.port()));
      ask_forecast(*lines.back(), running.port(), 20'000, i);
    }
    std::this_thread::sleep_for(100ms);
  }
  const auto begun = Instant::now();
  const auto reply = running.client()->Post("/api/foresee", forecast(20, 1), "application/json");
  ASSERT_TRUE(reply);
  EXPECT_EQ(reply->status, 200);
  EXPECT_LT(seconds_since(begun), 2) << "sixty of a second or two each were asked before";
}

TEST(Load, TwoHundredClientsAreAllAnswered) {
  allow_lines(500);
  const Running running;
  Tally tally;
  ask_with_many(running.port(), 200, 3s, tally);
  EXPECT_EQ(tally.without_a_reply, 0);
  EXPECT_EQ(tally.without_a_time, 0);
  EXPECT_GT(tally.answered, 500);
}

// --- the end ---

/// The heaviest that may be asked of each question that takes a turn.
const std::map<std::string, json>& heaviest() {
  static const std::string mead = example("mead-loaf");
  static const json test_bake = {
      {"bake", mead},
      {"test_bake",
       {{"name", "What slows it?"},
        {"causes", {"alcohol"}},
        {"within", "14 h"},
        {"dough", {{{"name", "mead"}}, {{"name", "water"}, {"make", {"plain"}}}}}}},
      {"readings",
       "dough,hours,height_mm\nmead,0,60\nmead,4,66\nmead,8,100\nmead,12,140\n"
       "water,0,60\nwater,4,80\nwater,6,120\nwater,8,150\n"}};
  const auto with = [](json base, const json& more) {
    base.update(more);
    return base;
  };
  static const std::map<std::string, json> all{
      {"foresee", {{"bake", mead}, {"draws", 20'000}}},
      {"reach", {{"bake", mead}, {"drink", "dry mead"}, {"draws", 20'000}}},
      {"levain", {{"need_g", 300}, {"peak_in_h", 8}, {"draws", 20'000}}},
      {"read",
       {{"bake", mead},
        {"readings", {"0h 40 mm", "2h 44 mm", "4h 48 mm 24 C", "6h 60 mm"}},
        {"draws", 20'000}}},
      {"rescue", {{"bake", mead}, {"now", "4h"}, {"by", "16h"}, {"risen", 1.1}, {"draws", 20'000}}},
      {"map", {{"bake", mead}, {"up", "starter"}, {"draws", 5000}}},
      {"jar", {{"bake", mead}, {"diameter_mm", 70}, {"height_mm", 140}, {"draws", 20'000}}},
      {"calendar", {{"bake", mead}, {"draws", 20'000}}},
      {"label", {{"bake", mead}, {"draws", 5000}}},
      {"testbake-before", with(test_bake, {{"draws", 5000}})},
      {"testbake-after", test_bake},
      {"testbake-next", test_bake},
      {"testbake-show", test_bake},
  };
  return all;
}

std::vector<std::string> heavy_questions() {
  std::vector<std::string> out;
  for (const auto& [question, body] : heaviest()) out.push_back(question);
  return out;
}

class Ending : public testing::TestWithParam<std::string> {};

TEST_P(Ending, IsNotKeptWaiting) {
  const std::string& question = GetParam();
  const json& body = heaviest().at(question);
  Running running;
  const Raw line(running.port());
  ASSERT_TRUE(line.send(request("POST",
                                "/api/" + question,
                                running.port(),
                                "Content-Type: application/json\r\n",
                                body.dump())));
  if (question != "jar" && question != "calendar" && question != "label") {
    const auto job = running.client()->Post(
        "/api/jobs", json{{"ask", question}, {"with", body}}.dump(), "application/json");
    ASSERT_TRUE(job);
    EXPECT_EQ(job->status, 202) << job->body;
  }
  std::this_thread::sleep_for(200ms);
  const auto begun = Instant::now();
  running.stop();
  EXPECT_LT(seconds_since(begun), 2);
  EXPECT_THAT(status_of(line.all()), testing::AnyOf(200, 499)) << "it was a good question";
}

INSTANTIATE_TEST_SUITE_P(Load, Ending, testing::ValuesIn(heavy_questions()), [](const auto& of) {
  std::string name = of.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(Turns, AreGivenUpByWhoIsCancelled) {
  server::Turns turns(1);
  const server::Turns::Turn held(turns, nullptr);
  std::atomic<bool> cancelled = false;
  std::atomic<bool> refused = false;
  std::thread waiting([&] {
    try {
      const server::Turns::Turn turn(turns, [&] { return cancelled.load(); });
    } catch (const server::Refused&) {
      refused = true;
    }
  });
  std::this_thread::sleep_for(10ms);
  EXPECT_FALSE(refused);
  cancelled = true;
  waiting.join();
  EXPECT_TRUE(refused);
}

TEST(Turns, PassOverWhoHasLeft) {
  server::Turns turns(1);
  std::thread waiting;
  {
    const server::Turns::Turn held(turns, nullptr);
    std::thread leaves([&] {
      try {
        const server::Turns::Turn turn(turns, [] { return true; });
        FAIL() << "there was no place";
      } catch (const server::Refused&) {
        SUCCEED();
      }
    });
    leaves.join();
    waiting = std::thread([&] { const server::Turns::Turn turn(turns, nullptr); });
  }
  waiting.join();  // its turn comes
}

}  // namespace
}  // namespace barm::test
