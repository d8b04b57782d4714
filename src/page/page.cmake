# The page: the core, what draws it, and what can be chosen, in one HTML file (build.mjs).
find_program(NPM npm REQUIRED)
find_program(NODE node REQUIRED)
set(page_room ${CMAKE_CURRENT_SOURCE_DIR}/page)
set(page_libraries ${page_room}/node_modules/.package-lock.json)
set(page_core ${PROJECT_BINARY_DIR}/standtrue_core.js)
set(page_file ${PROJECT_BINARY_DIR}/standtrue.html)
file(GLOB page_sources CONFIGURE_DEPENDS ${page_room}/*.ts ${page_room}/*.mjs ${page_room}/*.css
     ${page_room}/*.html ${PROJECT_SOURCE_DIR}/reference/*.yaml ${PROJECT_SOURCE_DIR}/examples/*.yaml)

add_custom_command(
  OUTPUT ${page_libraries}
  COMMAND ${NPM} ci --ignore-scripts --no-audit --no-fund
  WORKING_DIRECTORY ${page_room}
  DEPENDS ${page_room}/package-lock.json
  COMMENT "Fetching what the page is made with"
  VERBATIM)
add_custom_command(
  OUTPUT ${page_file}
  COMMAND ${NODE} ${page_room}/node_modules/typescript/bin/tsc --noEmit -p ${page_room}
  COMMAND ${NODE} ${page_room}/build.mjs ${page_core} ${page_file}
  DEPENDS ${page_sources} ${page_room}/tsconfig.json ${page_libraries} standtrue_core
  COMMENT "The page, build/page/standtrue.html"
  VERBATIM)
add_custom_target(page ALL DEPENDS ${page_file})
