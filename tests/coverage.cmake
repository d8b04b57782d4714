# For CMAKE_PROJECT_INCLUDE, by coverage.sh: clang compiles the room check and counts its branches;
# everything else stays as it is, and is linked with it.
execute_process(
  COMMAND clang++-14 --print-file-name=libclang_rt.profile-x86_64.a
  OUTPUT_VARIABLE runtime
  OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
cmake_language(DEFER CALL set_property TARGET standtrue_check PROPERTY CXX_COMPILER_LAUNCHER
               ${CMAKE_SOURCE_DIR}/tests/coverage.sh --compile)
cmake_language(DEFER CALL target_compile_options standtrue_check PRIVATE
               -O0 -fprofile-instr-generate -fcoverage-mapping)
cmake_language(DEFER CALL target_link_libraries standtrue_check PUBLIC -Wl,-u,__llvm_profile_runtime
               ${runtime})
