# What a project that says find_package(acrewright) gets: acrewright::lang and acrewright::engine, with what they link.
include(CMakeFindDependencyMacro)
find_dependency(Threads)
find_dependency(fmt 9)
find_dependency(PkgConfig)
pkg_check_modules(geographiclib QUIET IMPORTED_TARGET geographiclib)
pkg_check_modules(polyclipping QUIET IMPORTED_TARGET polyclipping)
pkg_check_modules(sodium QUIET IMPORTED_TARGET libsodium)
include(${CMAKE_CURRENT_LIST_DIR}/acrewright-targets.cmake)
