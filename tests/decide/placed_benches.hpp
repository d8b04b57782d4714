#pragma once

#include <string>

#include "tests/bench/bench_files.hpp"

/// Small benches with a machine that can be moved about.
namespace standtrue::placed_benches {

inline const std::string frame = R"(
standtrue: 1
size: 900 x 600 x 700 mm
timber: C24 45 x 95 mm
joints: two corner brackets
)";
inline const std::string plated = frame + R"(
top: {sheet: 18 mm spruce plywood, load: 10 kg}
machines:
  - {kind: machine, name: press, mass: 60 kg, at: [300 mm, 200 mm], pads: 200 x 140 mm, pad: 40 mm}
)";
/// Strips, for speed.
inline const std::string stripped = frame + R"(
top: {sheet: 18 mm spruce plywood, load: none}
analysis: {sheets: strip}
braces: [{side: back}, {side: left}, {side: right}]
machines:
  - {kind: machine, name: press, mass: 90 kg, at: [350 mm, 225 mm], pads: 200 x 140 mm, pad: 40 mm, centre: [0 mm, 0 mm]}
)";

/// Bolted to the floor: a shove at the top of a machine would tip a bench as small as these,
/// wherever it stands.
inline bench::Bench held(bench::Bench bench) {
  for (bench::Post& post : bench.posts) post.foot.fixed = true;
  return bench;
}

}  // namespace standtrue::placed_benches
