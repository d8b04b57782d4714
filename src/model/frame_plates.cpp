#include "model/frame_plates.hpp"

#include <algorithm>
#include <cmath>

namespace standtrue::model {

namespace {

using document::Field;
using document::Map;
using quantity::Kind;

std::optional<std::array<double, 2>> read_two(const Field& field, FrameReader& reader) {
  if (!document::read_si_list(field, Kind::length, 2, *reader.faults)) return std::nullopt;
  const std::vector<Field> items = field.items();
  const auto a = read_value(items[0], Kind::length, reader);
  const auto b = read_value(items[1], Kind::length, reader);
  if (!a || !b) return std::nullopt;
  return std::array{*a, *b};
}

std::optional<std::array<double, 2>> need_stretch(Map& map, std::string_view key,
                                                  FrameReader& reader) {
  const auto field = map.need(key, fmt::format("{}: [0 mm, 45 mm]", key));
  const auto ends = field ? read_two(*field, reader) : std::nullopt;
  if (!ends || (*ends)[0] <= (*ends)[1]) return ends;
  reader.note(field->fault(fmt::format("{} runs backwards, from {} to {}", key,
                                       length_text((*ends)[0]), length_text((*ends)[1])),
                           fmt::format("{}: {}", key, pair_text((*ends)[1], (*ends)[0]))));
  return std::nullopt;
}

bool meets(const std::vector<double>& lines, std::size_t cell, double from, double to) {
  const double low = lines[cell], high = lines[cell + 1];
  if (to - from <= same_place) {
    const double at = 0.5 * (from + to);
    return at >= low - same_place && at <= high + same_place;
  }
  return std::min(to, high) - std::max(from, low) > same_place;
}

}  // namespace

const std::vector<std::string>& plate_freedom_words() {
  static const std::vector<std::string> words = {"u", "v", "w", "rx", "ry"};
  return words;
}

bool has_node(const Plate& plate, std::size_t i, std::size_t j) {
  for (std::size_t cj = j == 0 ? 0 : j - 1; cj < std::min(j + 1, plate.y.size() - 1); ++cj) {
    for (std::size_t ci = i == 0 ? 0 : i - 1; ci < std::min(i + 1, plate.x.size() - 1); ++ci) {
      if (plate.has_cell(ci, cj)) return true;
    }
  }
  return false;
}

bool is_within(const Plate& plate, std::size_t i, std::size_t j, const Patch& patch) {
  const double x = plate.x[i], y = plate.y[j];
  return x > patch.x0 - same_place && x < patch.x1 + same_place && y > patch.y0 - same_place &&
         y < patch.y1 + same_place;
}

bool is_held(const Plate& plate, std::size_t i, std::size_t j) {
  return std::any_of(plate.holds.begin(), plate.holds.end(), [&](const PlateHold& hold) {
    return is_within(plate, i, j, hold.where) && hold.freedoms != std::array<bool, 5>{};
  });
}

bool finds_cell(const Plate& plate, const Patch& patch) {
  for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
    if (!meets(plate.y, j, patch.y0, patch.y1)) continue;
    for (std::size_t i = 0; i + 1 < plate.x.size(); ++i) {
      if (meets(plate.x, i, patch.x0, patch.x1) && plate.has_cell(i, j)) return true;
    }
  }
  return false;
}

std::size_t nearest_line(const std::vector<double>& lines, double at) {
  const auto nearest = std::min_element(lines.begin(), lines.end(), [at](double a, double b) {
    return std::abs(a - at) < std::abs(b - at);
  });
  return static_cast<std::size_t>(nearest - lines.begin());
}

std::string length_text(double metres) { return fmt::format("{:.10g} mm", 1e3 * metres); }

std::string pair_text(double a, double b) {
  return fmt::format("[{}, {}]", length_text(a), length_text(b));
}

std::optional<Patch> need_patch(Map& map, FrameReader& reader) {
  const auto x = need_stretch(map, "x", reader);
  const auto y = need_stretch(map, "y", reader);
  if (!x || !y) return std::nullopt;
  return Patch{(*x)[0], (*x)[1], (*y)[0], (*y)[1]};
}

void must_lie_on(const Field& field, const Patch& patch, std::string_view what, const Plate& plate,
                 FrameReader& reader) {
  if (finds_cell(plate, patch)) return;
  const bool is_beside = patch.x1 < plate.x.front() || patch.x0 > plate.x.back() ||
                         patch.y1 < plate.y.front() || patch.y0 > plate.y.back();
  const std::string where =
      is_beside ? fmt::format("lies beside plate '{}', which is there for x: {}, y: {}", plate.name,
                              pair_text(plate.x.front(), plate.x.back()),
                              pair_text(plate.y.front(), plate.y.back()))
                : fmt::format("lies in a hole of plate '{}'", plate.name);
  reader.note(field.fault(fmt::format("{} {}", what, where), "a place on the plate"));
}

Patch need_patch_on(Map& map, std::string_view what, std::size_t plate, FrameReader& reader) {
  const std::optional<Patch> patch = need_patch(map, reader);
  if (!patch) return {};
  if (reader.plate_is_sound.at(plate)) {
    must_lie_on(map.field(), *patch, what, reader.out.model.plates[plate], reader);
  }
  return *patch;
}

std::optional<std::array<double, 2>> need_place(Map& map, std::string_view example,
                                                FrameReader& reader) {
  const auto field = map.need("at", example);
  return field ? read_two(*field, reader) : std::nullopt;
}

}  // namespace standtrue::model
