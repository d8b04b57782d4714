// Elimination tree: Liu (1990), "The role of elimination trees in sparse factorization", SIAM J.
// Matrix Anal. Appl. 11(1); supernodes: Ashcraft and Grimes (1989), "The influence of relaxed
// supernode partitions on the multifrontal method", ACM TOMS 15(4) (both from memory).
#include "solve/supernodes.hpp"

#include <Eigen/OrderingMethods>
#include <algorithm>

namespace standtrue::solve {

namespace {

using Sparse = Eigen::SparseMatrix<double>;

std::size_t at(int i) { return static_cast<std::size_t>(i); }

/// The unknowns in an order that fills little, those that are kept last.
std::vector<int> minimum_degree(const Sparse& K, const std::vector<int>& kept) {
  const int n = static_cast<int>(K.cols());
  std::vector<int> name(at(n), 0), inner;
  for (const int k : kept) name[at(k)] = -1;
  for (int i = 0; i < n; ++i) {
    if (name[at(i)] < 0) continue;
    name[at(i)] = static_cast<int>(inner.size());
    inner.push_back(i);
  }
  const int n_inner = static_cast<int>(inner.size());
  Eigen::SparseMatrix<signed char> lower(n_inner, n_inner);
  lower.reserve(K.nonZeros() / 2 + n_inner);
  for (int c = 0; c < n_inner; ++c) {
    lower.startVec(c);
    for (Sparse::InnerIterator it(K, inner[at(c)]); it; ++it) {
      const int row = name[at(static_cast<int>(it.row()))];
      if (row >= c) lower.insertBack(row, c) = 1;
    }
  }
  lower.finalize();
  std::vector<int> order;
  order.reserve(at(n));
  if (n_inner > 0) {
    Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int> unknown_of_place;
    Eigen::AMDOrdering<int>()(lower.selfadjointView<Eigen::Lower>(), unknown_of_place);
    for (const int i : unknown_of_place.indices()) order.push_back(inner[at(i)]);
  }
  order.insert(order.end(), kept.begin(), kept.end());
  return order;
}

/// Of each place that is eliminated the first row of its column of L; -1: none.
std::vector<int> elimination_tree(const Sparse& K, const Supernodes& nodes, int n_inner) {
  std::vector<int> parent(at(n_inner), -1), ancestor(at(n_inner), -1);
  for (int p = 0; p < n_inner; ++p) {
    for (Sparse::InnerIterator it(K, nodes.unknown[at(p)]); it; ++it) {
      int i = nodes.place[at(static_cast<int>(it.row()))];
      while (i < p && i != -1) {
        const int above = ancestor[at(i)];
        ancestor[at(i)] = p;
        if (above < 0) parent[at(i)] = p;
        i = above;
      }
    }
  }
  return parent;
}

/// The places so that each follows all that lie below it in the tree.
std::vector<int> postorder(const std::vector<int>& parent) {
  const int n = static_cast<int>(parent.size());
  std::vector<int> child(at(n), -1), sister(at(n), -1), order, open;
  for (int p = n; p-- > 0;) {
    if (parent[at(p)] < 0) continue;
    sister[at(p)] = child[at(parent[at(p)])];
    child[at(parent[at(p)])] = p;
  }
  order.reserve(at(n));
  for (int root = 0; root < n; ++root) {
    if (parent[at(root)] >= 0) continue;
    open.push_back(root);
    while (!open.empty()) {
      const int p = open.back();
      if (child[at(p)] >= 0) {
        open.push_back(child[at(p)]);
        child[at(p)] = sister[at(child[at(p)])];
      } else {
        order.push_back(p);
        open.pop_back();
      }
    }
  }
  return order;
}

void set_order(Supernodes& nodes, std::vector<int> unknown) {
  nodes.unknown = std::move(unknown);
  nodes.place.resize(nodes.unknown.size());
  for (int p = 0; p < static_cast<int>(nodes.unknown.size()); ++p) {
    nodes.place[at(nodes.unknown[at(p)])] = p;
  }
}

struct Run {
  int first = 0, width = 0;
  std::vector<int> rows;
  double zeros = 0.0;  ///< that it holds for being one
};

/// Runs of places whose columns have the same rows below; places in postorder.
std::vector<Run> exact_runs(const Sparse& K, const Supernodes& nodes, int n_inner) {
  std::vector<Run> runs;
  std::vector<std::vector<int>> children(at(n_inner));  // runs whose first row is this place
  std::vector<int> seen(nodes.place.size(), -1);
  for (int p = 0; p < n_inner; ++p) {
    std::vector<int> rows;
    const auto add = [&](int row) {
      if (row <= p || seen[at(row)] == p) return;
      seen[at(row)] = p;
      rows.push_back(row);
    };
    for (const int c : children[at(p)]) {
      for (const int row : runs[at(c)].rows) add(row);
    }
    for (Sparse::InnerIterator it(K, nodes.unknown[at(p)]); it; ++it) {
      add(nodes.place[at(static_cast<int>(it.row()))]);
    }
    Run* before = runs.empty() ? nullptr : &runs.back();
    if (before != nullptr && !before->rows.empty() && before->rows.front() == p &&
        before->rows.size() == rows.size() + 1) {
      ++before->width;
      before->rows.erase(before->rows.begin());
    } else {
      std::sort(rows.begin(), rows.end());
      runs.push_back({p, 1, std::move(rows)});
    }
    const Run& run = runs.back();
    if (!run.rows.empty() && run.rows.front() < n_inner) {
      children[at(run.rows.front())].push_back(static_cast<int>(runs.size()) - 1);
    }
  }
  return runs;
}

/// Whether a run of that width is worth the zeros, as a part of what it holds: wide ones gain less.
bool worth(int width, double zeros) {
  if (width <= 4) return true;
  if (width <= 16) return zeros < 0.8;
  return zeros < (width <= 48 ? 0.1 : 0.05);
}

/// A run and the one before it that leads into it become one.
std::vector<Run> joined_runs(std::vector<Run> runs) {
  std::vector<Run> joined;
  for (Run& run : runs) {
    while (!joined.empty()) {
      const Run& before = joined.back();
      if (before.rows.empty() || before.rows.front() >= run.first + run.width) break;
      const int width = before.width + run.width;
      const auto below = static_cast<double>(run.rows.size());
      const double zeros =
          before.zeros + run.zeros +
          before.width * (run.width + below - static_cast<double>(before.rows.size()));
      if (!worth(width, zeros / (width * (0.5 * width + below)))) break;
      run = {before.first, width, std::move(run.rows), zeros};
      joined.pop_back();
    }
    joined.push_back(std::move(run));
  }
  return joined;
}

}  // namespace

Supernodes supernodes_of(const Sparse& K, const std::vector<int>& kept) {
  const int n = static_cast<int>(K.cols()), n_inner = n - static_cast<int>(kept.size());
  Supernodes nodes;
  set_order(nodes, minimum_degree(K, kept));
  std::vector<int> again = nodes.unknown;
  const std::vector<int> order = postorder(elimination_tree(K, nodes, n_inner));
  for (int p = 0; p < n_inner; ++p) again[at(p)] = nodes.unknown[at(order[at(p)])];
  set_order(nodes, std::move(again));
  const std::vector<Run> runs = joined_runs(exact_runs(K, nodes, n_inner));
  for (const Run& run : runs) {
    nodes.first.push_back(run.first);
    nodes.first_row.push_back(static_cast<int>(nodes.rows.size()));
    nodes.rows.insert(nodes.rows.end(), run.rows.begin(), run.rows.end());
  }
  nodes.eliminated = static_cast<int>(runs.size());
  if (n > n_inner) {
    nodes.first.push_back(n_inner);
    nodes.first_row.push_back(static_cast<int>(nodes.rows.size()));
  }
  nodes.first.push_back(n);
  nodes.first_row.push_back(static_cast<int>(nodes.rows.size()));
  nodes.of_place.resize(at(n));
  for (int s = 0; s < nodes.count(); ++s) {
    for (int p = nodes.first[at(s)]; p < nodes.first[at(s + 1)]; ++p) nodes.of_place[at(p)] = s;
  }
  return nodes;
}

}  // namespace standtrue::solve
