#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace fuzz {

/// Chance out of a fuzzer's bytes. When they are used up nothing happens any more and the first of
/// all choices is taken.
class Draw {
 public:
  Draw(const std::uint8_t* data, std::size_t size) : bytes_(data), left_(size) {}

  /// In one of so many cases.
  bool one_in(int n) { return whole(0, n - 1) == n - 1 && n > 1; }
  int whole(int low, int high) {
    const int span = high - low + 1;
    int drawn = byte();
    if (span > 256) drawn = 256 * drawn + byte();
    return low + drawn % span;
  }
  std::string one(const std::vector<std::string>& choices) {
    return choices[static_cast<std::size_t>(whole(0, static_cast<int>(choices.size()) - 1))];
  }

  /// In whole mm of the usual range; one of eight is odd.
  std::string length(int low, int high) {
    if (one_in(8)) return odd_length();
    return std::to_string(whole(low, high)) + " mm";
  }
  std::string place(int to) { return length(0, to); }
  /// Of that unit; one of eight is odd.
  std::string amount(int low, int high, const std::string& unit) {
    if (one_in(8))
      return one({"0", "1e-9", "1e-3", "1e3", "99999", "1e6", "1e12", "-1"}) + " " + unit;
    return std::to_string(whole(low, high)) + " " + unit;
  }
  std::string few(int usual) {
    return one_in(8) ? one({"1", "2", "0", "3", "7", "12", "40", "200", "201", "-1"})
                     : std::to_string(whole(1, usual));
  }

 private:
  std::string odd_length() {
    return one({"1 mm", "0 mm", "0.999 mm", "2 mm", "5 mm", "100 m", "99 m", "10 m", "3 m", "-1 mm",
                "-100 m", "1e-9 mm", "1/64 in", "13 ft 7 3/8 in", "1000 m", "0.1 mm", "25.4 mm"});
  }

  int byte() {
    if (left_ == 0) return 0;
    --left_;
    return *bytes_++;
  }

  const std::uint8_t* bytes_;
  std::size_t left_;
};

/// `{a: 1, b: 2}` on one line, from what was added.
class Group {
 public:
  Group& add(const std::string& key, const std::string& value) {
    if (!value.empty()) text_ += (text_.empty() ? "" : ", ") + key + ": " + value;
    return *this;
  }
  [[nodiscard]] std::string text() const { return "{" + text_ + "}"; }

 private:
  std::string text_;
};

inline std::string list(const std::vector<std::string>& items) {
  std::string text;
  for (const std::string& item : items) text += (text.empty() ? "" : ", ") + item;
  return "[" + text + "]";
}

}  // namespace fuzz
