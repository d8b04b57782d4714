#include <algorithm>
#include <utility>

#include "model/frame_reader.hpp"

namespace standtrue::model {

namespace {

std::string without_end(std::string text) {
  text.erase(text.find_last_not_of(" \n\t") + 1);
  return text;
}

void read_heading(document::Map& top, FrameReader& reader) {
  const std::optional<document::Field> version = top.need("frame_case", "frame_case: 1");
  if (version && version->text() != "1") {
    reader.note(
        version->fault("only version 1 of the frame case format is known", "frame_case: 1"));
  }
  reader.out.title = top.text("title").value_or("");
  reader.out.model.title = reader.out.title;
  reader.out.about = without_end(top.text("about").value_or(""));
  reader.out.source = top.text("source").value_or("");
  reader.is_plane = top.yes_no("plane").value_or(false);
}

void add_plane_supports(FrameReader& reader) {
  if (!reader.is_plane) return;
  Model& model = reader.out.model;
  const std::vector<Support> added = plane_supports(model);
  model.supports.insert(model.supports.end(), added.begin(), added.end());
}

/// As the reader of the file meets them.
void sort_by_place(std::vector<Diagnostic>& diagnostics) {
  std::stable_sort(diagnostics.begin(), diagnostics.end(),
                   [](const Diagnostic& a, const Diagnostic& b) {
                     return std::pair(a.at.line, a.at.column) < std::pair(b.at.line, b.at.column);
                   });
}

}  // namespace

FrameCaseReading read_frame_case(const document::Document& document) {
  FrameCaseReading reading;
  FrameReader reader;
  reader.faults = &reading.diagnostics;
  document::Map top(document::root(document), reading.diagnostics,
                    "a frame case: frame_case, title, materials, sections, nodes, members, "
                    "plates, supports, cases");
  read_heading(top, reader);
  read_materials(top, reader);
  read_sections(top, reader);
  read_nodes(top, reader);
  read_members(top, reader);
  read_ties(top, reader);
  read_plates(top, reader);
  read_supports(top, reader);
  add_plane_supports(reader);
  read_masses(top, reader);
  read_cases(top, reader);
  read_combinations(top, reader);
  read_bodies(top, reader);
  read_division(top, reader);
  read_expectations(top, reader);
  top.finish();
  sort_by_place(reading.diagnostics);
  if (!any_error(reading.diagnostics)) reading.frame_case = std::move(reader.out);
  return reading;
}

}  // namespace standtrue::model
