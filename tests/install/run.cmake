# Installs the build into an empty prefix, then builds and runs the outside project there.
function(run)
    execute_process(COMMAND ${ARGN} RESULT_VARIABLE result OUTPUT_VARIABLE output
        ERROR_VARIABLE output)
    if(NOT result EQUAL 0)
        list(JOIN ARGN " " line)
        message(FATAL_ERROR "failed (${result}): ${line}\n${output}")
    endif()
    set(output "${output}" PARENT_SCOPE)
endfunction()

set(prefix ${WORK_DIR}/prefix)
file(REMOVE_RECURSE ${WORK_DIR})
run(${CMAKE_COMMAND} --install ${BUILD_DIR} --prefix ${prefix})

# Nothing but the public face goes out.
file(GLOB_RECURSE headers RELATIVE ${prefix}/include ${prefix}/include/*)
foreach(header IN LISTS headers)
    if(NOT header MATCHES "^flattail/[a-z_]+\\.h$")
        message(FATAL_ERROR "a header that is not public was installed: ${header}")
    endif()
endforeach()

# A prefix that was moved must still be found.
file(RENAME ${prefix} ${WORK_DIR}/moved)
set(prefix ${WORK_DIR}/moved)
run(${CMAKE_COMMAND} -S ${OUTSIDE_DIR} -B ${WORK_DIR}/outside -D CMAKE_CXX_COMPILER=${CXX}
    -D CMAKE_PREFIX_PATH=${prefix} -D flattail_INCLUDE=${prefix}/include)
run(${CMAKE_COMMAND} --build ${WORK_DIR}/outside)
run(${WORK_DIR}/outside/outside)

if(HAS_PROGRAM)
    run(${prefix}/bin/flattail --version)
    if(NOT output MATCHES "${VERSION}")
        message(FATAL_ERROR "the installed program is not version ${VERSION}: ${output}")
    endif()
endif()
message("installed, found, built and run from outside")
