#include "decide/packing.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace standtrue::decide {

namespace {

constexpr std::size_t most_exact = 12;
constexpr double cut_rounding = 1e-9;  // m

/// The shortest stock that holds so much; infinite if none does.
double shortest(const std::vector<double>& stock, double length) {
  double best = std::numeric_limits<double>::infinity();
  for (const double s : stock) {
    if (s + cut_rounding >= length) best = std::min(best, s);
  }
  return best;
}

/// Length bought, then bars.
struct Cost {
  double length = 0.0;
  std::size_t bars = 0;
  [[nodiscard]] bool is_less_than(const Cost& other) const {
    if (std::abs(length - other.length) > cut_rounding) return length < other.length;
    return bars < other.bars;
  }
};

/// Every way of parting the pieces: the bar of the first piece that is left is any set with it.
std::vector<Bar> exact(const std::vector<double>& lengths, const std::vector<std::size_t>& which,
                       const std::vector<double>& stock, double kerf) {
  const std::size_t n = which.size(), all = (std::size_t{1} << n) - 1;
  std::vector<double> need(all + 1, -kerf), bar(all + 1);
  for (std::size_t set = 1; set <= all; ++set) {
    for (std::size_t i = 0; i < n; ++i) {
      if ((set >> i) & 1U) need[set] += lengths[which[i]] + kerf;
    }
    bar[set] = shortest(stock, need[set]);
  }
  std::vector<Cost> best(all + 1, {std::numeric_limits<double>::infinity(), 0});
  std::vector<std::size_t> first(all + 1, 0);
  best[0] = {};
  for (std::size_t set = 1; set <= all; ++set) {
    const std::size_t lowest = set & (~set + 1);
    for (std::size_t sub = set; sub > 0; sub = (sub - 1) & set) {
      if ((sub & lowest) == 0 || !std::isfinite(bar[sub])) continue;
      const Cost& rest = best[set ^ sub];
      const Cost cost{rest.length + bar[sub], rest.bars + 1};
      if (!cost.is_less_than(best[set])) continue;
      best[set] = cost;
      first[set] = sub;
    }
  }
  std::vector<Bar> bars;
  for (std::size_t set = all; set > 0; set ^= first[set]) {
    Bar one{bar[first[set]], {}};
    for (std::size_t i = 0; i < n; ++i) {
      if ((first[set] >> i) & 1U) one.pieces.push_back(which[i]);
    }
    bars.push_back(std::move(one));
  }
  return bars;
}

/// Longest first, each into the bar of the longest stock that it fills best; then every bar as
/// short as its pieces allow.
std::vector<Bar> best_fit(const std::vector<double>& lengths, std::vector<std::size_t> which,
                          const std::vector<double>& stock, double kerf) {
  const double longest = *std::max_element(stock.begin(), stock.end());
  std::stable_sort(which.begin(), which.end(),
                   [&](std::size_t a, std::size_t b) { return lengths[a] > lengths[b]; });
  std::vector<Bar> bars;
  std::vector<double> left;
  for (const std::size_t i : which) {
    std::optional<std::size_t> into;
    for (std::size_t b = 0; b < bars.size(); ++b) {
      const bool fits = left[b] + cut_rounding >= lengths[i] + kerf;
      if (fits && (!into || left[b] < left[*into])) into = b;
    }
    if (!into) {
      bars.push_back({longest, {}});
      left.push_back(longest + kerf);
      into = bars.size() - 1;
    }
    bars[*into].pieces.push_back(i);
    left[*into] -= lengths[i] + kerf;
  }
  for (Bar& bar : bars) {
    double need = -kerf;
    for (const std::size_t i : bar.pieces) need += lengths[i] + kerf;
    bar.stock = shortest(stock, need);
  }
  return bars;
}

}  // namespace

double Cutting::bought() const {
  return std::accumulate(bars.begin(), bars.end(), 0.0,
                         [](double sum, const Bar& bar) { return sum + bar.stock; });
}

Cutting cut(const std::vector<double>& lengths, const std::vector<double>& stock, double kerf) {
  Cutting plan;
  std::vector<std::size_t> which;
  for (std::size_t i = 0; i < lengths.size(); ++i) {
    (std::isfinite(shortest(stock, lengths[i])) ? which : plan.too_long).push_back(i);
  }
  if (which.empty()) return plan;
  plan.exact = which.size() <= most_exact;
  plan.bars =
      plan.exact ? exact(lengths, which, stock, kerf) : best_fit(lengths, which, stock, kerf);
  return plan;
}

namespace {

struct Free {
  std::size_t sheet = 0;
  double along = 0.0, across = 0.0, length = 0.0, width = 0.0;
};

/// Pieces in one order, each tried in every free place and with both ways of the next cut.
class Search {
 public:
  Search(const std::vector<Rectangle>& pieces, Rectangle sheet, double kerf)
      : pieces_(pieces), sheet_(sheet), kerf_(kerf) {}

  /// The fewest sheets found within a bounded number of steps; `complete` if all were tried.
  void run(const std::vector<std::size_t>& order) {
    order_ = order;
    now_.clear();
    steps_ = 0;
    place(0, {}, 0);
    complete_ = complete_ && steps_ < most_steps;
  }
  [[nodiscard]] const std::vector<std::vector<LaidPiece>>& best() const { return best_; }
  [[nodiscard]] bool complete() const { return complete_; }

 private:
  static constexpr std::size_t most_steps = 20000;

  void place(std::size_t at, const std::vector<Free>& free, std::size_t sheets) {
    if (++steps_ > most_steps || (!best_.empty() && sheets >= best_.size())) return;
    if (at == order_.size()) {
      best_.assign(sheets, {});
      for (const auto& [sheet, placed] : now_) best_[sheet].push_back(placed);
      return;
    }
    const Rectangle& piece = pieces_[order_[at]];
    for (std::size_t f = 0; f < free.size(); ++f) {
      const Free& room = free[f];
      if (room.length + cut_rounding < piece.along || room.width + cut_rounding < piece.across)
        continue;
      for (const bool along_first : {true, false}) {
        now_.push_back({room.sheet, {order_[at], room.along, room.across}});
        place(at + 1, parted(free, f, piece, along_first), sheets);
        now_.pop_back();
      }
    }
    std::vector<Free> opened = free;
    opened.push_back({sheets, 0.0, 0.0, sheet_.along, sheet_.across});
    for (const bool along_first : {true, false}) {
      now_.push_back({sheets, {order_[at], 0.0, 0.0}});
      place(at + 1, parted(opened, opened.size() - 1, piece, along_first), sheets + 1);
      now_.pop_back();
    }
  }

  /// What a cut leaves of a free rectangle: one strip of full length, or of full width.
  [[nodiscard]] std::vector<Free> parted(std::vector<Free> free, std::size_t f,
                                         const Rectangle& piece, bool along_first) const {
    const Free room = free[f];
    free.erase(free.begin() + static_cast<std::ptrdiff_t>(f));
    const double a = piece.along + kerf_, c = piece.across + kerf_;
    const double rest_a = room.length - a, rest_c = room.width - c;
    if (rest_a > cut_rounding) {
      free.push_back({room.sheet, room.along + a, room.across, rest_a,
                      along_first ? piece.across : room.width});
    }
    if (rest_c > cut_rounding) {
      free.push_back({room.sheet, room.along, room.across + c,
                      along_first ? room.length : piece.along, rest_c});
    }
    return free;
  }

  const std::vector<Rectangle>& pieces_;
  Rectangle sheet_;
  double kerf_;
  std::vector<std::size_t> order_;
  std::vector<std::pair<std::size_t, LaidPiece>> now_;
  std::vector<std::vector<LaidPiece>> best_;
  std::size_t steps_ = 0;
  bool complete_ = true;
};

}  // namespace

SheetPlan lay_out(const std::vector<Rectangle>& pieces, Rectangle sheet, double kerf) {
  constexpr std::size_t most_orders = 720;
  SheetPlan plan;
  std::vector<std::size_t> which;
  double area = 0.0;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const bool fits = pieces[i].along <= sheet.along + cut_rounding &&
                      pieces[i].across <= sheet.across + cut_rounding;
    (fits ? which : plan.too_large).push_back(i);
    if (fits) area += pieces[i].along * pieces[i].across;
  }
  if (which.empty()) return plan;
  const auto least =
      static_cast<std::size_t>(std::ceil(area / (sheet.along * sheet.across) - 1e-9));
  Search search(pieces, sheet, kerf);
  // Largest first is nearly always best; then every other order, as far as there is time.
  std::sort(which.begin(), which.end(), [&](std::size_t a, std::size_t b) {
    return pieces[a].along * pieces[a].across > pieces[b].along * pieces[b].across;
  });
  search.run(which);
  std::vector<std::size_t> order = which;
  std::sort(order.begin(), order.end());
  std::size_t tried = 0;
  bool all_tried = false;
  while (search.best().size() > least && tried++ < most_orders && !all_tried) {
    search.run(order);
    all_tried = !std::next_permutation(order.begin(), order.end());
  }
  plan.sheets = search.best();
  plan.exact = plan.sheets.size() == least || (all_tried && search.complete());
  return plan;
}

}  // namespace standtrue::decide
