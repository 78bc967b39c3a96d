#!/bin/sh
# Installs what the elimination is measured against, from Debian's own archive (Debian 12 or newer, or a relative of it):
#
#   gcc, libc6-dev          to compile the C programs in openblas/
#   libopenblas-pthread-dev dense linear algebra tuned for the processor at hand
#   calculix-ccx            a general three-dimensional finite element program
#   time                    GNU time, which tells the peak memory of a program
#   chromium                a browser, for the same computations in a page
#
# None of it is needed to use, build or test the product: only `npm run bench` calls them.
set -eu

packages="gcc libc6-dev libopenblas-pthread-dev calculix-ccx time chromium"

if ! command -v apt-get >/dev/null; then
  echo "There is no apt-get here. Install these, or what they are called on this system: $packages" >&2
  exit 1
fi
if [ "$(id -u)" = 0 ]; then as_root=""; else as_root="sudo"; fi

echo "Installing for the benchmarks only: $packages"
$as_root apt-get update
# shellcheck disable=SC2086 # the list is meant to be split
$as_root env DEBIAN_FRONTEND=noninteractive apt-get install --yes --no-install-recommends $packages
ccx -v || true # it tells its version and returns an error
gcc --version | head -n 1
