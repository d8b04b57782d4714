#include "decide/summary.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

namespace standtrue::decide {

namespace {

using check::Finding;
using check::Group;
using check::Judgement;
using check::Kind;

/// "planing", "general work".
std::string work_of(const reference::Duty& duty) {
  if (duty.key.empty()) return "its work";
  return duty.key == "light" || duty.key == "general" ? duty.key + " work" : duty.key;
}

/// What a place is on: "front top rail, 940 mm from its left end" is on the front top rail.
std::string part_of(const std::string& place) { return place.substr(0, place.find(',')); }

/// What is wrong, or may be.
std::string phrase(const Finding& f, const bench::Bench& bench) {
  const bool may = f.judgement == Judgement::depends;
  const std::string part = part_of(f.place);
  const auto overloaded = [&](const std::string& what) {
    return fmt::format("the {} {} overloaded", what, may ? "may be" : "is");
  };
  if (f.id == "frame/moves") return "the frame can move";
  if (f.id == "frame/buckling") {
    return may ? "the frame may give way sideways" : "the frame gives way sideways";
  }
  if (f.id.rfind("sheet-tips/", 0) == 0) {
    return fmt::format("the loose {} {} off what carries it", part, may ? "may tip" : "tips");
  }
  if (f.id.rfind("sheet-glue/", 0) == 0) return overloaded("glue of the " + part);
  if (f.id == "joint-choice") return "it fails however its joints turn out";
  if (f.id == "foot/keep-off") return fmt::format("the {} stands too near to barred floor", part);
  switch (f.group) {
    case Group::joints:
      return may ? "its joints may be overloaded" : "its joints are overloaded";
    case Group::sag:
      return fmt::format("the {} {} too much", part, may ? "may sag" : "sags");
    case Group::sway:
      return fmt::format("{} too much for {}", may ? "may sway" : "sways", work_of(bench.duty));
    case Group::twist:
      return fmt::format("{} the bed of the {}", may ? "may twist" : "twists", part);
    case Group::hum:
      return fmt::format("{} under the {}", may ? "may hum" : "hums", part);
    case Group::tip:
      return may ? "it may tip" : "it can tip";
    case Group::slide:
      return may ? "it may slide away" : "it can slide away";
    case Group::carry:
    case Group::sheet:
    case Group::feet:
      break;
  }
  return overloaded(part);
}

bool is_exceeded(const std::vector<Finding>& findings, Group group) {
  return std::any_of(findings.begin(), findings.end(), [group](const Finding& f) {
    return f.group == group && f.kind != Kind::caution && f.kind != Kind::told &&
           f.judgement == Judgement::exceeded;
  });
}

/// The phrases of all findings of a kind and judgement, each once: "a, b and 2 more".
std::string phrases(const std::vector<Finding>& findings, const bench::Bench& bench, Kind kind,
                    Judgement judgement) {
  std::vector<std::string> all;
  for (const Finding& f : findings) {
    if (f.kind != kind || f.judgement != judgement) continue;
    // What sways too much one way for sure need not be said to do so perhaps the other way.
    if (judgement == Judgement::depends && is_exceeded(findings, f.group)) continue;
    const std::string text = phrase(f, bench);
    if (std::find(all.begin(), all.end(), text) == all.end()) all.push_back(text);
  }
  constexpr std::size_t most = 3;
  std::string text;
  for (std::size_t i = 0; i < std::min(all.size(), most); ++i) {
    if (i > 0) text += i + 1 == all.size() ? " and " : ", ";
    text += all[i];
  }
  if (all.size() > most) text += fmt::format(" and {} more", all.size() - most);
  return text;
}

std::string not_known(const std::vector<Finding>& findings) {
  for (const Finding& f : findings) {
    if (f.kind == Kind::safety && f.judgement == Judgement::not_judged) {
      return fmt::format("not all that keeps it safe can be judged: {}.",
                         f.why.empty() ? f.place : f.why);
    }
  }
  return "nothing that keeps it safe could be judged.";
}

std::string with_semicolon(const std::string& first, const std::string& second) {
  if (first.empty()) return second;
  return second.empty() ? first : first + "; " + second;
}

}  // namespace

std::string summary_of(Verdict verdict, const std::vector<Finding>& findings,
                       const bench::Bench& bench) {
  const auto all = [&](Kind kind, Judgement judgement) {
    return phrases(findings, bench, kind, judgement);
  };
  switch (verdict) {
    case Verdict::do_not_load:
      return all(Kind::safety, Judgement::exceeded) + ".";
    case Verdict::not_judged:
      return not_known(findings);
    case Verdict::depends: {
      const std::string safety = all(Kind::safety, Judgement::depends);
      const std::string service = with_semicolon(all(Kind::service, Judgement::exceeded),
                                                 all(Kind::service, Judgement::depends));
      if (safety.empty()) return "safe to load; " + service + ".";
      return with_semicolon("measure first: " + safety, service) + ".";
    }
    case Verdict::carries_but:
      return "safe to load; " + all(Kind::service, Judgement::exceeded) + ".";
    case Verdict::stands:
      break;
  }
  return "safe to load, and stiff enough for " + work_of(bench.duty) + ".";
}

}  // namespace standtrue::decide
