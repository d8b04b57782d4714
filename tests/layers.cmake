# cmake -D ROOT=<folder> -P layers.cmake
#
# Reads every #include below ROOT/src and ROOT/include and fails when
#   - a room includes a room to its right, or a header that is private to another room;
#   - an include of our own is not written "standtrue/<room>/x.hpp" or "<own room>/x.hpp";
#   - a library appears outside its room;
#   - the core (every room but app) includes a header that prints, reads files, threads or looks at
#     the clock.

cmake_minimum_required(VERSION 3.25)

set(rooms quantity document reference bench model solve check decide report app)

# library: pattern of its headers: the only rooms that may name it
set(libraries
    "Boost.Units:^boost/units(/|\\.hpp):quantity"
    "Boost.Math:^boost/math/:decide"
    "Boost.Random:^boost/random/:decide"
    "yaml-cpp:^yaml-cpp/:document"
    "Eigen:^(unsupported/)?Eigen/:solve"
    "Spectra:^Spectra/:solve"
    "nlohmann-json:^nlohmann/:report|app"
    "CLI11:^CLI/:app")
set(not_in_core "^(iostream|fstream|cstdio|stdio\\.h|filesystem|thread|chrono)$")

set(faults "")
macro(fault text)
  list(APPEND faults "${file}: ${text}")
endmacro()

file(GLOB_RECURSE files RELATIVE ${ROOT} ${ROOT}/src/*.[ch]pp ${ROOT}/include/*.[ch]pp)
list(SORT files)
if(NOT files)
  message(FATAL_ERROR "layers: no source below '${ROOT}'")
endif()

foreach(file IN LISTS files)
  # A header directly in include/standtrue is in no room and stands left of all of them.
  set(room "")
  set(place -1)
  if(file MATCHES "^(src|include/standtrue)/([^/]+)/")
    set(room ${CMAKE_MATCH_2})
    list(FIND rooms ${room} place)
    if(place EQUAL -1)
      fault("'${room}' is not a room")
      continue()
    endif()
  endif()

  file(STRINGS ${ROOT}/${file} lines REGEX "^[ \t]*#[ \t]*include")
  foreach(line IN LISTS lines)
    if(NOT line MATCHES "include[ \t]*([<\"])([^>\"]+)[>\"]")
      fault("cannot read '${line}'")
      continue()
    endif()
    set(quote "${CMAKE_MATCH_1}")
    set(header "${CMAKE_MATCH_2}")

    if(header MATCHES "^standtrue/([^/]+)/")
      list(FIND rooms ${CMAKE_MATCH_1} target)
      if(target EQUAL -1)
        fault("includes ${header}, which is in no room")
      elseif(target GREATER place)
        fault("includes ${header}, a room to its right")
      endif()
    elseif(header MATCHES "^standtrue/")
      # contract, diagnostic, version: open to every room
    elseif(quote STREQUAL "\"")
      string(REGEX MATCH "^[^/]+" target ${header})
      if(target IN_LIST rooms AND NOT target STREQUAL room)
        fault("includes ${header}, which is private to ${target}")
      elseif(NOT target STREQUAL room)
        fault("includes \"${header}\": write \"standtrue/<room>/x.hpp\" or \"<own room>/x.hpp\"")
      endif()
    endif()

    foreach(library IN LISTS libraries)
      string(REGEX MATCH "^([^:]+):(.+):([a-z|]+)$" matched "${library}")
      set(name ${CMAKE_MATCH_1})
      set(pattern "${CMAKE_MATCH_2}")
      set(home ${CMAKE_MATCH_3})
      if(header MATCHES "${pattern}" AND NOT room MATCHES "^(${home})$")
        string(REPLACE "|" " and " home ${home})
        fault("includes ${header}: ${name} belongs to ${home}")
      endif()
    endforeach()

    if(header MATCHES "${not_in_core}" AND NOT room STREQUAL "app")
      fault("includes <${header}>: only app may")
    endif()
  endforeach()
endforeach()

list(LENGTH files file_count)
list(LENGTH faults fault_count)
if(fault_count GREATER 0)
  list(JOIN faults "\n  " text)
  message(FATAL_ERROR "layers: ${fault_count} faults in ${file_count} files\n  ${text}\n")
endif()
message(STATUS "layers: ${file_count} files, every include points left")
