// A request in whatever pieces it comes.
#include "server/wire/internal/incoming.h"

#include <gmock/gmock.h>
#include <zlib.h>

#include <random>
#include <string>
#include <vector>

#include "server/wire/internal/outgoing.h"

namespace barm::test {
namespace {

using server::Request;
using server::internal::Incoming;
using testing::HasSubstr;
using testing::Not;
using State = Incoming::State;

/// Gives the bytes in pieces of so many until the request is whole or wrong.
State given(Incoming& incoming, const std::string& text, std::size_t piece, std::string& left) {
  State state = State::more;
  left.clear();
  for (std::size_t at = 0; at < text.size(); at += piece) {
    left += text.substr(at, piece);
    state = incoming.take(left);
    if (state == State::head) {
      incoming.allow(1000);
      state = incoming.take(left);
    }
    if (state != State::more) {
      left += text.substr(std::min(text.size(), at + piece));
      return state;
    }
  }
  return state;
}

TEST(Incoming, IsTheSameInWhateverPiecesItComes) {
  const std::string next = "GET /next HTTP/1.1\r\n\r\n";
  for (const std::string& body :
       {std::string("Content-Length: 11\r\n\r\nhello there"),
        std::string(
            "Transfer-Encoding: chunked\r\n\r\n5\r\nhello\r\n6;x=1\r\n there\r\n0\r\n\r\n")}) {
    for (std::size_t piece = 1; piece < 120; ++piece) {
      Incoming incoming;
      std::string left;
      const std::string text =
          "POST /api/b%20x?a=1+2&b&a=3#f HTTP/1.1\r\nHost: marsh\r\n" + body + next;
      ASSERT_EQ(given(incoming, text, piece, left), State::whole) << piece;
      const Request& request = incoming.request();
      EXPECT_EQ(request.method, "POST");
      EXPECT_EQ(request.path, "/api/b x");
      EXPECT_EQ(request.asked("a"), "1 2") << "the first counts";
      EXPECT_TRUE(request.query.contains("b"));
      EXPECT_EQ(request.header("host"), "marsh");
      EXPECT_EQ(request.body, "hello there");
      EXPECT_EQ(left, next) << "nothing of the next request is taken";
    }
  }
}

TEST(Incoming, TakesNoMoreThanItMay) {
  const std::string head = "POST / HTTP/1.1\r\n";
  for (const std::string& text :
       {head + "Transfer-Encoding: chunked\r\n\r\n3e9\r\n" + std::string(1001, 'a') +
            "\r\n0\r\n\r\n",
        head + "Transfer-Encoding: chunked\r\n\r\n1f4\r\n" + std::string(500, 'a') + "\r\n1f5\r\n" +
            std::string(501, 'a') + "\r\n0\r\n\r\n"}) {
    Incoming incoming;
    std::string left;
    ASSERT_EQ(given(incoming, text, 7, left), State::wrong);
    EXPECT_EQ(incoming.refusal().status, 413);
  }
  Incoming endless;
  std::string left;
  EXPECT_EQ(given(endless,
                  head + "Transfer-Encoding: chunked\r\n\r\n1;" + std::string(100'000, 'x'),
                  1000,
                  left),
            State::wrong)
      << "a chunk's line without an end";
}

// Requests with bytes changed, taken out and put in at random: read or refused, and the same in
// whatever pieces they come.
TEST(Incoming, OfAnyBytesIsReadOrRefused) {
  const std::vector<std::string> seeds = {
      "GET /api/larder?words=mead HTTP/1.1\r\nHost: marsh:8410\r\nConnection: close\r\n\r\n",
      "POST /api/bowl HTTP/1.1\r\nHost: marsh\r\nContent-Length: 12\r\n\r\n{\"bake\": \"\"}",
      "PUT /a HTTP/1.0\r\nTransfer-Encoding: chunked\r\n\r\n4\r\nwine\r\n0\r\nTrailer: x\r\n\r\n"};
  const std::string odd("\0\r\n:;, %0aZ\xff\t", 13);
  std::mt19937 random(7);
  const auto below = [&](std::size_t count) {
    return std::uniform_int_distribution<std::size_t>(0, count - 1)(random);
  };
  int whole = 0;
  int wrong = 0;
  for (int round = 0; round < 20'000; ++round) {
    std::string text = seeds[below(seeds.size())];
    for (std::size_t edits = below(4); edits > 0; --edits) {
      const std::size_t at = below(text.size());
      switch (below(3)) {
        case 0:
          text[at] = odd[below(odd.size())];
          break;
        case 1:
          text.erase(at, 1 + below(3));
          break;
        default:
          text.insert(at, 1, odd[below(odd.size())]);
      }
    }
    Incoming at_once;
    Incoming in_pieces;
    std::string left;
    const State state = given(at_once, text, text.size(), left);
    // A head that is wrong may be found out before its end or at it.
    ASSERT_EQ(given(in_pieces, text, 1 + below(9), left) == State::whole, state == State::whole)
        << text;
    if (state == State::wrong) {
      ++wrong;
      EXPECT_GE(at_once.refusal().status, 400) << text;
      EXPECT_LT(at_once.refusal().status, 500) << text;
    }
    if (state != State::whole) continue;
    ++whole;
    EXPECT_EQ(at_once.request().body, in_pieces.request().body) << text;
    EXPECT_EQ(at_once.request().path, in_pieces.request().path) << text;
    EXPECT_LE(at_once.request().body.size(), 1000U);
  }
  EXPECT_GT(whole, 5000);
  EXPECT_GT(wrong, 2000);
}

TEST(Incoming, ReadsPercentSignsAsTheyStand) {
  Request request;
  server::internal::read_target("/a%2Fb%zz%4", request);
  EXPECT_EQ(request.path, "/a/b%zz%4");
}

TEST(Outgoing, HasEveryReplyInOneForm) {
  server::Reply reply;
  reply.body = "{}";
  reply.with("X-Own", "1");
  const auto bytes = server::internal::bytes_of(reply, {.close = true});
  EXPECT_THAT(bytes.head, testing::StartsWith("HTTP/1.1 200 OK\r\nDate: "));
  EXPECT_THAT(bytes.head, HasSubstr(" GMT\r\n"));
  EXPECT_THAT(bytes.head, HasSubstr("X-Own: 1\r\n"));
  EXPECT_THAT(bytes.head, HasSubstr("Content-Length: 2\r\n"));
  EXPECT_THAT(bytes.head, testing::EndsWith("Connection: close\r\n\r\n"));
  EXPECT_EQ(bytes.body, "{}");
  const auto of_head = server::internal::bytes_of(reply, {.no_body = true});
  EXPECT_THAT(of_head.head, HasSubstr("Content-Length: 2\r\n"));
  EXPECT_EQ(of_head.body, "");
  reply.status = 204;
  EXPECT_THAT(server::internal::bytes_of(reply, {}).head, Not(HasSubstr("Content-")));
}

TEST(Outgoing, PacksSoThatItCanBeUnpacked) {
  for (const std::size_t size : {std::size_t{0}, std::size_t{1}, std::size_t{3'000'000}}) {
    std::string text(size, ' ');
    for (std::size_t i = 0; i < size; ++i) text[i] = static_cast<char>(i * i % 251);
    const std::string packed = server::internal::packed(text);
    std::string back(size + 1, '\0');
    z_stream gzip{};
    ASSERT_EQ(inflateInit2(&gzip, 15 + 16), Z_OK);
    std::string in = packed;
    gzip.next_in = reinterpret_cast<Bytef*>(in.data());
    gzip.avail_in = static_cast<uInt>(in.size());
    gzip.next_out = reinterpret_cast<Bytef*>(back.data());
    gzip.avail_out = static_cast<uInt>(back.size());
    EXPECT_EQ(inflate(&gzip, Z_FINISH), Z_STREAM_END);
    back.resize(gzip.total_out);
    inflateEnd(&gzip);
    EXPECT_EQ(back, text);
  }
}

}  // namespace
}  // namespace barm::test
