#pragma once

#include <string>

#include "standtrue/check/finding.hpp"
#include "standtrue/model/model.hpp"

/// Plain words for strength, and numbers for working lines.
namespace standtrue::check {

/// "a third of", "nearly all of", "a little more than", "1.3 times": to go before "its strength".
[[nodiscard]] std::string share_of(double ratio);

/// "front top rail, 940 mm from its left end": `at` along one of the part's members.
[[nodiscard]] std::string place_on(const model::Model& model, const model::Part& part,
                                   model::MemberId member, quantity::Length at);

/// 0 for forces, moments and stresses that are rounding alone: below 1e-6 N, 1e-6 N m and 1e-3
/// N/m2.
[[nodiscard]] double but_rounding(double value, quantity::Kind kind);

/// A value's text for beside that of its limit: "just over 2.4 mm" where it misses the limit and
/// would read as the limit itself.
[[nodiscard]] std::string beside(const std::string& limit, const std::string& value,
                                 Judgement judgement, const char* missed_by = "just over");

/// "3.21 N/mm2", "450 N", "12.3 N m", "38 mm": metric, for working lines.
[[nodiscard]] std::string shown(quantity::Stress value);
[[nodiscard]] std::string shown(quantity::Force value);
[[nodiscard]] std::string shown(quantity::Moment value);
[[nodiscard]] std::string shown(quantity::Length value);

}  // namespace standtrue::check
