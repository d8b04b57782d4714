#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "standtrue/bench/bench.hpp"
#include "standtrue/decide/compare.hpp"

/// Changes of a bench file, as a builder would write them. Each is the whole file with some keys
/// changed, so that whatever follows from a change (post heights, usual screws, grain) follows by
/// the reader's own rules.
namespace standtrue::decide {

/// What the file says now.
struct Base {
  const document::Document& document;
  const bench::Bench& bench;
  const reference::Tables& tables;
};

/// Keys replaced by those of `yaml`.
[[nodiscard]] Option with_keys(const Base& base, std::string name, std::string yaml);
/// The same on another document than the base's.
[[nodiscard]] Option with_keys(const document::Document& document, std::string name,
                               std::string yaml);
/// One more item under a top key; it writes all that then stand there.
[[nodiscard]] Option with_one_more(const Base& base, std::string name, std::string_view key,
                                   const std::string& item);
/// What a file says under a top key, as a line to write: a list whole.
[[nodiscard]] std::string line_of(const document::Document& document, std::string_view key);
/// The bench of the file itself.
[[nodiscard]] Option as_it_is(const Base& base, std::string name);

/// "45 x 95 mm", exactly, for a file.
[[nodiscard]] std::string written(quantity::Length thickness, quantity::Length depth);
[[nodiscard]] std::string written(quantity::Length length);

/// "C24 45 x 95 mm" of a piece.
[[nodiscard]] std::string written(const bench::Stock& stock);

/// "screwed", of the layers of a sheet.
[[nodiscard]] std::string written(bench::Bond bond);

/// The next deeper size that timber of this thickness is sold in; none if there is no deeper one.
[[nodiscard]] std::optional<bench::Stock> next_deeper(const bench::Stock& stock,
                                                      const reference::Tables& tables);

/// The nominal thicknesses of a sheet's family, rising.
[[nodiscard]] std::vector<quantity::Length> thicknesses(const bench::Sheet& sheet,
                                                        const reference::Tables& tables);

/// How a ledger of another stock is written; empty without a ledger, or where `wall` is a list,
/// which a change would replace whole.
[[nodiscard]] std::string with_ledger_of(const Base& base, const bench::Stock& stock);

/// The top, and what braces and upright sheets there are now.
[[nodiscard]] const bench::Sheet* top_of(const bench::Bench& bench);
[[nodiscard]] bool is_listed(const document::Document& document);  ///< the form part by part

}  // namespace standtrue::decide
