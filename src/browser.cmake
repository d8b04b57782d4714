# What the core needs of others, for em++: it must not see /usr/include itself, which is another
# machine's, so the headers are linked into a folder of their own, under the targets' usual names.
# yaml-cpp is compiled from its source, which `setup.sh --page` fetches.

set(links ${PROJECT_BINARY_DIR}/headers)
file(MAKE_DIRECTORY ${links})

# header_library(<target> <name below /usr/include> [<folder to include>])
function(header_library target name)
  if(NOT EXISTS /usr/include/${name})
    message(FATAL_ERROR "There is no /usr/include/${name}: run ./setup.sh --page")
  endif()
  file(CREATE_LINK /usr/include/${name} ${links}/${name} SYMBOLIC)
  add_library(${target} INTERFACE IMPORTED GLOBAL)
  set(folder ${links})
  if(ARGC GREATER 2)
    set(folder ${ARGV2})
  endif()
  set_target_properties(${target} PROPERTIES INTERFACE_INCLUDE_DIRECTORIES ${folder})
endfunction()

header_library(Boost::headers boost)
header_library(FastFloat::fast_float fast_float)
header_library(fmt::fmt fmt)
header_library(nlohmann_json::nlohmann_json nlohmann)
header_library(Eigen3::Eigen eigen3 ${links}/eigen3)
header_library(Spectra::Spectra Spectra)
header_library(tl::expected tl)
header_library(doctest::doctest doctest)
set_target_properties(fmt::fmt PROPERTIES INTERFACE_COMPILE_DEFINITIONS FMT_HEADER_ONLY=1)

# Debian's source package yaml-cpp 0.7.0+dfsg, as it came from its makers but for files without a
# free licence.
set(archive ${PROJECT_SOURCE_DIR}/build/sources/yaml-cpp_0.7.0+dfsg.orig.tar.xz)
set(archive_sha256 dc63708605404e0b963e0ca3a9619d1c8270eda2839603e6fa0384e5e51e5312)
set(yaml ${PROJECT_BINARY_DIR}/yaml-cpp-yaml-cpp-0.7.0)
if(NOT EXISTS ${archive})
  message(FATAL_ERROR "There is no ${archive}: run ./setup.sh --page")
endif()
file(SHA256 ${archive} found)
if(NOT found STREQUAL archive_sha256)
  message(FATAL_ERROR "${archive} is not what it should be: its SHA-256 is ${found}")
endif()
if(NOT EXISTS ${yaml}/src/parser.cpp)
  file(ARCHIVE_EXTRACT INPUT ${archive} DESTINATION ${PROJECT_BINARY_DIR})
endif()
file(GLOB sources ${yaml}/src/*.cpp)
add_library(yaml-cpp STATIC ${sources})
target_include_directories(yaml-cpp SYSTEM INTERFACE ${yaml}/include)
target_include_directories(yaml-cpp PRIVATE ${yaml}/include)
target_compile_options(yaml-cpp PRIVATE -w)
set_target_properties(yaml-cpp PROPERTIES UNITY_BUILD OFF)

# Exceptions as the browser itself has them: smaller than those by way of JavaScript. All that is
# linked together must agree.
add_compile_options(-fwasm-exceptions -msimd128)
add_link_options(-fwasm-exceptions)

# The linker's own scripts need what Debian has for its Node.js; another Node.js does not look there.
set_property(GLOBAL PROPERTY RULE_LAUNCH_LINK "${CMAKE_COMMAND} -E env NODE_PATH=/usr/share/nodejs")
