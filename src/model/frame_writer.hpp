#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "standtrue/model/frame_case.hpp"

/// Pieces of text that the writer of frame cases shares. Numbers are written so that they read back
/// to the last bit.
namespace standtrue::model {

/// A name or a text as a YAML scalar: plain where that is safe, else quoted.
[[nodiscard]] std::string yaml_text(std::string_view text);
[[nodiscard]] std::string exact_number(double value);

/// The word of an enumerator among those of its kind, such as freedom_words().
template <class Enumerator>
[[nodiscard]] const std::string& word_of(Enumerator which, const std::vector<std::string>& words) {
  return words.at(static_cast<std::size_t>(which));
}

template <class Quantity>
[[nodiscard]] std::string exact(const Quantity& q, quantity::Kind kind) {
  return quantity::print_exact(quantity::in_si(q), kind);
}
template <class Quantity>
[[nodiscard]] std::string exact(const Vector<Quantity>& v, quantity::Kind kind) {
  return "[" + exact(v.x, kind) + ", " + exact(v.y, kind) + ", " + exact(v.z, kind) + "]";
}
[[nodiscard]] std::string exact(const Direction& d);

template <class Quantity>
[[nodiscard]] bool is_zero(const Vector<Quantity>& v) {
  return v.x == Quantity{} && v.y == Quantity{} && v.z == Quantity{};
}

/// A YAML map on one line, `{a: 1, b: 2}`, in the order in which entries are added.
class FlowMap {
 public:
  void add(std::string_view key, const std::string& value) {
    text_ += (text_.empty() ? "" : ", ") + std::string(key) + ": " + value;
  }
  [[nodiscard]] bool empty() const { return text_.empty(); }
  [[nodiscard]] std::string text() const { return "{" + text_ + "}"; }

 private:
  std::string text_;
};

/// A YAML list on one line.
[[nodiscard]] std::string flow_list(const std::vector<std::string>& items);

[[nodiscard]] std::string write_supports(const Model& model);
/// Whether the last supports are those that `plane: true` adds to the others.
[[nodiscard]] bool ends_with_plane_supports(const Model& model);
[[nodiscard]] std::string write_plates(const Model& model);
[[nodiscard]] std::string write_patch_load(const Model& model, const PatchLoad& load);
[[nodiscard]] std::string write_loads(const Model& model);
[[nodiscard]] std::string write_expectations(const FrameCase& frame_case);

}  // namespace standtrue::model
