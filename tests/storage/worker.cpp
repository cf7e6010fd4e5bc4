// daybook_worker: a program for the tests to kill at any moment.
//   write FILE NAME COUNT  opens the daybook (makes it when there is none), saves COUNT readings of
//   one bake and says the id of
//                          each, once it is acknowledged
//   hold FILE              opens it as any program with SQLite does, reads a little, says "open"
//   and waits for its end restore COPY FILE      puts the copy in the place of the daybook
#include <sqlite3.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <span>
#include <string>
#include <vector>

#include "storage/daybook.h"

using barm::storage::Bake;
using barm::storage::Daybook;
using barm::storage::ReadingRecord;
using Words = std::span<const std::string>;

namespace {

constexpr barm::time::Instant noon{1795953600};
constexpr int misused = 2;

int fail(const barm::Error& error) {
  std::fprintf(stderr, "%s\n", error.text().c_str());
  return 1;
}

void say(const std::string& word) {
  const std::string line = word + "\n";
  if (write(STDOUT_FILENO, line.data(), line.size()) < 0) std::exit(1);
}

int write_readings(const std::string& file, const std::string& name, int count) {
  auto daybook = Daybook::open(file, {.create = true});
  if (!daybook) return fail(daybook.error());
  Bake bake;
  bake.id = "bake";
  bake.title = "Marsh loaf";
  if (!daybook->get<Bake>("bake")) {
    const auto saved = daybook->save(bake, noon);
    if (!saved) return fail(saved.error());
  }
  for (int i = 0; i < count; ++i) {
    ReadingRecord reading;
    reading.id = name + "-" + std::to_string(i);
    reading.bake = "bake";
    reading.at = noon + i;
    reading.height_mm = 50 + i;
    reading.remark = std::string(static_cast<std::size_t>(i % 50) * 40, 'x');
    const auto saved = daybook->save(reading, noon);
    if (!saved) return fail(saved.error());
    say(saved->id);
  }
  return 0;
}

int hold(const std::string& file) {
  sqlite3* raw = nullptr;
  if (sqlite3_open(file.c_str(), &raw) != SQLITE_OK) return 1;
  if (sqlite3_exec(raw, "SELECT count(*) FROM bake", nullptr, nullptr, nullptr) != SQLITE_OK)
    return 1;
  say("open");
  while (true) pause();
}

int restore(const std::string& copy, const std::string& file) {
  const auto restored = barm::storage::restore(copy, file);
  return restored ? 0 : fail(restored.error());
}

int work(Words words) {
  if (words.size() == 4 && words[0] == "write")
    return write_readings(words[1], words[2], std::atoi(words[3].c_str()));
  if (words.size() == 2 && words[0] == "hold") return hold(words[1]);
  if (words.size() == 3 && words[0] == "restore") return restore(words[1], words[2]);
  return misused;
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> words(argv + 1, argv + argc);
  return work(words);
}
