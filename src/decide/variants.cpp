#include "standtrue/bench/variants.hpp"

#include <algorithm>

#include "decide/alter.hpp"
#include "standtrue/decide/decide.hpp"
#include "standtrue/document/overlay.hpp"

namespace standtrue::decide {

SideBySide variants(const document::Document& document, const bench::Bench& bench,
                    const reference::Tables& tables, const Work& work) {
  const document::Document own = document::without(document, "variants");
  const Base base{own, bench, tables};
  SideBySide result;
  result.question = "The file's variants";
  result.options.push_back(as_it_is(base, "the bench of the file"));
  std::vector<Diagnostic> faults;  // told by whoever read the file
  for (const bench::Variant& variant : bench::read_variants(document, tables, faults)) {
    Option option;
    option.name = variant.name;
    option.document = variant.document;
    result.options.push_back(std::move(option));
  }
  assess_all(result.options, tables, work);
  result.complete = std::all_of(result.options.begin(), result.options.end(), [](const Option& o) {
    return o.figures.has_value() || !o.why.empty();
  });
  return result;
}

}  // namespace standtrue::decide
