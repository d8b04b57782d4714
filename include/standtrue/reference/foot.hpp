#pragma once

#include <string>
#include <vector>

#include "standtrue/quantity/quantity.hpp"
#include "standtrue/reference/joint.hpp"
#include "standtrue/reference/source.hpp"

namespace standtrue::reference {

/// What touches the floor.
enum class FootMaterial { rubber, plastic, steel, timber };

/// An adjustable foot by its thread. Ratings are working loads, to be held against unfactored ones.
struct Foot {
  std::string key;  ///< "M10"
  quantity::Length diameter;
  quantity::Area stress_area;
  quantity::Length root;  ///< minor diameter of the thread
  quantity::Stress f_y;   ///< strength class 4.6
  quantity::Stress f_u;
  quantity::Length pad;  ///< usual diameter
  quantity::Force plastic_rating;
  quantity::Force steel_rating;
  quantity::Length insert_flange;  ///< of the threaded insert or flanged nut in the post
  quantity::Length insert_barrel;  ///< its outside diameter
  quantity::Length insert_length;
  RecordSource source;
};

struct Castor {
  std::string key;  ///< "75 mm castor"
  quantity::Length wheel;
  quantity::Length height;
  quantity::Force rating;
  RecordSource source;
};

/// A floor, and the friction of each kind of foot on it.
struct Floor {
  std::string key;  ///< "concrete"
  std::vector<std::string> names;
  Band<quantity::LinearStiffness> contact;  ///< down, floor and pad together, per foot
  quantity::Force foot_load;                ///< what one foot may bring
  double rubber = 0.0;                      ///< friction, static
  double plastic = 0.0;
  double steel = 0.0;
  double timber = 0.0;
  RecordSource source;

  [[nodiscard]] double friction(FootMaterial foot) const;
};

}  // namespace standtrue::reference
