#include <algorithm>

#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

using reference::Timber;

constexpr std::string_view usual_grade = "SPF No.1/No.2";
constexpr std::string_view grade_to_write = "SPF No.2";

bool asks_for_allowable(const Reader& reader) {
  return reader.bench.rules == Rules::allowable_stress;
}

std::string upper(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c; });
  return text;
}

/// Underlines the name where it stands in the field.
Diagnostic fault_at(const Field& field, const std::string& name, std::string what,
                    std::string instead_of_name) {
  const std::string& whole = field.text();
  const std::size_t at = whole.find(name);
  const bool inside = at != std::string::npos;
  std::string instead = instead_of_name;
  if (inside && !instead.empty()) {
    instead = whole.substr(0, at) + instead_of_name + whole.substr(at + name.size());
  }
  return field.fault(quantity::TextFault{.offset = inside ? at : 0,
                                         .length = inside ? name.size() : whole.size(),
                                         .what = std::move(what),
                                         .instead = std::move(instead)});
}

}  // namespace

void read_rules(Reader& reader, Map& top) {
  if (const auto word = top.word("rules", {"limit states", "allowable stress"})) {
    reader.bench.rules =
        *word == "allowable stress" ? Rules::allowable_stress : Rules::limit_states;
  }
}

const Timber& unmarked_timber(const Reader& reader) {
  const Timber* timber =
      reader.tables.timber(asks_for_allowable(reader) ? usual_grade : "unmarked");
  return timber != nullptr ? *timber : reader.tables.timbers.front();
}

bool is_class_name(const Timber& timber, const std::string& name) {
  if (upper(name) == upper(timber.key)) return true;
  return timber.allowable &&
         std::any_of(name.begin(), name.end(), [](char c) { return c >= '0' && c <= '9'; });
}

const Timber& by_rules(Reader& reader, const Field& field, const std::string& name,
                       const Timber& timber) {
  if (timber.allowable.has_value() == asks_for_allowable(reader)) return timber;
  if (timber.allowable) {
    Diagnostic fault =
        fault_at(field, name, fmt::format("'{}' is judged by allowable stresses alone", name), "");
    fault.instead = "rules: allowable stress";
    reader.note_once("rules " + name, std::move(fault));
    return unmarked_timber(reader);
  }
  // "pine 2x4": softwood of no grade.
  const bool is_soft = timber.species == reference::Species::softwood &&
                       timber.material == reference::Material::solid_timber;
  if (is_soft && !is_class_name(timber, name)) return unmarked_timber(reader);
  reader.note_once(
      "rules " + name,
      fault_at(field, name,
               fmt::format("'{}' has no allowable stresses, by which this file is judged", name),
               std::string(grade_to_write)));
  return unmarked_timber(reader);
}

void take_values_of_width(Reader& reader, const Field& field, Stock& stock) {
  Timber& timber = stock.timber;
  if (!timber.allowable || !timber.allowable->sized) return;
  const std::string base = timber.key.substr(0, timber.key.find(','));
  const Length planing = millimetres(1.0);
  bool goes_by_width = false;
  for (const char* nominal : {"4", "6", "8", "10", "12"}) {
    const auto* section = reader.tables.section(std::string("2x") + nominal);
    const Timber* found = reader.tables.timber(fmt::format("{}, {} in wide", base, nominal));
    if (section == nullptr || found == nullptr) continue;
    goes_by_width = true;
    if (stock.depth > section->depth + planing) continue;
    // E, G and density are alike at every width, and may be the file's own.
    const std::size_t rest = timber.key.find(" with own values");
    timber.key = found->key + (rest == std::string::npos ? "" : timber.key.substr(rest));
    const auto E_min = timber.allowable->E_min;
    timber.allowable = found->allowable;
    timber.allowable->E_min = E_min;
    timber.f_m_k = found->f_m_k;
    timber.f_t_0_k = found->f_t_0_k;
    timber.f_c_0_k = found->f_c_0_k;
    return;
  }
  if (!goes_by_width) return;
  reader.note(field.fault(fmt::format("{} of {} is wider than its values go: 12 in (nominal)", base,
                                      say(stock.depth, reader)),
                          fmt::format("timber: {} 2x12", base)));
}

}  // namespace standtrue::bench
