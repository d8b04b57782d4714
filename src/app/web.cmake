# The core for a page: standtrue_core.js and standtrue_core.wasm, which a worker of a page and Node.js
# run alike (docs/web.md).
add_executable(standtrue_core app/web_main.cpp)
set_target_properties(standtrue_core PROPERTIES RUNTIME_OUTPUT_DIRECTORY ${PROJECT_BINARY_DIR})
target_include_directories(standtrue_core PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
target_link_libraries(standtrue_core PRIVATE standtrue_app standtrue_warnings)
target_link_options(
  standtrue_core PRIVATE
  -O3
  --no-entry
  -sEXPORTED_FUNCTIONS=_standtrue_answer,_standtrue_on_progress,_standtrue_open_moving,_standtrue_moved
  -sEXPORTED_RUNTIME_METHODS=ccall,addFunction
  -sALLOW_TABLE_GROWTH=1
  -sMODULARIZE=1
  -sEXPORT_NAME=standtrue_core
  -sENVIRONMENT=worker,node
  -sALLOW_MEMORY_GROWTH=1
  -sFILESYSTEM=0)
