#pragma once

#include <fmt/format.h>

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "standtrue/bench/bench.hpp"
#include "standtrue/document/document.hpp"

/// The parts of the reader of bench files. Each reads one section of the file into `bench`, notes
/// every fault and goes on with a stand-in, so that all faults are found in one run. Geometry is
/// checked only when no fault was found.
namespace standtrue::bench {

using document::Field;
using document::Map;
using quantity::in_si;
using quantity::Kind;
using quantity::metres;
using quantity::millimetres;

/// What the file says of a ledger, known before the posts are read.
struct Ledger {
  Field field;  ///< to blame
  Stock stock;
};

struct Reader {
  const reference::Tables& tables;
  std::vector<Diagnostic>& faults;
  Bench bench;
  std::map<std::string, Field> places;  ///< by part: the field to blame for it

  std::optional<Stock> stock;  ///< of members that say nothing else
  std::optional<Field> stock_place;
  Joint joint;  ///< of rail ends that say nothing else
  std::optional<Field> joint_place;
  Foot foot;
  std::optional<Ledger> ledger;  ///< in place of back posts

  std::vector<std::string> noted;  ///< what note_once has noted

  void note(Diagnostic diagnostic) { faults.push_back(std::move(diagnostic)); }
  /// For what many parts share: only the first such fault of a field is noted.
  void note_once(const std::string& sort, Diagnostic diagnostic);
  /// "I assumed ..." once, however many parts it holds for.
  void assume(const std::string& what);
  /// The field to blame for a part; `otherwise` if it has none of its own.
  [[nodiscard]] const Field& place(const std::string& part, const Field& otherwise) const;
};

// values.cpp: small readers. Sizes are 1 mm to 100 m; places may be zero or negative.
[[nodiscard]] std::optional<Length> read_size(Reader& reader, const Field& field);
[[nodiscard]] std::optional<Length> read_place(Reader& reader, const Field& field);
[[nodiscard]] std::optional<Length> size(Reader& reader, Map& map, std::string_view key);
[[nodiscard]] std::optional<Length> place(Reader& reader, Map& map, std::string_view key);
/// As `size`, but zero is allowed.
[[nodiscard]] std::optional<Length> size_or_zero(Reader& reader, Map& map, std::string_view key);
/// `[300 mm, 340 mm]`
[[nodiscard]] std::optional<std::array<Length, 2>> place_pair(Reader& reader, const Field& field);
[[nodiscard]] std::optional<std::array<Length, 2>> place_pair(Reader& reader, Map& map,
                                                              std::string_view key);
/// A number in SI that must be over zero (`zero` lets nought pass) and not absurd.
[[nodiscard]] std::optional<double> positive(Reader& reader, Map& map, std::string_view key,
                                             Kind kind, bool zero = false);
template <class Quantity>
[[nodiscard]] std::optional<Quantity> positive_of(Reader& reader, Map& map, std::string_view key,
                                                  Kind kind, bool zero = false) {
  const std::optional<double> value = positive(reader, map, key, kind, zero);
  return value ? std::optional<Quantity>(quantity::from_si<Quantity>(*value)) : std::nullopt;
}
/// A whole number from 1 to 200.
[[nodiscard]] std::optional<int> few(Reader& reader, Map& map, std::string_view key);
/// The text of a scalar, or a fault with the example.
[[nodiscard]] std::optional<std::string> text_of(Reader& reader, const Field& field,
                                                 std::string_view example);
/// Faults `word`, which stands in `field`, and offers the nearest of `known`.
void unknown_word(Reader& reader, const Field& field, std::string_view word, std::string_view what,
                  const std::vector<std::string>& known, std::string_view example);
/// Items of a list; a single thing counts as a list of one. More than 200 is a fault.
[[nodiscard]] std::vector<Field> items_of(Reader& reader, const Field& field);
/// Without those of `marks` that stand at its ends.
[[nodiscard]] std::string trimmed(std::string_view text, std::string_view marks);
/// The file gives this value itself.
void given(reference::RecordSource& source, std::string value);
[[nodiscard]] bool is_text(const Field& field, std::string_view text);
/// A key that may go by two names: `legs` for `posts`. Both at once is a fault.
[[nodiscard]] std::optional<Field> either(Reader& reader, Map& map, std::string_view key,
                                          std::string_view other);
[[nodiscard]] std::string say(Length length, const Reader& reader);
/// "the front-left post", but "'A'" for a name that the file gave in one word.
[[nodiscard]] std::string called(const std::string& name);

// stock.cpp
/// `C16 38 x 89 mm`, `2x4`, or a map with the timber's own values. What is left out comes from
/// `usual`; a size that comes from nowhere is a fault.
[[nodiscard]] std::optional<Stock> read_stock(Reader& reader, const Field& field,
                                              const std::optional<Stock>& usual);
/// The keys `timber` and `section` of a part.
[[nodiscard]] std::optional<Stock> member_stock(Reader& reader, Map& map,
                                                const std::optional<Stock>& usual);
void read_default_stock(Reader& reader, Map& top, bool is_needed);

// rules.cpp: by which rules members are judged, and which timber these know.
void read_rules(Reader& reader, Map& top);
/// What timber is taken for where the file names no class.
[[nodiscard]] const reference::Timber& unmarked_timber(const Reader& reader);
/// The timber that a name means under the file's rules. A grade under the other rules is a fault,
/// noted, and answered by a stand-in.
[[nodiscard]] const reference::Timber& by_rules(Reader& reader, const Field& field,
                                                const std::string& name,
                                                const reference::Timber& timber);
/// Whether a name is that of a class or grade, and not a word for a wood.
[[nodiscard]] bool is_class_name(const reference::Timber& timber, const std::string& name);
/// A grade whose values go by width takes those of the stock's.
void take_values_of_width(Reader& reader, const Field& field, Stock& stock);

// joints.cpp
/// A joint with `stiffness` and no `kind` is of no known build, unless it `keeps_usual_kind`.
[[nodiscard]] Joint read_joint(Reader& reader, const Field& field, const Joint& usual,
                               bool keeps_usual_kind = false);
[[nodiscard]] Joint joint_of(Reader& reader, std::string_view kind);
/// One piece lies on the face of the other.
[[nodiscard]] bool is_lapped(const Joint& joint);
void read_default_joint(Reader& reader, Map& top);

// board.cpp
inline constexpr std::string_view board_example = "18 mm spruce plywood";
struct Board {
  reference::Panel panel;
  reference::PanelFamily family;
};
[[nodiscard]] std::optional<Board> read_board(Reader& reader, const Field& field);

// sheet_rule.cpp
/// What a load on a sheet is before its area is known.
struct Stored {
  std::optional<Stress> spread;
  std::optional<Mass> total;
};
[[nodiscard]] std::optional<Stored> read_stored(Reader& reader, const Field& field);

struct Edges {
  Length front, back, left, right;
};
/// A sheet as written, before the frame tells where it lies.
struct SheetRule {
  Sheet sheet;
  Edges overhang;
  std::optional<bool> grain_along;
  std::optional<Length> from, to;  ///< part of the length (shelves) or of the height (back, ends)
  std::optional<Length> underside;
  std::optional<Stored> stored;
  std::string side;  ///< of upright sheets
  [[nodiscard]] Length thickness() const {
    return sheet.panel.thickness * static_cast<double>(sheet.layers);
  }
};
[[nodiscard]] SheetRule read_sheet_rule(Reader& reader, const Field& field, SheetPlace place,
                                        const std::string& name);
/// A stand-in for a sheet that the file does not give.
[[nodiscard]] SheetRule any_sheet_rule(const Reader& reader, SheetPlace place,
                                       const std::string& name);
/// The keys that any sheet may have; the caller finishes the map.
void read_sheet_keys(Reader& reader, Map& map, SheetRule& rule);
void read_stored_on(Reader& reader, Map& top);
[[nodiscard]] Screws usual_screws(const Reader& reader, Length thickness);

// sheets.cpp: sheets on the frame that has been read.
[[nodiscard]] SheetRule read_top(Reader& reader, Map& top);
void place_top(Reader& reader, SheetRule rule, Length length, Length depth, Length height);
void read_shelves(Reader& reader, Map& top);
void read_upright_sheets(Reader& reader, Map& top);
/// Rails and bearers whose top is at its underside, stored load, sheet's name; then adds it.
void add_sheet(Reader& reader, SheetRule rule);
/// Turns distances from the front-left corner of the sheet into places.
void from_corner(Sheet& sheet);

// posts.cpp
struct PostPlan {
  Length length, depth;  ///< over the posts' outer faces
  Length top;
  std::size_t stations = 2;
};
[[nodiscard]] PostPlan read_posts(Reader& reader, Map& top, Length length, Length depth);
void set_post_tops(Reader& reader, Length top);

// rails.cpp
[[nodiscard]] std::optional<Seat> seat_of(Map& map);  ///< the key `seat`
/// A notch wants a seat, and some wood left over it.
void check_notch(Reader& reader, const Rail& rail, const Field& field);
void read_rails(Reader& reader, Map& top, std::size_t stations, Length underside_of_top);

// bearers.cpp, braces.cpp
void read_bearers(Reader& reader, Map& top, Length underside_of_top);
/// Adds it if it reaches two rails whose tops are at `top_at`, square to it; else a fault.
void add_bearer(Reader& reader, Bearer bearer, bool across, Length top_at, const Field& field);
void read_braces(Reader& reader, Map& top);
/// Of a brace whose fastening the file does not give; says so.
void take_usual_bolts(Reader& reader, Brace& brace);
/// Joint, slip and resistance of a brace: its ends are pinned, so what the file gives is along it.
/// False where the file does not say how it is fastened.
[[nodiscard]] bool read_brace_joint(Reader& reader, Map& map, Brace& brace);
[[nodiscard]] Joint bearer_joint(Reader& reader, Map& map);

// ledger.cpp
void find_ledger(Reader& reader, Map& top);  ///< into `Reader::ledger`, before posts and top
/// "what: a bench on a ledger has no back posts"
void refuse_behind_ledger(Reader& reader, const Field& field, const std::string& what,
                          const std::string& instead);
/// Faults rails that the file asks for where the ledger is, or where they would end on back posts.
void refuse_rails_behind_ledger(Reader& reader, const std::optional<Field>& top_rails,
                                const std::optional<Field>& lower_rails);
/// The joint of a rail's end on the ledger, where `wanted` is that of its other end.
[[nodiscard]] Joint joint_on_ledger(Reader& reader, const Joint& wanted);
/// Adds it, its top at `top`, behind so many stations.
void hang_ledger(Reader& reader, std::size_t stations, Length top);
void read_ledger(Reader& reader, Map& map);  ///< its screws, from its item of `wall`

// feet.cpp
void read_default_foot(Reader& reader, Map& top);
void read_each_foot(Reader& reader, Map& top);
void read_foot_keys(Reader& reader, Map& map, Foot& foot);

// floor.cpp, machines.cpp, loads.cpp, analysis.cpp, parts_form.cpp
void read_floor(Reader& reader, Map& top);
void read_wall(Reader& reader, Map& top);
void tell_fall(Reader& reader);  ///< whether the bench leans with its floor; after the wall
void read_machines(Reader& reader, Map& top);
void read_vice(Reader& reader, Map& top);
void read_loads(Reader& reader, Map& top);
void read_use(Reader& reader, Map& top);
void read_analysis(Reader& reader, Map& top);
void check_what_is_read_apart(Reader& reader, Map& top);
void read_parts(Reader& reader, Map& top, const Field& parts);

/// The sheet that `sheet:` names, else the top; nothing if there is none by that name.
[[nodiscard]] std::optional<std::size_t> sheet_of(Reader& reader, Map& map);
/// A place on a sheet: `middle`, `[300 mm, 340 mm]` from its front-left corner, or one length
/// along.
struct Spot {
  Length x, y;
};
[[nodiscard]] std::optional<Spot> read_spot(Reader& reader, const Field& field, const Sheet& sheet);
[[nodiscard]] std::string unique_name(const std::vector<std::string>& taken,
                                      const std::string& wanted);

// Geometry, when the file has no fault.
void check_frame(Reader& reader, const Field& root);
void check_sheets(Reader& reader, const Field& root);
void check_feet(Reader& reader, const Field& root);
void check_machines(Reader& reader, const Field& root);
void fit_brackets(Reader& reader);
void read_sheet_stiffness(Reader& reader, Map& map, reference::Panel& panel);
void check_brackets(Reader& reader, const Field& root);

}  // namespace standtrue::bench
