#include "server/door/page.h"

#include <gmock/gmock.h>

#include "server/door/problem.h"
#include "server/running.h"

namespace barm::test {
namespace {

using server::page_file;
using server::Reply;
using server::Request;
using testing::HasSubstr;

std::string header(const Reply& reply, const std::string& name) {
  for (const auto& [key, value] : reply.headers) {
    if (key == name) return value;
  }
  return "";
}

Request get(const std::string& path) {
  Request request;
  request.method = "GET";
  request.path = path;
  return request;
}

TEST(Page, IsThereForEveryPlaceOfItsOwn) {
  const Reply root = page_file(get("/"));
  EXPECT_THAT(root.type, HasSubstr("text/html"));
  EXPECT_EQ(page_file(get("/bakes/7")).body, root.body);
  EXPECT_THROW((void)page_file(get("/nothing.js")), server::Refused);
}

TEST(Page, IsNotSentAgainToWhoHasIt) {
  const std::string tag = header(page_file(get("/")), "ETag");
  ASSERT_THAT(tag, testing::MatchesRegex("\"[0-9a-f]{24}\""));
  Request again = get("/");
  again.headers["if-none-match"] = tag;
  EXPECT_EQ(page_file(again).status, 304);
  EXPECT_EQ(page_file(again).body, "");
  again.headers["if-none-match"] = "\"another\"";
  EXPECT_EQ(page_file(again).status, 200);
}

TEST(Page, IsAskedForAnewWhereItsNameHasNoDigest) {
  EXPECT_EQ(header(page_file(get("/")), "Cache-Control"), "no-cache");
}

// What a browser has to fetch is there, of the right type, and packed for who takes it.
TEST(Page, HasTheFilesThatItNames) {
  const std::string html = page_file(get("/")).body;
  int found = 0;
  for (const std::string attribute : {"src=\"", "href=\""}) {
    for (std::size_t at = html.find(attribute); at != std::string::npos;
         at = html.find(attribute, at + 1)) {
      const std::size_t begin = at + attribute.size();
      std::string path = html.substr(begin, html.find('"', begin) - begin);
      if (path.starts_with("./")) path = path.substr(1);
      if (!path.starts_with('/') || path.starts_with("/api/")) continue;
      ++found;
      Request request = get(path);
      request.headers["accept-encoding"] = "gzip, br";
      const Reply reply = page_file(request);
      EXPECT_EQ(reply.status, 200) << path;
      EXPECT_NE(reply.type, "application/octet-stream") << path;
      if (path.starts_with("/assets/")) {
        EXPECT_THAT(header(reply, "Cache-Control"), HasSubstr("immutable")) << path;
      }
      if (header(reply, "Content-Encoding") == "gzip") {
        EXPECT_EQ(reply.body.substr(0, 2), "\x1f\x8b") << path;
      }
    }
  }
  EXPECT_GT(found, 0);
}

TEST(PageOverTheWire, IsSentWholeToHeadAndRange) {
  const Running running;
  const auto client = running.client();
  const auto whole = client->Get("/");
  const auto head = client->Head("/");
  ASSERT_TRUE(head);
  EXPECT_EQ(head->status, 200);
  EXPECT_EQ(head->body, "");
  const auto range = client->Get("/", {{"Range", "bytes=0-3,5-9"}});
  EXPECT_EQ(range->status, 200);
  EXPECT_EQ(range->body, whole->body);
}

}  // namespace
}  // namespace barm::test
