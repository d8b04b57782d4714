# cmake -D FILES=<yaml>;... -D OUTPUT=<cpp> -P embed.cmake
#
# Writes one source that holds every file as text, for reference/embedded.hpp. Bytes are written as
# hexadecimal escapes: no character of a record can end or alter a literal. Each literal covers 64 bytes,
# and the compiler joins neighbours, so a file may be as long as it likes.

cmake_minimum_required(VERSION 3.25)

set(texts "")
set(rows "")
set(index 0)
list(SORT FILES)
foreach(file IN LISTS FILES)
  get_filename_component(name ${file} NAME)
  file(SIZE ${file} size)
  file(READ ${file} hex HEX)
  string(REGEX REPLACE "(..)" "\\\\x\\1" bytes "${hex}")
  string(REPEAT "." 256 line)
  string(REGEX REPLACE "(${line})" "\\1\"\n    \"" bytes "${bytes}")
  string(APPEND texts "constexpr char text_${index}[] =\n    \"${bytes}\";\n\n")
  string(APPEND rows "    EmbeddedFile{\"${name}\", {text_${index}, ${size}}},\n")
  math(EXPR index "${index} + 1")
endforeach()

file(
  WRITE ${OUTPUT}
  "// Written by the build from reference/*.yaml. Change the records instead.
#include \"reference/embedded.hpp\"

#include <array>

namespace standtrue::reference {
namespace {

${texts}constexpr std::array<EmbeddedFile, ${index}> files{
${rows}};

}  // namespace

std::span<const EmbeddedFile> embedded_files() { return files; }

}  // namespace standtrue::reference
")
