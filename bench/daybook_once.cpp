// daybook_once make FILE: a daybook of 2 000 bakes and 200 000 readings.
// daybook_once look FILE: opens it and lists it, and says how long each took [ms].
// daybook_once list FILE LIMIT: opens it and prints the newest bakes, one a line.
#include <fmt/format.h>

#include <chrono>
#include <fstream>
#include <sstream>
#include <string>

#include "storage/daybook.h"

using namespace barm::storage;

namespace {

constexpr int bakes = 2000;
constexpr int readings_of_each = 100;
constexpr barm::time::Instant begin{1700000000};

template <class T>
T must(barm::Result<T> result) {
  if (result) return std::move(*result);
  fmt::print(stderr, "{}\n", result.error().text());
  std::exit(1);
}

std::string example(const std::string& name) {
  std::ostringstream text;
  text << std::ifstream("examples/" + name + ".toml").rdbuf();
  return text.str();
}

// Every third is a mead loaf, of the mead trial by its file's own note.
bool is_mead(int b) { return b % 3 == 0; }

int make(const std::string& file) {
  const std::string mead = example("mead-loaf");
  const std::string plain = example("plain-loaf");
  Daybook daybook = must(Daybook::open(file, {.create = true}));
  for (int b = 0; b < bakes; ++b) {
    Bake bake;
    bake.id = fmt::format("bake-{}", b);
    bake.title = fmt::format("{} loaf {}", is_mead(b) ? "Mead" : "Plain", b);
    bake.tags = {b % 2 == 0 ? "trial" : "every day"};
    bake.toml = is_mead(b) ? mead : plain;
    bake.state = "finished";
    bake.mixed_at = begin + b * 14400L;
    must(daybook.save(bake, begin));
    std::vector<ReadingRecord> readings;
    for (int r = 0; r < readings_of_each; ++r) {
      ReadingRecord reading;
      reading.id = fmt::format("reading-{}-{}", b, r);
      reading.bake = bake.id;
      reading.at = *bake.mixed_at + r * 300L;
      reading.height_mm = 50 + 0.5 * r;
      reading.sample_C = 24;
      readings.push_back(reading);
    }
    must(daybook.save_all(std::move(readings), begin));
  }
  return 0;
}

// Milliseconds that f takes.
template <class F>
double timed(F f) {
  const auto start = std::chrono::steady_clock::now();
  f();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
      .count();
}

int look(const std::string& file) {
  std::optional<Daybook> daybook;
  const double open = timed([&] { daybook.emplace(must(Daybook::open(file))); });
  std::size_t found = 0;
  const auto list = [&](const Query& query) {
    return timed([&] { found += must(daybook->list_bakes(query)).size(); });
  };
  Query first;
  first.limit = 100;
  Query words;
  words.text = "mead trial";
  Query of_bake;
  of_bake.owner = "bake-1000";
  fmt::print(
      "{:.2f} {:.2f} {:.2f} {:.2f} {:.2f}\n", open, list(first), list({}), list(words), timed([&] {
        found += must(daybook->list<ReadingRecord>(of_bake)).size();
      }));
  constexpr int mead_loaves = (bakes + 2) / 3;
  return found == 100 + bakes + mead_loaves + readings_of_each ? 0 : 1;
}

int list(const std::string& file, std::size_t limit) {
  Daybook daybook = must(Daybook::open(file));
  Query query;
  query.limit = limit;
  const auto lines = must(daybook.list_bakes(query));
  for (const BakeLine& line : lines) {
    fmt::print("{}|{}|{}|{}|{}\n",
               line.bake.id,
               line.bake.title,
               line.bake.state,
               line.bake.mixed_at->seconds,
               line.readings);
  }
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  const std::string what = argc >= 3 ? argv[1] : "";
  if (what == "list" && argc == 4) return list(argv[2], std::stoul(argv[3]));
  if (what == "make") return make(argv[2]);
  if (what == "look") return look(argv[2]);
  fmt::print(stderr, "daybook_once make|look FILE, list FILE LIMIT\n");
  return 64;
}
