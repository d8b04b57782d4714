# For CMAKE_PROJECT_INCLUDE, by coverage.sh: clang compiles the rooms solve and check and counts their
# branches; everything else stays as it is, and is linked with them.
execute_process(
  COMMAND clang++-14 --print-file-name=libclang_rt.profile-x86_64.a
  OUTPUT_VARIABLE runtime
  OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
foreach(room IN ITEMS solve check)
  # What is deferred would see `room` as it is then: none.
  cmake_language(
    EVAL
    CODE
    "cmake_language(DEFER CALL set_property TARGET standtrue_${room}
                    PROPERTY CXX_COMPILER_LAUNCHER ${CMAKE_SOURCE_DIR}/tests/coverage.sh --compile)
     cmake_language(DEFER CALL target_compile_options standtrue_${room} PRIVATE
                    -O1 -fprofile-instr-generate -fcoverage-mapping)")
endforeach()
cmake_language(DEFER CALL target_link_libraries standtrue_solve PUBLIC
               -Wl,-u,__llvm_profile_runtime ${runtime})
