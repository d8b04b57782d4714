#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "decide/alter.hpp"
#include "standtrue/bench/ledger.hpp"
#include "standtrue/decide/decide.hpp"
#include "standtrue/document/overlay.hpp"

namespace standtrue::decide {

namespace {

/// Without what holds it square now.
document::Document bare(const Base& base) {
  return document::without(document::without(base.document, "braces"), "sheets");
}

constexpr const char* board = "9 mm spruce plywood";

/// Adds options to a list, all on the file without its braces and upright sheets.
class Adding {
 public:
  Adding(const Base& base, std::vector<Option>& all)
      : base_(base), plain_(bare(base)), own_(pieces_of(base.bench)), all_(all) {}

  /// `pieces` and `joints` beside those of the bare frame.
  void operator()(std::string name, const std::string& yaml, int pieces, int joints) const {
    Option option = with_keys(plain_, std::move(name), yaml);
    option.write = with_nones(option.write);
    option.pieces = pieces - own_.first;
    option.joints = joints - own_.second;
    all_.push_back(std::move(option));
  }

 private:
  /// Pieces and joints of what is left out.
  static std::pair<int, int> pieces_of(const bench::Bench& bench) {
    const auto braces = static_cast<int>(bench.braces.size());
    const auto sheets = static_cast<int>(
        std::count_if(bench.sheets.begin(), bench.sheets.end(), [](const bench::Sheet& sheet) {
          return sheet.place == bench::SheetPlace::back || sheet.place == bench::SheetPlace::end;
        }));
    return {braces + sheets, 2 * braces};
  }
  /// With what the file has and the option has not written off.
  [[nodiscard]] std::string with_nones(std::string write) const {
    for (const std::string key : {"braces", "sheets"}) {
      const bool is_written =
          write.rfind(key + ":", 0) == 0 || write.find("\n" + key + ":") != std::string::npos;
      if (is_written || line_of(base_.document, key).empty()) continue;
      write += (write.empty() ? "" : "\n") + key + ": none";
    }
    return write;
  }

  const Base& base_;
  document::Document plain_;
  std::pair<int, int> own_;
  std::vector<Option>& all_;
};

/// All that may stand before a ledger.
void add_in_front(const Adding& add) {
  add("one diagonal in the front", "braces: [{side: front}]", 1, 2);
  add("a cross in the front", "braces: [{side: front, kind: cross}]", 2, 4);
  add("knees in the front", "braces: [{side: front, kind: knee}]", 2, 4);
}

/// Rails with joints at their ends, which a ledger has not.
int cut_rails(const bench::Bench& bench) {
  return static_cast<int>(std::count_if(bench.rails.begin(), bench.rails.end(),
                                        [](const bench::Rail& rail) { return !rail.on_wall; }));
}

/// What stiffens it without a brace: its rails, joints and posts.
void add_frame(const Base& base, const Adding& add) {
  if (!base.bench.rails.empty()) {
    const bench::Stock& stock = base.bench.rails.front().stock;
    if (const auto deeper = next_deeper(stock, base.tables)) {
      const std::string ledger = with_ledger_of(base, *deeper);
      const bool hangs = bench::ledger_of(base.bench) != nullptr;
      // Rails that end on a ledger are no deeper than it is.
      if (!hangs || !ledger.empty()) {
        add(fmt::format("rails{} of {}", hangs ? " and ledger" : "",
                        written(deeper->thickness, deeper->depth)),
            fmt::format("rails: {{timber: {}}}{}{}", written(*deeper), hangs ? "\n" : "", ledger),
            0, 0);
      }
    }
    const auto is_single = [](const bench::Rail& rail) {
      const reference::JointKind& kind = rail.start.kind;
      return kind.fastening == reference::Fastening::bracket && kind.pieces < 2;
    };
    // Top rails have no room for a second one above them: that they have one says nothing.
    if (std::all_of(base.bench.rails.begin(), base.bench.rails.end(), is_single)) {
      add("two brackets at each rail end", "joints: two corner brackets", 2 * cut_rails(base.bench),
          0);
    }
  }
  const auto is_square = [](const bench::Post& post) {
    return post.stock.thickness == post.stock.depth;
  };
  const std::vector<bench::Post>& posts = base.bench.posts;
  if (!std::all_of(posts.begin(), posts.end(), is_square)) {
    add("the posts turned", "posts: {turned: yes}", 0, 0);
  }
}

std::vector<Option> brace_candidates(const Base& base) {
  std::vector<Option> all;
  const Adding add(base, all);
  add("no brace at all", "braces: none", 0, 0);
  if (all.back().pieces == 0) all.back().write.clear();  // it is drawn so
  if (bench::ledger_of(base.bench) != nullptr) {
    add_in_front(add);
    add_frame(base, add);
    return all;
  }
  add("one diagonal in the back, rising to the right", "braces: [{side: back}]", 1, 2);
  add("one diagonal in the back, rising to the left", "braces: [{side: back, rises_to: left}]", 1,
      2);
  add("a cross in the back", "braces: [{side: back, kind: cross}]", 2, 4);
  add("knees in the back", "braces: [{side: back, kind: knee}]", 2, 4);
  add("a diagonal in each end", "braces: [{side: left}, {side: right}]", 2, 4);
  add("knees in each end", "braces: [{side: left, kind: knee}, {side: right, kind: knee}]", 4, 8);
  add("a diagonal in the back and in each end",
      "braces: [{side: back}, {side: left}, {side: right}]", 3, 6);
  add("a back sheet", fmt::format("sheets: [{{side: back, sheet: {}}}]", board), 1, 0);
  add("a sheet on each end",
      fmt::format("sheets: [{{side: left, sheet: {0}}}, {{side: right, sheet: {0}}}]", board), 2,
      0);
  add("a back sheet and a sheet on each end",
      fmt::format("sheets: [{{side: back, sheet: {0}}}, {{side: left, sheet: {0}}}, {{side: right, "
                  "sheet: {0}}}]",
                  board),
      3, 0);
  const bool has_shelf =
      std::any_of(base.bench.sheets.begin(), base.bench.sheets.end(),
                  [](const bench::Sheet& s) { return s.place == bench::SheetPlace::shelf; });
  if (!has_shelf) {
    add("a shelf screwed down all round", "shelf: {sheet: 12 mm spruce plywood, load: none}", 1, 0);
  }
  add_frame(base, add);
  return all;
}

bool is_of_sway(const std::string& id) {
  return id.rfind("sway/", 0) == 0 || id.rfind("joint-sum/", 0) == 0;
}

bool tips(const Figures& figures) {
  return std::any_of(figures.failing.begin(), figures.failing.end(),
                     [](const std::string& id) { return id.rfind("tipping/", 0) == 0; });
}

bool is_stiff_enough(const Figures& figures) {
  return std::none_of(figures.failing.begin(), figures.failing.end(), is_of_sway);
}

/// Which way it sways too much, or may: " along", " across" or both; as the ids end.
std::string ways_of_sway(const Figures& figures) {
  const auto fails = [&](const std::string& way) {
    return std::any_of(figures.failing.begin(), figures.failing.end(), [&](const std::string& id) {
      return is_of_sway(id) && id.substr(id.find('/') + 1) == way;
    });
  };
  const bool along = fails("along"), across = fails("across");
  return along && across ? " along and across" : along ? " along" : across ? " across" : "";
}

/// What it does for want of a brace: it sways, or the joints that hold it square are overloaded.
std::string fault_of(const Figures& figures) {
  const bool sways = std::any_of(figures.failing.begin(), figures.failing.end(),
                                 [](const std::string& id) { return id.rfind("sway/", 0) == 0; });
  return sways ? "it sways too much, or may" : "its joints do not hold a shove, or may not";
}

/// "sheet-screws/back-sheet" as "sheet screws of the back sheet".
std::string in_words(const std::string& id) {
  constexpr std::array<const char*, 7> parts = {"rail",  "post",   "sheet", "top",
                                                "shelf", "bearer", "brace"};
  const std::size_t slash = id.find('/');
  const std::string of = slash == std::string::npos ? "" : id.substr(slash + 1);
  const bool is_part = std::any_of(parts.begin(), parts.end(), [&](const char* part) {
    return of.find(part) != std::string::npos;
  });
  std::string words = id.substr(0, slash) + (is_part ? " of the " : " ") + of;
  std::replace(words.begin(), words.end(), '-', ' ');
  return words;
}

/// What fails beside the sway and does not fail in the bench as it is drawn, in words.
std::vector<std::string> harm_of(const Figures& figures, const Option& own) {
  std::vector<std::string> harm;
  for (const std::string& id : figures.failing) {
    const bool fails_anyway =
        own.figures && std::find(own.figures->failing.begin(), own.figures->failing.end(), id) !=
                           own.figures->failing.end();
    if (fails_anyway || is_of_sway(id)) continue;
    harm.push_back(in_words(id));
  }
  return harm;
}

/// So that nobody thinks it would be one more.
void mark_as_drawn(std::vector<Option>& options) {
  if (!options[0].figures) return;
  const Figures& own = *options[0].figures;
  const auto mean = [](const std::optional<Span>& s) { return s ? s->mean : 0.0; };
  for (std::size_t i = 2; i < options.size(); ++i) {
    if (!options[i].figures) continue;
    const Figures& f = *options[i].figures;
    const bool is_same = f.mass == own.mass && mean(f.along) == mean(own.along) &&
                         mean(f.across) == mean(own.across) && f.frequency == own.frequency;
    if (is_same) options[i].name += " (as it is drawn)";
  }
}

/// The cheapest row of which that is true; null if none.
template <class Wanted>
const Option* cheapest(const std::vector<Option>& options, Wanted wanted) {
  const Option* best = nullptr;
  for (std::size_t i = 2; i < options.size(); ++i) {
    const Option& o = options[i];
    if (!o.figures || !wanted(*o.figures)) continue;
    const auto cost = [](const Option& a) { return std::make_pair(a.pieces, a.joints); };
    if (best == nullptr || cost(o) < cost(*best)) best = &o;
  }
  return best;
}

/// What to write, in a sentence.
std::string in_one_line(std::string write) {
  for (std::size_t at = write.find('\n'); at != std::string::npos; at = write.find('\n', at)) {
    write.replace(at, 1, " and ");
  }
  return write;
}

/// Which row is enough, or what the one that is stiff enough does elsewhere.
std::string least_of(const std::vector<Option>& options) {
  const Option& own = options[0];
  const auto harms_nothing = [&](const Figures& f) {
    return is_stiff_enough(f) && harm_of(f, own).empty();
  };
  if (const Option* best = cheapest(options, harms_nothing)) {
    return fmt::format("The least that is enough: {}. Write: {}", best->name,
                       in_one_line(best->write));
  }
  if (const Option* stiff = cheapest(options, is_stiff_enough)) {
    std::string harm;
    for (const std::string& one : harm_of(*stiff->figures, own)) {
      harm += (harm.empty() ? "" : ", ") + one;
    }
    return fmt::format(
        "The least that is stiff enough: {}. Write: {} But then another check fails, or may: {}. "
        "Check it so, and cure that too.",
        stiff->name, in_one_line(stiff->write), harm);
  }
  return "None of these alone is enough at every stiffness that joints may have.";
}

double times(const std::optional<Span>& now, const std::optional<Span>& before) {
  return now && before && before->mean > 0.0 ? now->mean / before->mean : 1.0;
}

/// Which way an option makes it at least half as stiff again.
std::string cured(const Figures& now, const Figures& bare) {
  constexpr double clear = 1.5;
  const bool along = times(now.along, bare.along) >= clear;
  const bool across = times(now.across, bare.across) >= clear;
  if (along && across) return "both ways";
  if (along) return "along";
  return across ? "across" : "";
}

std::vector<std::string> answer_of(const std::vector<Option>& options) {
  std::vector<std::string> lines;
  const Option& own = options[0];
  const Option& none = options[1];
  if (!none.figures) return {"the bench without a brace could not be judged: " + none.why};
  lines.push_back(is_stiff_enough(*none.figures)
                      ? "It needs no brace: without one it stands still enough for its duty."
                      : fmt::format("It needs a brace or a sheet{}: without any {}.",
                                    ways_of_sway(*none.figures), fault_of(*none.figures)));
  if (tips(*none.figures)) {
    lines.push_back(
        "A shove can tip it: its feet lift before a brace is felt. Weigh it down low, set its feet "
        "wider apart, or fix it to wall or floor first.");
  }
  if (!is_stiff_enough(*none.figures)) lines.push_back(least_of(options));
  if (own.figures) {
    lines.push_back(is_stiff_enough(*own.figures)
                        ? "As it is drawn it is stiff enough."
                        : fmt::format("As it is drawn it is not sure to be enough{}: {}.",
                                      ways_of_sway(*own.figures), fault_of(*own.figures)));
  }
  std::map<std::string, std::vector<std::string>> by_way;
  for (std::size_t i = 2; i < options.size(); ++i) {
    if (!options[i].figures) continue;
    by_way[cured(*options[i].figures, *none.figures)].push_back(options[i].name);
  }
  for (const std::string way : {"both ways", "along", "across", ""}) {
    std::string names;
    for (const std::string& name : by_way[way]) names += (names.empty() ? "" : "; ") + name;
    if (names.empty()) continue;
    lines.push_back(way.empty() ? fmt::format("Hardly stiffer: {}.", names)
                                : fmt::format("Stiffer {}: {}.", way, names));
  }
  return lines;
}

}  // namespace

SideBySide brace(const document::Document& document, const bench::Bench& bench,
                 const reference::Tables& tables, const Work& work) {
  const Base base{document, bench, tables};
  SideBySide result;
  result.question = "Does it need a brace, and which?";
  result.options.push_back(as_it_is(base, "as it is drawn"));
  if (is_listed(document)) {
    result.answer = {
        "A bench listed part by part keeps its parts: change the braces in the file "
        "and check it again."};
    return result;
  }
  for (Option& option : brace_candidates(base)) result.options.push_back(std::move(option));
  assess_all(result.options, tables, work);
  result.complete = std::all_of(result.options.begin(), result.options.end(), [](const Option& o) {
    return o.figures.has_value() || !o.why.empty();
  });
  mark_as_drawn(result.options);
  result.answer = answer_of(result.options);
  return result;
}

}  // namespace standtrue::decide
