#include "report/words.hpp"

#include <array>

#include "standtrue/contract.hpp"

namespace standtrue::report {

namespace {

/// The word at the place of an enumerator.
template <class Enumerator, std::size_t n>
std::string_view at(const std::array<std::string_view, n>& words, Enumerator which) {
  const auto place = static_cast<std::size_t>(which);
  expects(place < n, "words: an enumerator without a word");
  return words[place];
}

using Words2 = std::array<std::string_view, 2>;
using Words3 = std::array<std::string_view, 3>;
using Words4 = std::array<std::string_view, 4>;
using Words5 = std::array<std::string_view, 5>;

}  // namespace

std::string_view verdict_word(decide::Verdict verdict) {
  return at(Words5{"STANDS", "DEPENDS", "CARRIES, BUT", "DO NOT LOAD", "NOT JUDGED"}, verdict);
}
std::string_view verdict_key(decide::Verdict verdict) {
  return at(Words5{"stands", "depends", "carries_but", "do_not_load", "not_judged"}, verdict);
}
std::string_view judgement_word(check::Judgement judgement) {
  return at(Words5{"not judged", "good", "EXCEEDED", "DEPENDS", "beyond this tool"}, judgement);
}
std::string_view judgement_key(check::Judgement judgement) {
  return at(Words5{"not_judged", "satisfied", "exceeded", "depends", "outside_this_tool"},
            judgement);
}
std::string_view group_key(check::Group group) {
  return at(std::array<std::string_view, 10>{"carry", "joints", "sheet", "sag", "sway", "twist",
                                             "hum", "tip", "slide", "feet"},
            group);
}
std::string_view kind_key(check::Kind kind) {
  return at(Words4{"safety", "service", "caution", "told"}, kind);
}
std::string_view bound_key(model::Bound bound) {
  return at(Words3{"soft", "mean", "stiff"}, bound);
}
std::string_view purpose_key(model::Purpose purpose) {
  return at(std::array<std::string_view, 6>{"as_given", "strength", "service", "sway", "allowable",
                                            "test"},
            purpose);
}
std::string_view springs_key(model::SpringSet springs) {
  return at(std::array<std::string_view, 2>{"gravity", "sway"}, springs);
}

std::string_view quantity_key(quantity::Kind kind) {
  return at(std::array<std::string_view, 22>{"length",
                                             "area",
                                             "section_modulus",
                                             "second_moment",
                                             "mass",
                                             "density",
                                             "force",
                                             "moment",
                                             "stress",
                                             "area_load",
                                             "line_load",
                                             "linear_stiffness",
                                             "rotational_stiffness",
                                             "mass_moment",
                                             "speed",
                                             "acceleration",
                                             "angle",
                                             "slope",
                                             "ratio",
                                             "time",
                                             "mass_per_area",
                                             "moment_per_length"},
            kind);
}

std::string si_unit(quantity::Kind kind) {
  const std::string one = quantity::print_exact(1.0, kind);  // "1 N/m"
  const std::size_t blank = one.find(' ');
  return blank == std::string::npos ? std::string() : one.substr(blank + 1);
}

std::string key_of(std::string_view name) {
  std::string key;
  for (const char c : name) {
    if (c == ',') {
      key += '/';
    } else if (c == ' ') {
      if (!key.empty() && key.back() != '/') key += '-';
    } else {
      key += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
  }
  return key;
}

std::string sentence(std::string text) {
  const bool ends =
      !text.empty() && std::string_view(".!?").find(text.back()) != std::string_view::npos;
  return ends ? text : text + ".";
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

}  // namespace standtrue::report
