#pragma once

#include <string>
#include <string_view>

#include "standtrue/document/document.hpp"

/// A document with some of its values changed: how one bench is set beside another.
namespace standtrue::document {

/// `base` with what `changes` says instead: maps are merged key by key, everything else (a list
/// too) is replaced whole. Where `base` has a scalar and `changes` a map, the map stands.
[[nodiscard]] Node overlaid(const Node& base, const Node& changes);
[[nodiscard]] Document overlaid(const Document& base, const Node& changes);

/// `document` with one more item under the top key `key`: a list gets it at its end, a single thing
/// becomes a list of two, nothing or the word `none` a list of one.
[[nodiscard]] Document with_item(const Document& document, std::string_view key, const Node& item);

/// Without that top key.
[[nodiscard]] Document without(const Document& document, std::string_view key);

/// A node on one line, as it can be written into a file: `[{side: left}, {side: right}]`.
[[nodiscard]] std::string flow_text(const Node& node);

/// A node from YAML that is ours. Throws std::logic_error if it does not parse.
[[nodiscard]] Node node_of(std::string_view text);

}  // namespace standtrue::document
