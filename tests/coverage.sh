#!/usr/bin/env bash
# Which branches of src/solve and src/check no test takes. Not run by CI: it builds both again, with clang 14.
#
#     tests/coverage.sh [BUILD_FOLDER]        # else build/cov
set -eu
if [ "${1-}" = --compile ]; then # as the compiler launcher: clang in the place of the compiler named
  shift 2
  exec clang++-14 "${@/-Wno-restrict/-Wno-unknown-warning-option}"
fi
root=$(cd "$(dirname "$0")/.." && pwd)
build=${1:-$root/build/cov}
cmake -S "$root" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DSTANDTRUE_UNITY=ON \
  -DCMAKE_PROJECT_INCLUDE="$root/tests/coverage.cmake" >/dev/null
cmake --build "$build" --target test_solve test_check test_decide test_app
rm -f "$build"/*.profraw
for test in "test_solve" "test_check" "test_decide" "test_app --source-file=*/app/examples_test.cpp"; do
  LLVM_PROFILE_FILE=$build/%p.profraw "$build"/tests/$test --minimal
done
llvm-profdata-14 merge -o "$build/all.profdata" "$build"/*.profraw
llvm-cov-14 export "$build/tests/test_solve" -object "$build/tests/test_check" -object "$build/tests/test_decide" \
  -object "$build/tests/test_app" -instr-profile="$build/all.profdata" >"$build/coverage.json"
python3 "$root/tests/coverage.py" "$build/coverage.json"
