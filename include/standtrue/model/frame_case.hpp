#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "standtrue/diagnostic.hpp"
#include "standtrue/document/document.hpp"
#include "standtrue/model/model.hpp"
#include "standtrue/quantity/unit_text.hpp"

/// A frame given by its numbers, with the answers that it should have. The file format is
/// docs/frame-case.md.
namespace standtrue::model {

/// A loading of a model: a load case (factor one, gravity springs) or a combination.
struct LoadingRef {
  bool is_combination = false;
  std::size_t place = 0;  ///< in Model::cases or Model::combinations
};

/// One answer that a source or a second method gives, and how near we must come.
/// Which members are used depends on `of`; the others stay at their defaults.
struct Expectation {
  enum class Of {
    displacement,
    force,
    extreme,
    reaction,
    stiffness,
    spring,
    section,
    plate,
    tie,
    refusal,
    buckling,
    frequency
  };
  enum class Component { N, V_y, V_z, T, M_y, M_z, u, v, w };
  enum class Which { least, greatest };
  enum class Property { A, A_sy, A_sz, I_y, I_z, J };
  /// Movements of the mid-plane and forces per width, own axes of the plate.
  enum class PlateComponent { u, v, w, rx, ry, N_x, N_y, N_xy, M_x, M_y, M_xy, Q_x, Q_y };
  enum class TieComponent { x, y, normal };

  Of of = Of::displacement;
  std::optional<LoadingRef> under;     ///< all but section; frequency: what presses, if anything
  int mode = 1;                        ///< buckling, frequency: from the lowest
  NodeId node = 0;                     ///< displacement, stiffness
  MemberId member = 0;                 ///< force, extreme, spring
  std::size_t support = 0;             ///< reaction: place in Model::supports
  std::size_t section = 0;             ///< section: place in FrameCase::sections
  Freedom freedom = Freedom::x;        ///< displacement, stiffness (global), spring (local)
  Component component = Component::N;  ///< force, extreme
  Which which = Which::least;          ///< extreme
  Property property = Property::A;     ///< section
  std::size_t plate = 0;               ///< plate, tie: place in Model::plates
  std::array<double, 2> on_plate{};    ///< plate: x and y, m, own axes
  PlateComponent plate_component = PlateComponent::w;
  std::size_t tie = 0;  ///< tie: place in Plate::ties
  TieComponent tie_component = TieComponent::normal;
  bool at_end = false;          ///< spring: of the member's end, else of its start
  Length at;                    ///< force: from the flexible start
  bool from_left = false;       ///< force: at a jump, the value on its left
  std::optional<Length> place;  ///< extreme: where it lies
  double pushed_with = 0.0;     ///< stiffness: N or N m, divided by the movement
  std::string because;          ///< refusal: a word of refusal_words()

  double value = 0.0;                     ///< SI; none for a refusal
  std::optional<double> within;           ///< relative to the value
  std::optional<double> within_absolute;  ///< SI, in the kind of the value
  bool magnitude = false;                 ///< compare without sign
  std::string source;                     ///< of this value; "" if that of the file serves
  std::string note;                       ///< what it catches
  std::string why;                        ///< the reason of the tolerance
  Position position;                      ///< in the file
};

struct NamedMaterial {
  std::string name;
  Elastic elastic;
};
struct NamedSection {
  std::string name;
  Section section;
};

/// Members hold their material and section by value; the named ones are kept for writing and for
/// expectations about sections.
struct FrameCase {
  std::string title;
  std::string about;   ///< sketch and remarks
  std::string source;  ///< serves every expectation without its own
  Model model;
  std::vector<NamedMaterial> materials;
  std::vector<NamedSection> sections;
  std::vector<Expectation> expectations;
  int divide = 1;  ///< every member is solved in so many pieces
};

/// The frame case, or nothing if the file has an error; with every fault found in one run.
struct FrameCaseReading {
  std::optional<FrameCase> frame_case;
  std::vector<Diagnostic> diagnostics;
};
[[nodiscard]] FrameCaseReading read_frame_case(const document::Document& document);

/// The text of a frame case. Reading it back gives the same model, each number to the last bit;
/// only what members stand for (parts) has no place in a frame case.
[[nodiscard]] std::string write_frame_case(const FrameCase& frame_case);

/// The words of the format, in the order of their enumerations.
[[nodiscard]] const std::vector<std::string>& freedom_words();
[[nodiscard]] const std::vector<std::string>& component_words();
[[nodiscard]] const std::vector<std::string>& property_words();
[[nodiscard]] const std::vector<std::string>& plate_component_words();
[[nodiscard]] const std::vector<std::string>& tie_component_words();
[[nodiscard]] const std::vector<std::string>& duration_words();
[[nodiscard]] const std::vector<std::string>& purpose_words();
/// Why a frame is refused, in the order of solve::Refusal::Why.
[[nodiscard]] const std::vector<std::string>& refusal_words();
[[nodiscard]] const std::vector<std::string>& expectation_words();

/// The kind of quantity that an expectation's value is.
[[nodiscard]] quantity::Kind value_kind(const Expectation& expectation, const Model& model);
[[nodiscard]] std::string loading_name(const LoadingRef& loading, const Model& model);
/// What is expected, for people: "z of node B under live".
[[nodiscard]] std::string describe(const Expectation& expectation, const FrameCase& frame_case);

}  // namespace standtrue::model
