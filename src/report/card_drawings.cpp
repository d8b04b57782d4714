#include "report/card_drawings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/figures.hpp"
#include "report/frame_drawings.hpp"
#include "report/words.hpp"

namespace standtrue::report {

using quantity::in_si;

std::optional<Captioned> turns_drawing(const decide::Levelling& levelling,
                                       const bench::Bench& bench, double width) {
  if (!levelling.why_none.empty() || levelling.feet.empty()) return std::nullopt;
  View view = View::plan();
  const std::vector<Solid> solids = decide::solids_of(bench, std::nullopt);
  std::vector<Place> corners;
  for (const Solid& s : solids) corners.insert(corners.end(), s.corners.begin(), s.corners.end());
  const double height = fit(view, corners, width, 92.0, 16.0);
  Svg svg(width, height, "Turns of the feet",
          "A plan of the bench, with what each foot is turned.");
  draw_solids(svg, solids, view);
  const Extent extent = extent_of(solids, view);
  double middle = 0.0;
  for (const bench::Post& post : bench.posts) {
    middle += in_si(post.foot_y) / static_cast<double>(bench.posts.size());
  }
  for (const decide::FootToSet& foot : levelling.feet) {
    const bench::Post& post = bench.posts.at(foot.post);
    const Flat at = view.at({in_si(post.foot_x), in_si(post.foot_y), 0});
    svg.circle(at, 1.6, "thick");
    const double y = in_si(post.foot_y) < middle + 1e-6 ? extent.y1 + 6.0 : extent.y0 - 6.0;
    svg.text({at[0], y}, turn_of(levelling, foot), "num", Anchor::middle);
    svg.text({at[0], y + 3.2}, foot.name, "small", Anchor::middle);
  }
  return Captioned{std::move(svg),
                   "The front below. A turn out is clockwise as seen from above: it makes the foot "
                   "longer."};
}

std::optional<Captioned> odds_drawing(const decide::Odds& odds, double width) {
  if (!odds.why_none.empty() || odds.drawn == 0) return std::nullopt;
  constexpr double y = 8.0, high = 9.0;
  const bool is_one = odds.of_this_bench();
  Svg svg(width, 30.0, is_one ? "Chances of this bench" : "A thousand benches",
          is_one ? "With what chance it stands, carries but, and should not be loaded."
                 : "How many stand, carry but, and should not be loaded.");
  struct Piece {
    const decide::Share& share;
    const char* words;
    const char* ink;
  };
  double x = 0.0, row = y + high + 5.0;
  svg.text({0, 4.0},
           is_one ? "Chances in a thousand of this bench, by what its readings say"
                  : "Of a thousand benches built from this file",
           "");
  double told = 0.0;
  for (const Piece& piece :
       {Piece{odds.outcomes.stand, is_one ? "stands" : "stand", "paper"},
        Piece{odds.outcomes.carry_but, is_one ? "carries, but" : "carry, but", "care"},
        Piece{odds.outcomes.do_not_load, "do not load", "barred"}}) {
    const double share = static_cast<double>(piece.share.count) / static_cast<double>(odds.drawn);
    const double wide = width * share;
    svg.rect({x, y}, wide, high, piece.ink);
    svg.rect({x, y}, wide, high, "seen");
    svg.rect({told, row - 2.6}, 5.0, 3.2, piece.ink);
    svg.rect({told, row - 2.6}, 5.0, 3.2, "thin");
    svg.text({told + 6.5, row},
             fmt::format("{}: {}", piece.words, of_thousand(piece.share, odds.drawn)), "");
    x += wide;
    told += width / 3.0;
  }
  return Captioned{std::move(svg), "In brackets what can be said with 95 % sureness."};
}

std::optional<Captioned> readings_drawing(const decide::ProvingPlan& plan,
                                          quantity::UnitSystem units, double width) {
  std::vector<const decide::Trial*> trials;
  for (const decide::Trial& t : plan.trials) {
    if (t.why.empty() && t.soft > 0.0) trials.push_back(&t);
  }
  if (trials.empty()) return std::nullopt;
  constexpr double row = 9.0, label = 52.0, right = 22.0;
  Svg svg(width, row * static_cast<double>(trials.size()) + 3.0, "Readings to expect",
          "For each test the stretch in which nine benches in ten lie, and the middle.");
  double y = 2.0;
  for (const decide::Trial* t : trials) {
    double read = 0.0;
    if (plan.learned) {
      for (const decide::Told& told : plan.learned->readings) {
        if (told.name == t->name) read = told.moved;
      }
    }
    const double scale = (width - label - right) / (1.1 * std::max(t->soft, read));
    svg.text({0, y + 2.6}, t->name, "");
    svg.line({label, y + 3.0}, {width - right, y + 3.0}, "rest");
    svg.rect({label + scale * t->stiff, y}, std::max(0.9, scale * (t->soft - t->stiff)), 3.0,
             "smear");
    svg.line({label + scale * t->expected, y - 1.0}, {label + scale * t->expected, y + 4.0},
             "thick");
    const auto said = [&](double m) { return rough(m, quantity::Kind::length, units); };
    svg.text({label + scale * t->stiff, y + 6.0}, said(t->stiff), "small", Anchor::end);
    svg.text({label + scale * t->soft + 0.8, y + 6.0}, said(t->soft), "small");
    if (read > 0.0) {
      const double x = label + scale * read;
      svg.path({{x, y + 3.4}, {x - 1.1, y + 6.0}, {x + 1.1, y + 6.0}}, "bobweight", true);
      svg.text({x + 1.8, y + 5.8}, "read " + said(read), "small blue");
    }
    y += row;
  }
  return Captioned{
      std::move(svg),
      "Where nine in ten lie (hatched) and the middle (stroke), each test on a scale of "
      "its own; a triangle is what was read."};
}

std::optional<Captioned> options_drawing(const decide::SideBySide& comparison, double width) {
  constexpr double row = 6.4, label = 86.0, gap = 9.0;
  constexpr std::size_t most = 16;
  std::vector<const decide::Option*> options;
  for (const decide::Option& o : comparison.options) {
    if (o.figures && options.size() < most) options.push_back(&o);
  }
  if (options.size() < 2) return std::nullopt;
  const double rod = 0.5 * (width - label - 2.0 * gap);
  Svg svg(width, 6.0 + row * static_cast<double>(options.size()), "Side by side",
          "A rod of strength and a rod of sag for each bench. The table says the same.");
  svg.text({label, 3.0}, "strength, worst of all", "small");
  svg.text({label + rod + gap, 3.0}, "sag", "small");
  double y = 5.6;
  for (const decide::Option* o : options) {
    const decide::Figures& f = *o->figures;
    std::optional<decide::Span> worst;
    for (const auto& span : {f.carry, f.joints, f.sheet}) {
      if (span && (!worst || span->greatest > worst->greatest)) worst = span;
    }
    std::string name = o->name;
    if (text_width(name, 2.6) > label - 4.0) {
      while (text_width(name, 2.6) > label - 7.0) name.pop_back();
      name += "...";
    }
    svg.text({0, y + 2.2}, name, f.verdict == decide::Verdict::stands ? "name" : "");
    const auto draw = [&](double x, bool is_known, double least, double greatest) {
      if (is_known && least >= 0.0 && greatest >= least) {
        draw_rod(svg, {x, y}, rod, least, greatest);
      } else {
        svg.text({x, y + 2.2}, "not judged", "small");
      }
    };
    draw(label, worst.has_value(), worst ? worst->least : 0.0, worst ? worst->greatest : 0.0);
    draw(label + rod + gap, f.sag.has_value(), f.sag.value_or(0.0), f.sag.value_or(0.0));
    y += row;
  }
  return Captioned{std::move(svg),
                   "The double line is the limit; the stroke runs from the better to the worse "
                   "answer. Benches that stand are in bold; the table has all of them."};
}

}  // namespace standtrue::report
