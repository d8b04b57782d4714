// All numbers SI (m, N, rad).
#include "solve/condensed_plate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "solve/cell_stiffness.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::solve {

namespace {

constexpr double same_place = 1e-9;  // m

/// A stretch [from, to] of one axis cut by mesh lines: what the two ends of each cell get of a load
/// of 1 per metre; a stretch without length is a point of load 1, shared by the cells it touches.
struct Cut {
  std::size_t cell = 0;
  double measure = 0.0;
  std::array<double, 2> on{};  ///< the cell's lower and upper line
};

std::vector<Cut> cuts(const std::vector<double>& lines, double from, double to) {
  std::vector<Cut> found;
  for (std::size_t c = 0; c + 1 < lines.size(); ++c) {
    const double l = lines[c + 1] - lines[c];
    if (to - from <= same_place) {
      const double s = (0.5 * (from + to) - lines[c]) / l;
      if (s < -same_place / l || s > 1.0 + same_place / l) continue;
      found.push_back({c, 1.0, {1.0 - s, s}});
      continue;
    }
    const double s0 = std::clamp((from - lines[c]) / l, 0.0, 1.0);
    const double s1 = std::clamp((to - lines[c]) / l, 0.0, 1.0);
    if (s1 - s0 <= 0.0) continue;
    const double upper = 0.5 * (s1 * s1 - s0 * s0) * l;
    found.push_back({c, (s1 - s0) * l, {(s1 - s0) * l - upper, upper}});
  }
  return found;
}

void scatter(std::vector<Eigen::Triplet<double>>& entries, const std::vector<int>& places,
             const Eigen::Ref<const Eigen::MatrixXd>& k) {
  for (std::size_t r = 0; r < places.size(); ++r) {
    for (std::size_t c = 0; c < places.size(); ++c) {
      if (places[r] < 0 || places[c] < 0) continue;
      entries.emplace_back(places[r], places[c],
                           k(static_cast<Eigen::Index>(r), static_cast<Eigen::Index>(c)));
    }
  }
}

}  // namespace

CondensedPlate::CondensedPlate(const model::Plate& plate) : plate_(plate) {
  for (const model::PlateTie& tie : plate_.ties) tied_.push_back(plate_.node(tie.i, tie.j));
  std::sort(tied_.begin(), tied_.end());
  tied_.erase(std::unique(tied_.begin(), tied_.end()), tied_.end());
  number_freedoms();
  assemble();
  if (!refusal_) eliminate_turns();
}

void CondensedPlate::number_freedoms() {
  std::vector<bool> there(plate_.lines(), false);
  for (std::size_t j = 0; j + 1 < plate_.y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < plate_.x.size(); ++i) {
      if (!plate_.has_cell(i, j)) continue;
      there[plate_.node(i, j)] = there[plate_.node(i + 1, j)] = true;
      there[plate_.node(i, j + 1)] = there[plate_.node(i + 1, j + 1)] = true;
    }
  }
  place_.assign(plate_.lines(), {-1, -1, -1, -1, -1});
  for (std::size_t j = 0; j < plate_.y.size(); ++j) {
    for (std::size_t i = 0; i < plate_.x.size(); ++i) {
      const std::size_t n = plate_.node(i, j);
      if (!there[n]) continue;
      std::array<bool, 5> held{};
      for (const model::PlateHold& hold : plate_.holds) {
        const model::Patch& w = hold.where;
        const bool inside = plate_.x[i] > w.x0 - same_place && plate_.x[i] < w.x1 + same_place &&
                            plate_.y[j] > w.y0 - same_place && plate_.y[j] < w.y1 + same_place;
        for (std::size_t f = 0; f < 5 && inside; ++f) held[f] = held[f] || hold.freedoms[f];
      }
      for (std::size_t f = 0; f < 5; ++f) {
        if (!held[f]) place_[n][f] = f < 2 ? n_in_plane_++ : n_bending_++;
      }
    }
  }
  for (const std::size_t n : tied_) {
    expects(std::none_of(place_[n].begin(), place_[n].end(), [](int p) { return p < 0; }),
            "CondensedPlate: a tie where the plate is missing or held");
  }
}

void CondensedPlate::assemble() {
  std::vector<Eigen::Triplet<double>> in_plane, bending;
  in_plane.reserve(64 * plate_.lines());
  bending.reserve(144 * plate_.lines());
  CellStiffnesses cells(plate_.stiffness);
  for (std::size_t j = 0; j + 1 < plate_.y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < plate_.x.size(); ++i) {
      if (!plate_.has_cell(i, j)) continue;
      const CellStiffness& cell =
          cells.of(plate_.x[i + 1] - plate_.x[i], plate_.y[j + 1] - plate_.y[j]);
      std::vector<int> flat, bent;
      for (const std::size_t n : {plate_.node(i, j), plate_.node(i + 1, j),
                                  plate_.node(i + 1, j + 1), plate_.node(i, j + 1)}) {
        flat.insert(flat.end(), place_[n].begin(), place_[n].begin() + 2);
        bent.insert(bent.end(), place_[n].begin() + 2, place_[n].end());
      }
      scatter(in_plane, flat, cell.in_plane);
      scatter(bending, bent, cell.bending);
    }
  }
  Eigen::SparseMatrix<double> K_flat(n_in_plane_, n_in_plane_), K_bent(n_bending_, n_bending_);
  K_flat.setFromTriplets(in_plane.begin(), in_plane.end());
  K_bent.setFromTriplets(bending.begin(), bending.end());
  std::vector<int> kept_flat, kept_bent;
  for (const std::size_t n : tied_) {
    kept_flat.insert(kept_flat.end(), place_[n].begin(), place_[n].begin() + 2);
    kept_bent.insert(kept_bent.end(), place_[n].begin() + 2, place_[n].end());
  }
  in_plane_.emplace(K_flat, kept_flat);
  bending_.emplace(K_bent, kept_bent);
  for (const bool is_flat : {false, true}) {
    const Substructure& part = is_flat ? *in_plane_ : *bending_;
    if (part.ok() || refusal_) continue;
    for (std::size_t n = 0; n < place_.size(); ++n) {
      for (std::size_t f = is_flat ? 0 : 2; f < (is_flat ? 2u : 5u); ++f) {
        if (place_[n][f] < 0 || place_[n][f] != part.loosest()) continue;
        refusal_ = Refusal{
            Refusal::Why::mechanism,
            fmt::format("the {} can {} near ({:.0f}, {:.0f}) mm: nothing resists it", plate_.name,
                        is_flat ? "slide" : (f == 2 ? "lift or sink" : "turn over"),
                        1e3 * plate_.x[n % plate_.x.size()], 1e3 * plate_.y[n / plate_.x.size()]),
            "tie it to more of the frame, or hold it", std::nullopt};
      }
    }
    if (!refusal_) {
      refusal_ = Refusal{Refusal::Why::mechanism,
                         fmt::format("a part of the {} is held by nothing", plate_.name),
                         "tie it to the frame, or leave it out", std::nullopt};
    }
  }
}

/// From (u, v) of the mid-plane to the tied point: u_t = u + a ry, v_t = v - a rx.
void CondensedPlate::eliminate_turns() {
  const auto m = static_cast<Eigen::Index>(tied_.size());
  const double a = plate_.tie_level;
  Eigen::MatrixXd K_cc = Eigen::MatrixXd::Zero(3 * m, 3 * m);
  Eigen::MatrixXd K_rr = Eigen::MatrixXd::Zero(2 * m, 2 * m);
  K_cr_ = Eigen::MatrixXd::Zero(3 * m, 2 * m);
  const Eigen::MatrixXd& flat = in_plane_->stiffness();
  const Eigen::MatrixXd& bent = bending_->stiffness();
  for (Eigen::Index p = 0; p < m; ++p) {
    for (Eigen::Index q = 0; q < m; ++q) {
      const Eigen::Matrix2d f = flat.block<2, 2>(2 * p, 2 * q);
      const Eigen::Matrix3d b = bent.block<3, 3>(3 * p, 3 * q);
      Eigen::Matrix2d to_turn;  // (u, v) = (u_t, v_t) + to_turn * (rx, ry)
      to_turn << 0.0, -a, a, 0.0;
      K_cc.block<2, 2>(3 * p, 3 * q) = f;
      K_cc(3 * p + 2, 3 * q + 2) = b(0, 0);
      K_cr_.block<2, 2>(3 * p, 2 * q) = f * to_turn;
      K_cr_.block<1, 2>(3 * p + 2, 2 * q) = b.block<1, 2>(0, 1);
      K_rr.block<2, 2>(2 * p, 2 * q) = b.block<2, 2>(1, 1) + to_turn.transpose() * f * to_turn;
    }
  }
  K_rr_.compute(K_rr);
  bool ok = K_rr_.info() == Eigen::Success;
  for (Eigen::Index i = 0; i < 2 * m && ok; ++i) {
    const double l = K_rr_.matrixLLT()(i, i);
    ok = l * l > 1e-11 * K_rr(i, i);
  }
  if (!ok) {
    refusal_ = Refusal{Refusal::Why::mechanism,
                       fmt::format("the {} can turn about what it is tied to", plate_.name),
                       "tie it to more of the frame", std::nullopt};
    return;
  }
  S_ = K_cc;
  if (m > 0) S_.noalias() -= K_cr_ * K_rr_.solve(K_cr_.transpose());
  S_ = 0.5 * (S_ + Eigen::MatrixXd(S_.transpose()));
}

PlateAnswer CondensedPlate::answer(const PlateLoads& loads) const {
  const Eigen::Index columns = loads.cols();
  Panel flat(n_in_plane_, columns), bent(n_bending_, columns);
  for (std::size_t n = 0; n < place_.size(); ++n) {
    for (std::size_t f = 0; f < 5; ++f) {
      if (place_[n][f] < 0) continue;
      (f < 2 ? flat : bent).row(place_[n][f]) = loads.row(static_cast<Eigen::Index>(5 * n + f));
    }
  }
  PlateAnswer answer{in_plane_->particular(flat), bending_->particular(bent), {}, {}};
  const Panel on_flat = in_plane_->condensed(flat, answer.in_plane);
  const Panel on_bent = bending_->condensed(bent, answer.bending);
  const auto m = static_cast<Eigen::Index>(tied_.size());
  answer.turns.resize(2 * m, columns);
  answer.on_ties.resize(3 * m, columns);
  for (Eigen::Index p = 0; p < m; ++p) {
    answer.on_ties.middleRows<2>(3 * p) = on_flat.middleRows<2>(2 * p);
    answer.on_ties.row(3 * p + 2) = on_bent.row(3 * p);
    answer.turns.row(2 * p) = on_bent.row(3 * p + 1) + plate_.tie_level * on_flat.row(2 * p + 1);
    answer.turns.row(2 * p + 1) = on_bent.row(3 * p + 2) - plate_.tie_level * on_flat.row(2 * p);
  }
  if (m > 0) answer.on_ties -= K_cr_ * K_rr_.solve(Eigen::MatrixXd(answer.turns));
  return answer;
}

Panel CondensedPlate::movements(const Panel& of_ties, const PlateAnswer& answer,
                                double creep) const {
  const Eigen::Index columns = of_ties.cols();
  const auto m = static_cast<Eigen::Index>(tied_.size());
  Panel flat_kept(2 * m, columns), bent_kept(3 * m, columns);
  if (m > 0) {
    const Eigen::MatrixXd turns = K_rr_.solve(Eigen::MatrixXd(creep * answer.turns) -
                                              K_cr_.transpose() * Eigen::MatrixXd(of_ties));
    for (Eigen::Index p = 0; p < m; ++p) {
      flat_kept.row(2 * p) = of_ties.row(3 * p) - plate_.tie_level * turns.row(2 * p + 1);
      flat_kept.row(2 * p + 1) = of_ties.row(3 * p + 1) + plate_.tie_level * turns.row(2 * p);
      bent_kept.row(3 * p) = of_ties.row(3 * p + 2);
      bent_kept.middleRows<2>(3 * p + 1) = turns.middleRows<2>(2 * p);
    }
  }
  const Panel flat = in_plane_->follow(flat_kept) + creep * answer.in_plane;
  const Panel bent = bending_->follow(bent_kept) + creep * answer.bending;
  Panel all = Panel::Zero(static_cast<Eigen::Index>(5 * place_.size()), columns);
  for (std::size_t n = 0; n < place_.size(); ++n) {
    for (std::size_t f = 0; f < 5; ++f) {
      if (place_[n][f] < 0) continue;
      all.row(static_cast<Eigen::Index>(5 * n + f)) = (f < 2 ? flat : bent).row(place_[n][f]);
    }
  }
  return all;
}

PlateLoads CondensedPlate::no_loads(Eigen::Index columns) const {
  return PlateLoads::Zero(static_cast<Eigen::Index>(5 * place_.size()), columns);
}

void CondensedPlate::press(PlateLoads& loads, Eigen::Index column, const model::Patch& patch,
                           const std::array<double, 3>& force) const {
  const std::vector<Cut> along = cuts(plate_.x, patch.x0, patch.x1);
  const std::vector<Cut> across = cuts(plate_.y, patch.y0, patch.y1);
  double whole = 0.0;
  for (const Cut& b : across) {
    for (const Cut& a : along) {
      if (plate_.has_cell(a.cell, b.cell)) whole += a.measure * b.measure;
    }
  }
  expects(whole > 0.0, "CondensedPlate: a load beside the plate");
  for (const Cut& b : across) {
    for (const Cut& a : along) {
      if (!plate_.has_cell(a.cell, b.cell)) continue;
      for (const std::size_t j : {std::size_t{0}, std::size_t{1}}) {
        for (const std::size_t i : {std::size_t{0}, std::size_t{1}}) {
          const double share = a.on[i] * b.on[j] / whole;
          const auto n = static_cast<Eigen::Index>(5 * plate_.node(a.cell + i, b.cell + j));
          for (std::size_t f = 0; f < 3; ++f) {
            loads(n + static_cast<Eigen::Index>(f), column) += share * force[f];
          }
        }
      }
    }
  }
}

}  // namespace standtrue::solve
