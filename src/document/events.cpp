// The only file that names yaml-cpp. Version 0.7 keeps the first of two equal keys, ignores tags,
// further documents and open quotes, and resolves aliases without end; none of that gets past here.
#include "document/events.hpp"

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <optional>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>

#include "document/quotes.hpp"
#include "document/syntax.hpp"
#include "document/tree.hpp"

namespace standtrue::document {
namespace {

class Handler : public YAML::EventHandler {
 public:
  Handler(const SourceText& source, std::vector<Diagnostic>& faults)
      : source_(source), tree_(source, faults) {}

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (++documents_ == 1) return;
    const bool has_marker = source_.text.compare(offset(mark), 3, "---") == 0;
    tree_.refuse(position(mark), has_marker ? 3 : 1, "a second document begins here",
                 "one document per file");
    throw Stop{};
  }
  void OnDocumentEnd() override { is_complete_ = true; }

  void OnNull(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    warn_of_lost_value();
    tree_.add_nothing(position(mark));
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    tree_.refuse(position(mark), 1, "aliases (*name) are not accepted", "the values themselves");
    tree_.add_nothing(position(mark));
  }

  void OnAnchor(const YAML::Mark& mark, const std::string& name) override {
    tree_.refuse(position(mark), code_points(name) + 1, "anchors (&name) are not accepted",
                 "the values themselves");
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t /*anchor*/,
                const std::string& value) override {
    refuse_tag(mark, tag);
    const char first = byte_at(mark);
    const bool quoted = first == '"' || first == '\'';
    const bool plain = !quoted && tag == "?";
    if (quoted) check_quote(mark);
    const Position at = position(mark);
    if (plain) warn_of_cut_text(mark, value);
    last_end_ = plain ? plain_end(source_.text, offset(mark), value) : npos;
    // Behind a tag, too, there may be a quoted text; a block text is as good as quoted.
    tree_.add_scalar(at, plain ? value : without_bad_escapes(at, value), !plain);
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t /*anchor*/,
                       YAML::EmitterStyle::value /*style*/) override {
    refuse_tag(mark, tag);
    tree_.open(Node::Kind::list, position(mark));
  }
  void OnSequenceEnd() override { tree_.close(); }

  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t /*anchor*/,
                  YAML::EmitterStyle::value /*style*/) override {
    refuse_tag(mark, tag);
    tree_.open(Node::Kind::map, position(mark));
  }
  void OnMapEnd() override { tree_.close(); }

  /// The parser's marks count bytes from 0. Events come in order, so the last column is counted on.
  Position position(const YAML::Mark& mark) {
    if (mark.is_null()) return {};
    const std::size_t line = static_cast<std::size_t>(mark.line);
    const std::size_t byte = static_cast<std::size_t>(mark.column);
    if (line >= source_.lines.size()) return {mark.line + 1, mark.column + 1};
    if (line != seen_line_ || byte < seen_byte_) {
      seen_line_ = line;
      seen_byte_ = 0;
      seen_column_ = 1;
    }
    const std::string_view text(source_.lines[line]);
    const std::size_t end = std::min(byte, text.size());
    seen_column_ += code_points(text.substr(seen_byte_, end - seen_byte_));
    seen_byte_ = end;
    return {mark.line + 1, seen_column_};
  }

  [[nodiscard]] Tree& tree() { return tree_; }
  [[nodiscard]] bool is_complete() const { return is_complete_ && !quote_is_open_; }

  Breakdown breakdown(const YAML::Exception& exception) {
    return {.message = exception.msg,
            .at = position(exception.mark),
            .open_at = tree_.open_at(),
            .key = tree_.pending_key(),
            .path = tree_.path(),
            .long_quote_at = long_quote_at_,
            .long_quote_ends_on_line = long_quote_ends_on_line_};
  }

 private:
  static std::size_t offset(const YAML::Mark& mark) { return static_cast<std::size_t>(mark.pos); }

  [[nodiscard]] char byte_at(const YAML::Mark& mark) const {
    return offset(mark) < source_.text.size() ? source_.text[offset(mark)] : '\0';
  }

  /// "?" is the tag of plain nodes and "!" that of quoted and block texts, unless it is written.
  void refuse_tag(const YAML::Mark& mark, const std::string& tag) {
    if ((tag == "?" || tag == "!" || tag.empty()) && byte_at(mark) != '!') return;
    tree_.refuse(position(mark), 1, "tags (!name) are not accepted", "the value alone");
  }

  /// `"\e[31m"` would colour the terminal that it is shown on; of `"\N"` and `"\_"` the parser
  /// makes bytes that are not UTF-8, which JSON does not take.
  std::string without_bad_escapes(Position at, const std::string& value) {
    std::string shown = that_can_be_shown(value);
    if (shown != value) {
      tree_.refuse(at, 1, "an escape in this text stands for a character that can not be shown",
                   "the text without it");
    }
    return shown;
  }

  void check_quote(const YAML::Mark& mark) {
    const std::size_t begin = offset(mark);
    const std::size_t end = quoted_end(source_.text, begin);
    if (end == npos) {
      quote_is_open_ = true;
      const std::string_view rest = rest_of_line(source_.text, begin);
      tree_.refuse(position(mark), 1, "the quote that opens here is never closed",
                   as_entry(tree_.pending_key(), std::string(rest) + rest.front()));
      throw Stop{};
    }
    const std::string_view written(source_.text.data() + begin, end - begin);
    const auto breaks = std::count(written.begin(), written.end(), '\n');
    if (breaks == 0) return;
    long_quote_at_ = position(mark);
    long_quote_ends_on_line_ = mark.line + 1 + static_cast<int>(breaks);
  }

  void warn_of_cut_text(const YAML::Mark& mark, const std::string& value) {
    const std::size_t end = plain_end(source_.text, offset(mark), value);
    const std::size_t hash = cutting_comment(source_.text, end);
    if (hash == npos) return;
    const std::string_view rest = rest_of_line(source_.text, hash);
    Position at = position(mark);
    const std::string_view before(source_.text.data() + offset(mark), hash - offset(mark));
    const std::size_t last_break = before.rfind('\n');
    at.line += static_cast<int>(std::count(before.begin(), before.end(), '\n'));
    at.column = last_break == npos ? at.column + code_points(before)
                                   : 1 + code_points(before.substr(last_break + 1));
    tree_.warn(at, code_points(rest),
               fmt::format("text after ' #' is a comment: the value ends at '{}'", value),
               as_entry(tree_.pending_key(), as_scalar(value + " " + std::string(rest))));
  }

  /// `name: #2` has no value at all.
  void warn_of_lost_value() {
    if (tree_.pending_key().empty() || last_end_ == npos || last_end_ >= source_.text.size() ||
        source_.text[last_end_] != ':') {
      return;
    }
    const std::size_t hash = cutting_comment(source_.text, last_end_ + 1);
    if (hash == npos) return;
    const std::string_view rest = rest_of_line(source_.text, hash);
    const std::size_t line_begin = source_.text.rfind('\n', hash) + 1;  // npos + 1 is 0
    const auto line = std::count(source_.text.begin(),
                                 source_.text.begin() + static_cast<std::ptrdiff_t>(hash), '\n');
    const std::string_view before(source_.text.data() + line_begin, hash - line_begin);
    tree_.warn({static_cast<int>(line) + 1, code_points(before) + 1}, code_points(rest),
               "text after ' #' is a comment: there is no value",
               as_entry(tree_.pending_key(), as_scalar(rest)));
  }

  const SourceText& source_;
  Tree tree_;
  int documents_ = 0;
  bool is_complete_ = false;
  bool quote_is_open_ = false;
  std::optional<Position> long_quote_at_;
  int long_quote_ends_on_line_ = 0;
  std::size_t last_end_ = npos;  // of the last plain scalar
  std::size_t seen_line_ = 0, seen_byte_ = 0;
  int seen_column_ = 1;
};

}  // namespace

Events read_events(const SourceText& source, std::vector<Diagnostic>& faults) {
  std::istringstream stream(source.text);
  Handler handler(source, faults);
  try {
    YAML::Parser parser(stream);
    const bool has_document = parser.HandleNextDocument(handler);
    if (!has_document) return {.root = {}, .is_complete = true};
    parser.HandleNextDocument(handler);
    return {.root = std::move(handler.tree().root()), .is_complete = handler.is_complete()};
  } catch (const Stop&) {
    // The fault that stopped us has been noted.
  } catch (const YAML::Exception& exception) {
    faults.push_back(syntax_fault(source, handler.breakdown(exception)));
  }
  return {};
}

}  // namespace standtrue::document
