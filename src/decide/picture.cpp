// Numbers in SI.
#include "standtrue/decide/picture.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "decide/finding_places.hpp"
#include "decide/shapes.hpp"
#include "decide/sway_curve.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/vibration.hpp"

namespace standtrue::decide {

using quantity::in_si;

namespace {

bool has_answer(const Bounded& at, std::size_t combination) {
  return at.response && combination < at.response->states.size() &&
         at.response->states[combination].has_value();
}

template <class Is>
std::optional<std::size_t> find_combination(const Bounded& at, Is is) {
  const auto& all = at.idealisation.model->combinations;
  for (std::size_t c = 0; c < all.size(); ++c) {
    if (has_answer(at, c) && is(all[c])) return c;
  }
  return std::nullopt;
}

std::optional<std::size_t> named(const Bounded& at, const std::string& name) {
  return find_combination(at, [&](const model::Combination& c) { return c.name == name; });
}

/// The plainest loading in use: the bench, its machines and what is stored.
std::optional<std::size_t> everyday(const Bounded& at) {
  const auto of = [&](model::Leading leading) {
    return find_combination(at, [leading](const model::Combination& c) {
      return c.purpose == model::Purpose::service && c.leading == leading;
    });
  };
  const auto stored = of(model::Leading::stored);
  return stored ? stored : of(model::Leading::permanent);
}

const check::Finding* worst_of(const std::vector<check::Finding>& findings,
                               const std::string& check) {
  const check::Finding* worst = nullptr;
  for (const check::Finding& f : findings) {
    if (f.id.rfind(check + "/", 0) != 0 || !std::isfinite(f.ratio)) continue;
    if (!worst || check::is_worse(f.ratio, worst->ratio)) worst = &f;
  }
  return worst;
}

std::optional<FrameShape> pushed(const Bounded& at, const std::vector<check::Finding>& findings,
                                 const std::string& id) {
  const auto f = std::find_if(findings.begin(), findings.end(),
                              [&](const check::Finding& g) { return g.id == id; });
  if (f == findings.end()) return std::nullopt;
  const auto shove = named(at, f->combination);
  const auto rest = find_combination(
      at, [](const model::Combination& c) { return c.purpose == model::Purpose::sway; });
  if (!shove || !rest) return std::nullopt;
  FrameShape shape = frame_shape(at, *shove, rest);
  const model::Model& model = *at.idealisation.model;
  const std::optional<std::size_t> place = model.combinations[*shove].place;
  for (const model::Factored& term : at.response->loadings[*shove].terms) {
    const bool is_push = place && model.parts.shoves.at(*place).is_case(term.load_case);
    if (is_push) shape.force = std::abs(term.factor);
  }
  return shape;
}

/// How far a line lies below the straight one between its ends.
StringLine below_its_ends(double y, const std::vector<std::array<double, 2>>& up) {
  StringLine line;
  line.y = y;
  const auto& [x0, w0] = up.front();
  const auto& [x1, w1] = up.back();
  for (const auto& [x, w] : up) {
    const double below = w0 + (w1 - w0) * (x - x0) / (x1 - x0) - w;
    line.below.push_back({x, below});
    if (below > line.most) {
      line.most = below;
      line.most_at = x;
    }
  }
  return line;
}

/// Along the mesh line of the top that sags most; where there is no plate, along its rails.
std::optional<StringLine> string_along(const std::vector<SheetField>& sheets,
                                       const FrameShape& loaded, const bench::Bench& bench) {
  std::optional<StringLine> worst;
  const auto take = [&](double y, const std::vector<std::array<double, 2>>& up) {
    if (up.size() < 3 || !(up.back()[0] > up.front()[0])) return;
    StringLine line = below_its_ends(y, up);
    if (!worst || line.most > worst->most) worst = std::move(line);
  };
  for (const SheetField& field : sheets) {
    if (bench.sheets[field.place].place != bench::SheetPlace::top) continue;
    for (std::size_t j = 0; j < field.y.size(); ++j) {
      const std::size_t row = std::min(j, field.y.size() - 2);
      bool is_whole = true;
      for (std::size_t i = 0; i + 1 < field.x.size(); ++i) is_whole &= field.cell(i, row);
      if (!is_whole) continue;
      std::vector<std::array<double, 2>> up;
      for (std::size_t i = 0; i < field.x.size(); ++i) {
        up.push_back({field.x[i], field.w[field.node(i, j)]});
      }
      take(field.y[j], up);
    }
  }
  if (worst) return worst;
  for (const bench::Rail& rail : bench.rails) {
    if (!rail.along_x || rail.level != bench::Level::top) continue;
    for (const AxisLine& line : loaded.lines) {
      if (line.piece != rail.name) continue;
      std::vector<std::array<double, 2>> up;
      for (const AxisPoint& p : line.points) up.push_back({p.at[0], p.moved[2]});
      take(line.points.front().at[1], up);
    }
  }
  return worst;
}

/// As many as the checks look at.
std::vector<Swing> swings_of(const Bounded& at, const bench::Bench& bench,
                             const reference::Tables& tables) {
  const auto& prepared = at.response->prepared[static_cast<std::size_t>(model::SpringSet::sway)];
  if (!prepared) return {};
  const auto modes = solve::modes(*prepared, check::modes_met(bench, tables));
  std::vector<Swing> swings;
  if (!modes) return swings;
  const model::Model& model = *at.idealisation.model;
  for (const solve::Mode& mode : *modes) {
    swings.push_back(swing_of(model, mode, check::words_of(model, mode).shape));
  }
  return swings;
}

double press(const Bounded& at, std::size_t combination, std::size_t support) {
  return has_answer(at, combination) ? at.response->states[combination]->support_forces.at(support)
                                     : std::numeric_limits<double>::quiet_NaN();
}

std::vector<FootPress> feet_of(const Assessment& assessment, std::size_t combination) {
  const model::Model& model = *assessment.mean.idealisation.model;
  std::vector<FootPress> feet;
  for (const model::FootPlace& foot : model.parts.feet) {
    const bench::Post& post = model.parts.bench.posts[foot.post];
    FootPress one{foot.name, in_si(post.foot_x), in_si(post.foot_y)};
    one.soft = press(assessment.soft, combination, foot.down);
    one.mean = press(assessment.mean, combination, foot.down);
    one.stiff = press(assessment.stiff, combination, foot.down);
    for (std::size_t c = 0; c < model.combinations.size(); ++c) {
      const bool in_use = model.combinations[c].purpose == model::Purpose::service;
      if (in_use && has_answer(assessment.mean, c)) {
        one.most = std::max(one.most, press(assessment.mean, c, foot.down));
      }
    }
    feet.push_back(std::move(one));
  }
  return feet;
}

}  // namespace

Picture outline_of(const Assessment& assessment, const reference::Tables& tables) {
  const Bounded& mean = assessment.mean;
  Picture picture;
  picture.solids = solids_of(assessment.bench, mean.idealisation.model);
  picture.joint_band = tables.constant("joint band").value;
  if (!mean.idealisation.model) return picture;
  picture.places = finding_places(assessment.findings, *mean.idealisation.model);
  if (!mean.response) return picture;
  const auto c = everyday(mean);
  if (!c) return picture;
  picture.feet = feet_of(assessment, *c);
  picture.string = string_along(sheet_fields(mean, *c), frame_shape(mean, *c), assessment.bench);
  return picture;
}

Picture picture_of(const Assessment& assessment, const reference::Tables& tables) {
  const Bounded& mean = assessment.mean;
  Picture picture = outline_of(assessment, tables);
  if (!mean.response) return picture;
  if (const auto c = everyday(mean)) {
    picture.loaded = frame_shape(mean, *c);
    picture.sheets = sheet_fields(mean, *c);
  }
  if (const check::Finding* f = worst_of(assessment.findings, "bending")) {
    if (const auto c = named(mean, f->combination)) picture.bent = frame_shape(mean, *c);
  }
  picture.pushed_along = pushed(mean, assessment.findings, "sway/along");
  picture.pushed_across = pushed(mean, assessment.findings, "sway/across");
  picture.swings = swings_of(mean, assessment.bench, tables);
  picture.sways = sway_curve(assessment, tables);
  return picture;
}

}  // namespace standtrue::decide
