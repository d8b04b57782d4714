#include "check/words.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <string_view>

namespace standtrue::check {

using quantity::in_si;

std::string share_of(double ratio) {
  struct Word {
    double up_to;
    std::string_view text;
  };
  static constexpr std::array words = {Word{0.05, "a twentieth or less of"},
                                       Word{0.11, "a tenth of"},
                                       Word{0.14, "an eighth of"},
                                       Word{0.18, "a sixth of"},
                                       Word{0.22, "a fifth of"},
                                       Word{0.28, "a quarter of"},
                                       Word{0.36, "a third of"},
                                       Word{0.44, "two fifths of"},
                                       Word{0.54, "half of"},
                                       Word{0.63, "three fifths of"},
                                       Word{0.70, "two thirds of"},
                                       Word{0.77, "three quarters of"},
                                       Word{0.83, "four fifths of"},
                                       Word{0.92, "nine tenths of"},
                                       Word{1.0, "nearly all of"}};
  for (const Word& word : words) {
    if (ratio <= word.up_to) return std::string(word.text);
  }
  if (ratio < 1.1) return "a little more than";
  if (ratio < 10.0) return fmt::format("{:.1f} times", ratio);
  return "many times";
}

namespace {

struct EndWord {
  std::string_view text;
  bool from_end;  ///< the named end is where the last member ends
};

/// The end of a part that a person would measure from.
EndWord named_end(const model::Model& model, const model::Part& part) {
  const model::Point& a = model.nodes[model.members[part.members.front()].start].at;
  const model::Point& b = model.nodes[model.members[part.members.back()].end].at;
  const double dx = in_si(b.x) - in_si(a.x);
  const double dy = in_si(b.y) - in_si(a.y);
  const double dz = in_si(b.z) - in_si(a.z);
  if (part.role == model::Role::brace) return {"lower end", dz < 0.0};
  if (std::abs(dz) >= std::hypot(dx, dy)) return {"foot", dz < 0.0};
  if (std::abs(dx) >= std::abs(dy)) return {"left end", dx < 0.0};
  return {"front end", dy < 0.0};
}

}  // namespace

std::string place_on(const model::Model& model, const model::Part& part, model::MemberId member,
                     quantity::Length at) {
  quantity::Length before{}, whole{};
  for (const model::MemberId m : part.members) {
    if (m == member) before = whole + at;
    whole += model::member_frame(model, model.members[m]).length;
  }
  const EndWord end = named_end(model, part);
  const quantity::Length from = end.from_end ? whole - before : before;
  const std::string distance =
      quantity::print(in_si(from), quantity::Kind::length, model.parts.bench.units);
  return fmt::format("{}, {} from its {}", part.name, distance, end.text);
}

double but_rounding(double value, quantity::Kind kind) {
  const double least = kind == quantity::Kind::stress ? 1e-3 : 1e-6;
  return std::abs(value) < least ? 0.0 : value;
}

std::string beside(const std::string& limit, const std::string& value, Judgement judgement,
                   const char* missed_by) {
  const bool hides_it = judgement == Judgement::exceeded && value == limit;
  return hides_it ? fmt::format("{} {}", missed_by, value) : value;
}

std::string shown(quantity::Stress value) {
  constexpr auto kind = quantity::Kind::stress;
  return quantity::print(but_rounding(in_si(value), kind), kind);
}
std::string shown(quantity::Force value) {
  constexpr auto kind = quantity::Kind::force;
  return quantity::print(but_rounding(in_si(value), kind), kind);
}
std::string shown(quantity::Moment value) {
  constexpr auto kind = quantity::Kind::moment;
  return quantity::print(but_rounding(in_si(value), kind), kind);
}
std::string shown(quantity::Length value) {
  return quantity::print(in_si(value), quantity::Kind::length);
}

}  // namespace standtrue::check
