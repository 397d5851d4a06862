# Run by the build with -DROOT -DVERSION -DOUT: writes page_parts.cpp, or with -DSTAMP_ONLY the
# stamp alone. The stamp is of all sources that an answer comes from, so that a module built from
# others is told from one that is this program's own.
file(GLOB_RECURSE sources ${ROOT}/lang/*.cpp ${ROOT}/lang/*.h ${ROOT}/lang/*.def
  ${ROOT}/engine/*.cpp ${ROOT}/engine/*.h ${ROOT}/engine/*.def ${ROOT}/cli/*_json.cpp
  ${ROOT}/cli/module/*.cpp ${ROOT}/cli/module/*.h ${ROOT}/cli/module/wasm/*)
list(SORT sources)
set(sums "")
foreach(source IN LISTS sources)
  file(SHA256 ${source} sum)
  string(APPEND sums ${sum})
endforeach()
string(SHA256 sum "${sums}")
string(SUBSTRING ${sum} 0 12 sum)
set(stamp "${VERSION}-${sum}")
if(STAMP_ONLY)
  file(WRITE ${OUT} "${stamp}\n")
  return()
endif()

# A string literal may hold 64 KiB by the standard: a file is one, and they stand side by side.
function(part name)
  set(text "")
  foreach(path IN LISTS ARGN)
    file(READ ${path} words)
    string(LENGTH "${words}" length)
    if(length GREATER 32000)
      message(FATAL_ERROR "${path} is larger than 32,000 bytes: split it")
    endif()
    string(APPEND text "    out += R\"part(${words})part\";\n")
  endforeach()
  set(body "${body}std::string_view ${name}() {\n    static const std::string all = [] {\n    std::string out;\n${text}    return out;\n    }();\n    return all;\n}\n\n" PARENT_SCOPE)
endfunction()

file(GLOB styles ${ROOT}/cli/page/look/*.css)
file(GLOB scripts ${ROOT}/cli/page/script/*.js)
list(REMOVE_ITEM scripts ${ROOT}/cli/page/script/engine.js ${ROOT}/cli/page/script/main.js)
# What lists the places stands before them, what starts them behind; the rest in order of names.
set(first ${ROOT}/cli/page/script/show.js ${ROOT}/cli/page/script/state.js ${ROOT}/cli/page/script/band.js
  ${ROOT}/cli/page/script/price_place.js ${ROOT}/cli/page/script/options_place.js
  ${ROOT}/cli/page/script/costs_place.js ${ROOT}/cli/page/script/risk_place.js)
list(REMOVE_ITEM scripts ${first})
set(body "// Made by cli/page/parts.cmake from cli/page/look and cli/page/script.\n#include \"cli/page/parts.h\"\n\n#include <string>\n\nnamespace acre::cli {\n\n")
part(page_style ${styles})
part(engine_script ${ROOT}/cli/page/script/engine.js)
part(page_script ${first} ${scripts} ${ROOT}/cli/page/script/main.js)
string(APPEND body "std::string_view source_stamp() {\n    return \"${stamp}\";\n}\n\n} // namespace acre::cli\n")
file(WRITE ${OUT} "${body}")
