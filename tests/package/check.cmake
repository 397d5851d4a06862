# Installs the build into a folder of the build tree, builds the consumer against it, runs it and the installed program.
# cmake -DBUILD=... -DSOURCE=... -DPREFIX_VARIABLES=... -P check.cmake
set(prefix ${BUILD}/package/prefix)
file(REMOVE_RECURSE ${BUILD}/package)
function(run)
  execute_process(COMMAND ${ARGV} RESULT_VARIABLE result OUTPUT_VARIABLE output ERROR_VARIABLE output)
  if(NOT result EQUAL 0)
    message(FATAL_ERROR "${ARGV}\n${output}")
  endif()
endfunction()
run(${CMAKE_COMMAND} --install ${BUILD} --prefix ${prefix})
run(${CMAKE_COMMAND} -S ${SOURCE}/tests/package -B ${BUILD}/package/consumer -G Ninja -DCMAKE_PREFIX_PATH=${prefix} -DCMAKE_CXX_COMPILER=${COMPILER})
run(${CMAKE_COMMAND} --build ${BUILD}/package/consumer)
run(${BUILD}/package/consumer/consumer)
run(${BUILD}/package/consumer/reader)
# A job far from any models folder finds those that were installed with the program.
file(WRITE ${BUILD}/package/far/away.job "job \"Far away\"\nmodel \"deep-rip\"\nseason \"2027\"\n")
file(COPY ${SOURCE}/examples/2027.season DESTINATION ${BUILD}/package/far)
run(${prefix}/bin/acrewright check ${BUILD}/package/far/away.job)
