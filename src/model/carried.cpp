// What sheets that are no plates hand on to rails, bearers and posts. Numbers in SI.
#include <algorithm>

#include "model/idealising.hpp"

namespace standtrue::model {

using quantity::from_si;
using quantity::in_si;

namespace {

/// What hangs on a line swings with it, spread over its clear length like its weight.
void carry_evenly(Idealising& work, const Line& line, double weight) {
  for (const std::size_t member : work.model.parts.parts.at(line.part).members) {
    work.model.members[member].carries += from_si<LineLoad>(weight / (line.to - line.from));
  }
}

}  // namespace

double area_of(const bench::Sheet& sheet) {
  double area = in_si(sheet.x1 - sheet.x0) * in_si(sheet.y1 - sheet.y0);
  for (const bench::Sheet::CutOut& cut : sheet.cut_outs) {
    area -= in_si(cut.x1 - cut.x0) * in_si(cut.y1 - cut.y0);
  }
  return area;
}

std::vector<std::pair<const Line*, double>> shares_of_lines(const Idealising& work,
                                                            const Lying& lying, double load) {
  const bench::Sheet& sheet = work.bench.sheets[lying.sheet];
  const double low = in_si(lying.along_x ? sheet.x0 : sheet.y0);
  const double high = in_si(lying.along_x ? sheet.x1 : sheet.y1);
  const double breadth = area_of(sheet) / (high - low);
  std::vector<std::pair<const Line*, double>> shares;
  for (std::size_t i = 0; i < lying.carriers.size(); ++i) {
    // What lies nearer to this carrier than to the next.
    const Carrier& carrier = lying.carriers[i];
    const double from = i == 0 ? low : 0.5 * (lying.carriers[i - 1].at + carrier.at);
    const double to =
        i + 1 == lying.carriers.size() ? high : 0.5 * (carrier.at + lying.carriers[i + 1].at);
    double reach = 0.0;
    for (const Line* line : carrier.lines) reach += line->to - line->from;
    for (const Line* line : carrier.lines) {
      shares.emplace_back(line, load * breadth * (to - from) * (line->to - line->from) / reach);
    }
  }
  return shares;
}

void carry_all_over(Idealising& work, const Lying& lying, double load) {
  if (plate_of(work.model, lying.sheet)) return;
  for (const auto& [line, weight] : shares_of_lines(work, lying, load)) {
    carry_evenly(work, *line, weight);
  }
}

void carry_upright(Idealising& work, std::size_t sheet, double weight) {
  std::vector<const Line*> posts;
  for (const Line& post : work.posts) {
    const auto is_corner = [&](NodeId node) {
      return std::any_of(post.nodes.begin(), post.nodes.end(),
                         [&](const auto& at) { return at.second == node; });
    };
    for (const ShearField& field : work.model.parts.shear_fields) {
      const bool meets = field.sheet_place == sheet &&
                         std::any_of(field.members.begin(), field.members.end(), [&](auto bar) {
                           const Member& member = work.model.members[bar];
                           return is_corner(member.start) || is_corner(member.end);
                         });
      if (meets) posts.push_back(&post);
    }
  }
  if (posts.empty()) {
    for (const Line& post : work.posts) {
      if (post.to > post.from) posts.push_back(&post);  // none on a wall
    }
  }
  for (const Line* post : posts) {
    carry_evenly(work, *post, weight / static_cast<double>(posts.size()));
  }
}

}  // namespace standtrue::model
