#include <cmath>

#include "model/direction.hpp"
#include "standtrue/contract.hpp"
#include "standtrue/model/model.hpp"

namespace standtrue::model {

namespace {

Direction unit(const Direction& d) {
  const double n = norm(d);
  expects(n > 0.0, "member_frame: a direction has no length");
  return {d.x / n, d.y / n, d.z / n};
}

/// Within about half a second of arc a member counts as upright, where global z gives no depth.
bool is_upright(const Direction& x) { return std::hypot(x.x, x.y) < 2e-6; }

}  // namespace

MemberFrame member_frame(const Model& model, const Member& member) {
  using quantity::in_si;
  const Point& from = model.nodes.at(member.start).at;
  const Point& to = model.nodes.at(member.end).at;
  const auto along = [](Length a, Length a_offset, Length b, Length b_offset) {
    return in_si(b + b_offset) - in_si(a + a_offset);
  };
  const Direction chord{along(from.x, member.start_offset.x, to.x, member.end_offset.x),
                        along(from.y, member.start_offset.y, to.y, member.end_offset.y),
                        along(from.z, member.start_offset.z, to.z, member.end_offset.z)};
  const Direction x = unit(chord);
  const Direction wish =
      member.depth.value_or(is_upright(x) ? Direction{1.0, 0.0, 0.0} : Direction{0.0, 0.0, 1.0});
  const Direction y = unit(cross(wish, x));
  const Direction z = cross(x, y);
  const double c = std::cos(member.roll);
  const double s = std::sin(member.roll);
  const Direction y_rolled{c * y.x + s * z.x, c * y.y + s * z.y, c * y.z + s * z.z};
  return {{x, y_rolled, cross(x, y_rolled)}, quantity::metres(norm(chord))};
}

}  // namespace standtrue::model
