#include "standtrue/model/scatter.hpp"

#include <cmath>

#include "standtrue/contract.hpp"

namespace standtrue::model {

const reference::Scatter& scatter_of_E(const bench::Stock& stock, const reference::Tables& tables) {
  if (stock.timber.material != reference::Material::solid_timber) return tables.scatter("E glulam");
  if (stock.timber.allowable) return tables.scatter("E visual grade");
  return tables.scatter(stock.marked ? "E graded" : "E unmarked");
}

double log_deviation(const reference::Scatter& scatter) {
  expects(scatter.shape == reference::Scatter::Shape::lognormal, "it scatters lognormally");
  return std::sqrt(std::log(1.0 + scatter.cov * scatter.cov));
}

}  // namespace standtrue::model
