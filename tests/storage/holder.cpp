// daybook_holder FILE: opens it as any program with SQLite does, reads a little, says "open" and
// then does nothing until it is killed.
#include <sqlite3.h>
#include <unistd.h>

#include <cstdio>

int main(int argc, char** argv) {
  sqlite3* raw = nullptr;
  if (argc != 2 || sqlite3_open(argv[1], &raw) != SQLITE_OK) return 1;
  if (sqlite3_exec(raw, "SELECT count(*) FROM bake", nullptr, nullptr, nullptr) != SQLITE_OK)
    return 1;
  std::puts("open");
  if (std::fflush(stdout) != 0) return 1;
  while (true) pause();
}
