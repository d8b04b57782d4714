#include "reference/load_tables.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "reference/readers.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::reference {
namespace {

struct Group {
  std::string_view name;
  void (*read)(const Record&, Tables&) = nullptr;
};

constexpr std::array groups{Group{"sources", read_source_record},
                            Group{"timber", read_timber},
                            Group{"visual grade", read_visual_grade},
                            Group{"scatter", read_scatter},
                            Group{"correlation", read_correlation},
                            Group{"section", read_section},
                            Group{"tolerance", read_tolerance},
                            Group{"stock length", read_stock_length},
                            Group{"sheet size", read_sheet_size},
                            Group{"panel family", read_panel_family},
                            Group{"veneer", read_veneer},
                            Group{"panel", read_panel},
                            Group{"screw", read_screw},
                            Group{"bolt", read_bolt},
                            Group{"steel", read_steel},
                            Group{"joint", read_joint},
                            Group{"foot", read_foot},
                            Group{"castor", read_castor},
                            Group{"floor", read_floor},
                            Group{"machine", read_machine},
                            Group{"duty", read_duty},
                            Group{"limit", read_limit},
                            Group{"load", read_load},
                            Group{"material", read_material},
                            Group{"k_def", read_k_def},
                            Group{"k_mod", read_k_mod},
                            Group{"bearing factor", read_bearing_factor},
                            Group{"combination", read_combination},
                            Group{"air", read_air},
                            Group{"spacing rule", read_spacing_rule},
                            Group{"constant", read_constant},
                            Group{"table test", read_table_test}};

void add(const RecordTable& table, Tables& out) {
  const auto* group = std::find_if(groups.begin(), groups.end(),
                                   [&](const Group& g) { return g.name == table.group; });
  if (group == groups.end()) record_fault(table, 1, table.group, "no such group of records");
  std::vector<bool> asked(table.columns.size(), false);
  for (const RecordTable::Line& line : table.lines) {
    const Record record(table, line, asked);
    group->read(record, out);
    out.rows.push_back(record.row());
  }
  for (std::size_t i = 0; i < asked.size(); ++i) {
    if (asked[i] || table.columns[i].name == "source" || table.lines.empty()) continue;
    record_fault(table, table.lines.front().number, "",
                 "no reader asks for column " + std::string(table.columns[i].name));
  }
}

void add_file(const EmbeddedFile& file, Tables& out) {
  const document::Reading reading = document::parse(file.name, file.text);
  if (!reading.diagnostics.empty()) throw std::logic_error(to_text(reading.diagnostics.front()));
  expects(reading.document.has_value(), "a record file could not be read");
  for (const RecordTable& table : read_tables(*reading.document, out.sources)) add(table, out);
}

}  // namespace

void read_source_record(const Record& r, Tables& out) {
  out.sources.push_back({.key = r.key(),
                         .title = r.text("title"),
                         .edition = r.text("edition"),
                         .read = r.text("read")});
}

Tables load_tables(std::span<const EmbeddedFile> files) {
  constexpr std::string_view first = "sources.yaml";
  Tables out;
  for (const EmbeddedFile& file : files) {
    if (file.name == first) add_file(file, out);
  }
  expects(!out.sources.empty(), "sources.yaml is not among the record files");
  for (const EmbeddedFile& file : files) {
    if (file.name != first) add_file(file, out);
  }
  return out;
}

Tables load_tables() { return load_tables(embedded_files()); }

const std::vector<Row>& listing(const Tables& tables) { return tables.rows; }

}  // namespace standtrue::reference
