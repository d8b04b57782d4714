# docs/verification.md is what `standtrue verification reference/cases` prints: every expected value
# of every frame case with its source, what was got and how far off. -D WRITE=ON renews it.
execute_process(
  COMMAND ${PROGRAM} verification ${ROOT}/reference/cases
  OUTPUT_VARIABLE got
  RESULT_VARIABLE code)
if(NOT code EQUAL 0)
  message(FATAL_ERROR "verification: exit code ${code}\n${got}")
endif()
set(heading
    "# Verification\n\nEvery expected value of every frame case in `reference/cases/`, with its source and how far "
    "the solver\nis off (relative). Written by `standtrue verification reference/cases`; a test runs every "
    "case,\nanother keeps this page current.\n\n")
list(JOIN heading "" heading)
string(PREPEND got "${heading}")
set(kept ${ROOT}/docs/verification.md)
if(WRITE)
  file(WRITE ${kept} "${got}")
endif()
file(READ ${kept} wanted)
if(NOT got STREQUAL wanted)
  message(FATAL_ERROR "docs/verification.md is out of date: run cmake -D WRITE=ON -D PROGRAM=... -D "
                      "ROOT=... -P tests/verification.cmake and review the change")
endif()
