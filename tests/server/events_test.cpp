#include "server/records/events.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <memory>

#include "server/door/problem.h"
#include "server/running.h"

namespace barm::test {
namespace {

using nlohmann::json;
using server::ChangesSince;
using server::Events;
using testing::HasSubstr;
using testing::Not;

// --- without a wire ---

ChangesSince ten_changes(std::int64_t number) {
  ChangesSince out;
  out.last = 10;
  out.complete = number >= 5;  // older ones are forgotten
  for (std::int64_t n = std::min(number, out.last) + 1; n <= out.last; ++n)
    out.changes.push_back({n, "{\"number\":" + std::to_string(n) + "}"});
  return out;
}

std::string next(const std::shared_ptr<server::Stream>& stream) {
  std::string out;
  EXPECT_TRUE(stream->next(out));
  return out;
}

TEST(Events, BeginWithTheLastNumber) {
  Events events(ten_changes);
  const std::string hello = next(events.listen(std::nullopt));
  EXPECT_THAT(hello, HasSubstr("event: hello\ndata: {\"last\":10,"));
  EXPECT_THAT(hello, Not(HasSubstr("event: change")));
}

TEST(Events, TakeUpWhereABrowserLeftOff) {
  Events events(ten_changes);
  const std::string missed = next(events.listen(8));
  EXPECT_THAT(missed, HasSubstr("id: 9\nevent: change\ndata: {\"number\":9}\n\n"));
  EXPECT_THAT(missed, HasSubstr("id: 10\n"));
  EXPECT_THAT(missed, Not(HasSubstr("id: 8\n")));
}

TEST(Events, SayWhenTooMuchWasMissed) {
  Events events(ten_changes);
  EXPECT_THAT(next(events.listen(2)), HasSubstr("event: reload\ndata: {\"last\":10,"));
  EXPECT_THAT(next(events.listen(99)), HasSubstr("event: reload")) << "a number of another daybook";
}

TEST(Events, ComeOnceInOrder) {
  Events events(ten_changes);
  const auto stream = events.listen(std::nullopt);
  (void)next(stream);
  events.tell({11, "{\"number\":11}"});
  events.tell({11, "{\"number\":11}"});
  events.tell({12, "{\"number\":12}"});
  EXPECT_EQ(next(stream),
            "id: 11\nevent: change\ndata: {\"number\":11}\n\nid: 12\nevent: change\ndata: "
            "{\"number\":12}\n\n");
}

TEST(Events, TellASleeperToReload) {
  Events events(ten_changes);
  const auto stream = events.listen(std::nullopt);
  (void)next(stream);
  for (int i = 0; i < 3000; ++i) events.tell("job", "{}");
  EXPECT_THAT(next(stream), testing::StartsWith("event: reload"));
}

TEST(Events, AreForSoManyListeners) {
  Events events(ten_changes);
  std::vector<std::shared_ptr<server::Stream>> streams;
  for (int i = 0; i < Events::most_listeners; ++i) streams.push_back(events.listen(std::nullopt));
  EXPECT_THROW((void)events.listen(std::nullopt), server::Refused);
  streams.pop_back();
  EXPECT_NO_THROW((void)events.listen(std::nullopt));
}

TEST(Events, EndWhenTheyAreStopped) {
  Events events(ten_changes);
  const auto stream = events.listen(std::nullopt);
  (void)next(stream);
  events.stop();
  std::string out;
  EXPECT_FALSE(stream->next(out));
}

TEST(Events, SayThatThereIsMore) {
  Events events(ten_changes);
  const auto stream = events.listen(std::nullopt);
  (void)next(stream);
  int told = 0;
  stream->when_there_is_more([&] { ++told; });
  events.tell("job", "{}");
  EXPECT_EQ(told, 1);
  EXPECT_THAT(next(stream), HasSubstr("event: job"));
  EXPECT_EQ(next(stream), ": still here\n\n") << "a sign of life when there is nothing";
  events.stop();
  EXPECT_EQ(told, 2) << "of the end as well";
}

TEST(Events, EndForTheDeviceThatIsForgotten) {
  Events events(ten_changes);
  const auto phone = events.listen(std::nullopt, "phone");
  const auto other = events.listen(std::nullopt, "other");
  events.end("phone");
  std::string out;
  EXPECT_FALSE(phone->next(out));
  EXPECT_TRUE(other->next(out));
}

// --- over the wire ---

class Stream : public testing::Test {
 protected:
  Stream() : running_({.daybook = folder_ / "daybook.barm"}) {}

  std::string opening(const std::string& headers = "",
                      const std::string& target = "/api/events") const {
    return request("GET", target, running_.port(), headers);
  }

  int save(const std::string& name, const std::string& value) const {
    const auto reply = running_.client()->Put(
        "/api/settings/" + name, json{{"value", value}}.dump(), "application/json");
    return reply ? reply->status : 0;
  }

  Folder folder_;
  Running running_;
};

TEST_F(Stream, TellsOfAChangeMadeMeanwhile) {
  const Raw raw(running_.port());
  ASSERT_TRUE(raw.send(opening()));
  EXPECT_THAT(raw.until("hello"), HasSubstr("text/event-stream"));
  ASSERT_EQ(save("clock", "24h"), 200);
  EXPECT_THAT(raw.until("\"id\":\"clock\""), HasSubstr("event: change"));
}

TEST_F(Stream, SurvivesALostLine) {
  ASSERT_EQ(save("clock", "24h"), 200);
  ASSERT_EQ(save("clock_2", "12h"), 200);
  const Raw raw(running_.port());
  ASSERT_TRUE(raw.send(opening("Last-Event-ID: 1\r\n")));
  const std::string missed = raw.until("clock_2");
  EXPECT_THAT(missed, HasSubstr("\"id\":\"clock_2\""));
  EXPECT_THAT(missed, Not(HasSubstr("\"id\":\"clock\"")));
  const Raw by_hand(running_.port());
  ASSERT_TRUE(by_hand.send(opening("", "/api/events?after=0")));
  EXPECT_THAT(by_hand.until("clock_2"), HasSubstr("\"id\":\"clock\""));
}

TEST_F(Stream, TakesNonsenseForNoNumber) {
  const Raw raw(running_.port());
  ASSERT_TRUE(raw.send(opening("Last-Event-ID: nonsense\r\n")));
  EXPECT_THAT(raw.until("hello"), Not(HasSubstr("reload")));
}

TEST_F(Stream, EndsWithTheServer) {
  const Raw raw(running_.port());
  ASSERT_TRUE(raw.send(opening()));
  (void)raw.until("hello");
  running_.stop();
  (void)raw.all();  // ends
}

TEST_F(Stream, LeavesRoomForTheRest) {
  std::vector<std::unique_ptr<Raw>> streams;
  for (int i = 0; i < Events::most_listeners; ++i) {
    streams.push_back(std::make_unique<Raw>(running_.port()));
    ASSERT_TRUE(streams.back()->send(opening()));
    ASSERT_THAT(streams.back()->until("hello"), HasSubstr("hello"));
  }
  const Raw one_more(running_.port());
  ASSERT_TRUE(one_more.send(opening()));
  EXPECT_EQ(status_of(one_more.all()), 503);
  EXPECT_EQ(running_.client()->Get("/api/status")->status, 200);
}

}  // namespace
}  // namespace barm::test
