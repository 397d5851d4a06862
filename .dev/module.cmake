# Debian's emscripten as a toolchain, with what the machine finds by itself left out.
set(CMAKE_SYSTEM_NAME Generic)
set(CMAKE_SYSTEM_PROCESSOR wasm32)
set(CMAKE_CXX_COMPILER /usr/bin/em++)
set(CMAKE_AR /usr/bin/emar)
set(CMAKE_RANLIB /usr/bin/emranlib)
# It has been tried, and it runs nothing that cmake could ask.
set(CMAKE_CXX_COMPILER_FORCED TRUE)
