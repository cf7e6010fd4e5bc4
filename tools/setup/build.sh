# Sourced by ./run, ./test and ./package after packages.sh: configures and builds, and shows how far it is.

# configure PRESET [-DOPTION=VALUE …]
configure() {
  preset=$1
  shift
  log=$(mktemp)
  cmake --preset "$preset" "$@" >"$log" 2>&1 || { tail -n 30 "$log" >&2; fail "configuring; the whole of it is in $log"; }
  rm -f "$log"
}

# build TREE TARGET…: ninja's own counter on one line, or plain lines where there is no terminal.
build() {
  case $(ninja -C "$1" -n "${@:2}" 2>/dev/null) in *"no work to do"*) return 0 ;; esac
  NINJA_STATUS='building %f of %t  ' cmake --build "$1" -j "$jobs" --target "${@:2}" || fail "the build"
}
