#include <algorithm>

#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

using reference::FootMaterial;

constexpr std::string_view feet_example = "feet: {thread: M10, extension: 25 mm}";

/// A foot by its thread, with that thread's usual pad.
void take_thread(Reader& reader, const Field& field, const std::string& thread, Foot& foot) {
  const auto* known = reader.tables.foot(thread);
  if (known == nullptr) {
    unknown_word(reader, field, thread, "foot", reader.tables.foot_names(), "M10");
    return;
  }
  foot.thread = *known;
  foot.pad = known->pad;
  foot.bare = false;
  foot.castor.reset();
}

/// A castor rolls, and a foot that is bolted down is packed: neither can be `fixed` as well.
void check_fixed(Reader& reader, Map& map, const Foot& foot) {
  if (!foot.fixed) return;
  const auto told = map.find("fixed");
  if (foot.castor) {
    reader.note((told ? *told : map.field())
                    .fault("a castor rolls: it can not be fixed to the floor", "fixed: no"));
  } else if (const auto error = map.find("height_error")) {
    reader.note(error->fault(
        "a foot that is bolted to the floor is packed first and has no error of height",
        "fixed: yes, without height_error"));
  }
}

void stand_bare(Foot& foot) {
  foot.bare = true;
  foot.extension = {};
  foot.material = FootMaterial::timber;
  foot.castor.reset();
}

/// `castor: 75 mm`, by its wheel.
void take_castor(Reader& reader, Map& map, Foot& foot) {
  const auto wheel = size(reader, map, "castor");
  if (!wheel) return;
  const auto* castor = reader.tables.castor(*wheel);
  if (castor == nullptr) {
    std::string known;
    for (const auto& c : reader.tables.castors) known += (known.empty() ? "" : ", ") + c.key;
    reader.note(map.find("castor")->fault(
        fmt::format("no castor with a wheel of {} is listed, but {}", say(*wheel, reader), known),
        "castor: 75 mm"));
    return;
  }
  foot.castor = *castor;
  foot.extension = castor->height;
  foot.bare = false;
  foot.material = FootMaterial::rubber;
}

/// What is said of a foot once its posts are known: `each: {front-left post: {height_error: 2
/// mm}}`.
void read_each(Reader& reader, const Field& field) {
  Map map(field, reader.faults, "each: {front-left post: {height_error: 2 mm}}");
  for (Post& post : reader.bench.posts) {
    if (post.on_wall) continue;
    const auto own = map.find(post.name);
    if (!own) continue;
    reader.places.insert_or_assign("foot of " + post.name, *own);
    Map keys(*own, reader.faults, "{height_error: 2 mm}");
    read_foot_keys(reader, keys, post.foot);
    keys.finish();
    post.bottom = post.foot.extension;
  }
  map.finish();
}

}  // namespace

void read_foot_keys(Reader& reader, Map& map, Foot& foot) {
  if (const auto thread = map.find("thread")) {
    if (const auto text = text_of(reader, *thread, "thread: M10")) {
      take_thread(reader, *thread, *text, foot);
    }
  }
  take_castor(reader, map, foot);
  if (map.yes_no("bare").value_or(false)) stand_bare(foot);
  const auto extension = size_or_zero(reader, map, "extension");
  if (extension && (foot.castor || foot.bare)) {
    reader.note(map.find("extension")
                    ->fault("a castor or a bare post has no stem to turn out", "thread: M10"));
  } else if (extension) {
    foot.extension = *extension;
  }
  if (const auto pad = size(reader, map, "pad")) foot.pad = *pad;
  if (const auto word = map.word("material", {"rubber", "plastic", "steel", "timber"})) {
    foot.material = *word == "rubber"    ? FootMaterial::rubber
                    : *word == "plastic" ? FootMaterial::plastic
                    : *word == "steel"   ? FootMaterial::steel
                                         : FootMaterial::timber;
  }
  if (const auto error = place(reader, map, "height_error")) {
    if (*error > metres(0.1) || *error < metres(-0.1)) {
      reader.note(map.find("height_error")
                      ->fault("a foot so far off is another floor: 100 mm is the most",
                              "height_error: 2 mm"));
    } else {
      foot.height_error = *error;
    }
  }
  if (const auto fixed = map.yes_no("fixed")) foot.fixed = *fixed;
  check_fixed(reader, map, foot);
}

void read_default_foot(Reader& reader, Map& top) {
  Foot& foot = reader.foot;
  foot.thread = *reader.tables.foot("M10");
  foot.pad = foot.thread.pad;
  foot.extension = millimetres(25.0);
  const auto field = top.find("feet");
  if (!field) {
    reader.assume(fmt::format("M10 feet turned out {}, on plastic pads of {}",
                              say(foot.extension, reader), say(foot.pad, reader)));
    return;
  }
  if (is_text(*field, "none") || is_text(*field, "bare")) {
    stand_bare(foot);
    return;
  }
  if (!field->is(document::Node::Kind::map)) {
    if (const auto text = text_of(reader, *field, feet_example)) {
      take_thread(reader, *field, *text, foot);
      reader.assume(fmt::format("feet turned out {}, on plastic pads of {}",
                                say(foot.extension, reader), say(foot.pad, reader)));
    }
    return;
  }
  Map map(*field, reader.faults, feet_example);
  read_foot_keys(reader, map, foot);
  (void)map.find("each");  // read when the posts are known
  map.finish();
}

void read_each_foot(Reader& reader, Map& top) {
  const auto field = top.find("feet");
  if (!field || !field->is(document::Node::Kind::map)) return;
  std::vector<Diagnostic> seen;  // its own keys have been read already
  Map map(*field, seen, feet_example);
  if (const auto each = map.find("each")) read_each(reader, *each);
}

}  // namespace standtrue::bench
