#include "standtrue/bench/variants.hpp"

#include "standtrue/document/overlay.hpp"

namespace standtrue::bench {

std::vector<Variant> read_variants(const document::Document& document,
                                   const reference::Tables& tables,
                                   std::vector<Diagnostic>& diagnostics) {
  constexpr std::string_view example = "variants: {thicker top: {top: {sheet: 24 mm plywood}}}";
  std::vector<Variant> variants;
  document::Map top(document::root(document), diagnostics, example);
  const auto field = top.find("variants");
  if (!field) return variants;
  const document::Document base = document::without(document, "variants");
  document::Map list(*field, diagnostics, example);
  const auto all = list.all();
  constexpr std::size_t most = 200;  // each is a bench to be solved
  if (all.size() > most) {
    diagnostics.push_back(field->fault(std::to_string(all.size()) + " variants are too many: " +
                                           std::to_string(most) + " is the most",
                                       ""));
    return variants;
  }
  for (const auto& [name, changes] : all) {
    if (!changes.is(document::Node::Kind::map)) {
      diagnostics.push_back(changes.fault("a variant is a group of the keys that it changes",
                                          name + ": {top: {sheet: 24 mm spruce plywood}}"));
      continue;
    }
    Variant variant{name, document::overlaid(base, changes.node()), {}};
    variant.reading = read_bench(variant.document, tables);
    variants.push_back(std::move(variant));
  }
  return variants;
}

}  // namespace standtrue::bench
