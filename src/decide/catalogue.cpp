#include "decide/catalogue.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "standtrue/bench/ledger.hpp"
#include "standtrue/document/overlay.hpp"

namespace standtrue::decide {

using quantity::in_si;

namespace {

class Making {
 public:
  explicit Making(const Base& base) : base_(base) {}

  void keys(std::string name, std::string yaml, int pieces, int joints) {
    keep(with_keys(base_, std::move(name), std::move(yaml)), pieces, joints);
  }
  void one_more(std::string name, std::string_view key, const std::string& item, int pieces,
                int joints) {
    keep(with_one_more(base_, std::move(name), key, item), pieces, joints);
  }
  void keep(Option option, int pieces, int joints) {
    option.pieces = pieces;
    option.joints = joints;
    all_.push_back(std::move(option));
  }
  [[nodiscard]] const Base& base() const { return base_; }
  [[nodiscard]] const bench::Bench& bench() const { return base_.bench; }
  [[nodiscard]] std::vector<Option> all() && { return std::move(all_); }

 private:
  const Base& base_;
  std::vector<Option> all_;
};

void rails(Making& make) {
  const std::vector<bench::Rail>& rails = make.bench().rails;
  const auto deeper_of = [&](bench::Level level, bool along, const char* keys, const char* name) {
    const auto is_one = [&](const bench::Rail& r) {
      return r.level == level && r.along_x == along && !r.on_wall;
    };
    const auto first = std::find_if(rails.begin(), rails.end(), is_one);
    if (first == rails.end()) return;
    const auto n = std::count_if(rails.begin(), rails.end(), is_one);
    const auto next = next_deeper(first->stock, make.base().tables);
    if (!next) return;
    std::string write = fmt::format(fmt::runtime(keys), written(*next));
    std::string what = fmt::format("{} of {}", name, written(next->thickness, next->depth));
    const bench::Rail* ledger = bench::ledger_of(make.bench());
    if (!along && ledger != nullptr && ledger->depth < next->depth) {
      // Rails that end on a ledger are no deeper than it is.
      const std::string deeper = with_ledger_of(make.base(), *next);
      if (deeper.empty()) return;
      write += "\n" + deeper;
      what += ", and the ledger as deep";
    }
    make.keys(std::move(what), std::move(write), static_cast<int>(n), 0);
  };
  deeper_of(bench::Level::top, true, "rails: {{top: {{long: {{timber: {}}}}}}}", "long top rails");
  deeper_of(bench::Level::top, false, "rails: {{top: {{short: {{timber: {}}}}}}}",
            "short top rails");
  deeper_of(bench::Level::lower, true, "rails: {{lower: {{long: {{timber: {}}}}}}}",
            "long lower rails");
}

void ledger(Making& make) {
  const bench::Rail* ledger = bench::ledger_of(make.bench());
  if (ledger == nullptr) return;
  if (const auto next = next_deeper(ledger->stock, make.base().tables)) {
    const std::string write = with_ledger_of(make.base(), *next);
    if (write.empty()) return;
    make.keys(fmt::format("a ledger of {}", written(next->thickness, next->depth)), write, 1, 0);
  }
}

/// Under each machine that stands on the top, unless one is there.
void bearers(Making& make) {
  const bench::Sheet* top = top_of(make.bench());
  if (top == nullptr) return;
  for (const bench::Machine& machine : make.bench().machines) {
    if (make.bench().sheets.at(machine.sheet).place != bench::SheetPlace::top) continue;
    const bool is_there = std::any_of(
        make.bench().bearers.begin(), make.bench().bearers.end(),
        [&](const bench::Bearer& b) { return std::abs(in_si(b.at - machine.x)) < 0.05; });
    if (is_there) continue;
    make.one_more(fmt::format("a bearer under the {}", machine.name), "bearers",
                  fmt::format("{{at: [{}]}}", written(machine.x)), 1, 2);
  }
}

void sheets(Making& make) {
  const bench::Sheet* top = top_of(make.bench());
  if (top == nullptr) return;
  const std::vector<quantity::Length> all = thicknesses(*top, make.base().tables);
  const auto thicker = std::find_if(all.begin(), all.end(), [&](quantity::Length t) {
    return in_si(t - top->panel.nominal) > 0.5e-3;
  });
  if (thicker != all.end()) {
    const bool is_layered = top->layers > 1;
    make.keys(fmt::format("a top of {}{}", is_layered ? fmt::format("{} x ", top->layers) : "",
                          written(*thicker)),
              fmt::format("top: {{sheet: {} {}{}}}", written(*thicker), top->family.key,
                          is_layered ? fmt::format(", layers: {}, layers_joined: {}", top->layers,
                                                   written(top->between_layers))
                                     : ""),
              top->layers, 0);
  }
  make.keys(top->grain_along_x ? "the top's grain turned from front to back"
                               : "the top's grain turned along the bench",
            fmt::format("top: {{sheet: {} {}, grain: {}}}", written(top->panel.nominal),
                        top->family.key, top->grain_along_x ? "across" : "along"),
            0, 0);
}

bool has_brace(const bench::Bench& bench, const std::string& side) {
  return std::any_of(bench.braces.begin(), bench.braces.end(),
                     [&](const bench::Brace& b) { return b.name.rfind(side, 0) == 0; });
}

bool has_back_sheet(const bench::Bench& bench) {
  return std::any_of(bench.sheets.begin(), bench.sheets.end(), [](const bench::Sheet& sheet) {
    return sheet.place == bench::SheetPlace::back;
  });
}

void braces(Making& make) {
  if (bench::ledger_of(make.bench()) != nullptr) {
    if (!has_brace(make.bench(), "front")) {
      make.one_more("one diagonal in the front", "braces", "{side: front}", 1, 2);
    }
    return;
  }
  const bool back = has_brace(make.bench(), "back");
  const bool ends = has_brace(make.bench(), "left") || has_brace(make.bench(), "right");
  if (!back) {
    make.one_more("one diagonal in the back", "braces", "{side: back}", 1, 2);
  }
  if (!back && !has_back_sheet(make.bench())) {
    make.one_more("a back sheet", "sheets", "{side: back, sheet: 9 mm spruce plywood}", 1, 0);
  }
  if (!ends) {
    Option both = with_one_more(make.base(), "a diagonal in each end", "braces", "{side: left}");
    both.document =
        document::with_item(both.document, "braces", document::node_of("{side: right}"));
    both.write = line_of(both.document, "braces");
    make.keep(std::move(both), 2, 4);
  }
}

/// Joints that brackets may take the place of without another cut in the posts.
bool may_be_brackets(const reference::JointKind& kind) {
  using enum reference::Fastening;
  return kind.fastening == bolts || kind.fastening == lap_screws ||
         kind.fastening == end_grain_screws || kind.fastening == pocket_screws;
}

/// "bolted laps", "pocket screws".
std::string in_plural(const reference::JointKind& kind) {
  return kind.key.empty() || kind.key.back() == 's' ? kind.key : kind.key + "s";
}

void joints(Making& make) {
  const std::vector<bench::Rail>& rails = make.bench().rails;
  if (rails.empty()) return;
  const reference::JointKind& kind = rails.front().start.kind;
  const int n = static_cast<int>(std::count_if(
      rails.begin(), rails.end(), [](const bench::Rail& rail) { return !rail.on_wall; }));
  if (may_be_brackets(kind)) {
    make.keys(fmt::format("two corner brackets in place of {}", in_plural(kind)),
              "joints: two corner brackets", 4 * n, 0);
  }
  if (kind.fastening != reference::Fastening::bracket) return;
  const bool has_pairs = std::any_of(rails.begin(), rails.end(), [](const bench::Rail& rail) {
    return rail.start.kind.pieces > 1;
  });
  if (kind.key == "corner brackets" && !has_pairs) {
    make.keys("a second bracket at every rail end", "joints: two corner brackets", 2 * n, 0);
  }
  if (!kind.ribbed) {
    make.keys("ribbed brackets in pairs", "joints: ribbed corner brackets", 4 * n, 0);
  }
}

/// Square posts stay as they are, and those that are turned already.
bool can_be_turned(const bench::Bench& bench) {
  return std::any_of(bench.posts.begin(), bench.posts.end(), [](const bench::Post& post) {
    return !post.on_wall && in_si(post.along_x - post.along_y) > 0.5e-3;
  });
}

void the_rest(Making& make) {
  const bool has_ledger = bench::ledger_of(make.bench()) != nullptr;
  if (can_be_turned(make.bench())) make.keys("the posts turned", "posts: {turned: yes}", 0, 0);
  const double length = in_si(make.bench().length);
  if (length > 1.2 && make.bench().posts.size() == 4) {
    make.keys(
        "posts in the middle as well",
        fmt::format("posts: {{stations: [{}, {}, {}]}}", written(make.bench().posts.front().x),
                    written(0.5 * (make.bench().posts.front().x + make.bench().posts.back().x)),
                    written(make.bench().posts.back().x)),
        has_ledger ? 1 : 2, 0);
  }
  if (make.bench().wall.empty() && !is_listed(make.base().document)) {
    make.keys(
        "the back rail screwed to the wall",
        fmt::format("wall: {{rail: back top rail, at: [{}, {}]}}", written(quantity::metres(0.2)),
                    written(quantity::metres(std::max(0.4, length - 0.4)))),
        0, 2);
  }
  make.keys("M12 feet", "feet: {thread: M12}", has_ledger ? 2 : 4, 0);
  if (has_ledger) return;
  make.keys("40 kg stored on the shelf as ballast", "stored: {shelf: 40 kg}", 0, 0);
}

}  // namespace

std::vector<Option> catalogue(const Base& base) {
  Making make(base);
  rails(make);
  ledger(make);
  bearers(make);
  sheets(make);
  braces(make);
  joints(make);
  the_rest(make);
  return std::move(make).all();
}

namespace {

bool is_list_key(const std::string& key) {
  return key == "braces" || key == "bearers" || key == "sheets";
}

std::vector<document::Node> items_under(const document::Document& document,
                                        const std::string& key) {
  for (const document::Entry& entry : document.root.entries) {
    if (entry.key != key) continue;
    if (entry.value.kind == document::Node::Kind::list) return entry.value.items;
    if (entry.value.kind == document::Node::Kind::map) return {entry.value};
  }
  return {};
}

/// What `second` writes in a list beyond what it has in common with the file of `first`: both began
/// with the same.
std::vector<document::Node> added_by(const document::Entry& second, const Option& first) {
  const std::vector<document::Node> there = items_under(first.document, second.key);
  const std::vector<document::Node>& all = second.value.items;
  std::size_t common = 0;
  while (common < std::min(there.size(), all.size()) &&
         document::flow_text(there[common]) == document::flow_text(all[common])) {
    ++common;
  }
  return {all.begin() + static_cast<std::ptrdiff_t>(common), all.end()};
}

}  // namespace

Option together(const Option& first, const Option& second) {
  Option both;
  both.name = first.name + ", and " + second.name;
  both.pieces = first.pieces + second.pieces;
  both.joints = first.joints + second.joints;
  both.document = first.document;
  const document::Node change = document::node_of(second.write);
  document::Node groups;
  groups.kind = document::Node::Kind::map;
  for (const document::Entry& entry : change.entries) {
    if (is_list_key(entry.key) && entry.value.kind == document::Node::Kind::list) {
      for (const document::Node& item : added_by(entry, first)) {
        both.document = document::with_item(both.document, entry.key, item);
      }
    } else {
      groups.entries.push_back(entry);
    }
  }
  both.document = document::overlaid(both.document, groups);
  // Each key once: what both change of it.
  const document::Node all = document::overlaid(document::node_of(first.write), change);
  for (const document::Entry& entry : all.entries) {
    const std::string line = is_list_key(entry.key)
                                 ? line_of(both.document, entry.key)
                                 : entry.key + ": " + document::flow_text(entry.value);
    both.write += (both.write.empty() ? "" : "\n") + line;
  }
  return both;
}

}  // namespace standtrue::decide
