#include "tests/fuzz/drawn_bench.hpp"

#include "tests/fuzz/draw.hpp"

namespace fuzz {

namespace {

const std::vector<std::string> sections = {"45 x 95 mm", "70 x 70 mm",  "45 x 120 mm",
                                           "38 x 89 mm", "45 x 145 mm", "90 x 90 mm",
                                           "2x4",        "4x4",         "1x4"};
const std::vector<std::string> boards = {
    "18 mm spruce plywood", "24 mm birch plywood", "9 mm spruce plywood",
    "18 mm OSB/3",          "25 mm MDF",           "27 mm conifer plywood"};
const std::vector<std::string> kinds_of_joint = {"two corner brackets",
                                                 "corner brackets",
                                                 "ribbed corner brackets",
                                                 "bolted lap",
                                                 "screwed lap",
                                                 "plywood gusset",
                                                 "end-grain screws",
                                                 "pocket screws",
                                                 "half lap",
                                                 "glued tenon",
                                                 "glued",
                                                 "pinned",
                                                 "unknown"};
const std::vector<std::string> kinds_of_machine = {"drill press", "bench grinder", "metal lathe",
                                                   "wood lathe",  "bench mill",    "band saw",
                                                   "machine"};
const std::vector<std::string> sides = {"back", "front", "left", "right"};

std::string section(Draw& draw) {
  if (draw.one_in(10)) return draw.length(19, 200) + " x " + draw.length(19, 200);
  return draw.one(sections);
}

std::string timber(Draw& draw) {
  const std::string size = section(draw);
  if (!draw.one_in(8)) return draw.one({"C24", "C16", "D30", "GL24h", "pine"}) + " " + size;
  Group group;
  group.add("class", "C24").add("section", size);
  if (draw.one_in(2)) group.add("E", draw.amount(5, 14, "GPa"));
  if (draw.one_in(2)) group.add("G", draw.amount(400, 900, "MPa"));
  if (draw.one_in(2)) group.add("density", draw.amount(300, 700, "kg/m3"));
  if (draw.one_in(2)) {
    group.add("strengths", Group()
                               .add("bending", draw.amount(1, 40, "N/mm2"))
                               .add("shear", draw.amount(1, 5, "N/mm2"))
                               .text());
  }
  return group.text();
}

std::string joint(Draw& draw) {
  const std::string kind = draw.one(kinds_of_joint);
  if (!draw.one_in(4)) return kind;
  Group group;
  group.add("kind", kind);
  if (draw.one_in(3)) group.add("thickness", draw.length(2, 6));
  if (draw.one_in(3)) group.add("leg", draw.length(40, 150));
  if (draw.one_in(3)) group.add("width", draw.length(15, 60));
  if (draw.one_in(3)) group.add("fasteners", draw.few(6));
  if (draw.one_in(3)) group.add("rows", draw.few(2));
  if (draw.one_in(3)) group.add("pieces", draw.few(2));
  if (draw.one_in(3)) group.add("radius", draw.length(10, 80));
  if (draw.one_in(3)) group.add("screws", draw.length(3, 8) + " x " + draw.length(20, 140));
  if (draw.one_in(3)) group.add("bolts", draw.one({"M8", "M10", "M6", "M16"}));
  if (draw.one_in(3)) {
    group.add("stiffness", Group()
                               .add("bend", draw.amount(1, 50, "kN m/rad"))
                               .add("along", draw.amount(1, 50, "kN/mm"))
                               .text());
  }
  if (draw.one_in(3)) {
    group.add("resistance", Group()
                                .add("moment", draw.amount(1, 900, "N m"))
                                .add("shear", draw.amount(1, 9, "kN"))
                                .text());
  }
  return group.text();
}

/// Some of the keys that every member may have.
void add_member_keys(Draw& draw, Group& group) {
  if (draw.one_in(4)) group.add("section", section(draw));
  if (draw.one_in(8)) group.add("timber", timber(draw));
  if (draw.one_in(6)) group.add("joint", joint(draw));
}

std::string posts(Draw& draw, int length) {
  Group group;
  if (draw.one_in(3)) group.add("section", section(draw));
  if (draw.one_in(4)) group.add("turned", "yes");
  if (draw.one_in(3)) {
    std::vector<std::string> stations = {"0 mm"};
    const int bays = draw.whole(1, 3);
    for (int i = 1; i < bays; ++i) stations.push_back(draw.length(1, length));
    stations.push_back(std::to_string(length - 50) + " mm");
    group.add("stations", list(stations));
  }
  return group.text();
}

std::string level(Draw& draw) {
  if (draw.one_in(8)) return "none";
  Group group;
  add_member_keys(draw, group);
  if (draw.one_in(4)) group.add("underside", draw.length(50, 700));
  if (draw.one_in(8)) group.add("laid", "flat");
  if (draw.one_in(8)) group.add("seat", draw.one({"between", "on post face", "notched", "on top"}));
  if (draw.one_in(10)) group.add("notch", draw.length(5, 60));
  for (const char* side : {"long", "short", "front", "back", "left"}) {
    if (!draw.one_in(8)) continue;
    group.add(side, draw.one_in(2) ? "none" : Group().add("section", section(draw)).text());
  }
  return group.text();
}

std::string bearers(Draw& draw, int length) {
  Group group;
  switch (draw.whole(0, 2)) {
    case 0:
      group.add("count", draw.few(4));
      break;
    case 1:
      group.add("every", draw.length(150, 900));
      break;
    default:
      group.add("at", list({draw.place(length), draw.place(length)}));
  }
  if (draw.one_in(6)) group.add("run", "along");
  add_member_keys(draw, group);
  return group.text();
}

std::string brace(Draw& draw) {
  Group group;
  group.add("side", draw.one(sides)).add("kind", draw.one({"diagonal", "cross", "knee"}));
  if (draw.one_in(5)) group.add("low", draw.length(50, 400));
  if (draw.one_in(5)) group.add("high", draw.length(300, 900));
  if (draw.one_in(5)) group.add("leg", draw.length(100, 500));
  add_member_keys(draw, group);
  return group.text();
}

std::string stored(Draw& draw) {
  return draw.one_in(3) ? "none" : draw.amount(1, 90, draw.one({"kg", "kg/m2"}));
}

std::string board(Draw& draw) {
  if (!draw.one_in(8)) return draw.one(boards);
  Group group;
  group.add("family", draw.one({"spruce plywood", "birch plywood", "OSB/3", "MDF"}));
  group.add("thickness", draw.length(4, 60));
  if (draw.one_in(2)) group.add("E", draw.amount(1, 14, "GPa"));
  if (draw.one_in(2)) group.add("G", draw.amount(50, 900, "MPa"));
  if (draw.one_in(3)) group.add("density", draw.amount(300, 800, "kg/m3"));
  return group.text();
}

Group sheet(Draw& draw) {
  Group group;
  group.add("sheet", board(draw));
  if (draw.one_in(5)) group.add("layers", draw.few(3));
  if (draw.one_in(5)) group.add("layers_joined", draw.one({"glued", "loose", "screwed"}));
  if (draw.one_in(4)) group.add("grain", draw.one({"along", "across"}));
  if (draw.one_in(4)) group.add("fixed", draw.one({"screwed", "glued", "loose"}));
  if (draw.one_in(6)) group.add("screws", "{every: " + draw.length(50, 400) + "}");
  return group;
}

std::string cut_out(Draw& draw, int length, int depth) {
  const int x = draw.whole(0, length), y = draw.whole(0, depth);
  return "[{from: [" + std::to_string(x) + " mm, " + std::to_string(y) + " mm], to: [" +
         std::to_string(x + draw.whole(1, 300)) + " mm, " + std::to_string(y + draw.whole(1, 300)) +
         " mm]}]";
}

std::string top(Draw& draw, int length, int depth) {
  Group group = sheet(draw);
  if (draw.one_in(3)) group.add("load", stored(draw));
  if (draw.one_in(6)) group.add("overhang", draw.length(0, 100));
  if (draw.one_in(10)) group.add("cut_outs", cut_out(draw, length, depth));
  return group.text();
}

std::string shelf(Draw& draw, int length) {
  Group group = sheet(draw);
  group.add("load", stored(draw));
  if (draw.one_in(6)) group.add("from", draw.place(length)).add("to", draw.place(length));
  return group.text();
}

std::string feet(Draw& draw) {
  if (!draw.one_in(3)) return draw.one({"M10", "M8", "M16", "none"});
  Group group;
  if (draw.one_in(3))
    group.add("castor", draw.one({"50 mm", "75 mm", "100 mm"}));
  else
    group.add("thread", draw.one({"M12", "M8"})).add("extension", draw.length(10, 80));
  if (draw.one_in(3)) group.add("pad", draw.length(20, 100));
  if (draw.one_in(3)) group.add("material", draw.one({"rubber", "steel", "plastic", "timber"}));
  if (draw.one_in(3)) group.add("height_error", draw.length(0, 5));
  if (draw.one_in(4)) group.add("fixed", "yes");
  if (draw.one_in(3)) {
    group.add("each", "{front-left post: {height_error: " + draw.length(0, 10) + "}}");
  }
  return group.text();
}

std::string floor(Draw& draw) {
  Group group;
  group.add("surface", draw.one({"concrete", "tiles", "timber floor", "dusty concrete"}));
  if (draw.one_in(3))
    group.add("fall", "1 in " + draw.one({"80", "1", "1e6", "10"}) + " to " + draw.one(sides));
  if (draw.one_in(3)) group.add("friction", draw.one({"0.3", "0", "1e-9", "1", "50", "1e9"}));
  if (draw.one_in(4)) group.add("unevenness", draw.length(0, 20));
  if (draw.one_in(4)) group.add("levelled", "no");
  if (draw.one_in(4)) group.add("down", draw.amount(100, 9000, "N/mm"));
  if (draw.one_in(4)) group.add("sideways", draw.amount(100, 9000, "N/mm"));
  return group.text();
}

std::string wall(Draw& draw, int length) {
  if (draw.one_in(2)) {
    return Group().add("ledger", section(draw)).add("screws_every", draw.length(100, 600)).text();
  }
  return Group()
      .add("rail", "back top rail")
      .add("at", list({draw.place(length), draw.place(length)}))
      .text();
}

std::string machine(Draw& draw, int length, int depth) {
  Group group;
  group.add("kind", draw.one(kinds_of_machine));
  group.add("at", draw.one_in(3) ? "middle" : list({draw.place(length), draw.place(depth)}));
  if (!draw.one_in(4)) group.add("mass", draw.amount(1, 300, "kg"));
  if (draw.one_in(3)) group.add("mounting", draw.one({"bolted", "standing"}));
  if (draw.one_in(5)) group.add("turned", "yes");
  if (draw.one_in(4)) group.add("pads", draw.length(50, 500) + " x " + draw.length(50, 400));
  if (draw.one_in(6)) group.add("pad", draw.length(10, 80));
  if (draw.one_in(6)) group.add("centre", list({draw.place(200), draw.place(200)}));
  if (draw.one_in(6)) group.add("centre_height", draw.length(50, 900));
  if (draw.one_in(6)) group.add("speeds", draw.amount(20, 6000, "rpm"));
  if (draw.one_in(6)) group.add("bed_twist", draw.amount(1, 500, "kN m/rad"));
  if (draw.one_in(8)) group.add("sheet", "shelf");
  return group.text();
}

std::string load(Draw& draw, int length, int depth) {
  Group group;
  group.add("at", list({draw.place(length), draw.place(depth)}));
  switch (draw.whole(0, 2)) {
    case 0:
      group.add("down", draw.amount(1, 5000, "N"));
      break;
    case 1:
      group.add("mass", draw.amount(1, 200, "kg"));
      break;
    default:
      group.add("force", list({draw.amount(-500, 500, "N"), draw.amount(-500, 500, "N"),
                               draw.amount(-900, 500, "N")}));
  }
  if (draw.one_in(4)) group.add("duration", draw.one({"permanent", "instantaneous", "long term"}));
  return group.text();
}

template <class One>
std::string some(Draw& draw, int most, One one) {
  std::vector<std::string> items;
  const int n = draw.whole(1, most);
  for (int i = 0; i < n; ++i) items.push_back(one());
  return list(items);
}

}  // namespace

std::string drawn_bench(const std::uint8_t* data, std::size_t size, const std::string& sheets) {
  Draw draw(data, size);
  const int length = 700 + draw.whole(0, 2000), depth = 400 + draw.whole(0, 600);
  std::string text = "standtrue: 1\n";
  const auto line = [&](const char* key, const std::string& value) {
    text += std::string(key) + ": " + value + "\n";
  };
  line("size", draw.one_in(12) ? draw.length(100, 9000) + " x " + draw.length(100, 3000) + " x " +
                                     draw.length(100, 3000)
                               : std::to_string(length) + " x " + std::to_string(depth) + " x " +
                                     std::to_string(600 + draw.whole(0, 500)) + " mm");
  line("timber", timber(draw));
  line("joints", joint(draw));
  line("top", top(draw, length, depth));
  line("analysis", "{sheets: " + sheets + (draw.one_in(12) ? ", combination: as given" : "") + "}");
  if (draw.one_in(2)) line("posts", posts(draw, length));
  if (draw.one_in(2))
    line("rails", Group().add("top", level(draw)).add("lower", level(draw)).text());
  if (draw.one_in(3)) line("shelf", shelf(draw, length));
  if (draw.one_in(3)) line("bearers", bearers(draw, length));
  if (draw.one_in(3)) line("braces", some(draw, 3, [&] { return brace(draw); }));
  if (draw.one_in(6))
    line("sheets", list({sheet(draw).add("side", draw.one({"back", "left", "right"})).text()}));
  if (draw.one_in(3)) line("feet", feet(draw));
  if (draw.one_in(3)) line("floor", floor(draw));
  if (draw.one_in(6)) line("wall", wall(draw, length));
  if (draw.one_in(2)) line("machines", some(draw, 4, [&] { return machine(draw, length, depth); }));
  if (draw.one_in(6)) line("vice", "vice");
  if (draw.one_in(4)) line("loads", some(draw, 3, [&] { return load(draw, length, depth); }));
  if (draw.one_in(4)) line("duty", draw.one({"light", "planing", "metal machines"}));
  if (draw.one_in(4)) line("air", draw.one({"heated", "outdoors"}));
  return text;
}

}  // namespace fuzz
