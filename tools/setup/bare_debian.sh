# Sourced by what must try something on a machine with nothing installed. Needs root, debootstrap and a mount namespace of its own.

# The lines of Debian's own archive in this machine's sources, as apt has read them.
debian_sources() {
  apt-get indextargets --format 'deb $(REPO_URI) $(RELEASE) $(COMPONENT)' 'Created-By: Packages' 'Origin: Debian' | sort -u
}

# bare_debian FOLDER: Debian 12 with nothing but what every installation has, asking the archive as this machine does.
bare_debian() {
  local root=$1 mirror
  mirror=$(debian_sources | awk '$3 == "bookworm" { print $2; exit }')
  [ -n "$mirror" ] || { echo "apt knows no archive of Debian 12: apt-get update" >&2; return 1; }
  mkdir -p "$root"
  chmod 755 "$root"
  debootstrap --variant=minbase bookworm "$root" "$mirror" >"$root.log" 2>&1 || { tail -n 20 "$root.log" >&2; return 1; }
  debian_sources >"$root/etc/apt/sources.list"
  apt-config dump Acquire | grep -v IndexTargets >"$root/etc/apt/apt.conf.d/90machine" || true
  if [ -f /etc/ssl/certs/ca-certificates.crt ]; then
    install -D /etc/ssl/certs/ca-certificates.crt "$root/etc/ssl/certs/machine.crt"  # the next is replaced by a package
    cp "$root/etc/ssl/certs/machine.crt" "$root/etc/ssl/certs/ca-certificates.crt"
  fi
  cp /etc/resolv.conf /etc/hosts "$root/etc/"
  mount -t proc proc "$root/proc"
}
