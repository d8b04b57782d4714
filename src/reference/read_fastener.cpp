#include "reference/readers.hpp"

namespace standtrue::reference {
namespace {

using quantity::Area;
using quantity::Density;
using quantity::Force;
using quantity::Kind;
using quantity::LinearStiffness;
using quantity::Moment;
using quantity::RotationalStiffness;

Force force(const Record& r, std::string_view column) { return r.read<Force>(column, Kind::force); }

}  // namespace

void read_screw(const Record& r, Tables& out) {
  Screw s;
  s.key = r.key();
  s.diameter = length(r, "diameter");
  s.root = length(r, "root");
  s.shank = length(r, "shank");
  s.head = length(r, "head");
  s.M_y_k = r.read<Moment>("M_y_k", Kind::moment);
  s.f_tens_k = force(r, "f_tens_k");
  s.f_ax_k = stress(r, "f_ax_k");
  s.f_head_k = stress(r, "f_head_k");
  s.rho_a = r.read<Density>("rho_a", Kind::density);
  s.all_thread_to = length(r, "all_thread_to");
  s.thread_share = r.number("thread_share");
  for (const std::string& mm : r.list("lengths")) {
    const auto value = quantity::parse_number(mm);
    if (!value) r.fault(mm, value.error().what);
    s.lengths.push_back(quantity::millimetres(*value));
  }
  s.source = r.sources();
  out.screws.push_back(std::move(s));
}

void read_bolt(const Record& r, Tables& out) {
  out.bolts.push_back({.key = r.key(),
                       .diameter = length(r, "diameter"),
                       .stress_area = r.read<Area>("stress_area", Kind::area),
                       .root = length(r, "root"),
                       .washer = length(r, "washer"),
                       .washer_thickness = length(r, "washer_thickness"),
                       .plain_washer = length(r, "plain_washer"),
                       .hole_clearance = length(r, "hole_clearance"),
                       .source = r.sources()});
}

void read_steel(const Record& r, Tables& out) {
  out.steels.push_back({.key = r.key(),
                        .f_y = stress(r, "f_y"),
                        .f_u = stress(r, "f_u"),
                        .E = stress(r, "E"),
                        .G = stress(r, "G"),
                        .rho = r.read<Density>("rho", Kind::density),
                        .source = r.sources()});
}

void read_joint(const Record& r, Tables& out) {
  constexpr std::pair<std::string_view, Fastening> fastenings[] = {
      {"none", Fastening::none},         {"bracket", Fastening::bracket},
      {"bolts", Fastening::bolts},       {"gusset", Fastening::gusset},
      {"glue", Fastening::glue},         {"end grain screws", Fastening::end_grain_screws},
      {"tenon", Fastening::tenon},       {"pocket screws", Fastening::pocket_screws},
      {"half lap", Fastening::half_lap}, {"lap screws", Fastening::lap_screws}};
  JointKind j;
  j.key = r.key();
  j.names = r.names();
  j.fastening = r.one_of("fastening", fastenings);
  j.bend = r.band<RotationalStiffness>("bend", Kind::rotational_stiffness);
  j.place = r.text("place");
  j.pieces = r.count("pieces");
  j.leg = length(r, "leg");
  j.width = length(r, "width");
  j.thickness = length(r, "thickness");
  j.ribbed = r.yes("ribbed");
  j.plate_steel = r.text("plate_steel");
  j.gusset_family = r.text("gusset_family");
  j.fasteners = r.count("fasteners");
  j.rows = r.count("rows");
  j.fastener_diameter = length(r, "fastener_diameter");
  j.fastener_length = length(r, "fastener_length");
  j.bolt_steel = r.text("bolt_steel");
  j.first = length(r, "first");
  j.pitch = length(r, "pitch");
  j.radius = length(r, "radius");
  j.clearance = length(r, "clearance");
  j.source = r.sources();
  out.joint_kinds.push_back(std::move(j));
}

void read_foot(const Record& r, Tables& out) {
  out.feet.push_back({.key = r.key(),
                      .diameter = length(r, "diameter"),
                      .stress_area = r.read<Area>("stress_area", Kind::area),
                      .root = length(r, "root"),
                      .f_y = stress(r, "f_y"),
                      .f_u = stress(r, "f_u"),
                      .pad = length(r, "pad"),
                      .plastic_rating = force(r, "plastic_rating"),
                      .steel_rating = force(r, "steel_rating"),
                      .insert_flange = length(r, "insert_flange"),
                      .insert_barrel = length(r, "insert_barrel"),
                      .insert_length = length(r, "insert_length"),
                      .source = r.sources()});
}

void read_castor(const Record& r, Tables& out) {
  out.castors.push_back({.key = r.key(),
                         .wheel = length(r, "wheel"),
                         .height = length(r, "height"),
                         .rating = force(r, "rating"),
                         .source = r.sources()});
}

void read_floor(const Record& r, Tables& out) {
  out.floors.push_back({.key = r.key(),
                        .names = r.names(),
                        .contact = r.band<LinearStiffness>("contact", Kind::linear_stiffness),
                        .foot_load = force(r, "foot_load"),
                        .rubber = r.number("rubber"),
                        .plastic = r.number("plastic"),
                        .steel = r.number("steel"),
                        .timber = r.number("timber"),
                        .source = r.sources()});
}

}  // namespace standtrue::reference
