#pragma once

#include <string_view>

#include "quantity/unit.hpp"
#include "standtrue/quantity/unit_text.hpp"

namespace standtrue::quantity {

/// Which masses stand for their weight where a force is meant.
enum class Weights { none, pounds, all };

/// What a kind is called, accepts, and is usually written as.
struct KindFacts {
  Kind kind = Kind::ratio;
  std::string_view noun;  ///< "a length"
  Dimension dimension;
  Weights weights = Weights::none;
  std::string_view si_unit;     ///< as print_exact writes it
  std::string_view usual_unit;  ///< proposed for a bare number
  std::string_view example;
};

[[nodiscard]] const KindFacts& facts_of(Kind kind);

/// "a length", "a mass" ...; "something else" for a dimension without a name.
[[nodiscard]] std::string_view noun_of(Dimension dimension);

}  // namespace standtrue::quantity
