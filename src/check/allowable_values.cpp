#include <fmt/format.h>

#include <algorithm>

#include "standtrue/check/allowable.hpp"

namespace standtrue::check {

using reference::Duration;

double load_duration_factor(Duration duration, const reference::Tables& tables) {
  switch (duration) {
    case Duration::permanent:
      return tables.constant("C_D permanent").value;
    case Duration::long_term:
    case Duration::medium_term:
      return tables.constant("C_D ten years").value;
    case Duration::short_term:
      return tables.constant("C_D seven days").value;
    case Duration::instantaneous:
      return tables.constant("C_D ten minutes").value;
  }
  return tables.constant("C_D permanent").value;
}

namespace {

const Length planing = quantity::millimetres(1.0);

/// "4", "6" ... "wider": the listed width that is as wide or wider.
std::string listed_width(Length wide, const reference::Tables& tables) {
  for (const char* nominal : {"4", "6", "8", "10", "12"}) {
    const reference::Section* section = tables.section(std::string("2x") + nominal);
    if (section != nullptr && wide <= section->depth + planing) return nominal;
  }
  return "wider";
}

}  // namespace

SizeFactors us_size_factors(Length width, Length depth, bool sized,
                            const reference::Tables& tables) {
  const Length b = std::min(width, depth), d = std::max(width, depth);
  const std::string wide = listed_width(d, tables);
  const reference::Section* four = tables.section("4x4");
  const bool is_thick = four != nullptr && b >= four->thickness - planing;
  const std::string thick = is_thick ? "thick " : "";
  SizeFactors c;
  if (!sized) {
    c.bending = tables.constant("C_F F_b " + thick + wide).value;
    c.tension = tables.constant("C_F F_t " + wide).value;
    c.compression = tables.constant("C_F F_c " + wide).value;
  }
  if (d > b + planing) c.flat = tables.constant("C_fu " + thick + wide).value;
  return c;
}

WetFactors wet_factors(const reference::Allowable& values, const SizeFactors& size,
                       reference::ServiceClass air, const reference::Tables& tables) {
  if (air != reference::ServiceClass::sc3) return {};
  const auto value = [&](const char* key) { return tables.constant(key).value; };
  const double F_b = quantity::in_si(values.F_b) * size.bending;
  const double F_c = quantity::in_si(values.F_c) * size.compression;
  return {F_b <= value("C_M F_b full to") ? 1.0 : value("C_M F_b"),
          value("C_M F_t"),
          value("C_M F_v"),
          value("C_M F_c_perp"),
          F_c <= value("C_M F_c full to") ? 1.0 : value("C_M F_c"),
          value("C_M E")};
}

OrWhy<Adjusted> adjusted_values(const model::Part& part, reference::ServiceClass air,
                                Duration duration, const reference::Tables& tables) {
  if (!part.timber.allowable) {
    return tl::unexpected(fmt::format("{} has no allowable stresses", part.timber.key));
  }
  const reference::Allowable& values = *part.timber.allowable;
  const Length thickness = std::min(part.width, part.depth);
  const Length from = quantity::metres(tables.constant("grade thickness from").value);
  const Length to = quantity::metres(tables.constant("grade thickness to").value);
  if (!(thickness >= from) || thickness > to) {
    return tl::unexpected(fmt::format(
        "the values of {} are those of lumber from 2 in to 4 in thick (nominal)", part.timber.key));
  }
  Adjusted a;
  a.C_D = load_duration_factor(duration, tables);
  a.C_F = us_size_factors(part.width, part.depth, values.sized, tables);
  a.C_M = wet_factors(values, a.C_F, air, tables);
  a.F_b1 = a.C_D * a.C_M.bending * a.C_F.bending * values.F_b;
  a.F_b2 = a.C_F.flat * a.F_b1;
  a.F_t = a.C_D * a.C_M.tension * a.C_F.tension * values.F_t;
  a.F_v = a.C_D * a.C_M.shear * values.F_v;
  a.F_c_perp = a.C_M.across * values.F_c_perp;
  a.F_c = a.C_D * a.C_M.compression * a.C_F.compression * values.F_c;
  a.E_min = a.C_M.modulus * values.E_min;
  return a;
}

}  // namespace standtrue::check
