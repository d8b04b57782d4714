#include <Spectra/SymEigsSolver.h>
#include <yaml-cpp/yaml.h>
#include <CLI/CLI.hpp>
#include <Eigen/Dense>
#include <boost/units/quantity.hpp>
#include <nlohmann/json.hpp>
