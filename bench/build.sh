#!/usr/bin/env bash
# How long a stranger waits: this commit in a bare Debian 12 with nothing installed and no caches; `./run --once` twice, `./test`
# twice. Beside them, in the same run, one compile that never changes, since machines differ twofold. Needs root; half an hour.
#   bench/build.sh [COMMIT]
set -euo pipefail
cd "$(dirname "$0")/.."
[ "${2:-}" = apart ] || exec unshare --mount "$0" "${1:-HEAD}" apart
. tools/setup/bare_debian.sh

work=$(mktemp -d)
root=$work/root
trap 'umount -R --lazy "$root" 2>/dev/null || true; rm -rf --one-file-system "$work"' EXIT
bare_debian "$root"
mount --bind "$root" "$root"  # the root of what is timed is a mount point, as a machine's is
mount -t proc proc "$root/proc"
mount --rbind /dev "$root/dev"
git archive --prefix=barmwright/ "$1" | tar -x -C "$root"
# ./test and the version ask git for the files and the commit.
git clone -q --no-hardlinks . "$work/clone"
git -C "$work/clone" checkout -q --detach "$1"
mv "$work/clone/.git" "$root/barmwright/.git"

TIMEFORMAT='%R %U %S'
# timed WHAT COMMAND…: a row of the table; what it printed stays in the log.
timed() {
  local what=$1 took
  shift
  { took=$( { time chroot "$root" env -i HOME=/root LANG=C.UTF-8 PATH=/usr/sbin:/usr/bin:/sbin:/bin \
    NODE_EXTRA_CA_CERTS=/etc/ssl/certs/machine.crt bash -c "cd /barmwright && $*" </dev/null >"$work/log" 2>&1; } 2>&1); } || { cp "$work/log" build/failed-in-bare-debian.log; tail -n 40 "$work/log"; exit 1; }
  awk -v what="$what" '{ printf "| %s | %d min %02d s | %d min %02d s |\n", what, $1 / 60, $1 % 60, ($2 + $3) / 60, ($2 + $3) % 60 }' <<<"$took"
}

cat >"$root/reference.cpp" <<'CPP'
#include <nlohmann/json.hpp>
#include <map>
#include <regex>
#include <string>
int main(int argc, char** argv) {
  const auto json = nlohmann::json::parse(argv[argc - 1]).get<std::map<std::string, std::vector<double>>>();
  return std::regex_match(argv[0], std::regex("[a-z]+(x|y)*")) ? static_cast<int>(json.size()) : 0;
}
CPP
echo "| what | wall | processor |"
echo "| --- | --- | --- |"
timed "\`./run --once\`, nothing installed" ./run --once
timed "\`./run --once\` again" ./run --once
timed "the reference compile, five times" 'for i in 1 2 3 4 5; do g++ -std=c++20 -O2 -c /reference.cpp -o /dev/null; done'
rm -rf "$root/barmwright/build" "$root/barmwright/web/node_modules" "$root/root/.cache" "$root/root/.npm"
timed "\`./test\` from the start: no caches, its own packages missing" ./test
cp "$work/log" build/test-in-bare-debian.log
timed "\`./test\` again, nothing changed" ./test
printf '\nSeconds of the first ./test, step by step:\n'
grep -E '^   .*: [0-9]+ s$' build/test-in-bare-debian.log
