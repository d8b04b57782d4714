#include <algorithm>
#include <cmath>

#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

using reference::Panel;
using reference::PanelValues;
using reference::Ply;

std::string list_of_thicknesses(const std::vector<Length>& thicknesses) {
  std::string out;
  for (const Length& t : thicknesses) {
    out += (out.empty() ? "" : ", ") + quantity::print(in_si(t), Kind::length);
  }
  return out;
}

/// The listed sheet of that thickness. One up to 1.2 mm thinner serves for sheets sold by the inch,
/// which measure less than their name, and is said.
const Panel* listed(Reader& reader, const std::string& family, Length thickness) {
  if (const Panel* panel = reader.tables.panel(family, thickness)) return panel;
  const Panel* best = nullptr;
  for (const Length& known : reader.tables.panel_thicknesses(family)) {
    if (known < thickness && in_si(thickness - known) <= 1.2e-3) {
      best = reader.tables.panel(family, known);
    }
  }
  if (best == nullptr) return nullptr;
  reader.assume(fmt::format("the {} {} sheet for the one of {}",
                            quantity::print(in_si(best->nominal), Kind::length), best->family,
                            say(thickness, reader)));
  return best;
}

Length nearest_to(const std::vector<Length>& known, Length wanted) {
  return *std::min_element(known.begin(), known.end(), [&](Length a, Length b) {
    return std::abs(in_si(a - wanted)) < std::abs(in_si(b - wanted));
  });
}

std::optional<Board> take_listed(Reader& reader, const Field& field, const std::string& family,
                                 Length thickness) {
  const auto* known = reader.tables.panel_family(family);
  if (known == nullptr) {
    unknown_word(reader, field, family, "sheet", reader.tables.panel_names(), board_example);
    return std::nullopt;
  }
  if (const Panel* panel = listed(reader, family, thickness)) return Board{*panel, *known};
  const std::vector<Length> thicknesses = reader.tables.panel_thicknesses(family);
  if (thicknesses.empty()) return std::nullopt;
  const Length meant = nearest_to(thicknesses, thickness);
  reader.note(
      field.fault(fmt::format("{} is not listed at {}, but at {}", known->key,
                              say(thickness, reader), list_of_thicknesses(thicknesses)),
                  fmt::format("{} {}", quantity::print(in_si(meant), Kind::length), known->key)));
  return std::nullopt;
}

std::optional<Board> read_text(Reader& reader, const Field& field) {
  const auto text = text_of(reader, field, board_example);
  if (!text) return std::nullopt;
  const quantity::LengthRun run = quantity::find_length_run(*text);
  if (run.length == 0) {
    reader.note(field.fault(fmt::format("'{}' gives no thickness with a unit", *text),
                            std::string(board_example)));
    return std::nullopt;
  }
  const std::string written = text->substr(run.offset, run.length);
  if (written.find_first_of("x\xC3") != std::string::npos) {
    reader.note(field.fault(fmt::format("'{}' is no thickness; layers have a key", written),
                            "{sheet: 18 mm spruce plywood, layers: 2}"));
    return std::nullopt;
  }
  const auto thickness = quantity::parse_si(written, Kind::length);
  if (!thickness) {
    quantity::TextFault fault = thickness.error();
    fault.offset += run.offset;
    reader.note(field.fault(fault));
    return std::nullopt;
  }
  const std::string family =
      trimmed(text->substr(0, run.offset) + " " + text->substr(run.offset + run.length), " \t,");
  if (family.empty()) {
    reader.note(field.fault(fmt::format("'{}' does not say what the sheet is made of", *text),
                            std::string(board_example)));
    return std::nullopt;
  }
  return take_listed(reader, field, family, metres(*thickness));
}

/// `[3 mm, 4 mm along, 3 mm]`: from face to face; the grain turns at each unless it is said.
std::vector<Ply> read_plies(Reader& reader, const Field& field) {
  std::vector<Ply> plies;
  for (const Field& item : items_of(reader, field)) {
    std::string text = item.text();
    Ply ply{.thickness = {}, .along = plies.size() % 2 == 0};
    for (const std::string_view word : {" along", " across"}) {
      if (text.size() <= word.size() || !std::string_view(text).ends_with(word)) continue;
      text.resize(text.size() - word.size());
      ply.along = word == " along";
    }
    const auto thickness = quantity::parse_si(text, Kind::length);
    if (!thickness) {
      reader.note(item.fault(thickness.error()));
      continue;
    }
    if (*thickness < 1e-4 || *thickness > 0.1) {
      reader.note(item.fault("a ply is 0.1 to 100 mm thick", "3 mm across"));
      continue;
    }
    ply.thickness = metres(*thickness);
    plies.push_back(ply);
  }
  return plies;
}

bool is_symmetric(const std::vector<Ply>& plies) {
  if (plies.size() < 3) return false;
  for (std::size_t i = 0; i < plies.size(); ++i) {
    const Ply& other = plies[plies.size() - 1 - i];
    if (plies[i].along != other.along) return false;
    if (std::abs(in_si(plies[i].thickness - other.thickness)) > 1e-6) return false;
  }
  return true;
}

void take_layup(Reader& reader, Map& map, const Field& field, Panel& panel) {
  std::vector<Ply> plies = read_plies(reader, field);
  std::string wood = panel.family == "birch plywood" ? "birch" : "conifer";
  if (const auto named = map.text("wood")) wood = *named;
  const auto* veneer = reader.tables.veneer(wood);
  if (veneer == nullptr) {
    std::vector<std::string> known;
    for (const auto& v : reader.tables.veneers) known.push_back(v.key);
    unknown_word(reader, *map.find("wood"), wood, "veneer", known, "conifer");
    return;
  }
  const bool two_ways = std::any_of(plies.begin(), plies.end(), [](Ply p) { return p.along; }) &&
                        std::any_of(plies.begin(), plies.end(), [](Ply p) { return !p.along; });
  if (!is_symmetric(plies) || !two_ways) {
    reader.note(field.fault("the plies must be three or more, alike from both faces, and crossed",
                            "plies: [3 mm, 3 mm, 3 mm]"));
    return;
  }
  const Stress G_v = panel.G_v, f_v_k = panel.f_v_k;  // the layup does not tell these
  static_cast<PanelValues&>(panel) = reference::layup_values(plies, *veneer);
  panel.G_v = G_v;
  panel.f_v_k = f_v_k;
  panel.thickness = {};
  for (const Ply& ply : plies) panel.thickness += ply.thickness;
  panel.plies = std::move(plies);
}

struct OwnPair {
  std::string_view key;
  Stress PanelValues::*along;
  Stress PanelValues::*across;
};
constexpr std::array<OwnPair, 3> own_panel_moduli = {
    {{"E", &PanelValues::E_m_0, &PanelValues::E_m_90},
     {"E_in_plane", &PanelValues::E_t_0, &PanelValues::E_t_90},
     {"G_rolling", &PanelValues::G_r_0, &PanelValues::G_r_90}}};
constexpr std::array<OwnPair, 4> own_panel_strengths = {
    {{"bending", &PanelValues::f_m_0_k, &PanelValues::f_m_90_k},
     {"tension", &PanelValues::f_t_0_k, &PanelValues::f_t_90_k},
     {"compression", &PanelValues::f_c_0_k, &PanelValues::f_c_90_k},
     {"rolling", &PanelValues::f_r_0_k, &PanelValues::f_r_90_k}}};

/// `{along: 9 GPa, across: 4 GPa}`, or one value for both ways.
void read_pair(Reader& reader, Map& map, const OwnPair& own, Panel& panel) {
  const auto field = map.find(own.key);
  if (!field) return;
  given(panel.source, std::string(own.key));
  if (!field->is(document::Node::Kind::map)) {
    if (const auto both = positive_of<Stress>(reader, map, own.key, Kind::stress)) {
      panel.*own.along = *both;
      panel.*own.across = *both;
    }
    return;
  }
  Map pair(*field, reader.faults, fmt::format("{}: {{along: 9 GPa, across: 4 GPa}}", own.key));
  if (const auto v = positive_of<Stress>(reader, pair, "along", Kind::stress))
    panel.*own.along = *v;
  if (const auto v = positive_of<Stress>(reader, pair, "across", Kind::stress)) {
    panel.*own.across = *v;
  }
  pair.finish();
}

void read_own_panel_values(Reader& reader, Map& map, Panel& panel) {
  for (const OwnPair& own : own_panel_moduli) read_pair(reader, map, own, panel);
  if (const auto v = positive_of<Stress>(reader, map, "G", Kind::stress)) {
    panel.G_v = *v;
    given(panel.source, "G_v");
  }
  if (const auto v = positive_of<quantity::Density>(reader, map, "density", Kind::density)) {
    panel.rho_k = *v;
    panel.rho_mean = *v;
    given(panel.source, "rho_mean");
  }
  const auto field = map.find("strengths");
  if (!field) return;
  Map strengths(*field, reader.faults, "strengths: {bending: {along: 21 N/mm2, across: 11 N/mm2}}");
  for (const OwnPair& own : own_panel_strengths) read_pair(reader, strengths, own, panel);
  if (const auto v = positive_of<Stress>(reader, strengths, "shear", Kind::stress)) {
    panel.f_v_k = *v;
    given(panel.source, "f_v_k");
  }
  strengths.finish();
}

/// The record to begin with: that of the thickness, else the nearest of the family.
Panel start_from(Reader& reader, const std::string& family, std::optional<Length> thickness) {
  const std::vector<Length> known = reader.tables.panel_thicknesses(family);
  if (known.empty()) return {};
  const Length wanted = thickness.value_or(known.front());
  Panel panel = *reader.tables.panel(family, nearest_to(known, wanted));
  if (thickness && in_si(*thickness - panel.nominal) * in_si(*thickness - panel.nominal) > 9e-8) {
    panel.nominal = *thickness;
    panel.thickness = *thickness;
    panel.plies.clear();
  }
  return panel;
}

std::optional<Board> read_map(Reader& reader, const Field& field) {
  Map map(field, reader.faults, "sheet: {family: spruce plywood, thickness: 18 mm}");
  const auto family_field = map.need("family", "family: spruce plywood");
  const auto plies = map.find("plies");
  const auto thickness_field =
      plies ? map.find("thickness") : map.need("thickness", "thickness: 18 mm");
  const auto family = family_field ? text_of(reader, *family_field, "family: spruce plywood")
                                   : std::optional<std::string>();
  const auto thickness = thickness_field ? read_size(reader, *thickness_field) : std::nullopt;
  std::optional<Board> board;
  const auto* known = family ? reader.tables.panel_family(*family) : nullptr;
  if (family && known == nullptr) {
    unknown_word(reader, *family_field, *family, "sheet", reader.tables.panel_names(),
                 "spruce plywood");
  }
  const bool own = plies || map.has("E") || map.has("G") || map.has("strengths") || map.has("D") ||
                   map.has("A") || map.has("S");
  Panel panel = known != nullptr ? start_from(reader, *family, thickness) : Panel{};
  if (plies) {
    take_layup(reader, map, *plies, panel);
  } else if (known != nullptr && !own && thickness) {
    board = take_listed(reader, *thickness_field, *family, *thickness);
  }
  if (map.has("wood") && !plies) {
    reader.note(map.find("wood")->fault("'wood' says what plies are made of; there are none",
                                        "plies: [3 mm, 3 mm, 3 mm]"));
  }
  if (board) panel = board->panel;
  const std::size_t before = panel.source.exceptions.size();
  read_own_panel_values(reader, map, panel);
  read_sheet_stiffness(reader, map, panel);
  if (known != nullptr && own && panel.source.exceptions.size() > before) {
    reader.assume(fmt::format("the values of {} where a sheet gives none of its own", known->key));
  }
  if (plies && thickness && std::abs(in_si(*thickness - panel.thickness)) > 3e-4) {
    reader.note(
        thickness_field->fault(fmt::format("the plies add up to {}", say(panel.thickness, reader)),
                               fmt::format("thickness: {}", say(panel.thickness, reader))));
  }
  if (plies && panel.thickness > Length{}) panel.nominal = panel.thickness;
  map.finish();
  if (known == nullptr || (!board && !own) || panel.thickness <= Length{}) return std::nullopt;
  return Board{panel, *known};
}

}  // namespace

std::optional<Board> read_board(Reader& reader, const Field& field) {
  if (field.is(document::Node::Kind::map)) return read_map(reader, field);
  return read_text(reader, field);
}

}  // namespace standtrue::bench
