#include "app/files.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
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

/// The file that a link leads to, which need not be there yet.
fs::path behind_links(fs::path path) {
  constexpr int most_links = 40;
  std::error_code wrong;
  for (int i = 0; i < most_links && fs::is_symlink(path, wrong); ++i) {
    const fs::path next = fs::read_symlink(path, wrong);
    path = next.is_absolute() ? next : path.parent_path() / next;
  }
  return path;
}

/// A new file beside the one to be. Opened only if nobody's file or link has that name.
struct Part {
  std::string name;
  std::FILE* file = nullptr;
};
Part new_part(const fs::path& path) {
  Part part{path.string() + ".part"};
  for (int n = 2;; ++n) {
    errno = 0;
    part.file = std::fopen(part.name.c_str(), "wbx");
    if (part.file || errno != EEXIST) return part;
    part.name = fmt::format("{}.part{}", path.string(), n);
  }
}

/// To the disk, not only on its way there. The fault's number, or 0; closes the file.
int write_all(std::FILE* file, const std::string& text) {
  errno = 0;
  const bool is_written = std::fwrite(text.data(), 1, text.size(), file) == text.size() &&
                          std::fflush(file) == 0 && fsync(fileno(file)) == 0;
  const int fault = is_written ? 0 : errno != 0 ? errno : EIO;
  return std::fclose(file) == 0 || fault != 0 ? fault : errno != 0 ? errno : EIO;
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
  if (fs::exists(name, wrong) && !fs::is_regular_file(name, wrong)) {
    return unwritable(name, "it is no plain file");
  }
  if (fs::equivalent(name, read == "-" ? "/dev/stdin" : read, wrong)) {
    return unwritable(name, "that is the bench file; give the report a name of its own");
  }
  const fs::path folder = behind_links(name).parent_path();
  if (!folder.empty() && !fs::is_directory(folder, wrong)) {
    return unwritable(name, "there is no folder '" + folder.string() + "'");
  }
  return std::nullopt;
}

std::optional<std::string> write_file(const std::string& name, const std::string& text) {
  std::error_code wrong;
  const fs::path path = behind_links(name);
  const Part part = new_part(path);
  if (!part.file) return unwritable(name, std::strerror(errno));
  int fault = write_all(part.file, text);
  const fs::file_status before = fs::status(path, wrong);
  if (fault == 0 && fs::exists(before)) fs::permissions(part.name, before.permissions(), wrong);
  if (fault == 0 && std::rename(part.name.c_str(), path.c_str()) != 0) fault = errno;
  if (fault == 0) return std::nullopt;
  fs::remove(part.name, wrong);
  return unwritable(name, std::strerror(fault));
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
