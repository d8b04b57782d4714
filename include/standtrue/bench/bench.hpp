#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "standtrue/diagnostic.hpp"
#include "standtrue/quantity/quantity.hpp"
#include "standtrue/quantity/unit_text.hpp"
#include "standtrue/reference/tables.hpp"

/// What the builder describes, part by part, in shop words. The short form of a bench file is
/// turned into these parts by the reader; nothing here knows of nodes or stiffness.
///
/// Places: origin at the front-left outer corner of the posts, on the floor; x along, y to the
/// back, z up. Names are unique and stable: "front-left post", "front top rail", "top".
namespace standtrue::bench {

using quantity::Force;
using quantity::Length;
using quantity::LineLoad;
using quantity::Mass;
using quantity::Moment;
using quantity::Stress;

/// A piece of timber as bought: its class (values possibly given by the file) and its two sides.
struct Stock {
  reference::Timber timber;
  Length thickness;    ///< the smaller side
  Length depth;        ///< the larger side
  bool marked = true;  ///< false: class assumed, because the file does not say
};

/// How a rail end is joined. `kind` may carry values changed by the file. Stiffness or resistance
/// given by the file replace what geometry would give, at every bound.
struct Joint {
  reference::JointKind kind;
  struct Stiffness {
    std::optional<quantity::RotationalStiffness> bend, sideways, twist;
    std::optional<quantity::LinearStiffness> along, across;
  } stiffness;
  std::optional<Moment> moment_resistance;  ///< characteristic, of one rail end
  std::optional<Force> shear_resistance;    ///< characteristic, of one rail end
  std::string place;  ///< "under", "above", "inside face", "both faces", "lap", "end"
};

/// An adjustable foot under a post.
struct Foot {
  reference::Foot thread;
  Length extension;  ///< free stem below the post
  Length pad;        ///< diameter
  reference::FootMaterial material = reference::FootMaterial::plastic;
  Length height_error;                      ///< positive: too short (or the floor is low there)
  bool bare = false;                        ///< the post stands on the floor itself
  bool fixed = false;                       ///< bolted to the floor, which is not judged
  std::optional<reference::Castor> castor;  ///< it rolls on this; `extension` is its height
};

/// A post; or, `on_wall`, a station of the ledger: no timber and no foot, but the place behind a
/// row of front posts where a rail may end. Its x and y are on the ledger's axis, `bottom` to `top`
/// is the ledger's height, `along_y` its thickness.
struct Post {
  std::string name;
  bool on_wall = false;
  Length x, y;              ///< of its axis at the top
  Length foot_x, foot_y;    ///< of its axis at the bottom; the same unless it is splayed
  Length bottom, top;       ///< heights of its ends above the floor
  Length along_x, along_y;  ///< sides
  Stock stock;
  Foot foot;
};

enum class Level { top, lower, other };
enum class Seat { between, post_face, notched, on_top };

/// A rail runs along x or along y between two posts. Its axis passes the posts' axes at the
/// horizontal distance `aside` (positive to +y for rails along x, to +x for rails along y).
struct Rail {
  std::string name;
  std::size_t from = 0, to = 0;  ///< places in Bench::posts; `from` has the smaller x (or y)
  bool along_x = true;
  Length height;  ///< of its axis
  Length width;   ///< horizontal side
  Length depth;   ///< upright side
  Length aside;
  Length notch;  ///< cut out of its underside at each end, where it lies on its seat
  /// A ledger: screwed to the wall, in one piece through all stations, past the first and last of
  /// them by half their `along_x`. It has no joints at its ends.
  bool on_wall = false;
  Level level = Level::top;
  Seat seat = Seat::between;
  Stock stock;
  Joint start, end;
};

/// A member under a sheet from one rail to another, square to both.
struct Bearer {
  std::string name;
  std::size_t from = 0, to = 0;  ///< places in Bench::rails, parallel to each other
  Length at;                     ///< along those rails: x for a bearer along y, y for one along x
  Length height;                 ///< of its axis
  Length width, depth;
  Stock stock;
  Joint start, end;
};

/// A straight diagonal between points on two posts (or a post and a rail, for knees), pinned.
struct Brace {
  std::string name;
  std::size_t post = 0;  ///< its lower end is on this post
  Length post_height;
  std::optional<std::size_t> to_post;  ///< upper end on this post at `to_at` above the floor
  std::optional<std::size_t>
      to_rail;  ///< or on this rail, `to_at` along from its start post's axis
  Length to_at;
  Stock stock;
  reference::JointKind joint;                     ///< its fastening at each end
  std::optional<quantity::LinearStiffness> slip;  ///< along it, of one end; given by the file
  std::optional<Force> resistance;  ///< characteristic, along it, of one end; given by the file
};

enum class SheetPlace { top, shelf, back, end };

struct Screws {
  reference::Screw screw;
  Length length;
  Length every;
  Length clear_of_post;  ///< no screw nearer to a post
  bool into_posts = false;
  std::optional<quantity::LinearStiffness> slip;  ///< of one screw, given by the file
};
enum class Bond { loose, screwed, glued };

/// A flat board. Lying ones (top, shelf) span x0..x1, y0..y1 at the height of their underside;
/// upright ones (back, end) use z0..z1 too.
struct Sheet {
  std::string name;
  SheetPlace place = SheetPlace::top;
  Length x0, x1, y0, y1;
  Length underside;
  Length z0, z1;
  reference::Panel panel;
  reference::PanelFamily family;
  bool grain_along_x = true;  ///< face grain; of upright sheets: it lies level
  int layers = 1;
  Bond between_layers = Bond::loose;
  Bond bond = Bond::screwed;  ///< to what carries it
  Screws screws;
  struct CutOut {
    Length x0, x1, y0, y1;
  };
  std::vector<CutOut> cut_outs;
  std::vector<std::size_t> rails;    ///< that carry it
  std::vector<std::size_t> bearers;  ///< that carry it
  std::optional<Stress> stored;      ///< what is stored on it, all over
  bool stored_assumed = false;
};

/// A machine on its pads. `x`, `y`: the middle of its pads on the sheet.
struct Machine {
  std::string name;  ///< unique: "drill press", "bench grinder 2"
  reference::Machine kind;
  Mass mass;
  Length x, y;
  std::size_t sheet = 0;         ///< place in Bench::sheets
  Length pads_x, pads_y;         ///< rectangle of the pad centres; after turning
  Length pad;                    ///< side of one square pad
  Length cg_x, cg_y, cg_height;  ///< of its mass, from the middle of the pads, above the sheet
  quantity::Frequency speed_min, speed_max;
  bool bolted = false;
  enum class Axis { x, y, z } spindle = Axis::x;  ///< about which it turns
  std::optional<quantity::RotationalStiffness> bed_twist;
};

struct KeepOff {
  Length x0, x1, y0, y1;
};

struct Floor {
  reference::Floor surface;
  double fall_x = 0.0, fall_y = 0.0;  ///< rise over run, positive: falls towards +x, +y
  Length unevenness;                  ///< under the worst foot
  bool levelled = true;               ///< feet are set so that all touch, the fall taken out
  std::vector<KeepOff> keep_off;
  Length edge_distance;  ///< wanted between a pad and a keep-off strip
  std::optional<quantity::LinearStiffness> down, sideways;  ///< per foot, given by the file
  std::optional<double> friction;
};

/// A force or a mass the file adds, at a point of the top or a shelf.
struct FreeLoad {
  std::string name;
  std::size_t sheet = 0;
  Length x, y;
  Force fx, fy, fz;  ///< global; fz negative presses down
  Mass mass;         ///< of a body; its weight is in fz already
  reference::Duration duration = reference::Duration::short_term;
};

/// By which members are judged: partial factors (EN 1995-1-1) or allowable stresses.
enum class Rules { limit_states, allowable_stress };

struct Analysis {
  /// How sheets are computed: as plates, as strips under the pads of machines, or not at all.
  enum class Sheets { shell, strip, none } sheets = Sheets::shell;
  Length mesh;            ///< largest cell of a plate
  bool as_given = false;  ///< no partial factors, no creep
};

/// A rail fixed to a wall: what of the wall is not judged.
struct WallFixing {
  std::string rail;
  Length at;  ///< along the rail from the middle of its first post; of a ledger from its left end
};

struct Bench {
  std::string title;
  Length length, depth, height;  ///< over the top sheet's surface; zero when built from parts
  std::vector<Post> posts;
  std::vector<Rail> rails;
  std::vector<Bearer> bearers;
  std::vector<Brace> braces;
  std::vector<Sheet> sheets;
  std::vector<Machine> machines;
  std::vector<FreeLoad> loads;
  std::vector<WallFixing> wall;
  Floor floor;
  reference::Duty duty;
  reference::Air air;
  bool bought_damp = false;
  Rules rules = Rules::limit_states;
  Analysis analysis;
  quantity::UnitSystem units = quantity::UnitSystem::metric;
  std::vector<std::string> assumptions;  ///< "I assumed C16 timber: the file names no class"
};

}  // namespace standtrue::bench
