#!/bin/sh
# need.sh PACKAGE... - install the Debian packages that are missing, as root or through sudo, and say so.
missing=
for package in "$@"; do
  dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing="$missing $package"
done
[ -z "$missing" ] && exit 0

if ! command -v apt-get >/dev/null; then
  echo "missing:$missing. This is not a Debian machine: install them by hand, then run make again." >&2
  exit 1
fi
sudo=
if [ "$(id -u)" != 0 ]; then
  command -v sudo >/dev/null || { echo "missing:$missing. Install them as root, then run make again." >&2; exit 1; }
  sudo=sudo
fi
echo "installing the Debian packages:$missing"
export DEBIAN_FRONTEND=noninteractive
log=$(mktemp)
trap 'rm -f "$log"' EXIT
if ! { $sudo apt-get update -qq && $sudo apt-get install -y -qq --no-install-recommends $missing; } >"$log" 2>&1; then
  cat "$log" >&2
  exit 1
fi
