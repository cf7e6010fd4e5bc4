// daybook_restorer COPY FILE: puts the copy in the place of the daybook. Killed at any moment by
// restore_test.cpp.
#include <cstdio>

#include "storage/daybook.h"

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  const auto restored = barm::storage::restore(argv[1], argv[2]);
  if (!restored) std::fprintf(stderr, "%s\n", restored.error().text().c_str());
  return restored ? 0 : 1;
}
