#include "app/files.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iostream>

namespace standtrue::app {

namespace {

namespace fs = std::filesystem;

/// One byte more than the reader takes, so that it can say "too large" itself.
constexpr std::size_t enough = (std::size_t{1} << 20U) + 1;

std::string slurp(std::istream& in) {
  std::string text(enough, '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  text.resize(static_cast<std::size_t>(in.gcount()));
  return text;
}

tl::unexpected<std::string> unreadable(const std::string& name, const std::string& why) {
  return tl::unexpected(fmt::format("standtrue: cannot read '{}': {}\n", name, why));
}

/// Beside the file to be, and nobody's yet.
std::string unused_name(const std::string& name) {
  std::error_code ignored;
  std::string part = name + ".part";
  for (int n = 2; fs::exists(part, ignored); ++n) part = fmt::format("{}.part{}", name, n);
  return part;
}

std::string unwritable(const std::string& name, const std::string& why) {
  return fmt::format("standtrue: cannot write '{}': {}\n", name, why);
}

}  // namespace

tl::expected<std::string, std::string> read_file(const std::string& name) {
  if (name == "-") return slurp(std::cin);
  std::error_code ignored;
  if (fs::is_directory(name, ignored)) return unreadable(name, "it is a folder");
  errno = 0;
  std::ifstream in(name, std::ios::binary);
  if (!in)
    return unreadable(name, errno == ENOENT ? "there is no such file" : std::strerror(errno));
  std::string text = slurp(in);
  if (in.bad()) return unreadable(name, "reading broke off");
  return text;
}

std::optional<std::string> why_not_writable(const std::string& name, const std::string& read) {
  std::error_code wrong;
  if (name == "-") return unwritable(name, "the answer goes there; give the report a file");
  if (fs::is_directory(name, wrong)) return unwritable(name, "it is a folder");
  if (fs::equivalent(name, read, wrong)) {
    return unwritable(name, "that is the bench file; give the report a name of its own");
  }
  const fs::path folder = fs::path(name).parent_path();
  if (!folder.empty() && !fs::is_directory(folder, wrong)) {
    return unwritable(name, "there is no folder '" + folder.string() + "'");
  }
  return std::nullopt;
}

std::optional<std::string> write_file(const std::string& name, const std::string& text) {
  const auto fault = [&](const std::string& why) { return unwritable(name, why); };
  std::error_code wrong;
  const std::string part = unused_name(name);
  errno = 0;
  std::ofstream out(part, std::ios::binary | std::ios::trunc);
  if (!out) return fault(errno == 0 ? "it can not be opened" : std::strerror(errno));
  out << text << std::flush;
  const bool is_written = out.good();
  out.close();
  if (is_written) fs::rename(part, name, wrong);
  if (is_written && !wrong) return std::nullopt;
  const std::string why = wrong ? wrong.message() : "the disk may be full";
  fs::remove(part, wrong);
  return fault(why);
}

std::string today() {
  const std::time_t now = std::time(nullptr);
  return fmt::format("{:%Y-%m-%d}", fmt::localtime(now));
}

tl::expected<std::vector<File>, std::string> read_folder(const std::string& name) {
  std::error_code fault;
  std::vector<fs::path> paths;
  for (const fs::directory_entry& entry : fs::directory_iterator(name, fault)) {
    if (entry.path().extension() == ".yaml") paths.push_back(entry.path());
  }
  if (fault) return unreadable(name, "there is no such folder");
  std::sort(paths.begin(), paths.end());
  std::vector<File> files;
  for (const fs::path& path : paths) {
    tl::expected<std::string, std::string> text = read_file(path.string());
    if (!text) return tl::unexpected(text.error());
    files.push_back({path.stem().string(), std::move(*text)});
  }
  return files;
}

}  // namespace standtrue::app
