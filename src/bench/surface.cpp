#include "standtrue/bench/surface.hpp"

namespace standtrue::bench {

Length thickness(const Sheet& sheet) {
  return sheet.panel.thickness * static_cast<double>(sheet.layers);
}

bool lies(const Sheet& sheet) {
  return sheet.place == SheetPlace::top || sheet.place == SheetPlace::shelf;
}

Length surface_of(const Sheet& sheet) { return sheet.underside + thickness(sheet); }

}  // namespace standtrue::bench
