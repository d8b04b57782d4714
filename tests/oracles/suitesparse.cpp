// The program's sparse solves against SuiteSparse, on the matrices of the example benches: the
// frame with its sheets condensed, the very same matrix; and the whole bench, every mesh node of
// every sheet, added up here and not condensed. Prints one line for each; exit code 1 when one is
// off.
//
//     oracle_suitesparse FOLDER of examples
#include <fmt/format.h>

#include <Eigen/CholmodSupport>
#include <Eigen/UmfPackSupport>
#include <cmath>
#include <fstream>
#include <limits>
#include <sstream>
#include <stdexcept>
#include <string>

#include "solve/cell_stiffness.hpp"
#include "solve/whole_frame.hpp"
#include "standtrue/bench/read.hpp"
#include "standtrue/document/document.hpp"
#include "standtrue/model/idealise.hpp"
#include "tests/solve/whole_system.hpp"

using namespace standtrue;

namespace {

using solve::Panel;
using solve::SparseMatrix;

model::Model model_of(const std::string& path, const reference::Tables& tables,
                      model::Bound bound) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  const document::Reading reading = document::parse(path, text.str());
  const bench::BenchReading read = bench::read_bench(*reading.document, tables);
  if (!read.bench) throw std::runtime_error(path + " can not be read");
  model::Assumptions assumptions;
  assumptions.bound = bound;
  return *model::idealise(*read.bench, tables, assumptions).model;
}

/// Five rows (u v w rx ry) of each mesh node behind the six of each node, as WholeFrame has them.
class WholeMatrix {
 public:
  explicit WholeMatrix(const solve::WholeFrame& whole) : whole_(whole), in_(whole.inside()) {
    add_frame();
    for (std::size_t p = 0; p < in_.plates.size(); ++p) {
      add_cells(p);
      add_bodies(p);
    }
  }

  [[nodiscard]] SparseMatrix stiffness() const {
    SparseMatrix K(whole_.size(), whole_.size());
    K.setFromTriplets(entries_.begin(), entries_.end());
    return K;
  }

 private:
  /// Members, supports and ties: the frame's matrix less the condensed sheets, its tied points
  /// carried by their mesh nodes: u + a ry, v - a rx, w.
  void add_frame() {
    const solve::Freedoms& freedoms = in_.freedoms;
    solve::Triplets carried;
    for (Eigen::Index i = 0; i < freedoms.of_nodes(); ++i) {
      carried.emplace_back(static_cast<int>(i), static_cast<int>(i), 1.0);
    }
    SparseMatrix ties = in_.K;
    solve::Triplets sheets;
    for (std::size_t p = 0; p < in_.plates.size(); ++p) {
      const solve::PreparedPlate& plate = in_.plates[p];
      const solve::CondensedPlate& condensed = *plate.answered->condensed;
      for (Eigen::Index r = 0; r < plate.size(); ++r) {
        for (Eigen::Index c = 0; c < plate.size(); ++c) {
          sheets.emplace_back(static_cast<int>(plate.first + r), static_cast<int>(plate.first + c),
                              plate.stiffness(r, c));
        }
      }
      const double a = condensed.plate().tie_level;
      for (std::size_t t = 0; t < condensed.tied().size(); ++t) {
        const int row = static_cast<int>(plate.first) + 3 * static_cast<int>(t);
        const int at =
            static_cast<int>(whole_.first(p)) + 5 * static_cast<int>(condensed.tied()[t]);
        for (int axis = 0; axis < 3; ++axis) carried.emplace_back(row + axis, at + axis, 1.0);
        carried.emplace_back(row, at + 4, a);
        carried.emplace_back(row + 1, at + 3, -a);
      }
    }
    SparseMatrix of_sheets(in_.K.rows(), in_.K.cols()), T(in_.K.rows(), whole_.size());
    of_sheets.setFromTriplets(sheets.begin(), sheets.end());
    T.setFromTriplets(carried.begin(), carried.end());
    ties -= of_sheets;
    const SparseMatrix K = T.transpose() * ties * T;
    for (Eigen::Index c = 0; c < K.outerSize(); ++c) {
      for (SparseMatrix::InnerIterator it(K, c); it; ++it) {
        entries_.emplace_back(static_cast<int>(it.row()), static_cast<int>(it.col()), it.value());
      }
    }
  }

  void add_cells(std::size_t p) {
    const model::Plate& plate = in_.plates[p].answered->condensed->plate();
    const double by = 1.0 / in_.plates[p].creep;
    solve::CellStiffnesses cells(plate.stiffness);
    for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
      for (std::size_t i = 0; i + 1 < plate.x.size(); ++i) {
        if (!plate.has_cell(i, j)) continue;
        const solve::CellStiffness& cell =
            cells.of(plate.x[i + 1] - plate.x[i], plate.y[j + 1] - plate.y[j]);
        const std::size_t corners[] = {plate.node(i, j), plate.node(i + 1, j),
                                       plate.node(i + 1, j + 1), plate.node(i, j + 1)};
        for (int r = 0; r < 20; ++r) {
          for (int c = 0; c < 20; ++c) {
            const int fr = r % 5, fc = c % 5;
            if ((fr < 2) != (fc < 2)) continue;
            const double k = fr < 2 ? cell.in_plane(2 * (r / 5) + fr, 2 * (c / 5) + fc)
                                    : cell.bending(3 * (r / 5) + fr - 2, 3 * (c / 5) + fc - 2);
            entries_.emplace_back(row(p, corners[r / 5]) + fr, row(p, corners[c / 5]) + fc, by * k);
          }
        }
      }
    }
  }

  void add_bodies(std::size_t p) {
    const model::Plate& plate = in_.model.plates[p];
    for (const model::PlateBody& body : plate.bodies) {
      std::vector<std::pair<int, double>> q;
      for (std::size_t pad = 0; pad < 4; ++pad) {
        tests::spread(plate, body.pads[pad], [&](std::size_t n, double share) {
          q.emplace_back(row(p, n) + 2, pad % 2 == 0 ? share : -share);
        });
      }
      for (const auto& [r, a] : q) {
        for (const auto& [c, b] : q) entries_.emplace_back(r, c, body.stiffness * a * b);
      }
    }
  }

  [[nodiscard]] int row(std::size_t p, std::size_t mesh_node) const {
    return static_cast<int>(whole_.first(p)) + 5 * static_cast<int>(mesh_node);
  }

  const solve::WholeFrame& whole_;
  const solve::Prepared::Inside& in_;
  solve::Triplets entries_;
};

/// Rows and columns of all that can move.
struct Free {
  std::vector<int> kept;
  SparseMatrix K;

  explicit Free(const SparseMatrix& all, const solve::WholeFrame& whole) {
    Panel ones = Panel::Ones(all.rows(), 1);
    whole.hold(ones);
    solve::Triplets pick;
    for (Eigen::Index i = 0; i < all.rows(); ++i) {
      if (ones(i, 0) == 0.0) continue;
      pick.emplace_back(static_cast<int>(i), static_cast<int>(kept.size()), 1.0);
      kept.push_back(static_cast<int>(i));
    }
    SparseMatrix P(all.rows(), static_cast<Eigen::Index>(kept.size()));
    P.setFromTriplets(pick.begin(), pick.end());
    K = P.transpose() * all * P;
  }

  [[nodiscard]] Eigen::MatrixXd of(const Panel& rows) const {
    Eigen::MatrixXd some(static_cast<Eigen::Index>(kept.size()), rows.cols());
    for (std::size_t i = 0; i < kept.size(); ++i) {
      some.row(static_cast<Eigen::Index>(i)) = rows.row(kept[i]);
    }
    return some;
  }
};

/// Worst column, movements weighed by the root of their own stiffness: what the condition speaks
/// of.
double apart(const SparseMatrix& K, const Eigen::MatrixXd& ours, const Eigen::MatrixXd& theirs) {
  const Eigen::VectorXd weight = K.diagonal().cwiseSqrt();
  double worst = 0.0;
  for (Eigen::Index c = 0; c < ours.cols(); ++c) {
    const double size = (weight.asDiagonal() * theirs.col(c)).norm();
    const double off = (weight.asDiagonal() * (ours.col(c) - theirs.col(c))).norm();
    if (size > 0.0) worst = std::max(worst, off / size);
    if (!std::isfinite(off)) return std::numeric_limits<double>::infinity();
  }
  return worst;
}

bool compare(const std::string& what, const SparseMatrix& K, const Eigen::MatrixXd& forces,
             const Eigen::MatrixXd& ours, double condition) {
  const Eigen::CholmodSupernodalLLT<SparseMatrix> cholmod(K);
  const Eigen::UmfPackLU<SparseMatrix> umfpack(K);
  if (cholmod.info() != Eigen::Success || umfpack.info() != Eigen::Success) {
    fmt::print("{}: SuiteSparse could not factorise\n", what);
    return false;
  }
  const double allowed = 2.0 * condition * std::numeric_limits<double>::epsilon();
  const double off_c = apart(K, ours, cholmod.solve(forces));
  const double off_u = apart(K, ours, umfpack.solve(forces));
  fmt::print(
      "{} unknowns={} loads={} condition={:.2e} cholmod={:.2e} umfpack={:.2e} allowed={:.2e}\n",
      what, K.cols(), forces.cols(), condition, off_c, off_u, allowed);
  return off_c <= allowed && off_u <= allowed;
}

bool compare_bench(const std::string& name, const model::Model& model) {
  const solve::OrRefusal<solve::Prepared> prepared =
      solve::prepare(model, model::SpringSet::gravity);
  if (!prepared) throw std::runtime_error(name + ": refused");
  const solve::Prepared::Inside& in = prepared->inside();
  const double condition = 1.0 / in.factor->reciprocal_condition();
  const auto n_cases = static_cast<Eigen::Index>(in.cases.size());

  const SparseMatrix K = solve::free_part(in.K, in.freedoms);
  Eigen::MatrixXd forces(K.cols(), n_cases);
  for (Eigen::Index c = 0; c < n_cases; ++c) {
    forces.col(c) = in.freedoms.free_part(in.cases[static_cast<std::size_t>(c)].load);
  }
  const bool frame_well =
      compare("frame " + name, K, forces, in.factor->solve(Panel(forces)), condition);

  const solve::WholeFrame whole(in);
  Panel loads(whole.size(), n_cases);
  for (Eigen::Index c = 0; c < n_cases; ++c) {
    loads.col(c) = whole.load_of(static_cast<model::CaseId>(c));
  }
  whole.hold(loads);
  const Free free(WholeMatrix(whole).stiffness(), whole);
  solve::Layouts layouts;
  const double whole_condition = 1.0 / solve::Factor(free.K, layouts).reciprocal_condition();
  return compare("whole " + name, free.K, free.of(loads), free.of(whole.movements_under(loads)),
                 whole_condition) &&
         frame_well;
}

}  // namespace

int main(int count, char** words) {
  const std::string folder = count > 1 ? words[1] : "examples";
  const reference::Tables tables = reference::load_tables();
  bool well = true;
  for (const char* name : {"boiler-plinth", "turning-bench", "too-slender"}) {
    for (const auto& [bound, word] :
         {std::pair{model::Bound::soft, "soft"}, {model::Bound::stiff, "stiff"}}) {
      const model::Model model = model_of(folder + "/" + name + ".yaml", tables, bound);
      well = compare_bench(std::string(name) + " " + word, model) && well;
    }
  }
  return well ? 0 : 1;
}
