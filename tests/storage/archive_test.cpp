#include "storage/archive.h"

#include <gmock/gmock.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "../support/matchers.h"
#include "../support/memory.h"
#include "daybooks.h"
#include "storage/internal/csv.h"
#include "storage/internal/stb.h"
#include "storage/internal/tables.h"
#include "storage/internal/zip.h"
#include "storage/record_json.h"

namespace barm::storage::test {

namespace {

using barm::test::FailsWith;
using barm::test::Holds;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

std::string a_jpeg() {
  std::string bytes;
  const std::vector<unsigned char> pixels(3 * 50 * 40, 90);
  stbi_write_jpg_to_func(
      [](void* to, void* data, int size) {
        static_cast<std::string*>(to)->append(static_cast<const char*>(data),
                                              static_cast<std::size_t>(size));
      },
      &bytes,
      50,
      40,
      3,
      pixels.data(),
      90);
  return bytes;
}

// Something of every kind, with texts that try to break out of CSV, JSON and a spreadsheet.
void fill(Daybook& daybook) {
  ASSERT_THAT(daybook.save(a_culture("c"), noon), Holds());
  Bake bake = a_bake("b", "Mead loaf, \"half\" & half / ..");
  bake.tags = {"=1+1", "a,b", ""};
  bake.tags.pop_back();
  bake.culture = "c";
  auto kept = daybook.save(bake, noon);
  ASSERT_THAT(kept, Holds());
  kept->toml += "pieces = 4\n";
  ASSERT_THAT(daybook.save(*kept, noon + 60), Holds());
  ASSERT_THAT(daybook.save(a_bake("gone"), noon), Holds());
  ASSERT_THAT(daybook.remove(Kind::bake, "gone", 0, noon), Holds());
  const char* remarks[] = {"=cmd|' /C calc'!A0",
                           "+1",
                           "-1",
                           "@sum",
                           "'quoted",
                           "\ttab",
                           "two\r\nlines",
                           "a \"quote\", a comma",
                           " blanks ",
                           "ünï",
                           ""};
  int i = 0;
  for (const char* remark : remarks) {
    ReadingRecord reading = a_reading("r" + std::to_string(i), "b", 50 + 0.1 * i);
    reading.remark = remark;
    reading.ratio = 1 + 1.0 / (1 + i);
    ++i;
    ASSERT_THAT(daybook.save(reading, noon), Holds());
  }
  Feeding feeding;
  feeding.culture = "c";
  feeding.at = noon;
  feeding.flour_g = 100;
  ASSERT_THAT(daybook.save(feeding, noon), Holds());
  Loaf loaf;
  loaf.id = "l";
  loaf.bake = "b";
  loaf.baked_at = noon;
  loaf.scores = {{"crumb", 4.5}};
  ASSERT_THAT(daybook.save(loaf, noon), Holds());
  ASSERT_THAT(daybook.save(a_bottle("o"), noon), Holds());
  ASSERT_THAT(daybook.save(an_oven("deck"), noon), Holds());
  Setting setting;
  setting.id = "weight_unit";
  setting.value = "oz";
  ASSERT_THAT(daybook.save(setting, noon), Holds());
  Photo photo;
  photo.id = "p";
  photo.loaf = "l";
  photo.taken_at = noon;
  ASSERT_THAT(daybook.add_photo(photo, a_jpeg(), noon), Holds());
}

class Archive : public testing::Test {
 protected:
  void SetUp() override {
    auto opened = Daybook::open(folder_ / "daybook.barm", {.create = true});
    ASSERT_THAT(opened, Holds());
    daybook_.emplace(std::move(*opened));
    fill(*daybook_);
    ASSERT_THAT(export_to(*daybook_, zip(), noon), Holds());
  }

  [[nodiscard]] std::string zip() const { return folder_ / "daybook.zip"; }

  // The export once more, with some of its files changed; an empty text leaves a file out.
  std::string changed(const std::map<std::string, std::string>& changes) {
    static int number = 0;
    const std::string path = folder_ / ("changed" + std::to_string(++number) + ".zip");
    const auto original = internal::ZipReader::open(zip());
    EXPECT_THAT(original, Holds());
    auto writer = internal::ZipWriter::make(path, noon);
    EXPECT_THAT(writer, Holds());
    const std::vector<std::string> all{"daybook.json",
                                       "setting.json",
                                       "scale.csv",
                                       "culture.json",
                                       "feeding.csv",
                                       "bottle.csv",
                                       "bake.json",
                                       "reading.csv",
                                       "mark.csv",
                                       "loaf.json",
                                       "remark.csv",
                                       "photo.csv",
                                       "test_bake.json",
                                       "test_member.json",
                                       "equipment.json",
                                       "photos/p.jpg",
                                       "photos/p-small.jpg",
                                       "bakes/mead-loaf-half-half-b.toml",
                                       "bakes/marsh-loaf-gone.toml",
                                       "bakes/versions/b/1.toml"};
    for (const std::string& name : all) {
      const auto found = changes.find(name);
      const auto text = original->read(name, 1U << 20U);
      EXPECT_THAT(text, Holds()) << name;
      const std::string content = found == changes.end() ? *text : found->second;
      if (!content.empty()) writer->add(name, [content] { return content; });
    }
    for (const auto& [name, text] : changes) {
      if (!original->holds(name)) writer->add(name, [text = text] { return text; });
    }
    EXPECT_THAT(writer->close(), Holds());
    return path;
  }

  std::string text_of(const std::string& name) {
    const auto reader = internal::ZipReader::open(zip());
    EXPECT_THAT(reader, Holds());
    return reader->read(name, 1U << 20U).value_or("");
  }

  Result<std::string> imported(const std::string& from) {
    std::filesystem::remove(folder_ / "again.barm");
    return import_from(from, folder_ / "again.barm");
  }

  void expect_refused(const std::string& from, const std::string& words) {
    const auto refused = imported(from);
    ASSERT_THAT(refused, FailsWith(ErrorCode::bad_input));
    EXPECT_THAT(refused.error().text(), HasSubstr(words));
    for (const auto& entry : std::filesystem::directory_iterator(folder_.path()))
      EXPECT_THAT(entry.path().string(), Not(HasSubstr("again.barm"))) << "left behind";
  }

  Folder folder_;
  std::optional<Daybook> daybook_;
};

// The fuzzers' corpus has one that an older program wrote.
TEST(ArchiveOfBefore, KnowsNoEquipmentAndIsImported) {
  const Folder folder;
  const std::string path = folder / "again.barm";
  ASSERT_THAT(import_from(BARM_TEST_DATA "/fuzz/import_corpus/demo.zip", path), Holds());
  auto daybook = Daybook::open(path);
  ASSERT_THAT(daybook, Holds());
  EXPECT_GT(*daybook->count(Kind::bake), 0);
  EXPECT_EQ(*daybook->count(Kind::equipment), 0);
}

TEST_F(Archive, ComesBackEqual) {
  ASSERT_THAT(imported(zip()), Holds());
  auto again = Daybook::open(folder_ / "again.barm");
  ASSERT_THAT(again, Holds());
  const auto different = differences(*daybook_, *again);
  ASSERT_THAT(different, Holds());
  EXPECT_THAT(*different, IsEmpty());
  EXPECT_THAT(*again->check(), IsEmpty());
  EXPECT_EQ(again->trash()->size(), 1U);
  // The comparison itself sees a difference of one field, version or picture.
  ReadingRecord reading = *again->get<ReadingRecord>("r3");
  reading.remark += ".";
  ASSERT_THAT(again->save(reading, noon), Holds());
  EXPECT_THAT(*differences(*daybook_, *again), testing::ElementsAre("reading r3 is not the same"));
}

TEST_F(Archive, IsWrittenForPeopleToo) {
  EXPECT_EQ(text_of("bakes/mead-loaf-half-half-b.toml"),
            a_bake("b", "Mead loaf, \"half\" & half / ..").toml + "pieces = 4\n");
  EXPECT_THAT(text_of("reading.csv"),
              HasSubstr("id,revision,saved_at,deleted_at,bake,at,height_mm"));
  EXPECT_THAT(text_of("READ-ME.txt"), HasSubstr("daybook"));
  EXPECT_THAT(export_to(*daybook_, zip(), noon), FailsWith(ErrorCode::bad_input)) << "is there";
}

std::vector<internal::Row> csv_rows(const std::string& text, const std::string& file) {
  std::vector<internal::Row> rows;
  EXPECT_THAT(internal::read_csv(text,
                                 file,
                                 [&](const internal::Row& row) -> Result<bool> {
                                   rows.push_back(row);
                                   return true;
                                 }),
              Holds());
  return rows;
}

// What a spreadsheet would run: a cell whose text begins with one of these.
TEST_F(Archive, NoCellOfATableIsAFormula) {
  for (const char* table : {"reading.csv", "bottle.csv", "feeding.csv", "photo.csv"}) {
    for (const internal::Row& row : csv_rows(text_of(table), table)) {
      for (const std::string& cell : row.cells) {
        if (cell.empty()) continue;
        EXPECT_EQ(std::string("=+-@\t\r").find(cell[0]), std::string::npos)
            << table << ": " << cell;
      }
    }
  }
}

TEST_F(Archive, RefusesWhatIsBrokenOrMeantToHarm) {
  std::ofstream(folder_ / "no.zip") << "no zip at all";
  expect_refused(folder_ / "no.zip", "is no zip");
  EXPECT_THAT(imported(folder_ / "none.zip"), FailsWith(ErrorCode::not_found));
  expect_refused(changed({{"../../evil.toml", "x"}}), "leaves it");
  expect_refused(changed({{"/etc/evil", "x"}}), "leaves it");
  expect_refused(changed({{"a\\..\\evil", "x"}}), "leaves it");
  expect_refused(changed({{"reading.csv", ""}}), "reading.csv  is missing");
  expect_refused(changed({{"daybook.json", "{}"}}), "is no export");
  expect_refused(changed({{"daybook.json", "[1"}}), "is no JSON");
  expect_refused(changed({{"photos/p.jpg", "<script>"}}), "is no JPEG");
  expect_refused(changed({{"bake.json", "[]"}}), "bake");
  expect_refused(changed({{"setting.json", "[{\"id\": 4}]"}}), "id");
  expect_refused(changed({{"setting.json", "{}"}}), "is a list");
  expect_refused(changed({{"reading.csv", "id,evil\r\nx,1\r\n"}}), "'evil' is no column");
  expect_refused(
      changed({{"reading.csv", "id,revision,bake,at,ph\r\nx,1,b,2026-11-29T12:00Z,1e999\r\n"}}),
      "reading.csv:2 ph");
  expect_refused(
      changed({{"reading.csv", "id,revision,bake,at,ph\r\nx,1,nowhere,2026-11-29T12:00Z,4\r\n"}}),
      "there is no bake 'nowhere'");
  expect_refused(changed({{"reading.csv", "id,ph\r\n\"x"}}), "a quote does not end");
}

std::string repeated(std::size_t times, const std::string& part) {
  std::string text;
  text.reserve(times * part.size());
  for (std::size_t i = 0; i < times; ++i) text += part;
  return text;
}

TEST_F(Archive, RefusesAMillionBrackets) {
  const std::string brackets(1000000, '[');
  const std::string closed = brackets + std::string(1000000, ']');
  for (const char* file : {"daybook.json", "bake.json", "setting.json", "test_bake.json"}) {
    expect_refused(changed({{file, brackets.substr(0, 900000)}}), "nested deeper than 16");
    expect_refused(changed({{file, "[" + closed.substr(600000, 800000) + "]"}}), "deeper than 16");
  }
  expect_refused(changed({{"bake.json", "[{\"versions\": " + closed + "}]"}}), "deeper than 16");
}

TEST_F(Archive, TakesNoMoreMemoryThanTheTextOfATable) {
  constexpr std::size_t size = 50000000;
  const std::map<std::string, std::string> hostile{
      {"setting.json", "[[" + repeated(size / 2, "0,") + "0]]"},
      {"culture.json", "[" + repeated(size / 3, "[],") + "[]]"},
      {"reading.csv", repeated(size, ",")},
      {"mark.csv", "id\r\n" + repeated(size / 3, "a\r\n")},
  };
  for (const auto& [file, text] : hostile) {
    const std::string zip_file = changed({{file, text}});
    ASSERT_LT(std::filesystem::file_size(zip_file), 1000000U);
    const long most = barm::test::memory_taken_by(
        [&] { static_cast<void>(import_from(zip_file, folder_ / "again.barm")); });
    EXPECT_GT(most, 0) << file;
    EXPECT_LT(most, static_cast<long>(3 * size / 2)) << file;
    EXPECT_FALSE(std::filesystem::exists(folder_ / "again.barm")) << file;
  }
}

TEST_F(Archive, RefusesRevisionsAndSizesThatCannotBe) {
  const std::string bakes = text_of("bake.json");
  const auto with = [&](const std::string& old, const std::string& text) {
    std::string out = bakes;
    const std::size_t at = out.find(old);
    EXPECT_NE(at, std::string::npos) << old;
    return out.replace(at, old.size(), text);
  };
  const std::string revision =
      "\"revision\": 2,\n  \"saved_at\": \"2026-11-29T12:01:00Z\",\n  \"state\"";
  expect_refused(changed({{"bake.json",
                           with(revision,
                                "\"revision\": 9223372036854775807, \"saved_at\": "
                                "\"2026-11-29T12:01:00Z\", \"state\"")}}),
                 "b revision");
  expect_refused(changed({{"bake.json", with("\"revision\": 1,", "\"revision\": 0,")}}),
                 "revision");
  expect_refused(changed({{"bake.json", with("\"revision\": 1,", "\"revision\": 3,")}}),
                 "revision");
  expect_refused(
      changed({{"reading.csv",
                "id,revision,bake,at,ph\r\nx,9223372036854775807,b,2026-11-29T12:00Z,4\r\n"}}),
      "x revision");
  std::string photos = text_of("photo.csv");
  const std::size_t size = photos.find(",50,40,");
  ASSERT_NE(size, std::string::npos);
  expect_refused(changed({{"photo.csv", photos.replace(size, 7, ",60,40,")}}), "50 x 40 pixels");
}

TEST_F(Archive, RefusesATableThatUnpacksToFarTooMuch) {
  auto writer = internal::ZipWriter::make(folder_ / "bomb.zip", noon);
  ASSERT_THAT(writer, Holds());
  writer->add("daybook.json", [] { return std::string(std::size_t{300} << 20U, ' '); });
  ASSERT_THAT(writer->close(), Holds());
  ASSERT_LT(std::filesystem::file_size(folder_ / "bomb.zip"), 1U << 20U);
  expect_refused(folder_ / "bomb.zip", "is larger than");
}

TEST_F(Archive, DoesNotGoOverADaybookThatIsThere) {
  EXPECT_THAT(import_from(zip(), folder_ / "daybook.barm"), FailsWith(ErrorCode::bad_input));
  EXPECT_EQ(*daybook_->count(Kind::bake), 1);
}

TEST(Csv, TextsComeBackAsTheyWere) {
  for (const char* text :
       {"", "plain", "=1", "'", "''=", "-", "a,b", "\"", "\r\n", " x ", "@", "ü"}) {
    const auto rows = csv_rows("x," + internal::text_cell(text) + "\r\n", "t.csv");
    ASSERT_EQ(rows.size(), 1U) << text;
    EXPECT_EQ(internal::text_of_cell(rows[0].cells[1]), text);
  }
}

TEST(Csv, NumbersComeBackToTheLastDigit) {
  std::vector<ReadingRecord> readings;
  for (const double value : {0.1, 1.0 / 3, 1e-300, 123456789.123456789, 5e-324}) {
    readings.push_back(a_reading("r", "b", value));
    readings.back().room_C = -value;
  }
  std::vector<ReadingRecord> back;
  ASSERT_THAT(
      internal::from_csv<ReadingRecord>(internal::to_csv(readings),
                                        "t.csv",
                                        [&](const ReadingRecord& one) { back.push_back(one); }),
      Holds());
  EXPECT_EQ(back, readings);
}

TEST(RecordJson, ComesBackAndNamesTheFieldThatIsWrong) {
  const ReadingRecord reading = a_reading("r", "b", 61.5);
  EXPECT_EQ(*from_json<ReadingRecord>(to_json(reading)), reading);
  EXPECT_EQ(*from_json<Bottle>(to_json(a_bottle("o"))), a_bottle("o"));
  const auto where = [](const char* text) {
    const auto refused = from_json<ReadingRecord>(nlohmann::json::parse(text));
    return refused ? "accepted" : refused.error().where;
  };
  EXPECT_EQ(where(R"({"height_mm": "84"})"), "height_mm");
  EXPECT_EQ(where(R"({"at": "yesterday"})"), "at");
  EXPECT_EQ(where(R"({"revision": 1.5})"), "revision");
  EXPECT_EQ(where(R"({"revision": 18446744073709551615})"), "revision");
  EXPECT_EQ(where(R"({"colour": "red"})"), "colour");
  EXPECT_EQ(where(R"([])"), "reading");
  EXPECT_EQ(where(R"({"height_mm": null})"), "accepted");
}

}  // namespace

}  // namespace barm::storage::test
