# cmake -D PROGRAM=<standtrue> -P demo.cmake
#
# Runs the program on one example, with its output on the terminal. Exit code 1 is a verdict on the
# bench and no failure of the demonstration.

cmake_minimum_required(VERSION 3.25)

set(arguments check examples/boiler-plinth.yaml)
list(JOIN arguments " " shown)
execute_process(COMMAND ${CMAKE_COMMAND} -E echo "$ standtrue ${shown}")
execute_process(COMMAND ${PROGRAM} ${arguments} RESULT_VARIABLE code)
if(NOT code STREQUAL "0" AND NOT code STREQUAL "1")
  message(FATAL_ERROR "standtrue ended with '${code}'; expected 0 or 1")
endif()
