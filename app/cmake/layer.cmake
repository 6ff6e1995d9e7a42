# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
#
# One target per folder, so that the linker keeps the direction of dependencies.

add_library(ramplight_warnings INTERFACE)
target_compile_options(ramplight_warnings INTERFACE
    -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wshadow -Wnon-virtual-dtor -Werror)

option(RAMPLIGHT_SANITIZE "Build with address and undefined-behaviour sanitizers" OFF)
if(RAMPLIGHT_SANITIZE)
    add_compile_options(-fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
    add_link_options(-fsanitize=address,undefined)
endif()

# ramplight_layer(NAME <layer> SOURCES ... [PUBLIC libs...] [PRIVATE libs...] [PCH headers...])
# makes ramplight_<layer> with the alias Ramplight::<layer>; includes start at app/.
function(ramplight_layer)
    cmake_parse_arguments(ARG "" "NAME" "SOURCES;PUBLIC;PRIVATE;PCH" ${ARGN})
    set(target ramplight_${ARG_NAME})
    add_library(${target} STATIC ${ARG_SOURCES})
    add_library(Ramplight::${ARG_NAME} ALIAS ${target})
    target_include_directories(${target} PUBLIC ${PROJECT_SOURCE_DIR}/app)
    target_link_libraries(${target} PUBLIC ${ARG_PUBLIC} PRIVATE ramplight_warnings ${ARG_PRIVATE})
    if(ARG_PCH)
        target_precompile_headers(${target} PRIVATE ${ARG_PCH})
    endif()
endfunction()

# ramplight_test(NAME tst_x SOURCES ... LIBS ... [LABELS ...] [TIMEOUT s] [ENVIRONMENT ...])
# makes one Qt Test program and registers it with CTest.
function(ramplight_test)
    cmake_parse_arguments(ARG "" "NAME;TIMEOUT" "SOURCES;LIBS;LABELS;ENVIRONMENT" ${ARGN})
    if(NOT ARG_TIMEOUT)
        set(ARG_TIMEOUT 120)
    endif()
    add_executable(${ARG_NAME} ${ARG_SOURCES})
    target_link_libraries(${ARG_NAME} PRIVATE ramplight_warnings Qt6::Test ${ARG_LIBS})
    target_compile_definitions(${ARG_NAME} PRIVATE
        RAMPLIGHT_SOURCE_DIR="${PROJECT_SOURCE_DIR}")
    add_test(NAME ${ARG_NAME} COMMAND ${ARG_NAME})
    set_tests_properties(${ARG_NAME} PROPERTIES
        TIMEOUT ${ARG_TIMEOUT}
        LABELS "${ARG_LABELS}"
        ENVIRONMENT "QT_QPA_PLATFORM=offscreen;QT_QUICK_BACKEND=software;${ARG_ENVIRONMENT}")
endfunction()
