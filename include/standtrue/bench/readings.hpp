#pragma once

#include <array>
#include <string>
#include <vector>

#include "standtrue/bench/bench.hpp"
#include "standtrue/document/document.hpp"

/// What a builder measured on the finished or half-built bench.
namespace standtrue::bench {

enum class Test { loose_rail, bare_along, bare_across, finished_along, finished_across, top_sag };
inline constexpr std::array<Test, 6> all_tests = {Test::loose_rail,      Test::bare_along,
                                                  Test::bare_across,     Test::finished_along,
                                                  Test::finished_across, Test::top_sag};
/// As the file names it: "bare frame along".
[[nodiscard]] std::string name_of(Test test);
/// A pull sideways at the top; else a weight is put on.
[[nodiscard]] bool is_pull(Test test);

/// What can be told apart when the file does not say: by a dial gauge held by hand-made means, and
/// by eye on a rule. Below `fine_up_to` a dial gauge is wanted.
/// Common practice, no source: half a tenth of a millimetre, half a millimetre.
inline const Length fine_gauge = quantity::millimetres(0.05);
inline const Length coarse_gauge = quantity::millimetres(0.5);
inline const Length fine_up_to = quantity::millimetres(1.0);

struct Reading {
  Test test = Test::loose_rail;
  Force force;   ///< of the pull, or of the weight
  Length moves;  ///< how much further with it than without
  Length gauge;  ///< least that the gauge tells apart
};

/// `readings: [{test: finished along, pull: 10 kg, moves: 0.6 mm}]`, in the order of the file;
/// empty without them. Faults go to `diagnostics`, and their readings are left out.
[[nodiscard]] std::vector<Reading> read_readings(const document::Document& document,
                                                 const reference::Tables& tables,
                                                 std::vector<Diagnostic>& diagnostics);

}  // namespace standtrue::bench
