#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

#include "standtrue/check/check_all.hpp"
#include "standtrue/model/model.hpp"

namespace standtrue::check {

/// Internal forces on one cut of a member: of one combination, all at the same place. Signs as in
/// docs/conventions.md: N > 0 is tension, M_y > 0 puts tension on the +z side.
struct Station {
  quantity::Length at;  ///< from the flexible start of the member
  quantity::Force N, V_y, V_z;
  quantity::Moment T, M_y, M_z;
};

/// The cuts worth checking of every member, found once and shared by all strength checks: both
/// ends, and where N, V_y, V_z, M_y or M_z is least or greatest (T is constant between them or
/// jumps where V does). Where a force jumps both sides are kept. Only combinations that are wanted
/// and were answered have stations: by limit states those of Purpose::strength or as_given, by
/// allowable stresses Purpose::allowable, or what the caller wants. After construction it refers to
/// nothing outside itself.
class SectionForces {
 public:
  using Wanted = std::function<bool(const model::Combination&)>;
  explicit SectionForces(const Answers& answers, bench::Rules rules = bench::Rules::limit_states);
  SectionForces(const Answers& answers, const Wanted& wanted);

  /// In order from the start; empty for a combination that is not judged or was refused.
  [[nodiscard]] std::span<const Station> of(model::MemberId member, std::size_t combination) const;
  /// The combinations that have stations, rising.
  [[nodiscard]] std::span<const std::size_t> combinations() const { return combinations_; }
  /// Wanted combinations that the solver refused, rising.
  [[nodiscard]] std::span<const std::size_t> refused() const { return refused_; }

 private:
  struct Range {
    std::size_t from = 0, to = 0;
  };
  std::size_t members_ = 0;
  std::vector<std::size_t> combinations_, refused_;
  std::vector<Station> stations_;
  std::vector<Range> ranges_;  ///< by combination, then member
};

}  // namespace standtrue::check
