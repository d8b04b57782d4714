#pragma once

#include <string>

#include "report/drawing.hpp"

/// What comes behind the first page of a report.
namespace standtrue::report {

/// Every other drawing, each with its words.
[[nodiscard]] std::string drawing_sheets(const Drawn& drawn);
/// Tables for who checks it line by line.
[[nodiscard]] std::string engineer_sheets(const Drawn& drawn);

}  // namespace standtrue::report
