#pragma once

#include <string>
#include <string_view>

#include "standtrue/decide/assess.hpp"

/// The words of enumerations: for people, and (`*_key`) for programs.
namespace standtrue::report {

[[nodiscard]] std::string_view verdict_word(decide::Verdict verdict);  ///< "DO NOT LOAD"
[[nodiscard]] std::string_view verdict_key(decide::Verdict verdict);   ///< "do_not_load"
[[nodiscard]] std::string_view judgement_word(check::Judgement judgement);
[[nodiscard]] std::string_view judgement_key(check::Judgement judgement);
[[nodiscard]] std::string_view group_key(check::Group group);  ///< "carry", also the rod's label
[[nodiscard]] std::string_view kind_key(check::Kind kind);
[[nodiscard]] std::string_view bound_key(model::Bound bound);
[[nodiscard]] std::string_view purpose_key(model::Purpose purpose);
[[nodiscard]] std::string_view springs_key(model::SpringSet springs);
[[nodiscard]] std::string_view quantity_key(quantity::Kind kind);  ///< "linear_stiffness"
[[nodiscard]] std::string si_unit(quantity::Kind kind);            ///< "N/m"; "" for a ratio

/// "Front top rail, left end" as a stable key: "front-top-rail/left-end".
[[nodiscard]] std::string key_of(std::string_view name);

/// A text as a sentence: with a full stop, unless it ends with a mark.
[[nodiscard]] std::string sentence(std::string text);
/// With its first letter as a capital.
[[nodiscard]] std::string capital(std::string text);

}  // namespace standtrue::report
