#pragma once

#include <string>
#include <string_view>

namespace standtrue::report {

/// Text that is safe between tags and in attributes of HTML and SVG: what a bench file says is
/// never markup. Control characters but tab and line end are left out.
[[nodiscard]] std::string escaped(std::string_view text);

}  // namespace standtrue::report
