#!/usr/bin/env bash
# Installs the Debian packages that the build needs, and only those that are missing.
#   ./setup.sh               compiler, build tools, libraries
#   ./setup.sh --developer   also the second compilers, formatter, linter and cache of .ci/run, and
#                            what solves beams, frames and plates by other means (some 200 MB)
#   ./setup.sh --benchmarks  also what docs/benchmarks.md is made with (some 100 MB)
#   ./setup.sh --package     also what the Debian packages are made with
#   ./setup.sh --page        the browser's compiler, the source of yaml-cpp for it, and the browser and
#                            Node.js in which reports and the core are tried (some 1.4 GB)
set -eu

packages="g++ cmake ninja-build libeigen3-dev libboost-dev libyaml-cpp-dev doctest-dev libfmt-dev
  libcli11-dev nlohmann-json3-dev libfast-float-dev libspectra-dev libexpected-dev"

case "${1:-}" in
  "") ;;
  --developer)
    packages="$packages ccache clang-14 clang-format-14 clang-tidy-14 libclang-rt-14-dev emscripten
      groff-base python3 python3-getfem python3-jsonschema python3-scipy python3-sympy python3-yaml
      libbenchmark-dev libsuitesparse-dev" ;;
  --benchmarks) packages="$packages libbenchmark-dev libsuitesparse-dev python3-scipy valgrind" ;;
  --package) packages="$packages dpkg-dev" ;;
  --page)
    packages="$packages chromium emscripten zopfli"
    # Another Node.js than Debian's will do.
    command -v node >/dev/null || packages="$packages nodejs"
    command -v npm >/dev/null || packages="$packages npm" ;;
  *)
    echo "usage: ./setup.sh [--developer | --benchmarks | --package | --page]" >&2
    exit 2 ;;
esac

if ! command -v apt-get >/dev/null || ! command -v dpkg-query >/dev/null; then
  echo "setup.sh: this system has no apt-get. Install what these Debian packages hold:" >&2
  echo $packages >&2
  exit 1
fi

# Debian's source of yaml-cpp into build/sources: for em++ nothing is compiled yet. Lists of sources of
# its own, so that the system's stay as they are; apt checks what comes by them, src/browser.cmake by
# its hash.
fetch_yaml_cpp() {
  folder=$(dirname "$0")/build/sources
  [ ! -e "$folder/yaml-cpp_0.7.0+dfsg.orig.tar.xz" ] || return 0
  mkdir -p "$folder/apt/lists/partial" "$folder/apt/parts"
  folder=$(cd "$folder" && pwd)
  suite=$(. /etc/os-release && echo "$VERSION_CODENAME")
  echo "deb-src [signed-by=/usr/share/keyrings/debian-archive-keyring.gpg] http://deb.debian.org/debian $suite main" \
    > "$folder/apt/parts/source.list"
  apt_own="apt-get -q -o Dir::Etc::SourceList=/dev/null -o Dir::Etc::SourceParts=$folder/apt/parts
    -o Dir::State::Lists=$folder/apt/lists -o Dir::Cache::pkgcache= -o Dir::Cache::srcpkgcache="
  (cd "$folder" && $apt_own update && $apt_own source --download-only --tar-only yaml-cpp)
  rm -rf "$folder/apt"
}

missing=""
for package in $packages; do
  status=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null || true)
  [ "$status" = installed ] || missing="$missing $package"
done

[ "${1:-}" != --page ] || fetch_yaml_cpp

if [ -z "$missing" ]; then
  echo "setup.sh: every package is there; nothing to do"
  exit 0
fi

as_root=""
[ "$(id -u)" = 0 ] || as_root="sudo"
apt="$as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -o DPkg::Lock::Timeout=600"

echo "setup.sh: installing$missing"
$apt update
$apt install -y --no-install-recommends $missing
echo "setup.sh: done"
