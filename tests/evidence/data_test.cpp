// data/evidence/ is as whole as all data: known columns, units, sources, every askable row asked
// once; and a mistake in it is told with file and line.
#include <gmock/gmock.h>

#include <set>
#include <string>

#include "support/evidence_asked.h"
#include "support/evidence_bakes.h"
#include "support/evidence_doses.h"
#include "support/evidence_rows.h"

namespace barm::test {

namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::ThrowsMessage;

const std::string folder = std::string(BARM_ROOT) + "/data/evidence";

std::string measured() { return evidence_text(folder, "measured.csv"); }

EvidenceRows rows() { return evidence_rows(folder); }

// The text with the first `what` after `from` changed; it must be there.
std::string changed(std::string text,
                    const std::string& from,
                    const std::string& what,
                    const std::string& to) {
  const std::size_t at = text.find(what, text.find(from));
  if (at == std::string::npos) throw std::runtime_error("no " + what);
  return text.replace(at, what.size(), to);
}

void expect_refused(const std::string& text, const std::string& place, const std::string& why) {
  EXPECT_THAT([&] { evidence_rows(text, "measured.csv", evidence_sources(folder)); },
              ThrowsMessage<std::runtime_error>(AllOf(HasSubstr(place), HasSubstr(why))));
}

int line_of(const std::string& text, const std::string& what) {
  return 1 + static_cast<int>(std::count(
                 text.begin(), text.begin() + static_cast<std::ptrdiff_t>(text.find(what)), '\n'));
}

std::string place(const std::string& text, const std::string& what) {
  return "measured.csv:" + std::to_string(line_of(text, what)) + ":";
}

TEST(Evidence, EveryRowIsWholeAndMarked) {
  const EvidenceRows all = rows();
  EXPECT_EQ(all.size(), 234U);
  std::set<std::string> sources;
  std::size_t askable = 0;
  for (const EvidenceRow& row : all) {
    if (row.use != Use::askable) continue;
    ++askable;
    sources.insert(row.source);
  }
  EXPECT_EQ(askable, 71U);
  EXPECT_GE(sources.size(), 10U);
}

TEST(Evidence, EveryAskableRowIsAskedOnce) {
  const EvidenceRows all = rows();
  const auto asks = evidence_asks(folder, all);
  std::size_t asked = 0;
  for (const Ask& ask : asks) {
    for (const Asked& one : ask.answers) asked += one.rows.size();
  }
  EXPECT_EQ(asked, 71U);
}

TEST(Evidence, AnUnknownColumnIsToldWithItsLine) {
  const std::string text = measured();
  expect_refused(changed(text, "id,use", "hydration,", "wetness,"),
                 place(text, "id,use"),
                 "unknown column 'wetness'; the columns are id, use");
}

TEST(Evidence, AMissingUnitIsToldWithItsLine) {
  const std::string text = measured();
  expect_refused(changed(text, "\nE401,", ",pH,", ",,"), place(text, "E401,"), "unit is missing");
}

TEST(Evidence, AnUnknownSourceIsToldWithItsLine) {
  const std::string text = measured();
  expect_refused(changed(text, "\nE401,", "sourdough_counts", "hearsay"),
                 place(text, "E401,"),
                 "unknown source 'hearsay'; it is to stand in data/sources.toml");
}

TEST(Evidence, AnUnknownMarkIsToldWithItsLine) {
  const std::string text = measured();
  expect_refused(changed(text, "\nE401,", "askable", "nice"),
                 place(text, "E401,"),
                 "use is askable, parameter-only or words, not 'nice'");
}

TEST(Evidence, WhatIsMeasuredOnceCountsOnce) {
  const std::string text = measured();
  expect_refused(changed(text, "\nE401,", "E401,askable,,", "E401,askable,E411,"),
                 place(text, "E401,"),
                 "not askable");
  expect_refused(changed(text, "\nE147,", "E145", "E999"),
                 place(text, "E147,"),
                 "same_as names 'E999', which is not there");
}

TEST(Evidence, ARowAskedTwiceOrNeverIsRefused) {
  const EvidenceRows all = rows();
  const std::string asked = evidence_text(folder, "asked.toml");
  const auto ask = [&](const std::string& text) {
    return [&all, text] { evidence_asks(text, "asked.toml", all); };
  };
  EXPECT_THAT(ask(changed(asked, "E401", "E401", "E402")),
              ThrowsMessage<std::runtime_error>(HasSubstr("row E402 is asked twice")));
  EXPECT_THAT(ask(changed(asked, "E232", "E232", "E230")),
              ThrowsMessage<std::runtime_error>(HasSubstr("row E230 is not askable")));
  EXPECT_THAT(ask(changed(asked, "drawn.fed", "fed", "feeding")),
              ThrowsMessage<std::runtime_error>(HasSubstr("nothing is drawn for {fed}")));
}

TEST(Evidence, CurvesHaveTheirColumnsAndNumbers) {
  EXPECT_GT(evidence_curve(evidence_text(folder, "curves_landis2021.csv"),
                           "curves_landis2021.csv",
                           {"tube", "starter", "replicate", "time_h", "rise_px"})
                .size(),
            2000U);
  EXPECT_GT(evidence_curve(evidence_text(folder, "curves_trivellin2024.csv"),
                           "curves_trivellin2024.csv",
                           {"strain", "condition", "time_h", "green_value"})
                .size(),
            3000U);
}

TEST(OrdinaryBakes, AreReadAndEachIsExpectedToDoSomething) {
  const auto all = expected_bakes(evidence_text(folder, "bakes.csv"), "bakes.csv", folder);
  std::set<std::string> bakes;
  for (const Expected& one : all) bakes.insert(one.bake);
  EXPECT_GE(bakes.size(), 30U);
  for (const std::string& name : bakes) {
    const auto bake = formula::parse_bake(evidence_text(folder, "bakes/" + name + ".toml"), name);
    EXPECT_TRUE(bake) << name;
  }
}

TEST(OrdinaryBakes, AnExpectationOfNoBakeIsRefused) {
  const std::string text = evidence_text(folder, "bakes.csv");
  EXPECT_THAT(
      [&] {
        expected_bakes(changed(text, "white-stiff", "white-stiff", "waffle"), "bakes.csv", folder);
      },
      ThrowsMessage<std::runtime_error>(
          AllOf(HasSubstr("bakes.csv:"), HasSubstr("no bake 'waffle'"))));
}

TEST(Doses, AreReadAndBadOnesRefused) {
  const std::string text = evidence_text(folder, "doses.toml");
  EXPECT_EQ(dose_sweeps(text, "doses.toml").size(), 6U);
  EXPECT_THAT([&] { dose_sweeps(changed(text, "[[dose]]", "step = 1", "step = 0"), "doses.toml"); },
              ThrowsMessage<std::runtime_error>(HasSubstr("three doses at least")));
}

}  // namespace

}  // namespace barm::test
