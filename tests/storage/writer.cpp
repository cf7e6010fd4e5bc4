// daybook_writer FILE NAME COUNT: opens the daybook (makes it when there is none), saves COUNT
// readings of one bake and says the id of each, once it is acknowledged, on standard output. Killed
// at any moment by kill_test.cpp.
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <string>

#include "storage/daybook.h"

using barm::storage::Bake;
using barm::storage::Daybook;
using barm::storage::ReadingRecord;

namespace {

constexpr barm::time::Instant noon{1795953600};

int fail(const barm::Error& error) {
  std::fprintf(stderr, "%s\n", error.text().c_str());
  return 1;
}

void acknowledge(const std::string& id) {
  const std::string line = id + "\n";
  if (write(STDOUT_FILENO, line.data(), line.size()) < 0) std::exit(1);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 4) return 2;
  const std::string name = argv[2];
  auto daybook = Daybook::open(argv[1], {.create = true});
  if (!daybook) return fail(daybook.error());
  Bake bake;
  bake.id = "bake";
  bake.title = "Marsh loaf";
  if (!daybook->get<Bake>("bake")) {
    const auto saved = daybook->save(bake, noon);
    if (!saved) return fail(saved.error());
  }
  for (int i = 0; i < std::atoi(argv[3]); ++i) {
    ReadingRecord reading;
    reading.id = name + "-" + std::to_string(i);
    reading.bake = "bake";
    reading.at = noon + i;
    reading.height_mm = 50 + i;
    reading.remark = std::string(static_cast<std::size_t>(i % 50) * 40, 'x');
    const auto saved = daybook->save(reading, noon);
    if (!saved) return fail(saved.error());
    acknowledge(saved->id);
  }
  return 0;
}
