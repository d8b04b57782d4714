#!/usr/bin/env bash
# Builds yaml-cpp as Debian has it, from its source package, with the flags of the preset `fuzz`, into
# build/fuzz-yaml-cpp: an uninstrumented parser would hide its own faults and lead the fuzzer nowhere.
# Lists of packages are kept beside it, so that the system's are left alone.
set -eu
cd "$(dirname "$0")/../.."

folder=$PWD/build/fuzz-yaml-cpp
[ -e "$folder/installed/include/yaml-cpp/yaml.h" ] && exit 0
mkdir -p "$folder/lists/partial"
echo "deb-src [signed-by=/usr/share/keyrings/debian-archive-keyring.gpg] http://deb.debian.org/debian bookworm main" \
  >"$folder/sources.list"
apt="apt-get -q -o Dir::Etc::SourceList=$folder/sources.list -o Dir::Etc::SourceParts=/dev/null
  -o Dir::State::Lists=$folder/lists -o APT::Sandbox::User=root"
$apt update
(cd "$folder" && rm -rf yaml-cpp-*/ && $apt source yaml-cpp)

flags=$(sed -n '/"name": "fuzz"/,/CMAKE_CXX_FLAGS_RELEASE/ s/.*"CMAKE_CXX_FLAGS_RELEASE": "\(.*\)".*/\1/p' CMakePresets.json)
cmake -G Ninja -S "$folder"/yaml-cpp-*/ -B "$folder/build" -D CMAKE_BUILD_TYPE=Release \
  -D CMAKE_CXX_COMPILER=clang++-14 -D CMAKE_CXX_FLAGS_RELEASE="$flags" -D YAML_BUILD_SHARED_LIBS=OFF \
  -D YAML_CPP_BUILD_TESTS=OFF -D YAML_CPP_BUILD_TOOLS=OFF -D YAML_CPP_BUILD_CONTRIB=OFF \
  -D CMAKE_INSTALL_PREFIX="$folder/installed" -Wno-dev
cmake --build "$folder/build"
cmake --install "$folder/build" >/dev/null
