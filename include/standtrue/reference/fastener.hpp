#pragma once

#include <string>
#include <vector>

#include "standtrue/quantity/quantity.hpp"
#include "standtrue/reference/source.hpp"

namespace standtrue::reference {

/// A hardened wood screw, by its thread diameter.
struct Screw {
  std::string key;            ///< "4 mm"
  quantity::Length diameter;  ///< d, outside of the thread
  quantity::Length root;      ///< of the thread
  quantity::Length shank;     ///< smooth part
  quantity::Length head;
  quantity::Moment M_y_k;          ///< yield moment
  quantity::Force f_tens_k;        ///< tearing of the steel
  quantity::Stress f_ax_k;         ///< withdrawal at rho_a, on d times the threaded length
  quantity::Stress f_head_k;       ///< pull-through at rho_a, on the square of the head diameter
  quantity::Density rho_a;         ///< density to which f_ax_k and f_head_k belong
  quantity::Length all_thread_to;  ///< up to this length the whole screw is threaded
  double thread_share = 0.6;       ///< of longer screws
  std::vector<quantity::Length> lengths;  ///< usual ones
  RecordSource source;
};

struct Bolt {
  std::string key;  ///< "M8"
  quantity::Length diameter;
  quantity::Area stress_area;
  quantity::Length root;    ///< minor diameter of the thread
  quantity::Length washer;  ///< outside diameter of the wide washer for timber
  quantity::Length washer_thickness;
  quantity::Length plain_washer;
  quantity::Length hole_clearance;  ///< of the hole in timber over the bolt
  RecordSource source;
};

/// "4.6", "8.8": strengths of bolt steel; and the sheet and bar steels of brackets.
struct Steel {
  std::string key;
  quantity::Stress f_y;
  quantity::Stress f_u;
  quantity::Stress E;
  quantity::Stress G;
  quantity::Density rho;
  RecordSource source;
};

}  // namespace standtrue::reference
