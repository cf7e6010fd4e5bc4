# Sourced by ./run and ./test: installs what is missing from Debian's packages.

say() { printf '\n== %s\n' "$*"; }

fail() {
  printf '\nSTOPPED: %s\n' "$*" >&2
  exit 1
}

as_root() {
  if [ "$(id -u)" = 0 ]; then
    "$@"
  elif command -v sudo >/dev/null 2>&1; then
    sudo "$@"
  else
    fail "installing packages needs root or sudo; install by hand: ${missing:-}"
  fi
}

# install_missing PACKAGE…: asks apt only for what is not there.
install_missing() {
  missing=""
  for package in "$@"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'install ok installed' || missing="$missing $package"
  done
  [ -z "$missing" ] && return 0
  say "installing$missing"
  log=$(mktemp)
  as_root apt-get update -qq >"$log" 2>&1 || { cat "$log" >&2; fail "apt-get update"; }
  # shellcheck disable=SC2086
  as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >"$log" 2>&1 ||
    { tail -n 20 "$log" >&2; fail "apt-get install$missing"; }
  rm -f "$log"
}

# unpack_missing PACKAGE FILE: a package that asks for far more than we compile with is not installed: where FILE is not on the machine,
# what it holds is laid under build/unpacked, where the build looks too.
unpack_missing() {
  [ -e "$2" ] || [ -e "build/unpacked$2" ] && return 0
  say "unpacking $1"
  folder=$(mktemp -d)
  mkdir -p build
  (cd "$folder" && { apt-get download -qq "$1" || { as_root apt-get update -qq && apt-get download -qq "$1"; }; }) >"$folder/log" 2>&1 &&
    dpkg-deb -x "$folder"/*.deb build/unpacked || { cat "$folder/log" >&2; fail "apt-get download $1"; }
  rm -rf "$folder"
}

# install_build PACKAGE…: what the build needs, and those. Gecode's headers ask for a window system's.
install_build() {
  install_missing $build_packages "$@"
  unpack_missing libgecode-dev /usr/include/gecode/int.hh
}

build_packages="build-essential cmake ninja-build pkg-config ccache nlohmann-json3-dev libtomlplusplus-dev
  libcli11-dev libfmt-dev libexpected-dev libnlopt-dev libeigen3-dev libceres-dev libboost-dev libcairo2-dev
  libcctz-dev tzdata libsqlitecpp-dev libsqlite3-dev libzip-dev libstb-dev
  libssl-dev zlib1g-dev libqrencode-dev libgecode49 gzip"
test_packages="libgtest-dev libgmock-dev libcpp-httplib-dev libbrotli-dev git faketime"
check_packages="python3-scipy clang-19 libclang-rt-19-dev clang-format-19 clang-tidy-19 r-base-core mandoc zsh fish debootstrap"
package_packages="dpkg-dev file fonts-dejavu-core"
bench_packages="libcpp-httplib-dev libbrotli-dev libbenchmark-dev valgrind libboost-dev sqlite3 python3-emcee"

# The page is built with node 18 or newer: any that is here, else Debian's. The terminal program does without.
node_here() {
  command -v npm >/dev/null 2>&1 && node -e 'process.exit(parseInt(process.versions.node) < 18 ? 1 : 0)' 2>/dev/null
}
page_packages=""
node_here || page_packages="nodejs npm"
browser_packages="chromium-headless-shell fonts-dejavu-core"

# One compiler cache for every clone of the project. It goes by the headers that the compiler names, not by a run of the preprocessor of
# its own, which took a twentieth of a build.
export CCACHE_BASEDIR="$PWD" CCACHE_NOHASHDIR=1 CCACHE_MAXSIZE=2G CCACHE_DEPEND=1
jobs=$(nproc)
