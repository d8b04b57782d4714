#!/usr/bin/env bash
# The long run: every target of libFuzzer under the sanitizers, yaml-cpp among what is watched. Takes
# days as it stands; give numbers for less. What is found stays in build/fuzz/found, what led to
# something new in build/fuzz/corpus, for the next run.
#   tests/fuzz/long_run.sh [TARGET ...]                     all of them unless given
#   TEXTS=100000 STRIPS=500 SHELLS=20 tests/fuzz/long_run.sh
set -u
cd "$(dirname "$0")/../.."
texts=${TEXTS:-10000000} strips=${STRIPS:-100000} shells=${SHELLS:-1000}

tests/fuzz/yaml_cpp.sh >/dev/null && cmake --workflow --preset fuzz >/dev/null || exit 2
python3 tests/fuzz/words.py build/fuzz/words.dict || exit 2

# run TARGET RUNS LONGEST SEEDS...: a bench of plates takes the sanitizers a minute.
run() {
  local name=$1 runs=$2 longest=$3
  shift 3
  [ ${#wanted[@]} -eq 0 ] || [[ " ${wanted[*]} " == *" $name "* ]] || return
  mkdir -p "build/fuzz/corpus/$name" build/fuzz/found
  local seeds=("build/fuzz/corpus/$name") folder
  for folder in "tests/fuzz/seeds/$name" "tests/fuzz/found/$name" "$@"; do
    [ -d "$folder" ] && seeds+=("$folder")
  done
  printf '\n=== %s, %s runs\n' "$name" "$runs"
  nice -n 19 "build/fuzz/tests/fuzz/${name}_fuzz" "${seeds[@]}" -runs="$runs" -max_len="$longest" \
    -dict=build/fuzz/words.dict -timeout=600 -rss_limit_mb=6000 -print_final_stats=1 \
    -artifact_prefix="build/fuzz/found/$name-" >"build/fuzz/$name.log" 2>&1 || failed=1
  grep -aE '^broken law|ERROR:|runtime error|Test unit written|number_of_executed|average_exec|^benches:' \
    "build/fuzz/$name.log"
}

wanted=("$@") failed=0
run quantity "$texts" 64
run document "$texts" 2048 tests/messages examples
run readings "$texts" 512
run bench "$texts" 2048 tests/messages examples
run frame_case "$texts" 3000 tests/messages reference/cases
run frame "$texts" 2048 reference/cases
run strip_benches "$strips" 512
run shell_benches "$shells" 512
exit $failed
