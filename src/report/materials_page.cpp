// What the bench is made of, with where its values come from.
#include <fmt/format.h>

#include <algorithm>

#include "report/pages.hpp"

namespace standtrue::report {

namespace {

using quantity::in_si;
using quantity::Kind;

/// One line for each timber class and each kind of board, however often it is used.
struct Materials {
  const bench::Bench& bench;
  std::vector<std::string> told = {};
  Table timber = Table({"timber", "bending", "shear", "E mean", "G mean", "density", "from"}, 1);
  Table boards = Table({"board", "bending 0/90", "E 0/90", "density", "from"}, 1);

  [[nodiscard]] std::string stress(quantity::Stress value) const {
    return in_si(value) > 0.0 ? quantity::print(in_si(value), Kind::stress, bench.units) : "-";
  }
  [[nodiscard]] std::string density(quantity::Density value) const {
    return quantity::print(in_si(value), Kind::density, bench.units);
  }
  bool is_new(const std::string& key) {
    if (std::find(told.begin(), told.end(), key) != told.end()) return false;
    told.push_back(key);
    return true;
  }
  void add(const bench::Stock& stock) {
    const reference::Timber& t = stock.timber;
    if (!is_new(t.key)) return;
    timber.add({t.key, stress(t.f_m_k), stress(t.f_v_k), stress(t.E_0_mean), stress(t.G_mean),
                density(t.rho_mean), reference::citation(t.source.whole)});
  }
  void add(const bench::Sheet& sheet) {
    const reference::Panel& p = sheet.panel;
    const std::string key =
        quantity::print(in_si(p.nominal), Kind::length, quantity::UnitSystem::metric) + " " +
        sheet.family.key;
    if (!is_new(key)) return;
    boards.add({key, stress(p.f_m_0_k) + " / " + stress(p.f_m_90_k),
                stress(p.E_m_0) + " / " + stress(p.E_m_90), density(p.rho_mean),
                reference::citation(p.source.whole)});
  }
};

}  // namespace

Page materials_page(const decide::Assessment& assessment) {
  Materials all{assessment.bench};
  for (const bench::Post& post : assessment.bench.posts) {
    if (!post.on_wall) all.add(post.stock);
  }
  for (const bench::Rail& rail : assessment.bench.rails) all.add(rail.stock);
  for (const bench::Bearer& bearer : assessment.bench.bearers) all.add(bearer.stock);
  for (const bench::Brace& brace : assessment.bench.braces) all.add(brace.stock);
  for (const bench::Sheet& sheet : assessment.bench.sheets) all.add(sheet);
  Page page;
  page.line("",
            "Characteristic strengths and mean moduli, dry; boards along and across their face "
            "grain. Every value with its own source: standtrue tables.");
  if (!all.timber.empty()) page.table(std::move(all.timber));
  if (!all.boards.empty()) page.table(std::move(all.boards));
  return page;
}

}  // namespace standtrue::report
