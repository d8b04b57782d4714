// Factor and 500 right-hand sides on one matrix, the frame of a bench with its sheets condensed, by
// the program's own solver and by CHOLMOD. Writes the matrix for others (row, column and value
// of each entry as doubles) and prints the least times of the processor in ms, and how far K x is
// from f at worst, as a part of f.
//
//     same_matrix EXAMPLE MESH_MM FILE TRIES
#include <Eigen/CholmodSupport>
#include <cstdio>
#include <ctime>

#include "solve/prepared.hpp"
#include "tests/bench/speed/example.hpp"

using namespace standtrue;
using namespace standtrue::speed;

namespace {

using solve::Panel;
using solve::SparseMatrix;

void write(const SparseMatrix& K, const char* path) {
  std::ofstream file(path, std::ios::binary);
  for (Eigen::Index c = 0; c < K.outerSize(); ++c) {
    for (SparseMatrix::InnerIterator it(K, c); it; ++it) {
      const double entry[] = {static_cast<double>(it.row()), static_cast<double>(c), it.value()};
      file.write(reinterpret_cast<const char*>(entry), sizeof entry);
    }
  }
  if (!file) throw std::runtime_error(std::string(path) + " can not be written");
}

int tries = 1;

/// `factor()` gives what `solve(factor, F)` answers with.
template <class F, class Factor, class Solve>
void time(const char* name, const SparseMatrix& K, const F& right, Factor factor, Solve solve) {
  const auto ms = [](std::clock_t ticks) {
    return 1e3 * static_cast<double>(ticks) / static_cast<double>(CLOCKS_PER_SEC);
  };
  double factored = 1e300, solved = 1e300, off = 0.0;
  for (int i = 0; i < tries; ++i) {
    const std::clock_t start = std::clock();
    const auto made = factor();
    const std::clock_t between = std::clock();
    const F x = solve(*made, right);
    const std::clock_t end = std::clock();
    factored = std::min(factored, ms(between - start));
    solved = std::min(solved, ms(end - between));
    off = (K * x - right).norm() / right.norm();
  }
  std::printf("%s: factor=%.6g solve=%.6g off=%.1e\n", name, factored, solved, off);
}

template <class Cholmod>
void time_cholmod(const char* name, const SparseMatrix& K, const Eigen::MatrixXd& right) {
  time(
      name, K, right, [&] { return std::make_unique<Cholmod>(K); },
      [](const Cholmod& made, const Eigen::MatrixXd& f) { return Eigen::MatrixXd(made.solve(f)); });
}

}  // namespace

int main(int count, char** words) {
  if (count != 5) return 2;
  tries = std::stoi(words[4]);
  const solve::Prepared prepared = solve::prepare(model_of(words[1], std::stod(words[2]))).value();
  const SparseMatrix K = solve::free_part(prepared.inside().K, prepared.inside().freedoms);
  write(K, words[3]);
  std::printf("unknowns=%d entries=%d\n", static_cast<int>(K.cols()),
              static_cast<int>(K.nonZeros()));

  const Panel right = Panel::Random(K.cols(), 500);
  time(
      "standtrue, bare", K, right, [&] { return std::make_unique<solve::SparseLdlt>(K); },
      [](const solve::SparseLdlt& made, const Panel& f) { return made.solve(f); });
  time(
      "standtrue, as used", K, right,
      [&] {
        solve::Layouts none;
        return std::make_unique<solve::Factor>(K, none);
      },
      [](const solve::Factor& made, const Panel& f) { return made.solve(f); });
  time_cholmod<Eigen::CholmodSupernodalLLT<SparseMatrix>>("CHOLMOD, supernodal", K, right);
  time_cholmod<Eigen::CholmodSimplicialLDLT<SparseMatrix>>("CHOLMOD, simplicial", K, right);
}
